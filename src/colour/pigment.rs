//! A paint as a colour maker sees it: what one nominal coat of it absorbs and scatters, and how well that is known.

use super::candidates::{Library, Made};
use super::clean::Clean;
use super::constants::{LABEL_SPREAD, SWATCH_SPREAD, TELLS_NO_CHANNEL, TELLS_NO_STRENGTH};
use super::contrast::{self, Cover, Scatter, black_card, white_card};
use super::depths::Depths;
use super::doubt::{Below, Doubt, Glint};
use super::drawn;
use super::estimate;
use super::evidence::Evidence;
use super::judge;
use super::label;
use super::observation::{BrushOut, Observation};
use super::own;
use super::prior::{self, Prior};
use super::space::{self, Lab};
use super::surface::{self, Inner, Surface};
use crate::guide::{Paint, Swatch};
use crate::measure::Colour;
use crate::trade::{Hiding, Kind, Sheen};

/// A paint's optical depths, with what they rest on.
#[derive(Debug, Clone, PartialEq)]
pub struct Pigment {
    /// Of one nominal coat.
    pub depths: Depths,
    /// What they rest on; `None` for what is clear and colourless, of which nothing needs to be known.
    pub evidence: Option<Evidence>,
    /// What else it may be; `None` where nothing is in doubt.
    pub doubt: Option<Doubt>,
    /// Whether it shines by metal flakes.
    pub metallic: bool,
    /// Whether it is white, so that a mix with it is a tint.
    pub white: bool,
    /// How much of a matt surface's mirror it has: 1 for matt, 0 for gloss.
    pub mirror: f64,
    /// Whether its strength can't be seen in what is given: ask for a thinner coat, or better for a tint.
    pub wants_tint: bool,
}

impl Pigment {
    /// Medium, thinner, water, clear varnish: thins the colour and adds none.
    pub const COLOURLESS: Self = Self {
        depths: Depths::NONE,
        evidence: None,
        doubt: None,
        metallic: false,
        white: false,
        mirror: 1.0,
        wants_tint: false,
    };

    /// The likeliest pigment for all that the author says of a paint, under the guide's [`Surface`].
    ///
    /// `white_of` gives the white paints that tints are made with, by their ids; a tint with an unknown white is left
    /// out. `None` where the author gives neither colour nor swatch: the colour of such a paint is unknown.
    pub fn of(paint: &Paint, surface: Surface, white_of: impl Fn(&str) -> Option<Self>) -> Option<Self> {
        Self::with(Library::whole(), paint, surface, white_of)
    }

    /// The same where only some pigments are known.
    pub fn with(
        library: &Library,
        paint: &Paint,
        surface: Surface,
        white_of: impl Fn(&str) -> Option<Self>,
    ) -> Option<Self> {
        if !paint.kind.has_colour() {
            return Some(Self::COLOURLESS);
        }
        let sheen = surface::mirrored(paint.sheen);
        let surface = surface.under(paint.sheen);
        let mut known: Vec<Observation> =
            paint.swatches.iter().filter_map(|swatch| of_swatch(swatch, surface, &white_of)).collect();
        let tinted = known.iter().any(|one| matches!(one, Observation::Swatch(out) if out.with != Depths::NONE));
        let own = own_colour(paint, surface);
        // Brush-outs tell a cast better than a guess.
        let fitted_to =
            |own: &BrushOut| if known.is_empty() { own::without_cast(own, made(paint).with_body) } else { own.clone() };
        let fitted_to = own.as_ref().map(fitted_to);
        let is_neutral = is_neutral(paint) || fitted_to.as_ref().is_some_and(|own| is_grey(own.colour));
        known.extend(fitted_to.map(|own| Observation::Swatch(Box::new(own))));
        if known.is_empty() {
            return None;
        }
        let evidence = if tinted { Evidence::Tint } else { evidence(&paint.swatches) };
        known.extend(cover(paint, evidence));
        known.extend(clean(paint, evidence));
        let fitted = |surface: Surface| {
            let alone = |prior: &Prior| (prior.clone(), estimate::likeliest(prior, &known, surface));
            if is_neutral {
                alone(&prior::NEUTRAL)
            } else if of_pigments(paint) {
                judge::fit(library, &known, surface, made(paint))
            } else if is_metal(paint) {
                alone(&prior::FLAKES)
            } else {
                alone(&prior::ANY)
            }
        };
        let (depths, (prior, fit), left) = if let Some(own) = &own {
            own::as_given(own, &known, surface, fitted)
        } else {
            let (prior, fit) = fitted(surface);
            (fit.depths, (prior, fit), 1.0)
        };
        let under = surface.mirroring(left);
        let doubt = drawn::drawn(&fit, (&prior, &known), under, (&depths, &paint.id));
        let doubt = as_wide_as_missed(doubt, &depths, &known, under);
        Some(Self {
            evidence: Some(evidence),
            doubt: Some(doubt),
            metallic: is_metal(paint),
            white: is_white(&depths, surface),
            mirror: sheen * left,
            wants_tint: evidence != Evidence::Tint && hides_its_strength(paint, &depths, evidence),
            depths,
        })
    }
}

fn of_swatch(swatch: &Swatch, surface: Surface, white_of: impl Fn(&str) -> Option<Pigment>) -> Option<Observation> {
    let over = |card: Inner, coats: u32| (Some(card), f64::from(coats), Pigment::COLOURLESS);
    let ((ground, amount, white), colour) = match swatch {
        Swatch::OverWhite(coats, colour) => (over(white_card(surface), *coats), *colour),
        Swatch::OverBlack(coats, colour) => (over(black_card(surface), *coats), *colour),
        Swatch::Tint { white, parts, to, colour } => {
            let (parts, to) = (parts.as_f64(), to.as_f64());
            let all = parts + to;
            if parts <= 0.0 {
                return None;
            }
            let white = white_of(white)?;
            ((None, parts / all, Pigment { depths: white.depths.times(to / all), ..white }), *colour)
        }
    };
    (amount > 0.0).then_some(Observation::Swatch(Box::new(BrushOut {
        ground,
        amount,
        with: white.depths,
        with_doubt: white.doubt,
        colour,
        spread: SWATCH_SPREAD,
    })))
}

/// A swatch is missed if the likeliest paint is further from it than this (CIEDE2000): some four times the error of
/// reading one ([`SWATCH_SPREAD`]). Nearer than that, what is drawn beside the likeliest tells the error by itself.
const MISSED: f64 = 8.0;

/// So many times what is left open is widened at most, and by how much at once: both only so that it ends.
const WIDENINGS: (usize, f64) = (6, 4.0);

/// What is left open, wide enough that every brush-out lies within the range that is told of it: swatches that no paint
/// shows together are fitted by something between them, and that is known no better than it fits.
fn as_wide_as_missed(doubt: Doubt, depths: &Depths, known: &[Observation], surface: Surface) -> Doubt {
    let brushed = |one: &Observation| match one {
        Observation::Swatch(out) if out.ground.is_some() || out.with != Depths::NONE => {
            let seen = space::lab(space::on_screen(out.seen(depths, surface)));
            let miss = space::lab_difference(seen, space::lab(space::linear(out.colour)));
            (miss > MISSED).then(|| (out.clone(), miss))
        }
        _ => None,
    };
    let missed: Vec<(Box<BrushOut>, f64)> = known.iter().filter_map(brushed).collect();
    let mut doubt = doubt;
    for _ in 0..if missed.is_empty() { 0 } else { WIDENINGS.0 } {
        let short = |(out, miss): &(Box<BrushOut>, f64)| miss / told(&doubt, depths, out, surface).max(1e-3);
        let times = missed.iter().map(short).fold(1.0, f64::max);
        if times <= 1.0 {
            break;
        }
        doubt = doubt.stretched(times.min(WIDENINGS.1));
    }
    doubt
}

/// Within what nine in ten lie of what a brush-out shows. The white of a tint is taken as sure.
fn told(doubt: &Doubt, depths: &Depths, out: &BrushOut, surface: Surface) -> f64 {
    let parts = [(depths, Some(doubt), out.amount), (&out.with, None, 1.0)];
    let film = Doubt::mixed(parts.into_iter());
    let all = depths.times(out.amount).plus(&out.with);
    let below = match &out.ground {
        Some(card) => Below::under((card, None), (&all, film.as_ref()), 1.0),
        None => film.map(|film| film.opaque()),
    };
    below.map_or(0.0, |below| below.uncertainty(surface, Glint::NONE).nine_in_ten)
}

/// The colour on the label: fully covered, or some coats over white. One that only repeats a swatch is that
/// swatch.
fn own_colour(paint: &Paint, surface: Surface) -> Option<BrushOut> {
    let colour = paint.colour?;
    let repeats = |swatch: &Swatch| match swatch {
        Swatch::OverWhite(_, own) | Swatch::OverBlack(_, own) => *own == colour,
        Swatch::Tint { .. } => false,
    };
    if paint.swatches.iter().any(repeats) {
        return None;
    }
    let (ground, amount) = match label::coats_over_white(paint.kind, paint.hiding).filter(|_| !is_metal(paint)) {
        Some(coats) => (Some(white_card(surface)), coats),
        None => (None, 1.0),
    };
    Some(BrushOut { ground, amount, with: Depths::NONE, with_doubt: None, colour, spread: LABEL_SPREAD })
}

/// What the kind and the class say about hiding. Brush-outs over black and white say more than a class.
fn cover(paint: &Paint, evidence: Evidence) -> Option<Observation> {
    let over_both = self::evidence(&paint.swatches) == Evidence::BlackAndWhite;
    match paint.kind {
        _ if over_both || evidence == Evidence::BlackAndWhite => None,
        Kind::Clear => Some(Observation::Cover(Cover::CLEAR)),
        _ if is_metal(paint) => Some(Observation::Cover(Cover::of_flakes(paint.hiding))),
        _ if is_called_white(paint) => Some(Observation::Cover(Cover::of_white(paint.hiding))),
        _ => {
            let lightness = paint.colour.map(|colour| space::lab(space::linear(colour)).l);
            match paint.hiding {
                hiding if is_stain(paint) => Some(Observation::Scatter(Scatter::of_stain(hiding, luminance(paint)))),
                hiding if lightness.is_some_and(|lightness| lightness < BLACK_BELOW) => {
                    Some(Observation::Cover(Cover::of_black(hiding)))
                }
                hiding => {
                    let of_class = Scatter::of_class(hiding, lightness);
                    let level = of_class.level - Clean::less_scatter(paint);
                    Some(Observation::Scatter(Scatter { level, ..of_class }))
                }
            }
        }
    }
}

/// What is held of a yellow that one sees through, where nothing but a colour and a class is known of it.
fn clean(paint: &Paint, evidence: Evidence) -> Option<Observation> {
    let is_guessed = evidence == Evidence::Class && paint.swatches.is_empty();
    let is_asked = is_guessed && (of_pigments(paint) && !is_stain(paint) || paint.kind == Kind::Ink);
    Clean::of_paint(paint).filter(|_| is_asked).map(Observation::Clean)
}

/// Whether its hiding class is one of whites: by its colour, else by how it looks over white. What is transparent and
/// looks white over white may be anything that hardly colours.
fn is_called_white(paint: &Paint) -> bool {
    let over_white = |swatch: &Swatch| match swatch {
        Swatch::OverWhite(_, colour) if paint.hiding != Hiding::Transparent => Some(*colour),
        _ => None,
    };
    let colour = paint.colour.or_else(|| paint.swatches.iter().find_map(over_white));
    colour.is_some_and(|colour| looks_white(space::lab(space::linear(colour))))
}

/// A paint darker than this is called opaque for what it absorbs, whatever it scatters. In CIE lightness; an estimate.
const BLACK_BELOW: f64 = 18.0;

/// Whether it is made of pigments as paints are, and washes too, which are paint that is thinned; clears, inks and one-coat paints
/// are like dyes where their maker does not say otherwise, metals flakes.
fn of_pigments(paint: &Paint) -> bool {
    let dyed = paint.kind == Kind::Clear || (is_stain(paint) && paint.kind != Kind::Wash);
    !is_metal(paint) && (!dyed || !paint.pigments.is_empty())
}

/// What its maker says of what it is made of. A wash is thin whatever it is called.
fn made(paint: &Paint) -> Made<'_> {
    let hides = matches!(paint.hiding, Hiding::Opaque | Hiding::SemiOpaque);
    Made { of: &paint.pigments, with_body: hides && paint.kind != Kind::Wash }
}

/// How light it is on its label, or else over white.
fn luminance(paint: &Paint) -> f64 {
    let over_white = |swatch: &Swatch| match swatch {
        Swatch::OverWhite(_, colour) => Some(*colour),
        _ => None,
    };
    let colour = paint.colour.or_else(|| paint.swatches.iter().find_map(over_white));
    colour.map_or(0.2, |colour| space::luminance(space::linear(colour)))
}

/// Whether it is sold thin and clear, to tint and to run.
fn is_stain(paint: &Paint) -> bool {
    paint.kind != Kind::Clear && label::coats_over_white(paint.kind, paint.hiding).is_some()
}

/// Whether it shines by flakes.
fn is_metal(paint: &Paint) -> bool {
    paint.kind == Kind::Metal || paint.sheen == Sheen::Metallic
}

/// Whether everything on file is a pure grey.
fn is_neutral(paint: &Paint) -> bool {
    let swatches = paint.swatches.iter().map(|swatch| match swatch {
        Swatch::OverWhite(_, colour) | Swatch::OverBlack(_, colour) => Some(*colour),
        Swatch::Tint { .. } => None,
    });
    let mut all = swatches.chain(paint.colour.map(Some)).peekable();
    all.peek().is_some() && all.all(|colour| colour.is_some_and(is_grey))
}

fn is_grey(Colour([red, green, blue]): Colour) -> bool {
    red == green && green == blue
}

/// What the brush-outs tell, tints aside.
fn evidence(swatches: &[Swatch]) -> Evidence {
    let coats = |over_white: bool| {
        let mut counts: Vec<u32> = swatches
            .iter()
            .filter_map(|swatch| match swatch {
                Swatch::OverWhite(coats, _) if over_white => Some(*coats),
                Swatch::OverBlack(coats, _) if !over_white => Some(*coats),
                _ => None,
            })
            .filter(|coats| *coats > 0)
            .collect();
        counts.sort_unstable();
        counts.dedup();
        counts.len()
    };
    match (coats(true), coats(false)) {
        (1.., 1..) => Evidence::BlackAndWhite,
        (2.., 0) => Evidence::CoatCounts,
        _ => Evidence::Class,
    }
}

/// A light, nearly neutral colour when it covers fully: L* of 88 and more, chroma below 10.
fn is_white(depths: &Depths, surface: Surface) -> bool {
    looks_white(space::lab(surface.outer(&depths.opaque()).linear_rgb()))
}

fn looks_white(lab: Lab) -> bool {
    lab.l >= 88.0 && lab.a.hypot(lab.b) < 10.0
}

/// Whether the brush-outs are all so full, or so dark in a channel, that one can't see how strong the paint is.
fn hides_its_strength(paint: &Paint, depths: &Depths, evidence: Evidence) -> bool {
    let seen: Vec<Colour> = paint
        .swatches
        .iter()
        .filter_map(|swatch| match swatch {
            Swatch::OverWhite(_, colour) | Swatch::OverBlack(_, colour) => Some(*colour),
            Swatch::Tint { .. } => None,
        })
        .collect();
    let dark = |channel: usize| seen.iter().all(|colour| f64::from(colour.0[channel]) / 255.0 < TELLS_NO_CHANNEL);
    evidence == Evidence::Class || contrast::contrast_ratio(depths) > TELLS_NO_STRENGTH || (0..3).any(dark)
}
