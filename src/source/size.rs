//! How much a guide may ask for: little text makes no site that nobody would wait for.

use std::collections::BTreeMap;

use super::file::PaintEntry;
use super::{Source, checks};
use crate::report::{Finding, Place};

/// The most paints with a colour: one takes half a millisecond of processor to estimate and as long again for its page.
const MOST_PAINTS: usize = 6000;

/// A guide with more text than this, in bytes, asks for much because there is much of it.
const LARGE: usize = 1_000_000;

/// The work that a smaller guide may be, in steps of short schemes, and how many bytes of text are good for one more. A
/// step takes some two milliseconds of processor with all that it is shown on.
const STEPS: (usize, usize) = (2500, 250);

/// What a scheme costs beside its steps, in steps: its card, its picture and its lists.
const A_SCHEME: usize = 2;

/// In a scheme of so many steps each costs twice as much: what lies beneath it is looked at, and the others are listed.
const TWICE: usize = 125;

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
    let (least, for_each) = STEPS;
    if bytes < LARGE && work(source) > least + bytes / for_each {
        let steps: usize = source.schemes.iter().map(|scheme| scheme.steps.len()).sum();
        let message = format!(
            "this guide has {} schemes with {steps} steps and {} armies in {} kB of text, which is hardly any for each",
            source.schemes.len(),
            source.armies.len(),
            bytes / 1000
        );
        tell(source, message, "leave out schemes, steps and armies that say nothing");
    }
}

/// The work of a guide, in steps of short schemes: an army counts for half of the steps of its units.
fn work(source: &Source) -> usize {
    let of_scheme = |steps: usize| A_SCHEME + steps + steps * steps / TWICE;
    let steps: BTreeMap<&str, usize> =
        source.schemes.iter().map(|scheme| (scheme.slug.as_str(), scheme.steps.len())).collect();
    let units = source.armies.iter().filter_map(|army| army.record.units.as_ref()).flat_map(|units| &units.value);
    let of_unit = |name: &str| steps.get(name).map_or(0, |steps| steps.div_ceil(2));
    let armies: usize =
        units.filter_map(|unit| unit.value.scheme.as_ref()).map(|scheme| of_unit(&scheme.value.0)).sum();
    source.schemes.iter().map(|scheme| of_scheme(scheme.steps.len())).sum::<usize>() + armies
}

fn tell(source: &mut Source, message: String, mend: &str) {
    source.findings.push(Finding::new(&checks::GUIDE_SIZE, Place::top_of(source.guide_file), message, mend));
}
