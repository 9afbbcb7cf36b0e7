//! A colour as an author writes it: the screen's red, green and blue.

use super::FromText;

/// A colour in sRGB (IEC 61966-2-1), encoded, eight bits a channel.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Colour(pub [u8; 3]);

impl Colour {
    /// CIE lightness, from 0 (black) to 100 (white), against the white of the screen (D65).
    pub fn lightness(self) -> f64 {
        let linear = |byte: u8| {
            let value = f64::from(byte) / 255.0;
            if value <= 0.04045 { value / 12.92 } else { ((value + 0.055) / 1.055).powf(2.4) }
        };
        let [red, green, blue] = self.0.map(linear);
        let luminance = 0.2126 * red + 0.7152 * green + 0.0722 * blue;
        if luminance > 216.0 / 24389.0 { 116.0 * luminance.cbrt() - 16.0 } else { luminance * 24389.0 / 27.0 }
    }
}

impl FromText for Colour {
    const EXPECTED: &'static str = "a colour such as \"#5a4a3e\", in quotes";
    const EXAMPLE: &'static str = "\"#5a4a3e\"";

    fn from_text(text: &str) -> Result<Self, String> {
        let digits = text.trim().strip_prefix('#').ok_or("a colour begins with '#'; in YAML it needs quotes")?;
        if digits.len() != 6 || !digits.bytes().all(|byte| byte.is_ascii_hexdigit()) {
            return Err("six hexadecimal digits follow the '#'".to_owned());
        }
        let channel = |at: usize| u8::from_str_radix(&digits[at..at + 2], 16).unwrap_or(0);
        Ok(Self([channel(0), channel(2), channel(4)]))
    }
}

impl std::fmt::Display for Colour {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let [red, green, blue] = self.0;
        write!(f, "#{red:02x}{green:02x}{blue:02x}")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lightness_runs_from_black_to_white() {
        for (bytes, expected) in [([0; 3], 0.0), ([255; 3], 100.0), ([119; 3], 50.0)] {
            assert!((Colour(bytes).lightness() - expected).abs() < 0.1, "{bytes:?}");
        }
    }

    #[test]
    fn colours_read_and_show() {
        assert_eq!(Colour::from_text("#5A4a3e").unwrap().to_string(), "#5a4a3e");
        for text in ["5a4a3e", "#5a4", "#5a4a3g", "brown", "#é4a3e"] {
            assert!(Colour::from_text(text).is_err(), "{text}");
        }
    }
}
