//! `armies/<slug>.yaml`: how many models of which scheme, and the evenings to paint them in.

use crate::measure::{Clock, Count, Date, Time, Weekday};
use crate::report::Placed;
use crate::source::node::{Node, NodeValue};
use crate::source::reading::{Reading, Table, Tried, Value};
use crate::source::record::record;
use crate::source::scalar::{Have, Mention};
use crate::source::shape::Shape;

record! {
    /// One army.
    pub ArmyFile, "an army" {
        /// What the army is called.
        needed title: String = "The Fen Watch",
        /// One sentence on it.
        optional summary: String = "A warband for the reed maze.",
        /// Its units.
        needed units: Vec<Placed<UnitEntry>> = "[{scheme: fen-warden, models: 24}]",
        /// The evenings on which it is painted.
        optional evenings: EveningsEntry = "{days: [tue, thu], from: \"19:00\", length: 2 h 30 min, first: 2027-01-12}",
        /// What is already in the cupboard: millilitres, bottles or drops of a paint.
        optional have: Table<Mention, Have>,
    }
}

record! {
    /// One unit of an army.
    pub UnitEntry, "a unit" {
        /// The scheme it is painted in.
        needed scheme: Mention = "fen-warden",
        /// The variant of the scheme; left out: the scheme as it is.
        optional variant: Mention = "night-watch",
        /// Other ways that are taken, by the names of their steps.
        optional ways: Vec<Placed<Mention>> = "[31-gold-by-brush]",
        /// Optional steps that are left out.
        optional skip: Vec<Placed<Mention>> = "[75-wing-marks]",
        /// How many models it has.
        needed models: Count = "24",
    }
}

record! {
    /// When there is time to paint.
    pub EveningsEntry, "the evenings" {
        /// The days of the week; or each day with its own `from` and `length`.
        needed days: DaysEntry = "[tue, thu]",
        /// When an evening begins; needed unless every day says so.
        optional from: Tried<Clock>,
        /// How long an evening is; needed unless every day says so.
        optional length: Tried<Time> = "2 h 30 min",
        /// The first day.
        needed first: Date = "2027-01-12",
        /// Days off: there is no evening on these dates.
        optional not: Vec<Placed<Date>> = "[2027-02-09]",
        /// The date by which all is to be ready.
        optional by: Date = "2027-03-20",
    }
}

record! {
    /// When there is time on one day of the week.
    pub DayEntry, "a day of the evenings" {
        /// When its evening begins.
        optional from: Tried<Clock>,
        /// How long its evening is.
        optional length: Tried<Time> = "2 h 30 min",
    }
}

/// The days of the week with an evening, all alike or each with its own hours.
#[derive(Debug, Clone)]
pub enum DaysEntry {
    /// Days that are all alike.
    Alike(Vec<Weekday>),
    /// Days with hours of their own.
    Each(Table<Weekday, DayEntry>),
}

impl Value for DaysEntry {
    fn read(node: &Node, reading: &mut Reading) -> Option<Self> {
        match &node.value {
            NodeValue::Map(_) => Table::read(node, reading).map(Self::Each),
            // Without one of them the others are no days to plan by.
            NodeValue::List(items) => {
                Vec::read(node, reading).filter(|days| days.len() == items.len()).map(Self::Alike)
            }
            _ => Vec::read(node, reading).map(Self::Alike),
        }
    }

    fn shape() -> Shape {
        Shape::Either(Box::new(Vec::<Weekday>::shape()), Box::new(Table::<Weekday, DayEntry>::shape()))
    }
}

impl UnitEntry {
    /// Whether it takes its scheme as that is, and chooses nothing among its steps.
    pub fn is_plain(&self) -> bool {
        self.variant.is_none() && self.ways.is_none() && self.skip.is_none()
    }
}
