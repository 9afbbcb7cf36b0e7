//! What is sprayed out of a can under pressure, though no can lies on the list: `mist it with hairspray`.

use std::sync::LazyLock;

use super::table::{JOINTS, Table, affirmed_thoughts, folded};

/// What a word says of a can.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Said {
    /// Called like a can and none: a spray bottle, spray from the sea.
    Nothing,
    /// A can by its name.
    Can,
    /// Hairspray, which may be the name of a bottle for the airbrush.
    Hair,
    /// A can of any kind: what comes out of it is poured as often as it is sprayed.
    Pot,
    /// Words that say it alone: `à la bombe`.
    By,
    /// It is done with what follows.
    Use,
    /// The same, and done now.
    Take,
    /// It comes from what follows, or has come from it before.
    From,
    /// Something is sprayed.
    Verb,
    /// The same where it stands behind the can, as German has it.
    Last,
    /// Something is laid on: sprayed, if what follows is a can.
    Lay,
    /// A coat, and the same where a thought begins with it: `undercoat from a can`.
    Coat,
    /// What follows lies below.
    Over,
    /// It was done at another time, or was not.
    Told,
    /// An article, or a word for what is in the can.
    Joined,
    /// Who holds a can that is painted.
    Bearer,
    /// What begins another part of a thought.
    Joint,
    /// What sprays without a can.
    Airbrush,
}

static TABLE: LazyLock<Table<Said>> = LazyLock::new(|| {
    Table::read(include_str!("spraying.tsv"), |name| match name {
        "nothing" => Some(Said::Nothing),
        "can" => Some(Said::Can),
        "hair" => Some(Said::Hair),
        "pot" => Some(Said::Pot),
        "by" => Some(Said::By),
        "use" => Some(Said::Use),
        "take" => Some(Said::Take),
        "from" => Some(Said::From),
        "verb" => Some(Said::Verb),
        "last" => Some(Said::Last),
        "lay" => Some(Said::Lay),
        "coat" => Some(Said::Coat),
        "over" => Some(Said::Over),
        "told" => Some(Said::Told),
        "joined" => Some(Said::Joined),
        "bearer" => Some(Said::Bearer),
        "joint" => Some(Said::Joint),
        "airbrush" => Some(Said::Airbrush),
        _ => None,
    })
});

/// The most words between the spraying and the can: `spray two thin coats of hairspray`.
const NEAR: usize = 4;

/// Whether some titles and sentences say that something comes out of a can under pressure. Where an airbrush is taken,
/// hairspray is a chipping fluid out of a bottle.
pub fn sprays_from_a_can<'a>(texts: impl IntoIterator<Item = &'a str>, by_airbrush: bool) -> bool {
    texts.into_iter().any(|text| {
        let folded = folded(text);
        affirmed_thoughts(&folded).any(|thought| is_sprayed(&thought, by_airbrush))
    })
}

/// Whether a thought says so.
fn is_sprayed(thought: &[&str], by_airbrush: bool) -> bool {
    let found = TABLE.look(thought);
    let is_can = |said: Option<Said>| matches!(said, Some(Said::Can | Said::Hair | Said::Pot | Said::By));
    if !found.iter().any(|(_, said)| is_can(*said)) {
        return false;
    }
    let said: Vec<Option<Said>> = found.iter().map(|(_, said)| *said).collect();
    let joins: Vec<bool> = found.iter().map(|(words, _)| words.iter().any(|word| JOINTS.contains(word))).collect();
    let by_airbrush = by_airbrush || said.contains(&Some(Said::Airbrush));
    (0..said.len()).any(|at| is_can(said[at]) && !is_told(&said, &joins, at) && is_used(&said, at, by_airbrush))
}

/// Whether the part of a thought that a can stands in tells of another time, and nothing between asks for it now: `the
/// undercoat was sprayed from the can`, but `spray it from the can where it was bare`.
fn is_told(said: &[Option<Said>], joins: &[bool], can: usize) -> bool {
    let begins = joins.iter().take(can).rposition(|joins| *joins).unwrap_or(0);
    let ends = joins.iter().skip(can).position(|joins| *joins).map_or(said.len(), |at| can + at);
    let told =
        begins + said.get(begins..can).and_then(|part| part.iter().copied().rposition(is_told_word)).unwrap_or(0);
    let mut since = said.iter().enumerate().take(can).skip(told);
    let now = since.any(|(at, one)| match one {
        Some(Said::Verb | Said::Last | Said::Take) => true,
        Some(Said::Coat) => at == 0,
        _ => false,
    });
    !now && said.get(begins..ends).is_some_and(|part| part.iter().copied().any(is_told_word))
}

/// Whether a word tells of another time.
fn is_told_word(said: Option<Said>) -> bool {
    said == Some(Said::Told)
}

/// Whether a can is used: by the word before it, or by a word for spraying near to it.
fn is_used(said: &[Option<Said>], can: usize, by_airbrush: bool) -> bool {
    let (before, behind) = (said.get(..can).unwrap_or_default(), said.get(can + 1..).unwrap_or_default());
    let begun = before.first() == Some(&Some(Said::Coat));
    let sprays = begun || before.iter().any(|one| matches!(one, Some(Said::Verb | Said::Last)));
    let sprayed = sprays || behind.contains(&Some(Said::Last));
    // What came out of a can and lies below is there already: `over the undercoat from the can`.
    let lies_below = !sprayed && before.contains(&Some(Said::Over));
    match said.get(can).copied().flatten() {
        Some(Said::By) => !lies_below,
        Some(Said::Pot) => match nearest(before, 0) {
            Some((at, Said::Use)) => sprayed && !is_borne(before, at),
            Some((_, Said::Take | Said::From)) => sprayed,
            _ => false,
        },
        Some(Said::Hair) if by_airbrush => false,
        _ => match nearest(before, 1) {
            // Who stands before `with a can` holds it and is painted, unless it is the figure that is sprayed.
            Some((at, Said::Use)) => sprayed || !is_borne(before, at),
            Some((_, Said::Take)) => true,
            Some((_, Said::From)) => !lies_below,
            _ => {
                let verb = matches!(nearest(before, NEAR), Some((_, Said::Verb | Said::Last | Said::Lay)));
                verb || (behind.iter().take(NEAR).any(|one| *one == Some(Said::Last))
                    && !before.contains(&Some(Said::Over)))
            }
        },
    }
}

/// Whether before the word at a place stands who holds what follows it.
fn is_borne(before: &[Option<Said>], with: usize) -> bool {
    with > 0 && before.get(with - 1) == Some(&Some(Said::Bearer))
}

/// The nearest word before a can that says something of it, with its place, past articles and so many words that are not
/// known. A coat that does not begin a thought is the thing, and is passed too.
fn nearest(before: &[Option<Said>], unknown: usize) -> Option<(usize, Said)> {
    let mut passed = 0;
    for (at, said) in before.iter().enumerate().rev() {
        match said {
            Some(Said::Joined) => {}
            Some(Said::Coat) if at > 0 => {}
            Some(Said::Coat) => return Some((at, Said::Verb)),
            Some(said) => return Some((at, *said)),
            None if passed == unknown => return None,
            None => passed += 1,
        }
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_can_is_known_by_what_comes_out_of_it() {
        for text in [
            "Spray varnish from a rattle can through a stencil.",
            "Spray it with matt varnish from a can.",
            "Mist it with hairspray and wait ten minutes.",
            "Prime it black with a spray can outdoors.",
            "Undercoat from a can, two thin passes.",
            "Spray two thin coats of hairspray.",
            "Spray on hairspray.",
            "Give it a coat of hairspray.",
            "Use a rattle can.",
            "Matt varnish from a rattle can",
            "Varnish with an aerosol.",
            "Shake the can for two minutes.",
            "Prime the man with a spray can.",
            "Wash it and prime it black from the can.",
            "Put black on it with a rattle can.",
            "Spray matt varnish over the primer from the rattle can.",
            "Once it is dry, spray it with spray varnish.",
            "Decant some from the rattle can.",
            "Mit Haarspray einnebeln",
            "Haarspray aufsprühen.",
            "Mattlack aus der Dose aufsprühen",
            "Grundierung aus der Sprühdose",
            "Aus der Spruehdose grundieren.",
            "Mit der Dose schwarz grundieren.",
            "Mit Klarlackspray versiegeln.",
            "Wird mit der Sprühdose grundiert.",
            "Apprêtez à la bombe.",
            "Vernis mat en bombe.",
            "Vaporisez de la laque à cheveux.",
            "Apprêtez avec une bombe noire.",
            "Apprêt en aérosol.",
            "Imprima con un bote de spray.",
            "Barniza con spray mate.",
            "Aplica laca de pelo.",
            "Con laca para el pelo.",
            "Barniz en spray.",
            "Rocía el barniz con una lata.",
            "Spray the left arm with a rattle can.",
            "Spray it with the rattle can where it was bare.",
            "Use a rattle can where it was bare.",
            "Seal it with varnish from a can.",
        ] {
            assert!(sprays_from_a_can([text], false), "{text}");
        }
    }

    #[test]
    fn a_can_that_is_painted_or_told_of_sprays_nothing() {
        for text in [
            "Touch up with a brush what the rattle can missed.",
            "Over the undercoat from the can, which was sprayed yesterday",
            "The undercoat from the rattle can was sprayed yesterday.",
            "Paint where the spray can did not reach.",
            "Scrub as in the hairspray technique.",
            "With the hairspray technique",
            "Fill a can with water.",
            "Paint the watering can.",
            "Paint the can on his belt.",
            "Paint the spray can in his hand.",
            "Paint the woman with a spray can.",
            "Not from a can.",
            "Never with a spray can.",
            "Use a brush instead of a rattle can.",
            "Stipple the spray from the sea.",
            "Spray from the side can pool.",
            "Spray it from where you can.",
            "Spray water from a spray bottle.",
            "Spray brown over the hairspray.",
            "Wet the hairspray and scrub.",
            "Over the primer from the rattle can, thin white.",
            "Brush water on the hairspray.",
            "Wait a day after priming with a rattle can.",
            "Airbrush two coats of chipping hairspray.",
            "Airbrush a coat of hairspray.",
            "The can rattles in the boat.",
            "Give the man with the can a red coat.",
            "Give the man with the spray can a red coat.",
            "Cut a strip from a drinks can and fix it.",
            "Mist it with a dose of water.",
            "The undercoat was sprayed from the can.",
            "Paint what the spray can left bare.",
            "Was die Sprühdose verfehlt hat, mit dem Pinsel nachziehen.",
            "Über die Grundierung aus der Sprühdose, die gestern trocknete",
            "Wurde gestern mit der Sprühdose grundiert.",
            "Mit Wasser aus der Sprühflasche befeuchten.",
            "Nicht aus der Dose.",
            "Braun über das Haarspray sprühen.",
            "Peignez la bombe sur sa hanche.",
            "Sur la sous-couche en bombe",
            "Sans bombe.",
            "Pinta la lata de su mano.",
            "Humedece con un spray de agua.",
            "Fue imprimado ayer con spray.",
        ] {
            assert!(!sprays_from_a_can([text], false), "{text}");
        }
        assert!(!sprays_from_a_can(["Spray two coats of hairspray."], true));
        assert!(sprays_from_a_can(["Or spray it from a rattle can."], true));
    }
}
