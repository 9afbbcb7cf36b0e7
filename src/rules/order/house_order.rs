//! The author's own ordering rules: a habit of the house, with the author's own reason.

use crate::guide::HouseOrder;
use crate::report::{Check, Finding, Group, Level, wording};
use crate::rules::{Look, Rule, Told};
use crate::trade::Stage;

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "house-order",
        level: Level::Warning,
        about: "the stages that 'house-order' names come in that order on every area",
        why: "the author of the guide had a reason for it, and wrote it down",
        group: Group::Order,
        safety: false,
    },
    example: "'Scars' (chip) comes after 'Peat' (shade) on 'Hull': The wash settles in the scars",
    ordering: true,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let orders: Vec<&HouseOrder> =
        look.around.house_order.iter().filter(|order| order.first == look.step.stage).collect();
    if orders.is_empty() {
        return;
    }
    let began = Began::before(look);
    for order in orders {
        check_one(look, order, &began, told);
    }
}

/// A stage that was there in time may come again: a last varnish does not break 'varnish before wash'.
fn check_one(look: &Look<'_>, order: &HouseOrder, began: &Began, told: &mut Told) {
    let too_early: Vec<(usize, usize)> =
        began.areas.iter().filter_map(|(area, stages)| Some((*area, too_early(order, stages)?))).collect();
    let Some((_, early)) = too_early.first() else { return };
    told.tell(&RULE, look.index, Some(*early), || {
        let areas = look.area_titles(too_early.iter().map(|(area, _)| *area));
        let (first, then) = (order.first, order.then);
        let why = order.why.trim().trim_end_matches('.');
        let (title, early_title) = (look.own_title(), look.title(*early));
        let message = format!("{title} ({first}) comes after {early_title} ({then}) on {areas}: {why}");
        let mend = format!("put it before {early_title}");
        let finding = Finding::new(&RULE.check, look.step.places.stage, message, mend);
        look.see(finding, *early, format!("the step of the stage {}", wording::quoted(&then.to_string())))
    });
}

/// The step that came too early, by its place in the scheme's list.
fn too_early(order: &HouseOrder, stages: &[(Stage, usize)]) -> Option<usize> {
    let step_of = |stage: Stage| stages.iter().find(|(one, _)| *one == stage).map(|(_, step)| *step);
    step_of(order.then).filter(|_| step_of(order.first).is_none())
}

/// With which step each stage began on each area that a step works on, gone through once for all orders of the house.
struct Began {
    areas: Vec<(usize, Vec<(Stage, usize)>)>,
}

impl Began {
    fn before(look: &Look<'_>) -> Self {
        let mut areas: Vec<(usize, Vec<(Stage, usize)>)> =
            worked(look, look.position).iter().map(|area| (*area, Vec::new())).collect();
        for position in 0..look.position {
            let (Some(turn), Some(step)) = (look.film.turn(position), look.film.step(position)) else { continue };
            for (area, stages) in &mut areas {
                let new = !stages.iter().any(|(stage, _)| *stage == step.stage);
                if new && worked(look, position).contains(area) {
                    stages.push((step.stage, turn.step));
                }
            }
        }
        Self { areas }
    }
}

/// The areas that a step works on; one that is beside the model, as basing does, counts for all.
fn worked<'a>(look: &Look<'a>, position: usize) -> &'a [usize] {
    let reached = look.film.areas(position);
    let named = look.film.step(position).map(|step| step.areas.as_slice()).unwrap_or_default();
    if reached.is_empty() { named } else { reached }
}
