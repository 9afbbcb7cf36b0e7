//! Quantities as painters write them: times, volumes, areas, shares, parts, colours, prices.
//!
//! Each type reads itself from an author's text ([`FromText`]) and keeps one unit inside.

mod area;
mod bits;
mod clock;
mod colour;
mod coordinate;
mod date;
mod fraction;
mod humidity;
mod length;
mod money;
mod number;
mod share;
mod temperature;
mod time;
mod volume;
mod written;

use unicode_normalization::UnicodeNormalization;
use unicode_normalization::char::is_combining_mark;

pub use area::SquareCentimetres;
pub use clock::{Clock, Weekday};
pub use colour::Colour;
pub use coordinate::Coordinate;
pub use date::Date;
pub use fraction::Fraction;
pub use humidity::Humidity;
pub use length::{BaseSize, Millimetres, Scale};
pub use money::Money;
pub use number::{Count, Factor, Number};
pub use share::Share;
pub use temperature::Celsius;
pub use time::Time;
pub use volume::Millilitres;
pub use written::{exact, guessed, guessed_sum, predicted, to_places};

/// What can be read from one scalar of an author's file.
pub trait FromText: Sized {
    /// What to write, with an example, as in `a time such as '20 min' or '1 h 30 min'`.
    const EXPECTED: &'static str;

    /// An example that reads without an error.
    const EXAMPLE: &'static str;

    /// The words to choose from, where it is a closed list.
    const CHOICES: &'static [&'static str] = &[];

    /// Whether it is an author's own words, in which any sign may be meant as it is.
    const IS_WORDS: bool = false;

    /// What a key that can't be read most likely means. It is reported, and what is after it is read under that, so that
    /// names elsewhere still find it.
    fn meant(_text: &str) -> Option<Self> {
        None
    }

    /// Reads the text.
    ///
    /// # Errors
    /// Why it can't be read, in words that follow "can't read '…': ", or nothing more than [`Self::EXPECTED`] says.
    fn from_text(text: &str) -> Result<Self, String>;
}

/// Splits `20min`, `0.5 fl oz` or `45%` into the number in front and the unit after.
fn number_and_unit(text: &str) -> Result<(Fraction, &str), String> {
    let text = text.trim();
    // A half that is one letter is a number too, if none that can be read.
    let end = text.find(|c: char| !(c.is_numeric() || matches!(c, '.' | ',' | '/'))).unwrap_or(text.len());
    let rest = text[end..].trim_start();
    let sign = rest.chars().next().filter(|sign| sign.is_numeric() && !sign.is_ascii_digit());
    let end = sign.map_or(end, |sign| text.len() - rest.len() + sign.len_utf8());
    let (number, unit) = text.split_at(end);
    Ok((Fraction::from_text(number)?, unit.trim()))
}

/// The factor of a unit in a table of names, or what is wrong with the unit.
fn factor_of<T: Copy>(unit: &str, units: &[(&'static str, T)]) -> Result<T, String> {
    if let Some((_, factor)) = units.iter().find(|(name, _)| *name == unit) {
        return Ok(*factor);
    }
    let names: Vec<&str> = units.iter().map(|(name, _)| *name).collect();
    if unit.is_empty() {
        return Err(format!("the unit is missing: write {}", crate::report::wording::either(&names)));
    }
    let mend = match names.iter().find(|name| is_slip_of(unit, name)) {
        Some(near) => format!("did you mean '{near}'?"),
        None => format!("write {}", crate::report::wording::either(&names)),
    };
    Err(format!("'{unit}' is not a unit known here; {mend}"))
}

/// Whether a unit is another one with a slip of the pen. Units are so short that another letter makes another unit: a `dl` is
/// no `cl`, and a `g` no `l`.
fn is_slip_of(unit: &str, known: &str) -> bool {
    let plain = unit.to_lowercase();
    let plain = plain.trim_end_matches('.');
    let sorted = |text: &str| {
        let mut letters: Vec<char> = text.chars().collect();
        letters.sort_unstable();
        letters
    };
    let is_short_for = plain.chars().count() > 1 && known.starts_with(plain);
    plain == known || plain.strip_suffix('s') == Some(known) || is_short_for || sorted(plain) == sorted(known)
}

/// A text as an id: its Latin letters and digits, small and without accents, with hyphens between the words. Umlauts are
/// written out, as everybody does who has them.
pub fn hyphenated(text: &str) -> String {
    let spelt_out: String = text.to_lowercase().nfc().map(spelt).collect();
    let plain: String = spelt_out.nfd().filter(|c| !is_combining_mark(*c)).collect();
    let words = plain.split(|c: char| !c.is_ascii_alphanumeric()).filter(|word| !word.is_empty());
    words.collect::<Vec<_>>().join("-")
}

/// A letter that is no accented one of the alphabet, as that alphabet spells it.
fn spelt(letter: char) -> String {
    match letter {
        'ß' => "ss".to_owned(),
        'ü' => "ue".to_owned(),
        'ä' | 'æ' => "ae".to_owned(),
        'ö' | 'œ' => "oe".to_owned(),
        'ø' => "o".to_owned(),
        'ł' => "l".to_owned(),
        'đ' => "d".to_owned(),
        letter => letter.to_string(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn another_unit_is_no_slip_of_the_pen() {
        for (unit, known) in [("mls", "ml"), ("ML", "ml"), ("lm", "ml"), ("Mm", "mm"), ("cm", "cm2"), ("min.", "min")] {
            assert!(is_slip_of(unit, known), "{unit}");
        }
        for (unit, known) in [("g", "l"), ("dl", "cl"), ("m", "mm"), ("m", "ml"), ("kg", "l"), ("'", "d"), ("y", "d")] {
            assert!(!is_slip_of(unit, known), "{unit}");
        }
        let why = factor_of("dl", &[("ml", 1.0), ("cl", 10.0), ("l", 1000.0)]).unwrap_err();
        assert_eq!(why, "'dl' is not a unit known here; write 'ml', 'cl' or 'l'");
    }

    #[test]
    fn a_name_becomes_an_id() {
        for (name, id) in [("Moss Green", "moss-green"), ("Ärmel", "aermel"), ("Weiß & Co.", "weiss-co"), ("漢字", "")]
        {
            assert_eq!(hyphenated(name), id);
        }
    }
}
