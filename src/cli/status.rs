//! What the exit status says.

/// Nothing is wrong.
pub(super) const FINE: u8 = 0;
/// The guide has errors, or with `--strict` warnings.
pub(super) const FOUND: u8 = 1;
/// The command can't be carried out: wrong usage, or a guide that can't be read.
pub(super) const USAGE: u8 = 2;
