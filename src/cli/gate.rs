//! What stands between an author's errors and figures: where something was not understood, a coat, a caution or a bottle may be
//! missing.

use super::settings::GuideFolder;
use super::status::{FINE, FOUND};
use super::terminal::Stream;
use crate::guide::Scheme;
use crate::report::{self, Finding, Level};
use crate::story::Checked;

/// Whether something in one of these schemes was not understood; then it is told, and that `nothing` came of it.
pub(super) fn is_shut(checked: &Checked, guide: &GuideFolder, schemes: &[&Scheme], nothing: &str) -> bool {
    let is_shut = !schemes.iter().all(|scheme| checked.is_understood(scheme));
    if is_shut {
        tell_of(checked, guide, schemes);
        Stream::Err.tell(&format!("{nothing}, because of the errors\n"));
    }
    is_shut
}

/// The exit status of what was said of these schemes; where that is not fine, it is told why.
pub(super) fn status(checked: &Checked, guide: &GuideFolder, schemes: &[&Scheme]) -> u8 {
    if schemes.iter().all(|scheme| checked.is_sound(scheme)) {
        return FINE;
    }
    tell_of(checked, guide, schemes);
    FOUND
}

fn tell_of(checked: &Checked, guide: &GuideFolder, schemes: &[&Scheme]) {
    tell(checked, guide, |finding| finding.level() != Level::Note && checked.concerns(finding, schemes, &[]));
}

/// Tells what was found beside what a command does: what matters there in full, all else in one line.
pub(super) fn tell(checked: &Checked, guide: &GuideFolder, matters: impl Fn(&Finding) -> bool) {
    let found = (&checked.findings, &checked.files);
    Stream::Err.tell(&report::brief(found, Stream::Err.style(), &guide.shown(), matters));
}
