//! The paints, or mixes of two, that come nearest to a paint, as text and JSON.

mod json;
mod text;

use std::sync::Arc;

use crate::guide::Paint;
use crate::measure::Colour;
use crate::nearest::{Blend, Look, Near, ranks};
use crate::trade::Kind;

pub(crate) use json::json;
pub(crate) use text::text;

/// What was asked about.
#[derive(Debug, Clone)]
pub(crate) enum Asked {
    /// A paint.
    Paint(Arc<Paint>),
    /// A colour, and the kind of paint to look among.
    Colour(Colour, Kind),
}

/// The answer, before it is shown.
#[derive(Debug)]
pub(crate) struct Answer {
    /// What was asked about.
    pub(crate) asked: Asked,
    /// Its colour.
    pub(crate) look: Option<Look>,
    /// The currency of its guide.
    pub(crate) currency: Option<String>,
    /// The currency of the guide that the others are from.
    pub(crate) other_currency: Option<String>,
    /// The nearest paints.
    pub(crate) nearest: Vec<Near>,
    /// The nearest mixes; `None` where they were not asked for.
    pub(crate) mixes: Option<Vec<Blend>>,
}

impl Answer {
    /// The paint that was asked about, if it was one.
    fn paint(&self) -> Option<&Paint> {
        match &self.asked {
            Asked::Paint(paint) => Some(paint),
            Asked::Colour(..) => None,
        }
    }

    /// How near each of the paints comes: the first have rank 1, and so has what can't be told apart from them.
    fn ranks(&self) -> Vec<usize> {
        ranks(&self.nearest.iter().map(|near| near.apart).collect::<Vec<_>>())
    }

    /// The same of the mixes.
    fn ranks_of_mixes(&self) -> Vec<usize> {
        ranks(&self.mixes.iter().flatten().map(|mix| Some(mix.apart)).collect::<Vec<_>>())
    }
}
