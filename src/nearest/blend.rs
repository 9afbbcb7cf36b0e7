//! The mixes of two paints that come nearest to a colour, in small whole parts.

use std::sync::Arc;

use rayon::prelude::*;

use super::apart::Apart;
use super::guess;
use super::looks::{self, goes_into, sort};
use super::near::{Alike, FARTHEST};
use super::rack::{Place, Rack};
use super::wanted::Wanted;
use crate::colour::contrast::class_of;
use crate::colour::space;
use crate::colour::{Evidence, Mixture, Uncertainty};
use crate::guide::Paint;
use crate::measure::Colour;
use crate::trade::{Hiding, Kind};

/// The most parts of one paint in a mix: more can't be counted out in drops without a slip.
pub(super) const MOST_PARTS: u32 = 6;

/// Pairs of which the mixes are predicted; the others are ruled out by a rough guess.
const PAIRS: usize = 40;

/// A mix of two paints.
#[derive(Debug, Clone, PartialEq)]
pub struct Blend {
    /// The paints with their parts, the larger part first; in lowest terms.
    pub parts: [(Arc<Paint>, u32); 2],
    /// How far its predicted colour lies from the wanted one.
    pub apart: Apart,
    /// Its predicted colour.
    pub colour: Colour,
    /// How one coat of it is predicted to cover.
    pub hiding: Hiding,
    /// What the prediction rests on.
    pub evidence: Option<Evidence>,
    /// How far the prediction may be off.
    pub uncertainty: Option<Uncertainty>,
    /// Those of its paints of which a brush-out tinted with white would tell more.
    pub wants_tint: Vec<Arc<Paint>>,
}

impl Blend {
    /// How near in words, no finer than the prediction is.
    pub fn alike(&self) -> Alike {
        Alike::of_apart(&self.apart)
    }

    /// Whether nothing like it has been measured: metal flakes, and clears in paint.
    pub fn is_theory_alone(&self) -> bool {
        let sorts = self.parts.each_ref().map(|(paint, _)| sort(paint));
        sorts.contains(&Kind::Metal) || (sorts.contains(&Kind::Clear) && sorts[0] != sorts[1])
    }
}

impl Rack {
    /// The mixes of two of these paints that come nearest to what is looked for, the nearest first, at most `most` of
    /// them, each of another pair and none that is further off than [`FARTHEST`].
    ///
    /// Both are used like what is wanted, or one is an ink or a clear that tints the other and leaves it hiding about as
    /// well; they can be bought, and have one carrier. Only the pairs that a rough guess finds likely are predicted, so that
    /// a long shelf does not make one wait.
    pub fn blends(&self, wanted: &Wanted<'_>, most: usize) -> Vec<Blend> {
        let Some(look) = wanted.look else { return Vec::new() };
        let fits = |place: &&Place| {
            let tints = sort(&place.paint) != wanted.sort;
            if tints { !place.paint.is_pressurised() } else { wanted.is_used_like(&place.paint) }
        };
        let sorts = Kind::ALL.iter().filter(|kind| goes_into(**kind, wanted.sort));
        let places: Vec<&Place> = sorts.flat_map(|kind| self.places(*kind)).filter(fits).collect();
        let ratios = ratios();
        let shares: Vec<f64> = ratios.iter().map(|(one, other)| share(*one, *other)).collect();
        let pairs = guess::pairs(look.lab, &places, wanted.stands_for(), &shares, PAIRS);
        self.work_out(&pairs);
        let best = |(one, other): &(&Place, &Place)| self.best_of(&one.paint, &other.paint, wanted, &ratios);
        let mut blends: Vec<Blend> = pairs.par_iter().filter_map(best).collect();
        blends.retain(|blend| blend.apart.delta_e <= FARTHEST);
        blends.sort_by(|a, b| a.apart.delta_e.total_cmp(&b.apart.delta_e));
        blends.truncate(most);
        blends
    }

    /// Works out all pigments of some pairs at once: two pairs that share a paint would wait for each other.
    fn work_out(&self, pairs: &[(&Place, &Place)]) {
        let mut ids: Vec<&str> =
            pairs.iter().flat_map(|(one, other)| [one.paint.id.as_str(), other.paint.id.as_str()]).collect();
        ids.sort_unstable();
        ids.dedup();
        ids.par_iter().for_each(|id| {
            self.shelf.pigment(id);
        });
    }

    /// The best ratio of two paints.
    fn best_of(
        &self,
        one: &Arc<Paint>,
        other: &Arc<Paint>,
        wanted: &Wanted<'_>,
        ratios: &[(u32, u32)],
    ) -> Option<Blend> {
        let (look, surface) = (wanted.look?, self.shelf.surface());
        let tinted = sort(one) != sort(other);
        let pigments = [self.shelf.pigment(&one.id)?, self.shelf.pigment(&other.id)?];
        let white = pigments.iter().all(|pigment| pigment.white);
        let mixed = |(parts, others): &(u32, u32)| {
            let mixture = Mixture::of(&[(pigments[0], f64::from(*parts)), (pigments[1], f64::from(*others))])?;
            if tinted && !wanted.hides(class_of(&mixture.depths, white)) {
                return None;
            }
            let lab = looks::known_by(&mixture, wanted.stands_for(), surface);
            Some((space::lab_difference(look.lab, lab), lab, mixture, (*parts, *others)))
        };
        let (delta_e, lab, mixture, (parts, others)) =
            ratios.iter().filter_map(mixed).min_by(|a, b| a.0.total_cmp(&b.0))?;
        let mut both = [(Arc::clone(one), parts), (Arc::clone(other), others)];
        both.sort_by_key(|(_, parts)| std::cmp::Reverse(*parts));
        let vague = [one, other].into_iter().zip(pigments).filter(|(_, pigment)| pigment.wants_tint);
        let uncertainty = looks::uncertainty(&mixture, wanted.stands_for(), surface);
        Some(Blend {
            apart: Apart { delta_e, off: look.off.between(uncertainty.unwrap_or(Uncertainty::NONE)) },
            colour: space::shown(space::linear_of(lab)),
            hiding: class_of(&mixture.depths, white),
            evidence: mixture.evidence,
            uncertainty,
            wants_tint: vague.map(|(paint, _)| Arc::clone(paint)).collect(),
            parts: both,
        })
    }
}

/// All ratios of two small whole numbers in lowest terms.
fn ratios() -> Vec<(u32, u32)> {
    let all = (1..=MOST_PARTS).flat_map(|one| (1..=MOST_PARTS).map(move |other| (one, other)));
    all.filter(|(one, other)| (2..=MOST_PARTS).all(|by| one % by != 0 || other % by != 0)).collect()
}

fn share(one: u32, other: u32) -> f64 {
    f64::from(one) / f64::from(one + other)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ratios_are_small_whole_and_in_lowest_terms() {
        let ratios = ratios();
        assert_eq!(ratios.len(), 23);
        for kept in [(1, 1), (1, 6), (6, 1), (2, 3), (5, 6)] {
            assert!(ratios.contains(&kept), "{kept:?}");
        }
        for left_out in [(2, 2), (2, 4), (6, 3), (4, 6)] {
            assert!(!ratios.contains(&left_out), "{left_out:?}");
        }
    }
}
