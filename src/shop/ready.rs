//! What keeps people safe, as a list has it: what the cautions ask for, and the author's own thing for it on the same line.

use std::sync::Arc;

use super::used::Use;
use crate::caution::{CautionTexts, Gear};
use crate::guide::Tool;
use crate::trade::{ToolKind, ToolWord, tool_words};

/// One piece of gear.
#[derive(Debug, Clone)]
pub struct Ready<'a> {
    /// What it is.
    pub gear: Gear,
    /// The steps that ask for it.
    pub uses: Vec<Use<'a>>,
    /// What the author lists for it.
    pub own: Vec<Arc<Tool>>,
}

/// Tools on a list, with the steps that name them.
pub(super) type Tools<'a> = Vec<(Arc<Tool>, Vec<Use<'a>>)>;

impl Ready<'_> {
    /// What it is for, as the program says it, and behind that what the author calls it and says of it.
    pub fn about(&self, texts: &CautionTexts) -> String {
        let said = &texts.gear(self.gear).text;
        let own: Vec<String> = self.own.iter().map(|tool| named(tool)).collect();
        if own.is_empty() { said.clone() } else { format!("{said} {}: {}", texts.labels().author_note, own.join(" ")) }
    }
}

fn named(tool: &Tool) -> String {
    let note = tool.note.as_deref().map(|note| format!(" {}", note.trim())).unwrap_or_default();
    format!("{}.{note}", tool.name.trim().trim_end_matches('.'))
}

/// Takes what the author lists for the same gear out of the tools, so that nothing stands on a list twice.
pub(super) fn merged<'a>(gear: Vec<(Gear, Vec<Use<'a>>)>, tools: Tools<'a>) -> (Vec<Ready<'a>>, Tools<'a>) {
    let mut ready: Vec<Ready<'a>> =
        gear.into_iter().map(|(gear, uses)| Ready { gear, uses, own: Vec::new() }).collect();
    let mut left = Tools::new();
    for (tool, uses) in tools {
        match ready.iter_mut().find(|one| is_for(&tool, one.gear)) {
            Some(one) => {
                one.uses.extend(uses.into_iter().filter(|of| !one.uses.contains(of)).collect::<Vec<_>>());
                one.own.push(tool);
            }
            None => left.push((tool, uses)),
        }
    }
    (ready, left)
}

/// Whether a tool is that piece of gear. A mask for mist is asked for as the better one where dust rises too, and is not
/// taken for it.
fn is_for(tool: &Tool, gear: Gear) -> bool {
    tool.kind == ToolKind::Protection && tool_words(&tool.name).contains(&word(gear))
}

const fn word(gear: Gear) -> ToolWord {
    match gear {
        Gear::VapourMask => ToolWord::VapourMask,
        Gear::DustMask => ToolWord::DustMask,
        Gear::MistMask => ToolWord::MistMask,
        Gear::Extraction => ToolWord::Extraction,
        Gear::Goggles => ToolWord::Goggles,
        Gear::Glasses => ToolWord::Glasses,
        Gear::Gloves => ToolWord::Gloves,
        Gear::LiddedTin => ToolWord::LiddedTin,
    }
}
