use std::sync::{Condvar, Mutex, PoisonError};

/// Pixels that may be decoded at one time: some 150 MB with what scaling needs.
const MOST: u64 = 24_000_000;

/// Keeps the pixels that are decoded at one time within bounds; one larger photograph waits until it is alone.
#[derive(Debug, Default)]
pub(super) struct Room {
    taken: Mutex<u64>,
    left: Condvar,
}

/// A place for some pixels, given back when dropped.
pub(super) struct PixelPermit<'r> {
    room: &'r Room,
    pixels: u64,
}

impl Room {
    pub(super) fn take(&self, pixels: u64) -> PixelPermit<'_> {
        let taken = self.taken.lock().unwrap_or_else(PoisonError::into_inner);
        let full = |taken: &mut u64| *taken > 0 && taken.saturating_add(pixels) > MOST;
        let mut taken = self.left.wait_while(taken, full).unwrap_or_else(PoisonError::into_inner);
        *taken = taken.saturating_add(pixels);
        PixelPermit { room: self, pixels }
    }
}

impl Drop for PixelPermit<'_> {
    fn drop(&mut self) {
        let mut taken = self.room.taken.lock().unwrap_or_else(PoisonError::into_inner);
        *taken = taken.saturating_sub(self.pixels);
        self.room.left.notify_all();
    }
}
