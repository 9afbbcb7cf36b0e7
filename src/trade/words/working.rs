//! What is done by hand where a model or its ground is built: what can hurt without a tool being named.

use std::sync::LazyLock;

use super::beside::says_paint;
use super::heat::heats;
use super::table::{JOINTS, Table, affirmed_thoughts, folded};
use crate::trade::choice;

choice! {
    /// A way of building that can hurt, or a word beside it that says that it does not.
    Working, "a way of building" {
        /// It is glued, with whatever glue.
        Gluing = "gluing",
        /// It is glued, said of the thing and not of who does it: that may be told of another day.
        Glued = "glued",
        /// The same, where a word before it says that it is, as in `the arms are then glued`.
        Participle = "participle",
        /// What is scattered or planted on a base, which white glue holds.
        Ground = "ground",
        /// The same, but where something is put on it it lies there already: `glue the rock onto the earth`.
        Earth = "earth",
        /// What holds and hurts nobody, or is a hot tool and no glue: tape, tack, hot glue. What is glued with it is not glued.
        Tape = "tape",
        /// It is sawn.
        Sawing = "sawing",
        /// It is sawn, where that begins a thought: elsewhere somebody saw it.
        Saw = "saw",
        /// It is drilled, by hand if nothing else is named.
        Drilling = "drilling",
        /// It is cut or clipped off.
        Cutting = "cutting",
        /// It is held over a flame.
        Flame = "flame",
        /// A flame is named, which is a tool where nothing is painted.
        Candle = "candle",
        /// What sounds so and is no such work: a joint, `what you saw`.
        Nothing = "nothing",
    }
}

static TABLE: LazyLock<Table<Working>> = LazyLock::new(|| {
    Table::read(include_str!("working.tsv"), |name| Working::ALL.iter().copied().find(|one| one.name() == name))
});

/// What some titles and sentences say is done. A sentence that says no to something does nothing.
pub fn working<'a>(texts: impl IntoIterator<Item = &'a str>) -> Vec<Working> {
    done(texts, false)
}

/// The same in a step that paints: what a word for painting stands before may be painted (`paint the black trim`).
pub fn working_beside_paint<'a>(texts: impl IntoIterator<Item = &'a str>) -> Vec<Working> {
    done(texts, true)
}

/// What may be a thing that is painted: `the black trim`, `the torch in the flame colours`.
const MAY_BE_PAINTED: &[Working] = &[Working::Cutting, Working::Flame, Working::Candle];

/// What is done; where colour is put on, what may be painted counts if no word for it stands before it in its part of a thought.
fn done<'a>(texts: impl IntoIterator<Item = &'a str>, paints: bool) -> Vec<Working> {
    let mut done = Vec::new();
    for text in texts {
        let folded = folded(text);
        for thought in affirmed_thoughts(&folded) {
            in_a_thought(&thought, paints, &mut done);
            done.extend(heats(&thought, paints).then_some(Working::Flame));
        }
    }
    done
}

/// Words beside which a thing that is glued is glued at another time or not at all: `before they are glued`, `nothing is glued`.
const ANOTHER_DAY: &[&str] = &[
    "before", "until", "till", "after", "once", "when", "where", "if", "unless", "later", "yet", "nothing", "none",
    "another", "already", // English
    "bereits", "schon", "bevor", "ehe", "bis", "nachdem", "sobald", "wenn", "falls", "wo", "spater", "erst",
    "nichts", // German
    "deja", "avant", "jusque", "apres", "quand", "lorsque", "si", "tard", "rien", // French
    "ya", "antes", "hasta", "despues", "cuando", "donde", "tarde", "nada", // Spanish
];

/// Words that make a participle something that is done; German lets what it is done to stand between: `werden die Arme
/// angeklebt`. In English and French an article between makes it a word of the thing: `is ready for the glued arms`.
const PASSIVE: [&[&str]; 2] = [&["wird", "werden"], &["sont", "est", "is", "are"]];
const OF_A_THING: &[&str] = &["the", "a", "an", "les", "des", "le", "la", "un", "une", "for", "with", "avec", "pour"];

/// Whether a participle behind these words is something that is done.
fn is_passive(before: &[&str]) -> bool {
    let [german, others] = PASSIVE;
    let verb = before.iter().rposition(|word| others.contains(word));
    let bare = |verb| !before.iter().skip(verb).any(|word| OF_A_THING.contains(word));
    before.iter().any(|word| german.contains(word)) || verb.is_some_and(bare)
}

/// Words before earth that lies there already, and those after them that may stand between.
const ONTO: [&[&str]; 2] = [
    &[
        "onto", "on", "to", "into", "in", "over", "auf", "in", "an", "uber", "sur", "dans", "a", "sobre", "en", "al",
        "im", "am",
    ],
    &["the", "der", "die", "das", "den", "dem", "la", "le", "les", "el", "los", "las", "wet", "dry"],
];

/// Whether something is put onto what follows these words. Of `on` and the like that takes an article: `glue on earth`.
fn is_put_onto(before: &[&str]) -> bool {
    let [onto, articles] = ONTO;
    let bare = before.iter().rposition(|word| !articles.contains(word));
    let is_one = bare.and_then(|at| before.get(at)).is_some_and(|word| onto.contains(word));
    is_one && (bare.is_some_and(|at| at + 1 < before.len()) || matches!(before.last(), Some(&("onto" | "to" | "into"))))
}

/// What is done in the parts of a thought that `and` joins: tape in one of them holds nothing of another.
fn in_a_thought(thought: &[&str], paints: bool, done: &mut Vec<Working>) {
    let mut part: Vec<Working> = Vec::new();
    let (mut begins, mut at) = (0, 0);
    let close = |part: &mut Vec<Working>, done: &mut Vec<Working>| {
        let taped = part.contains(&Working::Tape);
        done.extend(part.drain(..).filter(|one| *one != Working::Tape && !(taped && *one == Working::Gluing)));
    };
    for (phrase, known) in TABLE.look(thought) {
        let joins = phrase.first().is_some_and(|word| JOINTS.contains(word));
        if joins {
            close(&mut part, done);
            begins = at;
        }
        let before = thought.get(begins..at).unwrap_or_default();
        let known = known.filter(|one| !paints || !MAY_BE_PAINTED.contains(one) || !says_paint(before));
        let today = || !thought.iter().any(|word| ANOTHER_DAY.contains(word));
        part.extend(match known {
            Some(Working::Nothing) | None => None,
            Some(Working::Saw) => (at == 0).then_some(Working::Sawing),
            Some(Working::Glued) => today().then_some(Working::Gluing),
            Some(Working::Participle) => (is_passive(before) && today()).then_some(Working::Gluing),
            Some(Working::Earth) => (!is_put_onto(before)).then_some(Working::Ground),
            other => other,
        });
        at += phrase.len();
    }
    close(&mut part, done);
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
            ("Saw it off, then sand it", Working::Sawing),
            ("Mark it and saw the foot off", Working::Sawing),
            ("Put the glue on the pin.", Working::Gluing),
            ("Brush the glue into the joint.", Working::Gluing),
            ("Kleber auftragen.", Working::Gluing),
            ("Appliquez la colle.", Working::Gluing),
            ("Glue the halves and hold them with tape.", Working::Gluing),
            ("Hold it above the candle", Working::Candle),
            ("The halves are glued.", Working::Gluing),
            ("Each arm is glued to its pin, and the seam is filled.", Working::Gluing),
            ("Die Arme werden angeklebt.", Working::Gluing),
            ("Les moitiés sont collées.", Working::Gluing),
            ("Las mitades se pegan.", Working::Gluing),
            ("Dann werden die Arme angeklebt.", Working::Gluing),
            ("Zuletzt wird der Kopf auf den Hals geklebt.", Working::Gluing),
            ("The arms are then carefully glued to the pins.", Working::Gluing),
            ("Put fresh glue on the pin.", Working::Gluing),
            ("Cut straps from lead foil.", Working::Cutting),
            ("Hold a lighter under it", Working::Flame),
            ("Im Backofen härten", Working::Flame),
            ("Sieve dirt over it.", Working::Ground),
            ("Glue on earth and leaves.", Working::Ground),
            ("Erde aufsieben.", Working::Ground),
            ("De la terre sur la colle", Working::Ground),
            ("Tierra sobre la cola", Working::Ground),
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
            "The miller saw the fire first.",
            "Whoever saw it knows.",
            "Nothing is glued.",
            "Glue nothing yet.",
            "It is glued later.",
            "The arms are glued after painting.",
            "Dry-fit; glue comes later.",
            "Press fit, glue after painting.",
            "Keep the joint bare where it is glued.",
            "Wash the parts before they are glued.",
            "Once the halves are glued, fill the seam.",
            "The halves are not glued.",
            "The arms are glued another day, when all is dry; they are glued after that.",
            "The halves are glued with poster tack.",
            "Die Teile werden erst nach dem Bemalen angeklebt.",
            "Les bras sont collés plus tard.",
            "Las mitades no se pegan.",
            "Glue with double-sided tape.",
            "Glue it with poster tack.",
            "Mit Posterkleber auf einen Korken kleben.",
            "Mit doppelseitigem Klebeband kleben.",
            "Coller avec du ruban adhésif.",
            "Glue the rock on with hot glue.",
            "Drybrush with a lighter grey.",
            "Stipple over a lighter ground.",
            "Open flame away.",
            "Keep away from any open flame.",
            "Cut it with medium.",
            "Press it into the wet glue.",
            "Scatter it over fresh glue.",
            "Over glue that is still tacky",
            "The glued arms",
            "It is ready for the glued arms.",
            "The arms are already glued.",
            "Die angeklebten Arme",
            "Dann werden die Arme später angeklebt.",
            "Press the rock into the mud.",
            "Onto the earth.",
        ] {
            assert_eq!(working([text]), [], "{text}");
        }
        for text in [
            "Paint the black trim.",
            "Layer the carving.",
            "Drybrush over the flame pattern.",
            "Glaze yellow over a candle flame.",
        ] {
            assert_eq!(working_beside_paint([text]), [], "{text}");
        }
        assert_eq!(working_beside_paint(["Paint it, then soot it over a candle flame."]), [Working::Flame]);
    }
}
