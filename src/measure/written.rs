//! Figures as they are written, with a point; a language's own decimal sign comes from its words. What is given or
//! counted is written [exactly](exact), what is predicted [no finer than it is known](in_figures).

/// A figure to at most so many places, without idle zeros: `12.5`, `17`.
pub fn exact(value: f64, places: usize) -> String {
    let text = format!("{:.places$}", value + 0.0);
    if places == 0 { text } else { text.trim_end_matches('0').trim_end_matches('.').to_owned() }
}

/// A predicted figure to the two or three digits that mean something.
pub fn in_figures(value: f64) -> String {
    exact(
        value,
        match value.abs() {
            size if size >= 100.0 => 0,
            size if size >= 10.0 => 1,
            size if size >= 0.1 => 2,
            _ => 3,
        },
    )
}

/// A predicted figure for a list of things to buy: one or two digits, or whole ones.
pub fn roughly(value: f64) -> String {
    let value = value.max(0.0);
    exact(
        value,
        match value {
            less if less < 0.0095 => 3,
            less if less < 0.095 => 2,
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
        for (value, figures, rough) in [
            (0.0042, "0.004", "0.004"),
            (0.0712, "0.071", "0.07"),
            (3.456, "3.46", "3.5"),
            (12.34, "12.3", "12"),
            (123.4, "123", "123"),
        ] {
            assert_eq!((in_figures(value).as_str(), roughly(value).as_str()), (figures, rough));
        }
    }
}
