//! Metal that shines like a mirror, by the name of its paint.

use std::sync::LazyLock;

use super::table::{Table, folded, words};

static TABLE: LazyLock<Table<()>> =
    LazyLock::new(|| Table::read(include_str!("mirror.tsv"), |name| (name == "mirror").then_some(())));

/// Whether a name is that of a mirror finish, such as `Lamp Chrome`. It tells nothing of a paint that is no metal: chrome
/// yellow is a pigment.
pub fn names_mirror(name: &str) -> bool {
    TABLE.look(&words(&folded(name))).into_iter().any(|(_, meaning)| meaning.is_some())
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
