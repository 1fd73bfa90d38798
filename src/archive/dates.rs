use jiff::civil::Date;

/// An ISO 8601 date for reading, `4 July 2026`; as written where it is no date.
pub(super) fn for_reading(iso: &str) -> String {
    iso.parse::<Date>().map_or_else(|_| iso.into(), |date| date.strftime("%-d %B %Y").to_string())
}

/// An ISO 8601 date as RFC 3339 date and time, midnight UTC; `None` where it is no date.
pub(super) fn rfc3339(iso: &str) -> Option<String> {
    iso.parse::<Date>().ok().map(|date| format!("{date}T00:00:00Z"))
}

#[cfg(test)]
mod tests {
    use super::{for_reading, rfc3339};

    #[test]
    fn dates_are_read_and_written() {
        assert_eq!(for_reading("2026-07-04"), "4 July 2026");
        assert_eq!(for_reading("soon"), "soon");
        assert_eq!(rfc3339("2026-07-04").as_deref(), Some("2026-07-04T00:00:00Z"));
        assert_eq!(rfc3339("2026-02-30"), None);
    }
}
