//! Cautions of an author's own that say less than the usual text of the step. Both are shown; a reader believes the author.

use super::gather::of_step;
use super::{CautionKind, StepCautions};
use crate::guide::{Guide, Scheme, Step};
use crate::report::{Check, Finding, Group, Level, wording};
use crate::trade::{ToolWord, tool_words};

/// No note of an author's plays a danger down.
pub(crate) static WEAK_CAUTION: Check = Check {
    id: "weak-caution",
    level: Level::Note,
    about: "no caution under 'safety' says less than the usual text of the step, or that something is safe",
    why: "readers see both, and follow the one that asks for less",
    group: Group::Safety,
    safety: false,
};

/// Words that promise that something hurts nobody, in small letters. Wherever they stand, nobody but the maker can say so.
const PROMISED: &[&str] = &[
    "is safe",
    "are safe",
    "harmless",
    "non-toxic",
    "not toxic",
    "not dangerous",
    "no danger",
    "harmlos",
    "ungefährlich",
    "unbedenklich",
    "ungiftig",
    "sans danger",
    "sans risque",
    "inoffensi",
    "non toxique",
    "inofensiv",
    "sin peligro",
    "no es tóxic",
];

/// Words that play a danger down where there is one, in small letters.
const PLAYED_DOWN: &[&str] = &[
    "no mask",
    "no gloves",
    "mask is not needed",
    "not necessary",
    "if you like",
    "without gloves",
    "without a mask",
    "gloves are not needed",
    "mask is optional",
    "keine maske",
    "ohne maske",
    "ohne handschuhe",
    "keine handschuhe",
    "pas besoin de masque",
    "sans masque",
    "sans gants",
    "pas besoin de gants",
    "no hace falta mascarilla",
    "sin mascarilla",
    "sin guantes",
    "no hacen falta guantes",
];

/// Where nobody sprays a can, in small letters.
const INDOORS: &[&str] = &[
    "in the kitchen",
    "in the bathroom",
    "indoors",
    "in a room",
    "at an open window",
    "in the garage",
    "in der küche",
    "im badezimmer",
    "im zimmer",
    "am offenen fenster",
    "in der garage",
    "dans la cuisine",
    "à l'intérieur",
    "à l’intérieur",
    "dans le garage",
    "en la cocina",
    "en interiores",
    "en el garaje",
];

/// Words by which a note forbids or bids to wait, and so plays nothing down.
const FORBIDDEN: &[&str] = &[
    "never",
    "do not",
    "don't",
    "don’t",
    "nie ",
    "niemals",
    "jamais",
    "nunca",
    "not indoors",
    "until it is safe",
    "until they are safe",
    "before it is safe",
];

/// Every note of a guide that says less than the usual text.
pub(super) fn check(guide: &Guide) -> Vec<Finding> {
    let steps = guide.schemes.iter().flat_map(|scheme| scheme.steps.iter().map(move |step| (scheme, step)));
    steps.filter(|(_, step)| !step.safety.is_empty()).flat_map(|(scheme, step)| weak(scheme, step)).collect()
}

fn weak(scheme: &Scheme, step: &Step) -> Vec<Finding> {
    let usual = of_step(scheme, step, &[]);
    let told = step.safety.iter().filter_map(|note| Some((note, why(note, &usual)?)));
    told.map(|(note, why)| {
        let quoted = wording::quoted(note);
        let (message, mend) = if usual.kinds.is_empty() {
            let mend =
                "leave it out, or say what has to be done: what a product does to people stands in its data sheet";
            (format!("the caution {quoted} warns of nothing: {why}"), mend)
        } else {
            let mend = "leave it out, as the usual text is there anyway, or say what has to be done beyond it";
            (format!("the caution {quoted} says less than the usual text: {why}"), mend)
        };
        Finding::new(&WEAK_CAUTION, step.places.title, message, mend)
    })
    .collect()
}

/// What is weaker in a note.
fn why(note: &str, usual: &StepCautions) -> Option<&'static str> {
    let says = note.to_lowercase();
    let words = tool_words(note);
    let particles = words.contains(&ToolWord::MistMask) || words.contains(&ToolWord::DustMask);
    let forbids = FORBIDDEN.iter().any(|word| says.contains(word));
    if usual.kinds.contains(&CautionKind::SpraySolvent) && particles && !words.contains(&ToolWord::VapourMask) {
        Some("solvent vapour passes a particle mask, a respirator A2-P3 is needed")
    } else if usual.kinds.contains(&CautionKind::AerosolCan)
        && !forbids
        && INDOORS.iter().any(|room| says.contains(room))
    {
        Some("a can is sprayed outdoors")
    } else if forbids {
        None
    } else if PROMISED.iter().any(|words| says.contains(words)) {
        Some(if usual.kinds.is_empty() { "it promises that something is safe" } else { "it plays the danger down" })
    } else if !usual.kinds.is_empty() && PLAYED_DOWN.iter().any(|words| says.contains(words)) {
        Some("it plays the danger down")
    } else {
        None
    }
}

#[cfg(test)]
mod tests {
    use super::super::testing::{paint, scheme, step};
    use super::*;
    use crate::trade::{Family, Kind, Stage, Technique};

    fn told(technique: Technique, family: Family, note: &str) -> Vec<String> {
        let step = step(Stage::Basecoat, technique, &[paint(Kind::Paint, family)]);
        let step = Step { safety: vec![note.to_owned()], ..step };
        weak(&scheme(Some("plastic"), Vec::new()), &step).into_iter().map(|finding| finding.message).collect()
    }

    #[test]
    fn a_dust_mask_on_a_solvent_and_a_word_that_plays_down_are_told() {
        let said = told(Technique::Airbrush, Family::Lacquer, "A dust mask will do.");
        assert!(said[0].contains("passes a particle mask"), "{said:?}");
        for note in ["It is harmless once dry.", "No mask needed.", "Das ist unbedenklich.", "C’est sans danger."] {
            assert!(told(Technique::Airbrush, Family::Water, note)[0].contains("plays the danger down"), "{note}");
        }
    }

    #[test]
    fn a_can_indoors_and_bare_hands_are_told() {
        let said = told(Technique::SprayCan, Family::Lacquer, "Spray in the kitchen with the fan on.");
        assert!(said[0].contains("outdoors"), "{said:?}");
        for note in ["You can work without gloves.", "Geht auch ohne Maske."] {
            assert!(told(Technique::Airbrush, Family::Lacquer, note)[0].contains("plays the danger down"), "{note}");
        }
        for note in ["Never work without gloves.", "Do not spray it indoors."] {
            assert_eq!(told(Technique::SprayCan, Family::Lacquer, note), [""; 0], "{note}");
        }
    }

    #[test]
    fn a_note_that_adds_is_left_alone() {
        for note in ["Change the cartridges before, not after.", "Wear the respirator and a dust mask under it."] {
            assert_eq!(told(Technique::Airbrush, Family::Lacquer, note), [""; 0], "{note}");
        }
        assert_eq!(told(Technique::Airbrush, Family::Water, "A particle mask FFP2 will do."), [""; 0]);
        assert_eq!(told(Technique::Brush, Family::Water, "No mask needed."), [""; 0]);
    }

    #[test]
    fn a_promise_is_told_of_where_there_is_no_other_caution_too() {
        for note in ["This paint is safe and not toxic.", "Die Farbe ist ungiftig."] {
            let said = told(Technique::Brush, Family::Water, note);
            assert!(said[0].contains("it promises that something is safe"), "{said:?}");
        }
        assert_eq!(told(Technique::Brush, Family::Water, "Never lick the brush, it is not harmless."), [""; 0]);
        assert_eq!(told(Technique::Brush, Family::Water, "Keep it away until it is safe to touch."), [""; 0]);
    }
}
