//! `maulstick match`: the paints, or mixes of two, that come nearest to a paint.

mod asked;

use std::sync::Arc;

use super::FINE;
use super::arguments::{MatchArguments, Plain};
use super::terminal::{Stream, Trouble};
use crate::guide::Paint;
use crate::nearest::Rack;
use crate::report::{visible_line, wording};
use crate::tell::matching::{self, Answer};
use asked::MatchAsked;

/// How many mixes are shown.
const MIXES: usize = 3;

/// Answers on standard output.
pub(super) fn run(arguments: &MatchArguments) -> Result<u8, Trouble> {
    let asked = MatchAsked::open(arguments)?;
    let answer = answer(&asked, usize::from(arguments.most), arguments.two)?;
    let shown = match arguments.format {
        Plain::Text => matching::text(&answer),
        Plain::Json => matching::json(&answer),
    };
    Stream::Out.write(&shown);
    Ok(FINE)
}

fn answer(asked: &MatchAsked, most: usize, two: bool) -> Result<Answer, Trouble> {
    let paint = &asked.paint;
    let own = Rack::of(&asked.guide.paints);
    let look = own.look(paint);
    if paint.kind.has_colour() && look.is_none() {
        let message = format!("the colour of {} is not known", named(paint));
        return Err(Trouble::new(message, "give the paint a 'colour' or 'swatches' in its file"));
    }
    let rack = asked.others.as_ref().map_or(own, |others| Rack::of(&others.paints));
    let mixes = match (two, look) {
        (false, _) => None,
        (true, Some(look)) => Some(rack.blends(paint, look, MIXES)),
        (true, None) => {
            let message = format!("{} has no colour that could be mixed: it is a {}", named(paint), paint.kind);
            return Err(Trouble::new(message, "ask without --two"));
        }
    };
    Ok(Answer {
        paint: Arc::clone(paint),
        currency: asked.guide.currency.clone(),
        other_currency: asked.others.as_ref().map_or_else(|| asked.guide.currency.clone(), |one| one.currency.clone()),
        nearest: rack.substitutes(paint, look, most),
        mixes,
    })
}

fn named(paint: &Paint) -> String {
    wording::quoted(&visible_line(&paint.name, 80))
}
