//! Metal that shines like a mirror, by the name of its paint.

use std::sync::LazyLock;

use super::table::Table;

static TABLE: LazyLock<Table<()>> = LazyLock::new(|| Table::of_one(include_str!("mirror.tsv"), "mirror"));

/// Whether a name is that of a mirror finish, such as `Lamp Chrome`. It tells nothing of a paint that is no metal: chrome
/// yellow is a pigment.
pub fn names_mirror(name: &str) -> bool {
    TABLE.is_in(name)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_mirror_finish_is_known_by_its_name() {
        for name in ["Lamp Chrome", "mirror-steel", "Spiegelchrom", "Chromsilber", "Effet miroir", "Cromo"] {
            assert!(names_mirror(name), "{name}");
        }
        for name in ["Silver", "Chroma Red", "Bright Steel"] {
            assert!(!names_mirror(name), "{name}");
        }
    }
}
