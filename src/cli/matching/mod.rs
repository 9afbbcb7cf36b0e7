//! `maulstick match`: the paints, or mixes of two, that come nearest to a paint or a colour.

mod asked;

use super::FINE;
use super::arguments::{MatchArguments, Plain};
use super::terminal::{Stream, Trouble};
use crate::guide::Paint;
use crate::nearest::{Rack, Wanted};
use crate::report::{visible_line, wording};
use crate::tell::matching::{self, Answer, Asked};
use asked::MatchAsked;

/// How many mixes are shown.
const MIXES: usize = 3;

/// Answers on standard output.
pub(super) fn run(arguments: &MatchArguments) -> Result<u8, Trouble> {
    let asked = MatchAsked::open(arguments)?;
    let answer = answer(&asked, usize::from(arguments.most), arguments.two)?;
    match arguments.format {
        Plain::Text => Stream::Out.tell(&matching::text(&answer)),
        Plain::Json => Stream::Out.write(&matching::json(&answer)),
    }
    Ok(FINE)
}

fn answer(asked: &MatchAsked, most: usize, two: bool) -> Result<Answer, Trouble> {
    let own = Rack::of(&asked.guide.paints);
    let wanted = wanted(&asked.asked, &own, two)?;
    let other = asked.others.as_ref().map(|others| Rack::of(&others.paints));
    let rack = other.as_ref().unwrap_or(&own);
    Ok(Answer {
        asked: asked.asked.clone(),
        look: wanted.look,
        currency: asked.guide.currency.clone(),
        other_currency: asked.others.as_ref().map_or_else(|| asked.guide.currency.clone(), |one| one.currency.clone()),
        nearest: rack.substitutes(&wanted, most),
        mixes: two.then(|| rack.blends(&wanted, MIXES)),
    })
}

/// What is looked for; a question that has no answer is refused.
fn wanted<'a>(asked: &'a Asked, own: &Rack, two: bool) -> Result<Wanted<'a>, Trouble> {
    let paint = match asked {
        Asked::Colour(colour, kind) => return Ok(Wanted::of_colour(*colour, *kind)),
        Asked::Paint(paint) => paint,
    };
    let wanted = Wanted::in_place_of(paint, own.look(paint));
    if paint.kind.has_colour() && wanted.look.is_none() {
        let message = format!("the colour of {} is not known", named(paint));
        return Err(Trouble::new(message, "give the paint a 'colour' or 'swatches' in its file"));
    }
    if two && wanted.look.is_none() {
        let message = format!("{} has no colour that could be mixed: it is a {}", named(paint), paint.kind);
        return Err(Trouble::new(message, "ask without --two"));
    }
    Ok(wanted)
}

fn named(paint: &Paint) -> String {
    wording::quoted(&visible_line(&paint.name, 80))
}
