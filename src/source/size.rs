//! How much a guide may ask for: little text makes no site that nobody would wait for.

use super::file::PaintEntry;
use super::{Source, checks};
use crate::report::{Finding, Place};

/// The most paints with a colour: one takes half a millisecond of processor to estimate and as long again for its page.
const MOST_PAINTS: usize = 6000;

/// The text of a guide that asks for much because there is much of it, in bytes.
const LARGE: usize = 1_000_000;

/// A smaller guide may have so many steps, and one more for each so many bytes of its text.
const STEPS: (usize, usize) = (2500, 200);

/// What a scheme costs beside its steps, in steps: its card, its picture and its lists.
const A_SCHEME: usize = 2;

/// Tells of a guide that asks for more than its text has room for.
pub(super) fn check_size(source: &mut Source) {
    let coloured = |paint: &PaintEntry| paint.colour.is_some() || paint.swatches.is_some();
    let entries = source.paints.iter().filter_map(|file| file.paints.as_ref()).flat_map(|paints| &paints.value.0);
    let paints = entries.filter(|(_, paint)| coloured(paint)).count();
    if paints > MOST_PAINTS {
        let message = format!("this guide has {paints} paints with a colour, and at most {MOST_PAINTS} are estimated");
        tell(source, message, "leave out the ranges that no scheme uses");
    }
    let bytes: usize = source.files.sizes().sum();
    let steps: usize = source.schemes.iter().map(|scheme| A_SCHEME + scheme.steps.len()).sum();
    let (least, for_each) = STEPS;
    let most = least + bytes / for_each;
    if bytes < LARGE && steps > most {
        let schemes = source.schemes.len();
        let message = format!(
            "this guide has {schemes} schemes with {} steps in {} kB of text, which is hardly any for each",
            steps - A_SCHEME * schemes,
            bytes / 1000
        );
        tell(source, message, "leave out schemes and steps that say nothing");
    }
}

fn tell(source: &mut Source, message: String, mend: &str) {
    source.findings.push(Finding::new(&checks::GUIDE_SIZE, Place::top_of(source.guide_file), message, mend));
}
