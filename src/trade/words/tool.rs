//! What lies on the desk, by what painters call it.

use std::sync::LazyLock;

use super::table::{Table, affirmed, folded, words};
use crate::trade::choice;

choice! {
    /// What a word for a tool, a glue or a piece of protective gear means.
    ToolWord, "a tool" {
        /// Called like a blade and none: a spatula, a blade of grass.
        NoBlade = "no-blade",
        /// A knife of any kind.
        Knife = "knife",
        /// What clips parts off.
        Cutters = "cutters",
        /// A saw.
        Saw = "saw",
        /// A tool that turns by a motor.
        PowerTool = "power-tool",
        /// A drill that is turned by hand.
        HandDrill = "hand-drill",
        /// What gets hot enough to burn.
        HotTool = "hot-tool",
        /// A lamp that hardens resin.
        Lamp = "lamp",
        /// What shoots grass fibres by high voltage.
        Grass = "grass",
        /// What rubs off: paper, sponge, file.
        Sanding = "sanding",
        /// Thread and wire for rigging and aerials: a dot of glue holds it.
        Thread = "thread",
        /// Paint that was there before, which may hold lead: it is scraped, sanded or stripped.
        OldPaint = "old-paint",
        /// Glue that melts plastic.
        Cement = "cement",
        /// Glue that bonds skin.
        InstantGlue = "instant-glue",
        /// Glue that water carries.
        WhiteGlue = "white-glue",
        /// A respirator against vapour and particles.
        VapourMask = "vapour-mask",
        /// A mask against fine dust.
        DustMask = "dust-mask",
        /// A mask against mist.
        MistMask = "mist-mask",
        /// Glasses that seal all round.
        Goggles = "goggles",
        /// Safety glasses.
        Glasses = "glasses",
        /// Gloves.
        Gloves = "gloves",
        /// Moving air to the outside.
        Extraction = "extraction",
        /// A tin for rags.
        LiddedTin = "lidded-tin",
        /// A pigment that holds cadmium, cobalt, chromium or lead.
        HeavyPigment = "heavy-pigment",
        /// A word that says that a colour only looks like such a pigment.
        Hue = "hue",
    }
}

/// Each word with its meaning, and whether it means that in a sentence too.
static TABLE: LazyLock<Table<(ToolWord, bool)>> =
    LazyLock::new(|| Table::of_names(include_str!("tools.tsv"), ToolWord::ALL, ToolWord::name));

/// What the name of a tool or a product means.
pub fn tool_words(name: &str) -> Vec<ToolWord> {
    found([words(&folded(name))].into_iter(), true)
}

/// The tools that sentences name. A sentence that says no to something names nothing.
pub fn tools_in_sentences(text: &str) -> Vec<ToolWord> {
    found(affirmed(&folded(text)), false)
}

fn found<'t>(texts: impl Iterator<Item = Vec<&'t str>>, in_a_list: bool) -> Vec<ToolWord> {
    let mut found = Vec::new();
    for meaning in texts.flat_map(|words| TABLE.said(&words, in_a_list)) {
        if !found.contains(&meaning) {
            found.push(meaning);
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tools_are_understood_in_four_languages() {
        for (text, meaning) in [
            ("Craft knife with fresh blades", ToolWord::Knife),
            ("Bastelmesser", ToolWord::Knife),
            ("bisturí", ToolWord::Knife),
            ("Side cutters", ToolWord::Cutters),
            ("pince coupante", ToolWord::Cutters),
            ("Laubsäge", ToolWord::Saw),
            ("rotary tool", ToolWord::PowerTool),
            ("Heißdrahtschneider", ToolWord::HotTool),
            ("hot-wire cutter", ToolWord::HotTool),
            ("fer à souder", ToolWord::HotTool),
            ("hair dryer", ToolWord::HotTool),
            ("UV-Lampe", ToolWord::Lamp),
            ("Static grass applicator", ToolWord::Grass),
            ("Schleifschwamm", ToolWord::Sanding),
            ("papel de lija", ToolWord::Sanding),
            ("Holzleim", ToolWord::WhiteGlue),
            ("Super glue", ToolWord::InstantGlue),
            ("liquid cement", ToolWord::Cement),
            ("loetkolben", ToolWord::HotTool),
            ("foehn", ToolWord::HotTool),
            ("Laubsaege", ToolWord::Saw),
            ("Clip the parts off the sprue", ToolWord::Cutters),
            ("Splash goggles", ToolWord::Goggles),
            ("Small steel spatula", ToolWord::NoBlade),
            ("palette knife", ToolWord::NoBlade),
            ("couteau à palette", ToolWord::NoBlade),
        ] {
            assert_eq!(tool_words(text), [meaning], "{text}");
        }
    }

    #[test]
    fn what_is_not_used_is_not_named() {
        for text in [
            "No knife needed.",
            "Never use a hair dryer",
            "ohne Messer",
            "A lighter green on the blade that you saw",
            "White behind the lantern panes",
        ] {
            assert_eq!(tools_in_sentences(text), [], "{text}");
        }
        assert_eq!(tools_in_sentences("Not too wet. Cut it with a knife."), [ToolWord::Knife]);
        assert_eq!(tool_words("Spare blades"), [ToolWord::Knife]);
    }
}
