//! Parts of a model that stay clear: canopies, windows.

use super::table::words_of;

/// The words by which such a part is known, in four languages.
const WORDS: &[&str] = &[
    "canopy",
    "canopies",
    "clear",
    "transparent",
    "window",
    "windows",
    "windscreen",
    "windshield",
    "kanzel",
    "haube",
    "klarteil",
    "klarteile",
    "klarsichtteil",
    "fenster",
    "scheibe",
    "scheiben",
    "durchsichtig",
    "verriere",
    "vitre",
    "vitres",
    "pare",
    "fenetre",
    "fenetres",
    "transparente",
    "cupula",
    "cabina",
    "ventana",
    "ventanas",
    "parabrisas",
];

/// Whether a name is that of a part that stays clear, such as `Clear canopy`.
pub fn names_clear_part(name: &str) -> bool {
    words_of(name).iter().any(|word| WORDS.contains(&word.as_str()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn glass_is_known_by_its_name() {
        for name in ["Clear canopy", "Windows", "Kanzel", "Verrière", "Cúpula"] {
            assert!(names_clear_part(name), "{name}");
        }
        for name in ["Coat", "Lantern glass", "Clearing"] {
            assert!(!names_clear_part(name), "{name}");
        }
    }
}
