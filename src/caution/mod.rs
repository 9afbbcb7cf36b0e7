//! **Caution**: what can hurt someone at a step, and what has to be said about it.
//!
//! The cautions follow from the step itself: how it is done, what is in the cup, what the model is made of. They are
//! part of the program, texts included; neither an author nor a theme can take one away, only add to them. Where
//! nothing rules a danger out, the caution is shown.

mod action;
mod checks;
mod gather;
mod gear;
mod kind;
mod product;
mod statements;
#[cfg(test)]
mod testing;
mod texts;
mod triggers;
mod weak_notes;

pub use action::{Action, to_do};
pub use checks::{CHECKS, check, check_waivers};
pub use gather::{Held, SchemeCautions, Statement, StepCautions, Together, of_scheme, of_step, together};
pub use gear::{Gear, gear};
pub use kind::CautionKind;
pub use statements::{statement, statement_text};
pub use texts::{Caution, CautionTexts};
