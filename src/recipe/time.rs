use crate::measure::{Duration, LARGEST};

/// A text that is no duration.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("`{0}` is not a length of time")]
pub struct TimeError(pub String);

const MINUTE: u64 = 60;
const HOUR: u64 = 60 * MINUTE;
const DAY: u64 = 24 * HOUR;

/// `overnight` in hours. Common practice.
const OVERNIGHT: (u64, u64) = (8, 12);

/// Reads `22–25 min`, `1 h 30 min`, `1 1/2 hours`, `90 s`, `overnight`, `2 days`, `1:30 h`.
///
/// # Errors
/// [`TimeError`] for anything else.
pub fn duration(text: &str) -> Result<Duration, TimeError> {
    let lower = text.trim().to_lowercase();
    let lower = lower.trim_start_matches("about ").trim_start_matches("at least ");
    if lower == "overnight" {
        return Ok(Duration { low: OVERNIGHT.0 * HOUR, high: OVERNIGHT.1 * HOUR });
    }
    read(lower).ok_or_else(|| TimeError(text.trim().into()))
}

/// One or more `number[–number] unit`, added up.
fn read(text: &str) -> Option<Duration> {
    let mut rest = text.trim();
    let mut total = Duration::default();
    let mut any = false;
    while !rest.is_empty() {
        let (low, after) = number(rest)?;
        let mut high = low;
        rest = after.trim_start();
        if let Some(after) = range_mark(rest)
            && let Some((end, after)) = number(after.trim_start())
        {
            high = end;
            rest = after.trim_start();
        }
        let (unit, after) = unit(rest)?;
        if let Some((end, after)) = range_mark(after.trim_start()).and_then(|rest| number(rest.trim_start())) {
            // `1 h to 90 min`: the other end has its own unit.
            let (other, after) = self::unit(after.trim_start())?;
            total = total.plus(seconds(low, end, unit, other)?);
            rest = after;
        } else {
            total = total.plus(seconds(low, high, unit, unit)?);
            rest = after;
        }
        any = true;
        rest = rest.trim_start_matches(['.', ',', ' ']).trim_start();
        rest = rest.strip_prefix("and ").unwrap_or(rest).trim_start();
    }
    (any && total.low <= total.high && total.high > 0).then_some(total)
}

fn seconds(low: f64, high: f64, low_unit: u64, high_unit: u64) -> Option<Duration> {
    let seconds = |n: f64, unit: u64| (n * unit as f64).round() as u64;
    (low <= LARGEST as f64 && high <= LARGEST as f64)
        .then(|| Duration { low: seconds(low, low_unit), high: seconds(high, high_unit) })
}

fn range_mark(text: &str) -> Option<&str> {
    ["–", "-", "—", "to ", "or "].iter().find_map(|mark| text.strip_prefix(mark))
}

/// A number at the start: whole, decimal, `1/2`, `1 1/2`, `1½`. Halves of hours are exact in seconds.
fn number(text: &str) -> Option<(f64, &str)> {
    let (whole, rest) = digits(text).map_or((None, text), |(n, rest)| (Some(n), rest));
    if let Some((under, after)) = rest.strip_prefix('/').and_then(digits) {
        return (under > 0.0).then(|| (whole.unwrap_or_default() / under, after));
    }
    let part = rest.trim_start();
    for (sign, value) in [('½', 0.5), ('¼', 0.25), ('¾', 0.75), ('⅓', 1.0 / 3.0), ('⅔', 2.0 / 3.0)] {
        if let Some(after) = part.strip_prefix(sign) {
            return Some((whole.unwrap_or_default() + value, after));
        }
    }
    if let Some((over, after)) = digits(part)
        && let Some((under, after)) = after.strip_prefix('/').and_then(digits)
        && under > 0.0
    {
        return Some((whole? + over / under, after));
    }
    Some((whole?, rest))
}

fn digits(text: &str) -> Option<(f64, &str)> {
    let end = text.find(|c: char| !(c.is_ascii_digit() || c == '.' || c == ',')).unwrap_or(text.len());
    let end = text[..end].trim_end_matches(['.', ',']).len();
    let value = text[..end].replace(',', ".").parse().ok()?;
    Some((value, &text[end..]))
}

fn unit(text: &str) -> Option<(u64, &str)> {
    let end = text.find(|c: char| !c.is_alphabetic()).unwrap_or(text.len());
    let seconds = match &text[..end] {
        "s" | "sec" | "secs" | "second" | "seconds" => 1,
        "m" | "min" | "mins" | "minute" | "minutes" => MINUTE,
        "h" | "hr" | "hrs" | "hour" | "hours" => HOUR,
        "d" | "day" | "days" => DAY,
        "week" | "weeks" => 7 * DAY,
        "night" | "nights" => DAY,
        _ => return None,
    };
    Some((seconds, &text[end..]))
}

/// Reads a timestamp of a video, `2:35` or `1:02:35`, as seconds.
///
/// # Errors
/// [`TimeError`] for anything else, or minutes and seconds of sixty and more.
pub fn timestamp(text: &str) -> Result<u32, TimeError> {
    let error = || TimeError(text.trim().into());
    let parts: Vec<&str> = text.trim().split(':').collect();
    if !(2..=3).contains(&parts.len()) {
        return Err(error());
    }
    let mut total = 0_u32;
    for (place, part) in parts.iter().enumerate() {
        let digits = (1..=2).contains(&part.len()) && part.bytes().all(|b| b.is_ascii_digit());
        let value: u32 = part.parse().map_err(|_| error())?;
        if !digits || (place > 0 && (value >= 60 || part.len() != 2)) {
            return Err(error());
        }
        total = total * 60 + value;
    }
    Ok(total)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn durations_as_written() {
        let case = |text: &str, low, high| assert_eq!(duration(text), Ok(Duration { low, high }), "{text}");
        case("22–25 min", 1320, 1500);
        case("12-15 mins", 720, 900);
        case("1 h", 3600, 3600);
        case("1 h 30 min", 5400, 5400);
        case("1 1/2 hours", 5400, 5400);
        case("1½ h", 5400, 5400);
        case("90 s", 90, 90);
        case("overnight", 28_800, 43_200);
        case("2 to 3 days", 172_800, 259_200);
        case("1 h to 90 min", 3600, 5400);
        for bad in ["", "soon", "5", "h", "3 to 2 h", "1/0 h", "99999999999 h"] {
            assert!(duration(bad).is_err(), "{bad}");
        }
    }

    #[test]
    fn timestamps_as_written() {
        assert_eq!(timestamp("2:35"), Ok(155));
        assert_eq!(timestamp("1:02:35"), Ok(3755));
        for bad in ["2", "2:60", "2:5", "a:00", "1:2:3:4", "-1:00", ":30"] {
            assert!(timestamp(bad).is_err(), "{bad}");
        }
    }
}
