//! What the hands hold, and what it takes to change it.

use super::Seconds;
use crate::bench::{Bench, Figure};
use crate::guide::{Mix, Step};
use crate::trade::{Family, Kind, Technique};

/// What puts paint on, by what it takes to make ready.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Tool {
    /// Set up once, rinsed between colours, stripped in the end.
    Airbrush,
    /// Shaken, and carried to where one may spray.
    Can,
    /// A brush, sponge, cloth or pipette with its colour.
    Brush,
    /// Bare hands, a knife: nothing to make ready.
    Bare,
}

impl Tool {
    fn of(step: &Step) -> Self {
        match step.technique {
            Technique::Airbrush => Self::Airbrush,
            Technique::SprayCan => Self::Can,
            Technique::Hand | Technique::Blade if step.mix.parts.is_empty() => Self::Bare,
            _ => Self::Brush,
        }
    }
}

/// A tool with a mix in it.
#[derive(Debug, Clone, PartialEq)]
pub struct Kit {
    /// What makes it ready.
    pub tool: Tool,
    /// The tool itself.
    pub technique: Technique,
    /// What is in it.
    pub mix: Mix,
    /// What carries it: families that one cleaner takes out of an airbrush count as one.
    pub carrier: Family,
}

impl Kit {
    /// What a step is done with.
    pub(super) fn of(step: &Step) -> Self {
        Self { tool: Tool::of(step), technique: step.technique, mix: step.mix.clone(), carrier: carrier(&step.mix) }
    }

    /// Whether it can be used on after the other without a change.
    pub(super) fn is_same(&self, other: &Self) -> bool {
        let parts = |kit: &Self| -> Vec<_> {
            kit.mix.parts.iter().map(|part| (part.paint.id.clone(), part.amount.terms())).collect()
        };
        self.tool == other.tool
            && self.technique == other.technique
            && self.mix.measured == other.mix.measured
            && parts(self) == parts(other)
    }
}

/// What carries a mix: the family of the largest part that is no thinner. Oil and enamel share white spirit; what is dry
/// needs no cleaner of its own.
fn carrier(mix: &Mix) -> Family {
    let paints = mix.parts.iter().filter(|part| !matches!(part.paint.kind, Kind::Thinner | Kind::Cleaner));
    let largest = paints.reduce(|most, part| if part.amount > most.amount { part } else { most });
    match largest.or(mix.parts.first()).map(|part| part.paint.family) {
        None | Some(Family::Dry) => Family::Water,
        Some(Family::Oil) => Family::Enamel,
        Some(family) => family,
    }
}

/// What changing tools and colours takes, in seconds.
#[derive(Debug, Clone, Copy)]
pub(super) struct Changes {
    /// Making the airbrush ready, with its first colour.
    pub(super) airbrush: Seconds,
    /// From one colour in it to the next.
    pub(super) rinse: Seconds,
    /// Stripping and cleaning it.
    pub(super) strip: Seconds,
    /// Shaking a can and going where one may spray.
    pub(super) can: Seconds,
    /// Taking up another brush or colour, and cleaning the one before.
    pub(super) brush: Seconds,
}

impl Changes {
    /// With an author's own figures.
    pub(super) fn of(bench: &Bench) -> Self {
        Self {
            airbrush: seconds(bench, Figure::AirbrushSetUp),
            rinse: seconds(bench, Figure::AirbrushChange),
            strip: seconds(bench, Figure::AirbrushStrip),
            can: seconds(bench, Figure::CanSetUp),
            brush: seconds(bench, Figure::BrushChange),
        }
    }

    /// What it takes to make a tool ready from nothing.
    pub(super) fn whole(&self, tool: Tool) -> Seconds {
        match tool {
            Tool::Airbrush => self.airbrush,
            Tool::Can => self.can,
            Tool::Brush => self.brush,
            Tool::Bare => 0,
        }
    }
}

/// How a painter uses an evening.
#[derive(Debug, Clone, Copy)]
pub(super) struct Habits {
    /// Nothing is taken up for less than this just before an evening ends.
    pub(super) least_piece: Seconds,
    /// Nor is anything waited for longer than this.
    pub(super) patience: Seconds,
    /// Shorter waits are not worth a line.
    pub(super) worth_a_line: Seconds,
}

impl Habits {
    /// With an author's own figures.
    pub(super) fn of(bench: &Bench) -> Self {
        Self {
            least_piece: seconds(bench, Figure::LeastPiece),
            patience: seconds(bench, Figure::Patience),
            worth_a_line: seconds(bench, Figure::WaitWorthALine),
        }
    }
}

fn seconds(bench: &Bench, figure: Figure) -> Seconds {
    Seconds::from(crate::bench::Minutes(bench.get(figure)).as_time().as_seconds())
}

/// What the hands hold: kits by their places in the workload's list.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub(super) struct Hands {
    /// What is in the airbrush while it is set up.
    pub(super) airbrush: Option<usize>,
    /// The brush or can that was last in the hand.
    pub(super) brush: Option<usize>,
}

/// What it takes until a kit is ready.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub(super) struct Change {
    /// Stripping the airbrush first, because what is in it has another carrier.
    pub(super) strip: Seconds,
    /// Making the tool ready.
    pub(super) ready: Seconds,
}

impl Change {
    /// All of it.
    pub(super) fn takes(self) -> Seconds {
        self.strip + self.ready
    }
}

impl Hands {
    /// What it takes until a kit is ready. No carrier follows another into an airbrush that was not stripped.
    pub(super) fn change(self, kit: usize, kits: &[Kit], changes: &Changes) -> Change {
        let Some(wanted) = kits.get(kit) else { return Change::default() };
        let ready = |ready| Change { strip: 0, ready };
        match (wanted.tool, self.airbrush) {
            (Tool::Bare, _) => Change::default(),
            (Tool::Can | Tool::Brush, _) if self.brush == Some(kit) => Change::default(),
            (Tool::Can | Tool::Brush, _) => ready(changes.whole(wanted.tool)),
            (Tool::Airbrush, None) => ready(changes.airbrush),
            (Tool::Airbrush, Some(loaded)) if loaded == kit => Change::default(),
            (Tool::Airbrush, Some(loaded)) if kits.get(loaded).is_some_and(|one| one.carrier == wanted.carrier) => {
                ready(changes.rinse)
            }
            (Tool::Airbrush, Some(_)) => Change { strip: changes.strip, ready: changes.rinse },
        }
    }

    /// The hands with a kit taken up.
    pub(super) fn with(self, kit: usize, tool: Tool) -> Self {
        match tool {
            Tool::Airbrush => Self { airbrush: Some(kit), ..self },
            Tool::Can | Tool::Brush => Self { brush: Some(kit), ..self },
            Tool::Bare => self,
        }
    }
}
