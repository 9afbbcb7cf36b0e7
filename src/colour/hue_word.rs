//! The plain word for a colour, as one would call it across the table.

use super::space::{self, LinearRgb};

/// The word for a colour: a hue, and where it is far from that hue's own lightness, a tone.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct HueWord {
    /// The hue, by its English name.
    pub hue: &'static str,
    /// `dark`, `pale` or nothing.
    pub tone: Option<&'static str>,
}

/// The hues by where they begin on the circle of Lab, in degrees.
const HUES: [(f64, &str); 9] = [
    (0.0, "red"),
    (48.0, "orange"),
    (76.0, "yellow"),
    (108.0, "green"),
    (180.0, "teal"),
    (218.0, "blue"),
    (298.0, "violet"),
    (335.0, "pink"),
    (352.0, "red"),
];

/// Below this chroma a colour is a grey.
const GREY: f64 = 9.0;

/// The word for a colour in linear light.
pub fn hue_word(colour: [f32; 3]) -> HueWord {
    let [red, green, blue] = colour.map(f64::from);
    let lab = space::lab(LinearRgb::new(red, green, blue));
    let (lightness, chroma) = (lab.l, lab.a.hypot(lab.b));
    let angle = lab.b.atan2(lab.a).to_degrees().rem_euclid(360.0);
    let toned = |hue, low: f64, high: f64| HueWord {
        hue,
        tone: if lightness < low {
            Some("dark")
        } else if lightness > high {
            Some("pale")
        } else {
            None
        },
    };
    // Very dark colours look greyer than their chroma.
    if chroma < GREY || (lightness < 22.0 && chroma < GREY * 1.4) {
        return match lightness {
            l if l < 20.0 => HueWord { hue: "black", tone: None },
            l if l > 90.0 => HueWord { hue: "white", tone: None },
            _ => toned("grey", 42.0, 74.0),
        };
    }
    let hue = HUES.iter().rev().find(|(from, _)| angle >= *from).map_or("red", |(_, hue)| hue);
    match hue {
        // Dull warm colours are brown, and pale ones cream.
        "red" | "orange" | "yellow" if lightness > 78.0 && chroma < 38.0 && angle > 40.0 => {
            HueWord { hue: "cream", tone: None }
        }
        "orange" | "yellow" if chroma < 46.0 && lightness < 66.0 || lightness < 40.0 && hue != "red" => {
            toned("brown", 34.0, 58.0)
        }
        "red" if chroma < 26.0 && lightness < 55.0 => toned("brown", 30.0, 58.0),
        "yellow" => toned("yellow", 55.0, 90.0),
        "orange" => toned("orange", 45.0, 80.0),
        _ => toned(hue, 32.0, 72.0),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::Colour;

    #[test]
    fn colours_are_called_as_painters_call_them() {
        let called = |bytes: [u8; 3]| {
            let linear = space::linear(Colour(bytes));
            #[expect(clippy::cast_possible_truncation, reason = "light from 0 to 1")]
            let word = hue_word([linear.red as f32, linear.green as f32, linear.blue as f32]);
            format!("{} {}", word.tone.unwrap_or(""), word.hue).trim().to_owned()
        };
        for (code, word) in [
            ([0x1c, 0x1c, 0x1e], "black"),
            ([0xf2, 0xf2, 0xf0], "white"),
            ([0x8a, 0x8c, 0x8e], "grey"),
            ([0x5e, 0x40, 0x29], "dark brown"),
            ([0xb5, 0x65, 0x0f], "orange"),
            ([0xa0, 0x1f, 0x22], "red"),
            ([0x2f, 0x67, 0x69], "teal"),
            ([0x28, 0x46, 0x3f], "dark green"),
            ([0x24, 0x3c, 0x78], "dark blue"),
            ([0xe9, 0xdc, 0xb8], "cream"),
            ([0xe8, 0xc0, 0x30], "yellow"),
            ([0x5b, 0x3a, 0x7a], "dark violet"),
        ] {
            assert_eq!(called(code), word, "{code:x?}");
        }
    }
}
