//! A pot for all steps that use it, of one scheme or of a whole army, as text and JSON.

use std::fmt::Write as _;
use std::sync::Arc;

use serde_json::{Value, json};

use super::sheet::thousandths;
use crate::caution::CautionTexts;
use crate::guide::{Army, Pot, Scheme, Unit};
use crate::report::visible;
use crate::tell::plan::planned::{PotMixing, UnitStep, millilitres, pot_mixing, step_of, uses};
use crate::tell::{cautions, spoken};
use crate::theme::Words;
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

    /// The sheet as text, in the words of the guide.
    pub(crate) fn text(&self, words: &Words) -> String {
        let words = &words.with_plain_spaces();
        let PotMixing { pot, steps, parts, .. } = &self.mixing;
        let texts = CautionTexts::of(&self.worked.guide.language);
        let named = spoken::quoted(&pot.title, words);
        let mut text = words.filled("sheet.pot", &[("title", &self.title), ("pot", &named)]) + "\n";
        let first = cautions::first(texts, steps);
        if !first.is_empty() {
            let _ = writeln!(text, "! {first}");
        }
        text.push('\n');
        for part in parts {
            let ratio = part.ratio.as_ref().map(|ratio| format!("{} × ", words.number(ratio))).unwrap_or_default();
            let drops = part.drops.map(|drops| format!("  {}", words.counted("card.drops", u64::from(drops))));
            let ml = part.ml.map(|ml| format!("  {} ml", words.number(&millilitres(ml))));
            let _ = writeln!(
                text,
                "  {ratio}{}{}{}",
                part.product.name(),
                drops.unwrap_or_default(),
                ml.unwrap_or_default()
            );
        }
        for line in self.measured(words) {
            let _ = writeln!(text, "  {line}");
        }
        let _ = writeln!(text, "\n{}", words.filled("sheet.pot-for", &[]));
        for of in steps {
            let number = of.step.number.to_string();
            let step = [("scheme", of.scheme.title.as_str()), ("number", &number), ("step", &of.step.title)];
            let models = words.counted("tick-grid.models", u64::from(of.models));
            let _ = writeln!(text, "  {}, {models}", words.filled("sheet.step", &step));
        }
        self.cautions(&mut text, texts);
        text.lines().map(|line| format!("{}\n", visible(line))).collect()
    }

    /// How much it is in all, and how it is counted out.
    fn measured(&self, words: &Words) -> Vec<String> {
        let PotMixing { pot, ml, reserve, counted, .. } = &self.mixing;
        let Some(ml) = ml else { return vec![words.filled("sheet.pot-unknown", &[])] };
        let amount = |key: &str, ml: f64| words.filled(key, &[("ml", &words.number(&millilitres(ml)))]);
        let mut lines = vec![amount(if pot.together { "sheet.pot-one-lot" } else { "sheet.pot-together" }, *ml)];
        if *reserve > 0.0 {
            lines.push(amount("sheet.pot-reserve", *reserve));
        }
        let counted = counted.map(|counted| match counted {
            "poured" => "sheet.pot-poured",
            "sized" => "sheet.pot-sized",
            _ => "mix.near",
        });
        lines.extend(counted.map(|key| words.filled(key, &[])));
        lines
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
