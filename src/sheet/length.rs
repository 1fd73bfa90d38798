use super::Length;
use crate::language::Language;
use crate::measure::Duration;

/// A duration as templates see it.
pub(super) fn length(duration: Duration, language: &Language) -> Length {
    Length { text: language.duration(duration), iso: duration.iso(), seconds: duration.high, least: duration.low }
}
