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
    /// Takes in a picture of four bytes a pixel, nothing of it see-through; whether it has so few colours.
    pub(super) fn take(&mut self, picture: &[u8]) -> bool {
        self.colours.clear();
        self.pixels.clear();
        let mut numbers: HashMap<[u8; 4], u8> = HashMap::new();
        let (pixels, _) = picture.as_chunks::<4>();
        // Most pixels are as the one before, so they are counted before they are looked up.
        for same in pixels.chunk_by(|one, next| u32::from_ne_bytes(*one) == u32::from_ne_bytes(*next)) {
            let Some(colour) = same.first() else { continue };
            let number = match numbers.get(colour) {
                Some(number) => *number,
                None => {
                    let Ok(number) = u8::try_from(numbers.len()) else { return false };
                    numbers.insert(*colour, number);
                    self.colours.extend(colour.iter().take(3));
                    number
                }
            };
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
        assert!(few.take(&[9, 8, 7, 255, 9, 8, 7, 255, 1, 2, 3, 255, 9, 8, 7, 255]));
        assert_eq!((few.colours, few.pixels), (vec![9, 8, 7, 1, 2, 3], vec![0, 0, 1, 0]));
        let grey = |count: u16| -> Vec<u8> {
            (0..count).flat_map(|at| [at.to_le_bytes()[0], at.to_le_bytes()[1], 0, 255]).collect()
        };
        assert!(FewColours::default().take(&grey(256)));
        assert!(!FewColours::default().take(&grey(257)));
    }
}
