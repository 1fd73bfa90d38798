use std::collections::BTreeMap;
use std::fmt::Write;
use std::fs;
use std::io;
use std::path::Path;

use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};

use super::error::{Action, OutputError, at};
use super::path;

/// File name of the list, in the output folder.
const NAME: &str = ".levelcup-files.json";

/// What levelcup wrote into a folder: relative path and SHA-256 of the contents, in order of path.
#[derive(Debug, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Manifest {
    files: BTreeMap<String, String>,
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

    pub(super) fn files(&self) -> impl Iterator<Item = (&str, &str)> {
        self.files.iter().map(|(path, hash)| (path.as_str(), hash.as_str()))
    }

    pub(super) fn add(&mut self, path: &str, hash: &str) {
        self.files.insert(path.into(), hash.into());
    }

    pub(super) fn forget(&mut self, path: &str) {
        self.files.remove(path);
    }
}

/// SHA-256 as 64 hexadecimal digits.
pub(super) fn hash(bytes: &[u8]) -> String {
    let mut text = String::with_capacity(64);
    for byte in Sha256::digest(bytes) {
        write!(text, "{byte:02x}").expect("writing to a string cannot fail");
    }
    text
}

#[cfg(test)]
mod tests {
    use super::hash;

    /// Source: FIPS 180-2, appendix B.1.
    #[test]
    fn hash_is_sha_256() {
        assert_eq!(hash(b"abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    }
}
