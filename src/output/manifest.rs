use std::collections::BTreeMap;
use std::fs;
use std::io;
use std::path::Path;
use std::time::SystemTime;

use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};

use super::error::{Action, OutputError, at};
use super::path;

/// File name of the list, in the output folder.
const NAME: &str = ".levelcup-files.json";

/// SHA-256.
pub type Hash = [u8; 32];

/// What a file holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(into = "String", try_from = "String")]
pub(super) struct Mark {
    pub(super) hash: Hash,
    pub(super) bytes: u64,
}

impl Mark {
    pub(super) fn of(bytes: &[u8]) -> Self {
        Self { hash: Sha256::digest(bytes).into(), bytes: bytes.len() as u64 }
    }

    /// The same while the file moves into place.
    pub(super) fn unsure(self) -> Self {
        Self { bytes: UNSURE, ..self }
    }
}

/// The length of a file that may not be in place yet.
const UNSURE: u64 = u64::MAX;

/// 64 hexadecimal digits, a space and the length: `ba78… 3`; no length where it is not sure.
impl From<Mark> for String {
    fn from(mark: Mark) -> Self {
        const DIGITS: &[u8; 16] = b"0123456789abcdef";
        let digits = mark.hash.iter().flat_map(|byte| [byte >> 4, byte & 15]);
        let mut text: String = digits.map(|digit| char::from(DIGITS[usize::from(digit)])).collect();
        if mark.bytes != UNSURE {
            text.push(' ');
            text.push_str(&mark.bytes.to_string());
        }
        text
    }
}

impl TryFrom<String> for Mark {
    type Error = &'static str;

    fn try_from(text: String) -> Result<Self, Self::Error> {
        const FAULT: &str = "a file is listed with its SHA-256 and its length";
        let (digits, length) = text.split_once(' ').map_or((&*text, None), |(digits, length)| (digits, Some(length)));
        let mut hash = [0; 32];
        if digits.len() != 64 || !digits.is_ascii() {
            return Err(FAULT);
        }
        for (at, byte) in hash.iter_mut().enumerate() {
            *byte = u8::from_str_radix(&digits[at * 2..at * 2 + 2], 16).map_err(|_| FAULT)?;
        }
        Ok(Self { hash, bytes: length.map_or(Ok(UNSURE), str::parse).map_err(|_| FAULT)? })
    }
}

/// What levelcup wrote into a folder, in order of path.
#[derive(Debug, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Manifest {
    files: BTreeMap<String, Mark>,
}

/// When the list in `folder` was written.
pub(super) fn written(folder: &Path) -> Option<SystemTime> {
    folder.join(NAME).metadata().and_then(|data| data.modified()).ok()
}

impl Manifest {
    /// The list in `folder`, empty where there is none.
    pub(super) fn read(folder: &Path) -> Result<Self, OutputError> {
        let place = folder.join(NAME);
        let bytes = match fs::read(&place) {
            Ok(bytes) => bytes,
            Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(Self::default()),
            Err(error) => return Err(at(Action::Read, &place)(error)),
        };
        let fault = |reason: String| OutputError::Manifest { path: place.clone(), reason };
        let manifest: Self = serde_json::from_slice(&bytes).map_err(|error| fault(error.to_string()))?;
        // The list is read from disk, so it is trusted no more than a path from anywhere else.
        for listed in manifest.files.keys() {
            path::check(listed).map_err(|error| fault(error.to_string()))?;
        }
        Ok(manifest)
    }

    /// Writes the list beside and renames it into place.
    pub(super) fn write(&self, folder: &Path, staging: &Path) -> Result<(), OutputError> {
        let staged = staging.join("files");
        let text = serde_json::to_vec_pretty(self).expect("a map of strings is always JSON");
        super::write(&staged, &text)?;
        super::place(&staged, &folder.join(NAME))
    }

    /// Removes the list of a folder in which nothing is listed.
    pub(super) fn remove(folder: &Path) -> Result<(), OutputError> {
        let place = folder.join(NAME);
        fs::remove_file(&place).map_err(at(Action::Remove, &place))
    }

    pub(super) fn lists(&self, path: &str) -> bool {
        self.files.contains_key(path)
    }

    pub(super) fn mark(&self, path: &str) -> Option<Mark> {
        self.files.get(path).copied()
    }

    pub(super) fn files(&self) -> impl Iterator<Item = (&str, Mark)> {
        self.files.iter().map(|(path, mark)| (path.as_str(), *mark))
    }

    pub(super) fn add(&mut self, path: &str, mark: Mark) {
        self.files.insert(path.into(), mark);
    }

    pub(super) fn forget(&mut self, path: &str) {
        self.files.remove(path);
    }
}

#[cfg(test)]
mod tests {
    use super::Mark;

    /// Source: FIPS 180-2, appendix B.1.
    #[test]
    fn a_mark_is_sha_256_and_the_length() {
        let text = String::from(Mark::of(b"abc"));
        assert_eq!(text, "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad 3");
        assert_eq!(Mark::try_from(text), Ok(Mark::of(b"abc")));
        let unsure = String::from(Mark::of(b"abc").unsure());
        assert_eq!(Mark::try_from(unsure), Ok(Mark::of(b"abc").unsure()));
        for wrong in ["", "ab 3", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad x"] {
            assert!(Mark::try_from(wrong.to_owned()).is_err(), "{wrong}");
        }
    }
}
