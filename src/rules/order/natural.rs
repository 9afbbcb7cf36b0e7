//! The natural order of stages: what a painter does first and last where nothing forces another order.

use crate::bench::Figure;
use crate::film::{Conditions, Film, What};
use crate::guide::{Scheme, Step};
use crate::measure::Colour;
use crate::trade::{Family, Kind, Reach, Stage};

/// Where the steps of a scheme stand in the usual course of the work.
#[derive(Debug)]
pub(super) struct Natural<'s> {
    scheme: &'s Scheme,
    ranks: Vec<Rank>,
}

/// The place of a step in the usual course: its stage, then the broad before the fine, spray before brush, and dark
/// before light.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
struct Rank {
    stage: u32,
    part: u32,
    by_hand: bool,
    light: usize,
    /// Whether it may as well come elsewhere: grit before the paint, or snow after it.
    free: bool,
}

/// More than one pair of steps in so many the wrong way round is no longer a slip in an order but none.
const JUMBLED_FROM: usize = 5;

impl<'s> Natural<'s> {
    /// The natural order of a scheme whose film was walked in some order.
    pub(super) fn of(film: &Film<'s>, conditions: &Conditions) -> Self {
        let scheme = film.scheme();
        let course = Course::of(film, conditions);
        let ranks = scheme.steps.iter().enumerate().map(|(at, step)| course.rank(at, step)).collect();
        Self { scheme, ranks }
    }

    /// Whether the first of two steps belongs before the second, and the film cares.
    fn before(&self, one: usize, other: usize) -> bool {
        let rank = |at: usize| self.ranks.get(at).filter(|rank| !rank.free).map(|rank| rank.stage);
        let (Some(first), Some(second)) = (rank(one), rank(other)) else { return false };
        let areas = |at: usize| self.scheme.steps.get(at).map(on_model).unwrap_or_default();
        first < second && areas(one).iter().any(|area| areas(other).contains(area))
    }

    /// How many pairs of steps that meet on an area stand the wrong way round in an order, and how many pairs meet.
    pub(super) fn inversions(&self, order: &[usize]) -> (usize, usize) {
        let pairs =
            order.iter().enumerate().flat_map(|(at, one)| order.iter().skip(at + 1).map(move |two| (*one, *two)));
        pairs.fold((0, 0), |(wrong, all), (one, two)| {
            let (kept, turned) = (self.before(one, two), self.before(two, one));
            (wrong + usize::from(turned), all + usize::from(kept || turned))
        })
    }

    /// Whether so much stands the wrong way round that it is no slip.
    pub(super) fn is_jumbled(&self, order: &[usize]) -> bool {
        let (wrong, all) = self.inversions(order);
        wrong * JUMBLED_FROM > all
    }

    /// The steps in their natural order. Where an order is all but natural already, steps that do not meet on the model
    /// stay as they were; a jumble is put in order by stages from end to end.
    pub(super) fn sorted(&self, order: &[usize]) -> Vec<usize> {
        let jumbled = self.is_jumbled(order);
        let mut left: Vec<usize> = order.to_vec();
        let mut sorted = Vec::with_capacity(order.len());
        while !left.is_empty() {
            let ready = |step: &usize| !left.iter().any(|other| other != step && self.must_precede(*other, *step));
            let ready = left.iter().copied().filter(ready);
            let next = if jumbled { ready.min_by_key(|step| self.ranks.get(*step)) } else { ready.into_iter().next() };
            // Where steps wait for each other, the one that stood first goes first.
            let Some(next) = next.or_else(|| left.first().copied()) else { break };
            left.retain(|step| *step != next);
            sorted.push(next);
        }
        sorted
    }

    fn must_precede(&self, one: usize, other: usize) -> bool {
        let (Some(first), Some(second)) = (self.scheme.steps.get(one), self.scheme.steps.get(other)) else {
            return false;
        };
        let (after, reversed) = (second.after.contains(&one), first.after.contains(&other));
        after || (!reversed && (second.shuts_in(first) || self.before(one, other)))
    }
}

/// The areas of the model that a step is about; basing without areas stands beside the model.
fn on_model(step: &Step) -> &[usize] {
    let beside = step.stage == Stage::Basing && step.places.areas == step.places.title;
    if beside { &[] } else { &step.areas }
}

/// What the rank of one step depends on in the others.
struct Course<'f, 's> {
    film: &'f Film<'s>,
    conditions: &'f Conditions,
}

impl<'f, 's> Course<'f, 's> {
    fn of(film: &'f Film<'s>, conditions: &'f Conditions) -> Self {
        Self { film, conditions }
    }

    fn steps(&self) -> impl Iterator<Item = (usize, &'s Step)> {
        self.film.scheme().steps.iter().enumerate()
    }

    /// The other steps that meet a step on the model.
    fn meeting(&self, at: usize, step: &'s Step) -> impl Iterator<Item = (usize, &'s Step)> {
        let meets = move |other: &(usize, &'s Step)| {
            other.0 != at && on_model(other.1).iter().any(|area| on_model(step).contains(area))
        };
        self.steps().filter(meets)
    }

    fn what(&self, at: usize) -> Option<What> {
        self.film.coats().iter().find(|coat| coat.step == at).map(|coat| coat.what)
    }

    fn gloss(&self, at: usize) -> f64 {
        self.film.coats().iter().find(|coat| coat.step == at).map_or(0.0, |coat| coat.gloss().0)
    }

    /// Whether a step works in oils, which want a sealed ground.
    fn is_oil_work(&self, at: usize) -> bool {
        let coat = self.film.coats().iter().find(|coat| coat.step == at);
        coat.is_some_and(|coat| {
            coat.cup.family() == Family::Oil && matches!(coat.what, What::Colour | What::Shade | What::Tint)
        })
    }

    fn rank(&self, at: usize, step: &'s Step) -> Rank {
        let part = match step.reach {
            Reach::All => 0,
            Reach::Faces | Reach::Raised => 1,
            Reach::Recesses => 2,
            Reach::Edges => 3,
            Reach::Spots => 4,
        };
        let coat = self.film.coats().iter().find(|coat| coat.step == at);
        let own = || self.film.appearance(self.conditions).own_colour(coat?.position);
        let light = match step.stage {
            Stage::Preshade | Stage::Layer | Stage::Highlight => own().map_or(0, lightness),
            // Of two varnishes the glossier lies below.
            Stage::Varnish => 10 - tenths(self.gloss(at)),
            _ => 0,
        };
        let free = matches!(step.stage, Stage::Assemble | Stage::Basing);
        let stage = self.sprayed_about_masks(at, step).unwrap_or_else(|| 10 * self.stage(at, step));
        Rank { stage, part, by_hand: !step.technique.sprays(), light, free }
    }

    fn stage(&self, at: usize, step: &'s Step) -> u32 {
        let holds = |kind: Kind| step.mix.parts.iter().any(|part| part.paint.kind == kind);
        let meets_resist = || self.meeting(at, step).any(|(other, _)| self.what(other) == Some(What::Resist));
        match step.stage {
            Stage::Prepare => 0,
            Stage::Assemble => 5,
            _ if self.what(at) == Some(What::Resist) => 36,
            Stage::Chip if self.what(at).is_none() && meets_resist() => 38,
            Stage::Varnish if meets_resist() => self.varnish_about_chips(at, step),
            Stage::Undercoat => 10,
            Stage::Preshade => 20,
            Stage::Basecoat => 30,
            Stage::Mask => 31,
            Stage::Unmask => 35,
            Stage::Shade => 40,
            Stage::Layer => 50,
            Stage::Glaze if holds(Kind::Clear) => 65,
            Stage::Glaze => 55,
            Stage::Highlight => 60,
            Stage::Detail => 70,
            Stage::Decal => 80,
            Stage::PanelWash => 90,
            Stage::Chip => 92,
            Stage::Weather => 93,
            Stage::Varnish => self.varnish(at, step),
            Stage::Pigment => 105,
            Stage::Basing => self.basing(at, step),
        }
    }

    /// Where masks are used, everything that is sprayed on the masked areas comes before the mask, and everything that is
    /// sprayed beside them while it lies there, each in the order of its stages.
    fn sprayed_about_masks(&self, at: usize, step: &Step) -> Option<u32> {
        let colour = matches!(self.what(at), Some(What::Colour | What::Shade | What::Tint));
        let masks = || self.steps().filter(|(_, other)| other.stage == Stage::Mask);
        if !colour || !step.technique.sprays() || masks().next().is_none() || step.stage == Stage::Preshade {
            return None;
        }
        let own = masks().any(|(_, mask)| mask.areas.iter().any(|area| step.areas.contains(area)));
        Some(if own { 300 } else { 320 } + self.stage(at, step) / 10)
    }

    /// Grit that is painted afterwards comes before the paint; grass and earth that stay as they are come last.
    fn basing(&self, at: usize, step: &'s Step) -> u32 {
        let gritty = self.what(at) == Some(What::Texture);
        let painted = self
            .meeting(at, step)
            .any(|(_, other)| matches!(other.stage, Stage::Basecoat | Stage::Highlight | Stage::Shade | Stage::Layer));
        if gritty && painted { 15 } else { 120 }
    }

    /// Chipping asks for a seal under the soluble film, and one over the chips.
    fn varnish_about_chips(&self, at: usize, step: &'s Step) -> u32 {
        let rivals = || self.meeting(at, step).filter(|(_, other)| other.stage == Stage::Varnish);
        let breadth = (step.areas.len(), self.gloss(at));
        let last =
            rivals().all(|(other, one)| (one.areas.len(), -self.gloss(other), other) < (breadth.0, -breadth.1, at));
        match rivals().filter(|(other, _)| *other < at).count() {
            _ if last => 100,
            0 => 35,
            _ => 39,
        }
    }

    /// A varnish is the bed of decals, their seal, the ground of a wash, the last coat, or what shines again over it.
    fn varnish(&self, at: usize, step: &'s Step) -> u32 {
        let gloss = self.gloss(at);
        let meets = |stage: Stage| self.meeting(at, step).any(|(_, other)| other.stage == stage);
        let varnishes = || self.meeting(at, step).filter(|(_, other)| other.stage == Stage::Varnish);
        let smooth = |gloss: f64| gloss >= self.conditions.bench.get(Figure::DecalGloss);
        let duller = varnishes().any(|(other, _)| self.gloss(other) < gloss);
        if step.reach == Reach::Spots {
            return 110;
        }
        if meets(Stage::Decal)
            && (smooth(gloss) || varnishes().count() > 1)
            && gloss > self.conditions.bench.get(Figure::MattBelow)
        {
            let bed =
                varnishes().any(|(other, _)| smooth(self.gloss(other)) && (self.gloss(other), at) > (gloss, other));
            let last = !duller && varnishes().any(|(other, _)| self.gloss(other) > gloss) && varnishes().count() > 1;
            return match (bed, last) {
                (_, true) => 100,
                (true, false) => 82,
                (false, false) => 78,
            };
        }
        let oils = self.meeting(at, step).any(|(other, _)| self.is_oil_work(other));
        let narrower =
            |one: &Step, other: usize| (one.areas.len(), -self.gloss(other), other) < (step.areas.len(), -gloss, at);
        if oils && varnishes().next().is_some() && !varnishes().any(|(other, one)| narrower(one, other)) {
            return 38;
        }
        let slow_work = meets(Stage::PanelWash) || meets(Stage::Weather);
        if slow_work && duller && gloss > self.conditions.bench.get(Figure::MattBelow) {
            return 85;
        }
        let wider = varnishes().any(|(other, one)| one.areas.len() > step.areas.len() && self.gloss(other) < gloss);
        if wider { 110 } else { 100 }
    }
}

/// Lightness in tenths.
fn lightness(colour: Colour) -> usize {
    tenths(colour.lightness())
}

/// So many whole tens of a hundred.
fn tenths(value: f64) -> usize {
    (1..10_u32).filter(|ten| value >= f64::from(*ten) * 10.0).count()
}
