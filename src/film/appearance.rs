//! What one sees: the predicted colour of every zone after every step.
//!
//! Built once for a film, from the bottom up; zones that were painted alike share what is calculated. What is decided
//! where nothing is measured:
//! - the bare model is a light grey ([`Figure::BareModel`]);
//! - a coat is a film of its coats of colour ([`Coat::optical`]), a wash gathered in the recesses; drybrush, sponge,
//!   stippling, powder and painted chips lie beside what they leave bare, an ordinary brushed coat thick;
//! - what comes from one side lies on what looks that way: each zone of the area then has a colour for that side and one
//!   for the rest, and shows their mean;
//! - what is laid while a mask lies on a part of an area lies on the rest of it; the zone then shows what is larger, and
//!   each part goes on for itself;
//! - two that are blended wet in wet are the first in the recesses, the second on the edges, and half of each between;
//! - a varnish colours nothing and changes how the surface shines; chipping medium and fixer are not seen;
//! - chipping bares a share of what lay under the chipping medium;
//! - details, weather, chips and powders lie on a face as flecks: seen beside its colour, they do not change what one
//!   calls it. Edges and recesses, which are small, take a share of them. A wash or a glaze all over is no fleck, nor is a
//!   detail whose author says that it goes over all of its area.
//!
//! A paint whose colour nobody gave makes a zone unknown. What is laid over it is calculated over black and over white,
//! and the colour is known again when the two have a contrast ratio of 0.98: then nothing shows of it (ISO 6504-3).

use crate::bench::{Bench, Figure};
use std::collections::BTreeMap;

use super::coat::Coat;
use super::conditions::Conditions;
use super::cup::{strength_of, volume};
use super::history::{Film, MaskSpan};
use super::now::sheen;
use super::patches::{Patches, slot};
use super::shown::{Appearance, Change, Laying, Shown};
use super::turn::Deed;
use super::what::What;
use crate::colour::{Ground, Mixture, Outer, Shelf, Stack, WHITE_CARD, coats_over_white, space};
use crate::guide::{MixPart, Step};
use crate::measure::Colour;
use crate::trade::{Reach, Sheen, Stage, Technique, Zone};

/// What is in the cup, as far as colour goes.
enum Pot {
    Clear,
    Unknown,
    Known(Box<Mixture>),
    /// Colours that lie side by side.
    Beside(Vec<Mixture>),
    /// Two that run into each other: in recesses the first, on edges the second, on faces what lies between them.
    Blend(Box<[Pot; 3]>),
}

impl Pot {
    fn of(step: &Step, shelf: &Shelf, bench: &Bench) -> Self {
        let whole = Self::of_parts(step, &step.mix.parts, shelf, bench);
        match step.mix.blend.and_then(|split| step.mix.parts.split_at_checked(split)) {
            Some((first, second)) => {
                let side = |parts: &[MixPart]| Self::of_parts(step, parts, shelf, bench);
                Self::Blend(Box::new([side(first), whole, side(second)]))
            }
            None => whole,
        }
    }

    /// What of it lies in a zone. A blend that stays within one zone is there what lies between the two.
    fn within(&self, zone: Zone, reach: Reach) -> &Self {
        match self {
            Self::Blend(places) => {
                let [first, between, second] = &**places;
                match zone {
                    _ if reach.zones().len() < 2 => between,
                    Zone::Recesses => first,
                    Zone::Faces => between,
                    Zone::Edges => second,
                }
            }
            other => other,
        }
    }

    /// Its colour by itself: of one paint the one that its author gives, of a mix what it shows where it covers; of what is known by how
    /// it looks over white, so many coats of it over white.
    fn colour(&self, step: &Step, conditions: &Conditions) -> Option<Colour> {
        let coloured = || step.mix.parts.iter().filter(|part| part.paint.kind.has_colour());
        let mut all = coloured().filter(|part| part.amount.as_f64() > 0.0);
        if let (Some(only), None) = (all.next(), all.next())
            && only.paint.colour.is_some()
        {
            return only.paint.colour;
        }
        let coats = coloured().map(|part| coats_over_white(part.paint.kind, part.paint.hiding));
        let coats = coats.reduce(|one, other| one.zip(other).map(|(one, other)| one.max(other))).flatten();
        let surface = conditions.shelf.surface();
        let seen = |mixture: &Mixture| match coats {
            Some(coats) => Stack::on(&Ground::grey(WHITE_CARD), surface).lay(mixture, coats).linear_rgb(),
            None => mixture.opaque(surface),
        };
        match self {
            Self::Clear | Self::Unknown => None,
            Self::Known(mixture) => Some(space::shown(seen(mixture))),
            Self::Beside(mixtures) => {
                let all = mixtures.iter().map(seen).reduce(|one, other| one + other)?;
                Some(space::shown(all / mixtures.len() as f64))
            }
            Self::Blend(places) => places[1].colour(step, conditions),
        }
    }

    fn of_parts(step: &Step, mix: &[MixPart], shelf: &Shelf, bench: &Bench) -> Self {
        let mut parts = Vec::new();
        for part in mix.iter().filter(|part| part.paint.kind.has_colour()) {
            let amount = volume(part, step.mix.measured, bench) * strength_of(&part.paint, bench);
            match shelf.pigment(&part.paint.id) {
                Some(pigment) => parts.push((pigment, amount)),
                None if amount > 0.0 => return Self::Unknown,
                None => {}
            }
        }
        if step.mix.is_beside() && parts.len() > 1 {
            return Self::Beside(parts.into_iter().filter_map(|part| Mixture::of(&[part])).collect());
        }
        Mixture::of(&parts).map_or(Self::Clear, |mixture| Self::Known(Box::new(mixture)))
    }
}

/// How a coat lies in a zone.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Lie {
    /// A film of so many coats of colour.
    Film(f64),
    /// Films of so many coats of colour on a share of the zone.
    Broken { coats: f64, share: f64 },
}

/// Whether a coat lies in flecks, streaks or spots, and not as a film that recolours what it is on.
pub fn lies_as_flecks(coat: &Coat<'_>) -> bool {
    // A wash that is let into hollows fills them.
    let film = matches!(coat.what, What::Shade | What::Tint) && matches!(coat.reach, Reach::All | Reach::Recesses);
    match coat.stage {
        // A detail on faces may be a badge or an eye; one that goes over all of its areas is their colour.
        Stage::Detail => !film && !coat.technique.sprays() && coat.reach != Reach::All,
        Stage::Weather => !film && !coat.technique.sprays(),
        Stage::Chip => true,
        _ => coat.what == What::Powder,
    }
}

impl Lie {
    fn of(coat: &Coat<'_>, zone: Zone, bench: &Bench) -> Self {
        let touched = match (coat.what, coat.technique) {
            (What::Powder, _) => Figure::PowderShare,
            (_, Technique::Drybrush) => match (coat.overbrushed, zone) {
                (true, Zone::Edges) => Figure::OverbrushOnEdges,
                (true, _) => Figure::OverbrushOnFaces,
                (false, Zone::Edges) => Figure::DrybrushOnEdges,
                (false, _) => Figure::DrybrushOnFaces,
            },
            _ if lies_as_flecks(coat) && coat.stage != Stage::Detail => Figure::ChippedShare,
            (_, Technique::Sponge | Technique::Stipple) => Figure::DabbedShare,
            _ => return Self::Film(coat.all_optical() * coat.share_in(zone, bench)),
        };
        let brushed = bench.get(Figure::WetBrush) / bench.get(Figure::HidingCoat).max(f64::MIN_POSITIVE);
        let left = (1.0 - bench.get(touched).clamp(0.0, 1.0)).powf(f64::from(coat.count));
        Self::Broken { coats: coat.cup.strength * brushed, share: 1.0 - left }
    }

    fn lay(self, mixture: &Mixture, on: &Stack) -> Stack {
        match self {
            Self::Film(coats) => on.lay(mixture, coats),
            Self::Broken { coats, share } => on.drybrush(mixture, coats, share),
        }
    }

    fn lays_nothing(self) -> bool {
        match self {
            Self::Film(coats) => coats <= 0.0,
            Self::Broken { coats, share } => coats <= 0.0 || share <= 0.0,
        }
    }

    /// Two numbers that tell one way of lying from another.
    fn key(self) -> (u64, u64) {
        match self {
            Self::Film(coats) => (coats.to_bits(), u64::MAX),
            Self::Broken { coats, share } => (coats.to_bits(), share.to_bits()),
        }
    }
}

/// Predicts the colours of a film.
pub(super) fn appearance(film: &Film<'_>, conditions: &Conditions) -> Appearance {
    let patches = patches(film);
    let slots = patches.count;
    let shelf = &conditions.shelf;
    let bare = Stack::on(&Ground { seen: bare_model(&conditions.bench), metallic: false }, shelf.surface());
    let mut painter = Painter {
        film,
        conditions,
        bare,
        appearance: Appearance {
            shown: vec![Shown::Bare],
            colours: vec![None],
            changes: vec![Vec::new(); slots],
            layings: Vec::with_capacity(film.turns.len()),
            own: Vec::with_capacity(film.turns.len()),
            patches,
        },
        laid_on: BTreeMap::new(),
        under_resist: vec![None; slots],
        coloured: vec![false; slots],
    };
    for position in 0..film.turns.len() {
        painter.paint(position);
    }
    painter.appearance
}

/// The patches that the coats and the masks of a film make.
fn patches(film: &Film<'_>) -> Patches {
    let aimed = film.coats().iter().filter_map(|coat| Some((film.areas(coat.position), coat.from?)));
    let sides = aimed.flat_map(|(areas, from)| areas.iter().map(move |area| (*area, from)));
    let lying = |mask: &MaskSpan| -> Vec<usize> {
        film.before(mask.on).masks(mask.area).filter(|other| other.covers.is_some()).map(|other| other.on).collect()
    };
    let parts = film.masks.iter().filter_map(|mask| Some((mask, mask.covers?, lying(mask))));
    let parts: Vec<(&MaskSpan, f64, Vec<usize>)> = parts.collect();
    let masks = parts.iter().map(|(mask, covers, lying)| (mask.area, (mask.on, *covers, lying.as_slice())));
    Patches::of(film.scheme.areas.len(), sides, masks)
}

/// What bare plastic or resin reflects: a grey of the lightness that the figure says.
fn bare_model(bench: &Bench) -> Outer {
    Outer::grey(space::luminance_of_lightness(bench.get(Figure::BareModel)))
}

/// Several colours, each on an equal share of what it is laid on.
fn side_by_side(mixtures: &[Mixture], lie: Lie, on: &Stack) -> Stack {
    let laid = mixtures.iter().map(|mixture| lie.lay(mixture, on)).zip(1_u32..);
    let together = |so_far: Stack, (one, count): (Stack, u32)| one.beside(1.0 / f64::from(count), &so_far);
    laid.fold(on.clone(), together)
}

/// What is shown, the place in the order and the zone of a coat that is laid on it, and how it lies.
type LaidOn = (usize, (usize, Zone), (u64, u64));

struct Painter<'f, 's> {
    film: &'f Film<'s>,
    conditions: &'f Conditions,
    bare: Stack,
    appearance: Appearance,
    /// What comes of laying the coat of a place in the order, in one zone, on something that is shown.
    laid_on: BTreeMap<LaidOn, usize>,
    /// What each zone showed before chipping medium was laid on it.
    under_resist: Vec<Option<usize>>,
    /// Whether each zone has a colour on its ground.
    coloured: Vec<bool>,
}

impl Painter<'_, '_> {
    fn paint(&mut self, position: usize) {
        let film = self.film;
        let pot = film.step(position).map(|step| Pot::of(step, &self.conditions.shelf, &self.conditions.bench));
        let own = film.step(position).zip(pot.as_ref()).and_then(|(step, pot)| pot.colour(step, self.conditions));
        self.appearance.own.push(own);
        let laying = match (film.coat(position), film.step(position).zip(pot)) {
            (Some(coat), Some((_, pot))) => self.lay(coat, pot, position),
            (None, Some((step, _))) => {
                if film.turns.get(position).is_some_and(|turn| turn.deed == Deed::Chip) {
                    self.chip(step, position);
                }
                None
            }
            (_, None) => None,
        };
        self.appearance.layings.push(laying);
    }

    fn lay(&mut self, coat: &Coat<'_>, pot: Pot, position: usize) -> Option<Laying> {
        if coat.what == What::Decal {
            return None;
        }
        let bench = &self.conditions.bench;
        let shine = (coat.what == What::Varnish).then(|| sheen(coat, bench));
        let film = self.film;
        let mut even = true;
        let before = film.before(position);
        for area in film.areas(position) {
            let lies = |mask| before.lies_under(*area, mask);
            for zone in coat.reach.zones() {
                let lie = Lie::of(coat, *zone, bench);
                even &= matches!(lie, Lie::Film(_));
                for track in self.appearance.patches.reached((*area, *zone), coat.from, lies) {
                    if self.is_flecked(coat, track, *zone) {
                        even = false;
                        continue;
                    }
                    self.lay_on(track, (position, *zone), coat.what, (pot.within(*zone, coat.reach), lie, shine));
                }
                self.settle((*area, *zone), position);
            }
        }
        match pot {
            Pot::Known(mixture) if even && coat.optical > 0.0 => Some(Laying { mixture: *mixture, coat: coat.optical }),
            _ => None,
        }
    }

    /// Whether a coat is seen as flecks on the colour of a face; whatever else it is, it colours the zone.
    fn is_flecked(&mut self, coat: &Coat<'_>, slot: usize, zone: Zone) -> bool {
        let Some(coloured) = self.coloured.get_mut(slot) else { return false };
        let flecked = *coloured && zone == Zone::Faces && lies_as_flecks(coat);
        *coloured |= matches!(coat.what, What::Colour | What::Shade | What::Tint);
        flecked
    }

    fn lay_on(&mut self, slot: usize, (position, zone): (usize, Zone), what: What, coat: (&Pot, Lie, Option<Sheen>)) {
        let from = self.shown_in(slot);
        match what {
            What::Resist => self.keep(slot, Some(from)),
            What::Varnish => self.keep(slot, None),
            _ => {}
        }
        let key = (from, (position, zone), coat.1.key());
        let to = self.laid_on.get(&key).copied().unwrap_or_else(|| {
            let to = self.under(from, coat).map_or(from, |shown| self.add(shown));
            self.laid_on.insert(key, to);
            to
        });
        self.change(slot, position, to);
    }

    /// What is shown once a coat lies over it; `None` where it changes nothing.
    fn under(&self, from: usize, (pot, lie, shine): (&Pot, Lie, Option<Sheen>)) -> Option<Shown> {
        let shown = self.appearance.shown.get(from)?;
        let coloured = match pot {
            Pot::Known(mixture) if !lie.lays_nothing() => Some(shown.each(&self.bare, |stack| lie.lay(mixture, stack))),
            Pot::Beside(mixtures) if !lie.lays_nothing() => {
                Some(shown.each(&self.bare, |stack| side_by_side(mixtures, lie, stack)))
            }
            Pot::Unknown => {
                let both = [Ground::grey(0.0), Ground::grey(1.0)];
                Some(Shown::Unknown(Box::new(both.map(|ground| Stack::on(&ground, self.conditions.shelf.surface())))))
            }
            Pot::Known(_) | Pot::Beside(_) | Pot::Blend(_) | Pot::Clear => None,
        };
        let Some(shine) = shine else { return coloured };
        let below = coloured.as_ref().unwrap_or(shown);
        (*below != Shown::Bare).then(|| below.each(&self.bare, |stack| stack.varnish(shine)))
    }

    /// Bares a share of what lay under the chipping medium.
    fn chip(&mut self, step: &Step, position: usize) {
        let share = self.conditions.bench.get(Figure::ChippedShare);
        let before = self.film.before(position);
        for area in self.film.areas(position) {
            let lies = |mask| before.lies_under(*area, mask);
            for zone in step.reach.zones() {
                for slot in self.appearance.patches.reached((*area, *zone), step.from, lies) {
                    let Some(Some(under)) = self.under_resist.get(slot).copied() else { continue };
                    let over = self.shown_in(slot);
                    let shown = (self.appearance.shown.get(under), self.appearance.shown.get(over));
                    let (Some(Shown::Known(under)), Some(Shown::Known(over))) = shown else { continue };
                    let chipped = Shown::Known(Box::new(under.beside(share, over)));
                    let to = self.add(chipped);
                    self.change(slot, position, to);
                }
                self.settle((*area, *zone), position);
            }
        }
    }

    /// Lets a zone with patches show what most of it does. Sides are too small for one to see them apart, and so it is
    /// their mean; what was masked lies beside the rest as a pattern, and the largest part of that speaks for the zone: of
    /// equal ones what was there first.
    fn settle(&mut self, (area, zone): (usize, Zone), position: usize) {
        let patches = &self.appearance.patches;
        if patches.is_one(area) {
            return;
        }
        let bench = &self.conditions.bench;
        let mut parts: Vec<(f64, Vec<(f64, usize)>)> = Vec::new();
        let shares = patches.cells(area).iter().map(|cell| cell.share);
        let shares: Vec<f64> = if patches.cells(area).is_empty() { vec![1.0] } else { shares.collect() };
        // What no mask kept comes last.
        for (cell, share) in shares.into_iter().enumerate().rev() {
            let tracks = patches.within((area, zone), cell, bench);
            let shown: Vec<(f64, usize)> = tracks.into_iter().map(|(of, track)| (of, self.shown_in(track))).collect();
            match parts.iter_mut().find(|(_, known)| self.looks_alike(known, &shown)) {
                Some((all, _)) => *all += share,
                None => parts.push((share, shown)),
            }
        }
        let largest = parts.into_iter().reduce(|one, other| if other.0 > one.0 + 1e-9 { other } else { one });
        let Some((_, sides)) = largest else { return };
        let Some((_, first)) = sides.first().copied() else { return };
        let to = if sides.iter().all(|(_, other)| *other == first) {
            first
        } else {
            let parts = sides.iter().filter_map(|(of, shown)| Some((*of, self.appearance.shown.get(*shown)?)));
            let mean = Shown::mean(&parts.collect::<Vec<_>>(), &self.bare);
            self.add(mean)
        };
        if to != self.shown_in(slot(area, zone)) {
            self.change(slot(area, zone), position, to);
        }
    }

    /// Whether one sees no difference between two parts, side by side.
    fn looks_alike(&self, one: &[(f64, usize)], other: &[(f64, usize)]) -> bool {
        let mut pairs = one.iter().zip(other);
        pairs.all(|((_, one), (_, other))| self.appearance.is_alike(*one, *other))
    }

    fn shown_in(&self, slot: usize) -> usize {
        self.appearance.changes.get(slot).and_then(|changes| changes.last()).map_or(0, |change| change.shown)
    }

    fn keep(&mut self, slot: usize, shown: Option<usize>) {
        if let Some(under) = self.under_resist.get_mut(slot) {
            *under = shown;
        }
    }

    fn add(&mut self, shown: Shown) -> usize {
        self.appearance.colours.push(shown.stack().map(Stack::colour));
        self.appearance.shown.push(shown);
        self.appearance.shown.len() - 1
    }

    fn change(&mut self, slot: usize, position: usize, shown: usize) {
        if let Some(changes) = self.appearance.changes.get_mut(slot) {
            changes.push(Change { position, shown });
        }
    }
}
