//! A heavy drybrush by its name: the brush is still half loaded, and lays a colour and no light.

use std::sync::LazyLock;

use super::table::{Table, folded, words};

static TABLE: LazyLock<Table<()>> =
    LazyLock::new(|| Table::read(include_str!("overbrush.tsv"), |name| (name == "overbrush").then_some(())));

/// Whether a name is that of a heavy drybrush, such as `Grey overbrush`.
pub fn names_overbrush(name: &str) -> bool {
    TABLE.look(&words(&folded(name))).into_iter().any(|(_, meaning)| meaning.is_some())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_heavy_drybrush_is_known_by_its_name() {
        for name in
            ["Grey overbrush", "20-over-brush", "Heavy dry-brush of bone", "Slap-chop: white", "Pincel seco cargado"]
        {
            assert!(names_overbrush(name), "{name}");
        }
        for name in ["Light drybrush", "Brush over the seams", "Heavy coat", "Trockenbürsten"] {
            assert!(!names_overbrush(name), "{name}");
        }
    }
}
