//! What a step does, apart from the coat that it lays, and when.

use crate::bench::{self, Bench, Figure, Minutes};
use std::ops::Range;

use super::coat::Coat;

use crate::guide::{Paint, Scheme, Step};
use crate::trade::{Family, Kind, Preparing, Stage, ToolWord, is_instant_glue, preparing, tool_words};

/// One step's turn.
#[derive(Debug, Clone, PartialEq)]
pub struct Turn {
    /// The step, by its place in the scheme's list.
    pub step: usize,
    /// When it begins.
    pub begins: Minutes,
    /// When its last coat has been laid.
    pub ends: Minutes,
    /// What it does.
    pub deed: Deed,
    /// How long it takes.
    pub wait: Wait,
    /// How long what it lays or glues takes to set, where that is known.
    pub(super) sets: Option<Minutes>,
    pub(super) coat: Option<usize>,
    pub(super) areas: Range<usize>,
    pub(super) links: Range<usize>,
}

/// How long a step takes on one model.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Wait {
    /// Work, all coats together.
    pub hands_on: Minutes,
    /// Whether the work is the usual for such a step, because the author does not say.
    pub usual: bool,
    /// Rest between two coats.
    pub between: Minutes,
}

impl Wait {
    pub(super) fn of(scheme: &Scheme, step: &Step, coat: Option<&Coat<'_>>, bench: &Bench) -> Self {
        Self {
            hands_on: Minutes(bench::minutes(scheme, step, bench) * f64::from(step.coats)),
            usual: step.minutes.is_none(),
            between: step.wait.map(Minutes::from).or(coat.map(|coat| coat.drying.between)).unwrap_or_default(),
        }
    }
}

/// How long the slowest glue of a step takes to set: by its label, otherwise as glues of its sort do.
pub(super) fn glue_sets(step: &Step, bench: &Bench) -> Option<Minutes> {
    let of_label = |paint: &Paint| paint.recoat.or(paint.touch_dry).map(Minutes::from);
    let of_sort = |paint: &Paint| {
        let figure = match paint.family {
            _ if is_instant_glue(&paint.name, &paint.id) => return Minutes(bench.get(Figure::InstantGlueRest)),
            Family::Water if !tool_words(&paint.name).contains(&ToolWord::Cement) => Figure::WhiteGlueRest,
            _ => Figure::CementRest,
        };
        Minutes(bench.get(figure))
    };
    let glues = step.mix.parts.iter().map(|part| &part.paint).filter(|paint| paint.kind == Kind::Glue);
    let sets = glues.map(|paint| of_label(paint).unwrap_or_else(|| of_sort(paint)));
    sets.max_by(|one, other| one.0.total_cmp(&other.0))
}

/// What a step does.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Deed {
    /// Nothing that the film knows of.
    Nothing,
    /// It gets the surface ready.
    Prepare(Preparation),
    /// It puts parts together.
    Assemble,
    /// It covers areas.
    Mask,
    /// It bares them again.
    Unmask,
    /// It takes paint away without laying any.
    Chip,
    /// It lays a coat.
    Coat,
}

/// How a step gets the surface ready, as far as its tools, products, names and instruction tell.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Preparation {
    /// It washes.
    pub washes: bool,
    /// It fills gaps.
    pub fills: bool,
    /// It sands or files.
    pub sands: bool,
}

impl Preparation {
    fn of(step: &Step) -> Self {
        let names = step.tools.iter().flat_map(|tool| [tool.id.as_str(), tool.name.as_str()]);
        let names = names.chain([step.stem.as_str(), step.title.as_str()]);
        let done = preparing(names, step.body.text.get(step.body.start..).unwrap_or_default());
        let holds = |kind: Kind| step.mix.parts.iter().any(|part| part.paint.kind == kind);
        Self {
            washes: done.contains(&Preparing::Washing) || holds(Kind::Cleaner),
            fills: done.contains(&Preparing::Filling) || holds(Kind::Texture),
            sands: done.contains(&Preparing::Sanding),
        }
    }
}

impl Deed {
    pub(super) fn of(step: &Step, lays: bool) -> Self {
        match step.stage {
            Stage::Prepare => Self::Prepare(Preparation::of(step)),
            Stage::Assemble => Self::Assemble,
            Stage::Mask => Self::Mask,
            Stage::Unmask => Self::Unmask,
            Stage::Chip if !lays => Self::Chip,
            _ if lays => Self::Coat,
            _ => Self::Nothing,
        }
    }
}
