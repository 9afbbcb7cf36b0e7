//! What a step glues and scrapes with.

use crate::film::Deed;
use crate::guide::Step;
use crate::rules::Look;
use crate::trade::{Kind, ToolWord, is_instant_glue, tool_words};

/// What a step that assembles works with; `None` for any other.
pub(in crate::rules) fn assembled_with(look: &Look<'_>) -> Option<Vec<ToolWord>> {
    let assembles = look.film.turn(look.position).map(|turn| turn.deed) == Some(Deed::Assemble);
    assembles.then(|| named(look.step))
}

/// What the tools and the products of a step are, by their names.
fn named(step: &Step) -> Vec<ToolWord> {
    let tools = step.tools.iter().flat_map(|tool| [tool.name.as_str(), tool.id.as_str()]);
    let products = || step.mix.parts.iter().map(|part| &part.paint).filter(|paint| paint.kind == Kind::Glue);
    let instant = products().any(|paint| is_instant_glue(&paint.name, &paint.id)).then_some(ToolWord::InstantGlue);
    let all = tools.chain(products().map(|paint| paint.name.as_str())).flat_map(tool_words).chain(instant);
    // Rigging is known by its name, whatever it is made of, and so is what a title calls instant glue.
    let of_title = |word: &ToolWord| matches!(word, ToolWord::Thread | ToolWord::InstantGlue);
    all.chain(tool_words(&step.title).into_iter().filter(of_title)).collect()
}
