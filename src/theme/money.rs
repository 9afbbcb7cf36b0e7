//! Money as a language writes it: the decimal sign, the sign of the currency and its place.

use rust_decimal::RoundingStrategy;

use super::Words;
use crate::measure::Money;

/// Currencies without a smaller unit, and those with a thousandth (ISO 4217, list one); all others have a hundredth.
const WHOLE: &[&str] =
    &["BIF", "CLP", "DJF", "GNF", "ISK", "JPY", "KMF", "KRW", "PYG", "RWF", "UGX", "VND", "VUV", "XAF", "XOF", "XPF"];
const THOUSANDTHS: &[&str] = &["BHD", "IQD", "JOD", "KWD", "LYD", "OMR", "TND"];

/// How many places after the point an amount of a currency has.
fn places(currency: Option<&str>) -> u32 {
    match currency {
        Some(code) if WHOLE.contains(&code) => 0,
        Some(code) if THOUSANDTHS.contains(&code) => 3,
        _ => 2,
    }
}

impl Words {
    /// An amount without its currency, for columns: `2.80`, in German `2,80`.
    pub fn amount(&self, money: Money, currency: Option<&str>) -> String {
        let places = places(currency);
        let rounded = money.0.round_dp_with_strategy(places, RoundingStrategy::MidpointAwayFromZero);
        self.number(&format!("{rounded:.*}", usize::try_from(places).unwrap_or(2)))
    }

    /// An amount with its currency: `€2.80`, in German `2,80 €`. A currency whose sign the words do not know keeps its
    /// three letters.
    pub fn money(&self, money: Money, currency: Option<&str>) -> String {
        let amount = self.amount(money, currency);
        let Some(code) = currency else { return amount };
        let (pattern, sign) = match self.get(&format!("currency.{code}")) {
            Some(sign) => (self.get("grammar.money").unwrap_or("{sign}{amount}"), sign),
            None => (self.get("grammar.money-code").unwrap_or("{code} {amount}"), code),
        };
        // A sign and its amount are never parted at the end of a line.
        pattern.replace("{sign}", sign).replace("{code}", sign).replace("{amount}", &amount).replace(' ', "\u{a0}")
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;

    use super::*;
    use crate::measure::FromText;

    fn words(entries: &[(&str, &str)]) -> Words {
        Words::new(
            entries.iter().map(|(key, text)| ((*key).to_owned(), (*text).to_owned())).collect::<BTreeMap<_, _>>(),
        )
    }

    fn shown(words: &Words, money: &str, currency: Option<&str>) -> String {
        words.money(Money::from_text(money).unwrap(), currency).replace('\u{a0}', " ")
    }

    #[test]
    fn an_amount_reads_as_the_language_writes_it() {
        let english = words(&[("grammar.decimal", "."), ("grammar.money", "{sign}{amount}"), ("currency.EUR", "€")]);
        assert_eq!(shown(&english, "2.8", Some("EUR")), "€2.80");
        assert_eq!(shown(&english, "2.8", None), "2.80");
        let german = words(&[("grammar.decimal", ","), ("grammar.money", "{amount} {sign}"), ("currency.EUR", "€")]);
        assert_eq!(shown(&german, "1234.5", Some("EUR")), "1234,50 €");
    }

    #[test]
    fn a_currency_without_a_sign_keeps_its_letters() {
        let english = words(&[("grammar.money-code", "{code} {amount}")]);
        assert_eq!(shown(&english, "2.8", Some("CHF")), "CHF 2.80");
        assert_eq!(shown(&english, "280.4", Some("JPY")), "JPY 280");
        assert_eq!(shown(&english, "2.8005", Some("KWD")), "KWD 2.801");
    }
}
