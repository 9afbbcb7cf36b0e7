//! What lies on the desk, by what painters call it.

use std::borrow::Cow;
use std::sync::LazyLock;

use super::beside::{Beside, beside, is_plainly_painted, is_worked_with};
use super::table::{Table, affirmed, affirmed_thoughts, folded, words};
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
        /// Water that scalds.
        HotWater = "hot-water",
        /// Metal that is melted to join metal.
        Solder = "solder",
        /// What shoots grass fibres by high voltage.
        Grass = "grass",
        /// What rubs off: paper, sponge, file.
        Sanding = "sanding",
        /// Called like an abrasive and none: soldiers in single file.
        NoAbrasive = "no-abrasive",
        /// A pen or a brush of glass fibre, which rubs off and breaks into splinters.
        GlassFibre = "glass-fibre",
        /// Lead that is cut and bent: foil, sheet, wire.
        LeadFoil = "lead-foil",
        /// A can under pressure.
        SprayCan = "spray-can",
        /// Thread and wire for rigging and aerials: a dot of glue holds it.
        Thread = "thread",
        /// What is scraped off: with a blade, if nothing else is said.
        Scraping = "scraping",
        /// What scrapes and is no blade.
        Fingernail = "fingernail",
        /// What parts are clipped off.
        Frame = "frame",
        /// Paint that was there before, which may hold lead: it is scraped, sanded or stripped.
        OldPaint = "old-paint",
        /// What dissolves old paint.
        Stripper = "stripper",
        /// Brake fluid, which dissolves old paint too; on a model it may be the name of a colour or of a thing.
        BrakeFluid = "brake-fluid",
        /// A lye, which burns skin and eyes: caustic soda, oven cleaner.
        Caustic = "caustic",
        /// What evaporates and burns: alcohol for cleaning, acetone.
        Solvent = "solvent",
        /// White spirit and turpentine: they thin oil and enamel.
        Spirit = "spirit",
        /// A word that is a solvent where a model is cleaned, and elsewhere thins paint of any kind.
        Thinner = "thinner",
        /// Called like a solvent and none, or kept off it.
        NoSolvent = "no-solvent",
        /// Glue that melts plastic.
        Cement = "cement",
        /// Glue that bonds skin.
        InstantGlue = "instant-glue",
        /// A word that says so of a glue and nothing of another thing.
        Instant = "instant",
        /// What makes instant glue set at once: a solvent.
        Accelerator = "accelerator",
        /// The same out of a can.
        GlueSpray = "glue-spray",
        /// Putty, glue or resin that hardens in two parts.
        Hardener = "hardener",
        /// Resin that no lamp has hardened yet.
        RawResin = "raw-resin",
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
    found([words(&folded(&spelled_out(name)))].into_iter(), true)
}

/// The tools that sentences name. A sentence that says no to something names nothing.
pub fn tools_in_sentences(text: &str) -> Vec<ToolWord> {
    found(affirmed(&folded(&spelled_out(text))), false)
}

/// The tools that sentences name in a step that paints: a blade counts where it is worked with, for otherwise it may be
/// what is painted (`the knife in her hand`). Where the paint is `scratched` or weathered it counts unless it is plainly
/// painted, as an abrasive always does.
pub fn tools_used_in_sentences(text: &str, scratched: bool) -> Vec<ToolWord> {
    const BLADES: &[ToolWord] = &[ToolWord::Knife, ToolWord::Cutters, ToolWord::Saw];
    let folded = folded(&spelled_out(text));
    let mut found = Vec::new();
    for words in affirmed_thoughts(&folded) {
        let said = TABLE.look(&words);
        let is_blade = |word| BLADES.contains(&word);
        let asks = |word| is_blade(word) || word == ToolWord::Sanding;
        let beside = if said.iter().any(|(_, known)| known.is_some_and(|(word, _)| asks(word))) {
            beside(&words)
        } else {
            Vec::new()
        };
        let mut at = 0;
        for (phrase, known) in said {
            let tool = at..at + phrase.len();
            at = tool.end;
            let Some((word, true)) = known else { continue };
            let counts = match word {
                word if is_blade(word) && !scratched => is_worked_with(&beside, &tool),
                word if is_blade(word) => !is_plainly_painted(&beside, &tool),
                ToolWord::Sanding => {
                    beside.get(tool.end) != Some(&Some(Beside::Mark)) && !is_plainly_painted(&beside, &tool)
                }
                _ => true,
            };
            found.extend((counts && !found.contains(&word)).then_some(word));
        }
    }
    found
}

/// Whether a glue of this name and id is one that sets at once: `Quick Glue`, `Thin CA`. A quick white glue is white glue.
pub fn is_instant_glue(name: &str, id: &str) -> bool {
    const OTHERS: &[ToolWord] = &[ToolWord::WhiteGlue, ToolWord::Cement, ToolWord::Hardener];
    let words = [tool_words(name), tool_words(id)].concat();
    words.contains(&ToolWord::InstantGlue)
        || (words.contains(&ToolWord::Instant) && !words.iter().any(|word| OTHERS.contains(word)))
}

/// The sort of a glue by its name and id: instant glue, cement, two parts or white glue; `None` where they say nothing of it.
pub fn glue_sort(name: &str, id: &str) -> Option<ToolWord> {
    const SORTS: &[ToolWord] = &[ToolWord::Cement, ToolWord::Hardener, ToolWord::WhiteGlue];
    let instant = is_instant_glue(name, id).then_some(ToolWord::InstantGlue);
    let of = |text: &str| tool_words(text).into_iter().find(|word| SORTS.contains(word));
    instant.or_else(|| of(name)).or_else(|| of(id))
}

/// What is a word in capitals alone, and how it is spelled out: the same letters are a beer.
const CAPITALS: (&str, &str) = ("IPA", "isopropanol");

/// A text with its [`CAPITALS`] spelled out.
fn spelled_out(text: &str) -> Cow<'_, str> {
    let (short, long) = CAPITALS;
    if !text.contains(short) {
        return Cow::Borrowed(text);
    }
    let pieces = text.split_inclusive(|letter: char| !letter.is_alphanumeric());
    let spelled = |piece: &str| match piece.strip_prefix(short) {
        Some(rest) if !rest.starts_with(char::is_alphanumeric) => format!("{long}{rest}"),
        _ => piece.to_owned(),
    };
    Cow::Owned(pieces.map(spelled).collect())
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
        for text in
            ["With a knife, not with a saw", "Mit dem Messer und nicht reißen", "Cut with a knife without force"]
        {
            assert_eq!(tools_in_sentences(text), [ToolWord::Knife], "{text}");
        }
        for text in
            ["Knife and scalpel are not needed", "No knife, scalpel or razor blade", "Never with fingers, a knife"]
        {
            assert_eq!(tools_in_sentences(text), [], "{text}");
        }
        assert_eq!(tool_words("Spare blades"), [ToolWord::Knife]);
    }
    #[test]
    fn a_word_of_three_capitals_is_a_solvent_and_a_beer_is_not() {
        assert_eq!(tools_in_sentences("Wash it in IPA"), [ToolWord::Solvent]);
        assert_eq!(tools_in_sentences("(IPA)"), [ToolWord::Solvent]);
        for text in ["Wash it in ipa", "The IPAs", "RIPAL", "Ipa"] {
            assert_eq!(tools_in_sentences(text), [], "{text}");
        }
        assert_eq!(tool_words("ipa"), [ToolWord::Solvent]);
    }

    #[test]
    fn a_blade_that_is_painted_is_no_tool() {
        for text in [
            "Paint the knife blade.",
            "Paint the scalpel in her hand grey.",
            "Paint flames along the hem; leave the sanding marks on the anvil.",
            "With a small brush paint the knife",
            "Das Messer silbern malen",
            "Knife",
            "Use a fine brush for the knife.",
            "Pick out the knife in steel.",
            "Then the knife in steel.",
            "Buff the knife.",
            "Paint the man with a knife.",
            "Paint the woman with the long knife grey.",
            "Den Mann mit dem Messer bemalen",
            "Peindre l'homme au couteau",
            "Pinta el hombre con un cuchillo",
            "Paint the sandpaper grey.",
            "The sanding block painted grey",
        ] {
            assert_eq!(tools_used_in_sentences(text, false), [], "{text}");
        }
        for text in [
            "Scratch chips with a scalpel.",
            "Lift the edge with the tip of a fresh knife",
            "Use a knife.",
            "The knife scrapes off what ran over.",
            "Mit dem Messer abkratzen",
            "Grattez au couteau",
            "Raspa con un cuchillo",
            "Hold the scalpel flat and scratch the chips.",
            "Use a stiff brush or a scalpel.",
            "The scalpel in the other hand scratches.",
            "Drag the knife along the edge.",
            "Scratch paint off the man with a knife.",
            "Lift the paint off the figure with a knife.",
            "Skalpell flach halten und Farbe abheben.",
            "Écaillez à l'aide d'un scalpel.",
        ] {
            assert!(tools_used_in_sentences(text, false).contains(&ToolWord::Knife), "{text}");
        }
        for text in ["Snip off stray bristles.", "Clip off stray hairs.", "Ein Haar abzwicken"] {
            assert_eq!(tools_used_in_sentences(text, false), [ToolWord::Cutters], "{text}");
        }
        assert_eq!(tools_used_in_sentences("Dry it with a hair dryer", false), [ToolWord::HotTool]);
    }

    #[test]
    fn an_abrasive_is_worked_with_unless_it_is_plainly_painted() {
        for text in [
            "Sand it smooth and paint it.",
            "Rub it down with sandpaper",
            "Sanding between coats keeps it smooth.",
            "Wet sanding between coats.",
            "Paint two coats, sanding between them.",
            "Brush on two coats and sanding",
            "Colour sanding",
            "Sandpaper of 2000 grit between the coats.",
            "Sanding: 2000 grit.",
            "Zwischen den Schichten schleifen.",
            "Schmirgelpapier, 2000.",
            "Lijar entre capas.",
            "Entre les couches, ponçage fin.",
            "Varnish and sanding",
            "Grate pastel chalk on sandpaper.",
            "Pastellkreide auf Schleifpapier abreiben.",
        ] {
            assert_eq!(tools_used_in_sentences(text, false), [ToolWord::Sanding], "{text}");
        }
    }

    #[test]
    fn a_file_and_grit_rub_off_and_soldiers_in_file_do_not() {
        for text in [
            "File the mould lines off and wash the parts.",
            "Take the mould lines off with a file.",
            "Rub the filler down with 400 grit.",
            "Rub it down with wet and dry.",
            "Smooth it with 600-grit paper.",
            "Die Gussgrate feilen",
            "Mit 400er Papier glätten",
            "Mit Körnung 600 glätten",
            "Limez les lignes de moule.",
            "À la lime",
            "Poncez la pièce.",
            "Lima las rebabas.",
            "Con una lima",
        ] {
            assert_eq!(tools_in_sentences(text), [ToolWord::Sanding], "{text}");
        }
        for text in [
            "A single file of soldiers",
            "They march in file, the tall ones first.",
            "The grit on the base",
            "Scatter grit and gravel.",
            "The file name is on the card.",
            "Look into the file.",
            "Lime green on the rim",
            "Sand feiner Körnung aufstreuen",
            "Die Pfeilen folgen",
            "Vert lime",
            "Verde lima",
        ] {
            let found = tools_in_sentences(text);
            assert!(!found.contains(&ToolWord::Sanding), "{text}: {found:?}");
        }
    }

    #[test]
    fn glass_fibre_and_lead_foil_are_known_by_their_names() {
        for text in [
            "Scrub the brass clean with a glass fibre pen.",
            "Mit dem Glasfaserstift säubern",
            "Glasfaserradierer",
            "Un stylo en fibre de verre",
            "Con un lápiz de fibra de vidrio",
        ] {
            assert!(tools_in_sentences(text).contains(&ToolWord::GlassFibre), "{text}");
        }
        for text in [
            "Cut straps from lead foil off an old wine bottle.",
            "Straps of lead sheet",
            "Riemen aus Bleifolie schneiden",
            "Des sangles en feuille de plomb",
            "Correas de lámina de plomo",
        ] {
            assert!(tools_in_sentences(text).contains(&ToolWord::LeadFoil), "{text}");
        }
        for text in [
            "Lead the line along the hem.",
            "The lead colour",
            "Lead-free foil",
            "Rub pencil lead on the edge.",
            "Lead foil grey",
            "Bleifreie Folie",
            "The glass of the lantern",
            "A hull of fibreglass",
        ] {
            let found = tools_in_sentences(text);
            assert!(
                !found.contains(&ToolWord::LeadFoil) && !found.contains(&ToolWord::GlassFibre),
                "{text}: {found:?}"
            );
        }
    }

    #[test]
    fn where_paint_is_scratched_a_blade_is_worked_with_unless_it_is_plainly_painted() {
        for text in [
            "Scratch off paint: knife or toothpick.",
            "Add scratches with paint and knife.",
            "Knife marks: scratch them.",
            "Kratzer: Skalpell.",
            "Raspe la pintura: cuchillo.",
        ] {
            assert!(tools_used_in_sentences(text, true).contains(&ToolWord::Knife), "{text}");
        }
        for text in ["Paint the knife rusty.", "Paint the man with a knife rusty."] {
            assert_eq!(tools_used_in_sentences(text, true), [], "{text}");
        }
    }

    #[test]
    fn glue_that_sets_at_once_is_known_by_its_name_or_its_id() {
        for (name, id) in [
            ("Quick Glue", "glue"),
            ("Thin CA", "thin"),
            ("Instant", "x"),
            ("Cyano", "x"),
            ("Bond", "super-glue"),
            ("Colle rapide", "x"),
            ("Sofortkleber", "x"),
            ("Pegamento rápido", "x"),
        ] {
            assert!(is_instant_glue(name, id), "{name} {id}");
        }
        for (name, id, sort) in [
            ("Instant Glue", "x", Some(ToolWord::InstantGlue)),
            ("White Glue", "x", Some(ToolWord::WhiteGlue)),
            ("Bond", "pva", Some(ToolWord::WhiteGlue)),
            ("Plastic Cement", "x", Some(ToolWord::Cement)),
            ("Bond", "x", None),
        ] {
            assert_eq!(glue_sort(name, id), sort, "{name} {id}");
        }
        for name in
            ["Quick white glue", "Quick PVA glue", "Wood glue", "Instant contact cement", "Rapid epoxy", "Casein"]
        {
            assert!(!is_instant_glue(name, "glue"), "{name}");
        }
    }
}
