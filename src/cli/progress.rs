//! A bar for long work, on a terminal only.

use std::sync::OnceLock;

use indicatif::{ProgressBar, ProgressStyle};

use crate::press::Progress;

/// Shown on standard error while it is a terminal; nothing when piped.
#[derive(Debug, Default)]
pub(super) struct Bar {
    bar: OnceLock<ProgressBar>,
}

impl Progress for Bar {
    fn begin(&self, files: usize) {
        let bar = ProgressBar::new(files as u64);
        if let Ok(style) = ProgressStyle::with_template("pressing {wide_bar} {pos} of {len}") {
            bar.set_style(style);
        }
        // A second bar would only be set if a site were pressed twice in one run.
        let _ = self.bar.set(bar);
    }

    fn step(&self) {
        if let Some(bar) = self.bar.get() {
            bar.inc(1);
        }
    }

    fn finish(&self) {
        if let Some(bar) = self.bar.get() {
            bar.finish_and_clear();
        }
    }
}
