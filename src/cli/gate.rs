//! What stands between an author's errors and figures: where something was not understood, a coat, a caution or a bottle may be
//! missing.

use super::settings::GuideFolder;
use super::status::{FINE, FOUND};
use super::terminal::Stream;
use crate::guide::Scheme;
use crate::report::{self, wording};
use crate::story::Checked;

/// Whether something in one of these schemes was not understood; then it is told, and that `nothing` came of it.
pub(super) fn is_shut(checked: &Checked, guide: &GuideFolder, schemes: &[&Scheme], nothing: &str) -> bool {
    let mut unclear: Vec<&str> =
        schemes.iter().filter(|scheme| !checked.is_understood(scheme)).map(|scheme| scheme.title.as_str()).collect();
    unclear.dedup();
    if unclear.is_empty() {
        return false;
    }
    let told = report::brief((&checked.findings, &checked.files), Stream::Err.style(), &guide.shown(), |_| false);
    Stream::Err.write(&format!("{told}{nothing}, because of the errors: {}\n", wording::listed(unclear)));
    true
}

/// The exit status of what is told of these schemes.
pub(super) fn status(checked: &Checked, schemes: &[&Scheme]) -> u8 {
    if schemes.iter().all(|scheme| checked.is_sound(scheme)) { FINE } else { FOUND }
}
