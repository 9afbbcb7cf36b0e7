//! What a scheme is painted with, drawn: one outline a technique, for the head of its page.
//!
//! Our own drawings, in a square of 24: strokes alone. The word always stands beside one.

use crate::trade::Technique;

const fn outline(technique: Technique) -> &'static str {
    match technique {
        Technique::Brush => {
            "M21 3L10.5 13.5M10.5 13.5C7.5 13 5.8 15.2 5.8 17.8C5.4 19.4 4.2 20 3 20.2C6 21.8 10.8 21 11.9 17.4C12.3 15.8 11.8 14.4 10.5 13.5Z"
        }
        Technique::Airbrush => {
            "M1.5 14L6 12.5L17 12.5L20 14L17 15.5L6 15.5ZM8.5 12.5L7.5 6.5L13.5 6.5L12.5 12.5M15 12.5L16 9.5M19.5 14C22.5 15 22.5 19 19 20.5C16 21.8 13 20.5 11 21.5"
        }
        Technique::SprayCan => {
            "M8 10L18 10L18 21.5L8 21.5ZM9.5 10C9.5 8 11 7 11 7L15 7C15 7 16.5 8 16.5 10M11.5 7L11.5 4L14.5 4L14.5 7M8.5 5.5L6.5 5.5M8 3.5L3.5 2M8 7.5L3.5 9M4.5 5.5L2 5.5"
        }
        Technique::Sponge => {
            "M3.5 10C5 7 9 8.5 12 7C15.5 5.5 20.5 7 20.8 10.5C21 14 20.5 17.5 18.5 18.3C14.5 19.5 8.5 19.3 5 18C3 16.5 2.7 12.5 3.5 10ZM7.5 12L8 12.4M13 10.8L13.5 11.2M10.5 15.3L11 15.7M16.3 13.8L16.8 14.2M17 10L17.3 10.2"
        }
        Technique::Drybrush => {
            "M10.5 2L13.5 2L13.5 9L10.5 9ZM7 9L17 9L17 12.5L7 12.5ZM7 12.5L5.5 21M10.3 12.5L9.8 21.5M13.7 12.5L14.2 21.5M17 12.5L18.5 21"
        }
        Technique::Stipple => {
            "M11 1.5L13 1.5L13 7.5L11 7.5ZM9.5 7.5L14.5 7.5L15 11L9 11ZM9 11L8.5 15.5L15.5 15.5L15 11M5 19L5.3 19.2M9 20.5L9.3 20.7M12.5 18.5L12.8 18.7M15.5 21L15.8 21.2M18.5 18.8L18.8 19"
        }
        Technique::Pipette => {
            "M15.5 4.5C17 2 20 2 21.3 3.6C22.5 5.2 21.8 7.5 19.8 8.7ZM13.5 5.5L18.8 10.8M15 7.5L6 16.5L5 19.5L8 18.5L17 9.5M4 20.5L3 22"
        }
        Technique::Cloth => {
            "M3 8C7 5 10.5 10 14.5 7.2C17.5 5 19.5 6.8 21 8L20 18C17 20.2 14 16 11 18C8 20 5.5 18.6 4 18ZM9 9.5C8.5 12 9 14 8.5 16.5M15.5 8.5C15 11 15.5 13 15 15.5"
        }
        Technique::Hand => {
            "M8 21.5L8 15.5L4.5 12L6 10.5L9 13L9 4.5L11 4.5L11 11L11.3 3L13.4 3L13.4 11L14.2 4.3L16 4.6L15.8 11.5L17 6.8L18.6 7.2L18 14L16.5 17.5L16.5 21.5"
        }
        Technique::Blade => "M2.5 21.5L12.5 11L16 14L9 19.5ZM12.5 11L19.5 3.5L22 6L16 14M12 14.5L12.4 14.9",
    }
}

/// The outline of a technique's tool as a picture for a page.
pub(crate) fn tool(technique: Technique) -> String {
    format!(
        "<svg class=\"tool\" viewBox=\"0 0 24 24\" aria-hidden=\"true\"><path fill=\"none\" \
         stroke=\"currentColor\" stroke-width=\"1.5\" stroke-linecap=\"round\" stroke-linejoin=\"round\" d=\"{}\"/></svg>",
        outline(technique)
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_tool_has_an_outline_of_its_own() {
        let mut outlines: Vec<&str> = Technique::ALL.iter().map(|technique| outline(*technique)).collect();
        outlines.sort_unstable();
        outlines.dedup();
        assert_eq!(outlines.len(), Technique::ALL.len());
        assert!(tool(Technique::Airbrush).contains("aria-hidden"));
    }
}
