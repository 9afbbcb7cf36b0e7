//! An army: how many models of which scheme, and when they are painted.

use std::sync::Arc;

use super::{Paint, Scheme};
use crate::measure::{Clock, Date, Time, Weekday};
use crate::report::{FileId, Place};
use crate::source::Have;

/// One army.
#[derive(Debug, Clone)]
pub struct Army {
    /// The name of its file, and of its page.
    pub slug: String,
    /// What it is called.
    pub title: String,
    /// One sentence on it.
    pub summary: Option<String>,
    /// Its units.
    pub units: Vec<Unit>,
    /// When there is time to paint.
    pub evenings: Option<Evenings>,
    /// What already stands in the cupboard.
    pub have: Vec<(Arc<Paint>, Have)>,
    /// Its file.
    pub file: FileId,
}

/// One unit of an army.
#[derive(Debug, Clone)]
pub struct Unit {
    /// The scheme it is painted in.
    pub scheme: Arc<Scheme>,
    /// How many models it has.
    pub models: u32,
    /// Where it stands.
    pub place: Place,
}

/// When there is time to paint.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Evenings {
    /// The days of the week, from Monday on.
    pub days: Vec<Weekday>,
    /// When an evening begins.
    pub from: Clock,
    /// How long an evening is.
    pub length: Time,
    /// The first day.
    pub first: Date,
    /// Where they stand.
    pub place: Place,
}
