//! What a step uses up beside its mix: cleaner for airbrush and brush, softener for decals.

use std::sync::Arc;

use super::estimate::{Estimate, pooled};
use super::sum::Sum;
use crate::bench::{Bench, Figure};
use crate::film::Film;
use crate::guide::{Paint, Scheme, Step, Stock, Suits};
use crate::measure::Millilitres;
use crate::trade::{Family, Kind, Stage, Technique};

/// Something that a step uses up beside its mix.
#[derive(Debug, Clone, PartialEq)]
pub struct Extra {
    /// What it is for.
    pub purpose: Purpose,
    /// The guide's product for it; `None` where the guide has none, so that it must be named in words.
    pub product: Option<Arc<Paint>>,
    /// How much, however many models there are.
    pub fixed: Estimate,
    /// How much for each model.
    pub per_model: Estimate,
}

/// What an extra is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Purpose {
    /// The airbrush gets another colour.
    ColourChange,
    /// The airbrush is put away.
    Flush,
    /// A brush was in something that water does not take off.
    BrushCleaning,
    /// A decal is to lie down.
    DecalSoftening,
}

impl Extra {
    /// How much for a number of models.
    pub fn for_models(&self, models: u32) -> Estimate {
        if models == 0 { Estimate::NONE } else { self.fixed + self.per_model.times(f64::from(models)) }
    }
}

/// The extras of the step at a position.
pub(super) fn extras(stock: &Stock<'_>, film: &Film<'_>, position: usize, sum: &Sum, bench: &Bench) -> Vec<Extra> {
    let Some(step) = film.step(position) else { return Vec::new() };
    cleaning(stock, film, position, step, bench).into_iter().chain(softening(stock, step, sum, bench)).collect()
}

fn cleaning(stock: &Stock<'_>, film: &Film<'_>, position: usize, step: &Step, bench: &Bench) -> Option<Extra> {
    let coat = film.coat(position)?;
    let family = coat.cup.strongest();
    let next_sprays = film.step(position + 1).is_some_and(|next| next.technique == Technique::Airbrush);
    let wet = !matches!(family, Family::Dry) && !step.mix.parts.is_empty();
    let (purpose, figure) = match step.technique {
        Technique::Airbrush if next_sprays => (Purpose::ColourChange, Figure::CleanerColour),
        Technique::Airbrush => (Purpose::Flush, Figure::CleanerFlush),
        Technique::Brush | Technique::Drybrush | Technique::Stipple if wet && family != Family::Water => {
            (Purpose::BrushCleaning, Figure::CleanerBrush)
        }
        _ => return None,
    };
    let fixed = Estimate::within(Millilitres(bench.get(figure)), bench.get(Figure::SpreadCleaner));
    let product = cleaner(stock, film.scheme(), step, family).map(Arc::clone);
    Some(Extra { purpose, product, fixed, per_model: Estimate::NONE })
}

/// What takes a family off: a cleaner made for it, else a thinner, that of the step first. Of several the one that is on
/// the bench for this scheme anyway, then one from the maker of the paint.
fn cleaner<'a>(stock: &Stock<'a>, scheme: &'a Scheme, step: &'a Step, family: Family) -> Option<&'a Arc<Paint>> {
    let takes_off = |paint: &Arc<Paint>| {
        if paint.suits.is_empty() {
            return paint.family == family;
        }
        paint.suits.iter().any(|suits| match suits {
            Suits::Family(other) => *other == family,
            Suits::Paint(id) => step.mix.parts.iter().any(|part| part.paint.id == *id),
        })
    };
    let own = || step.mix.parts.iter().map(|part| &part.paint);
    let mixes = scheme.steps.iter().map(|step| &step.mix.parts);
    let is_at_hand = |paint: &Paint| mixes.clone().flatten().any(|part| part.paint.id == paint.id);
    let is_of_maker = |paint: &Paint| own().any(|other| other.maker == paint.maker);
    let of_kind = |kind: Kind| {
        let fitting = stock.of_kind(kind).filter(|paint| takes_off(paint));
        fitting.min_by_key(|paint| (paint.discontinued, !is_at_hand(paint), !is_of_maker(paint)))
    };
    let own_thinner = own().find(|paint| paint.kind == Kind::Thinner);
    of_kind(Kind::Cleaner).or(own_thinner).or_else(|| of_kind(Kind::Thinner))
}

/// Softener, where a decal step does not name its own.
fn softening(stock: &Stock<'_>, step: &Step, sum: &Sum, bench: &Bench) -> Option<Extra> {
    let named = step.mix.parts.iter().any(|part| part.paint.kind == Kind::DecalSoftener);
    if step.stage != Stage::Decal || named {
        return None;
    }
    let on_decals = sum.area.0 * sum.areas * bench.get(Figure::DecalShare) * bench.get(Figure::WetSoftener) * 1e-4;
    let spread = pooled([Figure::SpreadLines, Figure::SpreadFilm, Figure::SpreadBrush].map(|figure| bench.get(figure)));
    let per_model = Estimate::within(Millilitres(on_decals / sum.efficiency), spread);
    let product = stock.of_kind(Kind::DecalSoftener).next().map(Arc::clone);
    Some(Extra { purpose: Purpose::DecalSoftening, product, fixed: Estimate::NONE, per_model })
}
