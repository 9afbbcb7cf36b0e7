//! What a paint is made of, as makers print it.

use crate::measure::FromText;

/// The colour index name of a pigment, such as `PB15:3`.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct PigmentName(pub String);

/// The letters of hues, the longest first.
const HUES: [&str; 10] = ["Bk", "Br", "B", "G", "M", "O", "R", "V", "W", "Y"];

impl FromText for PigmentName {
    const EXPECTED: &'static str = "a pigment's colour index name, such as 'PB15:3'";
    const EXAMPLE: &'static str = "PB15:3";

    fn from_text(text: &str) -> Result<Self, String> {
        let text: String = text.split_whitespace().collect();
        name(&text).map(Self).ok_or_else(|| "a name is P for pigment or N for natural, a hue, and a number".to_owned())
    }
}

/// The name with its letters large and small as they are printed.
fn name(text: &str) -> Option<String> {
    let (origin, rest) = text.split_at_checked(1)?;
    let starts = |hue: &&&str| rest.get(..hue.len()).is_some_and(|start| start.eq_ignore_ascii_case(hue));
    let hue = HUES.iter().find(starts)?;
    let number = rest.get(hue.len()..)?;
    let digits = |text: &str| (1..=3).contains(&text.len()) && text.bytes().all(|byte| byte.is_ascii_digit());
    let is_number =
        number.split_once(':').map_or_else(|| digits(number), |(whole, shade)| digits(whole) && digits(shade));
    let origin = origin.to_ascii_uppercase();
    (matches!(origin.as_str(), "P" | "N") && is_number).then(|| format!("{origin}{hue}{number}"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_read() {
        for (text, read) in [("PB15:3", "PB15:3"), ("pbk 7", "PBk7"), ("NR4", "NR4"), ("PBR7", "PBr7"), ("PW6", "PW6")]
        {
            assert_eq!(PigmentName::from_text(text), Ok(PigmentName(read.to_owned())));
        }
        for text in ["", "P", "PB", "PX3", "15:3", "PB15:", "PB1534", "Pé3", "ultramarine"] {
            assert!(PigmentName::from_text(text).is_err(), "{text}");
        }
    }
}
