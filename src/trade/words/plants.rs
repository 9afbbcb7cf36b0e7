//! Plants that are glued onto a base: scattered grass and leaves, or tufts that are set one by one.

use std::sync::LazyLock;

use super::table::{Table, folded, words};

/// How plants come onto a base.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Planting {
    /// Scattered over glue: grass, leaves.
    Scattered,
    /// Set one by one, each on a dab of glue: tufts, bushes, reeds.
    Set,
}

static TABLE: LazyLock<Table<Planting>> = LazyLock::new(|| {
    Table::read(include_str!("plants.tsv"), |name| match name {
        "scattered" => Some(Planting::Scattered),
        "set" => Some(Planting::Set),
        _ => None,
    })
});

static GRASS: LazyLock<Table<()>> = LazyLock::new(|| Table::of_one(include_str!("plants.tsv"), "grass"));

/// Whether an instruction speaks of grass or tufts.
pub fn speaks_of_grass(text: &str) -> bool {
    GRASS.is_in(text)
}

/// The ways of planting that some names tell of, such as `Reed tufts`; none where no plant is named.
pub fn plantings<'a>(names: impl IntoIterator<Item = &'a str>) -> Vec<Planting> {
    let of = |name: &str| {
        TABLE.look(&words(&folded(name))).into_iter().filter_map(|(_, meaning)| meaning).collect::<Vec<_>>()
    };
    names.into_iter().flat_map(of).collect()
}

/// The same of an instruction, in which only words of grass and tufts surely mean plants.
pub fn grass_in(text: &str) -> Vec<Planting> {
    let folded = folded(text);
    let words = words(&folded);
    let is_grass = |phrase: &[&str]| GRASS.look(phrase).into_iter().any(|(_, meaning)| meaning.is_some());
    TABLE.look(&words).into_iter().filter_map(|(phrase, meaning)| meaning.filter(|_| is_grass(phrase))).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tufts_are_no_scattered_grass() {
        for name in ["Reed tufts", "grass-tufts", "Grasbüschel", "touffes"] {
            let found = plantings([name]);
            assert!(!found.is_empty() && found.iter().all(|one| *one == Planting::Set), "{name}: {found:?}");
        }
        assert_eq!(plantings(["Static grass", "Brush"]), [Planting::Scattered]);
        assert_eq!(plantings(["Mud"]), []);
        assert_eq!(grass_in("Press the tufts into the glue; moss green, and it leaves no gap."), [Planting::Set]);
        assert_eq!(grass_in("Grass tufts at the rim, static grass between."), [Planting::Set, Planting::Scattered]);
        assert_eq!(grass_in("The brush leaves a bush of bristles."), []);
        assert_eq!(plantings(["Grasspitzen"]), [Planting::Scattered]);
    }

    #[test]
    fn an_instruction_speaks_of_grass() {
        for text in
            ["Drybrush the tips of the grass.", "Um die Grasbüschel herum.", "Éclaircir les touffes.", "El césped."]
        {
            assert!(speaks_of_grass(text), "{text}");
        }
        for text in ["It leaves the hollows dark.", "Grasp the base.", "With moss green."] {
            assert!(!speaks_of_grass(text), "{text}");
        }
    }
}
