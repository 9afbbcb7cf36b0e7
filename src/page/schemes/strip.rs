//! The strip of steps: one chip a step, bracketed by evening. It is a scheme's list of contents, on its own page and at
//! the desk.

use serde::Serialize;

use super::drawn;
use crate::draw;
use crate::guide::Thing;
use crate::measure::Colour;
use crate::page::Desk;
use crate::page::parts::address::{Address, relative};
use crate::page::parts::picture::PictureView;
use crate::work::WorkedScheme;

/// One step in the strip.
#[derive(Debug, Serialize)]
pub struct StripStep {
    /// Its number.
    pub number: usize,
    /// What it is called.
    pub title: String,
    /// Where it leads: on the page of the whole scheme to its place there, otherwise to the step's own page.
    pub href: String,
    /// The name that the reader's marks know it by.
    pub anchor: String,
    /// Its chip, as SVG.
    pub chip: String,
    /// The model after it, tiny, if it can be drawn.
    pub picture: Option<PictureView>,
    /// The evening that begins with it, from 1.
    pub evening: Option<usize>,
    /// The last evening before the next one that begins a step, where later coats take further ones.
    pub evening_to: Option<usize>,
    /// Hands-on seconds for one model.
    pub hands_on: Option<u32>,
    /// About how many seconds it rests before the next step on its areas.
    pub rest: u32,
    /// Whether it has a caution.
    pub caution: bool,
    /// Whether it is before, at, or after the step whose page this is: `past`, `here` or `ahead`; empty elsewhere.
    pub state: &'static str,
    /// Whether every model is done in one go.
    pub together: bool,
}

/// At the desk so many steps before and after are shown: two hundred pages of two hundred steps would be a heap.
const AT_THE_DESK: usize = 30;

/// The strip on the page at `path`; `here` is the step whose page it is.
pub(in crate::page) fn strip(desk: Desk<'_>, worked: &WorkedScheme, path: &str, here: Option<usize>) -> Vec<StripStep> {
    let places = worked.sittings.places();
    let evening = |at: usize| {
        let place = *places.get(at)?;
        let before = at.checked_sub(1).and_then(|before| places.get(before));
        (before != Some(&place)).then_some(place + 1)
    };
    let evening_to = |at: usize| {
        let from = evening(at)?;
        let next = places.iter().skip(at).find(|place| **place >= from).copied();
        let last = next.unwrap_or(worked.sittings.evenings);
        (last > from).then_some(last)
    };
    let steps = worked.scheme.steps.iter().enumerate();
    steps
        .filter(|(at, _)| here.is_none_or(|here| at.abs_diff(here) <= AT_THE_DESK))
        .map(|(at, step)| {
            let caution = worked.step_cautions.get(at).is_some_and(|cautions| !cautions.kinds.is_empty());
            let thing = Thing::Step(worked.scheme.slug.clone(), step.stem.clone());
            let times = worked.times.get(at);
            let rest = times.and_then(|times| times.rests.first()).map(|rest| rest.time.as_seconds());
            StripStep {
                number: step.number,
                title: step.title.clone(),
                href: if here.is_some() { relative(path, &Address::of(&thing)) } else { format!("#{}", step.stem) },
                anchor: step.stem.clone(),
                chip: draw::step_chip(&step.stem, step.number, left_behind(worked, at), caution),
                picture: drawn::tiny(worked, desk.words, path, at),
                evening: evening(at),
                evening_to: evening_to(at),
                hands_on: times.map(|times| times.hands_on.as_seconds()),
                rest: about(rest.unwrap_or_default()),
                caution,
                state: state(at, here),
                together: step.together,
            }
        })
        .collect()
}

/// A rest no finer than a glance asks for: minutes below half an hour, then five of them, hours, days.
fn about(seconds: u32) -> u32 {
    let unit = match seconds {
        0..=1_799 => 60,
        1_800..=7_199 => 300,
        7_200..=71_999 => 3_600,
        _ => 86_400,
    };
    seconds.saturating_add(unit / 2) / unit * unit
}

fn state(at: usize, here: Option<usize>) -> &'static str {
    match here.map(|here| at.cmp(&here)) {
        None => "",
        Some(std::cmp::Ordering::Less) => "past",
        Some(std::cmp::Ordering::Equal) => "here",
        Some(std::cmp::Ordering::Greater) => "ahead",
    }
}

/// The colour that a step leaves behind: as it is predicted to come out, otherwise that of its own mix, otherwise that of the first
/// product with one.
pub(in crate::page) fn left_behind(worked: &WorkedScheme, at: usize) -> Option<Colour> {
    let predicted = worked.outlooks.get(at).and_then(Option::as_ref).and_then(|outlook| outlook.colour);
    let cut = || worked.films.get(at)?.cut.as_ref()?.coats.iter().find(|coat| coat.fresh)?.colour;
    let step = worked.scheme.steps.get(at)?;
    let coloured = || step.mix.parts.iter().filter(|part| part.paint.kind.has_colour());
    // A clear coat leaves no colour of its own.
    let own = || cut().filter(|_| coloured().next().is_some());
    predicted.or_else(own).or_else(|| coloured().find_map(|part| part.paint.colour))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_rest_is_told_as_roughly_as_one_reads_it() {
        assert_eq!([0, 1200, 9_600, 88_200, 174_600].map(about), [0, 1200, 10_800, 86_400, 172_800]);
    }
}
