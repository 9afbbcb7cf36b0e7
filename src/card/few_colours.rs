//! A picture of few colours: a list of them and one byte a pixel, which packs in a third of the time of three bytes.

use std::collections::HashMap;

/// A picture of few colours.
#[derive(Debug, Default)]
pub(super) struct FewColours {
    /// The colours, three bytes each.
    pub(super) colours: Vec<u8>,
    /// The number of each pixel's colour.
    pub(super) pixels: Vec<u8>,
}

impl FewColours {
    /// Takes in a picture of so many pixels a row and four bytes a pixel, nothing of it see-through; whether it has so few
    /// colours.
    pub(super) fn take(&mut self, picture: &[u8], width: usize) -> bool {
        self.colours.clear();
        self.pixels.clear();
        let mut numbers: HashMap<[u8; 4], u8> = HashMap::new();
        let mut above: &[u8] = &[];
        for row in picture.chunks_exact((width * 4).max(4)) {
            // Many rows are as the one above: paper, and the insides of chips.
            if row == above {
                self.pixels.extend_from_within(self.pixels.len() - row.len() / 4..);
            } else if !self.take_row(row, &mut numbers) {
                return false;
            }
            above = row;
        }
        true
    }

    /// Takes in one row; whether all its colours have a number.
    fn take_row(&mut self, row: &[u8], numbers: &mut HashMap<[u8; 4], u8>) -> bool {
        let (pixels, _) = row.as_chunks::<4>();
        // Most pixels are as the one before, so they are counted before they are looked up.
        for same in pixels.chunk_by(|one, next| u32::from_ne_bytes(*one) == u32::from_ne_bytes(*next)) {
            let Some(colour) = same.first() else { continue };
            let known = numbers.get(colour).copied();
            let Some(number) = known.or_else(|| u8::try_from(numbers.len()).ok()) else { return false };
            if known.is_none() {
                numbers.insert(*colour, number);
                self.colours.extend(colour.iter().take(3));
            }
            self.pixels.resize(self.pixels.len() + same.len(), number);
        }
        true
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_colour_has_one_number_and_more_than_a_byte_can_count_are_too_many() {
        let mut few = FewColours::default();
        assert!(few.take(&[9, 8, 7, 255, 9, 8, 7, 255, 1, 2, 3, 255, 9, 8, 7, 255], 2));
        assert_eq!((few.colours, few.pixels), (vec![9, 8, 7, 1, 2, 3], vec![0, 0, 1, 0]));
        let grey = |count: u16| -> Vec<u8> {
            (0..count).flat_map(|at| [at.to_le_bytes()[0], at.to_le_bytes()[1], 0, 255]).collect()
        };
        assert!(FewColours::default().take(&grey(256), 64));
        assert!(!FewColours::default().take(&grey(257), 257));
    }
}
