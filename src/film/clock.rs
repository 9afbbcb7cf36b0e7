//! The clock: which earlier steps a step waits for, how long and why, and what that makes of every step's waits.
//!
//! A step begins when the hands are free and everything beneath it has rested. What an author wrote as `dry` is what the
//! last step on an area gets; where nothing is written everything beneath gets what it [needs](super::needs). So a wait
//! that the program filled in is never too short, and a rule that finds one too short has found an author's.

use super::coat::Coat;
use super::history::{Film, Link};
use super::needs::{Need, Next, Reason, need};
use super::turn::{Deed, Wait};
use super::view::View;
use super::what::What;
use crate::bench::{Bench, Figure, Minutes};
use crate::guide::Step;
use crate::trade::{Family, Reach, Technique, Zone};

/// How long a step rests before another, as a reader is told.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rest {
    /// How long after its last coat.
    pub time: Minutes,
    /// Why.
    pub reason: Reason,
    /// The step that it rests for, by its place in the scheme's list; `None` where nothing follows on its areas.
    pub before: Option<usize>,
    /// Whether the author wrote it.
    pub written: bool,
}

/// The last steps on an area, as far as the film was walked.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Last {
    /// The last step that reached it.
    pub(super) step: Option<usize>,
    /// The step that washed it, until something is laid on it.
    pub(super) washed: Option<usize>,
}

/// What a step waits for on one area.
pub(super) fn links_on_area<'s>(
    film: &Film<'s>,
    (area, last): (usize, Last),
    next: &Next<'_, 's>,
    bench: &Bench,
    links: &mut Vec<Link>,
) {
    let position = film.turns.len();
    let Some(from) = last.step else { return };
    if let Some(written) = film.step(from).and_then(|step| step.dry) {
        let reason = film.coat(from).map_or(Reason::Recoat, |coat| need(coat, next, bench).reason);
        links.push(Link { from, rest: Minutes::from(written), reason, written: true });
    } else {
        let glued = film.turns.get(from).filter(|turn| turn.coat.is_none()).and_then(|turn| turn.sets);
        links.push(Link { from, rest: glued.unwrap_or_default(), reason: Reason::Recoat, written: false });
        let view = View::new(film, position, Minutes::default());
        let mut wait = |under: &Coat<'_>| {
            let Need { time, reason } = need(under, next, bench);
            links.push(Link { from: under.position, rest: time, reason, written: false });
        };
        beneath(view, area, next).for_each(&mut wait);
        if let Some(coat) = film.coat(from) {
            let Need { time, reason } = need(coat, &Next { coat: None, ..*next }, bench);
            links.push(Link { from, rest: time, reason, written: false });
        }
    }
    if let (Some(washed), Some(_)) = (last.washed, next.coat) {
        let written = film.step(washed).is_some_and(|step| step.dry.is_some());
        let rest = if written { Minutes::default() } else { Minutes(bench.get(Figure::WashedRest)) };
        links.push(Link { from: washed, rest, reason: Reason::Washed, written });
    }
}

/// What lies on the base that is beside the model, for a step that goes over it.
pub(super) fn link_on_base(
    (from, step): (usize, &Step),
    coat: Option<&Coat<'_>>,
    next: &Next<'_, '_>,
    bench: &Bench,
) -> Link {
    let Need { time, reason } =
        coat.map_or(Need { time: Minutes::default(), reason: Reason::Recoat }, |coat| need(coat, next, bench));
    match step.dry {
        Some(dry) => Link { from, rest: Minutes::from(dry), reason, written: true },
        None => Link { from, rest: time, reason, written: false },
    }
}

/// A mask is taken off when what was laid beside it can be touched, or has dried as its step says.
pub(super) fn links_to_unmask(film: &Film<'_>, areas: &[usize], bench: &Bench, links: &mut Vec<Link>) {
    let view = View::new(film, film.turns.len(), Minutes::default());
    let Some(on) = areas.iter().filter_map(|area| view.mask(*area)).min() else { return };
    let beside = film.coats.iter().filter(|coat| coat.position > on);
    let least = Minutes(bench.get(Figure::UnmaskRest));
    links.extend(beside.map(|coat| {
        let written = film.step(coat.position).and_then(|step| step.dry);
        let rest = written.map_or(coat.drying.touch.to_be_written().max(least), Minutes::from);
        Link { from: coat.position, rest, reason: Reason::Unmask, written: written.is_some() }
    }));
}

/// The zones of its areas that a step touches, wherever it means its paint to stay: waits and solvents go by them. Only a
/// brush keeps to one of them. A spray lands everywhere, a cloth is drawn across the joints, and work in spirit that is
/// drawn out over the faces goes across their edges.
pub fn touched(next: &Next<'_, '_>) -> &'static [Zone] {
    let in_spirit = |coat: &Coat<'_>| coat.cup.families.iter().any(is_slow);
    match (next.step.reach, next.step.technique) {
        (Reach::Spots, _) => &[Zone::Faces],
        (_, technique) if technique.sprays() => Zone::ALL,
        (Reach::Faces | Reach::Raised, Technique::Cloth) => Zone::ALL,
        (Reach::Faces, _) if next.coat.is_some_and(in_spirit) => Reach::Raised.zones(),
        (reach, _) => reach.zones(),
    }
}

fn is_slow(family: Family) -> bool {
    matches!(family, Family::Oil | Family::Enamel)
}

/// The coats of an area that a step works on: the top of each zone with and without powder, spots, and open decals.
pub fn beneath<'f, 's>(
    view: View<'f, 's>,
    area: usize,
    next: &Next<'_, '_>,
) -> impl Iterator<Item = &'f Coat<'s>> + use<'f, 's> {
    let (reach, deed, sprays) = (next.step.reach, next.deed, next.step.technique.sprays());
    let zones = touched(next);
    let tops = zones.iter().flat_map(move |zone| [view.top(area, *zone), view.top_film(area, *zone)]).flatten();
    // Oil and enamel need air as deep as they lie: for what shuts them in, a glaze does not make the coat under it older.
    let is_slow = |coat: &Coat<'_>| is_slow(coat.cup.family());
    let shuts_in: &[Zone] = if next.coat.is_some_and(|coat| !is_slow(coat)) { zones } else { &[] };
    let slow = shuts_in.iter().flat_map(move |zone| {
        let films = view.coats(area, *zone).rev().filter(|coat| coat.what != What::Powder);
        films.take_while(move |coat| is_slow(coat)).skip(1)
    });
    let with_spots = reach == Reach::All || reach == Reach::Spots || sprays || deed == Deed::Mask;
    let spots = view.spots(area).next_back().filter(|_| with_spots);
    let decals = view.bare_decals(area).filter(move |_| zones.contains(&Zone::Faces));
    tops.chain(slow).chain(spots).chain(decals)
}

impl Film<'_> {
    /// What the step at a place of the order waits for.
    pub fn links(&self, position: usize) -> &[Link] {
        let range = self.turns.get(position).map(|turn| turn.links.clone()).unwrap_or_default();
        self.links.get(range).unwrap_or_default()
    }

    /// How long the step at a place of the order rests, and for what: first for the next step that waits for it, then,
    /// where a later one needs more, for that.
    pub fn rests(&self, position: usize) -> Vec<Rest> {
        let mut rests: Vec<Rest> = Vec::new();
        for later in position + 1..self.turns.len() {
            let Some(rest) = self.rest_before(position, later) else { continue };
            if rest.time.0 <= 0.0 && !rest.written {
                continue;
            }
            if rests.last().is_none_or(|known| known.time < rest.time) {
                rests.truncate(1);
                rests.push(rest);
            }
        }
        if rests.is_empty() {
            rests.extend(self.rest_in_the_end(position));
        }
        rests
    }

    /// How long the step at a place rests before a later one that follows it on one of its areas.
    fn rest_before(&self, position: usize, later: usize) -> Option<Rest> {
        let links = self.links(later);
        let own = |link: &&Link| link.from == position;
        links.iter().find(own)?;
        let before = self.turns.get(later).map(|turn| turn.step);
        let longest = links.iter().filter(own).reduce(|a, b| if b.rest > a.rest { b } else { a })?;
        Some(Rest { time: longest.rest, reason: longest.reason, before, written: longest.written })
    }

    fn rest_in_the_end(&self, position: usize) -> Option<Rest> {
        let written = self.step(position)?.dry.map(Minutes::from);
        let time = written.or_else(|| Some(self.turn(position)?.sets?.to_be_written()))?;
        Some(Rest { time, reason: Reason::Handling, before: None, written: written.is_some() })
    }

    /// The step on an area whose `dry` an author wrote and that the step at a place of the order follows.
    pub fn written_before(&self, position: usize, area: usize) -> Option<usize> {
        let last = (0..position).rev().find(|earlier| self.areas(*earlier).contains(&area))?;
        self.step(last)?.dry.is_some().then_some(last)
    }

    /// The waits of the step at a place of the order.
    pub fn wait(&self, position: usize) -> Wait {
        self.turns.get(position).map(|turn| turn.wait).unwrap_or_default()
    }

    /// How long the hands lie idle after the step at a place of the order, until anything else can be done: its share of
    /// the time that a scheme takes beside the work.
    pub fn idle(&self, position: usize) -> Minutes {
        let Some(turn) = self.turns.get(position) else { return Minutes::default() };
        let free = turn.begins + turn.wait.hands_on;
        let next = match self.turns.get(position + 1) {
            Some(next) => next.begins,
            None => {
                self.turns.iter().enumerate().map(|(at, turn)| turn.ends + self.last_rest(at)).fold(free, Minutes::max)
            }
        };
        (next - free).max(Minutes::default())
    }

    /// How old what one step lays is when a later one begins, for somebody who does one step after the other and waits
    /// after each as long as is said there. That may be less than by the clock, which lets one step dry while another that
    /// was done before it still does.
    pub fn told_age(&self, from: usize, to: usize) -> Minutes {
        let begins = self.told.get_or_init(|| self.told_begins());
        let (Some(from), Some(to), Some(turn)) = (begins.get(from), begins.get(to), self.turns.get(from)) else {
            return Minutes::default();
        };
        *to - *from - (turn.ends - turn.begins)
    }

    /// When each step begins for such a reader.
    fn told_begins(&self) -> Vec<Minutes> {
        let mut now = Minutes::default();
        let begins = self.turns.iter().enumerate().map(|(at, turn)| {
            let begins = now;
            let written = self.step(at).and_then(|step| step.dry).map(Minutes::from);
            let told = || self.rests(at).first().map(|rest| rest.time).unwrap_or_default();
            now = now + (turn.ends - turn.begins) + written.unwrap_or_else(told);
            begins
        });
        begins.collect()
    }

    /// How long a step rests that nothing follows.
    fn last_rest(&self, position: usize) -> Minutes {
        self.rests(position).first().filter(|rest| rest.before.is_none()).map(|rest| rest.time).unwrap_or_default()
    }
}

/// Whether a step goes over the base that is beside the model: one that is about the base, or a spray over everything.
pub(super) fn meets_base(step: &Step) -> bool {
    step.is_about_base() || (step.all_over && step.technique.sprays())
}
