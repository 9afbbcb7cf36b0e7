//! What models are made of.

use std::sync::LazyLock;

use super::table::{Table, folded, words};
use crate::trade::{ModelKind, choice};

impl Material {
    /// Whether it is a material, and not a word beside one.
    pub fn is_one(self) -> bool {
        !matches!(self, Self::Filler | Self::Bendy | Self::Stiff | Self::Form | Self::Joint)
    }
}

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
        /// PVC and no word on whether it bends.
        Pvc = "pvc",
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
        /// The same, but for PVC, which bends if it says so.
        Bendy = "bendy",
        /// The same, but for PVC, which is hard if it says so.
        Stiff = "stiff",
        /// A form that nobody knows the material of, but of PVC, which is hard in it: rod, pipe.
        Form = "form",
        /// A word between two materials.
        Joint = "joint",
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
        for thought in thoughts(&folded(text)) {
            let pvc = pvc_of(&thought);
            for meaning in thought {
                match meaning {
                    None => materials.unknown = true,
                    Some(Material::Form) if pvc.is_none() => materials.unknown = true,
                    Some(Material::Pvc) => materials.add(pvc.unwrap_or(Material::Pvc)),
                    Some(known) => materials.add(known),
                }
            }
        }
        materials
    }

    fn add(&mut self, material: Material) {
        if material.is_one() && !self.has(material) {
            self.found.push(material);
        }
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
        use Material::{Card, Cloth, Cork, Foam, OtherFoam, Plaster, Wood};
        self.drink()
            && self.found.iter().all(|one| matches!(one, Card | Cloth | Cork | Foam | OtherFoam | Plaster | Wood))
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

/// The meanings of the words of a folded text, those of one material together: `soft PVC and a resin base` is two, and what
/// names no material belongs to what stands before it, as in `PVC (rigid)`.
fn thoughts(folded: &str) -> Vec<Vec<Option<Material>>> {
    let mut thoughts: Vec<Vec<Option<Material>>> = Vec::new();
    for piece in folded.split([',', ';', '/', '+', '&', '(', ')']) {
        let meanings: Vec<_> = TABLE.look(&words(piece)).into_iter().map(|(_, meaning)| meaning).collect();
        for thought in meanings.split(|meaning| *meaning == Some(Material::Joint)) {
            let names = thought.iter().flatten().any(|meaning| meaning.is_one());
            match thoughts.last_mut().filter(|_| !names) {
                Some(before) => before.extend(thought),
                None => thoughts.push(thought.to_vec()),
            }
        }
    }
    thoughts
}

/// What PVC is by the words beside it; none where it is not named.
fn pvc_of(thought: &[Option<Material>]) -> Option<Material> {
    let says = |word: Material| thought.contains(&Some(word));
    let hard = || says(Material::Stiff) || says(Material::Form);
    says(Material::Pvc).then(|| {
        if says(Material::Bendy) {
            Material::SoftPlastic
        } else if hard() {
            Material::Plastic
        } else {
            Material::Pvc
        }
    })
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
            ("PVC", Material::Pvc),
            ("PVC figure", Material::Pvc),
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
        assert!(Materials::of("resin and hard").are_only(&[Material::Resin]));
        assert!(Materials::of("unobtainium").is_unknown() && Materials::of("").is_unknown());
        assert!(Materials::of("resin and white metal").are_only(&[Material::Resin, Material::WhiteMetal]));
        assert!(!Materials::of("plastic and moonstuff").are_only(&[Material::Plastic]));
    }

    /// Game pieces that are cast of PVC bend; sheet and pipe do not, in whatever order the words stand.
    #[test]
    fn pvc_is_what_the_words_beside_it_say() {
        for text in [
            "PVC rod",
            "PVC strip",
            "PVC profile",
            "PVC plate",
            "PVC card",
            "PVC-U",
            "uPVC",
            "unplasticised PVC",
            "PVC drain pipe",
            "grey PVC sheet, thin",
            "PVC (rigid)",
            "moulded PVC",
            "extruded PVC",
            "PVC-Platte",
            "PVC-Rohr",
            "hartes PVC",
            "PVC dur",
            "feuille de PVC",
            "PVC duro",
            "lámina de PVC",
            "hoja de PVC",
            "tubería de PVC",
        ] {
            let materials = Materials::of(text);
            assert_eq!(
                (materials.found.as_slice(), materials.unknown),
                ([Material::Plastic].as_slice(), false),
                "{text}"
            );
        }
        for text in ["soft PVC", "PVC, soft", "PVC (flexible)", "Weich-PVC", "PVC mou", "PVC blando", "plasticised PVC"]
        {
            assert_eq!(Materials::of(text).found, [Material::SoftPlastic], "{text}");
        }
        for (text, found) in [
            ("wood and PVC pipe", [Material::Wood, Material::Plastic]),
            ("PVC, MDF board", [Material::Pvc, Material::Wood]),
            ("PVC on a sheet of cork", [Material::Pvc, Material::Cork]),
            ("PVC and hard plastic", [Material::Pvc, Material::Plastic]),
            ("soft PVC / hard plastic", [Material::SoftPlastic, Material::Plastic]),
        ] {
            assert_eq!(Materials::of(text).found, found, "{text}");
        }
        for text in ["PVC-Hartschaum", "PVC expansé", "PVC foam sheet", "espuma de PVC"] {
            assert_eq!(Materials::of(text).found, [Material::OtherFoam], "{text}");
        }
        // Beside no PVC a form is what it was: a rod may be of anything.
        assert!(!Materials::of("plastic and rod").are_only(&[Material::Plastic]));
    }
}
