/// Names less alike than this are no help, by Jaro–Winkler similarity. Rule of the house.
const ALIKE: f64 = 0.8;

/// How often each character is in a name; characters that share a slot count as one.
type Counts = [u8; 64];

/// A name that others are measured against.
pub(super) struct Sought<'n> {
    name: &'n str,
    length: f64,
    counts: Counts,
}

impl<'n> Sought<'n> {
    pub(super) fn new(name: &'n str) -> Self {
        Self { name, length: name.chars().count() as f64, counts: counts(name) }
    }

    /// How much a name is like this one, where it is enough to be of help.
    pub(super) fn likeness(&self, known: &str) -> Option<f64> {
        if self.at_most(known) < ALIKE {
            return None;
        }
        Some(strsim::jaro_winkler(self.name, known)).filter(|likeness| *likeness > ALIKE)
    }

    /// What the likeness cannot exceed: as if every character that both have stood in its place. It is told at a
    /// fraction of the cost, and rules out nearly every name.
    fn at_most(&self, known: &str) -> f64 {
        let common: u32 = self.counts.iter().zip(counts(known)).map(|(one, other)| u32::from(*one.min(&other))).sum();
        let common = f64::from(common);
        if common == 0.0 {
            return 0.0;
        }
        let length = known.chars().count() as f64;
        let jaro = ((common / self.length + common / length + 1.0) / 3.0).min(1.0);
        let same = self.name.chars().zip(known.chars()).take(4).take_while(|(one, other)| one == other).count();
        // A little more than it is, for the rounding of either sum.
        jaro + 0.1 * same as f64 * (1.0 - jaro) + 1e-9
    }
}

fn counts(name: &str) -> Counts {
    let mut counts = [0_u8; 64];
    for c in name.chars() {
        let slot = &mut counts[c as usize % 64];
        *slot = slot.saturating_add(1);
    }
    counts
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::pantry::Pantry;

    #[test]
    fn nothing_alike_is_ruled_out() {
        let pantry = Pantry::embedded();
        for name in ["chese", "buckweat flour", "yeast", "crème fraiche", "", "é", "zorbium flakes", "vanila extract"]
        {
            let wanted = Sought::new(name);
            for known in pantry.rows().iter().flat_map(|row| &row.names) {
                let plain = Some(strsim::jaro_winkler(name, known)).filter(|likeness| *likeness > ALIKE);
                assert_eq!(wanted.likeness(known), plain, "{name}, {known}");
            }
        }
    }
}
