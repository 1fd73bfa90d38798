use std::fs::{File, Metadata};
use std::io::Read;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};

use rustc_hash::FxHashMap;

use super::{Source, SourceError, SourceFault};

/// The one way in which files are read: plain files of bounded size, inside the workspace.
///
/// A workspace may come from somebody else, and what it holds may be published: a link must not lead to another file
/// of the machine, nor a pipe or a device keep the program waiting. Clones share what they know of folders.
#[derive(Clone, Debug, Default)]
pub struct Gate {
    /// The folder that all must lie in, without links; none where a person named the file.
    inside: Option<PathBuf>,
    /// Folders that were looked at, and whether they lie inside.
    folders: Arc<Mutex<FxHashMap<PathBuf, bool>>>,
}

impl Gate {
    /// To files that lie in a folder, or that links in it lead to within it.
    ///
    /// # Errors
    /// The folder is not there.
    pub fn to(folder: &Path) -> Result<Self, SourceError> {
        let real = folder.canonicalize().map_err(unreadable(folder))?;
        Ok(Self { inside: Some(real), folders: Arc::default() })
    }

    /// To files that a person names, wherever they lie.
    pub fn anywhere() -> Self {
        Self::default()
    }

    /// A file's bytes.
    ///
    /// # Errors
    /// [`SourceError`]: it cannot be read, is no plain file, lies outside, or has more than `limit` bytes.
    #[allow(clippy::disallowed_methods, reason = "this is the gate")]
    pub fn bytes(&self, path: &Path, limit: u64) -> Result<Vec<u8>, SourceError> {
        let data = self.look(path)?;
        let too_large = |size| fault(path, SourceFault::TooLarge { size, limit });
        if data.len() > limit {
            return Err(too_large(data.len()));
        }
        let file = File::open(path).map_err(unreadable(path))?;
        let mut bytes = Vec::with_capacity(usize::try_from(data.len()).unwrap_or_default());
        // It may grow while it is read.
        file.take(limit + 1).read_to_end(&mut bytes).map_err(unreadable(path))?;
        if bytes.len() as u64 > limit { Err(too_large(bytes.len() as u64)) } else { Ok(bytes) }
    }

    /// A file's text, without the byte order mark that some editors put first; `name` is what people will see of it.
    ///
    /// # Errors
    /// As [`Gate::bytes`] with [`Source::LIMIT`], and a file that is not UTF-8.
    pub fn source(&self, path: &Path, name: impl Into<Arc<str>>) -> Result<Source, SourceError> {
        let bytes = self.bytes(path, Source::LIMIT)?;
        let text = String::from_utf8(bytes).map_err(|error| {
            let offset = error.utf8_error().valid_up_to();
            let line = 1 + error.as_bytes()[..offset].iter().filter(|byte| **byte == b'\n').count();
            fault(path, SourceFault::NotUtf8 { offset, line, bytes: error.into_bytes() })
        })?;
        Ok(Source::new(name, text.strip_prefix('\u{feff}').unwrap_or(&text)))
    }

    /// What the file system tells of a file that may be read.
    ///
    /// # Errors
    /// [`SourceError`]: it is not there, is no plain file, or lies outside.
    pub fn look(&self, path: &Path) -> Result<Metadata, SourceError> {
        let own = path.symlink_metadata().map_err(unreadable(path))?;
        let (data, real) = if own.is_symlink() {
            let real = path.canonicalize().map_err(unreadable(path))?;
            (real.metadata().map_err(unreadable(path))?, real)
        } else {
            (own, path.to_path_buf())
        };
        if !self.lets_in(&real)? {
            return Err(fault(path, SourceFault::Outside));
        }
        if data.is_file() { Ok(data) } else { Err(fault(path, SourceFault::NotPlain)) }
    }

    /// Whether a path stands inside, whatever it may lead to.
    pub fn holds(&self, path: &Path) -> bool {
        let absolute = std::path::absolute(path);
        absolute.is_ok_and(|path| self.lets_in(&path).unwrap_or_default())
    }

    /// Whether a file that is no link lies inside.
    fn lets_in(&self, file: &Path) -> Result<bool, SourceError> {
        let Some(inside) = &self.inside else { return Ok(true) };
        let folder = file.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
        let known = || self.folders.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(known) = known().get(folder) {
            return Ok(*known);
        }
        let lies = folder.canonicalize().map_err(unreadable(file))?.starts_with(inside);
        known().insert(folder.into(), lies);
        Ok(lies)
    }
}

fn unreadable(path: &Path) -> impl FnOnce(std::io::Error) -> SourceError {
    move |cause| fault(path, SourceFault::Unreadable(cause))
}

fn fault(path: &Path, fault: SourceFault) -> SourceError {
    SourceError { path: path.into(), fault }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn refused(read: Result<Vec<u8>, SourceError>) -> SourceFault {
        read.expect_err("a fault").fault
    }

    fn folder(files: &[(&str, &[u8])]) -> tempfile::TempDir {
        let folder = tempfile::tempdir().expect("a temporary folder");
        for (path, bytes) in files {
            let path = folder.path().join(path);
            std::fs::create_dir_all(path.parent().expect("a folder")).expect("a writable folder");
            std::io::Write::write_all(&mut File::create(path).expect("a new file"), bytes).expect("a writable file");
        }
        folder
    }

    #[test]
    fn texts_of_bounded_size_pass() {
        let folder = folder(&[("w/a", "\u{feff}½".as_bytes()), ("w/b", b"caf\xe9"), ("w/c", b"12345")]);
        let gate = Gate::to(&folder.path().join("w")).unwrap();
        let path = |name: &str| folder.path().join("w").join(name);
        assert_eq!(gate.source(&path("a"), "a").unwrap().text(), "½");
        assert!(matches!(
            gate.source(&path("b"), "b").unwrap_err().fault,
            SourceFault::NotUtf8 { offset: 3, line: 1, .. }
        ));
        assert_eq!(gate.bytes(&path("c"), 5).unwrap(), b"12345");
        assert!(matches!(refused(gate.bytes(&path("c"), 4)), SourceFault::TooLarge { size: 5, limit: 4 }));
        assert!(matches!(refused(gate.bytes(&path("d"), 4)), SourceFault::Unreadable(_)));
        assert!(matches!(refused(gate.bytes(&path(""), 4)), SourceFault::Outside), "the folder itself");
    }

    #[cfg(unix)]
    #[test]
    fn links_lead_inside_and_nothing_but_plain_files_is_read() {
        use std::os::unix::fs::symlink;
        let folder = folder(&[("w/in/a", b"1"), ("out/secret", b"2"), ("out/in/a", b"3")]);
        let (inside, outside) = (folder.path().join("w"), folder.path().join("out"));
        let gate = Gate::to(&inside).unwrap();
        let path = |name: &str| inside.join(name);
        symlink(path("in/a"), path("good")).unwrap();
        symlink(outside.join("secret"), path("bad")).unwrap();
        symlink(&outside, path("folder")).unwrap();
        symlink(path("in"), path("twin")).unwrap();
        symlink("/dev/zero", path("endless")).unwrap();
        assert_eq!(gate.bytes(&path("good"), 9).unwrap(), b"1");
        assert_eq!(gate.bytes(&path("twin/a"), 9).unwrap(), b"1");
        for name in ["bad", "folder/secret", "folder/in/a", "endless", "in/../../out/secret"] {
            assert!(matches!(refused(gate.bytes(&path(name), 9)), SourceFault::Outside), "{name}");
        }
        assert_eq!(Gate::anywhere().bytes(&path("bad"), 9).unwrap(), b"2");
        assert!(matches!(refused(Gate::anywhere().bytes(Path::new("/dev/zero"), 9)), SourceFault::NotPlain));
        assert!(matches!(refused(gate.bytes(&path("in"), 9)), SourceFault::NotPlain));
        let made = std::process::Command::new("mkfifo").arg(path("pipe")).status();
        if made.is_ok_and(|status| status.success()) {
            assert!(matches!(refused(gate.bytes(&path("pipe"), 9)), SourceFault::NotPlain));
        }
    }
}
