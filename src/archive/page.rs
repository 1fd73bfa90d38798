use super::ArchiveError;
use crate::trace::Key;

/// How a file comes about.
type Make<'a> = Box<dyn Fn() -> Result<Vec<u8>, ArchiveError> + Send + Sync + 'a>;

/// A file of the archive, not made yet.
pub(super) struct ArchiveFile<'a> {
    /// Relative to the archive's root, parts joined by `/`.
    pub(super) path: String,
    /// Of everything it is made from.
    pub(super) key: Key,
    pub(super) make: Make<'a>,
}

impl<'a> ArchiveFile<'a> {
    pub(super) fn new(
        path: impl Into<String>,
        key: Key,
        make: impl Fn() -> Result<Vec<u8>, ArchiveError> + Send + Sync + 'a,
    ) -> Self {
        Self { path: path.into(), key, make: Box::new(make) }
    }
}
