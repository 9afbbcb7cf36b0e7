//! Flames and ovens that a sentence takes to a model, and those that are only painted, or a colour that is lighter.

use std::sync::LazyLock;

use super::beside::says_paint;
use super::table::{JOINTS, Table};

/// What a word says of something hot.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Said {
    /// Called like something hot and none: oven cleaner, a lamp for resin.
    Nothing,
    /// A lighter, or more light.
    Lighter,
    /// A torch, of which a figure holds as many as a painter.
    Torch,
    /// What burns gas, by its name.
    Burner,
    /// In an oven.
    Oven,
    /// It is baked.
    Bake,
    /// What is done with a flame.
    Heat,
    /// What is done with an oven.
    Keep,
    /// It is done with what follows.
    With,
    /// A word before which a lighter is a thing, for no colour follows.
    Next,
    /// An article and the like, behind which a lighter may be a thing.
    Article,
}

static TABLE: LazyLock<Table<Said>> = LazyLock::new(|| {
    Table::read(include_str!("heat.tsv"), |name| match name {
        "nothing" => Some(Said::Nothing),
        "lighter" => Some(Said::Lighter),
        "torch" => Some(Said::Torch),
        "burner" => Some(Said::Burner),
        "oven" => Some(Said::Oven),
        "bake" => Some(Said::Bake),
        "heat" => Some(Said::Heat),
        "keep" => Some(Said::Keep),
        "with" => Some(Said::With),
        "next" => Some(Said::Next),
        "article" => Some(Said::Article),
        _ => None,
    })
});

/// Whether a thought takes a flame or an oven to a model. A burner and an oven need a word for what is done with them, for a
/// kitchen may be what is built, unless they begin the thought; where colour is put on (`paints`) they always do.
pub(super) fn heats(thought: &[&str], paints: bool) -> bool {
    let found = TABLE.look(thought);
    let said: Vec<Option<Said>> = found.iter().map(|(_, said)| *said).collect();
    let (mut begins, mut at) = (0, 0);
    for (place, (phrase, known)) in found.iter().enumerate() {
        if phrase.first().is_some_and(|word| JOINTS.contains(word)) {
            begins = at;
        }
        let before = said.get(..place).unwrap_or_default();
        let heated = before.contains(&Some(Said::Heat));
        let kept = || heated || before.contains(&Some(Said::Keep));
        let behind = said.get(place + 1..).unwrap_or_default();
        let (of_it, with_it) = match before {
            [.., Some(Said::With), Some(Said::Article)] => (true, true),
            [.., Some(Said::Article)] => (true, false),
            _ => (false, false),
        };
        // A word for paint may be a coat that is dried: what is done with the heat says more.
        let painted = || says_paint(thought.get(begins..at).unwrap_or_default()) && !kept();
        let begun = || !paints && before.iter().all(|one| matches!(one, Some(Said::With | Said::Article)));
        let used = || kept() || begun() || behind.iter().any(|one| matches!(one, Some(Said::Heat | Said::Keep)));
        let hot = match known {
            Some(Said::Lighter) => heated && of_it && is_a_thing(behind, thought.get(at + 1..).unwrap_or_default()),
            Some(Said::Torch) => heated && with_it,
            Some(Said::Burner | Said::Oven) => !painted() && used(),
            Some(Said::Bake) => true,
            _ => false,
        };
        if hot {
            return true;
        }
        at += phrase.len();
    }
    false
}

/// Whether what follows a lighter leaves it a thing: nothing, or a word that begins something else. `Lighter and warmer` is
/// said of a colour.
fn is_a_thing(behind: &[Option<Said>], words: &[&str]) -> bool {
    let compared = matches!(words, ["and" | "or", next, ..] if next.ends_with("er"));
    matches!(behind.first(), None | Some(Some(Said::Next))) && !compared
}

#[cfg(test)]
mod tests {
    use super::super::table::{affirmed_thoughts, folded};
    use super::*;

    fn hot(text: &str, paints: bool) -> bool {
        affirmed_thoughts(&folded(text)).any(|thought| heats(&thought, paints))
    }

    #[test]
    fn flames_and_ovens_are_hot() {
        for text in [
            "Hold a lighter under it.",
            "Singe the banner with a lighter for burnt holes.",
            "Burn the edge with a lighter.",
            "Singe it with a lighter and blow it out.",
            "Pop the bubbles with a gas torch.",
            "Pop the bubbles with a torch.",
            "Pop the bubbles in each layer with a blowtorch.",
            "Bake it in the oven at 130 degrees.",
            "Bake them at 110 degrees for half an hour.",
            "Dry it in a warm oven.",
            "Paint the first coat and dry it in a warm oven.",
            "Die Blasen mit dem Gasbrenner entfernen.",
            "Im Backofen bei 110 Grad härten.",
            "Legen Sie es in den warmen Ofen.",
            "Faites éclater les bulles au chalumeau en le passant vite: chauffez peu.",
            "Séchez les pièces au four.",
            "Calienta la resina con un soplete.",
            "Seca la pieza en el horno.",
            "Hornéalo a 110 grados.",
        ] {
            assert!(hot(text, false) && hot(text, true), "{text}");
        }
        for text in ["Gasbrenner", "Im Backofen", "Au chalumeau", "Au four", "Con un soplete", "En el horno"] {
            assert!(hot(text, false), "{text}");
        }
    }

    #[test]
    fn what_is_lighter_or_painted_burns_nobody() {
        for text in [
            "Highlight with a lighter grey.",
            "Drybrush with a lighter colour.",
            "Hold a lighter grey ready.",
            "Soak it in the oven cleaner overnight.",
            "In oven cleaner",
            "Paint the torch in her hand.",
            "Paint the hand holding the torch.",
            "Hold the torch in her hand back.",
            "Soften the edge with a lighter and thinner mix.",
            "Glue the blowtorch into his hand.",
            "The bread in the oven is glued in.",
            "The oven-baked clay",
            "The torch glows.",
            "With the torch in his hand",
            "Paint the gas torch on his belt.",
            "Glaze the bread in the oven.",
            "Baked clay red",
            "A lighter touch",
            "Work with a lighter hand.",
            "Drybrush with a lighter, warmer grey.",
            "Not in the oven.",
            "Mit der Fackel in der Hand",
            "Ohne Gasbrenner.",
            "Nie im Backofen trocknen.",
            "Jamais au four.",
            "Peindre le chalumeau.",
            "Nunca en el horno.",
            "Pinta el soplete.",
        ] {
            assert!(!hot(text, false) && !hot(text, true), "{text}");
        }
        for text in ["The fire in the oven", "Der Schein im Ofen", "La lueur dans le four", "La luz en el horno"] {
            assert!(!hot(text, true), "{text}");
        }
    }
}
