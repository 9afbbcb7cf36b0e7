//! Which steps of a scheme keep their order, and how long lies between them.

use std::ops::RangeInclusive;

use super::Seconds;
use crate::bench::{Bench, Figure, Minutes};
use crate::film::{Conditions, Deed, Film, Link, What, is_wiped};
use crate::guide::{Scheme, Step};
use crate::trade::{Stage, Technique, Zone, names_clear_part};

/// The order of a scheme's steps, by their places in its list.
#[derive(Debug, Clone, Default)]
pub(super) struct Order {
    /// For each step the steps that it follows, and how long after their end.
    pub(super) before: Vec<Vec<(usize, Seconds)>>,
    /// For each step, how long lies between two coats.
    pub(super) between: Vec<Seconds>,
    /// For each step, how long its last coat dries.
    pub(super) rest: Vec<Seconds>,
    /// Steps that are on one evening, because what was laid must not grow old.
    pub(super) tied: Vec<RangeInclusive<usize>>,
    /// The same with steps that belong to them, where one evening holds them all: a chipping film goes under its colour,
    /// and tape comes off, while one is at it.
    pub(super) wished: Vec<RangeInclusive<usize>>,
    /// From where a mask is put on paint to where it comes off again, where the scheme leaves it there no longer than it may
    /// lie: an evening between them would.
    pub(super) masks: Vec<RangeInclusive<usize>>,
    /// These with the steps of the same evening that they share.
    pub(super) masked: Vec<RangeInclusive<usize>>,
}

/// Who waits longer than this for what comes next does it another evening.
const AT_IT: Seconds = 2 * 3600;

/// Between sprayed coats that are no further apart nobody goes home.
const STAYS: Seconds = 1800;

/// Nobody gets up between brushed coats that are no further apart: thin layers and glazes go on after 3 to 5 min (own estimate;
/// see `PLANNING.md` for what a longer one would cost).
pub(super) const SITTING: Seconds = 900;

/// Which rests count where an author wrote none.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Rests {
    /// What the next coat needs, as the film has it: what is planned.
    Careful,
    /// Only until it may be painted over: what is shorter than that nobody can want. What the program assumed itself is
    /// never held against an author's date.
    Least,
}

impl Order {
    /// The order of a scheme.
    pub(super) fn of(scheme: &Scheme, conditions: &Conditions, rests: Rests) -> Self {
        let positions: Vec<usize> = (0..scheme.steps.len()).collect();
        let film = Film::walk(scheme, &positions, conditions);
        let touched: Vec<Touched> =
            scheme.steps.iter().enumerate().map(|(at, step)| Touched::of(&film, at, step)).collect();
        let kept = Kept { film: &film, rests, bench: &conditions.bench };
        let dusty: Vec<usize> = positions.iter().copied().filter(|at| dusts(&kept, *at)).collect();
        let before = |at: usize| {
            let mut links = Vec::new();
            by_film(&kept, at, &mut links);
            by_areas(&touched, at, &mut links);
            by_word(&kept, &touched, at, &mut links);
            by_masks(&film, &touched, at, &mut links);
            by_dust(&film, &dusty, at, &mut links);
            strongest(links)
        };
        let masks: Vec<_> = positions.iter().filter_map(|at| mask_until(&kept, *at)).collect();
        let wished: Vec<_> = positions.iter().flat_map(|at| wishes(&film, &touched, *at)).collect();
        Self {
            before: positions.iter().map(|at| before(*at)).collect(),
            between: positions.iter().map(|at| seconds(film.wait(*at).between)).collect(),
            rest: touched
                .iter()
                .enumerate()
                .map(|(at, own)| seconds(kept.counted(at, own.rest, own.written)))
                .collect(),
            masked: merged(masks.iter().chain(&wished).cloned().collect()),
            wished: merged(wished),
            masks,
            tied: merged(positions.iter().flat_map(|at| ties(&film, *at)).collect()),
        }
    }
}

fn seconds(minutes: Minutes) -> Seconds {
    Seconds::from(minutes.as_time().as_seconds())
}

/// What a step touches: areas by their places, after them the base that is beside the model.
struct Touched {
    reached: Vec<bool>,
    dusted: Vec<bool>,
    /// Until the next step on the same areas.
    rest: Minutes,
    /// Whether the author wrote that.
    written: bool,
    /// Until the model can be handled.
    touch: Seconds,
    /// Whether it goes over whatever no mask covers.
    sweeping: bool,
}

impl Touched {
    fn of(film: &Film<'_>, at: usize, step: &Step) -> Self {
        let areas = film.scheme().areas.len();
        let (mut reached, mut dusted) = (vec![false; areas + 1], vec![false; areas + 1]);
        let set = |list: &mut Vec<bool>, area: usize| list.iter_mut().skip(area).take(1).for_each(|slot| *slot = true);
        film.areas(at).iter().for_each(|area| set(&mut reached, *area));
        film.dusted(at).for_each(|area| set(&mut dusted, area));
        if step.all_over || film.areas(at).is_empty() {
            set(&mut reached, areas);
        } else if step.technique.sprays() {
            set(&mut dusted, areas);
        }
        let drying = film.coat(at).map(|coat| coat.drying).unwrap_or_default();
        let rest = film.rests(at).first().map(|rest| rest.time).unwrap_or_default();
        let written = step.dry.is_some();
        let rest = if written { rest } else { rest.max(drying.recoat) };
        let sweeping = step.all_over || step.technique.sprays();
        Self { reached, dusted, rest, written, touch: seconds(rest).min(seconds(drying.touch)), sweeping }
    }

    fn meets(&self, area: usize) -> bool {
        self.reaches(area) || self.dusted.get(area) == Some(&true)
    }

    fn reaches(&self, area: usize) -> bool {
        self.reached.get(area) == Some(&true)
    }
}

/// How the rests of a scheme are kept, whoever asks for them: one home, so that no wait is longer for being said twice.
struct Kept<'f, 's> {
    film: &'f Film<'s>,
    rests: Rests,
    bench: &'f Bench,
}

impl Kept<'_, '_> {
    /// What counts of the rest of a step.
    fn counted(&self, from: usize, rest: Minutes, written: bool) -> Minutes {
        let least = || self.film.coat(from).map(|coat| coat.drying.recoat).unwrap_or_default();
        if self.rests == Rests::Least && !written { rest.min(least()) } else { rest }
    }

    /// How long that keeps what follows the step waiting.
    fn wait(&self, from: usize, rest: Minutes, written: bool) -> Seconds {
        seconds(by_evenings(self.counted(from, rest, written), self.bench))
    }
}

/// The waits of the film.
fn by_film(kept: &Kept<'_, '_>, at: usize, links: &mut Vec<(usize, Seconds)>) {
    let wait = |link: &Link| (link.from, kept.wait(link.from, link.rest, link.written));
    links.extend(kept.film.links(at).iter().map(wait));
}

/// A rest of days as painters keep it: who is told a day comes back the next evening, and not to the minute.
fn by_evenings(rest: Minutes, bench: &Bench) -> Minutes {
    let short = (rest.0 * bench.get(Figure::EveningRestShort)).min(bench.get(Figure::EveningRestShortMost));
    if rest.0 < bench.get(Figure::EveningRestFrom) { rest } else { Minutes((rest.0 - short).max(0.0)) }
}

/// The last step that met each of its areas, by a mist or on it: its paint must not be touched wet.
fn by_areas(touched: &[Touched], at: usize, links: &mut Vec<(usize, Seconds)>) {
    let Some((own, earlier)) = touched.get(at).zip(touched.get(..at)) else { return };
    for area in (0..own.reached.len()).filter(|area| own.meets(*area)) {
        if let Some((before, met)) = earlier.iter().enumerate().rfind(|(_, before)| before.meets(area)) {
            let on_it = own.reaches(area) && met.reaches(area);
            links.push((before, if on_it { 0 } else { met.touch }));
        }
    }
}

/// What an author names under `after`. Of a step that it follows on its areas the film knows better how long it waits.
fn by_word(kept: &Kept<'_, '_>, touched: &[Touched], at: usize, links: &mut Vec<(usize, Seconds)>) {
    let after = kept.film.step(at).map(|step| step.after.as_slice()).unwrap_or_default();
    let is_known = |before: usize| kept.film.links(at).iter().any(|link| link.from == before);
    let named = after.iter().copied().filter(|before| *before < at && !is_known(*before));
    links.extend(named.filter_map(|before| {
        let Touched { rest, written, .. } = touched.get(before)?;
        Some((before, kept.wait(before, *rest, *written)))
    }));
}

/// What goes over a mask comes after it is put on and before it is taken off; what could dust a place that was closed comes
/// after that.
fn by_masks(film: &Film<'_>, touched: &[Touched], at: usize, links: &mut Vec<(usize, Seconds)>) {
    let masked = |position: usize, area: usize| film.before(position).mask(area);
    if touched.get(at).is_some_and(|own| own.sweeping) {
        let view = film.before(at);
        let covering = |area: usize| [view.mask(area), view.shut_in(area)].into_iter().flatten();
        links.extend((0..film.scheme().areas.len()).flat_map(covering).map(|cover| (cover, 0)));
    }
    if film.turn(at).is_none_or(|turn| turn.deed != Deed::Unmask) {
        return;
    }
    for (area, on) in film.areas(at).iter().filter_map(|area| Some((*area, masked(at, *area)?))) {
        let over = (on + 1..at).filter(|between| masked(*between, area) == Some(on));
        links.extend(over.filter_map(|between| {
            touched.get(between).filter(|other| other.sweeping).map(|other| (between, other.touch))
        }));
    }
}

/// Whether a step drybrushes so much that neat work beside it had better follow; ground is painted roughly throughout.
fn dusts(kept: &Kept<'_, '_>, at: usize) -> bool {
    kept.film.dusts_beside(at, kept.bench) && !kept.film.scheme().model.is_ground()
}

/// Colour that is brushed beside a large drybrush follows it, where the scheme has it so: its dust would lie on the neat
/// work.
fn by_dust(film: &Film<'_>, dusty: &[usize], at: usize, links: &mut Vec<(usize, Seconds)>) {
    let is_neat = film.coat(at).is_some_and(|coat| {
        coat.technique == Technique::Brush && matches!(coat.what, What::Colour | What::Shade | What::Tint)
    });
    let earlier = dusty.iter().copied().take_while(|before| is_neat && *before < at);
    let meets = |before: &usize| film.beside(*before).any(|area| film.areas(at).contains(&area));
    links.extend(earlier.filter(meets).map(|before| (before, 0)));
}

/// One link for each earlier step: the longest wait.
fn strongest(mut links: Vec<(usize, Seconds)>) -> Vec<(usize, Seconds)> {
    links.sort_unstable_by(|a, b| a.0.cmp(&b.0).then(b.1.cmp(&a.1)));
    links.dedup_by_key(|link| link.0);
    links
}

/// The steps that must be on one evening with the step at a place, which ends what they began.
fn ties(film: &Film<'_>, at: usize) -> Vec<RangeInclusive<usize>> {
    let Some(step) = film.step(at) else { return Vec::new() };
    let first: Vec<usize> = match step.stage {
        Stage::Chip if film.turn(at).is_some_and(|turn| turn.deed == Deed::Chip) => {
            film.areas(at).iter().filter_map(|area| over_resist(film, at, *area)).collect()
        }
        Stage::Unmask => film.areas(at).iter().filter_map(|area| over_mask(film, at, *area)).collect(),
        _ => Vec::new(),
    };
    first.into_iter().filter(|first| *first < at).map(|first| first..=at).collect()
}

/// The steps that had better stand on one evening with the step at a place.
fn wishes(film: &Film<'_>, touched: &[Touched], at: usize) -> Vec<RangeInclusive<usize>> {
    let Some(step) = film.step(at) else { return Vec::new() };
    let soon = |first: &usize| touched.get(*first).is_some_and(|touched| seconds(touched.rest) <= AT_IT);
    let areas = film.areas(at).iter();
    let first: Vec<usize> = match step.stage {
        Stage::Chip if film.turn(at).is_some_and(|turn| turn.deed == Deed::Chip) => {
            areas.filter_map(|area| resist(film, at, *area)).collect()
        }
        Stage::Unmask => areas.filter_map(|area| last_over_mask(film, at, *area)).collect(),
        _ => Vec::new(),
    };
    let first = first.into_iter().filter(|first| *first < at).filter(soon);
    // Nothing wipes off another evening.
    let wiped = film.links(at).iter().filter(|link| wipes(film, link.from, at)).map(|link| link.from).min();
    let sprayed = step.coats > 1 && step.technique.sprays() && seconds(film.wait(at).between) <= STAYS;
    first.chain(wiped).chain(sprayed.then_some(at)).map(|first| first..=at).chain(ties(film, at)).collect()
}

/// Whether a step that lays nothing works on open oil or enamel of another.
fn wipes(film: &Film<'_>, from: usize, at: usize) -> bool {
    let bare = film.turn(at).is_some_and(|turn| turn.deed == Deed::Nothing);
    bare && film.coat(from).is_some_and(is_wiped)
}

const ZONES: [Zone; 3] = [Zone::Recesses, Zone::Faces, Zone::Edges];

/// The chipping film of an area.
fn resist(film: &Film<'_>, at: usize, area: usize) -> Option<usize> {
    let view = film.before(at);
    let last = |zone| view.coats(area, zone).rfind(|coat| coat.what == What::Resist);
    ZONES.into_iter().filter_map(last).map(|coat| coat.position).min()
}

/// The first coat over the chipping film of an area: it lets go for some hours only.
fn over_resist(film: &Film<'_>, at: usize, area: usize) -> Option<usize> {
    let view = film.before(at);
    let over = |zone| {
        let resist = view.coats(area, zone).rfind(|coat| coat.what == What::Resist)?;
        view.coats(area, zone).find(|coat| coat.position > resist.position)
    };
    ZONES.into_iter().filter_map(over).map(|coat| coat.position).min()
}

/// The last coat before a mask on open paint is taken off: it must not harden over the edge of the tape.
fn over_mask(film: &Film<'_>, at: usize, area: usize) -> Option<usize> {
    let on = film.before(at).mask(area)?;
    let open = film.before(on).top_film(area, Zone::Faces).is_some_and(|top| !top.is_clear_film());
    last_over_mask(film, at, area).filter(|_| open)
}

/// The last coat before a mask is taken off.
fn last_over_mask(film: &Film<'_>, at: usize, area: usize) -> Option<usize> {
    let on = film.before(at).mask(area)?;
    (on + 1..at).rev().find(|position| film.coat(*position).is_some())
}

/// From where the first mask on paint is put on to the step that takes it off. A clear part may stay under its mask until the
/// model is done, and an author who lets paint dry longer under one means it.
fn mask_until(kept: &Kept<'_, '_>, off: usize) -> Option<RangeInclusive<usize>> {
    let film = kept.film;
    film.turn(off).filter(|turn| turn.deed == Deed::Unmask)?;
    let is_clear = |area: usize| film.scheme().areas.get(area).is_some_and(|area| names_clear_part(&area.title));
    let first = |area: usize| (0..off).find(|on| film.before(off).lies_under(area, *on));
    let on_paint = |area: usize, on: usize| film.before(on).top(area, Zone::Faces).is_some();
    let masks = film.areas(off).iter().copied().filter(|area| !is_clear(*area));
    let on = masks.filter_map(|area| first(area).filter(|on| on_paint(area, *on))).min()?;
    let lies = film.turn(off)?.begins - film.turn(on)?.ends;
    (lies.0 <= kept.bench.get(Figure::MaskLongest)).then_some(on..=off)
}

/// Ranges that overlap become one.
fn merged(mut ranges: Vec<RangeInclusive<usize>>) -> Vec<RangeInclusive<usize>> {
    ranges.sort_unstable_by_key(|range| (*range.start(), *range.end()));
    let mut merged: Vec<RangeInclusive<usize>> = Vec::new();
    for range in ranges {
        match merged.last_mut() {
            Some(last) if range.start() <= last.end() => *last = *last.start()..=*last.end().max(range.end()),
            _ => merged.push(range),
        }
    }
    merged
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::door::Memory;

    const PAINTS: &str = "maker: Tarn & Daughter\nrange: Mere\nfamily: water\npaints:\n  moss: {name: Moss, kind: paint}\n\
        \x20 slow: {name: Slow, kind: oil}\n  mist: {name: Mist, kind: varnish, sheen: matt}\n";

    /// The order of a scheme with a cloth and a shield, of these steps; the last of them may come `after` another.
    fn order(steps: &[&str], after: Option<usize>, rests: Rests) -> Order {
        let mut door = Memory::default()
            .with("content/guide.yaml", "title: T\nauthor: A\n")
            .with("content/paints/mere.yaml", PAINTS)
            .with("content/schemes/s/scheme.md", "---\ntitle: S\nareas: {cloth: 60%, shield: 40%}\n---\n");
        for (at, step) in steps.iter().enumerate() {
            let after = after.iter().filter(|_| at + 1 == steps.len());
            let after = after.map(|before| format!(", after: [{}-step]", 10 + before)).collect::<String>();
            let with = if step.contains("with:") { "" } else { "with: brush, " };
            let head = format!("{{title: Step {at}, {with}minutes: 1, {step}{after}}}");
            door = door.with(&format!("content/schemes/s/{}-step.md", 10 + at), format!("---\n{head}\n---\n"));
        }
        let (guide, findings) = crate::guide::resolve(&mut crate::source::read(&door).unwrap());
        assert!(findings.is_empty(), "{findings:?}");
        Order::of(&guide.schemes[0], &Conditions::of(&guide), rests)
    }

    #[test]
    fn a_word_for_a_step_that_is_followed_anyway_changes_nothing() {
        let written = [
            "stage: basecoat, areas: [cloth], paints: [moss], dry: 24 h",
            "stage: layer, areas: [cloth], paints: [moss]",
        ];
        // Nobody wrote how long the oil dries, and the varnish that comes first after it needs more than the oil does.
        let silent = [
            "stage: basecoat, areas: [cloth, shield], paints: [slow]",
            "stage: varnish, areas: [shield], paints: [mist]",
            "stage: layer, areas: [cloth], paints: [slow]",
        ];
        for (steps, last) in [(&written[..], 1), (&silent[..], 2)] {
            for rests in [Rests::Careful, Rests::Least] {
                let (with, without) = (order(steps, Some(0), rests), order(steps, None, rests));
                assert_eq!(with.before, without.before, "{rests:?}: {steps:?}");
                assert!(without.before[last].iter().any(|(before, _)| *before == 0), "{rests:?}: {steps:?}");
            }
        }
    }

    #[test]
    fn a_word_for_another_step_waits_for_its_rest_as_painters_keep_it() {
        let steps = |dry| [dry, "stage: layer, areas: [shield], paints: [moss]"];
        let day = steps("stage: basecoat, areas: [cloth], paints: [moss], dry: 24 h");
        let hours = steps("stage: basecoat, areas: [cloth], paints: [moss], dry: 12 h");
        assert!(order(&day, None, Rests::Careful).before[1].is_empty());
        // An eighth of a day may be missing, and nothing of hours.
        assert_eq!(order(&day, Some(0), Rests::Careful).before[1], [(0, 21 * 3600)]);
        assert_eq!(order(&hours, Some(0), Rests::Careful).before[1], [(0, 12 * 3600)]);
        // What is dried for is said in full.
        assert_eq!(order(&day, Some(0), Rests::Careful).rest[0], 24 * 3600);
    }

    #[test]
    fn what_shuts_an_area_in_follows_all_that_is_done_there() {
        let painted = "stage: basecoat, areas: [shield], paints: [moss], dry: 12 h";
        let closed = |hides| format!("stage: assemble, areas: [cloth], {hides}with: hand");
        let (shut, open) = (closed("hides: [shield], "), closed(""));
        assert_eq!(order(&[painted, &shut], None, Rests::Careful).before[1], [(0, 12 * 3600)]);
        assert!(order(&[painted, &open], None, Rests::Careful).before[1].is_empty());
    }

    #[test]
    fn neat_work_beside_a_large_drybrush_follows_it_where_the_scheme_has_it_so() {
        let of = |steps: &[&str]| order(steps, None, Rests::Careful).before;
        let base = "stage: basecoat, areas: [cloth, shield], paints: [moss]";
        let dust = "stage: layer, areas: [cloth], with: drybrush, paints: [moss]";
        let neat = "stage: highlight, areas: [shield], paints: [moss]";
        assert!(of(&[base, dust, neat])[2].contains(&(1, 0)));
        assert!(of(&[base, neat, dust])[2].iter().all(|(before, _)| *before != 1), "no step need come before it");
        let small = "stage: layer, areas: [cloth], where: spots, with: drybrush, paints: [moss]";
        assert!(of(&[base, small, neat])[2].iter().all(|(before, _)| *before != 1));
    }
}
