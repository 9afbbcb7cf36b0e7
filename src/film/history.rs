//! The history of a scheme's film: its turns, its coats, and how they lie over each other.

use std::sync::OnceLock;

use super::coat::Coat;
use super::needs::Reason;
use super::shown::Appearance;
use super::turn::Turn;
use crate::bench::{Micrometres, Minutes};
use crate::guide::{Scheme, Step};
use crate::trade::Zone;

/// The history of a scheme's film, in one order of its steps.
#[derive(Debug, Clone)]
pub struct Film<'s> {
    pub(super) scheme: &'s Scheme,
    pub(super) turns: Vec<Turn>,
    pub(super) reached: Vec<usize>,
    pub(super) coats: Vec<Coat<'s>>,
    pub(super) links: Vec<Link>,
    pub(super) stacks: Vec<Vec<Laid>>,
    pub(super) masks: Vec<MaskSpan>,
    /// What was laid on the base beside the model, by steps about it and by sprays over everything, in their order.
    pub(super) on_base: Vec<Coat<'s>>,
    pub(super) appearance: OnceLock<Appearance>,
    /// When each step begins for whoever does one after the other and waits what each says.
    pub(super) told: OnceLock<Vec<Minutes>>,
}

/// A coat in a stack, and how thick it lies there.
#[derive(Debug, Clone, Copy)]
pub(super) struct Laid {
    pub(super) coat: usize,
    pub(super) dry: Micrometres,
}

/// From where to where in the order an area lies under a mask.
#[derive(Debug, Clone, Copy)]
pub(super) struct MaskSpan {
    pub(super) area: usize,
    pub(super) on: usize,
    pub(super) off: Option<usize>,
    /// How much of it, from 0 to 1, where its author says that it is a part.
    pub(super) covers: Option<f64>,
}

/// The stacks of one area.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Slot {
    Zone(Zone),
    Spots,
    Decals,
}

impl Slot {
    pub(super) const COUNT: usize = 5;

    pub(super) fn index(self, area: usize) -> usize {
        let slot = match self {
            Self::Zone(zone) => zone as usize,
            Self::Spots => 3,
            Self::Decals => 4,
        };
        area * Self::COUNT + slot
    }
}

/// A step waits for an earlier one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Link {
    /// The place of the earlier step in the order.
    pub from: usize,
    /// How long after its last coat.
    pub rest: Minutes,
    /// Why.
    pub reason: Reason,
    /// Whether the author wrote it.
    pub written: bool,
}

impl<'s> Film<'s> {
    /// The scheme.
    pub fn scheme(&self) -> &'s Scheme {
        self.scheme
    }

    /// The turns, in order.
    pub fn turns(&self) -> &[Turn] {
        &self.turns
    }

    /// The turn at a place of the order.
    pub fn turn(&self, position: usize) -> Option<&Turn> {
        self.turns.get(position)
    }

    /// The step at a place of the order.
    pub fn step(&self, position: usize) -> Option<&'s Step> {
        self.scheme.steps.get(self.turns.get(position)?.step)
    }

    /// The areas that the step at a place of the order reached.
    pub fn areas(&self, position: usize) -> &[usize] {
        let range = self.turns.get(position).map(|turn| turn.areas.clone()).unwrap_or_default();
        self.reached.get(range).unwrap_or_default()
    }

    /// The steps that reached an area, by their places in the scheme's list and in the order of work.
    pub fn reaching(&self, area: usize) -> impl Iterator<Item = usize> {
        let reached = self.turns.iter().enumerate().filter(move |(position, _)| self.areas(*position).contains(&area));
        reached.map(|(_, turn)| turn.step)
    }

    /// The coat that was laid at a place of the order, if one was.
    pub fn coat(&self, position: usize) -> Option<&Coat<'s>> {
        self.coats.get(self.turns.get(position)?.coat?)
    }

    /// All coats, in the order in which they were laid.
    pub fn coats(&self) -> &[Coat<'s>] {
        &self.coats
    }

    /// The coat that the step at a place of the order lays on the base beside the model, if it lays one.
    pub fn laid_on_base(&self, position: usize) -> Option<&Coat<'s>> {
        self.on_base.iter().find(|coat| coat.position == position)
    }

    /// All coats that meet the base beside the model, the first at the bottom.
    pub fn on_base(&self) -> &[Coat<'s>] {
        &self.on_base
    }

    /// Whether anything of a sort was laid on the base beside the model before the step at a place of the order.
    pub fn was_laid_on_base(&self, position: usize, is: impl Fn(&Coat<'s>) -> bool) -> bool {
        self.on_base.iter().take_while(|coat| coat.position < position).any(is)
    }

    /// What lies uppermost on the base beside the model when the step at a place of the order begins.
    pub fn top_of_base(&self, position: usize) -> Option<&Coat<'s>> {
        self.on_base.iter().rfind(|coat| coat.position < position)
    }

    pub(super) fn stack(&self, area: usize, slot: Slot) -> &[Laid] {
        self.stacks.get(slot.index(area)).map(Vec::as_slice).unwrap_or_default()
    }

    pub(super) fn end(&self) -> Minutes {
        self.turns.iter().map(|turn| turn.ends).fold(Minutes::default(), Minutes::max)
    }
}
