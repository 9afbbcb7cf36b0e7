//! What the steps of an order take, added up for each product: by steps, and by pots where they are poured from one.

use std::sync::Arc;

use super::order::Order;
use super::uses::Use;
use crate::guide::{Paint, Pot, Step};
use crate::quantity::{Estimate, PotNeed, PotUse, Purpose, StepNeed};
use crate::work::WorkedScheme;

/// A product while its uses arrive.
pub(super) struct Draft<'a> {
    /// The product.
    pub(super) paint: Arc<Paint>,
    /// The steps that use it.
    pub(super) uses: Vec<Use<'a>>,
    /// How much they take; `None` once one of them can't be calculated.
    pub(super) need: Option<Estimate>,
    /// What all models take, without what the batch takes, in ml.
    pub(super) by_models: f64,
}

/// All that the steps of an order take.
#[derive(Default)]
pub(super) struct Gathered<'a> {
    /// Products, in the order in which the steps first use them.
    pub(super) drafts: Vec<Draft<'a>>,
    /// What is on no shelf of the guide, by its purpose.
    pub(super) unlisted: Vec<(Purpose, Estimate, Vec<Use<'a>>)>,
}

impl<'a> Gathered<'a> {
    /// A step uses a product.
    fn used(&mut self, paint: &Arc<Paint>, of: Use<'a>) {
        if self.draft(paint).is_none() {
            let paint = Arc::clone(paint);
            self.drafts.push(Draft { paint, uses: Vec::new(), need: Some(Estimate::NONE), by_models: 0.0 });
        }
        if let Some(draft) = self.draft(paint).filter(|draft| !draft.uses.contains(&of)) {
            draft.uses.push(of);
        }
    }

    /// So much of a product is needed, `by_models` of it in ml for the models themselves.
    fn needed(&mut self, paint: &Paint, need: Option<Estimate>, by_models: f64) {
        if let Some(draft) = self.draft(paint) {
            draft.need = draft.need.zip(need).map(|(sum, one)| sum + one);
            draft.by_models += by_models;
        }
    }

    fn draft(&mut self, paint: &Paint) -> Option<&mut Draft<'a>> {
        self.drafts.iter_mut().find(|draft| draft.paint.id == paint.id)
    }

    fn unlisted(&mut self, purpose: Purpose, of: Use<'a>, need: Estimate) {
        match self.unlisted.iter_mut().find(|(known, _, _)| *known == purpose) {
            Some((_, sum, uses)) => {
                *sum = *sum + need;
                if !uses.contains(&of) {
                    uses.push(of);
                }
            }
            None => self.unlisted.push((purpose, need, vec![of])),
        }
    }

    fn step(&mut self, of: Use<'a>, need: &StepNeed, models: u32) {
        let amounts = need.for_models(models);
        let by_models = need.scaling.by_models(models).0;
        let lines = of.step.mix.parts.iter().zip(need.portions.iter().zip(&amounts.parts)).enumerate();
        for (at, (part, (portion, amount))) in lines {
            self.used(&part.paint, of);
            if !is_poured(of.step, at) {
                self.needed(&part.paint, Some(*amount), by_models * portion.share);
            }
        }
        for (extra, amount) in need.extras.iter().zip(&amounts.extras) {
            match &extra.product {
                Some(paint) => {
                    self.used(paint, of);
                    self.needed(paint, Some(*amount), extra.per_model.likely.0 * f64::from(models));
                }
                None => self.unlisted(extra.purpose, of, *amount),
            }
        }
    }

    fn pot(&mut self, pot: &Pot, need: &PotNeed) {
        for (part, (portion, amount)) in pot.mix.parts.iter().zip(need.portions.iter().zip(need.parts())) {
            self.needed(&part.paint, Some(amount), need.by_models.0 * portion.share);
        }
    }
}

/// Whether a line of a step's mix is poured from a pot.
fn is_poured(step: &Step, line: usize) -> bool {
    step.mix.pots.iter().any(|poured| poured.parts.contains(&line))
}

/// All that the steps of an order take: what its rounds take, added up.
pub(super) fn gathered<'a>(order: &Order<'a>) -> Gathered<'a> {
    let mut all = Gathered::default();
    for (worked, models) in order.rounds.iter().flat_map(|round| &round.units) {
        for (at, step) in worked.scheme.steps.iter().enumerate() {
            let of = Use { scheme: &worked.scheme, step };
            match worked.needs.get(at).and_then(Option::as_ref) {
                Some(need) => all.step(of, need, *models),
                None => step.mix.parts.iter().for_each(|part| {
                    all.used(&part.paint, of);
                    all.needed(&part.paint, None, 0.0);
                }),
            }
        }
    }
    for (pot, uses) in order.rounds.iter().flat_map(|round| poured(&round.units)) {
        all.pot(&pot, &PotNeed::of(&pot, &uses, &order.worked.conditions.bench));
    }
    all
}

/// The pots of an order with the steps that are poured from them and can be calculated, in the order of first use: each
/// once, for several units or none, but a version may fill a pot of the same name with other paints.
pub(crate) fn pots<'a>(order: &Order<'a>) -> Vec<(Arc<Pot>, Vec<PotUse<'a>>)> {
    poured(&order.units)
}

fn poured<'a>(units: &[(&'a WorkedScheme, u32)]) -> Vec<(Arc<Pot>, Vec<PotUse<'a>>)> {
    let mut found: Vec<(Arc<Pot>, Vec<PotUse<'a>>)> = Vec::new();
    for (unit, (worked, models)) in units.iter().enumerate() {
        for (step, need) in worked.scheme.steps.iter().zip(&worked.needs) {
            let Some(need) = need else { continue };
            for poured in &step.mix.pots {
                let of = PotUse { unit, models: *models, share: 1.0, mix: &step.mix, need };
                match found.iter_mut().find(|(known, _)| *known == poured.pot) {
                    Some((_, uses)) => uses.push(of),
                    None => found.push((Arc::clone(&poured.pot), vec![of])),
                }
            }
        }
    }
    found
}
