//! A spray that is hardly wet when it lands, by the words of a step.

use std::sync::LazyLock;

use super::table::Table;

static TABLE: LazyLock<Table<()>> = LazyLock::new(|| Table::of_one(include_str!("mist.tsv"), "mist"));

/// Whether a name or an instruction speaks of mists, as in `Clear in mists`.
pub fn names_mist(text: &str) -> bool {
    TABLE.is_in(text)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_mist_is_known_by_its_name() {
        for name in ["Clear in mists", "gloss-mist", "Zwei Nebelschichten", "Klarlack aufnebeln", "Deux voiles légers"]
        {
            assert!(names_mist(name), "{name}");
        }
        for name in ["Wet gloss", "Three wet coats", "Mistral blue", "Mistake"] {
            assert!(!names_mist(name), "{name}");
        }
    }
}
