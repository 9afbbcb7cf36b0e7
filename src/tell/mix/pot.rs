//! A pot for all steps that use it, of one scheme or of a whole army, as text and JSON.

use std::fmt::Write as _;
use std::sync::Arc;

use serde_json::{Value, json};

use super::sheet::thousandths;
use crate::caution::CautionTexts;
use crate::guide::{Army, Pot, Scheme, Unit};
use crate::report::{visible, wording};
use crate::tell::cautions;
use crate::tell::plan::planned::{PotMixing, UnitStep, millilitres, pot_mixing, step_of, uses};
use crate::work::{Worked, WorkedScheme};

/// A pot, and what it is mixed for.
#[derive(Debug)]
pub(crate) struct PotSheet<'a> {
    worked: &'a Worked,
    /// The title of the scheme or army.
    title: String,
    mixing: PotMixing<'a>,
}

impl<'a> PotSheet<'a> {
    /// The pot of a scheme for so many models.
    pub(crate) fn of_scheme(worked: &'a Worked, scheme: &'a WorkedScheme, pot: &str, models: u32) -> Vec<Self> {
        let unit = Unit { scheme: Arc::clone(&scheme.scheme), models, place: scheme.scheme.place };
        Self::of(worked, &scheme.scheme.title, &[unit], pot)
    }

    /// The pot of an army's schemes for all of its models: one sheet for each version that fills it with other paints.
    pub(crate) fn of_army(worked: &'a Worked, army: &Army, pot: &str) -> Vec<Self> {
        Self::of(worked, &army.title, &army.units, pot)
    }

    fn of(worked: &'a Worked, title: &str, units: &[Unit], id: &str) -> Vec<Self> {
        let of_unit = |(at, unit): (usize, &Unit)| {
            let steps = steps_from(&unit.scheme, id);
            steps.into_iter().filter_map(|step| step_of(worked, unit, at, step)).collect::<Vec<_>>()
        };
        let steps: Vec<UnitStep<'a>> = units.iter().enumerate().flat_map(of_unit).collect();
        let mut pots: Vec<Arc<Pot>> = Vec::new();
        for poured in steps.iter().flat_map(|of| &of.step.mix.pots).filter(|poured| poured.pot.id == id) {
            if !pots.contains(&poured.pot) {
                pots.push(Arc::clone(&poured.pot));
            }
        }
        let mixing = |pot: Arc<Pot>| {
            let steps = steps.iter().filter(|of| uses(of, &pot)).copied().collect();
            pot_mixing(&pot, steps, |_| 1.0, &worked.conditions.bench)
        };
        pots.into_iter().map(|pot| Self { worked, title: title.to_owned(), mixing: mixing(pot) }).collect()
    }

    /// The sheet as text.
    pub(crate) fn text(&self) -> String {
        let PotMixing { pot, steps, ml, reserve, parts, counted } = &self.mixing;
        let texts = CautionTexts::of(&self.worked.guide.language);
        let mut text = format!("{}, pot {}\n", self.title, wording::quoted(&pot.title));
        let first = cautions::first(texts, steps);
        if !first.is_empty() {
            let _ = writeln!(text, "! {first}");
        }
        text.push('\n');
        for part in parts {
            let ratio = part.ratio.as_ref().map(|ratio| format!("{ratio} × ")).unwrap_or_default();
            let drops = part.drops.map(|drops| format!("  {}", wording::counted(drops, "drop", "drops")));
            let ml = part.ml.map(|ml| format!("  {} ml", millilitres(ml)));
            let _ = writeln!(
                text,
                "  {ratio}{}{}{}",
                part.product.name(),
                drops.unwrap_or_default(),
                ml.unwrap_or_default()
            );
        }
        match ml {
            Some(ml) => {
                let lot = if pot.together { ": one lot for all of them" } else { "" };
                let _ = writeln!(text, "  together {} ml, a prediction{lot}", millilitres(*ml));
                if *reserve > 0.0 {
                    let reserve = millilitres(*reserve);
                    let _ =
                        writeln!(text, "  {reserve} ml of it are a reserve, because no second lot is quite like it");
                }
                match counted {
                    Some("poured") => text.push_str("  poured and not counted in drops, by the same parts\n"),
                    Some("sized") => {
                        text.push_str("  counted by drop size, so that the parts come out\n");
                    }
                    Some(_) => text.push_str("  counted near the ratio, and near enough\n"),
                    None => {}
                }
            }
            None => {
                text.push_str("  how much can't be worked out: a model's surface or an area's share is not known\n");
            }
        }
        text.push_str("\nfor\n");
        for of in steps {
            let models = wording::counted(of.models, "model", "models");
            let _ = writeln!(text, "  {}, step {}: {}, {models}", of.scheme.title, of.step.number, of.step.title);
        }
        self.cautions(&mut text, texts);
        text.lines().map(|line| format!("{}\n", visible(line))).collect()
    }

    fn cautions(&self, text: &mut String, texts: &CautionTexts) {
        let said = cautions::of(texts, &self.mixing.steps);
        if said.is_empty() {
            return;
        }
        let _ = writeln!(text, "\n{}", texts.labels().cautions.to_uppercase());
        for line in &said {
            let _ = writeln!(text, "  ! {line}");
        }
        let _ = writeln!(text, "  {}", texts.closing());
    }

    /// The sheet as data.
    pub(crate) fn json(&self) -> Value {
        let PotMixing { pot, steps, ml, reserve, parts, counted } = &self.mixing;
        let texts = CautionTexts::of(&self.worked.guide.language);
        let mut said = cautions::of(texts, steps);
        if !said.is_empty() {
            said.push(texts.closing().to_owned());
        }
        let parts = parts
            .iter()
            .map(|part| json!({ "id": part.product.id(), "ratio": part.ratio, "drops": part.drops, "ml": part.ml.map(thousandths) }));
        let uses =
            steps.iter().map(|of| json!({ "scheme": of.scheme.slug, "step": of.step.stem, "models": of.models }));
        json!({
            "pot": pot.id,
            "title": pot.title,
            "one_lot": pot.together,
            "ml": ml.map(thousandths),
            "reserve_ml": thousandths(*reserve),
            "counted": counted,
            "parts": parts.collect::<Vec<_>>(),
            "steps": uses.collect::<Vec<_>>(),
            "first": cautions::first(texts, steps),
            "cautions": said,
        })
    }
}

/// The steps of a scheme that are poured from a pot of this id, by their places.
fn steps_from(scheme: &Scheme, id: &str) -> Vec<usize> {
    let uses = |pots: &[crate::guide::Poured]| pots.iter().any(|poured| poured.pot.id == id);
    scheme.steps.iter().enumerate().filter(|(_, step)| uses(&step.mix.pots)).map(|(at, _)| at).collect()
}

/// The pots of some schemes by the names that one may call them: their ids, then their titles.
pub(crate) fn names<'a>(schemes: impl Iterator<Item = &'a Scheme>) -> Vec<[&'a str; 2]> {
    let mut names: Vec<[&str; 2]> = Vec::new();
    for pot in schemes.flat_map(|scheme| &scheme.pots) {
        let pot: &Pot = pot;
        if !names.iter().any(|known| known[0] == pot.id) {
            names.push([&pot.id, &pot.title]);
        }
    }
    names
}
