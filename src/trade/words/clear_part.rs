//! Parts of a model that stay clear: canopies, windows.

use std::sync::LazyLock;

use super::table::{Table, folded, words};

static TABLE: LazyLock<Table<()>> =
    LazyLock::new(|| Table::read(include_str!("clear-parts.tsv"), |name| (name == "clear").then_some(())));

/// Whether a name is that of a part that stays clear, such as `Clear canopy`.
pub fn names_clear_part(name: &str) -> bool {
    TABLE.look(&words(&folded(name))).into_iter().any(|(_, meaning)| meaning.is_some())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn glass_is_known_by_its_name() {
        for name in ["Clear canopy", "Windows", "Kanzel", "Verrière", "Pare-brise", "Cúpula transparente"] {
            assert!(names_clear_part(name), "{name}");
        }
        for name in ["Coat", "Lantern glass", "Clearing", "Haube", "Cabina"] {
            assert!(!names_clear_part(name), "{name}");
        }
    }
}
