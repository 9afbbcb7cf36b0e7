//! Words of painters where a word of a closed list is wanted: what is meant here, in a sentence.

use super::table::words_of;

/// The longest text that is looked up.
const LONGEST: usize = 40;

/// What is meant by a word where one of the list is wanted, such as `prime` for `a stage`.
pub fn meant(list: &str, text: &str) -> Option<&'static str> {
    if text.len() > LONGEST {
        return None;
    }
    let wanted = words_of(text);
    let lines = include_str!("meant.tsv").lines().filter(|line| !line.starts_with('#'));
    let mut rows = lines.filter_map(|line| line.split_once('\t')).filter(|(name, _)| *name == list);
    rows.find_map(|(_, row)| {
        let (words, says) = row.split_once('\t')?;
        words.split(',').any(|word| words_of(word) == wanted).then_some(says)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::FromText;
    use crate::trade::{Family, Kind, Stage, Technique};

    #[test]
    fn words_of_painters_are_answered_with_what_is_meant() {
        let told = [
            (Stage::from_text("wash").unwrap_err(), "'shade'"),
            (Stage::from_text("Prime").unwrap_err(), "'undercoat'"),
            (Stage::from_text("zenithal").unwrap_err(), "'preshade'"),
            (Stage::from_text("spray").unwrap_err(), "'with: airbrush'"),
            (Stage::from_text("dry-brush").unwrap_err(), "'highlight'"),
            (Stage::from_text("Imprimación").unwrap_err(), "'undercoat'"),
            (Technique::from_text("spray").unwrap_err(), "'spray-can'"),
            (Technique::from_text("wash").unwrap_err(), "'brush'"),
            (Technique::from_text("zenithal").unwrap_err(), "'airbrush'"),
            (Kind::from_text("acrylic").unwrap_err(), "'family: water'"),
            (Kind::from_text("spray").unwrap_err(), "'primer'"),
            (Kind::from_text("hairspray").unwrap_err(), "'resist'"),
            (Family::from_text("acrylic").unwrap_err(), "'water'"),
            (Family::from_text("prime").unwrap_err(), "'kind'"),
        ];
        for (said, named) in told {
            assert!(said.contains(named), "{said}");
        }
    }

    #[test]
    fn a_slip_of_the_pen_still_gets_the_nearest_word() {
        assert_eq!(Stage::from_text("basecoet").unwrap_err(), "did you mean 'basecoat'?");
        assert_eq!(meant("a stage", "basecoet"), None);
        assert_eq!(meant("a technique", &"wash ".repeat(20)), None);
    }

    #[test]
    fn no_word_of_a_list_is_answered_and_every_answer_names_one() {
        let lists = [
            ("a stage", Stage::NAMES),
            ("a technique", Technique::NAMES),
            ("a kind of paint", Kind::NAMES),
            ("a family", Family::NAMES),
        ];
        for line in include_str!("meant.tsv").lines().filter(|line| !line.starts_with('#')) {
            let (list, row) = line.split_once('\t').unwrap();
            let (words, says) = row.split_once('\t').unwrap();
            let (_, names) = lists.iter().find(|(name, _)| *name == list).unwrap();
            assert!(words.split(',').all(|word| !names.contains(&word.trim())), "{line}");
            assert!(names.iter().any(|name| says.contains(name)), "{says}");
        }
    }
}
