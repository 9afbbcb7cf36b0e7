//! Rules about gluing together: what holds on what, and what can still be reached.

pub(super) mod glue_on_paint;
pub(super) mod instant_glue_fogs;
pub(super) mod painted_out_of_reach;

use crate::guide::Step;
use crate::trade::{Kind, ToolWord, tool_words};

/// What the tools and the products of a step are, by their names.
fn named(step: &Step) -> Vec<ToolWord> {
    let tools = step.tools.iter().flat_map(|tool| [tool.name.as_str(), tool.id.as_str()]);
    let products = step.mix.parts.iter().filter(|part| part.paint.kind == Kind::Glue);
    tools.chain(products.map(|part| part.paint.name.as_str())).flat_map(tool_words).collect()
}
