//! How every area of a model with a mesh looks after each step: what the pictures of the steps are drawn from.

use booth::{AreaLook, Flecks, Grain, Shine, Sided, Tone};

use crate::bench::{Bench, Figure};
use crate::colour::space::{self, LinearRgb};
use crate::colour::{Ground, Stack};
use crate::film::{Appearance, Cell, Coat, Conditions, Film, Patch, Shown, What, lies_as_flecks, sheen, surface_now};
use crate::trade::{Direction, Sheen, Stage, Zone};

/// A model after one step.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct ModelLook {
    /// Its areas, in the order of the scheme's list.
    pub areas: Vec<AreaLook>,
    /// What belongs to no area, such as the base.
    pub rest: AreaLook,
    /// The areas that the step changed; these are lifted.
    pub changed: Vec<usize>,
    /// The areas on which it paints details, of which nobody says where they lie; these are lifted too.
    pub detailed: Vec<usize>,
}

impl ModelLook {
    /// The same where no step is the newest: nothing is lifted.
    #[must_use]
    pub fn at_rest(&self) -> Self {
        let plain = |look: &AreaLook| AreaLook { lifted: false, ..look.clone() };
        Self { areas: self.areas.iter().map(plain).collect(), rest: plain(&self.rest), ..Self::default() }
    }
}

/// Whether two looks show the same, whatever is lifted.
fn same(one: &AreaLook, other: &AreaLook) -> bool {
    one == &AreaLook { lifted: one.lifted, ..other.clone() }
}

/// The zones in the order in which a picture wants them.
const ZONES: [Zone; 3] = [Zone::Recesses, Zone::Faces, Zone::Edges];

/// How a model looks after each step of its scheme.
pub(super) fn looks(film: &Film<'_>, conditions: &Conditions) -> Vec<ModelLook> {
    let appearance = film.appearance(conditions);
    let bare = plain(bare(&conditions.bench));
    let mut rest = bare.clone();
    let mut looks: Vec<ModelLook> = Vec::new();
    for (position, step) in film.scheme().steps.iter().enumerate() {
        let seen = Seen { film, appearance, conditions, position };
        let mut areas: Vec<AreaLook> = (0..film.scheme().areas.len()).map(|area| seen.area(area)).collect();
        if step.is_about_base() {
            rest = appearance.own_colour(position).map_or(rest, |colour| plain(light(space::linear(colour))));
        } else if step.all_over && film.coat(position).is_some_and(|coat| !coat.is_clear_film()) {
            let uncovered = areas.iter().find(|area| !area.masked).cloned();
            rest = AreaLook { flecks: Vec::new(), ..uncovered.unwrap_or(rest) };
        }
        let before = looks.last().map_or(&[][..], |look| look.areas.as_slice());
        let changed: Vec<usize> =
            (0..areas.len()).filter(|at| !same(before.get(*at).unwrap_or(&bare), &areas[*at])).collect();
        let details = matches!(step.stage, Stage::Detail | Stage::Decal);
        let detailed = step.areas.iter().copied().filter(|at| details && !changed.contains(at) && *at < areas.len());
        let detailed: Vec<usize> = detailed.collect();
        for at in changed.iter().chain(&detailed) {
            areas[*at].lifted = true;
        }
        rest.lifted = !same(looks.last().map_or(&bare, |look| &look.rest), &rest);
        looks.push(ModelLook { areas, rest: rest.clone(), changed, detailed });
    }
    looks
}

/// Everything of one colour, matt.
fn plain(colour: [f32; 3]) -> AreaLook {
    AreaLook { zones: [Tone { colour, ..Tone::default() }; 3], ..AreaLook::default() }
}

/// The place of a side in the booth's list.
fn place(side: Direction) -> usize {
    booth::SIDES.iter().position(|name| *name == side.name()).unwrap_or_default()
}

/// What the bare model reflects.
fn bare(bench: &Bench) -> [f32; 3] {
    let grey = space::luminance_of_lightness(bench.get(Figure::BareModel));
    light(LinearRgb::new(grey, grey, grey))
}

#[expect(clippy::cast_possible_truncation, reason = "light from 0 to 1")]
fn light(colour: LinearRgb) -> [f32; 3] {
    [colour.red as f32, colour.green as f32, colour.blue as f32].map(|channel| channel.clamp(0.0, 1.0))
}

/// A film after the step at a place of the order.
#[derive(Clone, Copy)]
struct Seen<'a, 's> {
    film: &'a Film<'s>,
    appearance: &'a Appearance,
    conditions: &'a Conditions,
    position: usize,
}

impl Seen<'_, '_> {
    fn area(self, area: usize) -> AreaLook {
        let view = self.film.after(self.position);
        let shown = ZONES.map(|zone| self.appearance.after(self.position, area, zone));
        let on = |patch: Patch| ZONES.map(|zone| self.tone(area, zone, patch));
        let toward = |side: Option<Direction>| on(Patch { side, cell: 0 });
        let rest = toward(None);
        let sides =
            self.appearance.sides(area).iter().map(|side| Sided { side: place(*side), zones: toward(Some(*side)) });
        let patches = self.patches(area, &rest);
        // A mask of which nobody says more covers all of it.
        let masked = !view.is_open(area);
        let mut look = AreaLook {
            zones: rest,
            sides: sides.filter(|sided| sided.zones != rest).collect(),
            patches,
            unknown: shown.iter().any(|shown| matches!(shown, Shown::Unknown(_))),
            masked,
            decals: view.decals(area).next().is_some(),
            ..AreaLook::default()
        };
        self.bare_chips(area, &mut look);
        look.flecks.extend(view.coats(area, Zone::Faces).filter_map(|coat| self.flecks(coat)));
        look
    }

    /// What masks keep, or kept, of an area; nothing where that looks like the rest.
    #[expect(clippy::cast_possible_truncation, reason = "shares from 0 to 1")]
    fn patches(self, area: usize, rest: &[Tone; 3]) -> Vec<booth::Patch> {
        let view = self.film.after(self.position);
        let patch = |(cell, kept): (usize, &Cell)| booth::Patch {
            share: kept.share as f32,
            zones: ZONES.map(|zone| self.tone(area, zone, Patch { side: None, cell })),
            masked: kept.masks.iter().any(|mask| view.lies_under(area, *mask)),
        };
        let patches: Vec<booth::Patch> = self.appearance.cells(area).iter().enumerate().skip(1).map(patch).collect();
        // All of them or none: where each lies follows from its place among the others.
        if patches.iter().any(|patch| patch.masked || patch.zones != *rest) { patches } else { Vec::new() }
    }

    /// How a patch of a zone looks.
    fn tone(self, area: usize, zone: Zone, patch: Patch) -> Tone {
        let bench = &self.conditions.bench;
        let from = patch.side;
        let shown = self.appearance.after_on(self.position, area, zone, patch);
        let view = self.film.after(self.position);
        let masks = self.appearance.cells(area).get(patch.cell).map(|cell| cell.masks.as_slice()).unwrap_or_default();
        let lies_there = |coat: &&Coat<'_>| {
            let before = self.film.before(coat.position);
            let kept_off = masks.iter().any(|mask| before.lies_under(area, *mask));
            !kept_off && (coat.from.is_none() || coat.from == from)
        };
        let mut on = view.coats(area, zone).filter(lies_there);
        let top = on.next_back();
        let (metal, shines) = if masks.is_empty() {
            let from_there = top.is_some_and(|coat| coat.from.is_some() && coat.metallic());
            let now = surface_now(view, area, [zone; 3], bench).map(|now| now.sheen);
            (from_there || view.metal(area, zone, bench).is_some(), now)
        } else {
            let colour = top.into_iter().chain(on.rev()).find(|coat| !coat.is_clear_film());
            (colour.is_some_and(Coat::metallic), top.map(|coat| sheen(coat, bench)))
        };
        let shine = match (metal, shines) {
            (true, Some(Sheen::Gloss | Sheen::Satin)) => Shine::GlossMetal,
            (true, _) => Shine::Metal,
            (false, Some(Sheen::Satin)) => Shine::Satin,
            (false, Some(Sheen::Gloss)) => Shine::Gloss,
            (false, _) => Shine::Matt,
        };
        match shown {
            Shown::Known(stack) => Tone {
                colour: light(stack.linear_rgb()),
                off_glint: stack.colour_off_glint().filter(|_| metal).map(|colour| light(space::linear(colour))),
                shine,
            },
            Shown::Bare => Tone { colour: bare(bench), ..Tone::default() },
            Shown::Unknown(both) => {
                let mean = Stack::on(&Ground::grey(0.4), self.conditions.shelf.surface());
                let known = both[0].beside(0.5, &both[1]).beside(0.7, &mean);
                Tone { colour: light(known.linear_rgb()), off_glint: None, shine }
            }
        }
    }

    /// What lies on the faces of an area as flecks and does not count as its colour.
    fn flecks(self, coat: &Coat<'_>) -> Option<Flecks> {
        if !lies_as_flecks(coat) || coat.stage == Stage::Detail {
            return None;
        }
        let bench = &self.conditions.bench;
        let (grain, share) = match (coat.what, coat.stage) {
            (What::Powder, _) => (Grain::Dust, Figure::PowderShare),
            (_, Stage::Chip) => (Grain::Chips, Figure::ChippedShare),
            _ => (Grain::Streaks, Figure::ChippedShare),
        };
        // Thin as they are, streaks and dust are seen for what they are.
        let cover = if grain == Grain::Chips { coat.cover.max(0.35) } else { 0.9 * coat.cover.max(0.6) };
        #[expect(clippy::cast_possible_truncation, reason = "shares from 0 to 1")]
        let flecks = Flecks {
            grain,
            share: (bench.get(share) * 0.6) as f32,
            strength: cover.min(1.0) as f32,
            colour: light(space::linear(self.appearance.own_colour(coat.position)?)),
            shine: Shine::Matt,
            from: coat.from.map(place),
        };
        Some(flecks)
    }

    /// Where chipping has bared what lay below, that is drawn as chips, and what is left as it was: their mean is what is
    /// predicted for the zone. Whatever came over both since has changed them alike.
    fn bare_chips(self, area: usize, look: &mut AreaLook) {
        let view = self.film.after(self.position);
        let bared = view.chips(area).filter(|position| self.film.coat(*position).is_none()).max();
        let Some(chipped) = bared else { return };
        let shown = |position: usize, zone: Zone| self.appearance.before(position, area, zone).stack().cloned();
        let resists = view.coats(area, Zone::Faces).filter(|coat| coat.what == What::Resist && coat.position < chipped);
        let mut resists = resists;
        let Some(resist) = resists.next_back() else { return };
        let (Some(under), Some(over)) = (shown(resist.position, Zone::Faces), shown(chipped, Zone::Faces)) else {
            return;
        };
        let Some(mixed) = self.appearance.after(chipped, area, Zone::Faces).stack() else { return };
        let [under, over, mixed] = [under.linear_rgb(), over.linear_rgb(), mixed.linear_rgb()].map(light);
        let like = |zone: [f32; 3], part: [f32; 3]| {
            [0, 1, 2].map(|at: usize| (zone[at] * (part[at] / mixed[at].max(0.004)).clamp(0.1, 5.0)).min(1.0))
        };
        let colour = like(look.zones[1].colour, under);
        for zone in look.zones.iter_mut().chain(look.sides.iter_mut().flat_map(|sided| &mut sided.zones)) {
            zone.colour = like(zone.colour, over);
        }
        #[expect(clippy::cast_possible_truncation, reason = "a share from 0 to 1")]
        let share = self.conditions.bench.get(Figure::ChippedShare) as f32;
        look.flecks.push(Flecks { grain: Grain::Chips, share, strength: 1.0, colour, shine: Shine::Matt, from: None });
    }
}
