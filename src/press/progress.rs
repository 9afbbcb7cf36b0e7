//! How far the writing of a site is.

/// Told about every file that is written, so that long work can be shown.
pub trait Progress: Sync {
    /// How many files there will be.
    fn begin(&self, files: usize);
    /// One more is written.
    fn step(&self);
    /// All are written and the new site is in place.
    fn finish(&self);
}

/// Nothing is shown.
impl Progress for () {
    fn begin(&self, _: usize) {}
    fn step(&self) {}
    fn finish(&self) {}
}
