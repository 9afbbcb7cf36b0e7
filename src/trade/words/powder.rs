//! Dry powder that a sentence scatters: chalk dust, plaster, pigment.

use std::sync::LazyLock;

use super::table::{Table, affirmed_thoughts, folded};

/// What a word says of powder.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Said {
    /// Powder by its name.
    Powder,
    /// Before it, powder is the name of a colour.
    Hue,
    /// Behind it, powder is what something looks like.
    Of,
    /// An article and the like, between the two.
    Joined,
}

static TABLE: LazyLock<Table<Said>> = LazyLock::new(|| {
    Table::read(include_str!("powder.tsv"), |name| match name {
        "powder" => Some(Said::Powder),
        "hue" => Some(Said::Hue),
        "of" => Some(Said::Of),
        "joined" => Some(Said::Joined),
        _ => None,
    })
});

/// Whether some titles and sentences name powder that lies or flies about, and not its colour.
pub fn names_powder<'a>(texts: impl IntoIterator<Item = &'a str>) -> bool {
    texts.into_iter().any(|text| {
        let folded = folded(text);
        affirmed_thoughts(&folded).any(|thought| is_there(&thought))
    })
}

fn is_there(thought: &[&str]) -> bool {
    let found = TABLE.look(thought);
    found.iter().enumerate().any(|(at, (_, said))| {
        let is_hue = found.get(at + 1).is_some_and(|(_, next)| *next == Some(Said::Hue));
        let mut before = found.iter().take(at).rev().map(|(_, said)| *said);
        let is_like = before.find(|said| *said != Some(Said::Joined)) == Some(Some(Said::Of));
        *said == Some(Said::Powder) && !is_hue && !is_like
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn powder_is_known_by_its_name_and_its_colour_is_none() {
        for text in [
            "Sieve dried dirt and chalk dust over wet glue.",
            "Sprinkle plaster powder into the cracks.",
            "Brush pigment powder on.",
            "Gipspulver aufsieben.",
            "Kreidestaub in die Fugen pinseln.",
            "Saupoudrez de craie en poudre.",
            "Du plâtre en poudre",
            "Espolvorea cemento en polvo.",
            "Polvo de tiza",
        ] {
            assert!(names_powder([text]), "{text}");
        }
        for text in [
            "Drybrush chalk dust grey.",
            "A brown the colour of brick dust",
            "It looks like plaster powder.",
            "No chalk dust.",
            "Ohne Kreidestaub.",
            "Sieve dirt over wet glue.",
            "Paint the chalk.",
            "Wie Gipspulver",
            "Couleur de craie en poudre",
            "Como yeso en polvo",
        ] {
            assert!(!names_powder([text]), "{text}");
        }
    }
}
