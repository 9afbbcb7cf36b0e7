//! What a step glues and scrapes with.

use crate::guide::Step;
use crate::trade::{Kind, ToolWord, tool_words};

/// What the tools and the products of a step are, by their names.
pub(in crate::rules) fn named(step: &Step) -> Vec<ToolWord> {
    let tools = step.tools.iter().flat_map(|tool| [tool.name.as_str(), tool.id.as_str()]);
    let products = step.mix.parts.iter().filter(|part| part.paint.kind == Kind::Glue);
    tools.chain(products.map(|part| part.paint.name.as_str())).flat_map(tool_words).collect()
}
