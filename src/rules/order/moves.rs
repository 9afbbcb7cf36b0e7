//! One step taken out of its place and put into another, and what no move may tear apart.

use crate::guide::Scheme;
use crate::report::wording;
use crate::trade::{Reach, Stage};

/// A step that is taken out of its place and put into another.
#[derive(Debug, Clone, Copy)]
pub(super) struct Move {
    pub(super) step: usize,
    pub(super) from: usize,
    pub(super) to: usize,
}

impl Move {
    /// Every other place that a step could have.
    pub(super) fn all_of(step: usize, order: &[usize]) -> impl Iterator<Item = Self> {
        let from = order.iter().position(|one| *one == step);
        let places = 0..order.len();
        places.filter_map(move |to| from.filter(|from| *from != to).map(|from| Self { step, from, to }))
    }

    pub(super) fn distance(self) -> usize {
        self.from.abs_diff(self.to)
    }

    /// How much work is moved: painters rather move one late detail than a coat that goes all over.
    pub(super) fn bulk(self, scheme: &Scheme) -> usize {
        let Some(step) = scheme.steps.get(self.step) else { return 0 };
        let ground = matches!(step.stage, Stage::Undercoat | Stage::Preshade | Stage::Prepare | Stage::Assemble);
        let part = match step.reach {
            Reach::Spots => 0,
            Reach::Edges | Reach::Recesses => 1,
            Reach::Faces | Reach::Raised => 2,
            Reach::All => 3,
        };
        if ground { usize::MAX } else { part + usize::from(step.all_over) }
    }

    pub(super) fn apply(self, order: &[usize]) -> Vec<usize> {
        let mut moved: Vec<usize> = order.iter().copied().filter(|step| *step != self.step).collect();
        moved.insert(self.to.min(moved.len()), self.step);
        moved
    }

    /// The move as a mend on the step that has the finding.
    pub(super) fn in_words(self, scheme: &Scheme, moved: &[usize], step: usize) -> String {
        let title = |index: usize| match scheme.steps.get(index) {
            Some(_) if index == step => "this step".to_owned(),
            Some(step) => wording::quoted(&step.title),
            None => String::new(),
        };
        let what = if self.step == step { "it".to_owned() } else { title(self.step) };
        let before = self.to.checked_sub(1).and_then(|at| moved.get(at));
        let next = moved.get(self.to + 1).filter(|_| self.to < self.from);
        match (next, before) {
            (Some(next), _) => format!("put {what} before {}", title(*next)),
            (None, Some(before)) => format!("put {what} after {}", title(*before)),
            (None, None) => format!("put {what} first"),
        }
    }
}

/// Whether every step comes after the steps that it names.
pub(super) fn keeps_after(scheme: &Scheme, order: &[usize]) -> bool {
    let place = places(scheme, order);
    order.iter().enumerate().all(|(at, step)| {
        let earlier = scheme.steps.get(*step).map(|step| step.after.as_slice()).unwrap_or_default();
        earlier.iter().all(|one| place.get(*one).copied().flatten().is_none_or(|place| place < at))
    })
}

/// Whether a move leaves what is done under a mask under it, and everything else outside. Masks themselves may move.
pub(super) fn keeps_masks(scheme: &Scheme, order: &[usize], one: Move) -> bool {
    let is_mask =
        |step: usize| scheme.steps.get(step).is_some_and(|step| matches!(step.stage, Stage::Mask | Stage::Unmask));
    if is_mask(one.step) {
        return true;
    }
    let (low, high) = (one.from.min(one.to), one.from.max(one.to));
    !order.iter().take(high + 1).skip(low).any(|step| is_mask(*step))
}

/// Whether a move buries no powder: it is not put before a colour of an area on which it lies.
pub(super) fn keeps_powder(scheme: &Scheme, order: &[usize], one: Move) -> bool {
    let Some(powder) = scheme.steps.get(one.step).filter(|step| step.stage == Stage::Pigment) else { return true };
    let passed = order.iter().take(one.from).skip(one.to).filter_map(|step| scheme.steps.get(*step));
    let mut colours = passed.filter(|step| matches!(step.stage, Stage::Undercoat | Stage::Basecoat | Stage::Layer));
    !colours.any(|step| step.areas.iter().any(|area| powder.areas.contains(area)))
}

/// Whether a move leaves sequences whole: none of their steps is moved, and nothing is put between two of them.
pub(super) fn keeps_sequences(scheme: &Scheme, order: &[usize], one: Move) -> bool {
    let use_of = |step: usize| scheme.steps.get(step).and_then(|step| step.via.as_ref()).map(|via| via.stem.as_str());
    let moved = one.apply(order);
    let beside = |at: Option<usize>| at.and_then(|at| moved.get(at)).and_then(|step| use_of(*step));
    let (before, behind) = (beside(one.to.checked_sub(1)), beside(Some(one.to + 1)));
    use_of(one.step).is_none() && (before.is_none() || before != behind)
}

fn places(scheme: &Scheme, order: &[usize]) -> Vec<Option<usize>> {
    let mut places = vec![None; scheme.steps.len()];
    for (at, step) in order.iter().enumerate() {
        if let Some(place) = places.get_mut(*step) {
            *place = Some(at);
        }
    }
    places
}
