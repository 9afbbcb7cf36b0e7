//! The colours that cards are printed in: those of the built-in theme on white paper.

use crate::measure::Colour;

/// Text.
pub(super) const INK: Colour = Colour([0x1e, 0x1b, 0x18]);
/// Text that stands back; 6.9 : 1 on white.
pub(super) const SOFT: Colour = Colour([0x5c, 0x55, 0x4c]);
/// Fine lines.
pub(super) const HAIR: Colour = Colour([0xb9, 0xae, 0x9c]);
/// The one accent: numbers of steps.
pub(super) const MADDER: Colour = Colour([0x9b, 0x2d, 0x20]);
/// The edge of cautions.
pub(super) const OCHRE: Colour = Colour([0xb7, 0x79, 0x1f]);
/// The ground of cautions; white enough that a black and white printer leaves the text clear.
pub(super) const CAUTION: Colour = Colour([0xfb, 0xf5, 0xe8]);
/// The site's paper, for pictures on a screen.
pub(super) const PAPER: Colour = Colour([0xfa, 0xf6, 0xee]);

/// A colour between two; `part` is the share of the second.
pub(super) fn between(one: Colour, other: Colour, part: f64) -> Colour {
    let mut mixed = [0; 3];
    for (at, channel) in mixed.iter_mut().enumerate() {
        let value = f64::from(one.0[at]) * (1.0 - part) + f64::from(other.0[at]) * part;
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a mean of two bytes is a byte")]
        let byte = value.round().clamp(0.0, 255.0) as u8;
        *channel = byte;
    }
    Colour(mixed)
}
