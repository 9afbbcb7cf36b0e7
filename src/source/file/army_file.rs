//! `armies/<slug>.yaml`: how many models of which scheme, and the evenings to paint them in.

use crate::measure::{Clock, Count, Date, Time, Weekday};
use crate::report::Placed;
use crate::source::reading::Table;
use crate::source::record::record;
use crate::source::scalar::{Have, Id};

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
        optional evenings: EveningsEntry,
        /// What already stands in the cupboard: millilitres, bottles or drops of a paint.
        optional have: Table<Id, Have>,
    }
}

record! {
    /// One unit of an army.
    pub UnitEntry, "a unit" {
        /// The scheme it is painted in.
        needed scheme: Id = "fen-warden",
        /// How many models it has.
        needed models: Count = "24",
    }
}

record! {
    /// When there is time to paint.
    pub EveningsEntry, "the evenings" {
        /// The days of the week.
        needed days: Vec<Weekday> = "[tue, thu]",
        /// When an evening begins.
        needed from: Clock,
        /// How long an evening is.
        needed length: Time = "2 h 30 min",
        /// The first day.
        needed first: Date = "2027-01-12",
    }
}
