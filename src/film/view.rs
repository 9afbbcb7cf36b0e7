//! The film as it is at one moment: before or after a step. A view is two numbers and a reference.

use super::coat::Coat;
use super::history::{Film, MaskSpan, Slot};
use super::turn::{Deed, Preparation};
use super::what::{Opacity, What};
use crate::bench::{Bench, Figure, Micrometres, Minutes};
use crate::trade::{Family, Stage, Technique, Zone};

/// The film as it is at one moment.
#[derive(Debug, Clone, Copy)]
pub struct View<'f, 's> {
    film: &'f Film<'s>,
    upto: usize,
    now: Minutes,
}

/// A coat in one zone.
#[derive(Debug, Clone, Copy)]
pub struct Layer<'f, 's> {
    /// The coat.
    pub coat: &'f Coat<'s>,
    /// How thick it lies in this zone, dry.
    pub dry: Micrometres,
}

impl<'f, 's> View<'f, 's> {
    pub(super) fn new(film: &'f Film<'s>, upto: usize, now: Minutes) -> Self {
        Self { film, upto, now }
    }

    /// The moment.
    pub fn now(&self) -> Minutes {
        self.now
    }

    /// How long ago a coat was laid.
    pub fn age(&self, coat: &Coat<'_>) -> Minutes {
        self.now - coat.laid
    }

    /// The layers of a zone, from the bottom up.
    pub fn layers(&self, area: usize, zone: Zone) -> impl DoubleEndedIterator<Item = Layer<'f, 's>> + use<'f, 's> {
        self.slot(area, Slot::Zone(zone))
    }

    /// The coats of a zone, from the bottom up.
    pub fn coats(&self, area: usize, zone: Zone) -> impl DoubleEndedIterator<Item = &'f Coat<'s>> + use<'f, 's> {
        self.layers(area, zone).map(|layer| layer.coat)
    }

    /// The uppermost coat of a zone.
    pub fn top(&self, area: usize, zone: Zone) -> Option<&'f Coat<'s>> {
        self.coats(area, zone).next_back()
    }

    /// The uppermost coat of a zone that is a film: powder and what holds it are looked through.
    pub fn top_film(&self, area: usize, zone: Zone) -> Option<&'f Coat<'s>> {
        self.coats(area, zone).rfind(|coat| !matches!(coat.what, What::Powder | What::Fixer))
    }

    /// The uppermost coat of a zone that is not a clear film: what one sees, in colour or metal.
    pub fn seen(&self, area: usize, zone: Zone) -> Option<&'f Coat<'s>> {
        self.coats(area, zone).rfind(|coat| !coat.is_clear_film() && coat.what != What::Resist)
    }

    /// What weathering lies on: the uppermost coat of a zone that is neither powder nor washed on in oil or enamel.
    pub fn beneath_weathering(&self, area: usize, zone: Zone) -> Option<&'f Coat<'s>> {
        let weathering = |coat: &Coat<'_>| {
            matches!(coat.what, What::Powder | What::Fixer)
                || (coat.stage.weathers() && matches!(coat.cup.family(), Family::Enamel | Family::Oil))
        };
        self.coats(area, zone).rfind(|coat| !weathering(coat))
    }

    /// The clear film that shuts in a zone: nothing but weathering lies over it.
    pub fn seal(&self, area: usize, zone: Zone) -> Option<&'f Coat<'s>> {
        self.beneath_weathering(area, zone).filter(|coat| coat.is_clear_film() && coat.from.is_none())
    }

    /// The metal that shines in a zone: clear films and tints over it let it through, a matt varnish does not.
    pub fn metal(&self, area: usize, zone: Zone, bench: &Bench) -> Option<&'f Coat<'s>> {
        let matt = bench.get(Figure::MattBelow);
        let lets_through = |coat: &&Coat<'_>| {
            coat.from.is_some()
                || !coat.metallic()
                    && coat.opacity <= Opacity::Tinting
                    && (coat.what != What::Varnish || coat.gloss().0 >= matt)
        };
        // Drybrushing lays light on something; as a basecoat it is what the area is made of.
        let drybrushed = |coat: &Coat<'_>| coat.technique == Technique::Drybrush && coat.stage != Stage::Basecoat;
        let shows = |coat: &&Coat<'_>| coat.metallic() && !drybrushed(coat);
        self.coats(area, zone).rev().find(|coat| !lets_through(coat)).filter(shows)
    }

    /// The ground of a zone, if it has one.
    pub fn ground(&self, area: usize, zone: Zone) -> Option<&'f Coat<'s>> {
        self.coats(area, zone).find(|coat| coat.what == What::Ground && coat.from.is_none())
    }

    /// Everything in a zone together, dry.
    pub fn build(&self, area: usize, zone: Zone) -> Micrometres {
        Micrometres(self.layers(area, zone).map(|layer| layer.dry.0).sum())
    }

    /// The coats on single spots of an area, in the order in which they were laid.
    pub fn spots(&self, area: usize) -> impl DoubleEndedIterator<Item = &'f Coat<'s>> + use<'f, 's> {
        self.slot(area, Slot::Spots).map(|layer| layer.coat)
    }

    /// The decals of an area, in the order in which they were laid.
    pub fn decals(&self, area: usize) -> impl DoubleEndedIterator<Item = &'f Coat<'s>> + use<'f, 's> {
        self.slot(area, Slot::Decals).map(|layer| layer.coat)
    }

    /// The decals of an area that nothing covers yet.
    pub fn bare_decals(&self, area: usize) -> impl Iterator<Item = &'f Coat<'s>> + use<'f, 's> {
        let view = *self;
        self.decals(area).filter(move |decal| view.first_over(decal, area).is_none())
    }

    /// The first coat that covers a decal on an area.
    pub fn first_over(&self, decal: &Coat<'_>, area: usize) -> Option<&'f Coat<'s>> {
        let position = decal.position;
        let covers =
            |coat: &&Coat<'_>| coat.position > position && coat.technique != Technique::Drybrush && coat.from.is_none();
        let on_faces = self.coats(area, Zone::Faces).find(covers);
        let on_spots = self.spots(area).filter(|coat| coat.what == What::Varnish).find(covers);
        [on_faces, on_spots].into_iter().flatten().min_by_key(|coat| coat.position)
    }

    /// The place in the order of the step whose mask lies on an area, the last of several.
    pub fn mask(&self, area: usize) -> Option<usize> {
        self.masks(area).next_back().map(|mask| mask.on)
    }

    /// The masks that lie on an area, in the order in which they were put on.
    pub(super) fn masks(&self, area: usize) -> impl DoubleEndedIterator<Item = &'f MaskSpan> + use<'f, 's> {
        let upto = self.upto;
        let lies =
            move |mask: &&MaskSpan| mask.area == area && mask.on < upto && mask.off.is_none_or(|off| off >= upto);
        self.film.masks.iter().filter(lies)
    }

    /// Whether the mask of a step at a place of the order lies on an area.
    pub fn lies_under(&self, area: usize, mask: usize) -> bool {
        self.masks(area).any(|lying| lying.on == mask)
    }

    /// Whether no mask lies on an area, or only such as leave a part of it free, as their authors say.
    pub fn is_open(&self, area: usize) -> bool {
        self.masks(area).all(|mask| mask.covers.is_some())
    }

    /// How much of an area its masks leave free, from 0 to 1, as far as their authors say.
    pub fn free(&self, area: usize) -> f64 {
        (1.0 - self.masks(area).filter_map(|mask| mask.covers).sum::<f64>()).max(0.0)
    }

    /// The place in the order of the step that shut an area in, so that it can't be reached any more.
    pub fn shut_in(&self, area: usize) -> Option<usize> {
        let film = self.film;
        let shuts = |position: &usize| film.step(*position).is_some_and(|step| step.hides.contains(&area));
        (0..self.upto.min(film.turns.len())).find(shuts)
    }

    /// The places in the order at which an area was got ready, and how.
    pub fn preparations(&self, area: usize) -> impl Iterator<Item = (usize, Preparation)> + use<'f, 's> {
        let film = self.film;
        film.turns.iter().take(self.upto).enumerate().filter_map(move |(position, turn)| match turn.deed {
            Deed::Prepare(preparation) if film.areas(position).contains(&area) => Some((position, preparation)),
            _ => None,
        })
    }

    /// The places in the order at which an area was chipped, with paint or by taking paint away.
    pub fn chips(&self, area: usize) -> impl Iterator<Item = usize> + use<'f, 's> {
        let film = self.film;
        (0..self.upto.min(film.turns.len())).filter(move |position| {
            film.step(*position).is_some_and(|step| step.stage == crate::trade::Stage::Chip)
                && film.areas(*position).contains(&area)
        })
    }

    fn slot(&self, area: usize, slot: Slot) -> impl DoubleEndedIterator<Item = Layer<'f, 's>> + use<'f, 's> {
        let film = self.film;
        let upto = self.upto;
        let stack = film.stack(area, slot);
        let laid = stack.partition_point(|laid| film.coats.get(laid.coat).is_some_and(|coat| coat.position < upto));
        stack.iter().take(laid).filter_map(move |laid| Some(Layer { coat: film.coats.get(laid.coat)?, dry: laid.dry }))
    }
}
