//! Colours of light: linear and encoded sRGB, XYZ and Lab, each a type of its own, and how far two lie apart.

use std::sync::LazyLock;

use palette::IntoColor as _;
use palette::color_difference::Ciede2000 as _;
use palette::white_point::{Any, WhitePoint};

use super::constants::{JUST_SEEN, PRIMARIES, WHITE_X, WHITE_Z};
use crate::measure::{Colour, exact};

/// sRGB in linear light, 0 to 1 on a screen; a strong paint may lie outside.
pub type LinearRgb = palette::LinSrgb<f64>;

/// sRGB as encoded by IEC 61966-2-1, 0 to 1 on a screen.
pub type EncodedRgb = palette::Srgb<f64>;

/// CIE XYZ against [`White`], Y of a perfect white is 1.
pub type Xyz = palette::Xyz<White, f64>;

/// CIE Lab of 1976 (ISO/CIE 11664-4) against [`White`].
pub type Lab = palette::Lab<White, f64>;

/// D65 from the chromaticity that sRGB rounds it to, so that screen white is exactly L* = 100.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct White;

impl WhitePoint<f64> for White {
    fn get_xyz() -> palette::Xyz<Any, f64> {
        palette::Xyz::new(WHITE_X, 1.0, WHITE_Z)
    }
}

/// The matrix from linear sRGB to XYZ, rows X, Y, Z.
static TO_XYZ: LazyLock<[[f64; 3]; 3]> = LazyLock::new(matrix_to_xyz);

/// The matrix from XYZ to linear sRGB, rows red, green, blue.
static FROM_XYZ: LazyLock<[[f64; 3]; 3]> = LazyLock::new(matrix_from_xyz);

/// Derived from the primaries and the white as IEC 61966-2-1, annex, describes it.
fn matrix_to_xyz() -> [[f64; 3]; 3] {
    let columns = PRIMARIES.map(|[x, y]| [x / y, 1.0, (1.0 - x - y) / y]);
    let rows: [[f64; 3]; 3] = std::array::from_fn(|row| columns.map(|column| column[row]));
    let white = [WHITE_X, 1.0, WHITE_Z];
    let whole = determinant(rows);
    let strengths: [f64; 3] = std::array::from_fn(|channel| {
        let mut replaced = rows;
        for (row, value) in replaced.iter_mut().zip(white) {
            row[channel] = value;
        }
        determinant(replaced) / whole
    });
    rows.map(|row| std::array::from_fn(|channel| row[channel] * strengths[channel]))
}

/// The inverse of [`TO_XYZ`], by Cramer's rule.
fn matrix_from_xyz() -> [[f64; 3]; 3] {
    let whole = determinant(*TO_XYZ);
    std::array::from_fn(|row| {
        std::array::from_fn(|column| {
            let mut replaced = *TO_XYZ;
            for (at, line) in replaced.iter_mut().enumerate() {
                line[row] = if at == column { 1.0 } else { 0.0 };
            }
            determinant(replaced) / whole
        })
    })
}

fn determinant(m: [[f64; 3]; 3]) -> f64 {
    let minor = |a: usize, b: usize| m[1][a] * m[2][b] - m[1][b] * m[2][a];
    m[0][0] * minor(1, 2) - m[0][1] * minor(0, 2) + m[0][2] * minor(0, 1)
}

/// The luminance of each linear channel at its full: the weights of Y.
pub(crate) fn luminance_weights() -> [f64; 3] {
    TO_XYZ[1]
}

/// Relative luminance Y, 1 for a perfect white.
pub fn luminance(linear: LinearRgb) -> f64 {
    let [red, green, blue] = luminance_weights();
    red * linear.red + green * linear.green + blue * linear.blue
}

/// The relative luminance Y of a CIE lightness L* (ISO/CIE 11664-4), 0 to 1.
pub fn luminance_of_lightness(lightness: f64) -> f64 {
    let root = (lightness.clamp(0.0, 100.0) + 16.0) / 116.0;
    if root > 6.0 / 29.0 { root.powi(3) } else { 3.0 * (6.0_f64 / 29.0).powi(2) * (root - 4.0 / 29.0) }
}

/// Tristimulus values of a colour in linear light.
pub fn xyz(linear: LinearRgb) -> Xyz {
    let [x, y, z] = TO_XYZ.map(|[red, green, blue]| red * linear.red + green * linear.green + blue * linear.blue);
    Xyz::new(x, y, z)
}

/// Lab of a colour in linear light.
pub fn lab(linear: LinearRgb) -> Lab {
    xyz(linear).into_color()
}

/// The colour in linear light that a Lab stands for; the way back from [`lab`].
pub fn linear_of(lab: Lab) -> LinearRgb {
    let xyz: Xyz = lab.into_color();
    let [red, green, blue] = FROM_XYZ.map(|[from_x, from_y, from_z]| from_x * xyz.x + from_y * xyz.y + from_z * xyz.z);
    LinearRgb::new(red, green, blue)
}

/// What an author writes, in encoded sRGB.
pub fn encoded(colour: Colour) -> EncodedRgb {
    let [red, green, blue] = colour.0.map(|byte| f64::from(byte) / 255.0);
    EncodedRgb::new(red, green, blue)
}

/// What an author writes, in linear light.
pub fn linear(colour: Colour) -> LinearRgb {
    encoded(colour).into_linear()
}

/// The nearest colour that a screen shows: each channel cut to 0 to 1 and rounded to eight bits.
pub fn shown(linear: LinearRgb) -> Colour {
    let encoded: EncodedRgb = EncodedRgb::from_linear(linear);
    Colour([encoded.red, encoded.green, encoded.blue].map(eight_bits))
}

fn eight_bits(value: f64) -> u8 {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to the range of a byte")]
    let byte = (value * 255.0).round().clamp(0.0, 255.0) as u8;
    byte
}

/// What a screen shows of a colour, not rounded: each channel cut to 0 to 1.
pub(crate) fn on_screen(linear: LinearRgb) -> LinearRgb {
    let [red, green, blue] = [linear.red, linear.green, linear.blue].map(|channel| channel.clamp(0.0, 1.0));
    LinearRgb::new(red, green, blue)
}

/// A difference of colour in figures, no finer than colours are known: whole, and `<1` for what hardly anybody sees.
pub fn in_whole(difference: f64) -> String {
    if difference < JUST_SEEN { "<1".to_owned() } else { exact(difference, 0) }
}

/// How far two colours lie apart: CIEDE2000 (ISO/CIE 11664-6) with all weights 1. Below 1 is hardly seen.
pub fn difference(a: Colour, b: Colour) -> f64 {
    lab_difference(lab(linear(a)), lab(linear(b)))
}

/// How far two colours lie apart that are not rounded to a screen's steps; see [`difference`].
pub fn lab_difference(a: Lab, b: Lab) -> f64 {
    a.difference(b)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lab_leads_back_to_the_colour() {
        for bytes in [[0; 3], [255; 3], [200, 30, 30], [12, 80, 250], [90, 74, 62]] {
            let colour = Colour(bytes);
            assert_eq!(shown(linear_of(lab(linear(colour)))), colour);
        }
    }
}
