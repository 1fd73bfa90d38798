use serde::Deserialize;

/// Words of temperatures and lengths in running text.
#[derive(Clone, Debug, Default, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct MeasureWords {
    /// Between a number and its scale, as `°` is: `degrees`.
    pub degrees: Vec<String>,
    /// The one scale.
    pub celsius: Vec<String>,
    /// The other.
    pub fahrenheit: Vec<String>,
    /// Before the number of a dial: `gas 4`.
    pub gas: Vec<String>,
    /// Between the two: `gas mark 4`.
    pub mark: Vec<String>,
    /// An oven with a fan.
    pub fan: Vec<String>,
    /// Between the ends of a range: `160 to 170 °C`.
    pub to: Vec<String>,
    /// Millimetres.
    pub millimetre: Vec<String>,
    /// Centimetres.
    pub centimetre: Vec<String>,
    /// Inches.
    pub inch: Vec<String>,
}

/// How words are joined and parted.
#[derive(Clone, Debug, Default, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub(super) struct Spelling {
    /// Articles and the like before an apostrophe: `l’eau`.
    pub(super) elided: Vec<String>,
    /// Those of them that an ingredient line has.
    pub(super) elided_in_lines: Vec<String>,
    /// Ends of a word that say whose a thing is, with a plain apostrophe.
    pub(super) possessive: Vec<String>,
    /// Beginnings that are a number of what they are joined to: `demi-litre`.
    pub(super) halves: Vec<String>,
    /// What such a beginning is one name with: `demi-sel`.
    pub(super) no_halves: Vec<String>,
}

impl MeasureWords {
    pub(super) fn add(&mut self, other: &Self) {
        self.degrees.extend(other.degrees.iter().cloned());
        self.celsius.extend(other.celsius.iter().cloned());
        self.fahrenheit.extend(other.fahrenheit.iter().cloned());
        self.gas.extend(other.gas.iter().cloned());
        self.mark.extend(other.mark.iter().cloned());
        self.fan.extend(other.fan.iter().cloned());
        self.to.extend(other.to.iter().cloned());
        self.millimetre.extend(other.millimetre.iter().cloned());
        self.centimetre.extend(other.centimetre.iter().cloned());
        self.inch.extend(other.inch.iter().cloned());
    }

    /// Whether a text says that an oven has a fan.
    pub fn says_fan(&self, text: &str) -> bool {
        let words: Vec<String> =
            text.split(|c: char| !c.is_alphabetic()).filter(|word| !word.is_empty()).map(str::to_lowercase).collect();
        self.fan.iter().any(|phrase| {
            let phrase: Vec<&str> = phrase.split(' ').collect();
            words.windows(phrase.len()).any(|said| said == phrase)
        })
    }
}

impl Spelling {
    pub(super) fn add(&mut self, other: &Self) {
        self.elided.extend(other.elided.iter().cloned());
        self.elided_in_lines.extend(other.elided_in_lines.iter().cloned());
        self.possessive.extend(other.possessive.iter().cloned());
        self.halves.extend(other.halves.iter().cloned());
        self.no_halves.extend(other.no_halves.iter().cloned());
    }
}
