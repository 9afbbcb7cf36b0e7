//! A heavy drybrush by its name: the brush is still half loaded, and lays a colour and no light.

use std::sync::LazyLock;

use super::table::{Table, affirmed, folded};

static TABLE: LazyLock<Table<()>> = LazyLock::new(|| Table::of_one(include_str!("overbrush.tsv"), "overbrush"));

/// Words after which a heavy drybrush is another step: `Light drybrush after the overbrush`.
const OF_ANOTHER: &[&str] = &[
    "after", "before", "over", "on", "onto", "nach", "vor", "uber", "ueber", "auf", "apres", "avant", "sur", "despues",
    "antes", "sobre", "tras",
];

/// Whether a name is that of a heavy drybrush, such as `Grey overbrush`.
pub fn names_overbrush(name: &str) -> bool {
    let folded = folded(name);
    affirmed(&folded).any(|words| {
        let found = TABLE.look(&words);
        let before = found.iter().take_while(|(_, meaning)| meaning.is_none()).flat_map(|(words, _)| words.iter());
        found.iter().any(|(_, meaning)| meaning.is_some()) && !before.clone().any(|word| OF_ANOTHER.contains(word))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_heavy_drybrush_is_known_by_its_name() {
        for name in [
            "Grey overbrush",
            "20-over-brush",
            "Heavy dry-brush of bone",
            "Slap-chop: white",
            "Drybrush heavily",
            "Pincel seco cargado",
        ] {
            assert!(names_overbrush(name), "{name}");
        }
        for name in [
            "Light drybrush",
            "Brush over the seams",
            "Heavy coat",
            "Trockenbürsten",
            "No overbrush here",
            "Light drybrush after the overbrush",
            "Drybrush over the overbrushed grey",
            "Soft drybrush over slap-chop",
            "Drybrush, not a heavy drybrush",
            "Trockenbürsten nach dem Overbrush",
        ] {
            assert!(!names_overbrush(name), "{name}");
        }
    }
}
