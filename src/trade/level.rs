//! How much a scheme asks of the painter.

use super::choice;

choice! {
    /// How hard a scheme is.
    Skill, "a level" {
        /// For a first model.
        Easy = "easy",
        /// For a steady hand.
        Steady = "steady",
        /// For a patient, practised painter.
        Demanding = "demanding",
    }
}
