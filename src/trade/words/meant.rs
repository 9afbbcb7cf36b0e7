//! Words of painters where a word of a closed list is wanted: what is meant here, in a sentence.

use std::sync::LazyLock;

use super::table::words_of;

/// The longest text that is looked up.
const LONGEST: usize = 40;

/// A list, the words that are answered where one of it is wanted, and the answer.
type Row = (&'static str, Vec<Vec<String>>, &'static str);

/// All answers.
static ROWS: LazyLock<Vec<Row>> = LazyLock::new(|| {
    let lines = include_str!("meant.tsv").lines().filter(|line| !line.starts_with('#'));
    let rows =
        lines.filter_map(|line| line.split_once('\t').and_then(|(list, row)| Some((list, row.split_once('\t')?))));
    rows.map(|(list, (words, says))| (list, words.split(',').map(words_of).collect(), says)).collect()
});

/// What is meant by a word where one of the list is wanted, such as `prime` for `a stage`.
pub fn meant(list: &str, text: &str) -> Option<&'static str> {
    if text.len() > LONGEST {
        return None;
    }
    let wanted = words_of(text);
    ROWS.iter().find(|(name, words, _)| *name == list && words.contains(&wanted)).map(|(.., says)| *says)
}

/// Every list in which a painter's word is answered, such as `a stage`, with the answer.
pub fn meanings(text: &str) -> impl Iterator<Item = (&'static str, &'static str)> {
    let wanted = if text.len() > LONGEST { Vec::new() } else { words_of(text) };
    ROWS.iter().filter(move |(_, words, _)| words.contains(&wanted)).map(|(list, _, says)| (*list, *says))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::FromText;
    use crate::trade::{Direction, Family, Hiding, Kind, ModelKind, Reach, Sheen, Skill, Stage, Technique, ToolKind};

    #[test]
    fn words_of_painters_are_answered_with_what_is_meant() {
        let told = [
            (Stage::from_text("wash").unwrap_err(), "'shade'"),
            (Stage::from_text("Prime").unwrap_err(), "'undercoat'"),
            (Stage::from_text("zenithal").unwrap_err(), "'preshade'"),
            (Stage::from_text("spray").unwrap_err(), "'with: airbrush'"),
            (Stage::from_text("dry-brush").unwrap_err(), "'highlight'"),
            (Stage::from_text("Imprimación").unwrap_err(), "'undercoat'"),
            (Stage::from_text("washing").unwrap_err(), "'shade'"),
            (Stage::from_text("black basing").unwrap_err(), "'preshade'"),
            (Stage::from_text("lining").unwrap_err(), "'detail'"),
            (Stage::from_text("pin-washing").unwrap_err(), "'panel-wash'"),
            (Stage::from_text("glazing").unwrap_err(), "'glaze'"),
            (Stage::from_text("streaking").unwrap_err(), "'weather'"),
            (Stage::from_text("tufts").unwrap_err(), "'basing'"),
            (Stage::from_text("gloss coat").unwrap_err(), "'varnish'"),
            (Stage::from_text("hairspray").unwrap_err(), "'chip'"),
            (Technique::from_text("cotton swab").unwrap_err(), "'hand'"),
            (Technique::from_text("spray").unwrap_err(), "'spray-can'"),
            (Technique::from_text("wash").unwrap_err(), "'brush'"),
            (Technique::from_text("zenithal").unwrap_err(), "'airbrush'"),
            (Kind::from_text("acrylic").unwrap_err(), "'family: water'"),
            (Kind::from_text("spray").unwrap_err(), "'primer'"),
            (Kind::from_text("hairspray").unwrap_err(), "'resist'"),
            (Family::from_text("acrylic").unwrap_err(), "'water'"),
            (Family::from_text("prime").unwrap_err(), "'kind'"),
            (Stage::from_text("glue").unwrap_err(), "'assemble'"),
            (Skill::from_text("hard").unwrap_err(), "'demanding'"),
            (Skill::from_text("Anfänger").unwrap_err(), "'easy'"),
            (Reach::from_text("top").unwrap_err(), "'from: above'"),
            (Direction::from_text("zenithal").unwrap_err(), "'above'"),
            (Hiding::from_text("good").unwrap_err(), "'opaque'"),
            (Sheen::from_text("matte").unwrap_err(), "'matt'"),
            (ToolKind::from_text("PPE").unwrap_err(), "'protection'"),
            (ModelKind::from_text("cavalry").unwrap_err(), "'rider'"),
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
            ("a level", Skill::NAMES),
            ("a place on the area", Reach::NAMES),
            ("a direction", Direction::NAMES),
            ("a hiding class", Hiding::NAMES),
            ("a sheen", Sheen::NAMES),
            ("a kind of tool", ToolKind::NAMES),
            ("a kind of model", ModelKind::NAMES),
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
