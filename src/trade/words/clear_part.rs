//! Parts of a model that stay clear: canopies, windows.

use std::sync::LazyLock;

use super::table::{Table, folded, words};

/// What a word says of a part.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Word {
    Clear,
    Frame,
    Joint,
}

static TABLE: LazyLock<Table<Word>> = LazyLock::new(|| {
    Table::read(include_str!("clear-parts.tsv"), |name| match name {
        "clear" => Some(Word::Clear),
        "frame" => Some(Word::Frame),
        "joint" => Some(Word::Joint),
        _ => None,
    })
});

/// Whether a name is that of a part that stays clear, such as `Clear canopy`, and not of what it is set in, as `Window frame`.
pub fn names_clear_part(name: &str) -> bool {
    folded(name).split([',', '/', '+', '&']).any(|piece| {
        let said: Vec<Option<Word>> = TABLE.look(&words(piece)).into_iter().map(|(_, word)| word).collect();
        let mut parts = said.split(|word| *word == Some(Word::Joint));
        parts.any(|part| part.contains(&Some(Word::Clear)) && !part.contains(&Some(Word::Frame)))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn glass_is_known_by_its_name() {
        for name in [
            "Clear canopy",
            "Windows",
            "Kanzel",
            "Verrière",
            "Pare-brise",
            "Cúpula transparente",
            "Canopy and frame",
            "Frames, windows",
            "Kanzel mit Rahmen",
        ] {
            assert!(names_clear_part(name), "{name}");
        }
        for name in [
            "Coat",
            "Lantern glass",
            "Clearing",
            "Haube",
            "Cabina",
            "Window frame",
            "window-frames",
            "Frames of the windows",
            "Fensterrahmen",
            "Rahmen der Fenster",
            "Cadre de la verrière",
            "Marco de la ventana",
            "Hull and window frame",
        ] {
            assert!(!names_clear_part(name), "{name}");
        }
    }
}
