//! What a paint may be made of: each known pigment, with white and toned with black, and pairs of them without and with white.
//!
//! Recipes are kept, and the colours by which most of them are ruled out at a glance; what is left is looked at band by
//! band.

use std::cmp::Ordering;
use std::sync::{LazyLock, OnceLock};

use super::bands::{self, Bands};
use super::coarse::{self, CoarseDepths};
use super::constants::{BAND_STEP, KNOWN_STRENGTH, OUTDATED, RELATIVES, TRIED_STRENGTH};
use super::contrast::{Scatter, black_card, white_card};
use super::depths::Depths;
use super::known::{Body, KNOWN, Known};
use super::leaning::Leaning;
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

/// Shares of black that a pigment is toned down with, and of white beside it: so makers of paints for models turn a pure colour into a
/// deep or a dull one.
const TONES: ([f64; 3], [f64; 5]) = ([0.02, 0.05, 0.12], [0.0, 0.1, 0.25, 0.5, 0.75]);

/// How likely one of those is, against a pigment alone: pigment with one share of white, a pair with one, a tone. Fitted to
/// measured paints, each left out: with pairs at 0.03 or 0.12, or tones at 0.2, oils are predicted worse.
const LIKELY: (f64, f64, f64) = (0.25, 0.08, 0.1);

/// Strengths at which a film is looked at, as steps of [`STRENGTH_STEP`] in the logarithm: so many on either side.
const STRENGTHS: i32 = 4;

/// All of them.
const ALL_STRENGTHS: usize = 9;

/// So many of them a paint is looked at with on either side of what it was taken to be.
const TRIED: i32 = 2;

/// From one strength to the next.
const STRENGTH_STEP: f64 = 0.9;

/// Which recipes of a dark or a red lean its way is looked at for so many times those that are asked for.
const LOOKED_AT: usize = 20;

/// So many coats over white are looked at for that: what an ordinary paint has when it is thinned to a glaze.
const THINNED: f64 = 0.165;

/// How far a glance may be off, in an encoded channel.
const GLANCE: f64 = 0.06;

/// A mix of at most three known pigments.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Recipe {
    /// Their places in the list, with their shares.
    parts: [(usize, f64); 3],
    /// How many of them are out of use.
    outdated: u8,
    /// The logarithm of how likely it is before anything is seen.
    pub(crate) likely: f64,
}

impl Recipe {
    /// The logarithm of how likely it is before anything is seen: less where its pigments are guessed and out of use.
    fn likelihood(&self, by_guess: bool) -> f64 {
        self.likely + if by_guess { f64::from(self.outdated) * OUTDATED.1.ln() } else { 0.0 }
    }
}

/// A recipe that may be the paint's.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Chosen {
    /// The recipe.
    pub(crate) recipe: Recipe,
    /// The logarithm of the strength that it is tried at; `None` where nothing that is known tells of its strength.
    pub(crate) strength: Option<f64>,
}

impl Chosen {
    /// The logarithm of how likely it is before anything is seen.
    pub(crate) fn likely(&self) -> f64 {
        self.recipe.likely - 0.5 * self.strength.map_or(0.0, unlikely)
    }
}

/// How unlikely a strength is, as a squared standard number: with what is left around each that is tried, all together
/// spread as [`KNOWN_STRENGTH`].
fn unlikely(strength: f64) -> f64 {
    strength * strength / (KNOWN_STRENGTH * KNOWN_STRENGTH - TRIED_STRENGTH * TRIED_STRENGTH)
}

/// What its maker says of a paint, beside how it looks.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Made<'a> {
    /// The pigments that are named; where none is known: any.
    pub(crate) of: &'a [String],
    /// Whether it is said to hide well; it counts where no pigment is known.
    pub(crate) with_body: bool,
}

/// All that paints may be made of.
#[derive(Debug)]
pub struct Library {
    pigments: Vec<Known>,
    recipes: Vec<Recipe>,
    /// The depths of an ordinary coat of each, in a third of the bands.
    coarse: Vec<CoarseDepths>,
    /// Encoded, fully covered.
    opaque: Vec<[f64; 3]>,
    level: Vec<f64>,
    /// Which way each leans where it lies thin over white: worked out when a dark or a red asks for it.
    leanings: Vec<OnceLock<Leaning>>,
    /// Encoded, over the black and the white card, by strength: each is worked out when a card asks for it.
    over: [[OnceLock<Vec<[f64; 3]>>; ALL_STRENGTHS]; 2],
}

static WHOLE: LazyLock<Library> = LazyLock::new(|| Library::of(KNOWN.clone()));

impl Library {
    /// Everything that is known; made when it is first asked for.
    pub fn whole() -> &'static Self {
        &WHOLE
    }

    /// What is known without some pigments: to try the method on paints that it has not learnt from.
    pub fn without(left_out: impl Fn(&Known) -> bool) -> Self {
        Self::of(KNOWN.iter().filter(|known| !left_out(known)).cloned().collect())
    }

    // On one core alone, as the films below are: what is made once and waited for by all must not hand out work to those who
    // wait, or they wait for each other without end.
    fn of(mut pigments: Vec<Known>) -> Self {
        let mut recipes = recipes(&pigments);
        add_relatives(&mut pigments, &mut recipes);
        let depths: Vec<Depths> = recipes.iter().map(|recipe| mixed(&pigments, recipe)).collect();
        let opaque = depths.iter().map(|depths| encoded(Surface::CHART.outer(&depths.opaque()).linear_rgb()));
        Self {
            opaque: opaque.collect(),
            coarse: depths.iter().map(CoarseDepths::of).collect(),
            level: depths.iter().map(Scatter::level_of).collect(),
            leanings: recipes.iter().map(|_| OnceLock::new()).collect(),
            over: Default::default(),
            recipes,
            pigments,
        }
    }

    /// The depths of an ordinary coat of a recipe.
    pub(crate) fn depths(&self, recipe: &Recipe) -> Depths {
        mixed(&self.pigments, recipe)
    }

    /// The recipes that may be the paint's at a glance, at most `most` of them, the likeliest first; where films are known,
    /// each at a strength of its own.
    pub(crate) fn choose(&self, known: &[Observation], surface: Surface, made: Made<'_>, most: usize) -> Vec<Chosen> {
        let glances: Vec<Glance<'_>> = known.iter().filter_map(|one| self.glance(one, surface)).collect();
        let films = glances.iter().any(|glance| matches!(glance, Glance::Film { .. }));
        let steps = if films { -TRIED..=TRIED } else { 0..=0 };
        let named = self.places_of(made.of);
        let by_guess = named.is_empty();
        let off: Vec<(i32, Vec<f64>)> = steps.map(|step| (step, self.off(&glances, step, by_guess))).collect();
        let tried = |at: usize| off.iter().filter_map(move |(step, off)| Some((*off.get(at)?, at, *step)));
        let mut all = at_their_best(&off);
        all.retain(|(_, at, _)| self.is_of(*at, &named));
        let mut close = nearest(all, most * LOOKED_AT);
        let own = Leaning::of_paint(known);
        let unlikely = |own: Leaning, thinned: Leaning| {
            let with_body = if made.with_body && by_guess { own.unlikely_with_body(thinned) } else { 0.0 };
            own.unlikely(thinned).max(with_body)
        };
        let astray = |at: usize| own.map_or(0.0, |own| self.leaning(at).map_or(0.0, |thinned| unlikely(own, thinned)));
        for (off, at, _) in &mut close {
            *off += astray(*at);
        }
        let close: Vec<(usize, f64)> = nearest(close, most).iter().map(|(_, at, _)| (*at, astray(*at))).collect();
        let of_close =
            close.iter().flat_map(|(at, astray)| tried(*at).map(move |(off, at, step)| (off + astray, at, step)));
        let of = |(_, at, step): &(f64, usize, i32)| {
            let strength = films.then_some(f64::from(*step) * STRENGTH_STEP);
            let recipe = self.recipes.get(*at)?;
            let astray = close.iter().find(|(other, _)| other == at).map_or(0.0, |(_, astray)| *astray);
            let likely = recipe.likelihood(by_guess) - 0.5 * astray;
            Some(Chosen { recipe: Recipe { likely, ..*recipe }, strength })
        };
        nearest(of_close.collect(), most).iter().filter_map(of).collect()
    }

    /// Which way a recipe leans where it lies thin over white.
    fn leaning(&self, at: usize) -> Option<Leaning> {
        let (recipe, known) = (self.recipes.get(at)?, self.leanings.get(at)?);
        Some(*known.get_or_init(|| {
            let film = self.depths(recipe).times(THINNED).over(&white_card(Surface::CHART));
            Leaning::of_thin(Surface::CHART.outer(&film).linear_rgb())
        }))
    }

    /// How far each recipe is off at a strength, squared, and how unlikely it is: one look after the other at all of them,
    /// as there are thousands.
    fn off(&self, glances: &[Glance<'_>], step: i32, by_guess: bool) -> Vec<f64> {
        let strength = f64::from(step) * STRENGTH_STEP;
        let mut off = vec![0.0; self.recipes.len()];
        for glance in glances {
            glance.add(&mut off, step, strength);
        }
        for (off, recipe) in off.iter_mut().zip(&self.recipes) {
            *off += unlikely(strength) - 2.0 * recipe.likelihood(by_guess);
        }
        off
    }

    /// Whether it knows one of these colour index names.
    pub(crate) fn knows(&self, named: &[String]) -> bool {
        !self.places_of(named).is_empty()
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
        if named.is_empty() {
            return true;
        }
        let Some(recipe) = self.recipes.get(at) else { return false };
        let parts = || recipe.parts.iter().filter(|(_, share)| *share > 0.0).map(|(at, _)| at);
        let is_white = |at: &usize| self.pigments.get(*at).is_some_and(|known| known.body == Body::White);
        parts().all(|at| named.contains(at) || is_white(at)) && parts().any(|at| named.contains(at))
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
            Observation::Cover(_) | Observation::Clean(_) => None,
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
            let seen = |depths: &CoarseDepths| encoded(coarse::seen(&depths.over(coats, &card), Surface::CHART));
            self.coarse.iter().map(seen).collect()
        })
    }
}

/// Each recipe at the step at which it is least off, and of equal ones at the first.
fn at_their_best(off: &[(i32, Vec<f64>)]) -> Vec<(f64, usize, i32)> {
    let Some(((step, first), others)) = off.split_first() else { return Vec::new() };
    let mut best: Vec<(f64, usize, i32)> = first.iter().enumerate().map(|(at, off)| (*off, at, *step)).collect();
    for (step, off) in others {
        for ((least, _, at_step), off) in best.iter_mut().zip(off) {
            if off.total_cmp(least).is_lt() {
                (*least, *at_step) = (*off, *step);
            }
        }
    }
    best
}

/// The nearer of two, and of two that are equally near the first in the list.
fn nearer(a: &(f64, usize, i32), b: &(f64, usize, i32)) -> Ordering {
    a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)).then(a.2.cmp(&b.2))
}

/// The nearest of all, so many, in their order.
fn nearest(mut all: Vec<(f64, usize, i32)>, most: usize) -> Vec<(f64, usize, i32)> {
    if most < all.len() {
        all.select_nth_unstable_by(most, nearer);
        all.truncate(most);
    }
    all.sort_by(nearer);
    all
}

/// One thing that is known, made ready for a glance at all recipes.
enum Glance<'a> {
    Opaque { colours: &'a [[f64; 3]], wanted: [f64; 3] },
    Film { colours: Vec<&'a [[f64; 3]]>, wanted: [f64; 3] },
    Level { levels: &'a [f64], scatter: Scatter },
}

impl Glance<'_> {
    /// Adds how far each recipe is off, squared.
    fn add(&self, off: &mut [f64], step: i32, strength: f64) {
        match self {
            Self::Opaque { colours, wanted } => add_apart(off, colours, wanted),
            Self::Film { colours, wanted } => {
                let place = usize::try_from(step + TRIED).unwrap_or_default();
                add_apart(off, colours.get(place).copied().unwrap_or_default(), wanted);
            }
            Self::Level { levels, scatter } => {
                for (off, level) in off.iter_mut().zip(*levels) {
                    *off += ((level + strength - scatter.level) / scatter.spread).powi(2);
                }
            }
        }
    }
}

/// Adds how far each of some colours is from the one that is wanted, squared.
fn add_apart(off: &mut [f64], colours: &[[f64; 3]], wanted: &[f64; 3]) {
    for (off, seen) in off.iter_mut().zip(colours) {
        let [red, green, blue] = [seen[0] - wanted[0], seen[1] - wanted[1], seen[2] - wanted[2]];
        *off += (red * red + green * green + blue * blue) / (GLANCE * GLANCE);
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
    let is_black = |at: usize| pigments.get(at).is_some_and(Known::is_black);
    let black = coloured.iter().copied().find(|at| is_black(*at));
    let mut all: Vec<Recipe> = Vec::new();
    let is_outdated = |at: usize| pigments.get(at).is_some_and(Known::is_outdated);
    let mut put = |parts: [(usize, f64); 3], likely: f64| {
        let outdated = parts.iter().map(|(at, share)| u8::from(*share > 0.0 && is_outdated(*at))).sum();
        all.push(Recipe { parts, outdated, likely: likely.ln() });
    };
    let extenders: Vec<usize> = of(Body::Extender).collect();
    for alone in whites.iter().chain(&coloured).chain(&extenders) {
        put([(*alone, 1.0), (white, 0.0), (white, 0.0)], 1.0);
    }
    for (at, one) in coloured.iter().enumerate() {
        for share in WHITES {
            put([(*one, 1.0 - share), (white, share), (white, 0.0)], LIKELY.0);
        }
        if let Some(black) = black.filter(|_| !is_black(*one)) {
            let (blacks, whites) = TONES;
            for (shade, tint) in blacks.iter().flat_map(|shade| whites.map(|tint| (*shade, tint))) {
                put([(*one, 1.0 - shade - tint), (black, shade), (white, tint)], LIKELY.2);
            }
        }
        for other in coloured.iter().take(at) {
            for (share, colour) in PAIRS.iter().flat_map(|share| PAIRED.map(|colour| (*share, colour))) {
                put([(*one, share * colour), (*other, (1.0 - share) * colour), (white, 1.0 - colour)], LIKELY.1);
            }
        }
    }
    all
}

/// The relatives of all coloured pigments, alone and with white.
fn add_relatives(pigments: &mut Vec<Known>, recipes: &mut Vec<Recipe>) {
    let Some(white) = pigments.iter().position(|known| known.body == Body::White) else { return };
    let coloured: Vec<Known> = pigments.iter().filter(|known| known.body == Body::Colour).cloned().collect();
    for (known, (moved, likely)) in coloured.iter().flat_map(|known| RELATIVES.map(|relative| (known, relative))) {
        let (own, outdated) = (pigments.len(), u8::from(known.is_outdated()));
        let (absorbed, scattered) = (along(&known.depths.absorbed, moved), along(&known.depths.scattered, moved));
        pigments.push(Known { depths: Depths { absorbed, scattered }, index: String::new(), ..known.clone() });
        let mut put = |share: f64, likely: f64| {
            let parts = [(own, 1.0 - share), (white, share), (white, 0.0)];
            recipes.push(Recipe { parts, outdated, likely: likely.ln() });
        };
        put(0.0, likely);
        for share in WHITES {
            put(share, likely * LIKELY.0);
        }
    }
}

/// A spectrum moved towards red by so many nanometres; at its ends the last bands hold.
fn along(spectrum: &Bands, nanometres: f64) -> Bands {
    let last = bands::COUNT - 1;
    let at = |place: usize| spectrum.get(place).copied().unwrap_or_default().max(1e-9).ln();
    bands::each(|band| {
        let (whole, part) = ((nanometres / BAND_STEP).floor(), (nanometres / BAND_STEP).rem_euclid(1.0));
        #[expect(clippy::cast_possible_truncation, reason = "whole, and a few bands at most")]
        let from = band.cast_signed() - whole as isize;
        let near = |from: isize| at(usize::try_from(from).unwrap_or(0).min(last));
        (near(from) * (1.0 - part) + near(from - 1) * part).exp()
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_pigment_is_among_the_first_that_are_chosen_for_its_own_colour() {
        let library = Library::whole();
        let own = KNOWN.iter().find(|known| known.index == "PB29").unwrap();
        let colour = space::shown(Surface::CHART.outer(&own.depths.opaque()).linear_rgb());
        let swatch = super::super::observation::BrushOut {
            ground: None,
            amount: 1.0,
            with: Depths::NONE,
            with_doubt: None,
            colour,
            spread: 0.01,
        };
        let chosen = library.choose(
            &[Observation::Swatch(Box::new(swatch))],
            Surface::CHART,
            Made { of: &[], with_body: false },
            5,
        );
        assert!(chosen.iter().any(|one| library.depths(&one.recipe) == own.depths.times(1.0)), "{chosen:?}");
    }
}
