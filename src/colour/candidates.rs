//! What a paint may be made of: each known pigment, with white, and pairs of them without and with white.
//!
//! Recipes are kept, and the colours by which most of them are ruled out at a glance; what is left is looked at band by
//! band.

use std::sync::{LazyLock, OnceLock};

use rayon::prelude::*;

use super::coarse::{self, CoarseDepths};
use super::contrast::{Scatter, black_card, white_card};
use super::depths::Depths;
use super::known::{Body, KNOWN, Known};
use super::observation::Observation;
use super::space::{self, EncodedRgb, LinearRgb};
use super::surface::Surface;

/// Shares of white that a pigment is looked at with. A paint of one pigment is as likely as it with all of these
/// together.
const WHITES: [f64; 11] = [0.07, 0.15, 0.3, 0.45, 0.6, 0.75, 0.85, 0.92, 0.96, 0.98, 0.99];

/// Shares of the first pigment of a pair.
const PAIRS: [f64; 3] = [0.25, 0.5, 0.75];

/// Shares of the coloured pigments where a pair has white.
const PAIRED: [f64; 4] = [1.0, 0.5, 0.2, 0.06];

/// How likely one of those is, against a pigment alone: pigment with one share of white, a pair with one.
const LIKELY: (f64, f64) = (0.25, 0.03);

/// Strengths at which a film is looked at, as steps of [`STRENGTH_STEP`] in the logarithm: so many on either side.
const STRENGTHS: i32 = 4;

/// All of them.
const ALL_STRENGTHS: usize = 9;

/// So many of them a paint is looked at with on either side of what it was taken to be.
const TRIED: i32 = 2;

/// From one strength to the next.
const STRENGTH_STEP: f64 = 0.9;

/// How far a glance may be off, in an encoded channel.
const GLANCE: f64 = 0.06;

/// A mix of at most three known pigments.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Recipe {
    /// Their places in the list, with their shares.
    parts: [(usize, f64); 3],
    /// The logarithm of how likely it is before anything is seen.
    pub(crate) likely: f64,
}

/// A recipe that may be the paint's.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Chosen {
    /// The recipe.
    pub(crate) recipe: Recipe,
    /// The logarithm of the strength that fits best at a glance.
    pub(crate) strength: f64,
}

/// All that paints may be made of.
#[derive(Debug)]
pub struct Library {
    pigments: Vec<Known>,
    recipes: Vec<Recipe>,
    /// Encoded, fully covered.
    opaque: Vec<[f64; 3]>,
    level: Vec<f64>,
    /// Encoded, over the black and the white card, by strength: each is worked out when a card asks for it.
    over: [[OnceLock<Vec<[f64; 3]>>; ALL_STRENGTHS]; 2],
}

static WHOLE: LazyLock<Library> = LazyLock::new(|| Library::of(KNOWN.clone()));

impl Library {
    /// Everything that is known.
    pub fn whole() -> &'static Self {
        &WHOLE
    }

    /// What is known without some pigments: to try the method on paints that it has not learnt from.
    pub fn without(left_out: impl Fn(&Known) -> bool) -> Self {
        Self::of(KNOWN.iter().filter(|known| !left_out(known)).cloned().collect())
    }

    fn of(pigments: Vec<Known>) -> Self {
        let recipes = recipes(&pigments);
        let depths: Vec<Depths> = recipes.iter().map(|recipe| mixed(&pigments, recipe)).collect();
        let opaque = depths.iter().map(|depths| encoded(Surface::CHART.outer(&depths.opaque()).linear_rgb()));
        Self {
            opaque: opaque.collect(),
            level: depths.iter().map(Scatter::level_of).collect(),
            over: Default::default(),
            recipes,
            pigments,
        }
    }

    /// The depths of an ordinary coat of a recipe.
    pub(crate) fn depths(&self, recipe: &Recipe) -> Depths {
        mixed(&self.pigments, recipe)
    }

    /// The recipes that may be the paint's at a glance, at most `most` of them, the likeliest first. `named` are the
    /// pigments that its maker names; where none is known: any.
    pub(crate) fn choose(&self, known: &[Observation], surface: Surface, named: &[String], most: usize) -> Vec<Chosen> {
        let glances: Vec<Glance<'_>> = known.iter().filter_map(|one| self.glance(one, surface)).collect();
        let films = glances.iter().any(|glance| matches!(glance, Glance::Film { .. }));
        let strengths = if films { -TRIED..=TRIED } else { 0..=0 };
        let named = self.places_of(named);
        let mut chosen: Vec<(f64, usize, i32)> = (0..self.recipes.len())
            .filter(|at| self.is_of(*at, &named))
            .filter_map(|at| {
                let off = |step: i32| {
                    let strength = f64::from(step) * STRENGTH_STEP;
                    glances.iter().map(|glance| glance.off(at, step, strength)).sum::<f64>() + strength * strength
                };
                let best = strengths.clone().map(|step| (off(step), step)).min_by(|a, b| a.0.total_cmp(&b.0))?;
                Some((best.0 - 2.0 * self.recipes.get(at)?.likely, at, best.1))
            })
            .collect();
        let most = most.min(chosen.len());
        if most < chosen.len() {
            chosen.select_nth_unstable_by(most, |a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
            chosen.truncate(most);
        }
        chosen.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
        let of = |(_, at, step): &(f64, usize, i32)| {
            let recipe = *self.recipes.get(*at)?;
            Some(Chosen { recipe, strength: f64::from(*step) * STRENGTH_STEP })
        };
        chosen.iter().filter_map(of).collect()
    }

    /// The pigments of these colour index names, by their places; of a name that is not known, its other shades.
    fn places_of(&self, named: &[String]) -> Vec<usize> {
        let all = |is: &dyn Fn(&Known) -> bool| -> Vec<usize> {
            self.pigments.iter().enumerate().filter(|(_, known)| is(known)).map(|(at, _)| at).collect()
        };
        let of = |name: &String| Some(all(&|known| known.is_called(name))).filter(|found| !found.is_empty());
        named.iter().flat_map(|name| of(name).unwrap_or_else(|| all(&|known| known.is_shade_of(name)))).collect()
    }

    /// Whether a recipe is made of pigments that are named, and of white, which every maker adds.
    fn is_of(&self, at: usize, named: &[usize]) -> bool {
        let Some(recipe) = self.recipes.get(at) else { return false };
        let parts = || recipe.parts.iter().filter(|(_, share)| *share > 0.0).map(|(at, _)| at);
        let is_white = |at: &usize| self.pigments.get(*at).is_some_and(|known| known.body == Body::White);
        named.is_empty()
            || (parts().all(|at| named.contains(at) || is_white(at)) && parts().any(|at| named.contains(at)))
    }

    fn glance(&self, one: &Observation, surface: Surface) -> Option<Glance<'_>> {
        match one {
            Observation::Swatch(swatch) if swatch.with != Depths::NONE => None,
            Observation::Swatch(swatch) => {
                let wanted = without_mirror(space::linear(swatch.colour), surface);
                let Some(ground) = swatch.ground.as_ref() else {
                    return Some(Glance::Opaque { colours: &self.opaque, wanted });
                };
                let white = surface.outer(ground).luminance() > 0.3;
                #[expect(clippy::cast_possible_truncation, reason = "coats are few, and steps are whole")]
                let shift = (swatch.amount.max(1e-3).ln() / STRENGTH_STEP).round() as i32;
                let colours = (-TRIED..=TRIED).map(|step| self.films(white, step + shift)).collect();
                Some(Glance::Film { colours, wanted })
            }
            Observation::Scatter(scatter) => Some(Glance::Level { levels: &self.level, scatter: *scatter }),
            Observation::Cover(_) => None,
        }
    }

    /// The colours of one coat of each recipe at a strength over a card, in a third of the bands.
    fn films(&self, white: bool, step: i32) -> &[[f64; 3]] {
        let step = step.clamp(-STRENGTHS, STRENGTHS);
        let place = usize::try_from(step + STRENGTHS).unwrap_or_default();
        let Some(films) = self.over.get(usize::from(white)).and_then(|card| card.get(place)) else { return &[] };
        films.get_or_init(|| {
            let card = if white { white_card(Surface::CHART) } else { black_card(Surface::CHART) };
            let (card, coats) = (coarse::thinned(&card.0), (f64::from(step) * STRENGTH_STEP).exp());
            let seen = |recipe: &Recipe| {
                let film = CoarseDepths::of(&self.depths(recipe)).over(coats, &card);
                encoded(coarse::seen(&film, Surface::CHART))
            };
            self.recipes.par_iter().map(seen).collect()
        })
    }
}

/// One thing that is known, made ready for a glance at all recipes.
enum Glance<'a> {
    Opaque { colours: &'a [[f64; 3]], wanted: [f64; 3] },
    Film { colours: Vec<&'a [[f64; 3]]>, wanted: [f64; 3] },
    Level { levels: &'a [f64], scatter: Scatter },
}

impl Glance<'_> {
    /// How far a recipe is off, squared.
    fn off(&self, at: usize, step: i32, strength: f64) -> f64 {
        let apart = |seen: &[f64; 3], wanted: &[f64; 3]| {
            seen.iter().zip(wanted).map(|(seen, wanted)| ((seen - wanted) / GLANCE).powi(2)).sum::<f64>()
        };
        match self {
            Self::Opaque { colours, wanted } => colours.get(at).map_or(f64::INFINITY, |seen| apart(seen, wanted)),
            Self::Film { colours, wanted } => {
                let place = usize::try_from(step + TRIED).unwrap_or_default();
                colours.get(place).and_then(|of| of.get(at)).map_or(f64::INFINITY, |seen| apart(seen, wanted))
            }
            Self::Level { levels, scatter } => levels
                .get(at)
                .map_or(f64::INFINITY, |level| ((level + strength - scatter.level) / scatter.spread).powi(2)),
        }
    }
}

fn encoded(linear: LinearRgb) -> [f64; 3] {
    let encoded = EncodedRgb::from_linear(linear);
    [encoded.red, encoded.green, encoded.blue].map(|channel: f64| channel.clamp(0.0, 1.0))
}

/// The encoded colour as it would be without the mirror of the surface.
fn without_mirror(linear: LinearRgb, surface: Surface) -> [f64; 3] {
    let mirror = surface.outer_mirror;
    let inside = [linear.red, linear.green, linear.blue].map(|channel| (channel - mirror).max(0.0) / (1.0 - mirror));
    encoded(LinearRgb::from(inside))
}

fn mixed(pigments: &[Known], recipe: &Recipe) -> Depths {
    recipe.parts.iter().filter(|(_, share)| *share > 0.0).fold(Depths::NONE, |sum, (at, share)| {
        match pigments.get(*at) {
            Some(known) => sum.plus(&known.depths.times(*share)),
            None => sum,
        }
    })
}

fn recipes(pigments: &[Known]) -> Vec<Recipe> {
    let of =
        |body: Body| (0..pigments.len()).filter(move |at| pigments.get(*at).is_some_and(|known| known.body == body));
    let coloured: Vec<usize> = of(Body::Colour).collect();
    let whites: Vec<usize> = of(Body::White).collect();
    let white = whites.first().copied().unwrap_or_default();
    let mut all: Vec<Recipe> = Vec::new();
    let mut put = |parts: [(usize, f64); 3], likely: f64| all.push(Recipe { parts, likely: likely.ln() });
    let extenders: Vec<usize> = of(Body::Extender).collect();
    for alone in whites.iter().chain(&coloured).chain(&extenders) {
        put([(*alone, 1.0), (white, 0.0), (white, 0.0)], 1.0);
    }
    for (at, one) in coloured.iter().enumerate() {
        for share in WHITES {
            put([(*one, 1.0 - share), (white, share), (white, 0.0)], LIKELY.0);
        }
        for other in coloured.iter().take(at) {
            for (share, colour) in PAIRS.iter().flat_map(|share| PAIRED.map(|colour| (*share, colour))) {
                put([(*one, share * colour), (*other, (1.0 - share) * colour), (white, 1.0 - colour)], LIKELY.1);
            }
        }
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_pigment_is_among_the_first_that_are_chosen_for_its_own_colour() {
        let library = Library::whole();
        let own = KNOWN.iter().find(|known| known.index == "PB29").unwrap();
        let colour = space::shown(Surface::CHART.outer(&own.depths.opaque()).linear_rgb());
        let swatch =
            super::super::observation::BrushOut { ground: None, amount: 1.0, with: Depths::NONE, colour, spread: 0.01 };
        let chosen = library.choose(&[Observation::Swatch(Box::new(swatch))], Surface::CHART, &[], 5);
        assert!(chosen.iter().any(|one| library.depths(&one.recipe) == own.depths.times(1.0)), "{chosen:?}");
    }
}
