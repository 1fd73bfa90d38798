use std::sync::Arc;

use crate::source::{SourceError, SourceFault};

/// The largest photograph that is decoded, in pixels a side.
pub(super) const WIDEST: u32 = 12_000;

/// Why a photograph cannot be shown.
#[derive(Clone, Debug, thiserror::Error)]
pub enum PhotoError {
    /// There is no such file.
    #[error("there is no such file")]
    Missing,
    /// Its file may not be read.
    #[error("the file {0}")]
    Unreadable(Arc<SourceFault>),
    /// A picture of a kind that is not read.
    #[error("it is {0}")]
    OtherKind(&'static str),
    /// No picture at all.
    #[error("it is no picture")]
    NoPicture,
    /// More pixels than are decoded.
    #[error("it is larger than {WIDEST} pixels a side")]
    TooLarge,
    /// The file ends before the picture does.
    #[error("it ends before it is whole")]
    CutShort,
    /// Somebody wrote to it while it was used.
    #[error("it changed meanwhile")]
    Changed,
    /// The file is damaged.
    #[error("it is damaged")]
    Damaged,
}

impl PhotoError {
    pub(super) fn source(error: SourceError) -> Self {
        match error.fault {
            SourceFault::Unreadable(cause) if cause.kind() == std::io::ErrorKind::NotFound => Self::Missing,
            fault => Self::Unreadable(Arc::new(fault)),
        }
    }

    /// What to do about it.
    pub fn help(&self) -> &'static str {
        match self {
            Self::Missing => "put the photo there, or mend its name; capitals count",
            Self::Unreadable(_) => "a photo is a plain file in `site/photos/` of at most 32 MiB",
            Self::OtherKind(_) | Self::NoPicture => "save it as JPEG, PNG or WebP",
            Self::TooLarge => "save it smaller; 1600 pixels of width are shown at most",
            Self::Changed => "run this again",
            Self::CutShort | Self::Damaged => "copy it again from where it came from, or save it anew",
        }
    }
}
