//! The cautions of a step, and those of a whole scheme with the steps that they hold for.

use std::sync::Arc;

use super::{CautionKind, triggers};
use crate::guide::{Paint, Scheme, Step};

/// What has to be said before a step.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct StepCautions {
    /// The program's own cautions, in their order.
    pub kinds: Vec<CautionKind>,
    /// The official statements on the products of the mix: hazards, supplements, then advice, each by its code.
    pub statements: Vec<Statement>,
    /// The author's own cautions, as they are in the step.
    pub notes: Vec<String>,
}

/// One official statement and the products that carry it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Statement {
    /// The code as the author wrote it.
    pub code: String,
    /// The names of the products, in the order of the mix.
    pub paints: Vec<String>,
}

/// What has to be said before several steps, each thing once: `K` is how the steps are named, such as their numbers.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Together<K> {
    /// The program's own cautions, in their order.
    pub kinds: Vec<Held<CautionKind, K>>,
    /// The official statements on all products, in the order of [`StepCautions::statements`].
    pub statements: Vec<Statement>,
    /// The author's own cautions, in the order of the steps; one that is in several steps stands here once.
    pub notes: Vec<Held<String, K>>,
}

/// Something to say and the steps that it holds for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Held<T, K> {
    /// What is said.
    pub what: T,
    /// The steps, in their order.
    pub steps: Vec<K>,
}

/// What has to be said before a scheme, by the numbers of its steps.
pub type SchemeCautions = Together<usize>;

impl<K> Together<K> {
    /// Whether there is nothing to say.
    pub const fn is_empty(&self) -> bool {
        self.kinds.is_empty() && self.statements.is_empty() && self.notes.is_empty()
    }
}

/// The cautions of one step of a scheme; `beside` are products that it uses up beside its mix, such as cleaner.
pub fn of_step(scheme: &Scheme, step: &Step, beside: &[Arc<Paint>]) -> StepCautions {
    let mut statements = Vec::new();
    for part in &step.mix.parts {
        for code in &part.paint.hazards {
            add_statement(&mut statements, &code.0, [&part.paint.name]);
        }
    }
    for paint in beside {
        for code in &paint.hazards {
            add_statement(&mut statements, &code.0, [&paint.name]);
        }
    }
    statements.sort_by(|a, b| rank(&a.code).cmp(&rank(&b.code)));
    StepCautions { kinds: triggers::kinds(scheme, step, beside), statements, notes: step.safety.clone() }
}

/// The cautions of a whole scheme, from those of its steps in their order.
pub fn of_scheme(steps: &[StepCautions]) -> SchemeCautions {
    together(steps.iter().enumerate().map(|(at, cautions)| (at + 1, cautions)))
}

/// The cautions of some steps, each said once with the steps that it holds for.
pub fn together<'a, K: Clone + PartialEq>(steps: impl IntoIterator<Item = (K, &'a StepCautions)>) -> Together<K> {
    let mut gathered = Together { kinds: Vec::new(), statements: Vec::new(), notes: Vec::new() };
    for (step, cautions) in steps {
        for kind in &cautions.kinds {
            add_held(&mut gathered.kinds, kind, &step);
        }
        for note in &cautions.notes {
            add_held(&mut gathered.notes, note, &step);
        }
        for Statement { code, paints, .. } in &cautions.statements {
            add_statement(&mut gathered.statements, code, paints);
        }
    }
    gathered.kinds.sort_by_key(|held| held.what);
    gathered.statements.sort_by(|a, b| rank(&a.code).cmp(&rank(&b.code)));
    gathered
}

fn add_held<T: Clone + PartialEq, K: Clone + PartialEq>(known: &mut Vec<Held<T, K>>, what: &T, step: &K) {
    match known.iter_mut().find(|held| held.what == *what) {
        Some(held) if held.steps.contains(step) => {}
        Some(held) => held.steps.push(step.clone()),
        None => known.push(Held { what: what.clone(), steps: vec![step.clone()] }),
    }
}

fn add_statement<'a>(statements: &mut Vec<Statement>, code: &str, paints: impl IntoIterator<Item = &'a String>) {
    let at = statements.iter().position(|known| known.code == code).unwrap_or(statements.len());
    if at == statements.len() {
        statements.push(Statement { code: code.to_owned(), paints: Vec::new() });
    }
    let known = &mut statements[at].paints;
    for paint in paints {
        if !known.contains(paint) {
            known.push(paint.clone());
        }
    }
}

/// Hazards first, then what the regulation adds to them, then advice; each by its number.
fn rank(code: &str) -> (usize, &str) {
    let class = if code.starts_with('H') {
        0
    } else if code.starts_with('E') {
        1
    } else {
        2
    };
    (class, code)
}

#[cfg(test)]
mod tests {
    use super::super::testing::{paint, scheme, step};
    use super::*;
    use crate::trade::{Family, Kind, Stage, Technique};

    fn whole(scheme: &Scheme) -> SchemeCautions {
        let steps: Vec<StepCautions> = scheme.steps.iter().map(|step| of_step(scheme, step, &[])).collect();
        of_scheme(&steps)
    }

    fn lacquer_step() -> Step {
        let clear = paint(Kind::Clear, Family::Lacquer).named("Amber Glass").hazards("P210 EUH066 H336 H225");
        let thinner = paint(Kind::Thinner, Family::Lacquer).named("Quick Thin").hazards("H225");
        let mut step = step(Stage::Glaze, Technique::Airbrush, &[clear, thinner]);
        step.safety = vec!["Change the cartridges first.".to_owned()];
        step
    }

    #[test]
    fn statements_stand_in_order_with_the_products_that_carry_them() {
        let cautions = of_step(&scheme(None, Vec::new()), &lacquer_step(), &[]);
        let lines: Vec<(&str, String)> =
            cautions.statements.iter().map(|one| (one.code.as_str(), one.paints.join(", "))).collect();
        let glass = || "Amber Glass".to_owned();
        let expected =
            [("H225", "Amber Glass, Quick Thin".to_owned()), ("H336", glass()), ("EUH066", glass()), ("P210", glass())];
        assert_eq!(lines, expected);
        assert_eq!(cautions.notes, ["Change the cartridges first."]);
    }

    #[test]
    fn an_unknown_code_is_kept() {
        let odd = paint(Kind::Paint, Family::Water).hazards("H999");
        let cautions = of_step(&scheme(None, Vec::new()), &step(Stage::Layer, Technique::Brush, &[odd]), &[]);
        assert_eq!(cautions.statements.len(), 1);
        assert_eq!(cautions.statements[0].code, "H999");
    }

    #[test]
    fn a_scheme_gathers_every_caution_with_its_steps() {
        let quiet = step(Stage::Layer, Technique::Brush, &[paint(Kind::Paint, Family::Water)]);
        let blade = step(Stage::Prepare, Technique::Blade, &[]);
        let gathered = whole(&scheme(Some("resin"), vec![blade, lacquer_step(), quiet, lacquer_step()]));
        let steps = |kind| gathered.kinds.iter().find(|one| one.what == kind).map(|one| one.steps.clone());
        assert_eq!(steps(CautionKind::SpraySolvent), Some(vec![2, 4]));
        assert_eq!(steps(CautionKind::Blade), Some(vec![1]));
        assert_eq!(steps(CautionKind::Children), Some(vec![1, 2, 4]));
        assert_eq!(steps(CautionKind::Glue), None);
        assert!(gathered.kinds.is_sorted_by_key(|one| one.what));
        let note = Held { what: "Change the cartridges first.".to_owned(), steps: vec![2, 4] };
        assert_eq!(gathered.notes, [note]);
        assert_eq!(gathered.statements[0].paints, ["Amber Glass", "Quick Thin"]);
        assert_eq!(gathered.statements.len(), 4);
    }

    #[test]
    fn a_note_that_stands_twice_in_a_step_names_it_once() {
        let twice = Step { safety: vec!["Mind the cat.".to_owned(); 2], ..step(Stage::Mask, Technique::Hand, &[]) };
        let gathered = whole(&scheme(None, vec![twice]));
        assert_eq!(gathered.notes, [Held { what: "Mind the cat.".to_owned(), steps: vec![1] }]);
    }

    #[test]
    fn a_scheme_leaves_out_nothing_that_a_step_says() {
        let oil = step(Stage::Weather, Technique::Cloth, &[paint(Kind::Oil, Family::Oil).hazards("EUH210")]);
        let scheme = scheme(None, vec![oil, lacquer_step(), step(Stage::Prepare, Technique::Hand, &[])]);
        let gathered = whole(&scheme);
        for step in &scheme.steps {
            let cautions = of_step(&scheme, step, &[]);
            for kind in &cautions.kinds {
                assert!(gathered.kinds.iter().any(|one| one.what == *kind && one.steps.contains(&step.number)));
            }
            for statement in &cautions.statements {
                assert!(gathered.statements.iter().any(|one| one.code == statement.code));
            }
        }
    }
}
