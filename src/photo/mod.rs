//! READ: photographs. Each is decoded once a run, whoever asks, and few at a time.

mod decode;
mod error;
mod room;

use std::collections::BTreeMap;
use std::fs::Metadata;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, OnceLock, PoisonError};
use std::time::UNIX_EPOCH;

use serde::{Deserialize, Serialize};

use crate::source::Gate;
use crate::trace::Key;

pub use decode::QUALITY;
pub use error::PhotoError;
use room::Room;

/// The largest photograph that is read, in bytes.
const LARGEST: u64 = 32 << 20;

/// Widths that a photograph is shown in, in pixels, where it has as many.
const WIDTHS: [u32; 3] = [480, 960, 1600];

/// A photograph that can be shown.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Photo {
    /// Path inside the folder of photographs.
    pub file: String,
    /// Of its contents.
    pub key: Key,
    /// Pixels, upright.
    pub width: u32,
    /// Pixels, upright.
    pub height: u32,
}

/// A photograph at a width, as JPEG.
pub type Print = (u32, Vec<u8>);

/// Length of a file and when it was written, in nanoseconds since 1970.
pub type Stamp = (u64, u128);

/// What an earlier run knew of photographs, by file.
pub type Album = BTreeMap<String, (Stamp, Photo)>;

/// The photographs of a workspace.
#[derive(Debug)]
pub struct Photos {
    folder: PathBuf,
    gate: Gate,
    /// Whether prints are made where a photograph is decoded, since they will be asked for.
    printing: bool,
    known: Album,
    seen: Mutex<BTreeMap<String, Arc<Seen>>>,
    room: Room,
}

/// A photograph of this run.
#[derive(Debug, Default)]
struct Seen {
    photo: OnceLock<Result<Photo, PhotoError>>,
    /// Made with it, each handed out once.
    prints: Mutex<BTreeMap<u32, Vec<u8>>>,
}

impl Photos {
    /// Those in a folder; `known` is what an earlier run knew of them.
    pub fn new(folder: PathBuf, gate: Gate, known: Album) -> Self {
        Self { folder, gate, printing: false, known, seen: Mutex::default(), room: Room::default() }
    }

    /// The same for a run that will ask for the prints of every photograph that is new.
    #[must_use]
    pub fn printing(self) -> Self {
        Self { printing: true, ..self }
    }

    /// Where they lie.
    pub fn folder(&self) -> &Path {
        &self.folder
    }

    /// A photograph, decoded unless an earlier run did so and nobody wrote to it since.
    ///
    /// # Errors
    /// [`PhotoError`]: it is not there, may not be read, or cannot be shown.
    pub fn look(&self, file: &str) -> Result<Photo, PhotoError> {
        let seen = self.seen(file);
        let photo = || {
            if let Some((_, photo)) = self.known.get(file).filter(|(stamp, _)| self.stamp(file) == Some(*stamp)) {
                return Ok(photo.clone());
            }
            let (photo, prints) = self.decoded(file, self.printing)?;
            seen.prints.lock().unwrap_or_else(PoisonError::into_inner).extend(prints);
            Ok(photo)
        };
        seen.photo.get_or_init(photo).clone()
    }

    /// A photograph at one of its widths, as JPEG.
    ///
    /// # Errors
    /// As [`Photos::look`]; [`PhotoError::Changed`] for a width that it has no more.
    pub fn print(&self, file: &str, width: u32) -> Result<Vec<u8>, PhotoError> {
        let seen = self.seen(file);
        let mut prints = seen.prints.lock().unwrap_or_else(PoisonError::into_inner);
        if !prints.contains_key(&width) {
            prints.extend(self.decoded(file, true)?.1);
        }
        prints.remove(&width).ok_or(PhotoError::Changed)
    }

    /// Stamps of the photographs that this run looked at, for the next one.
    pub fn album(&self) -> Album {
        let seen = self.seen.lock().unwrap_or_else(PoisonError::into_inner);
        let sound = seen.iter().filter_map(|(file, seen)| {
            let photo = seen.photo.get()?.as_ref().ok()?.clone();
            Some((file.clone(), (self.stamp(file)?, photo)))
        });
        sound.collect()
    }

    /// A photograph's file as it is now; `None` where it may not be read.
    pub fn stamp(&self, file: &str) -> Option<Stamp> {
        let written = |data: &Metadata| data.modified().ok()?.duration_since(UNIX_EPOCH).ok();
        let data = self.gate.look(&self.folder.join(file)).ok()?;
        Some((data.len(), written(&data)?.as_nanos()))
    }

    fn seen(&self, file: &str) -> Arc<Seen> {
        let mut seen = self.seen.lock().unwrap_or_else(PoisonError::into_inner);
        seen.entry(file.to_owned()).or_default().clone()
    }

    fn decoded(&self, file: &str, printing: bool) -> Result<(Photo, Vec<Print>), PhotoError> {
        let bytes = self.gate.bytes(&self.folder.join(file), LARGEST).map_err(PhotoError::source)?;
        let pixels = decode::pixels(&bytes)?;
        let _place = self.room.take(pixels);
        let picture = decode::picture(&bytes)?;
        let photo =
            Photo { file: file.into(), key: Key::of([&bytes[..]]), width: picture.width(), height: picture.height() };
        drop(bytes);
        let prints = if printing { decode::prints(picture, &photo)? } else { Vec::new() };
        Ok((photo, prints))
    }
}

impl Photo {
    /// Widths it is shown in, ascending.
    pub fn widths(&self) -> Vec<u32> {
        let mut widths: Vec<u32> = WIDTHS.into_iter().filter(|width| *width < self.width).collect();
        if widths.len() < WIDTHS.len() {
            widths.push(self.width);
        }
        widths
    }

    /// The largest of them.
    pub fn largest(&self) -> u32 {
        self.width.min(WIDTHS[WIDTHS.len() - 1])
    }

    /// Its size at a width.
    pub fn scaled(&self, width: u32) -> (u32, u32) {
        let height =
            (u64::from(self.height) * u64::from(width) + u64::from(self.width) / 2) / u64::from(self.width.max(1));
        (width, u32::try_from(height.max(1)).unwrap_or(u32::MAX))
    }
}

#[cfg(test)]
mod tests;
