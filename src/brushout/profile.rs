//! The colour profile of a picture: many telephones save in wider primaries than the screen's usual ones.

use crate::colour::space::LinearRgb;

/// Primaries of a profile in linear light: columns red, green and blue as XYZ against D50.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Primaries([[f64; 3]; 3]);

/// From XYZ against D50 to linear sRGB: the primaries of IEC 61966-2-1, adapted by the Bradford transform as ICC.1 asks.
const TO_SRGB: [[f64; 3]; 3] = [
    [3.133_856_1, -1.616_866_7, -0.490_614_6],
    [-0.978_768_4, 1.916_141_5, 0.033_454_0],
    [0.071_945_3, -0.228_991_4, 1.405_242_7],
];

/// Primaries that come out as the screen's own within this are the screen's own.
const SAME: f64 = 0.02;

/// More entries than this has no profile of a camera.
const MOST_TAGS: usize = 200;

impl Primaries {
    /// The primaries that a profile (ICC.1) names; `None` where it names none, or the usual ones.
    pub(super) fn of(profile: &[u8]) -> Option<Self> {
        let own = Self([column(profile, *b"rXYZ")?, column(profile, *b"gXYZ")?, column(profile, *b"bXYZ")?]);
        let pure = [LinearRgb::new(1.0, 0.0, 0.0), LinearRgb::new(0.0, 1.0, 0.0), LinearRgb::new(0.0, 0.0, 1.0)];
        let moved = pure.iter().map(|one| {
            let other = own.to_srgb(*one);
            (one.red - other.red).abs().max((one.green - other.green).abs()).max((one.blue - other.blue).abs())
        });
        (moved.fold(0.0, f64::max) > SAME).then_some(own)
    }

    /// The same colour in the screen's usual primaries.
    pub(super) fn to_srgb(self, linear: LinearRgb) -> LinearRgb {
        let xyz: [f64; 3] = std::array::from_fn(|row| {
            self.0[0][row] * linear.red + self.0[1][row] * linear.green + self.0[2][row] * linear.blue
        });
        let [red, green, blue] = TO_SRGB.map(|row| row[0] * xyz[0] + row[1] * xyz[1] + row[2] * xyz[2]);
        LinearRgb::new(red, green, blue)
    }
}

/// One colorant: three numbers of 16.16 bits behind eight bytes of its entry.
fn column(profile: &[u8], signature: [u8; 4]) -> Option<[f64; 3]> {
    let count = usize::try_from(number(profile, 128)?).ok()?.min(MOST_TAGS);
    let entry = (0..count).map(|at| 132 + 12 * at).find(|at| profile.get(*at..at + 4) == Some(&signature[..]))?;
    let start = usize::try_from(number(profile, entry + 4)?).ok()?.checked_add(8)?;
    let value = |at: usize| {
        let bits = number(profile, start.checked_add(4 * at)?)?;
        Some(f64::from(bits.cast_signed()) / 65536.0)
    };
    Some([value(0)?, value(1)?, value(2)?])
}

fn number(bytes: &[u8], at: usize) -> Option<u32> {
    Some(u32::from_be_bytes(bytes.get(at..at.checked_add(4)?)?.try_into().ok()?))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A profile with nothing but these colorants.
    fn profile(columns: [[f64; 3]; 3]) -> Vec<u8> {
        let mut bytes = vec![0; 128];
        bytes.extend(3_u32.to_be_bytes());
        for (at, name) in [b"rXYZ", b"gXYZ", b"bXYZ"].into_iter().enumerate() {
            bytes.extend(name);
            bytes.extend((168 + 20 * u32::try_from(at).unwrap()).to_be_bytes());
            bytes.extend(20_u32.to_be_bytes());
        }
        for column in columns {
            bytes.extend(b"XYZ \0\0\0\0");
            for value in column {
                #[expect(clippy::cast_possible_truncation, reason = "a colorant is below 2")]
                bytes.extend(((value * 65536.0).round() as i32).to_be_bytes());
            }
        }
        bytes
    }

    /// Display P3 and sRGB, adapted to D50.
    const WIDE: [[f64; 3]; 3] =
        [[0.515_12, 0.241_2, -0.001_05], [0.291_98, 0.692_25, 0.041_89], [0.157_1, 0.066_57, 0.784_07]];
    const USUAL: [[f64; 3]; 3] =
        [[0.436_07, 0.222_49, 0.013_92], [0.385_15, 0.716_87, 0.097_08], [0.143_07, 0.060_61, 0.714_1]];

    #[test]
    fn wide_primaries_are_brought_home_and_usual_ones_left_alone() {
        assert_eq!(Primaries::of(&profile(USUAL)), None);
        let wide = Primaries::of(&profile(WIDE)).unwrap();
        let white = wide.to_srgb(LinearRgb::new(1.0, 1.0, 1.0));
        assert!([white.red, white.green, white.blue].iter().all(|channel| (channel - 1.0).abs() < 0.01), "{white:?}");
        assert!(wide.to_srgb(LinearRgb::new(1.0, 0.0, 0.0)).red > 1.2);
    }

    #[test]
    fn a_broken_profile_is_none() {
        let whole = profile(WIDE);
        for end in [0, 10, 131, 140, 170, whole.len() - 1] {
            assert_eq!(Primaries::of(&whole[..end]), None, "{end}");
        }
        assert_eq!(Primaries::of(&vec![0xff; 4000]), None);
    }
}
