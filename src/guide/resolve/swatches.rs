//! Swatches: what was brushed over what, and whether a tint was mixed with a white that can be counted with.

use super::{ResolveDesk, impossible_swatches, value};
use crate::guide::library::Library;
use crate::guide::{Paint, Swatch, checks};
use crate::measure::{Colour, Fraction};
use crate::report::{Finding, Level, Place, Placed, wording};
use crate::source::Id;
use crate::source::file::{PaintEntry, SwatchEntry};

/// The most swatches of one paint. Each more tells less, and the work of a fit grows faster than their number.
const MOST_SWATCHES: usize = 24;

/// A paint darker than this is no white: it sends back less than 57 % of the light, so a tint with it shows what it
/// absorbs itself. In CIE lightness; an estimate, below the ivories and bone whites that painters tint with.
const WHITE_FROM: f64 = 80.0;

/// The swatches of a paint, each where its colour is written.
pub(super) fn read(id: &Placed<Id>, entry: &PaintEntry, desk: &mut ResolveDesk) -> Vec<Placed<Swatch>> {
    let Some(list) = &entry.swatches else { return Vec::new() };
    if list.value.len() > MOST_SWATCHES {
        let message = format!("a paint has at most {MOST_SWATCHES} swatches, and here are {}", list.value.len());
        let mend = "keep those over white, over black and a tint, each with one to three coats";
        desk.tell(Finding::new(&checks::SWATCHES, list.place, message, mend));
    }
    list.value.iter().take(MOST_SWATCHES).filter_map(|one| swatch(id, one, desk)).collect()
}

fn swatch(id: &Placed<Id>, entry: &SwatchEntry, desk: &mut ResolveDesk) -> Option<Placed<Swatch>> {
    let colour = value(entry.colour.as_ref())?;
    let coats = entry.coats.as_ref().map_or(1, |coats| coats.value.0);
    let place = entry.colour.as_ref().map_or(id.place, |colour| colour.place);
    let swatch = match (&entry.over, &entry.with) {
        (Some(over), None) if over.value.0 == "white" => Some(Swatch::OverWhite(coats, colour)),
        (Some(over), None) if over.value.0 == "black" => Some(Swatch::OverBlack(coats, colour)),
        (None, Some(white)) => tint(id, (entry, white), colour, desk),
        _ => {
            let mend = "write 'over: white' or 'over: black' with 'coats', or 'with' a white paint, 'parts' and 'to'";
            desk.tell(Finding::new(&checks::SWATCH, place, "this swatch does not say what it was brushed over", mend));
            None
        }
    };
    swatch.map(|swatch| Placed::new(swatch, place))
}

/// A tint of the paint with another one; `None` where the mix that is written holds one of the two only.
fn tint(
    id: &Placed<Id>,
    (entry, white): (&SwatchEntry, &Placed<Id>),
    colour: Colour,
    desk: &mut ResolveDesk,
) -> Option<Swatch> {
    if white.value == id.value {
        let message = "this tint is mixed with the paint itself";
        let mend = "write under 'with' the id of the white paint that it was mixed with";
        desk.tell(Finding::new(&checks::SWATCH, white.place, message, mend));
        return None;
    }
    let nothing = [
        (&entry.parts, "'parts: 0' is a tint without the paint", "how many parts of this paint are in it"),
        (&entry.to, "'to: 0' is a tint without the white", "to how many parts of the white"),
    ]
    .into_iter()
    .find_map(|(part, message, what)| Some((part.as_ref().filter(|part| part.value.is_zero())?, message, what)));
    if let Some((part, message, what)) = nothing {
        let mend = format!("write {what}: 'parts: 1' and 'to: 4' is one part of it to four of the white");
        desk.tell(Finding::new(&checks::SWATCH, part.place, message, mend));
        return None;
    }
    let missing = match (&entry.parts, &entry.to) {
        (Some(_), Some(_)) => None,
        (None, Some(_)) => Some("how many parts of the paint are in it"),
        (Some(_), None) => Some("how many parts of the white are in it"),
        (None, None) => Some("how many parts of the two are in it"),
    };
    if let Some(missing) = missing {
        let message = format!("this tint does not say {missing}; one part is counted where none is written");
        let mend = "write both 'parts' (of this paint) and 'to' (of the white), such as 'parts: 1, to: 4'";
        desk.tell(Finding::new(&checks::SWATCH, white.place, message, mend).at(Level::Warning));
    }
    let parts = |part: Option<&Placed<Fraction>>| value(part).unwrap_or(Fraction::ONE);
    let (parts, to) = (parts(entry.parts.as_ref()), parts(entry.to.as_ref()));
    Some(Swatch::Tint { white: white.value.0.clone(), parts, to, colour })
}

/// Tells of swatches that no paint can show; its own `colour` stands at that place.
pub(super) fn check(paint: &Paint, swatches: &[Placed<Swatch>], colour: Option<Place>, desk: &mut ResolveDesk) {
    for finding in impossible_swatches::findings(paint, swatches, colour) {
        desk.tell(finding);
    }
}

/// What a paint was tinted with is a white whose colour is known. One that there is not is told elsewhere.
pub(super) fn check_white(name: &Placed<Id>, library: &Library, desk: &mut ResolveDesk) {
    let Some(white) = library.paint(&name.value.0, &mut desk.asked) else { return };
    let shown = wording::quoted(&name.value.0);
    let message = match lightness(white) {
        _ if !white.kind.has_colour() => {
            format!("{shown} is a {} and no white: what the paint does in it tells little of its strength", white.kind)
        }
        None => format!("the colour of {shown} is not known, so nothing can be told from a tint with it"),
        Some(lightness) if lightness < WHITE_FROM => {
            format!(
                "{shown} is no white: its lightness (CIE L*) is {lightness:.0}, and that of a white above {WHITE_FROM:.0}"
            )
        }
        Some(_) => return,
    };
    let mend = "write under 'with' the white that it was mixed with, and say the 'colour' of that one";
    desk.tell(Finding::new(&checks::SWATCH, name.place, message, mend).at(Level::Warning));
}

/// How light a paint is by its own colour, or else by its lightest swatch.
fn lightness(paint: &Paint) -> Option<f64> {
    let over_card = |swatch: &Swatch| match swatch {
        Swatch::OverWhite(_, colour) | Swatch::OverBlack(_, colour) => Some(colour.lightness()),
        Swatch::Tint { .. } => None,
    };
    let own = paint.colour.map(Colour::lightness);
    own.or_else(|| paint.swatches.iter().filter_map(over_card).max_by(f64::total_cmp))
}
