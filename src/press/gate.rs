//! How many pixels may be open at the same time, however many processors work: the memory of a run must not grow with
//! them.

use std::sync::{Condvar, Mutex, PoisonError};

use super::pictures::PIXELS_AT_ONCE;
use crate::picture::Picture;

/// Lets pictures in until those inside have [`PIXELS_AT_ONCE`] together; a larger one waits until it is alone.
#[derive(Debug, Default)]
pub(super) struct Gate {
    open: Mutex<u64>,
    freed: Condvar,
}

impl Gate {
    /// Does something with a picture when there is room for it. It must not wait for another picture.
    pub(super) fn with<T>(&self, picture: &Picture, work: impl FnOnce() -> T) -> T {
        let _inside = self.enter(u64::from(picture.size.width) * u64::from(picture.size.height));
        work()
    }

    fn enter(&self, pixels: u64) -> Inside<'_> {
        let full = |open: &mut u64| *open > 0 && open.saturating_add(pixels) > PIXELS_AT_ONCE;
        let open = self.open.lock().unwrap_or_else(PoisonError::into_inner);
        let mut open = self.freed.wait_while(open, full).unwrap_or_else(PoisonError::into_inner);
        *open += pixels;
        Inside { gate: self, pixels }
    }
}

/// A picture that is open; its room is free again when this is dropped.
struct Inside<'a> {
    gate: &'a Gate,
    pixels: u64,
}

impl Drop for Inside<'_> {
    fn drop(&mut self) {
        *self.gate.open.lock().unwrap_or_else(PoisonError::into_inner) -= self.pixels;
        self.gate.freed.notify_all();
    }
}

#[cfg(test)]
mod tests {
    use std::sync::atomic::{AtomicU64, Ordering};

    use super::*;

    #[test]
    fn no_more_is_open_than_there_is_room_for_and_everybody_gets_in() {
        let (gate, open, most, done) = (Gate::default(), AtomicU64::new(0), AtomicU64::new(0), AtomicU64::new(0));
        std::thread::scope(|scope| {
            for pixels in [60_000_000, 60_000_000, 40_000_000, 120_000_000, 30_000_000, 100_000_000] {
                let (gate, open, most, done) = (&gate, &open, &most, &done);
                scope.spawn(move || {
                    let inside = gate.enter(pixels);
                    most.fetch_max(open.fetch_add(pixels, Ordering::SeqCst) + pixels, Ordering::SeqCst);
                    std::thread::yield_now();
                    open.fetch_sub(pixels, Ordering::SeqCst);
                    drop(inside);
                    done.fetch_add(1, Ordering::SeqCst);
                });
            }
        });
        assert_eq!((most.into_inner(), done.into_inner(), *gate.open.lock().unwrap()), (120_000_000, 6, 0));
    }
}
