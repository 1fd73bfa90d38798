use jiff::civil::Date;

/// An ISO 8601 date as RFC 3339 date and time, midnight UTC; `None` where it is no date.
pub(super) fn rfc3339(iso: &str) -> Option<String> {
    iso.parse::<Date>().ok().map(|date| format!("{date}T00:00:00Z"))
}

#[cfg(test)]
mod tests {
    use super::rfc3339;

    #[test]
    fn dates_are_midnight_in_feeds() {
        assert_eq!(rfc3339("2026-07-04").as_deref(), Some("2026-07-04T00:00:00Z"));
        assert_eq!(rfc3339("2026-02-30"), None);
    }
}
