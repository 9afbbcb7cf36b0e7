//! What a step that gets a model ready does to it.

use std::sync::LazyLock;

use super::table::{Table, affirmed, folded, words};
use crate::trade::choice;

choice! {
    /// What is done to a model before paint.
    Preparing, "a way to get a model ready" {
        /// It gets wet: it is washed or rinsed.
        Washing = "washing",
        /// Gaps are filled.
        Filling = "filling",
        /// It is sanded or filed.
        Sanding = "sanding",
        /// It is made soft in hot water and bent straight.
        Bending = "bending",
        /// It is cleaned up, and nobody says how.
        CleaningUp = "cleaning-up",
        /// What sounds so and is not done to the model: the brush is washed, a wash is painted on it.
        Nothing = "nothing",
    }
}

/// Each word with its meaning, and whether it means that in a sentence too.
static TABLE: LazyLock<Table<(Preparing, bool)>> =
    LazyLock::new(|| Table::of_names(include_str!("preparing.tsv"), Preparing::ALL, Preparing::name));

/// What a step does by its names (its title, its file, its tools) and by the sentences of its instruction. A sentence
/// that says no to something does nothing.
pub fn preparing<'a>(names: impl Iterator<Item = &'a str>, instruction: &str) -> Vec<Preparing> {
    let said = |text: &str, is_name: bool| {
        affirmed(&folded(text)).flat_map(|words| TABLE.said(&words, is_name)).collect::<Vec<_>>()
    };
    names.flat_map(|name| said(name, true)).chain(said(instruction, false)).collect()
}

/// The words by which something is scraped, filed, sanded, cut or drilled, in names and in sentences alike.
static SCRAPING: LazyLock<Table<()>> = LazyLock::new(|| Table::of_one(include_str!("scraping.tsv"), "scraping"));

/// Whether a step that gets a model ready washes it and does nothing else to it, by its names and its instruction. A word
/// that may mean scraping is enough for it not to: nobody is to miss a mask.
pub fn only_washes<'a>(names: impl Iterator<Item = &'a str>, instruction: &str) -> bool {
    does(Preparing::Washing, &[Preparing::Filling, Preparing::Sanding], names, instruction)
}

/// Whether a step that gets a model ready bends it straight and does nothing to it that may make dust.
pub fn only_bends<'a>(names: impl Iterator<Item = &'a str>, instruction: &str) -> bool {
    const DRY: &[Preparing] = &[Preparing::Filling, Preparing::Sanding, Preparing::CleaningUp];
    does(Preparing::Bending, DRY, names, instruction)
}

/// Whether a step does one thing, none of some others, and nothing that may be scraping.
fn does<'a>(one: Preparing, others: &[Preparing], names: impl Iterator<Item = &'a str>, instruction: &str) -> bool {
    let names: Vec<&str> = names.collect();
    let done = preparing(names.iter().copied(), instruction);
    done.contains(&one) && !done.iter().any(|done| others.contains(done)) && !may_scrape(names.into_iter(), instruction)
}

/// Whether a step says, by its names or its instruction, that something is scraped, filed, sanded, cut or drilled, or may
/// mean it.
pub fn may_scrape<'a>(mut names: impl Iterator<Item = &'a str>, instruction: &str) -> bool {
    let scrapes = |words: Vec<&str>| SCRAPING.look(&words).into_iter().any(|(_, meaning)| meaning.is_some());
    names.any(|name| scrapes(words(&folded(name)))) || affirmed(&folded(instruction)).any(scrapes)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn washes(title: &str, instruction: &str) -> bool {
        preparing([title].into_iter(), instruction).contains(&Preparing::Washing)
    }

    #[test]
    fn a_model_is_washed_by_its_title_in_four_languages() {
        for title in
            ["Clean and wash", "10-rinse", "Waschen und trocknen", "Mit Seife abbürsten", "Laver", "Lavado", "Enjuagar"]
        {
            assert!(washes(title, ""), "{title}");
        }
        for title in ["10-clean", "Scrape the mould lines", "Do not wash", "Entgraten", "Ébavurer", "Without washing"]
        {
            assert!(!washes(title, ""), "{title}");
        }
    }

    #[test]
    fn a_model_is_washed_by_its_instruction() {
        for text in [
            "Scrape the seams. Wash off the release agent.",
            "Scrub every part in soapy water",
            "Rinse it well, and let it dry.",
            "Mit lauwarmem Wasser und Spülmittel reinigen.",
            "Lavez les pièces à l'eau tiède.",
            "Lava las piezas con agua tibia.",
            "Scrape the mould lines, wash, stick to lolly sticks.",
            "Clean, wash, prime next day.",
            "Rinse.",
            "Give it a wash, and do not touch it afterwards.",
            "Schaben, waschen, aufkleben.",
            "Gratte, lave et colle.",
            "Rasca, lava y seca.",
        ] {
            assert!(washes("Clean", text), "{text}");
        }
        for text in [
            "Smooth the joints, so that the wash does not gather there.",
            "No need to rinse it.",
            "The brown wash will show every scratch.",
            "Wash your hands when you are through.",
            "Wischt den Staub mit einem Pinsel ab. Pinsel auswaschen.",
            "Quite close to the lavender lava bases.",
            "Stick the washed parts on corks.",
            "Collez les pièces lavées sur un bouchon.",
            "Scrape, do not wash, stick on corks.",
            "Fill what a wash would run into.",
            "",
        ] {
            assert!(!washes("Clean", text), "{text}");
        }
    }

    #[test]
    fn filling_and_sanding_are_known_by_names_alone() {
        let all = |names: &[&str], text: &str| preparing(names.iter().copied(), text);
        assert_eq!(all(&["Fill the gaps", "needle-file"], ""), [Preparing::Filling, Preparing::Sanding]);
        assert_eq!(all(&["Spachteln"], ""), [Preparing::Filling]);
        assert_eq!(all(&["Clean"], "Fill a cup with sand"), []);
    }

    #[test]
    fn a_wash_alone_is_told_from_one_after_scraping() {
        let only = |title: &str, text: &str| only_washes([title].into_iter(), text);
        for (title, text) in [
            ("Clean", "Wash it in soapy water and rinse."),
            ("Waschen", "Mit Spülmittel und einer Zahnbürste, dann abspülen."),
            ("Laver", "Lavez les pièces à l'eau tiède."),
            ("Lavado", "Lava las piezas con agua y jabón."),
            ("Wash", "Do not scrape yet. Rinse it."),
            ("Clean", "Wash, and prime it the next day."),
        ] {
            assert!(only(title, text), "{title}: {text}");
        }
        for (title, text) in [
            ("Clean", "Scrape the mould lines off, then wash it in soapy water."),
            ("File and wash", ""),
            ("Waschen", "Erst die Gussgrate abfeilen, dann abspülen."),
            ("Laver", "Ébavurez, puis lavez les pièces."),
            ("Lavado", "Quita las rebabas y lava las piezas."),
            ("Fill and wash", ""),
            ("Clean", "Get it ready."),
        ] {
            assert!(!only(title, text), "{title}: {text}");
        }
    }
    #[test]
    fn what_is_bent_in_hot_water_makes_no_dust() {
        let only = |text: &str| only_bends(["10-spear"].into_iter(), text);
        assert!(only("Straighten the spear in hot water."));
        assert!(only("Endereza la lanza en agua caliente."));
        for text in ["Straighten it in hot water, then file it.", "Bend it straight and clean up the casting.", ""] {
            assert!(!only(text), "{text}");
        }
    }
}
