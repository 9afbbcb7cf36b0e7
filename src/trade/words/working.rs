//! What is done by hand where a model or its ground is built: what can hurt without a tool being named.

use std::sync::LazyLock;

use super::table::{Table, affirmed, folded};
use crate::trade::choice;

choice! {
    /// A way of building that can hurt, or a word beside it that says that it does not.
    Working, "a way of building" {
        /// It is glued, with whatever glue.
        Gluing = "gluing",
        /// What is scattered or planted on a base, which white glue holds.
        Ground = "ground",
        /// It is sawn.
        Sawing = "sawing",
        /// It is drilled, by hand if nothing else is named.
        Drilling = "drilling",
        /// It is cut or clipped off.
        Cutting = "cutting",
        /// It is held over a flame.
        Flame = "flame",
        /// What sounds so and is no such work: a joint, `what you saw`.
        Nothing = "nothing",
    }
}

static TABLE: LazyLock<Table<Working>> = LazyLock::new(|| {
    Table::read(include_str!("working.tsv"), |name| Working::ALL.iter().copied().find(|one| one.name() == name))
});

/// What some titles and sentences say is done. A sentence that says no to something does nothing.
pub fn working<'a>(texts: impl IntoIterator<Item = &'a str>) -> Vec<Working> {
    let of = |text: &str| {
        let done = |words: Vec<&str>| TABLE.look(&words).into_iter().filter_map(|(_, known)| known).collect::<Vec<_>>();
        affirmed(&folded(text)).flat_map(done).collect::<Vec<_>>()
    };
    texts.into_iter().flat_map(of).filter(|one| *one != Working::Nothing).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn work_is_known_without_a_tool_in_four_languages() {
        for (text, done) in [
            ("Glue the two hull halves and the turret.", Working::Gluing),
            ("Glue together", Working::Gluing),
            ("Die Teile zusammenkleben.", Working::Gluing),
            ("Collez les bras.", Working::Gluing),
            ("Pega los brazos", Working::Gluing),
            ("Clip the supports off the print.", Working::Cutting),
            ("Support removal", Working::Cutting),
            ("Cut away what is in the way", Working::Cutting),
            ("Saw the base off.", Working::Sawing),
            ("Den Fuß absägen", Working::Sawing),
            ("Sciez le socle", Working::Sawing),
            ("Drill 1 mm holes and pin with brass wire", Working::Drilling),
            ("Die Löcher aufbohren", Working::Drilling),
            ("Percez un trou", Working::Drilling),
            ("Hold it over a candle", Working::Flame),
            ("Au-dessus d'une bougie", Working::Flame),
            ("Über einer Kerze erwärmen", Working::Flame),
            ("Sobre una vela", Working::Flame),
        ] {
            assert!(working([text]).contains(&done), "{text}");
        }
    }

    #[test]
    fn what_only_sounds_so_is_no_work() {
        for text in [
            "Wash off the soap, so that glue and paint hold.",
            "Mask the glue faces",
            "Do not glue the rider yet.",
            "Nicht kleben.",
            "Never saw it",
            "The halves that you saw before",
            "Let the glue dry",
            "Scrub it with a toothbrush",
        ] {
            assert_eq!(working([text]), [], "{text}");
        }
    }
}
