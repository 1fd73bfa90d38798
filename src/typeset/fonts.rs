//! The faces that cards are set in, parsed once for the whole program.

use std::sync::{LazyLock, OnceLock};

use harfrust::{Direction, Feature, Font, Script, ShapePlan, Tag};

/// A face of Libertinus Serif.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Face {
    /// Running text.
    Regular,
    /// Emphasis, the summary.
    Italic,
    /// Strong text, headings.
    Semibold,
    /// Emphasis within strong text.
    SemiboldItalic,
}

impl Face {
    pub(crate) const ALL: [Self; 4] = [Self::Regular, Self::Italic, Self::Semibold, Self::SemiboldItalic];

    /// The PostScript name.
    pub(crate) fn name(self) -> &'static str {
        match self {
            Self::Regular => "LibertinusSerif-Regular",
            Self::Italic => "LibertinusSerif-Italic",
            Self::Semibold => "LibertinusSerif-Semibold",
            Self::SemiboldItalic => "LibertinusSerif-SemiboldItalic",
        }
    }

    /// Weight class of the face, 100 to 900.
    pub(crate) fn weight(self) -> u16 {
        match self {
            Self::Regular | Self::Italic => 400,
            Self::Semibold | Self::SemiboldItalic => 600,
        }
    }

    /// The whole font file.
    pub(crate) fn bytes(self) -> &'static [u8] {
        match self {
            Self::Regular => include_bytes!(concat!(env!("OUT_DIR"), "/LibertinusSerif-Regular.otf")),
            Self::Italic => include_bytes!(concat!(env!("OUT_DIR"), "/LibertinusSerif-Italic.otf")),
            Self::Semibold => include_bytes!(concat!(env!("OUT_DIR"), "/LibertinusSerif-Semibold.otf")),
            Self::SemiboldItalic => {
                include_bytes!(concat!(env!("OUT_DIR"), "/LibertinusSerif-SemiboldItalic.otf"))
            }
        }
    }

    /// This face within emphasis: upright and italic change places.
    pub(crate) fn emphasised(self) -> Self {
        match self {
            Self::Regular => Self::Italic,
            Self::Italic => Self::Regular,
            Self::Semibold => Self::SemiboldItalic,
            Self::SemiboldItalic => Self::Semibold,
        }
    }

    /// This face within strong text.
    pub(crate) fn strong(self) -> Self {
        match self {
            Self::Regular | Self::Semibold => Self::Semibold,
            Self::Italic | Self::SemiboldItalic => Self::SemiboldItalic,
        }
    }

    /// Whether the face has a glyph for a character.
    pub(crate) fn covers(self, character: char) -> bool {
        self.font().charmap().map_unicode(character).is_some_and(|glyph| glyph.to_u32() != 0)
    }

    /// The parsed font.
    pub(crate) fn font(self) -> &'static Font {
        &self.loaded().font
    }

    /// The shaping plan for Latin text with the features of a numeral style.
    pub(crate) fn plan(self, figures: Figures) -> &'static ShapePlan {
        let loaded = self.loaded();
        loaded.plans[figures as usize].get_or_init(|| {
            ShapePlan::new(&loaded.font, Direction::LeftToRight, Some(Script::LATIN), None, figures.features())
        })
    }

    fn loaded(self) -> &'static Loaded {
        &FONTS[self as usize]
    }
}

/// Which figures and letter forms a stretch of text takes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub(crate) enum Figures {
    /// Proportional figures, for running text.
    Running,
    /// Figures of one width, for columns of weights.
    Tabular,
    /// Small capitals, spaced, for column headings.
    Caps,
    /// A fraction, whose slash brings its own features; `pnum` would undo them.
    Fraction,
}

impl Figures {
    /// OpenType features beyond those a shaper applies by itself (kerning, ligatures).
    pub(crate) fn features(self) -> &'static [Feature] {
        static RUNNING: LazyLock<[Feature; 1]> = LazyLock::new(|| [Feature::new(Tag::new(b"pnum"), 1, ..)]);
        static TABULAR: LazyLock<[Feature; 1]> = LazyLock::new(|| [Feature::new(Tag::new(b"tnum"), 1, ..)]);
        // Ligatures would defeat the letter spacing.
        static CAPS: LazyLock<[Feature; 3]> = LazyLock::new(|| {
            [
                Feature::new(Tag::new(b"smcp"), 1, ..),
                Feature::new(Tag::new(b"c2sc"), 1, ..),
                Feature::new(Tag::new(b"liga"), 0, ..),
            ]
        });
        match self {
            Self::Running => &*RUNNING,
            Self::Tabular => &*TABULAR,
            Self::Caps => &*CAPS,
            Self::Fraction => &[],
        }
    }

    /// Size beside that of the text around. The face draws fractions small; at arm's length a half must not be
    /// taken for a third.
    pub(crate) fn scale(self) -> f32 {
        if self == Self::Fraction { 1.16 } else { 1.0 }
    }

    /// Space added after each glyph, in thousandths of an em.
    pub(crate) fn tracking(self) -> f32 {
        if self == Self::Caps { 60.0 } else { 0.0 }
    }
}

struct Loaded {
    font: Font,
    plans: [OnceLock<ShapePlan>; 4],
}

static FONTS: LazyLock<[Loaded; 4]> = LazyLock::new(|| {
    Face::ALL.map(|face| Loaded {
        font: Font::new(face.bytes(), 0).expect("the embedded faces are whole font files"),
        plans: [const { OnceLock::new() }; 4],
    })
});
