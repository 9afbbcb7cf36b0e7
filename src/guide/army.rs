//! An army: how many models of which scheme, and when they are painted.

use std::sync::Arc;

use super::{Paint, Scheme};
use crate::measure::{Clock, Date, Time, Weekday};
use crate::report::{FileId, Place, Placed};
use crate::source::Have;

/// One army.
#[derive(Debug, Clone, Hash)]
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
    /// What is already in the cupboard.
    pub have: Vec<(Arc<Paint>, Have)>,
    /// Its file.
    pub file: FileId,
}

impl Army {
    /// The letter by which a plan names the unit at a position; empty where there is only one.
    pub fn mark(&self, unit: usize) -> String {
        const LETTERS: &str = "ABCDEFGHIJKLMNOPQRSTUVWXYZ";
        if self.units.len() < 2 {
            return String::new();
        }
        LETTERS.get(unit..=unit).map_or_else(|| format!("{}/", unit + 1), str::to_owned)
    }
}

/// One unit of an army.
#[derive(Debug, Clone, Hash)]
pub struct Unit {
    /// The scheme it is painted in.
    pub scheme: Arc<Scheme>,
    /// How many models it has.
    pub models: u32,
    /// Where it is in its file.
    pub place: Place,
}

/// When there is time to paint.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Evenings {
    /// The days of the week with an evening, from Monday on, each once.
    pub days: Vec<EveningDay>,
    /// The first day.
    pub first: Date,
    /// Days off, each where it is written.
    pub not: Vec<Placed<Date>>,
    /// The date by which all is to be ready.
    pub by: Option<Placed<Date>>,
    /// Where they are in their file.
    pub place: Place,
}

/// The evening of one day of the week.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct EveningDay {
    /// The day.
    pub day: Weekday,
    /// When its evening begins.
    pub from: Clock,
    /// How long its evening is.
    pub length: Time,
}
