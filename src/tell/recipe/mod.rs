//! A scheme's recipe in plain words: the printed card and the text to paste say the same.

mod chain;
mod lines;
mod text;

pub(crate) use lines::{AreaLine, PartLine, Recipe, StepLine};
pub(crate) use text::text;
