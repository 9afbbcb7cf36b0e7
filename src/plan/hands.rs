//! What the hands hold, and what it takes to change it.

use super::Seconds;
use crate::bench::{Bench, Figure};
use crate::guide::{Mix, Step};
use crate::trade::Technique;

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
}

impl Kit {
    /// What a step is done with.
    pub(super) fn of(step: &Step) -> Self {
        Self { tool: Tool::of(step), technique: step.technique, mix: step.mix.clone() }
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
        let seconds = |figure| Seconds::from(crate::bench::Minutes(bench.get(figure)).as_time().as_seconds());
        Self {
            airbrush: seconds(Figure::AirbrushSetUp),
            rinse: seconds(Figure::AirbrushChange),
            strip: seconds(Figure::AirbrushStrip),
            can: seconds(Figure::CanSetUp),
            brush: seconds(Figure::BrushChange),
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

/// What the hands hold: kits by their places in the workload's list.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub(super) struct Hands {
    /// What is in the airbrush while it is set up.
    pub(super) airbrush: Option<usize>,
    /// The brush or can that was last in the hand.
    pub(super) brush: Option<usize>,
}

impl Hands {
    /// What it takes until a kit is ready.
    pub(super) fn change(self, kit: usize, tool: Tool, changes: &Changes) -> Seconds {
        match tool {
            Tool::Bare => 0,
            Tool::Airbrush if self.airbrush == Some(kit) => 0,
            Tool::Airbrush if self.airbrush.is_some() => changes.rinse,
            Tool::Airbrush => changes.airbrush,
            Tool::Can | Tool::Brush if self.brush == Some(kit) => 0,
            Tool::Can | Tool::Brush => changes.whole(tool),
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
