//! Which cautions a step needs: one line a danger, from the technique, the stage, the model and the products.

use super::{CautionKind, product};
use crate::guide::{Paint, Scheme, Step};
use crate::trade::{Kind, Stage, Technique};

/// Words for a model of plastic or card; dust of any other material, or of one that is not named, needs a caution.
const SOFT_MATERIALS: &[&str] = &[
    "abs",
    "card",
    "cardboard",
    "hard",
    "hips",
    "injection",
    "molded",
    "moulded",
    "plastic",
    "plastics",
    "polystyrene",
    "pvc",
    "soft",
    "styrene",
    "vinyl", // English
    "karton",
    "kunststoff",
    "plastik",
    "polystyrol", // German
    "carton",
    "plastique",
    "polystyrène", // French
    "cartón",
    "plástico",
    "plastico",
    "poliestireno", // Spanish
];

/// The cautions of a step, in their order.
pub(super) fn kinds(scheme: &Scheme, step: &Step) -> Vec<CautionKind> {
    let scene = Scene { material: scheme.model.material.as_deref(), step };
    CautionKind::ALL.iter().copied().filter(|kind| scene.needs(*kind)).collect()
}

/// A step and what it is done to.
#[derive(Clone, Copy)]
struct Scene<'a> {
    material: Option<&'a str>,
    step: &'a Step,
}

impl Scene<'_> {
    fn needs(self, kind: CautionKind) -> bool {
        let can = self.step.technique == Technique::SprayCan;
        match kind {
            CautionKind::SprayMist => self.sprays(),
            // Most cans hold a solvent, and the gas of the others burns; a particle filter stops neither.
            CautionKind::SpraySolvent => can || (self.sprays() && self.any(product::is_solvent)),
            CautionKind::AerosolCan => can || self.any(product::is_pressurised),
            CautionKind::Solvent => self.any(product::is_solvent),
            CautionKind::Varnish => self.varnishes(),
            CautionKind::Dust => self.dusts(),
            CautionKind::OilyRags => self.any(product::heats_rags),
            CautionKind::Blade => self.step.technique == Technique::Blade,
            CautionKind::Glue => self.any(product::is_glue),
            CautionKind::TwoPack => self.any(product::is_hardener),
            CautionKind::Skin => can || self.any(product::hurts_skin),
            CautionKind::Heat => can || self.any(product::is_flammable),
            CautionKind::Children => self.endangers_children(),
            CautionKind::SmallLabel => self.any(product::may_have_a_bare_label),
        }
    }

    fn any(self, test: fn(&Paint) -> bool) -> bool {
        self.step.mix.parts.iter().any(|part| test(&part.paint))
    }

    /// Whether something flies through the air. Who pours paint out of an aerosol can for the brush sprays it first.
    fn sprays(self) -> bool {
        self.step.technique.sprays() || self.any(product::is_pressurised)
    }

    fn varnishes(self) -> bool {
        self.step.stage == Stage::Varnish || self.any(|paint| paint.kind == Kind::Varnish)
    }

    /// Whether dust rises: from powders, from what a knife or a file scrapes off, from sanding and filling.
    fn dusts(self) -> bool {
        let scraped = match self.step.stage {
            // A transfer sheet or a mask is cut and not scraped.
            Stage::Decal | Stage::Mask | Stage::Unmask => false,
            Stage::Prepare => self.sands() || !self.is_soft(),
            _ => self.step.technique == Technique::Blade,
        };
        scraped || self.step.stage == Stage::Pigment || self.any(product::is_powder)
    }

    /// Whether a step that prepares the model scrapes or sands: a sanding sponge and an abrasive cloth do.
    fn sands(self) -> bool {
        matches!(self.step.technique, Technique::Blade | Technique::Sponge | Technique::Cloth)
    }

    /// Whether the model is known to be of plastic or card and of nothing else.
    fn is_soft(self) -> bool {
        let material = self.material.unwrap_or_default().to_lowercase();
        let mut words =
            material.split(|letter: char| !letter.is_alphabetic()).filter(|word| !word.is_empty()).peekable();
        words.peek().is_some() && words.all(|word| SOFT_MATERIALS.contains(&word))
    }

    fn endangers_children(self) -> bool {
        const DANGERS: &[CautionKind] = &[
            CautionKind::SprayMist,
            CautionKind::AerosolCan,
            CautionKind::Solvent,
            CautionKind::Dust,
            CautionKind::OilyRags,
            CautionKind::Blade,
            CautionKind::Glue,
            CautionKind::TwoPack,
        ];
        DANGERS.iter().any(|kind| self.needs(*kind)) || self.any(product::is_grave)
    }
}

#[cfg(test)]
mod tests {
    use super::super::testing::{paint, scheme, step};
    use super::super::{StepCautions, of_step};
    use super::*;
    use crate::trade::Family;
    use proptest::prelude::*;

    /// The names of a step's cautions, in their order.
    fn said(stage: Stage, technique: Technique, material: Option<&str>, paints: &[Paint]) -> String {
        let kinds = kinds(&scheme(material, Vec::new()), &step(stage, technique, paints));
        kinds.iter().map(|kind| kind.name()).collect::<Vec<_>>().join(" ")
    }

    /// What is said of a plastic model with these products.
    fn of(stage: Stage, technique: Technique, paints: &[Paint]) -> String {
        said(stage, technique, Some("plastic"), paints)
    }

    fn water() -> Paint {
        paint(Kind::Paint, Family::Water)
    }

    #[test]
    fn plain_water_based_brushwork_needs_no_caution() {
        let quiet = [Technique::Brush, Technique::Sponge, Technique::Drybrush, Technique::Stipple, Technique::Pipette];
        for technique in quiet {
            assert_eq!(of(Stage::Basecoat, technique, &[water()]), "", "{technique}");
        }
        let kinds = [Kind::Metal, Kind::Clear, Kind::Wash, Kind::Ink, Kind::Primer, Kind::Medium, Kind::Texture];
        for kind in kinds {
            assert_eq!(of(Stage::Layer, Technique::Brush, &[paint(kind, Family::Water)]), "", "{kind}");
        }
        assert_eq!(of(Stage::Mask, Technique::Hand, &[]), "");
    }

    #[test]
    fn spraying_water_based_paint_is_breathed_all_the_same() {
        assert_eq!(of(Stage::Basecoat, Technique::Airbrush, &[water()]), "spray-mist children");
        assert_eq!(of(Stage::Basecoat, Technique::Airbrush, &[]), "spray-mist children");
    }

    #[test]
    fn spraying_a_solvent_says_everything_about_solvents_too() {
        let expected = "spray-mist spray-solvent solvent skin heat children";
        for family in [Family::Alcohol, Family::Lacquer] {
            assert_eq!(of(Stage::Glaze, Technique::Airbrush, &[paint(Kind::Clear, family)]), expected, "{family}");
        }
        let enamel = paint(Kind::Enamel, Family::Enamel);
        let expected = "spray-mist spray-solvent solvent oily-rags skin heat children";
        assert_eq!(of(Stage::Basecoat, Technique::Airbrush, &[enamel]), expected);
    }

    #[test]
    fn a_solvent_thinner_in_a_water_based_mix_counts() {
        let expected = "spray-mist spray-solvent solvent skin heat children";
        let thinner = paint(Kind::Thinner, Family::Alcohol);
        assert_eq!(of(Stage::Basecoat, Technique::Airbrush, &[water(), thinner]), expected);
        let in_the_wrong_range = paint(Kind::Thinner, Family::Water).suiting(Family::Lacquer);
        assert_eq!(of(Stage::Basecoat, Technique::Airbrush, &[water(), in_the_wrong_range]), expected);
        let own = paint(Kind::Thinner, Family::Water).suiting(Family::Water);
        assert_eq!(of(Stage::Basecoat, Technique::Airbrush, &[water(), own]), "spray-mist children");
    }

    #[test]
    fn hazard_codes_outweigh_the_family() {
        let expected = "spray-mist spray-solvent solvent skin heat children";
        for codes in ["H224", "H225", "H226", "EUH209A", "P210"] {
            assert_eq!(of(Stage::Basecoat, Technique::Airbrush, &[water().hazards(codes)]), expected, "{codes}");
        }
        for codes in ["H304", "H336", "EUH066", "P301+P310+P331", "H332", "H335"] {
            assert_eq!(of(Stage::Basecoat, Technique::Brush, &[water().hazards(codes)]), "solvent skin children");
        }
        assert_eq!(of(Stage::Basecoat, Technique::Brush, &[water().hazards("H412 EUH210")]), "");
    }

    #[test]
    fn a_can_is_an_aerosol_whatever_is_in_it() {
        let expected = "spray-mist spray-solvent aerosol-can skin heat children";
        assert_eq!(of(Stage::Undercoat, Technique::SprayCan, &[paint(Kind::Primer, Family::Water)]), expected);
        assert_eq!(of(Stage::Undercoat, Technique::SprayCan, &[]), expected);
        let expected = "spray-mist spray-solvent aerosol-can solvent skin heat children";
        assert_eq!(of(Stage::Undercoat, Technique::SprayCan, &[paint(Kind::Primer, Family::Lacquer)]), expected);
        let decanted = paint(Kind::Primer, Family::Lacquer).hazards("H222 H229");
        assert_eq!(of(Stage::Undercoat, Technique::Brush, &[decanted]), expected);
        assert!(!of(Stage::Undercoat, Technique::Airbrush, &[water()]).contains("aerosol-can"));
    }

    #[test]
    fn solvents_by_brush_warn_of_vapour_fire_and_rags() {
        let lacquer = paint(Kind::Metal, Family::Lacquer);
        assert_eq!(of(Stage::Highlight, Technique::Brush, &[lacquer]), "solvent skin heat children");
        let oils = [
            paint(Kind::Oil, Family::Oil),
            paint(Kind::Wash, Family::Enamel),
            paint(Kind::Thinner, Family::Water).suiting(Family::Enamel),
            paint(Kind::Oil, Family::Water),
        ];
        for oil in oils {
            assert_eq!(of(Stage::Weather, Technique::Cloth, &[oil]), "solvent oily-rags skin heat children");
        }
        let self_heating = water().hazards("H251");
        assert_eq!(of(Stage::Weather, Technique::Cloth, &[self_heating]), "oily-rags children");
        let varnish = paint(Kind::Varnish, Family::Oil);
        let expected = "solvent varnish oily-rags skin heat children";
        assert_eq!(of(Stage::Varnish, Technique::Brush, &[varnish]), expected);
    }

    #[test]
    fn cleaners_and_softeners_dissolve_whatever_carries_them() {
        for kind in [Kind::Cleaner, Kind::DecalSoftener] {
            let helper = paint(kind, Family::Water);
            assert_eq!(of(Stage::Decal, Technique::Brush, &[helper]), "solvent skin children", "{kind}");
        }
    }

    #[test]
    fn a_clear_coat_warns_by_stage_and_by_kind() {
        assert_eq!(of(Stage::Varnish, Technique::Brush, &[water()]), "varnish");
        assert_eq!(of(Stage::Detail, Technique::Brush, &[paint(Kind::Varnish, Family::Water)]), "varnish");
        assert_eq!(of(Stage::Detail, Technique::Brush, &[paint(Kind::Clear, Family::Water)]), "");
    }

    #[test]
    fn dust_comes_from_material_scraping_and_powders() {
        for material in [None, Some("resin"), Some("white metal"), Some("Harz"), Some("plastic and resin"), Some("  ")]
        {
            assert_eq!(said(Stage::Prepare, Technique::Hand, material, &[]), "dust children", "{material:?}");
        }
        for material in ["plastic", "Hard plastic", "Kunststoff", "Plástico", "polystyrène"] {
            assert_eq!(said(Stage::Prepare, Technique::Hand, Some(material), &[]), "", "{material}");
        }
        assert_eq!(said(Stage::Basecoat, Technique::Brush, Some("resin"), &[water()]), "");
        assert_eq!(of(Stage::Prepare, Technique::Sponge, &[]), "dust children");
        assert_eq!(of(Stage::Prepare, Technique::Blade, &[]), "dust blade children");
        assert_eq!(of(Stage::Chip, Technique::Blade, &[]), "dust blade children");
        let powder = paint(Kind::Pigment, Family::Dry);
        assert_eq!(of(Stage::Weather, Technique::Brush, &[powder]), "dust children");
        assert_eq!(of(Stage::Pigment, Technique::Brush, &[water()]), "dust children");
        assert_eq!(of(Stage::Basecoat, Technique::Brush, &[water().hazards("EUH212")]), "dust children");
    }

    #[test]
    fn a_blade_that_cuts_a_sheet_makes_no_dust() {
        for stage in [Stage::Decal, Stage::Mask, Stage::Unmask] {
            assert_eq!(of(stage, Technique::Blade, &[]), "blade children", "{stage}");
            assert_eq!(of(stage, Technique::Brush, &[]), "", "{stage}");
        }
    }

    #[test]
    fn glue_warns_by_kind_and_by_code() {
        let glue = paint(Kind::Glue, Family::Water);
        assert_eq!(of(Stage::Basing, Technique::Hand, std::slice::from_ref(&glue)), "glue children");
        let instant = glue.hazards("H315 H319 H335 EUH202");
        assert_eq!(of(Stage::Basing, Technique::Hand, &[instant]), "glue skin children");
        assert_eq!(of(Stage::Basing, Technique::Hand, &[water().hazards("EUH202")]), "glue skin children");
        assert_eq!(of(Stage::Basing, Technique::Hand, &[paint(Kind::Texture, Family::Water)]), "");
    }

    #[test]
    fn hardeners_warn_by_family_and_by_code() {
        let clear = paint(Kind::Varnish, Family::TwoPack);
        let expected = "solvent varnish two-pack skin heat children";
        assert_eq!(of(Stage::Varnish, Technique::Brush, &[clear]), expected);
        for codes in ["H334", "EUH204", "EUH205", "P342+P311"] {
            let said = of(Stage::Basecoat, Technique::Brush, &[water().hazards(codes)]);
            assert_eq!(said, "two-pack skin children", "{codes}");
        }
    }

    #[test]
    fn skin_warns_of_allergies_and_of_lasting_harm() {
        for codes in ["H315", "H317", "H319", "EUH208", "EUH203", "P280", "P302+P352"] {
            assert_eq!(of(Stage::Basecoat, Technique::Brush, &[water().hazards(codes)]), "skin", "{codes}");
        }
        for codes in ["H302+H312", "H314", "H318", "H350i", "H361fd", "H373", "EUH201A", "EUH207"] {
            assert_eq!(of(Stage::Basecoat, Technique::Brush, &[water().hazards(codes)]), "skin children", "{codes}");
        }
        assert_eq!(of(Stage::Basecoat, Technique::Brush, &[water().hazards("P102")]), "children");
        assert_eq!(of(Stage::Basecoat, Technique::Brush, &[water().hazards("EUH211 P501")]), "");
    }

    #[test]
    fn a_small_bottle_with_something_to_warn_of_has_a_bare_label() {
        let harmful = water().hazards("H412");
        for size in [Some(17.0), Some(125.0), None] {
            let small = harmful.clone().bottle(size);
            assert_eq!(of(Stage::Basecoat, Technique::Brush, &[small]), "small-label", "{size:?}");
            assert_eq!(of(Stage::Basecoat, Technique::Brush, &[water().bottle(size)]), "", "{size:?}");
        }
        assert_eq!(of(Stage::Basecoat, Technique::Brush, &[harmful.bottle(Some(126.0))]), "");
        let lacquer = paint(Kind::Metal, Family::Lacquer).bottle(Some(10.0));
        assert!(of(Stage::Highlight, Technique::Brush, &[lacquer]).ends_with("small-label"));
    }

    #[test]
    fn each_caution_is_said_somewhere_and_is_silent_elsewhere() {
        let everything = paint(Kind::Glue, Family::Enamel).hazards("H222 H334 H317").bottle(Some(10.0));
        let loud = step(Stage::Varnish, Technique::SprayCan, std::slice::from_ref(&everything));
        let scraping = step(Stage::Prepare, Technique::Blade, &[everything]);
        let quiet = kinds(&scheme(None, Vec::new()), &step(Stage::Basecoat, Technique::Brush, &[water()]));
        for kind in CautionKind::ALL {
            let said = [&loud, &scraping].map(|step| kinds(&scheme(None, Vec::new()), step).contains(kind));
            assert!(said.contains(&true), "{kind} is never said");
            assert!(!quiet.contains(kind), "{kind} is said of water and a brush");
        }
        assert!(kinds(&scheme(None, Vec::new()), &loud).contains(&CautionKind::AerosolCan));
    }

    fn any_of<T: Copy + std::fmt::Debug + 'static>(all: &'static [T]) -> impl Strategy<Value = T> {
        proptest::sample::select(all)
    }

    fn any_paint() -> impl Strategy<Value = Paint> {
        const CODES: &[&str] = &[
            "H222", "H226", "H229", "H304", "H317", "H334", "H336", "H412", "EUH204", "EUH208", "EUH210", "P102",
            "P280",
        ];
        let size = proptest::option::of(1.0..400.0_f64);
        let codes = proptest::sample::subsequence(CODES, 0..4);
        (any_of(Kind::ALL), any_of(Family::ALL), codes, size)
            .prop_map(|(kind, family, codes, size)| paint(kind, family).hazards(&codes.join(" ")).bottle(size))
    }

    fn any_paints() -> impl Strategy<Value = Vec<Paint>> {
        proptest::collection::vec(any_paint(), 0..4)
    }

    fn contains(more: &StepCautions, less: &StepCautions) -> bool {
        less.kinds.iter().all(|kind| more.kinds.contains(kind))
            && less.notes.iter().all(|note| more.notes.contains(note))
            && less.statements.iter().all(|one| more.statements.iter().any(|other| other.code == one.code))
    }

    proptest! {
        #[test]
        fn an_author_can_only_add(
            stage in any_of(Stage::ALL),
            technique in any_of(Technique::ALL),
            material in proptest::option::of(proptest::sample::select(vec!["resin", "plastic", "zinc"])),
            paints in any_paints(),
            more in any_paints(),
            codes in proptest::sample::select(vec!["EUH210", "H412", "P501", "H317"]),
        ) {
            let model = scheme(material, Vec::new());
            let before = of_step(&model, &step(stage, technique, &paints));
            let mut added = step(stage, technique, &[paints.clone(), more].concat());
            added.safety = vec!["Keep the dog out.".to_owned(), "This is safe.".to_owned()];
            let after = of_step(&model, &added);
            prop_assert!(contains(&after, &before), "{before:?} became {after:?}");

            // Nor does one more code on every product take anything away.
            let coded: Vec<Paint> = paints
                .iter()
                .map(|paint| {
                    let known: Vec<&str> = paint.hazards.iter().map(|code| code.0.as_str()).chain([codes]).collect();
                    paint.clone().hazards(&known.join(" "))
                })
                .collect();
            let coded = of_step(&model, &step(stage, technique, &coded));
            prop_assert!(contains(&coded, &before), "{before:?} became {coded:?}");
        }
    }
}
