//! Pictures that the program draws itself, as SVG: plain shapes and colours, no style, no script.

mod action;
mod bottle;
mod chip;
mod coat_ladder;
mod coats_on_card;
mod code;
mod cut_line;
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

pub(crate) use action::{action, action_again, action_first, action_outline};
pub(crate) use bottle::bottle;
pub(crate) use chip::chip;
pub(crate) use coat_ladder::{LadderWords, coat_ladder, in_figures};
pub(crate) use coats_on_card::coats_on_card;
pub(crate) use code::{code, markdown_source};
pub(crate) use evening::{Bar, EveningRow, evening_hours, evening_row};
pub(crate) use kind_outline::kind_outline;
pub(crate) use relief::{Band, Lies, Marks, relief};
pub(crate) use step_chip::step_chip;
pub(crate) use three_tone::{pattern_on, three_tone, tone_fields};
pub(crate) use tool::tool;
pub(crate) use value_ladder::value_ladder;
