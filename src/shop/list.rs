//! The list itself: what is needed, what is there, what has to be bought, and what it costs.

use std::sync::Arc;

use rust_decimal::Decimal;

use super::bottles::{Pick, choose};
use super::cupboard::usable;
use super::gathered::{Draft, Gathered, gathered};
use super::order::Order;
use super::pieces::{Pieces, pieces, takers};
use super::role::Role;
use super::substitutes::{Shelves, Substitute, still_sold};
use super::uses::Use;
use crate::caution::{self, Gear, StepCautions};
use crate::guide::{Paint, Tool};
use crate::measure::{Millilitres, Money};
use crate::nearest::Rack;
use crate::quantity::{Estimate, Purpose};
use crate::trade::{ToolKind, tool_words};
use crate::work::WorkedScheme;

/// A shopping list.
#[derive(Debug, Clone)]
pub struct List<'a> {
    /// What was asked for.
    pub order: Order<'a>,
    /// The products by their roles, within a role in the order in which the steps first use them.
    pub lines: Vec<Line<'a>>,
    /// What is needed and stands on no shelf of the guide, by its purpose.
    pub unlisted: Vec<(Purpose, Estimate, Vec<Use<'a>>)>,
    /// The tools by their kinds, within a kind in the order in which the steps first name them.
    pub tools: Vec<(Arc<Tool>, Vec<Use<'a>>)>,
    /// What keeps people safe, as the cautions of the steps ask for it.
    pub gear: Vec<GearLine<'a>>,
    /// The cautions of every step that it is for.
    pub cautions: Vec<(Use<'a>, &'a StepCautions)>,
    /// What all that has to be bought costs, as far as prices are known; `None` where it is beyond counting.
    pub total: Option<Money>,
    /// The same if all goes by the likely figures and not by the upper ones.
    pub total_likely: Option<Money>,
    /// How many lines have to be bought and have no price; of what is no longer sold there is none, and nothing to buy.
    pub unpriced: usize,
    /// How many lines are wanted and no longer sold: something else has to take their place.
    pub gone: usize,
    /// The share of a bottle that can be got out of it.
    pub usable: f64,
}

/// A thing that keeps people safe.
#[derive(Debug, Clone)]
pub struct GearLine<'a> {
    /// What it is.
    pub gear: Gear,
    /// The steps that need it.
    pub uses: Vec<Use<'a>>,
    /// The things of the author's that are the same: they are here and not among the tools again.
    pub own: Vec<Arc<Tool>>,
}

/// One product on a list.
#[derive(Debug, Clone)]
pub struct Line<'a> {
    /// The product; one that is no longer sold has no prices here.
    pub paint: Arc<Paint>,
    /// What it is bought for.
    pub role: Role,
    /// The steps that use it.
    pub uses: Vec<Use<'a>>,
    /// How much is needed; `None` where a step can't be calculated because the model's surface is not known.
    pub need: Option<Estimate>,
    /// What each further model takes; for several schemes, the average model.
    pub per_model: Millilitres,
    /// How much is in the cupboard.
    pub have: Millilitres,
    /// What has to be bought, so that the upper figure is covered.
    pub picks: Vec<Pick>,
    /// What would do by the likely figure.
    pub picks_likely: Vec<Pick>,
    /// What that costs; `None` where a price is not known.
    pub price: Option<Money>,
    /// What is in the cupboard and would do in its place, the nearest first.
    pub substitutes: Vec<Substitute>,
    /// What can be bought in its place, where it has left the market and something still sold comes near enough.
    pub still_sold: Option<Substitute>,
}

impl Line<'_> {
    /// What the batch takes beyond the models: what stays in cups and jars, the reserve of a lot.
    pub fn per_batch(&self, models: u64) -> Millilitres {
        let likely = self.need.map_or(0.0, |need| need.likely.0);
        Millilitres((likely - self.per_model.0 * models as f64).max(0.0))
    }

    /// How far the need fills what has to be bought, by the likely figure; `None` where nothing is bought, or the need is
    /// not known.
    pub fn filling(&self) -> Option<f64> {
        let bought: f64 = self.picks.iter().map(|pick| pick.bottle.size.0 * pick.count as f64).sum();
        let need = (self.need?.likely.0 - self.have.0).max(0.0);
        (bought > 0.0).then(|| (need / bought).min(1.0))
    }

    /// How many bottles are wanted; of what is no longer sold they can't be bought.
    pub fn bottles(&self) -> u64 {
        count(&self.picks)
    }

    /// Whether nothing has to be bought, because enough is there.
    pub fn is_there(&self) -> bool {
        // No bottle is picked either where nobody says how large one is.
        let enough = self.need.is_none_or(|need| need.high.0 <= self.have.0);
        self.picks.is_empty() && self.have.0 > 0.0 && enough
    }
}

/// How many bottles some picks are.
pub(crate) fn count(picks: &[Pick]) -> u64 {
    picks.iter().fold(0, |sum, pick| sum.saturating_add(pick.count))
}

/// What some picks cost; `None` where a price is not known or the sum is beyond counting.
pub(super) fn price(picks: &[Pick]) -> Option<Money> {
    let each = picks.iter().map(|pick| pick.bottle.price?.0.checked_mul(Decimal::from(pick.count)));
    each.into_iter().try_fold(Decimal::ZERO, |sum, one| sum.checked_add(one?)).map(Money)
}

impl<'a> List<'a> {
    /// The list for an order.
    pub fn of(order: Order<'a>) -> Self {
        let usable = usable(&order.worked.conditions.bench);
        let Gathered { drafts, unlisted } = gathered(&order);
        let mut lines: Vec<Line<'a>> = drafts.into_iter().map(|draft| line(draft, &order, usable)).collect();
        lines.sort_by_key(|line| line.role);
        if let Some(shelves) = Shelves::of(&order.cupboard, &order.worked.guide.paints) {
            for line in lines.iter_mut().filter(|line| !line.is_there()) {
                line.substitutes = shelves.in_place_of(&line.paint);
            }
        }
        find_still_sold(&mut lines, &order);
        let mut tools = tools(&order);
        let counted: Vec<Money> = tools.iter().filter_map(|(tool, _)| pieces(&order, tool)?.price).collect();
        let to_buy = || lines.iter().filter(|line| !line.picks.is_empty());
        Self {
            total: total(to_buy().map(|line| line.picks.as_slice()), &counted),
            total_likely: total(to_buy().map(|line| line.picks_likely.as_slice()), &counted),
            unpriced: lines.iter().filter(|line| line.price.is_none() && !line.paint.discontinued).count(),
            gone: lines.iter().filter(|line| line.price.is_none() && line.paint.discontinued).count(),
            gear: gear(&order, &mut tools),
            tools,
            cautions: cautions(&order),
            order,
            lines,
            unlisted,
            usable,
        }
    }

    /// The currency of its prices, where the guide names one.
    pub fn currency(&self) -> Option<&str> {
        self.order.worked.guide.currency.as_deref()
    }

    /// How many pieces of a tool its models take; `None` of what is not counted.
    pub fn pieces(&self, tool: &Tool) -> Option<Pieces> {
        pieces(&self.order, tool)
    }

    /// How many of its models take a tool.
    pub fn takers(&self, tool: &Tool) -> u64 {
        takers(&self.order, tool)
    }

    /// What is counted in pieces, protective gear with it.
    pub fn counted(&self) -> Vec<Arc<Tool>> {
        let counted = tools(&self.order).into_iter().filter(|(tool, _)| self.pieces(tool).is_some());
        counted.map(|(tool, _)| tool).collect()
    }

    /// How many packs have to be bought of what is counted, protective gear with it, and how many pieces of what is sold
    /// singly.
    pub fn packs(&self) -> (u64, u64) {
        let counted = self.counted().into_iter().filter_map(|tool| self.pieces(&tool));
        counted.fold((0, 0), |(packs, single): (u64, u64), of| match of.pack {
            1 => (packs, single.saturating_add(of.packs)),
            _ => (packs.saturating_add(of.packs), single),
        })
    }

    /// How many bottles have to be bought, of all that is still sold.
    pub fn bottles(&self) -> u64 {
        let sold = self.lines.iter().filter(|line| !line.paint.discontinued);
        sold.fold(0, |sum, line| sum.saturating_add(line.bottles()))
    }
}

/// Looks for what can be bought in the place of what can't.
fn find_still_sold(lines: &mut [Line<'_>], order: &Order<'_>) {
    let mut gone = lines.iter_mut().filter(|line| line.paint.discontinued && !line.is_there()).peekable();
    if gone.peek().is_none() {
        return;
    }
    let guide = Rack::of(&order.worked.guide.paints);
    gone.for_each(|line| line.still_sold = still_sold(&line.paint, &guide, &order.cupboard));
}

/// The prices that are known, added up; those of what is counted in pieces too.
fn total<'p>(all: impl Iterator<Item = &'p [Pick]>, counted: &[Money]) -> Option<Money> {
    let known = all.filter(|picks| picks.iter().all(|pick| pick.bottle.price.is_some()));
    let pieces = counted.iter().map(|money| Some(Money(money.0)));
    known.map(price).chain(pieces).try_fold(Decimal::ZERO, |sum, one| sum.checked_add(one?.0)).map(Money)
}

fn line<'a>(draft: Draft<'a>, order: &Order<'a>, usable: f64) -> Line<'a> {
    let Draft { paint, uses, need, by_models } = draft;
    let paint = if paint.discontinued { without_prices(&paint) } else { paint };
    let have = order.cupboard.amount(&paint.id);
    // Where nothing can be calculated, one bottle is the least that a step asks for.
    let one = Millilitres(f64::MIN_POSITIVE);
    let left = |of: fn(Estimate) -> Millilitres| {
        let need = need.map_or(if have.0 > 0.0 { Millilitres(0.0) } else { one }, of);
        Millilitres(need.0 - have.0)
    };
    let buy = |need: Millilitres| {
        // Any need at all is a bottle, however little it is.
        let least = if need.0 > 0.0 { need.0.max(0.01) } else { 0.0 };
        choose(&paint.bottles, Millilitres(least), usable)
    };
    let picks = buy(left(|need| need.high));
    // What is needed and has no size has no price either, for nobody knows how many there must be.
    let lacks_size = picks.is_empty() && left(|need| need.high).0 > 0.0;
    Line {
        role: Role::of(paint.kind),
        uses,
        need,
        per_model: Millilitres(by_models / (order.models() as f64).max(1.0)),
        have,
        price: price(&picks).filter(|_| !lacks_size),
        picks,
        picks_likely: buy(left(|need| need.likely)),
        substitutes: Vec::new(),
        still_sold: None,
        paint,
    }
}

/// A product that has left the market: what it cost is no price at which anybody can buy it, and no part of a total.
fn without_prices(paint: &Paint) -> Arc<Paint> {
    let mut gone = paint.clone();
    gone.bottles.iter_mut().for_each(|bottle| bottle.price = None);
    Arc::new(gone)
}

fn tools<'a>(order: &Order<'a>) -> Vec<(Arc<Tool>, Vec<Use<'a>>)> {
    let mut tools: Vec<(Arc<Tool>, Vec<Use<'a>>)> = Vec::new();
    for of in uses(order) {
        for tool in &of.step.tools {
            match tools.iter_mut().find(|(known, _)| known.id == tool.id) {
                Some((_, uses)) => uses.push(of),
                None => tools.push((Arc::clone(tool), vec![of])),
            }
        }
    }
    tools.sort_by_key(|(tool, _)| ToolKind::ALL.iter().position(|kind| *kind == tool.kind));
    tools
}

fn uses<'a>(order: &Order<'a>) -> impl Iterator<Item = Use<'a>> {
    let units = order.units.clone();
    units.into_iter().flat_map(|(worked, _): (&'a WorkedScheme, u32)| {
        worked.scheme.steps.iter().map(|step| Use { scheme: &worked.scheme, step })
    })
}

fn cautions<'a>(order: &Order<'a>) -> Vec<(Use<'a>, &'a StepCautions)> {
    let said = order.units.iter().flat_map(|(worked, _): &(&'a WorkedScheme, u32)| &worked.step_cautions);
    uses(order).zip(said).collect()
}

/// What the cautions ask for; what an author lists under a name for the same thing goes over from the tools.
fn gear<'a>(order: &Order<'a>, tools: &mut Vec<(Arc<Tool>, Vec<Use<'a>>)>) -> Vec<GearLine<'a>> {
    let all = cautions(order);
    let found = caution::gear(all.iter().map(|(_, said)| *said).enumerate());
    let used = |steps: Vec<usize>| steps.into_iter().filter_map(|at| Some(all.get(at)?.0)).collect();
    let lines = found.into_iter().map(|(gear, steps)| GearLine { gear, uses: used(steps), own: Vec::new() });
    let mut lines: Vec<GearLine<'a>> = lines.collect();
    tools.retain(|(tool, uses)| {
        let serves = |line: &GearLine<'_>| tool.kind == ToolKind::Protection && serves(&tool.name, line.gear);
        let Some(first) = lines.iter().position(serves) else { return true };
        // One thing that serves for several stands on the list once.
        let further = lines.extract_if(first + 1.., |line| line.own.is_empty() && serves(line));
        let steps: Vec<Use<'a>> = further.flat_map(|line| line.uses).chain(uses.iter().copied()).collect();
        let Some(line) = lines.get_mut(first) else { return true };
        for of in steps {
            if !line.uses.contains(&of) {
                line.uses.push(of);
            }
        }
        line.uses.sort_by_key(|of| all.iter().position(|(known, _)| known == of));
        line.own.push(Arc::clone(tool));
        false
    });
    lines
}

/// Whether a thing of this name serves as a piece of gear: painters call it so, or it is a respirator whose name says that it
/// filters particles as fine.
fn serves(name: &str, gear: Gear) -> bool {
    let words = tool_words(name);
    let called = Gear::ALL.iter().filter(|own| words.iter().any(|word| word.name() == own.name()));
    let folded = name.to_lowercase();
    let filters = |grades: &[&str]| grades.iter().any(|grade| folded.contains(grade));
    called.copied().any(|own| match (own, gear) {
        (Gear::VapourMask, Gear::DustMask) => filters(&["p3", "p100"]),
        (Gear::VapourMask, Gear::MistMask) => filters(&["p2", "p3", "p100"]),
        _ => own.serves_as(gear),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_thing_serves_for_what_it_keeps_off() {
        for (name, gear, is_so) in [
            ("Half mask A2-P3", Gear::VapourMask, true),
            ("Half mask A2-P3", Gear::MistMask, true),
            ("Half mask A2-P3", Gear::DustMask, true),
            ("Respirator A2 P2", Gear::DustMask, false),
            ("Respirator A2 P2", Gear::MistMask, true),
            ("Gas mask A2", Gear::MistMask, false),
            ("FFP3 mask", Gear::MistMask, true),
            ("FFP2 mask", Gear::DustMask, false),
            ("Splash goggles", Gear::Glasses, true),
            ("Safety glasses", Gear::Goggles, false),
        ] {
            assert_eq!(serves(name, gear), is_so, "{name}, {gear}");
        }
    }
}
