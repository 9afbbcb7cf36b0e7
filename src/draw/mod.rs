//! Pictures that the program draws itself, as SVG: plain shapes and colours, no style, no script.

mod action;
mod chip;
mod coat_ladder;
mod code;
mod evening;
mod film_section;
mod hand;
mod markdown;
mod marked;
mod three_tone;
mod value_ladder;
mod yaml;

pub use action::{action, action_outline};
pub use chip::chip;
pub use coat_ladder::{coat_ladder, in_figures};
pub use code::{code, markdown_source};
pub use evening::{Bar, EveningRow, evening_row};
pub use film_section::{film_scale, film_section};
pub use three_tone::{Field, three_tone, tone_fields};
pub use value_ladder::value_ladder;
