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

    /// The parts of a number of seconds that are not nothing, the largest first: how many, and of which of days, hours,
    /// minutes and seconds (0 to 3). Days only from 48 hours up.
    pub fn parts(seconds: u64) -> Vec<(u64, usize)> {
        let (days, rest) = if seconds >= 2 * DAY { (seconds / DAY, seconds % DAY) } else { (0, seconds) };
        let parts = [days, rest / HOUR, rest % HOUR / MINUTE, rest % MINUTE];
        parts.into_iter().enumerate().filter(|(_, number)| *number > 0).map(|(unit, number)| (number, unit)).collect()
    }

    /// Both ends in the one unit that both are whole numbers of, where there is one; the unit as in [`Duration::parts`].
    pub fn shared(self) -> Option<(u64, u64, usize)> {
        let sizes = [DAY, HOUR, MINUTE, 1].into_iter().enumerate();
        let mut fitting = sizes.filter(|(_, size)| {
            let whole = self.low.is_multiple_of(*size) && self.high.is_multiple_of(*size) && self.low >= *size;
            whole && !(*size == DAY && self.low < 2 * DAY) && !(*size == 1 && self.high >= 3 * MINUTE)
        });
        fitting.next().map(|(unit, size)| (self.low / size, self.high / size, unit))
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
