//! How thick one coat of a step is taken up, wet, as far as its amount goes.

use super::laying::{Laying, ModelSize};
use super::reach::is_joined;
use crate::bench::{Bench, Figure, Micrometres};
use crate::film::{Coat, Film, What};
use crate::guide::Step;
use crate::trade::{Kind, Materials, Reach, Stage, Technique, Zone};

/// The wet film of one coat of the step at a position; a depth, where the author gives one.
pub(super) fn wet(film: &Film<'_>, position: usize, step: &Step, laying: Laying, bench: &Bench) -> Micrometres {
    if let Some(deep) = step.deep {
        return Micrometres(deep.0 * 1000.0);
    }
    let film_of = |figure: Figure| bench.get(figure);
    if is_joined(step) && film.coat(position).is_none() {
        return Micrometres(film_of(Figure::WetGlue));
    }
    let scattered_on = step.mix.parts.first().is_some_and(|part| part.paint.kind == Kind::Glue);
    if step.is_about_base() && scattered_on && film.coat(position).is_none() {
        return Micrometres(film_of(Figure::WetScatterGlue));
    }
    let Some(coat) = film.coat(position) else {
        return Micrometres(film_of(match on_base(step) {
            Some(What::Texture) => Figure::WetTexture,
            Some(What::Powder) => Figure::PowderHeap,
            Some(_) if step.technique == Technique::Drybrush => Figure::WetDrybrush,
            Some(_) => Figure::WetBrush,
            None => Figure::WetWiped,
        }));
    };
    let wet = match coat.what {
        What::Decal => return Micrometres(film_of(Figure::WetSoftener)),
        // Fixer fills the powder that it creeps into.
        What::Powder if is_dusted(film, position, step, bench) => return Micrometres(film_of(Figure::PowderDust)),
        What::Powder | What::Fixer => return Micrometres(film_of(Figure::PowderHeap)),
        What::Texture if is_sealing(step, coat) => film_of(Figure::WetBrush),
        What::Texture if coat.cup.kind() == Some(Kind::Glue) => return Micrometres(film_of(Figure::WetScatterGlue)),
        _ if is_muddy(step, bench) => return Micrometres(film_of(Figure::WetTexture)),
        _ => coat.wet.0,
    };
    let wet = match laying {
        Laying::LargeBrush if coat.what == What::Shade => film_of(Figure::WetTerrainWash),
        Laying::LargeBrush => film_of(Figure::WetTerrain),
        // A heavy drybrush lays as many times more on terrain as on a model.
        Laying::Drybrush(ModelSize::Terrain) => {
            film_of(Figure::WetTerrainDrybrush) * wet / film_of(Figure::WetDrybrush).max(f64::MIN_POSITIVE)
        }
        _ => wet,
    };
    let thirsty = !matches!(laying, Laying::Drybrush(_) | Laying::Paste | Laying::Dabbed);
    let factor = if thirsty && is_first_on_thirsty(film, position) { film_of(Figure::Thirsty) } else { 1.0 };
    Micrometres(wet * factor)
}

/// What a step lays on the base beside the model, of which the film of the model knows nothing.
pub(super) fn on_base(step: &Step) -> Option<What> {
    let kind = step.mix.parts.first().filter(|_| step.is_about_base())?.paint.kind;
    match kind {
        Kind::Texture => Some(What::Texture),
        Kind::Pigment => Some(What::Powder),
        kind => kind.has_colour().then_some(What::Colour),
    }
}

/// Glue or a thick skin that is brushed on to close a surface, and not to hold grit or to be grit.
pub(super) fn is_sealing(step: &Step, coat: &Coat<'_>) -> bool {
    match coat.cup.kind() {
        Some(Kind::Glue) => step.stage != Stage::Basing,
        Some(Kind::Texture) => step.stage == Stage::Undercoat && step.technique == Technique::Brush,
        _ => false,
    }
}

/// Whether powder goes over so much of a model that it is dust, and not the mud of its tracks.
fn is_dusted(film: &Film<'_>, position: usize, step: &Step, bench: &Bench) -> bool {
    let areas = &film.scheme().areas;
    let share = |area: &usize| Some(areas.get(*area)?.share?.as_fraction().as_f64());
    let shares = film.areas(position).iter().filter_map(share).sum::<f64>();
    let is_wide = matches!(step.reach, Reach::All | Reach::Faces | Reach::Raised);
    is_wide && shares >= bench.get(Figure::PowderDustFrom)
}

/// Whether so much powder is stirred into paint that it is laid as mud.
pub(super) fn is_muddy(step: &Step, bench: &Bench) -> bool {
    let amount = |powder: bool| -> f64 {
        let parts = step.mix.parts.iter().filter(|part| !powder || part.paint.kind == Kind::Pigment);
        parts.map(|part| part.amount.as_f64()).sum()
    };
    let first = step.mix.parts.first().map(|part| part.paint.kind);
    let thinned = step.mix.parts.iter().any(|part| part.paint.kind == Kind::Thinner);
    let wet = step.mix.is_mixed() && !thinned && !step.technique.sprays() && first != Some(Kind::Pigment);
    wet && amount(true) >= bench.get(Figure::PasteFromPowder) * amount(false)
}

/// Whether a step lays the first coat on a material that drinks it, or on filler and paste there, which drink as well.
fn is_first_on_thirsty(film: &Film<'_>, position: usize) -> bool {
    let before = film.before(position);
    let mut reached = film.areas(position).iter();
    let drinks = |coat: &Coat<'_>| match coat.what {
        What::Filler => true,
        What::Texture => film.step(coat.position).is_some_and(|step| !is_sealing(step, coat)),
        _ => false,
    };
    Materials::of(film.scheme().model.material.as_deref().unwrap_or_default()).drink()
        && reached.all(|area| before.coats(*area, Zone::Faces).all(drinks))
}
