//! A first guess at mixes, to find out which pairs of paints are worth a true prediction.
//!
//! Working out a pigment costs milliseconds and a shelf has thousands of pairs. So pairs are ranked by a rough mix in the
//! three channels of the screen, with a strength that follows from the hiding class alone. Nothing of it is shown: the
//! best pairs are predicted band by band.

use super::looks::{self, Sort};
use super::rack::Place;
use crate::colour::coats_over_white;
use crate::colour::space::{self, Lab, LinearRgb};
use crate::trade::Hiding;

/// Paints that are taken into account; the rest look like one of them.
const MOST_STAND_INS: usize = 96;

/// A paint is left out where another lies within this part of its distance from the wanted colour: one that is far off
/// needs not be known as well as one that is near.
const LIKENESS: f64 = 1.0 / 6.0;

/// What a paint absorbs and scatters in each channel, very roughly.
#[derive(Debug, Clone, Copy)]
struct Rough {
    absorbed: [f64; 3],
    scattered: f64,
}

impl Rough {
    fn of(place: &Place, sort: Sort) -> Self {
        let linear: LinearRgb = space::linear_of(place.look.lab);
        let channels = [linear.red, linear.green, linear.blue].map(|channel| channel.clamp(0.002, 0.998));
        if coats_over_white(sort.0, sort.1).is_some() {
            return Self { absorbed: channels.map(|channel| -channel.ln()), scattered: 1.0 };
        }
        if let Some(coats) = coats_over_white(place.paint.kind, place.paint.hiding) {
            // Coats over white, through which light goes twice.
            return Self { absorbed: channels.map(|channel| -channel.ln() / (2.0 * coats)), scattered: 0.02 };
        }
        let scattered = match place.paint.hiding {
            Hiding::Opaque => 1.0,
            Hiding::SemiOpaque => 0.6,
            Hiding::SemiTransparent => 0.3,
            Hiding::Transparent => 0.15,
        };
        let absorbed = channels.map(|channel| scattered * (1.0 - channel).powi(2) / (2.0 * channel));
        Self { absorbed, scattered }
    }

    fn mixed(&self, other: &Self, share: f64, sort: Sort) -> Lab {
        let between = |one: f64, other: f64| share * one + (1.0 - share) * other;
        let scattered = between(self.scattered, other.scattered);
        let channel = |at: usize| {
            let absorbed = between(self.absorbed[at], other.absorbed[at]);
            let ratio = absorbed / scattered;
            match coats_over_white(sort.0, sort.1) {
                Some(_) => (-absorbed).exp(),
                None => 1.0 / (1.0 + ratio + (ratio * (ratio + 2.0)).sqrt()),
            }
        };
        space::lab(LinearRgb::new(channel(0), channel(1), channel(2)))
    }
}

/// The pairs of places that may mix to a colour, the likeliest first, at most `most` of them; `shares` are the shares of
/// the first paint that are tried. Both of a pair have one carrier: paints of two don't go into one cup; and one of
/// them is of the sort that is wanted.
pub(super) fn pairs<'a>(
    wanted: Lab,
    places: &[&'a Place],
    sort: Sort,
    shares: &[f64],
    most: usize,
) -> Vec<(&'a Place, &'a Place)> {
    let chosen = stand_ins(wanted, places);
    let rough: Vec<(&Place, Rough)> = chosen.into_iter().map(|place| (place, Rough::of(place, sort))).collect();
    let mut guesses: Vec<(f64, (&Place, &Place))> = Vec::new();
    for (at, (one, own)) in rough.iter().enumerate() {
        let is_own = |place: &Place| looks::sort(&place.paint) == sort.0;
        let goes = |other: &Place| other.paint.family == one.paint.family && (is_own(one) || is_own(other));
        let partners = rough.iter().skip(at + 1).filter(|(other, _)| goes(other));
        guesses.extend(partners.map(|(other, rough)| {
            let off = |share: &f64| squared(own.mixed(rough, *share, sort), wanted);
            (shares.iter().map(off).fold(f64::INFINITY, f64::min), (*one, *other))
        }));
    }
    guesses.sort_by(|a, b| a.0.total_cmp(&b.0));
    guesses.truncate(most);
    guesses.into_iter().map(|(_, pair)| pair).collect()
}

/// The paints that stand for all: the nearest, and of those further off one for each patch of colour.
fn stand_ins<'a>(wanted: Lab, places: &[&'a Place]) -> Vec<&'a Place> {
    let mut by_distance: Vec<(f64, &Place)> =
        places.iter().map(|place| (squared(place.look.lab, wanted), *place)).collect();
    by_distance.sort_by(|a, b| a.0.total_cmp(&b.0).then_with(|| a.1.paint.id.cmp(&b.1.paint.id)));
    let mut chosen: Vec<&Place> = Vec::new();
    for (distance, place) in by_distance {
        if chosen.len() == MOST_STAND_INS {
            break;
        }
        let near = distance * LIKENESS * LIKENESS;
        let alike =
            |known: &&Place| known.paint.family == place.paint.family && squared(known.look.lab, place.look.lab) < near;
        if !chosen.iter().any(alike) {
            chosen.push(place);
        }
    }
    chosen
}

fn squared(one: Lab, other: Lab) -> f64 {
    (one.l - other.l).powi(2) + (one.a - other.a).powi(2) + (one.b - other.b).powi(2)
}
