//! Grain that looks thrown and is always the same.

use super::vector::{V3, mix};

/// A number from 0 to 1 for a cell of space.
#[expect(clippy::cast_sign_loss, reason = "only the bits matter")]
fn cell(x: i32, y: i32, z: i32) -> f32 {
    let mut bits = (x as u32).wrapping_mul(0x8da6_b343)
        ^ (y as u32).wrapping_mul(0xd816_3841)
        ^ (z as u32).wrapping_mul(0xcb1a_b31f);
    bits ^= bits >> 15;
    bits = bits.wrapping_mul(0x2c1b_3c6d);
    bits ^= bits >> 12;
    bits = bits.wrapping_mul(0x297a_2d39);
    bits ^= bits >> 15;
    (bits >> 8) as f32 / 16_777_216.0
}

/// Soft grain from 0 to 1, one lump a unit of space.
pub(crate) fn soft(p: V3) -> f32 {
    let low = p.map(f32::floor);
    let within = [0, 1, 2].map(|axis| {
        let part = p[axis] - low[axis];
        part * part * (3.0 - 2.0 * part)
    });
    #[expect(clippy::cast_possible_truncation, reason = "a place far outside saturates")]
    let [x, y, z] = low.map(|number| number as i32);
    let edge = |dy: i32, dz: i32| {
        let (y, z) = (y.wrapping_add(dy), z.wrapping_add(dz));
        mix(cell(x, y, z), cell(x.wrapping_add(1), y, z), within[0])
    };
    mix(mix(edge(0, 0), edge(1, 0), within[1]), mix(edge(0, 1), edge(1, 1), within[1]), within[2])
}

/// Grain of two sizes.
pub(crate) fn rough(p: V3) -> f32 {
    let fine = p.map(|number| number * 2.3 + 17.0);
    soft(p) * 0.62 + soft(fine) * 0.38
}
