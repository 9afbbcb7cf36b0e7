//! Pictures that the program draws itself, as SVG: plain shapes and colours, no style, no script.

mod action;
mod bottle;
mod chip;
mod coat_ladder;
mod coats_on_card;
mod code;
mod evening;
mod hand;
mod kind_outline;
mod markdown;
mod marked;
mod relief;
mod step_chip;
mod three_tone;
mod tool;
mod value_ladder;
mod yaml;

pub use action::{action, action_again, action_first, action_outline};
pub use bottle::bottle;
pub use chip::chip;
pub use coat_ladder::{LadderWords, coat_ladder, in_figures};
pub use coats_on_card::coats_on_card;
pub use code::{code, markdown_source};
pub use evening::{Bar, EveningRow, evening_hours, evening_row};
pub use kind_outline::kind_outline;
pub use relief::{Band, Lies, Marks, relief};
pub use step_chip::step_chip;
pub use three_tone::{Field, three_tone, tone_fields};
pub use tool::tool;
pub use value_ladder::value_ladder;
