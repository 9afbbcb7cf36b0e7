//! How far a prediction may be off, carried along with it.
//!
//! What is known of a paint leaves a range of paints open. A few of them stand for all ([`Doubt`]): they are mixed and
//! laid as the likeliest one is, and what they differ in at the end is the error of what is shown. Each paint's few are
//! drawn by its own dice ([`super::drawn`]), so that two paints err independently and one paint errs alike wherever it lies.
//!
//! How far such figures can be trusted was tried on measured films that were left out of what was learnt; what the
//! theory itself misses is added from there.

use std::sync::Arc;

use super::coarse::{self, Coarse, CoarseDepths};
use super::constants::{HIDES, LOG_DEPTH_RANGE, MOST_COATS};
use super::contrast::{self, black_card, white_card};
use super::depths::Depths;
use super::evidence::Uncertainty;
use super::space::{self, Lab, LinearRgb};
use super::surface::{Inner, Surface};

/// So many paints stand for all that are left open.
pub(crate) const DRAWN: usize = 8;

/// The likeliest and those drawn beside it.
pub(crate) const ALL: usize = DRAWN + 1;

/// Paints that may be the one in question, the likeliest first.
#[derive(Debug, Clone, PartialEq)]
pub struct Doubt(Arc<[CoarseDepths; ALL]>);

/// What may lie under a skin, the likeliest first.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Below(Arc<[Coarse; ALL]>);

impl Doubt {
    /// The likeliest, then those drawn beside it: two and two to either side.
    pub(crate) fn of(all: &[CoarseDepths; ALL]) -> Self {
        Self(Arc::new(*all))
    }

    /// One of them, in all bands: the likeliest paint's depths, or a part of them, moved as that one is.
    pub(crate) fn moved(&self, at: usize, sure: &Depths) -> Depths {
        let (own, likeliest) = (&self.0[at.min(DRAWN)], &self.0[0]);
        let ratio = |own: &Coarse, likeliest: &Coarse| {
            let coarse = coarse::each(|band| own[band].max(1e-9) / likeliest[band].max(1e-9));
            coarse::filled(&coarse)
        };
        let (absorbed, scattered) =
            (ratio(&own.absorbed, &likeliest.absorbed), ratio(&own.scattered, &likeliest.scattered));
        Depths {
            absorbed: super::bands::each(|band| sure.absorbed[band] * absorbed[band]),
            scattered: super::bands::each(|band| sure.scattered[band] * scattered[band]),
        }
    }

    /// The same, each so many times further from the likeliest, in the logarithms of its depths.
    pub(crate) fn stretched(&self, times: f64) -> Self {
        let (least, most) = LOG_DEPTH_RANGE;
        let likeliest = self.0[0];
        let further = |own: &Coarse, likeliest: &Coarse| {
            let log = |depth: f64| depth.max(1e-9).ln();
            let moved = |at: usize| log(likeliest[at]) + times * (log(own[at]) - log(likeliest[at]));
            coarse::each(|at| moved(at).clamp(least, most).exp())
        };
        let mut all = *self.0;
        for own in &mut all[1..] {
            own.absorbed = further(&own.absorbed, &likeliest.absorbed);
            own.scattered = further(&own.scattered, &likeliest.scattered);
        }
        Self(Arc::new(all))
    }

    /// Those of a mix, from what is in it by shares; `None` where nothing of it is in doubt.
    pub(crate) fn mixed<'a>(parts: impl Iterator<Item = (&'a Depths, Option<&'a Self>, f64)> + Clone) -> Option<Self> {
        if parts.clone().all(|(_, doubt, _)| doubt.is_none()) {
            return None;
        }
        let mut all = [CoarseDepths::NONE; ALL];
        for (depths, doubt, share) in parts {
            let sure = CoarseDepths::of(depths);
            for (at, sum) in all.iter_mut().enumerate() {
                *sum = sum.with(doubt.map_or(&sure, |doubt| &doubt.0[at]), share);
            }
        }
        Some(Self(Arc::new(all)))
    }

    /// How many coats, of so many nominal coats, hide black and white: the fewest and the most of those drawn, but for one at
    /// either end; `None` for more than anybody lays.
    pub(crate) fn coats_to_hide(&self, nominal: f64) -> (u32, Option<u32>) {
        let cards = cards();
        let hides = |film: &CoarseDepths, coats: u32| contrast_ratio(film, f64::from(coats) * nominal, &cards) >= HIDES;
        let mut counts = [MOST_COATS + 1; ALL];
        for (count, film) in counts.iter_mut().zip(self.0.iter()) {
            *count = contrast::first(|coats| hides(film, coats)).unwrap_or(MOST_COATS + 1);
        }
        counts.sort_unstable();
        let [_, least, .., most, _] = counts;
        (least, Some(most).filter(|most| *most <= MOST_COATS))
    }

    /// The contrast ratio of so many nominal coats of each.
    pub(crate) fn contrast_ratios(&self, coats: f64) -> impl Iterator<Item = f64> {
        let cards = cards();
        self.0.iter().map(move |film| contrast_ratio(film, coats, &cards))
    }

    /// Fully covering films of each.
    pub(crate) fn opaque(&self) -> Below {
        let opaque =
            |film: &CoarseDepths| coarse::each(|at| super::film::opaque(film.absorbed[at], film.scattered[at]));
        Below(Arc::new(std::array::from_fn(|at| opaque(&self.0[at]))))
    }
}

/// The black and the white card.
fn cards() -> [Coarse; 2] {
    [black_card(Surface::CHART), white_card(Surface::CHART)].map(|card| coarse::thinned(&card.0))
}

fn contrast_ratio(film: &CoarseDepths, coats: f64, cards: &[Coarse; 2]) -> f64 {
    let [black, white] =
        film.over_each(coats, cards).map(|below| space::luminance(coarse::seen(&below, Surface::CHART)));
    black / white.max(1e-9)
}

impl Below {
    /// With a film on top, of which one or the other or both may be in doubt.
    pub(crate) fn under(on: (&Inner, Option<&Self>), film: (&Depths, Option<&Doubt>), coats: f64) -> Option<Self> {
        if on.1.is_none() && film.1.is_none() {
            return None;
        }
        let sure = (coarse::thinned(&on.0.0), CoarseDepths::of(film.0));
        Some(Self(Arc::new(std::array::from_fn(|at| {
            let film = film.1.map_or(&sure.1, |doubt| &doubt.0[at]);
            film.over(coats, on.1.map_or(&sure.0, |below| &below.0[at]))
        }))))
    }

    /// So much of one beside the rest of the other, each under its skin; what runs together lies under a third one.
    pub(crate) fn beside(
        share: f64,
        one: (&Inner, Option<&Self>, Surface),
        rest: (&Inner, Option<&Self>, Surface),
        skin: Surface,
    ) -> Option<Self> {
        if one.1.is_none() && rest.1.is_none() {
            return None;
        }
        let sure = (coarse::thinned(&one.0.0), coarse::thinned(&rest.0.0));
        Some(Self(Arc::new(std::array::from_fn(|at| {
            let own = one.1.map_or(&sure.0, |below| &below.0[at]);
            let other = rest.1.map_or(&sure.1, |below| &below.0[at]);
            coarse::each(|band| {
                let seen = share * one.2.outer_in(own[band]) + (1.0 - share) * rest.2.outer_in(other[band]);
                skin.inner_in(seen)
            })
        }))))
    }

    /// The two of the others that lie furthest apart, the darker first.
    pub(crate) fn bounds(&self, surface: Surface, glint: Glint) -> [LinearRgb; 2] {
        let seen = |below: &Coarse| glint.on(coarse::seen(below, surface));
        let lab = |colour: &LinearRgb| space::lab(space::on_screen(*colour));
        let mut furthest = ([seen(&self.0[0]); 2], -1.0);
        for pair in self.0[1..].chunks_exact(2) {
            let pair = [seen(&pair[0]), seen(&pair[1])];
            let apart = space::lab_difference(lab(&pair[0]), lab(&pair[1]));
            if apart > furthest.1 {
                furthest = (pair, apart);
            }
        }
        furthest.0.sort_by(|a, b| space::luminance(*a).total_cmp(&space::luminance(*b)));
        furthest.0
    }

    /// How far each moved from another, the furthest of them.
    pub(crate) fn moved(&self, surface: Surface, from: &Self, from_surface: Surface) -> f64 {
        let lab = |below: &Coarse, surface: Surface| space::lab(space::on_screen(coarse::seen(below, surface)));
        let each = self.0.iter().zip(from.0.iter());
        let apart = each.map(|(own, from)| space::lab_difference(lab(own, surface), lab(from, from_surface)));
        apart.fold(0.0, f64::max)
    }

    /// How far what is seen may be off.
    pub(crate) fn uncertainty(&self, surface: Surface, glint: Glint) -> Uncertainty {
        Uncertainty::of_spread(spread(self.0.iter().map(|below| glint.on(coarse::seen(below, surface)))))
    }
}

/// How many times more of each colour of a screen one sees of metal at arm's length than in diffuse light: what else may
/// lie there glints as the likeliest does.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Glint([f64; 3]);

impl Glint {
    /// Where nothing glints.
    pub(crate) const NONE: Self = Self([1.0; 3]);

    /// From what is seen of the likeliest, and what it is in diffuse light.
    pub(crate) fn of(seen: LinearRgb, diffuse: LinearRgb) -> Self {
        let more = |seen: f64, diffuse: f64| (seen.max(0.0) / diffuse.max(1e-4)).clamp(0.1, 10.0);
        Self([more(seen.red, diffuse.red), more(seen.green, diffuse.green), more(seen.blue, diffuse.blue)])
    }

    fn on(self, diffuse: LinearRgb) -> LinearRgb {
        let [red, green, blue] = self.0;
        LinearRgb::new(diffuse.red * red, diffuse.green * green, diffuse.blue * blue)
    }
}

/// The root of the mean of the squared distances from the first, in CIEDE2000.
fn spread(mut colours: impl Iterator<Item = LinearRgb>) -> f64 {
    let lab = |colour: LinearRgb| space::lab(space::on_screen(colour));
    let Some(first) = colours.next().map(lab) else { return 0.0 };
    let off = |colour: Lab| space::lab_difference(first, colour).powi(2);
    (colours.map(lab).map(off).sum::<f64>() / DRAWN as f64).sqrt()
}
