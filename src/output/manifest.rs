use std::collections::BTreeMap;
use std::fs::{self, Metadata};
use std::path::Path;

use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};

use super::error::{Action, OutputError, at};
use super::{files, path};

/// File name of the list, in the output folder.
const NAME: &str = ".levelcup-files.json";

/// SHA-256.
pub type Hash = [u8; 32];

/// What a file holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Fingerprint {
    pub(super) hash: Hash,
    pub(super) bytes: u64,
}

impl Fingerprint {
    pub(super) fn of(bytes: &[u8]) -> Self {
        Self { hash: Sha256::digest(bytes).into(), bytes: bytes.len() as u64 }
    }
}

/// When a file was last changed, in nanoseconds since 1970, as the file system tells it.
///
/// Where the system keeps a time of change that nobody can set, it is that one: an editor may put the time of writing
/// back, and a copy may keep it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Time(u64);

impl Time {
    /// `None` where the file system does not tell, or tells a time before 1970 or after 2554.
    pub(super) fn of(file: &Metadata) -> Option<Self> {
        changed(file).map(Self)
    }
}

#[cfg(unix)]
fn changed(file: &Metadata) -> Option<u64> {
    use std::os::unix::fs::MetadataExt;
    let seconds = u64::try_from(file.ctime()).ok()?;
    seconds.checked_mul(1_000_000_000)?.checked_add(u64::try_from(file.ctime_nsec()).ok()?)
}

#[cfg(not(unix))]
fn changed(file: &Metadata) -> Option<u64> {
    let since = file.modified().ok()?.duration_since(std::time::UNIX_EPOCH).ok()?;
    u64::try_from(since.as_nanos()).ok()
}

/// A file of the list.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(into = "String", try_from = "String")]
pub(super) struct Listed {
    pub(super) mark: Fingerprint,
    /// As found after writing; `None` where that is not known, or the file may not be in place yet.
    pub(super) time: Option<Time>,
}

/// 64 hexadecimal digits, the length and the time: `ba78… 3 1782345678000000000`; no time where there is none.
impl From<Listed> for String {
    fn from(listed: Listed) -> Self {
        const DIGITS: &[u8; 16] = b"0123456789abcdef";
        let digits = listed.mark.hash.iter().flat_map(|byte| [byte >> 4, byte & 15]);
        let mut text: String = digits.map(|digit| char::from(DIGITS[usize::from(digit)])).collect();
        text.push_str(&format!(" {}", listed.mark.bytes));
        if let Some(Time(nanoseconds)) = listed.time {
            text.push_str(&format!(" {nanoseconds}"));
        }
        text
    }
}

impl TryFrom<String> for Listed {
    type Error = &'static str;

    fn try_from(text: String) -> Result<Self, Self::Error> {
        const FAULT: &str = "a file is listed with its SHA-256, its length and its time";
        let mut parts = text.split(' ');
        let digits = parts.next().filter(|digits| digits.len() == 64 && digits.is_ascii()).ok_or(FAULT)?;
        let mut hash = [0; 32];
        for (at, byte) in hash.iter_mut().enumerate() {
            *byte = u8::from_str_radix(&digits[at * 2..at * 2 + 2], 16).map_err(|_| FAULT)?;
        }
        let bytes = parts.next().and_then(|length| length.parse().ok()).ok_or(FAULT)?;
        let time = parts.next().map(str::parse).transpose().map_err(|_| FAULT)?.map(Time);
        if parts.next().is_some() { Err(FAULT) } else { Ok(Self { mark: Fingerprint { hash, bytes }, time }) }
    }
}

/// What levelcup wrote into a folder, in order of path.
#[derive(Debug, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Manifest {
    files: BTreeMap<String, Listed>,
}

impl Manifest {
    /// The list in `folder`, empty where there is none.
    pub(super) fn read(folder: &Path) -> Result<Self, OutputError> {
        let place = folder.join(NAME);
        let Some(bytes) = files::present(&place)? else { return Ok(Self::default()) };
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
        files::write(&staged, &text)?;
        files::place(&staged, &folder.join(NAME))
    }

    /// Removes the list of a folder in which nothing is listed.
    pub(super) fn remove(folder: &Path) -> Result<(), OutputError> {
        let place = folder.join(NAME);
        fs::remove_file(&place).map_err(at(Action::Remove, &place))
    }

    pub(super) fn listed(&self, path: &str) -> Option<Listed> {
        self.files.get(path).copied()
    }

    pub(super) fn files(&self) -> impl Iterator<Item = (&str, Listed)> {
        self.files.iter().map(|(path, listed)| (path.as_str(), *listed))
    }

    pub(super) fn is_empty(&self) -> bool {
        self.files.is_empty()
    }

    pub(super) fn add(&mut self, path: &str, listed: Listed) {
        match self.files.get_mut(path) {
            Some(known) => *known = listed,
            None => drop(self.files.insert(path.into(), listed)),
        }
    }

    pub(super) fn forget(&mut self, path: &str) {
        self.files.remove(path);
    }
}

#[cfg(test)]
mod tests {
    use super::{Fingerprint, Listed, Time};

    /// Source: FIPS 180-2, appendix B.1.
    #[test]
    fn a_file_is_listed_with_its_sha_256_its_length_and_its_time() {
        let digits = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
        let listed = |time| Listed { mark: Fingerprint::of(b"abc"), time };
        for (listed, end) in [(listed(None), " 3"), (listed(Some(Time(17))), " 3 17")] {
            let text = String::from(listed);
            assert_eq!(text, format!("{digits}{end}"));
            assert_eq!(Listed::try_from(text), Ok(listed));
        }
        for wrong in ["", "ab 3", digits, &format!("{digits} x"), &format!("{digits} 3 x"), &format!("{digits} 3 1 1")]
        {
            assert!(Listed::try_from((*wrong).to_owned()).is_err(), "{wrong}");
        }
    }
}
