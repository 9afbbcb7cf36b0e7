//! Figures as they are written, with a point; a language's own decimal sign comes from its words. What is given or
//! counted is written [exactly](exact), what is predicted [no finer than it is known](predicted).

/// A figure to at most so many places, without idle zeros: `12.5`, `17`.
pub fn exact(value: f64, places: usize) -> String {
    let text = format!("{:.places$}", value + 0.0);
    if places == 0 { text } else { text.trim_end_matches('0').trim_end_matches('.').to_owned() }
}

/// A predicted figure to the two digits that mean something, and never finer than a thousandth. A page's script writes the
/// same (`amounts.js`).
pub fn predicted(value: f64) -> String {
    exact(
        value,
        match value.abs() {
            less if less < 0.0995 => 3,
            less if less < 0.995 => 2,
            less if less < 9.95 => 1,
            _ => 0,
        },
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_given_is_written_as_it_is() {
        for (value, places, shown) in [(17.0, 1, "17"), (12.5, 1, "12.5"), (100.0, 0, "100"), (-0.0, 1, "0")] {
            assert_eq!(exact(value, places), shown);
        }
    }

    #[test]
    fn what_is_predicted_is_written_no_finer_than_it_is_known() {
        for (value, shown) in
            [(0.0042, "0.004"), (0.0712, "0.071"), (0.0996, "0.1"), (0.36, "0.36"), (3.456, "3.5"), (9.97, "10")]
        {
            assert_eq!(predicted(value), shown);
        }
        assert_eq!((predicted(12.34), predicted(123.4), predicted(-0.0)), ("12".into(), "123".into(), "0".into()));
    }
}
