/// A text that is no duration.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("`{0}` is not a length of time")]
pub struct TimeError(pub String);

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
    fn timestamps_as_written() {
        assert_eq!(timestamp("2:35"), Ok(155));
        assert_eq!(timestamp("1:02:35"), Ok(3755));
        for bad in ["2", "2:60", "2:5", "a:00", "1:2:3:4", "-1:00", ":30"] {
            assert!(timestamp(bad).is_err(), "{bad}");
        }
    }
}
