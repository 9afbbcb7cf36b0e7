//! Parts of a model that stay clear: canopies, windows.

use std::sync::LazyLock;

use super::table::Table;

static TABLE: LazyLock<Table<()>> = LazyLock::new(|| Table::of_one(include_str!("clear-parts.tsv"), "clear"));

/// Whether a name is that of a part that stays clear, such as `Clear canopy`.
pub fn names_clear_part(name: &str) -> bool {
    TABLE.is_in(name)
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
