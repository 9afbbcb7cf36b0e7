//! Pictures that the program draws itself, as SVG: plain shapes and colours, no style, no script.

mod chip;
mod code;
mod hand;
mod three_tone;

pub use chip::chip;
pub use code::{code, markdown_source};
pub use three_tone::three_tone;
