//! What models are made of.

use std::sync::LazyLock;

use super::table::{Table, folded, words};
use crate::trade::{ModelKind, choice};

choice! {
    /// What a word for a material means to a painter.
    Material, "a material" {
        /// Foam of polystyrene: solvents eat it.
        Foam = "foam",
        /// Foam of another plastic, or rubber: solvents leave it standing.
        OtherFoam = "other-foam",
        /// Polystyrene and no word on whether it is foam or hard plastic.
        Polystyrene = "polystyrene",
        /// Hard plastic.
        Plastic = "plastic",
        /// Plastic that bends: its softener creeps into paint.
        SoftPlastic = "soft-plastic",
        /// Cast or printed resin.
        Resin = "resin",
        /// A casting alloy that may hold lead.
        WhiteMetal = "white-metal",
        /// Any other metal.
        Metal = "metal",
        /// Wood and boards of its fibres.
        Wood = "wood",
        /// Cork.
        Cork = "cork",
        /// Plaster, concrete, ceramics.
        Plaster = "plaster",
        /// Clay, stone, putty.
        Clay = "clay",
        /// Card and paper.
        Card = "card",
        /// Felt and cloth.
        Cloth = "cloth",
        /// A word that says nothing about the material.
        Filler = "filler",
    }
}

static TABLE: LazyLock<Table<Material>> = LazyLock::new(|| {
    Table::read(include_str!("materials.tsv"), |name| Material::ALL.iter().copied().find(|one| one.name() == name))
});

/// The materials that an author's text names.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Materials {
    found: Vec<Material>,
    unknown: bool,
}

impl Materials {
    /// Reads a text such as `resin and white metal`, `Hartschaumplatte`, `madera de balsa`.
    pub fn of(text: &str) -> Self {
        let mut materials = Self::default();
        for (_, meaning) in TABLE.look(&words(&folded(text))) {
            match meaning {
                None => materials.unknown = true,
                Some(Material::Filler) => {}
                Some(known) if materials.found.contains(&known) => {}
                Some(known) => materials.found.push(known),
            }
        }
        materials
    }

    /// Whether one of them is named.
    pub fn has(&self, material: Material) -> bool {
        self.found.contains(&material)
    }

    /// Whether nothing that is named is known.
    pub const fn is_unknown(&self) -> bool {
        self.found.is_empty()
    }

    /// Whether there is nothing but these, and no word that is not known.
    pub fn are_only(&self, allowed: &[Material]) -> bool {
        !self.unknown && !self.found.is_empty() && self.found.iter().all(|one| allowed.contains(one))
    }

    /// Whether one of them drinks its first coat, and holds paint without an undercoat.
    pub fn drink(&self) -> bool {
        use Material::{Card, Clay, Cloth, Cork, Foam, OtherFoam, Plaster, Wood};
        [Foam, OtherFoam, Wood, Cork, Plaster, Clay, Card, Cloth].iter().any(|one| self.has(*one))
    }

    /// Whether it is what ground and buildings are made of, and nothing that kits and castings are.
    pub fn are_built(&self) -> bool {
        use Material::{Card, Cloth, Cork, Filler, Foam, OtherFoam, Plaster, Wood};
        self.drink()
            && self
                .found
                .iter()
                .all(|one| matches!(one, Card | Cloth | Cork | Filler | Foam | OtherFoam | Plaster | Wood))
    }

    /// Whether solvents eat it: a foam of polystyrene, in any words. What only says `polystyrene` is foam on terrain and
    /// buildings, and hard plastic in a kit.
    pub fn are_foam(&self, kind: Option<ModelKind>) -> bool {
        if self.has(Material::Foam) {
            return !self.has(Material::OtherFoam);
        }
        self.only_polystyrene() && kind.is_some_and(|kind| !is_of_a_kit(kind))
    }

    /// Whether it may be foam as well as hard plastic.
    pub fn may_be_foam(&self, kind: Option<ModelKind>) -> bool {
        self.only_polystyrene() && kind.is_none()
    }

    fn only_polystyrene(&self) -> bool {
        self.has(Material::Polystyrene) && !self.has(Material::Plastic) && !self.has(Material::Foam)
    }
}

/// Whether a kind of model comes as a kit: its polystyrene is hard.
const fn is_of_a_kit(kind: ModelKind) -> bool {
    use ModelKind::{Aircraft, Beast, Foot, Hero, Mount, Rider, Vehicle};
    matches!(kind, Foot | Hero | Rider | Mount | Beast | Vehicle | Aircraft)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_word_for_foam_is_missed() {
        for text in [
            "foam",
            "XPS foam",
            "insulation board",
            "Insulation foam, 30 mm",
            "pink insulation panel",
            "foam board",
            "extruded polystyrene",
            "expanded polystyrene",
            "polystyrene foam",
            "EPS",
            "foamcore",
            "bead board",
            "Hartschaum",
            "Hartschaumplatte",
            "Polystyrol-Hartschaum",
            "extrudiertes Polystyrol",
            "Dämmplatte",
            "Bastelschaum",
            "Schaumstoff",
            "Daemmstoff / Dämmstoffplatte",
            "expandiertes Polystyrol",
            "polystyrène extrudé",
            "polystyrene expanse",
            "mousse rigide",
            "carton plume",
            "panneau isolant",
            "poliestireno extruido",
            "poliestireno expandido",
            "espuma rígida",
            "espuma de poliestireno",
            "mousse de polystyrène",
            "cartón pluma",
            "corcho blanco",
            "plancha aislante",
            "wood and foam",
            "Holz, Hartschaum",
        ] {
            let materials = Materials::of(text);
            assert!(materials.are_foam(None) && !materials.may_be_foam(None), "{text}");
        }
        for text in ["polystyrene", "Polystyrol", "polystyrène", "poliestireno"] {
            let materials = Materials::of(text);
            assert!(materials.are_foam(Some(ModelKind::Building)) && materials.may_be_foam(None), "{text}");
            assert!(!materials.are_foam(Some(ModelKind::Foot)) && !materials.may_be_foam(Some(ModelKind::Foot)));
        }
    }

    #[test]
    fn what_solvents_leave_standing_is_no_foam() {
        for text in [
            "plastic",
            "hard polystyrene plastic",
            "polystyrene sheet",
            "EVA foam",
            "PU foam",
            "Moosgummi",
            "resin",
            "goma eva",
            "PVC foam board",
            "cork",
            "Kork",
            "corcho",
            "balsa",
            "MDF",
            "white metal",
            "high impact polystyrene",
        ] {
            let materials = Materials::of(text);
            assert!(!materials.are_foam(Some(ModelKind::Building)), "{text}: {materials:?}");
        }
    }

    #[test]
    fn materials_are_understood_in_four_languages() {
        for (text, material) in [
            ("Balsaholz", Material::Wood),
            ("bois", Material::Wood),
            ("madera", Material::Wood),
            ("HDF", Material::Wood),
            ("Sperrholz", Material::Wood),
            ("Kork", Material::Cork),
            ("liège", Material::Cork),
            ("Gips", Material::Plaster),
            ("plâtre", Material::Plaster),
            ("escayola", Material::Plaster),
            ("Weichplastik", Material::SoftPlastic),
            ("soft plastic", Material::SoftPlastic),
            ("plástico blando", Material::SoftPlastic),
            ("PVC souple", Material::SoftPlastic),
            // Game pieces that are cast of it bend; sheet and pipe do not.
            ("PVC", Material::SoftPlastic),
            ("Hard PVC", Material::Plastic),
            ("PVC sheet", Material::Plastic),
            ("Hart-PVC", Material::Plastic),
            ("plancha de PVC", Material::Plastic),
            ("Gießharz", Material::Resin),
            ("résine", Material::Resin),
            ("Weißmetall", Material::WhiteMetal),
            ("metal blanco", Material::WhiteMetal),
            ("étain", Material::WhiteMetal),
            ("Messing", Material::Metal),
            ("Kunststoff", Material::Plastic),
            ("grey plastic", Material::Plastic),
            ("Pappe", Material::Card),
        ] {
            let materials = Materials::of(text);
            assert_eq!(materials.found, [material], "{text}");
            assert!(!materials.unknown, "{text}");
        }
        assert!(Materials::of("unobtainium").is_unknown() && Materials::of("").is_unknown());
        assert!(Materials::of("resin and white metal").are_only(&[Material::Resin, Material::WhiteMetal]));
        assert!(!Materials::of("plastic and moonstuff").are_only(&[Material::Plastic]));
    }
}
