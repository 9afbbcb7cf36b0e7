//! Points in a picture, and how large a patch around them is read.

use crate::measure::FromText;

/// A point in the upright picture, from its upper left corner.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Point {
    across: Coordinate,
    down: Coordinate,
}

#[derive(Debug, Clone, Copy, PartialEq)]
enum Coordinate {
    Pixels(f64),
    /// Of the width or the height, 0 to 1.
    Part(f64),
}

impl Point {
    /// Where it lies in a picture of that size, in pixels.
    pub fn in_picture(self, width: u32, height: u32) -> (f64, f64) {
        (self.across.pixels(width), self.down.pixels(height))
    }
}

impl Coordinate {
    fn pixels(self, length: u32) -> f64 {
        match self {
            Self::Pixels(pixels) => pixels,
            Self::Part(part) => part * f64::from(length),
        }
    }

    fn read(text: &str) -> Result<Self, String> {
        let text = text.trim();
        let (digits, per_cent) = text.strip_suffix('%').map_or((text, false), |digits| (digits.trim(), true));
        let plain = !digits.is_empty() && digits.bytes().all(|byte| byte.is_ascii_digit() || byte == b'.');
        let number = digits.parse::<f64>().ok().filter(|number| plain && *number <= 1e6);
        let number = number.ok_or_else(|| format!("'{text}' is not a plain number"))?;
        Ok(if per_cent { Self::Part(number / 100.0) } else { Self::Pixels(number) })
    }
}

impl FromText for Point {
    const EXPECTED: &'static str = "a point such as '1200,840' (pixels from the upper left corner) or '30%,45%'";
    const EXAMPLE: &'static str = "30%,45%";

    fn from_text(text: &str) -> Result<Self, String> {
        let (across, down) = text.split_once(',').ok_or("there is no comma between across and down")?;
        Ok(Self { across: Coordinate::read(across)?, down: Coordinate::read(down)? })
    }
}

/// The side of the square that is read around a point.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PatchSize(Coordinate);

impl PatchSize {
    /// Three per cent of the picture's shorter side: on a card that fills the picture some three millimetres.
    pub const USUAL: Self = Self(Coordinate::Part(0.03));

    /// In whole pixels, in a picture of that size.
    pub fn in_picture(self, width: u32, height: u32) -> u32 {
        let side = self.0.pixels(width.min(height)).round().clamp(0.0, f64::from(width.min(height)));
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to a side of the picture")]
        let side = side as u32;
        side
    }
}

impl FromText for PatchSize {
    const EXPECTED: &'static str = "a side such as '40' (pixels) or '3%' of the shorter side of the picture";
    const EXAMPLE: &'static str = "3%";

    fn from_text(text: &str) -> Result<Self, String> {
        Coordinate::read(text).map(Self)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn points_are_pixels_or_parts_of_the_picture() {
        let at = |text: &str| Point::from_text(text).map(|point| point.in_picture(800, 600));
        assert_eq!(at("120,80"), Ok((120.0, 80.0)));
        assert_eq!(at(" 25% , 50%"), Ok((200.0, 300.0)));
        for text in ["", "5", "5,", "a,b", "-1,2", "1e3,2", "NaN,1", "1;2", "99999999,1"] {
            assert!(at(text).is_err(), "{text}");
        }
    }
}
