//! Figures as they are written, with a point; a language's own decimal sign comes from its words. What is given or
//! counted is written [exactly](exact), what is predicted [no finer than it is known](predicted).

/// A figure to at most so many places, without idle zeros: `12.5`, `17`.
pub fn exact(value: f64, places: usize) -> String {
    let text = format!("{:.places$}", value + 0.0);
    if places == 0 { text } else { text.trim_end_matches('0').trim_end_matches('.').to_owned() }
}

/// A figure to so many places after the point, as data has it; nought is never negative.
pub fn to_places(value: f64, places: u8) -> f64 {
    let steps = 10f64.powi(i32::from(places));
    (value * steps).round() / steps + 0.0
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

/// A guess to two digits, however large: `780`, `17`, `5.2`.
pub fn guessed(value: f64) -> String {
    let mut step = 1.0;
    while value.is_finite() && value.abs() / step >= 99.5 {
        step *= 10.0;
    }
    if step > 1.0 { exact((value / step).round() * step, 0) } else { predicted(value) }
}

/// What guesses come to that are shown as [`guessed`] shows each: their sum is that of what is shown.
pub fn guessed_sum(values: [f64; 2]) -> String {
    let shown = values.map(|value| guessed(value).parse::<f64>().unwrap_or(value));
    exact(shown.iter().sum(), 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn guesses_add_up_as_they_are_shown() {
        assert_eq!([13.3, 11.4].map(guessed), ["13", "11"]);
        assert_eq!(guessed_sum([13.3, 11.4]), "24");
        assert_eq!(guessed_sum([783.0, 0.0]), "780");
        assert_eq!(guessed_sum([5.24, 4.9]), "10.1");
    }

    #[test]
    fn data_has_no_negative_nought() {
        for (value, places, rounded) in [(-0.004, 2, "0.0"), (-0.0, 1, "0.0"), (-0.06, 1, "-0.1"), (1.2345, 3, "1.235")]
        {
            assert_eq!(format!("{:?}", to_places(value, places)), rounded);
        }
    }

    #[test]
    fn a_guess_has_two_digits() {
        let shown = [781.3, 1249.0, 99.6, 17.3, 5.24].map(guessed);
        assert_eq!(shown, ["780", "1200", "100", "17", "5.2"]);
        assert_eq!(guessed(f64::INFINITY), "inf");
    }

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
