//! What to do, drawn: one outline an action, for the line that is before a step.
//!
//! Our own drawings, in a square of 24: strokes alone, so that they print in black and white and turn with the ink of
//! the page. A label always is beside one, so that the drawing itself is hidden from screen readers.

use crate::caution::Action;

/// The outlines, in the order of the line.
const OUTLINES: &[(Action, &str)] = &[
    (
        Action::VapourMask,
        "M8 8C10 6 14 6 16 8L17.5 13C16 18.5 8 18.5 6.5 13ZM10.5 14L13.5 14M1.2 15.4C1.2 13.52 2.72 12 4.6 12 6.48 12 8 13.52 8 15.4 8 17.28 6.48 18.8 4.6 18.8 2.72 18.8 1.2 17.28 1.2 15.4ZM16 15.4C16 13.52 17.52 12 19.4 12 21.28 12 22.8 13.52 22.8 15.4 22.8 17.28 21.28 18.8 19.4 18.8 17.52 18.8 16 17.28 16 15.4Z",
    ),
    (
        Action::DustMask,
        "M5 10C8 5 16 5 19 10L17 17C14 19.5 10 19.5 7 17ZM5 10L1.5 8M19 10L22.5 8M9.6 13C9.6 11.67 10.67 10.6 12 10.6 13.33 10.6 14.4 11.67 14.4 13 14.4 14.33 13.33 15.4 12 15.4 10.67 15.4 9.6 14.33 9.6 13Z",
    ),
    (
        Action::MistMask,
        "M5 10C8 5 16 5 19 10L17 17C14 19.5 10 19.5 7 17ZM5 10L1.5 8M19 10L22.5 8M6 12.5C9 10.5 15 10.5 18 12.5M6.6 15.2L17.4 15.2",
    ),
    (
        Action::Goggles,
        "M4 8C4 7.5 4.5 7 5 7L19 7C19.5 7 20 7.5 20 8L20 15C20 16 19.5 16.5 18.5 16.5L14.5 16.5L12 14L9.5 16.5L5.5 16.5C4.5 16.5 4 16 4 15ZM4 10.5L1.5 9.5M20 10.5L22.5 9.5M9 4.5L9 7M15 4.5L15 7",
    ),
    (
        Action::Glasses,
        "M3 10L10.3 10C10.3 14 9 16 6.8 16C4.5 16 3 14 3 10ZM13.7 10L21 10C21 14 19.5 16 17.2 16C15 16 13.7 14 13.7 10ZM10.3 11C11.3 10 12.7 10 13.7 11M3 10L1.5 6.5M21 10L22.5 6.5",
    ),
    (
        Action::Gloves,
        "M8 21L8 15.5L4.5 12L6 10.5L9 13L9 4.5L11 4.5L11 11L11.3 3L13.4 3L13.4 11L14.2 4.3L16 4.6L15.8 11.5L17 6.8L18.6 7.2L18 14L16.5 17.5L16.5 21ZM8 18.5L16.5 18.5",
    ),
    (
        Action::Outdoors,
        "M14.2 6.5C14.2 4.95 15.45 3.7 17 3.7 18.55 3.7 19.8 4.95 19.8 6.5 19.8 8.05 18.55 9.3 17 9.3 15.45 9.3 14.2 8.05 14.2 6.5ZM2 20L22 20M3 20C6 13 10 13 13 20M11 17C13.5 13.5 17.5 14 20 20",
    ),
    (
        Action::Extraction,
        "M3 5L13 5L13 19L3 19ZM5 12C5 10.34 6.34 9 8 9 9.66 9 11 10.34 11 12 11 13.66 9.66 15 8 15 6.34 15 5 13.66 5 12ZM8 9L8 15M5 12L11 12M15 12L22 12M19 9L22 12L19 15",
    ),
    (Action::FreshAir, "M4 3.5L20 3.5L20 20.5L4 20.5ZM12 3.5L12 20.5M12 3.5L17.5 7L17.5 17.5L12 20.5M7 9L7 14"),
    (
        Action::NoFlame,
        "M12 3C13 8 18 9.5 18 15C18 19 15 21 12 21C9 21 6 19 6 15C6 12.5 7.8 11 8.8 8.5C10 9.8 11.6 8 12 3ZM3 4L21 21",
    ),
    (
        Action::LidsOn,
        "M7 3.5L17 3.5L17 7L7 7ZM8 7C5.5 8.5 5 10 5 12L5 20.5L19 20.5L19 12C19 10 18.5 8.5 16 7M8 14L16 14",
    ),
    (
        Action::SandWet,
        "M12 2.5C14.5 6.5 16.5 9 16.5 11.5C16.5 14.3 14.5 16 12 16C9.5 16 7.5 14.3 7.5 11.5C7.5 9 9.5 6.5 12 2.5ZM3 19L21 19M6 22L18 22",
    ),
    // A damp cloth that is drawn over the bench, with a drop above it.
    (
        Action::WipeWet,
        "M2.5 12L9 12L11 19L1.5 19ZM6 3C7.6 5 8.4 6 8.4 7.2 8.4 8.6 7.3 9.6 6 9.6 4.7 9.6 3.6 8.6 3.6 7.2 3.6 6 4.4 5 6 3ZM13.5 15.5L22 15.5M19 12.5L22 15.5L19 18.5M2 22L22 22",
    ),
    (Action::CutAway, "M2 6L9 6L9 9.5L2 9.5ZM9 6L16 6L12.5 9.5L9 9.5M4 17L20 17M16.5 13.5L20 17L16.5 20.5"),
    (
        Action::WashHands,
        "M3 4L12 4C14 4 15 5 15 7L15 8.5M15 11L15 13M18 11L18 12.5M12 11L12 12.5M3 17C6 14.5 9 15.5 12 17L20 16C22 16 22 18 20.5 18.5L13 21C9 22 6 21 3 20Z",
    ),
    (
        Action::OthersOut,
        "M4.7 6.5C4.7 4.95 5.95 3.7 7.5 3.7 9.05 3.7 10.3 4.95 10.3 6.5 10.3 8.05 9.05 9.3 7.5 9.3 5.95 9.3 4.7 8.05 4.7 6.5ZM2.5 20L2.5 16C2.5 10.5 12.5 10.5 12.5 16L12.5 20M15 13L22 13M19 10L22 13L19 16",
    ),
    (
        Action::ChildrenOut,
        "M3.5 10C3.5 8.9 4.4 8 5.5 8 6.6 8 7.5 8.9 7.5 10 7.5 11.1 6.6 12 5.5 12 4.4 12 3.5 11.1 3.5 10ZM2.5 20L2.5 16.5C2.5 13 8.5 13 8.5 16.5L8.5 20M11 20L11 15.5L12 13.5L13 15L15 15L16 13.5L17 15.5L17 20ZM18 8L23 8M20.5 5.5L23 8L20.5 10.5",
    ),
    (
        Action::RagsFlat,
        "M15.8 5C15.8 3.78 16.78 2.8 18 2.8 19.22 2.8 20.2 3.78 20.2 5 20.2 6.22 19.22 7.2 18 7.2 16.78 7.2 15.8 6.22 15.8 5ZM2.5 16.5L7 11L22 11L17.5 16.5C15 15 12.5 18 10 16.5C7.5 15 5 18 2.5 16.5ZM2 20.5L22 20.5",
    ),
    (
        Action::DataSheet,
        "M5.5 2.5L14.5 2.5L18.5 6.5L18.5 21.5L5.5 21.5ZM14.5 2.5L14.5 6.5L18.5 6.5M8.5 11L15.5 11M8.5 14.5L15.5 14.5M8.5 18L12.5 18",
    ),
    (Action::AuthorNote, "M3.5 4L20.5 4L20.5 16L11 16L7 20.5L7 16L3.5 16ZM7.5 8.5L16.5 8.5M7.5 12L13.5 12"),
    (
        Action::GlovesIfSensitive,
        "M8 21L8 15.5L4.5 12L6 10.5L9 13L9 4.5L11 4.5L11 11L11.3 3L13.4 3L13.4 11L14.2 4.3L16 4.6L15.8 11.5L17 6.8L18.6 7.2L18 14L16.5 17.5L16.5 21ZM20.5 16L20.5 19M20.5 21.5L20.5 22",
    ),
    (
        Action::HotTip,
        "M2 21L9.5 13.5L12.5 16.5L5 22ZM9.5 13.5L14 9M12.5 16.5L17 12M14 9L17 12L19 7ZM13 2C14.5 4 11.5 5 13 7M18 1.5C19.5 3 17 4 18.5 5.5M21.5 5C23 6.5 21 7.5 22 9",
    ),
    (
        Action::LampShield,
        "M2 15C6 10 18 10 22 15C18 20 6 20 2 15ZM9.6 15C9.6 13.67 10.67 12.6 12 12.6 13.33 12.6 14.4 13.67 14.4 15 14.4 16.33 13.33 17.4 12 17.4 10.67 17.4 9.6 16.33 9.6 15ZM9 2L15 2L14 6L10 6ZM12 6L12 8.5M8 7L7 8.5M16 7L17 8.5M4 22L21 7",
    ),
    (Action::HighVoltage, "M14 2L6 13.5L11.5 13.5L9.5 22L18.5 9.5L12.5 9.5Z"),
    (
        Action::Unplug,
        "M7 9L17 9L17 13C17 16.5 14.5 18 12 18C9.5 18 7 16.5 7 13ZM9.5 9L9.5 4M14.5 9L14.5 4M12 18L12 22M2.5 3L5.5 6M21.5 3L18.5 6",
    ),
    (Action::NotDrain, "M3 6L21 6M5 6L5 12C5 15 8 16 12 16C16 16 19 15 19 12L19 6M12 16L12 20L16 22M2 21L22 2"),
];

/// The outline of an action as the data of one path in a square of 24, to be stroked 1.6 wide with round ends. It holds
/// nothing but `M`, `L`, `C` and `Z` in absolute places, so that a card can read it too.
pub(crate) fn action_outline(action: Action) -> &'static str {
    OUTLINES.iter().find(|(drawn, _)| *drawn == action).map_or("", |(_, outline)| outline)
}

/// The outline of an action as a picture for a page.
pub(crate) fn action(action: Action) -> String {
    framed(&format!("<path{STROKE} d=\"{}\"/>", action_outline(action)))
}

/// The same, for others of the page to show it [again](action_again).
pub(crate) fn action_first(action: Action) -> String {
    framed(&format!("<path id=\"do_{}\"{STROKE} d=\"{}\"/>", action.name(), action_outline(action)))
}

/// What is on the page already, once more.
pub(crate) fn action_again(action: Action) -> String {
    framed(&format!("<use href=\"#do_{}\"/>", action.name()))
}

const STROKE: &str =
    " fill=\"none\" stroke=\"currentColor\" stroke-width=\"1.6\" stroke-linecap=\"round\" stroke-linejoin=\"round\"";

fn framed(inner: &str) -> String {
    format!("<svg class=\"caution-do\" viewBox=\"0 0 24 24\" aria-hidden=\"true\">{inner}</svg>")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_action_has_an_outline_of_its_own_inside_the_square() {
        let mut outlines: Vec<&str> = Action::ALL.iter().map(|action| action_outline(*action)).collect();
        for outline in &outlines {
            let figures = outline.split(|c: char| "MLCZ ".contains(c)).filter(|figure| !figure.is_empty());
            let all: Vec<f32> = figures.map(|figure| figure.parse().unwrap()).collect();
            assert!(all.len().is_multiple_of(2) && all.iter().all(|at| (0.0..=24.0).contains(at)), "{outline}");
        }
        outlines.sort_unstable();
        outlines.dedup();
        assert_eq!(outlines.len(), Action::ALL.len());
    }
}
