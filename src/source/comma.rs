//! Commas in flow style: to YAML `{parts: 0,5}` is a 0 and a key 5 without a value, and `{name: Moss, Green}` is a Moss and a key
//! Green.

use std::borrow::Cow;

use super::checks;
use super::node::{Node, NodeValue};
use super::quote::{in_quotes, shortened, write};
use crate::report::{Finding, Place, Placed, wording};

/// A key and what comes after it.
type Pair = (Placed<String>, Node);

/// The entries with every number that a comma took apart put together again; each is reported, and read on with its point.
pub(crate) fn with_points(pairs: &[Pair], mut tell: impl FnMut(Finding)) -> Cow<'_, [Pair]> {
    if !pairs.windows(2).any(|two| is_taken_apart(&two[0].1, &two[1])) {
        return Cow::Borrowed(pairs);
    }
    let mut whole: Vec<Pair> = Vec::with_capacity(pairs.len());
    for pair in pairs {
        match whole.last_mut() {
            Some((_, before)) if is_taken_apart(before, pair) => {
                let front = before.text().map_or("", String::as_str);
                let number = format!("{front}.{}", pair.0.value);
                let place = Place { end: pair.0.place.end, ..before.place };
                let message = format!("can't read '{front},{}': the comma divides it in two", shortened(&pair.0));
                let mend = format!("write a point, not a comma: {}", shortened(&number));
                tell(Finding::new(&checks::VALUE_UNREADABLE, place, message, mend));
                *before = Node::new(place, NodeValue::Text(number));
            }
            _ => whole.push(pair.clone()),
        }
    }
    Cow::Owned(whole)
}

/// The entries with every text of a group in braces that commas took apart put together again; each is reported. A text is
/// only what stands after one of some keys, and what comes after the comma is no key, nor like one.
pub(crate) fn with_texts(
    pairs: Cow<'_, [Pair]>,
    is_text: impl Fn(&str) -> bool,
    is_key: impl Fn(&str) -> bool,
    mut tell: impl FnMut(Finding),
) -> Cow<'_, [Pair]> {
    let goes_on = |(key, value): &Pair| value.bare && !is_key(key);
    if !pairs.iter().any(goes_on) {
        return pairs;
    }
    let mut whole: Vec<Pair> = Vec::with_capacity(pairs.len());
    let mut apart: Vec<Place> = Vec::new();
    for pair in pairs.iter() {
        match whole.last_mut() {
            Some((key, before)) if goes_on(pair) && is_text(key) && before.text().is_some() => {
                let text = format!("{}, {}", before.text().map_or("", String::as_str), pair.0.value);
                let place = Place { end: pair.0.place.end, ..before.place };
                *before = Node::new(place, NodeValue::Text(text));
                apart.push(key.place);
            }
            _ => whole.push(pair.clone()),
        }
    }
    for (key, value) in whole.iter().filter(|(key, _)| apart.contains(&key.place)) {
        let text = value.text().map_or("", String::as_str);
        let message = format!("can't read {}: a comma divides a group in braces", wording::quoted(&shortened(text)));
        tell(Finding::new(&checks::VALUE_UNREADABLE, value.place, message, write(Some(&key.value), &in_quotes(text))));
    }
    Cow::Owned(whole)
}

/// Whether a value and the key behind it are the two sides of a decimal comma: digits, at once a comma, and digits.
fn is_taken_apart(before: &Node, (key, value): &Pair) -> bool {
    let digits = |text: &str| !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit());
    matches!(value.value, NodeValue::Empty)
        && before.text().is_some_and(|text| digits(text))
        && key.starts_with(|c: char| c.is_ascii_digit())
        && before.place.end.checked_add(1) == Some(key.place.start)
}
