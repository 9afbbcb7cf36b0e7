//! A hand that does not cut quite straight, but always the same way for the same name.

/// Small offsets drawn from a name.
pub(super) struct Hand {
    state: u32,
}

impl Hand {
    /// The hand for a name: FNV-1a, 32 bits (Fowler, Noll, Vo), so that equal names give equal pictures on every machine.
    pub(super) fn of(name: &str) -> Self {
        let state = name.bytes().fold(0x811c_9dc5_u32, |hash, byte| (hash ^ u32::from(byte)).wrapping_mul(0x0100_0193));
        Self { state: state | 1 }
    }

    /// The next offset between `-most` and `most` (xorshift, Marsaglia 2003).
    pub(super) fn slip(&mut self, most: f64) -> f64 {
        self.state ^= self.state << 13;
        self.state ^= self.state >> 17;
        self.state ^= self.state << 5;
        (f64::from(self.state % 2001) / 1000.0 - 1.0) * most
    }
}

/// A number for SVG: one decimal place at most.
pub(super) fn figure(number: f64) -> String {
    // Nothing added to nought below zero takes its sign away.
    ((number * 10.0).round() / 10.0 + 0.0).to_string()
}

/// A polygon's points.
pub(super) fn points(corners: &[(f64, f64)]) -> String {
    let pairs: Vec<String> = corners.iter().map(|(x, y)| format!("{},{}", figure(*x), figure(*y))).collect();
    pairs.join(" ")
}
