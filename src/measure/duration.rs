/// A length of time in seconds, or a range of it.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Duration {
    /// The shorter end.
    pub low: u64,
    /// The longer end; the same for a single duration.
    pub high: u64,
}

const MINUTE: u64 = 60;
const HOUR: u64 = 60 * MINUTE;
const DAY: u64 = 24 * HOUR;

impl Duration {
    /// A single duration.
    pub fn seconds(seconds: u64) -> Self {
        Self { low: seconds, high: seconds }
    }

    /// Both together; saturates.
    pub fn plus(self, other: Self) -> Self {
        Self { low: self.low.saturating_add(other.low), high: self.high.saturating_add(other.high) }
    }

    /// For reading: `1 h 20 min`, `22–25 min`, `2 days`. Days only from 48 hours up.
    pub fn text(self) -> String {
        if self.low == self.high {
            return single(self.high);
        }
        for (size, name) in [(DAY, "days"), (HOUR, "h"), (MINUTE, "min"), (1, "s")] {
            let shared = self.low.is_multiple_of(size) && self.high.is_multiple_of(size) && self.low >= size;
            if shared && !(size == DAY && self.low < 2 * DAY) {
                return format!("{}–{} {name}", self.low / size, self.high / size);
            }
        }
        format!("{} to {}", single(self.low), single(self.high))
    }

    /// ISO 8601-1 duration of the longer end: `PT1H20M`, `P2DT4H`; `PT0S` for nothing.
    pub fn iso(self) -> String {
        let (days, rest) = (self.high / DAY, self.high % DAY);
        let (hours, minutes, seconds) = (rest / HOUR, rest % HOUR / MINUTE, rest % MINUTE);
        let part = |n: u64, letter: char| if n > 0 { format!("{n}{letter}") } else { String::new() };
        let time = [part(hours, 'H'), part(minutes, 'M'), part(seconds, 'S')].concat();
        match (days, time.as_str()) {
            (0, "") => "PT0S".into(),
            (days, "") => format!("P{days}D"),
            (0, time) => format!("PT{time}"),
            (days, time) => format!("P{days}DT{time}"),
        }
    }
}

fn single(seconds: u64) -> String {
    let (days, rest) = if seconds >= 2 * DAY { (seconds / DAY, seconds % DAY) } else { (0, seconds) };
    let parts = [(days, "days"), (rest / HOUR, "h"), (rest % HOUR / MINUTE, "min"), (rest % MINUTE, "s")];
    let said: Vec<String> = parts.iter().filter(|(n, _)| *n > 0).map(|(n, name)| format!("{n} {name}")).collect();
    if said.is_empty() { "0 min".into() } else { said.join(" ") }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn durations_read_and_serialise() {
        let case = |low, high, text: &str, iso: &str| {
            let duration = Duration { low, high };
            assert_eq!((duration.text().as_str(), duration.iso().as_str()), (text, iso));
        };
        case(4800, 4800, "1 h 20 min", "PT1H20M");
        case(1320, 1500, "22–25 min", "PT25M");
        case(3 * DAY, 3 * DAY, "3 days", "P3D");
        case(DAY, DAY, "24 h", "P1D");
        case(8 * HOUR, 12 * HOUR, "8–12 h", "PT12H");
        case(90, 90, "1 min 30 s", "PT1M30S");
        case(45 * MINUTE, HOUR, "45–60 min", "PT1H");
        case(50 * MINUTE, 90 * MINUTE, "50–90 min", "PT1H30M");
        case(0, 0, "0 min", "PT0S");
    }
}
