//! What can be said of a step's colour before it is laid: how it comes out, how many coats it wants, how much hangs on
//! them, and how far all that is to be trusted.

use super::ladder::Ladder;
use super::section;
use crate::bench::{Bench, Figure};
use crate::colour::{CLOSE, Evidence, Stack, Sureness, Uncertainty, coats, space};
use crate::film::{Appearance, Cell, Coat, Conditions, Film, Laying, Patch, Shown, What, lies_as_flecks};
use crate::guide::{Measured, Paint, Scheme, Step};
use crate::measure::Colour;
use crate::trade::{Direction, Kind, Reach, Stage, Zone};

/// The outlook of one step, in the zone of its largest area that it works on.
#[derive(Debug, Clone, PartialEq)]
pub struct Outlook {
    /// The area, by its place in the scheme's list.
    pub area: usize,
    /// The zone.
    pub zone: Zone,
    /// How the zone comes out; `None`: a paint in it or beneath it has no colour on file.
    pub colour: Option<Colour>,
    /// Where it, or what shows through it, lies on a part of the zone: how the rest of that looks.
    pub aside: Option<Aside>,
    /// What the author measured there on the finished model, where this is the last step that changes it.
    pub measured: Option<Colour>,
    /// Where it is under or of metal: how it looks away from the glint, the other bound of what is likely.
    pub off_glint: Option<Colour>,
    /// How far that may be off; `None` where it is unknown.
    pub trust: Option<Trust>,
    /// The colour coat by coat, where coats are to be counted.
    pub ladder: Option<Ladder>,
    /// How many coats like these hide black and white side by side, for a coat that is to cover, at least and at most: the
    /// inner `None` is more than anybody lays.
    pub hides_after: Option<(u32, Option<u32>)>,
    /// How much hangs on coats and thinner, for a step that is to come out alike on many models.
    pub sway: Option<Sway>,
    /// How far a highlight or a layer stands off.
    pub lift: Option<Lift>,
}

/// What is beside a part of a zone.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Aside {
    /// Which part that is.
    pub part: Part,
    /// How the rest looks, if that is known.
    pub rest: Option<Colour>,
}

/// A part of a zone that looks unlike the rest.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// What looks to a side from which something came.
    Toward(Direction),
    /// What a mask leaves free.
    BesideMask,
}

impl Part {
    /// Its name: that of the side, or that of a mask.
    pub fn name(self) -> &'static str {
        match self {
            Self::Toward(side) => side.name(),
            Self::BesideMask => "beside-mask",
        }
    }
}

/// How far a prediction is to be trusted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Trust {
    /// The weakest thing that it rests on.
    pub evidence: Evidence,
    /// How far such predictions were off.
    pub uncertainty: Uncertainty,
    /// Whether it is a clear over metal, for which there is theory alone.
    pub theory_alone: bool,
}

impl Trust {
    /// How sure that is, in words; of what nobody has measured nothing is.
    pub fn sureness(self) -> Sureness {
        if self.theory_alone { Sureness::Guess } else { self.uncertainty.sureness() }
    }
}

/// How much a small slip moves the colour, in CIEDE2000.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sway {
    /// One coat more, or one less: the larger of the two. Of one coat alone one more: one less would be to leave the step out.
    pub one_coat: f64,
    /// Whether that is one more alone.
    pub only_more: bool,
    /// One part, or one drop, more of the thinner or medium that is in the mix.
    pub one_part: Option<f64>,
}

/// How far a lighter or darker coat stands off.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lift {
    /// How much lighter it is, in CIE L*; below zero: darker.
    pub lightness: f64,
    /// How far away it is, in CIEDE2000.
    pub difference: f64,
    /// Whether it stands off from the faces beside it; otherwise from what was there before.
    pub from_faces: bool,
}

/// The outlook of each step of a scheme, in the order of the steps; none where a step lays no colour.
pub(super) fn outlooks(scheme: &Scheme, film: &Film<'_>, conditions: &Conditions) -> Vec<Option<Outlook>> {
    (0..scheme.steps.len()).map(|position| outlook(scheme, film, position, conditions)).collect()
}

/// Whether all that each step of a scheme reaches has masks on a part of it, beside which it works.
pub(super) fn beside_masks(scheme: &Scheme, film: &Film<'_>) -> Vec<bool> {
    let beside = |position: usize| {
        let mut areas = film.areas(position).iter();
        let any = film.coat(position).is_some() && areas.len() > 0;
        any && areas.all(|area| film.is_beside_mask(position, *area))
    };
    (0..scheme.steps.len()).map(beside).collect()
}

fn outlook(scheme: &Scheme, film: &Film<'_>, position: usize, conditions: &Conditions) -> Option<Outlook> {
    let (coat, step) = (film.coat(position)?, film.step(position)?);
    let colourless = matches!(coat.what, What::Varnish | What::Resist | What::Fixer | What::Decal | What::Filler);
    if colourless || coat.reach == Reach::Spots || coat.optical <= 0.0 {
        return None;
    }
    let area = section::largest(scheme, film.areas(position))?;
    let [zone, ..] = section::zones_of(film, position);
    let appearance = film.appearance(conditions);
    let whole = appearance.after(position, area, zone);
    let part = part_of(film, coat, appearance, (area, zone));
    let side = match part {
        Some(Part::Toward(side)) => Some(side),
        Some(Part::BesideMask) | None => coat.from,
    };
    let beside = film.beside_mask(position, area, appearance);
    let own = part.map(|_| beside.unwrap_or(Patch { side, cell: 0 }));
    let after = own.map_or(whole, |own| appearance.after_on(position, area, zone, own));
    let was =
        own.map_or(appearance.before(position, area, zone), |own| appearance.before_on(position, area, zone, own));
    let rest = |part| {
        let cell = if part == Part::BesideMask { largest_masked(film, appearance, position, area) } else { Some(0) };
        let patch = Patch { side: None, cell: cell? };
        appearance.after_on(position, area, zone, patch).stack().map(Stack::colour)
    };
    if lies_as_flecks(coat) && was == after {
        return None;
    }
    let counted = Counted::of(appearance, (coat, own), step, (area, zone), conditions);
    let counting = wants_counting(coat, step, &conditions.bench);
    Some(Outlook {
        area,
        zone,
        colour: after.stack().map(Stack::colour),
        aside: part.map(|part| Aside { part, rest: rest(part) }),
        measured: measured(scheme, appearance, position, (area, zone)),
        off_glint: after.stack().filter(|stack| stack.is_theory_alone()).and_then(Stack::colour_off_glint),
        trust: after.stack().and_then(trust),
        ladder: counted.as_ref().filter(|_| counting).and_then(Counted::ladder),
        hides_after: counted.as_ref().filter(|_| is_to_cover(coat)).map(Counted::hides_after),
        sway: counted.as_ref().filter(|_| counting || step.together).map(Counted::sway),
        lift: lift(appearance, coat, (area, zone), own.filter(|_| part == Some(Part::BesideMask))),
    })
}

/// The largest cell of an area that lies under a mask while a step works beside that.
fn largest_masked(film: &Film<'_>, appearance: &Appearance, position: usize, area: usize) -> Option<usize> {
    let before = film.before(position);
    let masked = |cell: &Cell| cell.masks.iter().any(|mask| before.lies_under(area, *mask));
    let cells = appearance.cells(area).iter().enumerate().filter(|(_, cell)| masked(cell));
    cells.max_by(|(_, one), (_, other)| one.share.total_cmp(&other.share)).map(|(cell, _)| cell)
}

/// The part of a zone that a coat lies on, or that shows what the rest does not.
fn part_of(film: &Film<'_>, coat: &Coat<'_>, appearance: &Appearance, (area, zone): (usize, Zone)) -> Option<Part> {
    if film.is_beside_mask(coat.position, area) {
        return Some(Part::BesideMask);
    }
    coat.from.or_else(|| side_that_stands_off(appearance, coat.position, area, zone)).map(Part::Toward)
}

/// The side of an area that shows another colour than what looks away from it: light that came from there still shows
/// through what was laid over it.
fn side_that_stands_off(appearance: &Appearance, position: usize, area: usize, zone: Zone) -> Option<Direction> {
    let seen = |side| appearance.after_on(position, area, zone, Patch { side, cell: 0 });
    let rest = seen(None).lab()?;
    let away = |from: Direction| {
        let toward = seen(Some(from)).lab()?;
        Some(space::lab_difference(toward, rest)).filter(|away| *away > CLOSE)
    };
    appearance.sides(area).iter().copied().find(|from| away(*from).is_some())
}

fn measured(scheme: &Scheme, appearance: &Appearance, position: usize, (area, zone): (usize, Zone)) -> Option<Colour> {
    let is_last = zone == Zone::Faces && appearance.changes(area, zone).last() == Some(position);
    scheme.areas.get(area).filter(|_| is_last)?.shows
}

/// What the colour of some films rests on.
pub(super) fn trust(stack: &Stack) -> Option<Trust> {
    let (evidence, uncertainty) = (stack.evidence()?, stack.uncertainty()?);
    Some(Trust { evidence, uncertainty, theory_alone: stack.is_theory_alone() })
}

/// Whether a reader should count the coats: a clear or a glaze always, a colour that is built up in many thin ones.
fn wants_counting(coat: &Coat<'_>, step: &Step, bench: &Bench) -> bool {
    let thin = coat.cup.uncovered.powf(coat.optical) >= bench.get(Figure::ThinCoatFrom);
    coat.what == What::Tint || (coat.what == What::Colour && (step.coats > 2 || (step.coats == 2 && thin)))
}

/// Whether a coat is meant to take the place of what lies beneath.
fn is_to_cover(coat: &Coat<'_>) -> bool {
    let stains = coat.cup.kind() == Some(Kind::OneCoat);
    coat.what == What::Colour && coat.stage == Stage::Basecoat && coat.is_all_over() && !stains
}

fn lift(
    appearance: &Appearance,
    coat: &Coat<'_>,
    (area, zone): (usize, Zone),
    beside_mask: Option<Patch>,
) -> Option<Lift> {
    let lights = matches!(coat.stage, Stage::Layer | Stage::Highlight) && coat.reach != Reach::All;
    let from_faces = zone == Zone::Edges;
    let after = |zone| match beside_mask {
        Some(patch) => appearance.after_on(coat.position, area, zone, patch),
        None => appearance.after(coat.position, area, zone),
    };
    let before = |zone| match beside_mask {
        Some(patch) => appearance.before_on(coat.position, area, zone, patch),
        None => appearance.before(coat.position, area, zone),
    };
    let beside = match zone {
        _ if !lights => return None,
        Zone::Edges => after(Zone::Faces),
        Zone::Faces | Zone::Recesses => before(zone),
    };
    let (after, beside) = (after(zone).lab()?, beside.lab()?);
    let difference = space::lab_difference(beside, after);
    Some(Lift { lightness: after.l - beside.l, difference, from_faces })
}

/// Even coats on something known, so that they can be counted.
struct Counted<'a> {
    beneath: &'a Stack,
    laying: &'a Laying,
    /// One coat here, in coats of colour.
    coat: f64,
    step: &'a Step,
    bench: &'a Bench,
}

impl<'a> Counted<'a> {
    fn of(
        appearance: &'a Appearance,
        (coat, own): (&Coat<'_>, Option<Patch>),
        step: &'a Step,
        (area, zone): (usize, Zone),
        conditions: &'a Conditions,
    ) -> Option<Self> {
        let whole = || appearance.before(coat.position, area, zone);
        let on = |patch| appearance.before_on(coat.position, area, zone, patch);
        let Shown::Known(beneath) = own.map_or_else(whole, on) else { return None };
        let laying = appearance.laying(coat.position)?;
        Some(Self {
            beneath,
            laying,
            coat: laying.coat * coat.share_in(zone, &conditions.bench),
            step,
            bench: &conditions.bench,
        })
    }

    fn laid(&self, coats: f64) -> space::Lab {
        self.beneath.lay(&self.laying.mixture, coats * self.coat).lab()
    }

    fn ladder(&self) -> Option<Ladder> {
        Ladder::of(self.beneath, &self.laying.mixture, self.coat, self.step.coats)
    }

    fn hides_after(&self) -> (u32, Option<u32>) {
        coats::coats_to_hide_between(&self.laying.mixture, self.coat)
    }

    fn sway(&self) -> Sway {
        let coats = f64::from(self.step.coats);
        let own = self.laid(coats);
        let away = |coats: f64| space::lab_difference(own, self.laid(coats));
        let one_part = one_part(self.step, self.bench).map(|kept| away(coats * kept));
        let only_more = coats <= 1.0;
        let less = if only_more { 0.0 } else { away(coats - 1.0) };
        Sway { one_coat: away(coats + 1.0).max(less), only_more, one_part }
    }
}

/// What one more part of the thinner or medium in a mix leaves of its colour, as a share; `None`: it is not thinned.
fn one_part(step: &Step, bench: &Bench) -> Option<f64> {
    if step.mix.unmixed {
        return None;
    }
    let volume = |paint: &Paint| match step.mix.measured {
        Measured::Parts => 1.0,
        Measured::Drops => bench.drop(paint).0,
    };
    let thinner = step.mix.parts.iter().find(|part| matches!(part.paint.kind, Kind::Thinner | Kind::Medium))?;
    let all: f64 = step.mix.parts.iter().map(|part| part.amount.as_f64() * volume(&part.paint)).sum();
    (all > 0.0).then(|| all / (all + volume(&thinner.paint)))
}
