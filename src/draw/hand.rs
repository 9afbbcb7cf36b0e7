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
    let mut written = String::new();
    put_figure(&mut written, number);
    written
}

/// Writes a number for SVG behind a text: one decimal place at most. There are thousands of them in a drawing, so they are
/// counted in tenths and written digit by digit, without a text of their own.
#[expect(clippy::cast_possible_truncation, reason = "places on a drawing are far below what fits")]
pub(super) fn put_figure(text: &mut String, number: f64) {
    let tenths = (number * 10.0).round() as i64;
    if tenths < 0 {
        text.push('-');
    }
    put_whole(text, tenths.unsigned_abs() / 10);
    let tenth = tenths.unsigned_abs() % 10;
    if tenth > 0 {
        text.push('.');
        put_whole(text, tenth);
    }
}

fn put_whole(text: &mut String, number: u64) {
    if number >= 10 {
        put_whole(text, number / 10);
    }
    text.extend(char::from_digit(u32::try_from(number % 10).unwrap_or_default(), 10));
}

/// A polygon's points.
pub(super) fn points(corners: &[(f64, f64)]) -> String {
    let pairs: Vec<String> = corners.iter().map(|(x, y)| format!("{},{}", figure(*x), figure(*y))).collect();
    pairs.join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_have_one_decimal_place_where_they_need_it() {
        let written = [12.0, 0.04, -0.04, 0.25, -0.26, -7.0, 1234.56].map(figure);
        assert_eq!(written, ["12", "0", "0", "0.3", "-0.3", "-7", "1234.6"]);
    }
}
