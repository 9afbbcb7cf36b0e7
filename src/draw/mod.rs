//! Pictures that the program draws itself, as SVG: plain shapes and colours, no style, no script.

mod chip;
mod code;
mod film_section;
mod hand;
mod three_tone;

pub use chip::chip;
pub use code::{code, markdown_source};
pub use film_section::{film_scale, film_section};
pub use three_tone::{Field, three_tone, tone_fields};
