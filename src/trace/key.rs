use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};

/// Stands for all that something was made from: two makings with one key give the same bytes.
///
/// The first 16 bytes of a SHA-256.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub struct Key([u8; 16]);

impl Key {
    /// The key of several parts, in their order.
    pub fn of<'a>(parts: impl IntoIterator<Item = &'a [u8]>) -> Self {
        let mut hasher = Sha256::new();
        for part in parts {
            // With its length, so that no two lists of parts run together to the same bytes.
            hasher.update((part.len() as u64).to_le_bytes());
            hasher.update(part);
        }
        let hash: [u8; 32] = hasher.finalize().into();
        let mut key = [0; 16];
        key.copy_from_slice(&hash[..16]);
        Self(key)
    }

    /// The key of anything that can be written down.
    pub fn of_value(value: &impl Serialize) -> Self {
        let bytes = postcard::to_allocvec(value).expect("texts, numbers and lists can always be written");
        Self::of([&bytes[..]])
    }

    /// Its bytes, to make another key of.
    pub fn bytes(&self) -> &[u8] {
        &self.0
    }
}

#[cfg(test)]
mod tests {
    use super::Key;

    #[test]
    fn parts_do_not_run_together() {
        let of = |parts: &[&str]| Key::of(parts.iter().map(|part| part.as_bytes()));
        assert_eq!(of(&["ab", "c"]), of(&["ab", "c"]));
        assert_ne!(of(&["ab", "c"]), of(&["a", "bc"]));
        assert_ne!(of(&["a"]), of(&["a", ""]));
    }
}
