//! A picture of few colours: a list of them and one byte a pixel, which packs much sooner than three bytes.

/// Red, green, blue, and how little is seen through.
type Pixel = [u8; 4];

/// A picture of few colours.
#[derive(Debug, Default)]
pub(super) struct FewColours {
    /// The colours, three bytes each.
    pub(super) colours: Vec<u8>,
    /// The number of each pixel's colour.
    pub(super) pixels: Vec<u8>,
    /// Where each colour's number is found.
    numbers: Numbers,
}

impl FewColours {
    /// Takes in a picture of so many pixels a row and four bytes a pixel, nothing of it see-through; whether it has so few
    /// colours.
    pub(super) fn take(&mut self, picture: &[u8], width: usize) -> bool {
        self.colours.clear();
        self.pixels.clear();
        self.numbers.clear();
        let mut above: &[u8] = &[];
        for row in picture.chunks_exact((width * 4).max(4)) {
            // Many rows are as the one above: paper, and the insides of chips.
            if row == above {
                self.pixels.extend_from_within(self.pixels.len() - row.len() / 4..);
            } else if !self.take_row(row) {
                return false;
            }
            above = row;
        }
        true
    }

    /// Takes in one row; whether all its colours have a number.
    fn take_row(&mut self, row: &[u8]) -> bool {
        let (pixels, _) = row.as_chunks::<4>();
        let begun = self.pixels.len();
        self.pixels.resize(begun + pixels.len(), 0);
        let mut at = 0;
        while let Some(pixel) = pixels.get(at) {
            let Some(number) = self.number(*pixel) else { return false };
            // Most pixels are as the one before, so it is first seen how far that goes.
            let same = same_pixels(&pixels[at..], *pixel);
            self.pixels[begun + at..begun + at + same].fill(number);
            at += same;
        }
        true
    }

    /// The number of a colour, which has one from now on; none where there are too many.
    fn number(&mut self, colour: Pixel) -> Option<u8> {
        let place = self.numbers.place(colour);
        if let Some((_, number)) = place {
            return Some(*number);
        }
        let number = u8::try_from(self.colours.len() / 3).ok()?;
        *place = Some((colour, number));
        self.colours.extend(&colour[..3]);
        Some(number)
    }
}

/// How many of the pixels at the beginning are of a colour, eight at a time.
fn same_pixels(pixels: &[Pixel], colour: Pixel) -> usize {
    let (eights, _) = pixels.as_chunks::<8>();
    let whole = eights.iter().take_while(|eight| **eight == [colour; 8]).count() * 8;
    whole + pixels[whole..].iter().take_while(|pixel| **pixel == colour).count()
}

/// So many places are four times what can be filled, so few are looked at for a colour.
const PLACES: usize = 1024;

/// Colours with their numbers. Each has the place that follows from its bytes, or the next one that was free.
#[derive(Debug)]
struct Numbers(Vec<Option<(Pixel, u8)>>);

impl Default for Numbers {
    fn default() -> Self {
        Self(vec![None; PLACES])
    }
}

impl Numbers {
    /// The place of a colour.
    fn place(&mut self, colour: Pixel) -> &mut Option<(Pixel, u8)> {
        // Fibonacci hashing: bytes that differ a little are spread far (Knuth, The Art of Computer Programming 3, 6.4).
        let spread = u32::from_ne_bytes(colour).wrapping_mul(2_654_435_769);
        let mut at = usize::try_from(spread >> 22).unwrap_or_default() % PLACES;
        while self.0[at].is_some_and(|(other, _)| other != colour) {
            at = (at + 1) % PLACES;
        }
        &mut self.0[at]
    }

    fn clear(&mut self) {
        self.0.fill(None);
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
