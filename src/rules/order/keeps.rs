//! What nobody would give up for another order, though no rule minds it in every scheme: a mend must not bring any of
//! it about where it was not so before.

use std::collections::BTreeSet;

use crate::film::{Coat, Deed, Film, Opacity, What};
use crate::rules::varnishes::no_final_varnish::is_finish;
use crate::trade::{Sheen, Stage, Zone, names_clear_part};

/// Something that is wrong with an order: which thing, the step or area that has it, and the step that brings it about.
pub(super) type Wrong = (&'static str, usize, usize);

/// What is wrong with work on the bare model that comes when it is undercoated.
pub(super) const ACROSS: &str = "work across the undercoat";

/// Everything that is lost in an order of the steps.
pub(super) fn lost(film: &Film<'_>) -> BTreeSet<Wrong> {
    let mut lost = BTreeSet::new();
    for area in 0..film.scheme().areas.len() {
        lost.extend(open_paint(film, area).map(|step| ("open paint", area, step)));
        for zone in Zone::ALL.iter().copied() {
            let coats: Vec<&Coat<'_>> = film.finished().coats(area, zone).collect();
            lost.extend(grounds(&coats));
            lost.extend(buried(&coats, zone));
            lost.extend(slippery(&coats));
            if zone == Zone::Faces {
                lost.extend(varnishes(&coats));
            }
        }
        lost.extend(decals(film, area));
        lost.extend(clouded(film, area));
        lost.extend(late_preparations(film, area));
    }
    lost.extend(closed(film));
    lost
}

fn is_colour(coat: &Coat<'_>) -> bool {
    matches!(coat.what, What::Colour | What::Shade | What::Tint)
}

/// The last paint on the faces, if no clear film closes it in the end.
fn open_paint(film: &Film<'_>, area: usize) -> Option<usize> {
    let coats = || film.finished().coats(area, Zone::Faces);
    let paint = coats().rfind(|coat| is_colour(coat) && !is_finish(coat) && !coat.is_clear_film())?;
    let clear = coats().rfind(|coat| coat.is_clear_film());
    clear.is_none_or(|clear| clear.position < paint.position).then_some(0)
}

/// Coats that lie under an undercoat, which belong over it.
fn grounds<'a>(coats: &'a [&'a Coat<'a>]) -> impl Iterator<Item = Wrong> + use<'a> {
    let grounds = coats.iter().filter(|coat| coat.what == What::Ground && coat.stage == Stage::Undercoat);
    grounds.flat_map(|ground| {
        let below = coats.iter().take_while(|coat| coat.position < ground.position);
        below
            .filter(|coat| !matches!(coat.what, What::Ground | What::Filler | What::Texture))
            .map(|coat| ("paint under the undercoat", coat.step, ground.step))
    })
}

/// Colours of which nothing is left to see: under grit, or under paint that hides them. A wash is lost where it gathered,
/// under whatever makes it faint.
fn buried<'a>(coats: &'a [&'a Coat<'a>], zone: Zone) -> impl Iterator<Item = Wrong> + use<'a> {
    coats.iter().enumerate().filter(|(_, coat)| is_colour(coat)).filter_map(move |(at, coat)| {
        let gathers = coat.what == What::Shade && zone == Zone::Recesses;
        let hides = move |over: &&&Coat<'_>| {
            let opaque = over.opacity == Opacity::Opaque && !over.is_clear_film();
            let faint = gathers && over.what == What::Colour && over.opacity >= Opacity::Covering;
            over.what == What::Texture || ((opaque || faint) && even(over))
        };
        let over = coats.iter().skip(at + 1).find(hides)?;
        Some(("buried colour", coat.step, over.step))
    })
}

/// Whether a coat leaves nothing bare between its strokes.
fn even(coat: &Coat<'_>) -> bool {
    use crate::trade::Technique::{Airbrush, Brush, SprayCan};
    matches!(coat.technique, Brush | Airbrush | SprayCan)
}

/// Varnish that ends up under colour, or that lies on bare material.
fn varnishes<'a>(coats: &'a [&'a Coat<'a>]) -> impl Iterator<Item = Wrong> + use<'a> {
    let varnishes = coats.iter().enumerate().filter(|(_, coat)| coat.what == What::Varnish);
    varnishes.flat_map(|(at, varnish)| {
        let bare = (at == 0).then_some(("varnish on nothing", varnish.step, varnish.step));
        let over = coats.iter().skip(at + 1).filter(|coat| is_colour(coat) && !is_finish(coat) && !weathers(coat));
        bare.into_iter().chain(over.map(|coat| ("varnish under colour", varnish.step, coat.step)))
    })
}

fn weathers(coat: &Coat<'_>) -> bool {
    coat.stage.weathers() || coat.stage == Stage::Glaze
}

/// Powder that lies on gloss, where it finds no hold.
fn slippery<'a>(coats: &'a [&'a Coat<'a>]) -> impl Iterator<Item = Wrong> + use<'a> {
    let gloss = |coat: &&&Coat<'_>| coat.cup.main.is_some_and(|paint| paint.sheen == Sheen::Gloss);
    let powders = coats.iter().enumerate().filter(|(_, coat)| coat.what == What::Powder);
    powders.filter_map(move |(at, powder)| {
        let mut below = coats.iter().take(at).rev().filter(|coat| !matches!(coat.what, What::Powder | What::Fixer));
        let film = below.next().filter(|coat| coat.is_clear_film()).filter(gloss)?;
        Some(("powder on gloss", powder.step, film.step))
    })
}

/// Decals, the coats that come between one and its seal, and dirt that a decal should share.
fn decals(film: &Film<'_>, area: usize) -> Vec<Wrong> {
    let finished = film.finished();
    let mut wrong = Vec::new();
    for decal in finished.decals(area) {
        let dirt = |coat: &&Coat<'_>| {
            coat.position < decal.position && matches!(coat.stage, Stage::PanelWash | Stage::Weather)
        };
        let dirty = Zone::ALL.iter().flat_map(|zone| finished.coats(area, *zone)).filter(dirt);
        wrong.extend(dirty.map(|coat| ("decal on dirt", decal.step, coat.step)));
        let over = finished.coats(area, Zone::Faces).filter(|coat| coat.position > decal.position);
        let between = over.take_while(|coat| !coat.is_clear_film());
        wrong.extend(between.map(|coat| ("between decal and seal", decal.step, coat.step)));
    }
    wrong
}

/// Paint on glass that is to stay clear.
fn clouded(film: &Film<'_>, area: usize) -> Vec<Wrong> {
    let is_clear = film.scheme().areas.get(area).is_some_and(|area| names_clear_part(&area.title));
    let coats = film.finished().coats(area, Zone::Faces).filter(|coat| is_clear && coat.what != What::Varnish);
    coats.map(|coat| ("paint on a clear part", area, coat.step)).collect()
}

/// Work in a place that another step has closed already.
fn closed<'a>(film: &'a Film<'_>) -> impl Iterator<Item = Wrong> + use<'a> {
    let step = |at: usize| film.step(at).zip(film.turn(at).map(|turn| turn.step));
    let closing = (0..film.turns().len()).filter_map(move |at| Some((at, step(at)?)));
    closing.filter(|(_, (closing, _))| !closing.hides.is_empty()).flat_map(move |(at, (closing, shut))| {
        let later = (at + 1..film.turns().len()).filter_map(step);
        later.filter(|(late, _)| closing.shuts_in(late)).map(move |(_, late)| ("work in a closed place", late, shut))
    })
}

/// Work that gets the surface ready when the undercoat is already on.
fn late_preparations(film: &Film<'_>, area: usize) -> Vec<Wrong> {
    let ground = film.finished().ground(area, Zone::Faces).map(|ground| (ground.position, ground.step));
    let Some((at, ground)) = ground else { return Vec::new() };
    let turns = film.turns().iter().enumerate().skip(at);
    let late = turns.filter(|(at, turn)| matches!(turn.deed, Deed::Prepare(_)) && film.areas(*at).contains(&area));
    late.map(|(_, turn)| (ACROSS, turn.step, ground)).collect()
}
