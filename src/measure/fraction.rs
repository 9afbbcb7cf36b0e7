//! Exact fractions, so that a ratio such as 1 : 4 or 0.5 : 3 stays what the author wrote.

use num_rational::Ratio;

use super::FromText;

/// A number that is not negative, kept exactly: at most six digits before and six after the point.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Fraction(Ratio<u64>);

/// The most digits before and after the point, and above and below the stroke.
const MOST_DIGITS: usize = 6;

/// The denominator of a sum whose exact one is too large: it is right to nine places after the point.
const FINE: u64 = 1_000_000_000;

impl Fraction {
    /// Nought.
    pub const ZERO: Self = Self(Ratio::new_raw(0, 1));
    /// One whole.
    pub const ONE: Self = Self(Ratio::new_raw(1, 1));

    /// A whole number of `numerator` over `denominator`; a denominator of zero counts as one.
    pub fn new(numerator: u64, denominator: u64) -> Self {
        Self(Ratio::new(numerator, denominator.max(1)))
    }

    /// The fraction of two large numbers in lowest terms; to nine places, where these are too large still.
    fn of(over: u128, under: u128) -> Self {
        let lowest = Ratio::new(over, under.max(1));
        let exact = u64::try_from(*lowest.numer()).ok().zip(u64::try_from(*lowest.denom()).ok());
        let (over, under) = exact.unwrap_or_else(|| {
            let rounded = (*lowest.numer() as f64 / *lowest.denom() as f64 * FINE as f64).round();
            #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "not negative; saturates")]
            let rounded = rounded as u64;
            (rounded, FINE)
        });
        Self::new(over, under)
    }

    /// One of so many equal pieces; of none at all it is the whole.
    fn split(self, pieces: u64) -> Self {
        Self::of(u128::from(*self.0.numer()), u128::from(*self.0.denom()) * u128::from(pieces.max(1)))
    }

    /// As a binary number, for figures that are estimates anyway.
    pub fn as_f64(self) -> f64 {
        *self.0.numer() as f64 / *self.0.denom() as f64
    }

    /// Whether it is zero.
    pub fn is_zero(self) -> bool {
        *self.0.numer() == 0
    }

    /// Numerator and denominator in lowest terms.
    pub fn terms(self) -> (u64, u64) {
        (*self.0.numer(), *self.0.denom())
    }
}

impl std::ops::Add for Fraction {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        let wide = |fraction: Self| (u128::from(*fraction.0.numer()), u128::from(*fraction.0.denom()));
        let ((over, under), (other_over, other_under)) = (wide(self), wide(other));
        Self::of((over * other_under).saturating_add(other_over * under), under * other_under)
    }
}

impl std::ops::Div<u64> for Fraction {
    type Output = Self;

    fn div(self, by: u64) -> Self {
        self.split(by)
    }
}

impl std::ops::Mul for Fraction {
    type Output = Self;

    fn mul(self, other: Self) -> Self {
        let ((over, under), (other_over, other_under)) = (self.terms(), other.terms());
        Self::of(u128::from(over) * u128::from(other_over), u128::from(under) * u128::from(other_under))
    }
}

impl std::ops::Div for Fraction {
    type Output = Self;

    /// By zero it is the whole.
    fn div(self, by: Self) -> Self {
        let (over, under) = by.terms();
        if over == 0 { self } else { self * Self::new(under, over) }
    }
}

impl std::iter::Sum for Fraction {
    fn sum<I: Iterator<Item = Self>>(all: I) -> Self {
        all.fold(Self::ZERO, |sum, one| sum + one)
    }
}

impl FromText for Fraction {
    const EXPECTED: &'static str = "a number such as '3', '0.5' or '1/3'";
    const EXAMPLE: &'static str = "3";

    fn from_text(text: &str) -> Result<Self, String> {
        let text = text.trim();
        refuse_comma(text)?;
        if let Some(why) = part_sign(text) {
            return Err(why);
        }
        if let Some((over, under)) = text.split_once('/') {
            let (over, under) = (whole(over)?, whole(under)?);
            if under == 0 {
                return Err("nothing can be divided by 0".to_owned());
            }
            return Ok(Self::new(over, under));
        }
        let (before, behind) = text.split_once('.').unwrap_or((text, ""));
        if behind.is_empty() && text.contains('.') {
            return Err("there is no digit after the point".to_owned());
        }
        let places = u32::try_from(behind.len()).unwrap_or(u32::MAX);
        let scale = if behind.len() > MOST_DIGITS { 1 } else { 10_u64.pow(places) };
        let part = if behind.is_empty() { 0 } else { whole(behind)? };
        Ok(Self::new(whole(before)? * scale + part, scale))
    }
}

/// Parts of one that are one letter each: what is above its stroke and what is below it.
const PART_SIGNS: &[(char, u64, u64)] = &[
    ('½', 1, 2),
    ('¼', 1, 4),
    ('¾', 3, 4),
    ('⅓', 1, 3),
    ('⅔', 2, 3),
    ('⅛', 1, 8),
    ('⅜', 3, 8),
    ('⅝', 5, 8),
    ('⅞', 7, 8),
];

/// Why a number such as `1½` can't be read, if it begins with one.
fn part_sign(text: &str) -> Option<String> {
    let digits = text.bytes().take_while(u8::is_ascii_digit).count();
    let (before, rest) = text.split_at_checked(digits)?;
    let sign = rest.trim_start().chars().next()?;
    let (_, part, parts) = PART_SIGNS.iter().find(|(known, ..)| *known == sign)?;
    let ones = if before.is_empty() { 0 } else { whole(before).ok()? };
    Some(format!("write '{}' for '{before}{sign}'", Fraction::new(ones * parts + part, *parts)))
}

/// Says how a number with a comma is written.
fn refuse_comma(text: &str) -> Result<(), String> {
    let Some((before, behind)) = text.split_once(',') else { return Ok(()) };
    let digits = |part: &str| !part.is_empty() && part.bytes().all(|byte| byte.is_ascii_digit());
    if !digits(before) || !digits(behind) {
        return Ok(());
    }
    if behind.len() == 3 && !before.starts_with('0') {
        return Err(format!("write {before}{behind} without a comma, or with a point: {before}.{behind}"));
    }
    Err(format!("write a point, not a comma: {before}.{behind}"))
}

/// A run of at most six digits.
fn whole(digits: &str) -> Result<u64, String> {
    let digits = digits.trim();
    if digits.starts_with('-') {
        return Err("it can't be negative".to_owned());
    }
    if digits.is_empty() || !digits.bytes().all(|byte| byte.is_ascii_digit()) {
        return Err("that is not a plain number".to_owned());
    }
    if digits.len() > MOST_DIGITS {
        return Err(format!("it has more than {MOST_DIGITS} digits on one side of the point"));
    }
    digits.parse().map_err(|_| "that is not a plain number".to_owned())
}

impl std::fmt::Display for Fraction {
    /// A whole number plainly, a decimal where it ends within three places, otherwise as numerator / denominator.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let (over, under) = self.terms();
        if 1000 % under != 0 {
            return write!(f, "{over}/{under}");
        }
        let thousandths = over * (1000 / under);
        let text = format!("{}.{:03}", thousandths / 1000, thousandths % 1000);
        f.write_str(text.trim_end_matches('0').trim_end_matches('.'))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ratios_stay_exact() {
        let read = |text| Fraction::from_text(text).map(|fraction| fraction.to_string());
        assert_eq!(read("0.5"), Ok("0.5".to_owned()));
        assert_eq!(read("1/3"), Ok("1/3".to_owned()));
        assert_eq!(read("12"), Ok("12".to_owned()));
        let third = Fraction::new(1, 3);
        assert_eq!(third + third + third, Fraction::ONE);
    }

    #[test]
    fn sums_that_fit_no_word_are_right_to_nine_places() {
        let parts =
            ["1/999983", "1/999979", "1/999961", "1/999959"].map(|text| Fraction::from_text(text).unwrap() / 100);
        let sum: Fraction = parts.into_iter().sum();
        assert!((sum.as_f64() - 4.000_118e-8).abs() < 1e-9, "{}", sum.as_f64());
    }

    #[test]
    fn a_comma_is_shown_as_a_point() {
        for (text, mend) in [
            ("2,90", "write a point, not a comma: 2.90"),
            ("0,5", "write a point, not a comma: 0.5"),
            ("0,125", "write a point, not a comma: 0.125"),
            ("1,200", "write 1200 without a comma, or with a point: 1.200"),
            ("1,", "that is not a plain number"),
            ("1,2,3", "that is not a plain number"),
        ] {
            assert_eq!(Fraction::from_text(text).unwrap_err(), mend, "{text}");
        }
    }

    #[test]
    fn a_part_that_is_one_letter_is_written_out() {
        for (text, written) in [("½", "0.5"), ("1½", "1.5"), ("2 ¾", "2.75"), ("1⅓", "4/3")] {
            assert!(Fraction::from_text(text).unwrap_err().starts_with(&format!("write '{written}' for ")), "{text}");
        }
    }

    #[test]
    fn strange_numbers_are_refused() {
        for text in ["", "-1", "1e309", "NaN", ".inf", "0x1f", "1.", "1234567", "1/0", "1.2.3", "½"] {
            assert!(Fraction::from_text(text).is_err(), "{text}");
        }
    }
}
