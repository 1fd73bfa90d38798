use std::str::FromStr;

use super::TypesetError;

/// The edge of the sheet on which a printer turns it over.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Flip {
    /// As most printers do by themselves.
    Long,
    /// As for a calendar that hangs upright.
    Short,
}

impl FromStr for Flip {
    type Err = TypesetError;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        match text {
            "long" => Ok(Self::Long),
            "short" => Ok(Self::Short),
            _ => Err(TypesetError::UnknownEdge(text.to_owned())),
        }
    }
}
