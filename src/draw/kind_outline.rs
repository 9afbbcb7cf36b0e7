//! What a product is for, drawn: a drop for a thinner, a bottle for a cleaner, a tube for glue, a heap for powder.
//!
//! Our own drawings, in a square of 24, like those of what to do. Paints are no outlines: they are brush-outs in their
//! colour.

use crate::trade::Kind;

/// The outline of a kind that is not drawn as a brush-out, as the data of one path in a square of 24, to be stroked 1.6
/// wide. It holds nothing but `M`, `L`, `C` and `Z` in absolute places, so that a card can read it too.
pub(crate) fn kind_outline(kind: Kind) -> Option<&'static str> {
    Some(match kind {
        Kind::Thinner => {
            "M12 2.5C14.5 7.5 18.5 10.5 18.5 15C18.5 18.6 15.6 21.5 12 21.5C8.4 21.5 5.5 18.6 5.5 15C5.5 10.5 9.5 7.5 12 2.5ZM8.5 15.5C8.7 17.2 9.8 18.3 11.3 18.6"
        }
        Kind::Medium => {
            "M12 2.5C14.5 7.5 18.5 10.5 18.5 15C18.5 18.6 15.6 21.5 12 21.5C8.4 21.5 5.5 18.6 5.5 15C5.5 10.5 9.5 7.5 12 2.5ZM12 12L12 18M9 15L15 15"
        }
        Kind::Cleaner => {
            "M9.5 2.5L14.5 2.5L14.5 6C17 7.5 18 9 18 11.5L18 21.5L6 21.5L6 11.5C6 9 7 7.5 9.5 6ZM9.5 6L14.5 6M6 13L18 13M6 18L18 18"
        }
        Kind::Varnish => "M3.5 4L20.5 4L20.5 7.5L3.5 7.5ZM5 7.5L19 7.5L19 21L5 21ZM8.5 11L8.5 17.5M11.5 11L11.5 13",
        Kind::DecalSoftener => {
            "M12 2.5C13.5 5 15.5 6.5 15.5 9C15.5 11 14 12.5 12 12.5C10 12.5 8.5 11 8.5 9C8.5 6.5 10.5 5 12 2.5ZM3 16C8 14 16 14 21 16L21 20.5C16 18.5 8 18.5 3 20.5Z"
        }
        Kind::Resist => {
            "M2.5 9.5L8 9.5L9.5 12.5L12.5 11L14 14.5L17 12.5L21.5 12.5L21.5 20L2.5 20ZM11 7L13.5 8.5L15.5 5L12 4Z"
        }
        Kind::Resin => {
            "M5 8L10 8L11 10L11 21.5L4 21.5L4 10ZM14 8L19 8L20 10L20 21.5L13 21.5L13 10ZM6 8L6.5 3L8.5 3L9 8M15 8L15.5 3L17.5 3L18 8M4 15L11 15M13 15L20 15"
        }
        Kind::Glue => "M8 8L16 8L18 21L6 21ZM10 8L11 3L13 3L14 8M6.5 18L17.5 18",
        Kind::Pigment => {
            "M2 20.5C6 19.5 9 11 12 10C15 11 18 19.5 22 20.5ZM11.6 6L12.4 6M7.8 8.5L8.6 8.5M15.4 7.5L16.2 7.5"
        }
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_has_no_colour_has_an_outline_of_its_own() {
        let mut outlines: Vec<&str> = Kind::ALL.iter().filter_map(|kind| kind_outline(*kind)).collect();
        let all = outlines.len();
        for outline in &outlines {
            let figures = outline.split(|c: char| "MLCZ ".contains(c)).filter(|figure| !figure.is_empty());
            assert!(
                figures.map(|figure| figure.parse::<f32>().unwrap()).all(|at| (0.0..=24.0).contains(&at)),
                "{outline}"
            );
        }
        outlines.sort_unstable();
        outlines.dedup();
        assert_eq!(outlines.len(), all);
        assert!(Kind::ALL.iter().all(|kind| kind.has_colour() || kind_outline(*kind).is_some()));
    }
}
