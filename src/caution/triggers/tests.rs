//! What steps of all kinds are cautioned about, and where nothing is said.

use super::*;
use crate::caution::testing::{paint, scheme, step, tool};
use crate::caution::{StepCautions, of_step};
use crate::trade::Family;
use proptest::prelude::*;
use std::sync::Arc;

/// The names of a step's cautions, in their order.
fn said(stage: Stage, technique: Technique, material: Option<&str>, paints: &[Paint]) -> String {
    let kinds = kinds(&scheme(material, Vec::new()), &step(stage, technique, paints), &[]);
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
    assert_eq!(of(Stage::Basecoat, Technique::Airbrush, &[water()]), "spray-mist particle-mask children");
    assert_eq!(of(Stage::Basecoat, Technique::Airbrush, &[]), "spray-mist particle-mask children");
}

#[test]
fn spraying_a_solvent_says_everything_about_solvents_too() {
    let expected = "spray-mist spray-solvent solvent mask-fit heat skin pregnancy children";
    for family in [Family::Alcohol, Family::Lacquer] {
        assert_eq!(of(Stage::Glaze, Technique::Airbrush, &[paint(Kind::Clear, family)]), expected, "{family}");
    }
    let enamel = paint(Kind::Enamel, Family::Enamel);
    let expected = "spray-mist spray-solvent solvent mask-fit heat oily-rags skin pregnancy children";
    assert_eq!(of(Stage::Basecoat, Technique::Airbrush, &[enamel]), expected);
}

#[test]
fn a_solvent_thinner_in_a_water_based_mix_counts() {
    let expected = "spray-mist spray-solvent solvent mask-fit heat skin pregnancy children";
    let thinner = paint(Kind::Thinner, Family::Alcohol);
    assert_eq!(of(Stage::Basecoat, Technique::Airbrush, &[water(), thinner]), expected);
    let in_the_wrong_range = paint(Kind::Thinner, Family::Water).suiting(Family::Lacquer);
    assert_eq!(of(Stage::Basecoat, Technique::Airbrush, &[water(), in_the_wrong_range]), expected);
    let own = paint(Kind::Thinner, Family::Water).suiting(Family::Water);
    assert_eq!(of(Stage::Basecoat, Technique::Airbrush, &[water(), own]), "spray-mist particle-mask children");
}

#[test]
fn hazard_codes_outweigh_the_family() {
    let expected = "spray-mist spray-solvent solvent mask-fit heat skin pregnancy children";
    for codes in ["H224", "H225", "H226", "EUH209A", "P210"] {
        assert_eq!(of(Stage::Basecoat, Technique::Airbrush, &[water().hazards(codes)]), expected, "{codes}");
    }
    for codes in ["H304", "H336", "EUH066", "P301+P310+P331"] {
        assert_eq!(of(Stage::Basecoat, Technique::Brush, &[water().hazards(codes)]), "solvent heat skin children");
    }
    assert_eq!(of(Stage::Basecoat, Technique::Brush, &[water().hazards("H332")]), "solvent skin children");
    let irritates = of(Stage::Basecoat, Technique::Brush, &[water().hazards("H335")]);
    assert_eq!(irritates, "solvent skin pregnancy children");
    assert_eq!(of(Stage::Basecoat, Technique::Brush, &[water().hazards("H412 EUH210")]), "rinse-water");
}

#[test]
fn a_can_is_an_aerosol_whatever_is_in_it() {
    let expected = "spray-solvent aerosol-can mask-fit heat skin pregnancy children";
    assert_eq!(of(Stage::Undercoat, Technique::SprayCan, &[paint(Kind::Primer, Family::Water)]), expected);
    assert_eq!(of(Stage::Undercoat, Technique::SprayCan, &[]), expected);
    let expected = "spray-solvent aerosol-can solvent mask-fit heat skin pregnancy children";
    assert_eq!(of(Stage::Undercoat, Technique::SprayCan, &[paint(Kind::Primer, Family::Lacquer)]), expected);
    let decanted = paint(Kind::Primer, Family::Lacquer).hazards("H222 H229");
    assert_eq!(of(Stage::Undercoat, Technique::Brush, &[decanted]), expected);
    assert!(!of(Stage::Undercoat, Technique::Airbrush, &[water()]).contains("aerosol-can"));
}

#[test]
fn solvents_by_brush_warn_of_vapour_fire_and_rags() {
    let lacquer = paint(Kind::Metal, Family::Lacquer);
    assert_eq!(of(Stage::Highlight, Technique::Brush, &[lacquer]), "solvent heat skin children");
    let oils = [
        paint(Kind::Oil, Family::Oil),
        paint(Kind::Wash, Family::Enamel),
        paint(Kind::Thinner, Family::Water).suiting(Family::Enamel),
        paint(Kind::Oil, Family::Water),
    ];
    for oil in oils {
        assert_eq!(of(Stage::Weather, Technique::Cloth, &[oil]), "solvent heat oily-rags skin children");
    }
    let self_heating = water().hazards("H251");
    assert_eq!(of(Stage::Weather, Technique::Cloth, &[self_heating]), "oily-rags children");
    let varnish = paint(Kind::Varnish, Family::Oil);
    let expected = "solvent varnish heat oily-rags skin children";
    assert_eq!(of(Stage::Varnish, Technique::Brush, &[varnish]), expected);
}

#[test]
fn cleaners_dissolve_whatever_carries_them_and_softeners_by_what_they_say() {
    let said = |helper: Paint| of(Stage::Decal, Technique::Brush, &[helper]);
    assert_eq!(said(paint(Kind::Cleaner, Family::Water)), "solvent skin children");
    let softener = || paint(Kind::DecalSoftener, Family::Water);
    assert_eq!(said(softener()), "softener");
    assert_eq!(said(softener().hazards("H319")), "softener skin");
    assert_eq!(said(softener().hazards("H226")), "solvent heat skin children");
    assert_eq!(said(softener().hazards("H336")), "solvent heat skin children");
    assert_eq!(said(paint(Kind::DecalSoftener, Family::Lacquer)), "solvent heat skin children");
    assert!(of(Stage::Decal, Technique::Airbrush, &[softener()]).contains("spray-solvent"));
}

#[test]
fn a_clear_coat_warns_by_stage_and_by_kind() {
    assert_eq!(of(Stage::Varnish, Technique::Brush, &[water()]), "varnish");
    assert_eq!(of(Stage::Detail, Technique::Brush, &[paint(Kind::Varnish, Family::Water)]), "varnish");
    assert_eq!(of(Stage::Detail, Technique::Brush, &[paint(Kind::Clear, Family::Water)]), "");
}

#[test]
fn dust_comes_from_material_scraping_and_powders() {
    for material in [None, Some("resin"), Some("brass"), Some("Harz"), Some("plastic and resin"), Some("  ")] {
        assert_eq!(said(Stage::Prepare, Technique::Hand, material, &[]), "dust mask-fit children", "{material:?}");
    }
    for material in ["plastic", "Hard plastic", "Kunststoff", "Plástico", "polystyrène"] {
        assert_eq!(said(Stage::Prepare, Technique::Hand, Some(material), &[]), "", "{material}");
    }
    assert_eq!(said(Stage::Basecoat, Technique::Brush, Some("resin"), &[water()]), "");
    assert_eq!(of(Stage::Prepare, Technique::Sponge, &[]), "dust mask-fit children");
    assert_eq!(of(Stage::Prepare, Technique::Blade, &[]), "dust mask-fit blade children");
    assert_eq!(of(Stage::Chip, Technique::Blade, &[]), "dust mask-fit blade children");
    let powder = paint(Kind::Pigment, Family::Dry);
    assert_eq!(of(Stage::Weather, Technique::Brush, &[powder]), "powder mask-fit children");
    assert_eq!(of(Stage::Pigment, Technique::Pipette, &[water()]), "powder mask-fit children");
    assert_eq!(of(Stage::Basecoat, Technique::Brush, &[water().hazards("EUH212")]), "powder mask-fit children");
    assert_eq!(of(Stage::Pigment, Technique::Blade, &[]), "dust powder mask-fit blade children");
}

#[test]
fn a_wash_makes_no_dust_and_scraping_before_it_does() {
    let said = |title: &str, technique: Technique, tools: &[&str]| {
        let tools = tools.iter().map(|name| Arc::new(tool(name))).collect();
        let step = Step { title: title.to_owned(), tools, ..step(Stage::Prepare, technique, &[]) };
        let kinds = kinds(&scheme(Some("resin"), Vec::new()), &step, &[]);
        kinds.iter().map(|kind| kind.name()).collect::<Vec<_>>().join(" ")
    };
    for technique in [Technique::Brush, Technique::Hand, Technique::Cloth, Technique::Sponge] {
        assert_eq!(said("Wash it in soapy water and rinse", technique, &[]), "", "{technique}");
        assert_eq!(said("Scrape it, then wash it", technique, &[]), "dust mask-fit blade children", "{technique}");
        assert_eq!(said("Get it ready", technique, &[]), "dust mask-fit children", "{technique}");
        assert_eq!(said("Wash it", technique, &["Needle file"]), "dust mask-fit children", "{technique}");
    }
    assert_eq!(said("Wash it", Technique::Blade, &[]), "dust mask-fit blade children");
    assert_eq!(said("Wash off the old paint", Technique::Brush, &[]), "dust lead mask-fit pregnancy children");
}

#[test]
fn a_blade_that_cuts_a_sheet_makes_no_dust() {
    for stage in [Stage::Decal, Stage::Mask, Stage::Unmask] {
        assert_eq!(of(stage, Technique::Blade, &[]), "blade children", "{stage}");
        assert_eq!(of(stage, Technique::Brush, &[]), "", "{stage}");
    }
}

#[test]
fn glue_warns_by_name_and_by_code() {
    let glue = || paint(Kind::Glue, Family::Water);
    let said = |glue: Paint| of(Stage::Basing, Technique::Hand, &[glue]);
    assert_eq!(said(glue()), "glue children");
    assert_eq!(said(glue().named("Sekundenkleber dünn")), "glue skin children");
    assert_eq!(said(glue().hazards("H315 H319 EUH202")), "glue skin children");
    assert_eq!(said(glue().named("PVA wood glue")), "");
    assert_eq!(said(glue().named("Liquid cement")), "solvent heat skin children");
    assert_eq!(said(water().hazards("EUH202")), "glue skin children");
    assert_eq!(said(paint(Kind::Texture, Family::Water)), "");
}

/// What an author calls `dry` because it holds no water; powder is another thing.
#[test]
fn glue_is_no_powder_and_quick_glue_is_instant_glue() {
    let said = |kind: Kind, name: &str| of(Stage::Assemble, Technique::Hand, &[paint(kind, Family::Dry).named(name)]);
    for name in ["Quick Glue", "Thin CA", "Instant", "Cyano"] {
        assert_eq!(said(Kind::Glue, name), "glue skin children", "{name}");
    }
    for name in ["Quick white glue", "Quick PVA glue"] {
        assert_eq!(said(Kind::Glue, name), "", "{name}");
    }
    assert_eq!(said(Kind::Paint, "Dry dust"), "powder mask-fit children");
}

/// What is said of a water-based brush step of a model of this material, with tools of these names.
fn with_tools(stage: Stage, material: &str, tools: &[&str]) -> String {
    let tool = |name: &&str| Arc::new(tool(name));
    let step = Step { tools: tools.iter().map(tool).collect(), ..step(stage, Technique::Hand, &[]) };
    let kinds = kinds(&scheme(Some(material), Vec::new()), &step, &[]);
    kinds.iter().map(|kind| kind.name()).collect::<Vec<_>>().join(" ")
}

#[test]
fn cement_is_known_without_more_words() {
    assert_eq!(with_tools(Stage::Assemble, "plastic", &["Thin cement"]), "solvent heat skin children");
    assert_eq!(with_tools(Stage::Basing, "plastic", &["Cement grey pots"]), "");
}

#[test]
fn tools_warn_by_what_painters_call_them() {
    for (tools, said) in [
        (&["Craft knife"][..], "blade children"),
        (&["Flush cutters"], "blade children"),
        (&["Laubsäge"], "dust mask-fit blade children"),
        (&["Rotary tool"], "dust mask-fit power-tool children"),
        (&["Hot wire cutter"], "hot-tool children"),
        (&["fer à souder"], "hot-tool children"),
        (&["Hair dryer"], "hot-tool children"),
        (&["UV lamp"], "lamp children"),
        (&["Static grass applicator"], "high-voltage children"),
        (&["Fine sanding sponge"], "dust mask-fit children"),
        (&["Small steel spatula", "Palette knife", "Tweezers"], ""),
    ] {
        assert_eq!(with_tools(Stage::Basing, "plastic", tools), said, "{tools:?}");
    }
    assert_eq!(with_tools(Stage::Prepare, "plastic", &["Clippers"]), "blade children");
    assert_eq!(with_tools(Stage::Prepare, "plastic", &["Plastic cement"]), "solvent heat skin children");
}

/// What a hand turns has no plug, whatever its id is; and what has one keeps it.
#[test]
fn a_drill_for_the_hand_has_no_motor() {
    let pinned = |id: &str, name: &str| {
        let drill = Arc::new(Tool { id: id.to_owned(), ..tool(name) });
        let step = Step { tools: vec![drill], ..step(Stage::Prepare, Technique::Hand, &[]) };
        kinds(&scheme(Some("plastic"), Vec::new()), &step, &[]).contains(&CautionKind::PowerTool)
    };
    for name in ["Pin vise", "Hand-turned drill", "Finger drill", "Hand vice with drill bits", "Handbohrer"] {
        assert!(!pinned("drill", name), "{name}");
    }
    for (id, name) in [
        ("drill", "Drill"),
        ("drill", "Mini drill"),
        ("rotary-tool", "Hand drill"),
        ("drill", "1 mm"),
        ("x", "Cordless drill and pin vise"),
        ("x", "Disc sander or finger drill"),
        ("drill", "Electric pin vise"),
    ] {
        assert!(pinned(id, name), "{id} {name}");
    }
}

/// Resin is sanded and drilled as it is put together, too; where parts are laid out there is nothing to breathe.
#[test]
fn parts_that_are_drilled_as_they_are_joined_make_dust() {
    let joined = |material: &str, title: &str, tools: &[&str]| {
        let tools = tools.iter().map(|name| Arc::new(tool(name))).collect();
        let step = Step { title: title.to_owned(), tools, ..step(Stage::Assemble, Technique::Hand, &[]) };
        kinds(&scheme(Some(material), Vec::new()), &step, &[]).contains(&CautionKind::Dust)
    };
    assert!(joined("resin", "Sand the joint smooth, then drill 10 mm into it", &["Hand drill"]));
    assert!(joined("resin", "Pin the arms", &["Hand drill with a 1 mm bit"]));
    assert!(!joined("resin", "Lay the parts out", &[]));
    assert!(!joined("plastic", "Drill out the barrels", &[]));
}

#[test]
fn a_spatula_is_no_blade() {
    let spatula = Arc::new(tool("Small steel spatula"));
    let step = Step { tools: vec![spatula], ..step(Stage::Basing, Technique::Blade, &[]) };
    assert_eq!(kinds(&scheme(Some("plastic"), Vec::new()), &step, &[]), []);
}

#[test]
fn white_metal_may_hold_lead_where_it_is_scraped() {
    let said = said(Stage::Prepare, Technique::Blade, Some("Zinn"), &[]);
    assert_eq!(said, "dust lead mask-fit blade pregnancy children");
    assert!(!of(Stage::Prepare, Technique::Blade, &[]).contains("lead"));
}

#[test]
fn old_paint_may_hold_lead_and_dusts_whatever_is_beneath() {
    for title in [
        "Sand off the old paint",
        "Die alte Farbe abschleifen",
        "Poncer la vieille peinture",
        "Lijar la pintura vieja",
        "Strip the old paint in isopropanol, then sand it",
    ] {
        let step = Step { title: title.to_owned(), ..step(Stage::Prepare, Technique::Hand, &[]) };
        let kinds = kinds(&scheme(Some("plastic"), Vec::new()), &step, &[]);
        let said = kinds.iter().map(|kind| kind.name()).filter(|name| !["solvent", "heat", "skin"].contains(name));
        let said = said.collect::<Vec<_>>().join(" ");
        assert_eq!(said, "dust lead mask-fit pregnancy children", "{title}");
    }
}

#[test]
fn heavy_pigments_warn_where_they_fly() {
    let cadmium = || water().named("Cadmium Red");
    let said = of(Stage::Basecoat, Technique::Airbrush, &[cadmium()]);
    assert_eq!(said, "spray-mist particle-mask harmful-pigment mask-fit pregnancy children");
    assert_eq!(of(Stage::Basecoat, Technique::Brush, &[cadmium()]), "");
    let by_code = Paint { pigments: vec!["PR108".to_owned()], ..water() };
    assert!(of(Stage::Basecoat, Technique::Airbrush, &[by_code]).contains("harmful-pigment"));
    for code in ["PR108:1", "PY35:1", "PO20:1", "PB28", "PV49", "PY39"] {
        let said = of(Stage::Basecoat, Technique::Airbrush, &[Paint { pigments: vec![code.to_owned()], ..water() }]);
        assert!(said.contains("harmful-pigment"), "{code}: {said}");
    }
    for hue in ["Cadmium Red Hue", "Cadmium-free yellow", "Chrome", "Leaden sky"] {
        assert!(!of(Stage::Basecoat, Technique::Airbrush, &[water().named(hue)]).contains("pigment"), "{hue}");
    }
}

#[test]
fn what_it_is_cleaned_with_counts_where_it_gives_off_vapour() {
    let airbrushed = step(Stage::Basecoat, Technique::Airbrush, &[water()]);
    let cleaned = |cleaner: Paint| {
        let kinds = kinds(&scheme(Some("plastic"), Vec::new()), &airbrushed, &[Arc::new(cleaner)]);
        kinds.iter().map(|kind| kind.name()).collect::<Vec<_>>().join(" ")
    };
    let mist = "spray-mist particle-mask children";
    let vapour = "spray-mist spray-solvent solvent mask-fit heat skin pregnancy children";
    assert_eq!(cleaned(paint(Kind::Cleaner, Family::Water)), mist);
    assert_eq!(cleaned(paint(Kind::Cleaner, Family::Water).hazards("H225 H319")), vapour);
    assert_eq!(cleaned(paint(Kind::Thinner, Family::Lacquer)), vapour);
}

#[test]
fn hardeners_warn_by_family_and_by_code() {
    let clear = paint(Kind::Varnish, Family::TwoPack);
    let expected = "solvent varnish heat hardener skin children";
    assert_eq!(of(Stage::Varnish, Technique::Brush, &[clear]), expected);
    for codes in ["H334", "EUH204", "P342+P311"] {
        let said = of(Stage::Basecoat, Technique::Brush, &[water().hazards(codes)]);
        assert_eq!(said, "two-pack skin pregnancy children", "{codes}");
    }
    let epoxy = || water().hazards("EUH205");
    assert_eq!(of(Stage::Basecoat, Technique::Brush, &[epoxy()]), "hardener skin children");
    assert!(of(Stage::Basecoat, Technique::Airbrush, &[epoxy()]).contains("two-pack"));
}

#[test]
fn casting_resin_warns_of_the_skin_and_of_its_heat_where_it_is_deep() {
    let resin = |codes: &str| paint(Kind::Resin, Family::TwoPack).hazards(codes);
    let poured = |codes: &str, deep: f64| {
        let deep = Some(crate::measure::Millimetres(deep));
        let step = Step { deep, ..step(Stage::Basing, Technique::Hand, &[resin(codes)]) };
        let kinds = kinds(&scheme(Some("plastic"), Vec::new()), &step, &[]);
        kinds.iter().map(|kind| kind.name()).collect::<Vec<_>>().join(" ")
    };
    let codes = "H315 H317 H319 H411";
    assert_eq!(poured(codes, 4.0), "hardener skin rinse-water children");
    assert_eq!(poured(codes, 10.0), "hardener hot-pour skin rinse-water children");
    assert_eq!(poured("H317 H334", 4.0), "two-pack skin pregnancy children");
    assert!(poured("", 12.0).contains("hardener hot-pour skin"));
    let sprayed = of(Stage::Varnish, Technique::Airbrush, &[resin(codes)]);
    assert!(sprayed.contains("two-pack") && !sprayed.contains("hardener"), "{sprayed}");
}

#[test]
fn skin_warns_of_lasting_harm_and_an_allergy_asks_for_no_goggles() {
    for codes in ["H315", "H319", "EUH203", "P280", "P302+P352", "H317 H319"] {
        assert_eq!(of(Stage::Basecoat, Technique::Brush, &[water().hazards(codes)]), "skin", "{codes}");
    }
    for codes in ["H317", "EUH208", "EUH208 P280 P302+P352"] {
        assert_eq!(of(Stage::Basecoat, Technique::Brush, &[water().hazards(codes)]), "allergy", "{codes}");
    }
    for codes in ["H302+H312", "H314", "H318", "EUH207"] {
        assert_eq!(of(Stage::Basecoat, Technique::Brush, &[water().hazards(codes)]), "skin children", "{codes}");
    }
    for codes in ["H350i", "H361fd", "H373", "EUH201A"] {
        let said = of(Stage::Basecoat, Technique::Brush, &[water().hazards(codes)]);
        assert_eq!(said, "skin pregnancy children", "{codes}");
    }
    assert_eq!(of(Stage::Basecoat, Technique::Brush, &[water().hazards("P102")]), "children");
    assert_eq!(of(Stage::Basecoat, Technique::Brush, &[water().hazards("EUH211 P501")]), "");
}

#[test]
fn a_small_bottle_with_something_to_warn_of_has_a_bare_label() {
    let harmful = water().hazards("H412");
    for size in [Some(17.0), Some(125.0), None] {
        let small = harmful.clone().bottle(size);
        assert_eq!(of(Stage::Basecoat, Technique::Brush, &[small]), "rinse-water small-label", "{size:?}");
        assert_eq!(of(Stage::Basecoat, Technique::Brush, &[water().bottle(size)]), "", "{size:?}");
    }
    assert_eq!(of(Stage::Basecoat, Technique::Brush, &[harmful.bottle(Some(126.0))]), "rinse-water");
    let lacquer = paint(Kind::Metal, Family::Lacquer).bottle(Some(10.0));
    assert!(of(Stage::Highlight, Technique::Brush, &[lacquer]).ends_with("small-label"));
}

#[test]
fn each_caution_is_said_somewhere_and_is_silent_elsewhere() {
    let everything = paint(Kind::Glue, Family::Enamel).hazards("H222 H334 H317").bottle(Some(10.0));
    let tools = ["Scalpel", "Rotary tool", "Hot wire", "UV lamp", "Grass applicator"].map(|name| Arc::new(tool(name)));
    let mild = water().named("Cadmium").hazards("H317 H412");
    let resin = paint(Kind::Resin, Family::TwoPack).hazards("H317");
    let loud = [
        step(Stage::Varnish, Technique::SprayCan, std::slice::from_ref(&everything)),
        Step { tools: tools.to_vec(), ..step(Stage::Prepare, Technique::Blade, &[everything]) },
        Step { title: "Bend it in hot water".to_owned(), ..step(Stage::Prepare, Technique::Hand, &[]) },
        step(Stage::Basecoat, Technique::Airbrush, &[mild]),
        step(Stage::Pigment, Technique::Brush, &[]),
        step(Stage::Decal, Technique::Brush, &[paint(Kind::DecalSoftener, Family::Water)]),
        Step { deep: Some(crate::measure::Millimetres(12.0)), ..step(Stage::Basing, Technique::Hand, &[resin]) },
    ];
    let model = scheme(Some("pewter"), Vec::new());
    let quiet = kinds(&model, &step(Stage::Basecoat, Technique::Brush, &[water()]), &[]);
    for kind in CautionKind::ALL {
        assert!(loud.iter().any(|step| kinds(&model, step, &[]).contains(kind)), "{kind} is never said");
        assert!(!quiet.contains(kind), "{kind} is said of water and a brush");
    }
}

fn any_of<T: Copy + std::fmt::Debug + 'static>(all: &'static [T]) -> impl Strategy<Value = T> {
    proptest::sample::select(all)
}

fn any_paint() -> impl Strategy<Value = Paint> {
    const CODES: &[&str] =
        &["H222", "H226", "H229", "H304", "H317", "H334", "H336", "H412", "EUH204", "EUH208", "EUH210", "P102", "P280"];
    let size = proptest::option::of(1.0..400.0_f64);
    let codes = proptest::sample::subsequence(CODES, 0..4);
    (any_of(Kind::ALL), any_of(Family::ALL), codes, size)
        .prop_map(|(kind, family, codes, size)| paint(kind, family).hazards(&codes.join(" ")).bottle(size))
}

fn any_paints() -> impl Strategy<Value = Vec<Paint>> {
    proptest::collection::vec(any_paint(), 0..4)
}

/// The caution that says all that another one says, where both would stand.
fn stronger(kind: CautionKind) -> CautionKind {
    match kind {
        CautionKind::SprayMist => CautionKind::AerosolCan,
        CautionKind::ParticleMask => CautionKind::SpraySolvent,
        CautionKind::Allergy => CautionKind::Skin,
        CautionKind::RinseWater | CautionKind::Softener => CautionKind::Solvent,
        CautionKind::Hardener => CautionKind::TwoPack,
        other => other,
    }
}

fn contains(more: &StepCautions, less: &StepCautions) -> bool {
    less.kinds.iter().all(|kind| more.kinds.contains(kind) || more.kinds.contains(&stronger(*kind)))
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
        let before = of_step(&model, &step(stage, technique, &paints), &[]);
        let mut added = step(stage, technique, &[paints.clone(), more].concat());
        added.safety = vec!["Keep the dog out.".to_owned(), "This is safe.".to_owned()];
        let after = of_step(&model, &added, &[]);
        prop_assert!(contains(&after, &before), "{before:?} became {after:?}");

        // Nor does one more code on every product take anything away. Only advice (P280) that stood there without a
        // reason gets one: with H317 it is about the allergy.
        prop_assume!(codes != "H317" || !paints.iter().any(|paint| paint.hazards.iter().any(|code| code.0 == "P280")));
        let coded: Vec<Paint> = paints
            .iter()
            .map(|paint| {
                let known: Vec<&str> = paint.hazards.iter().map(|code| code.0.as_str()).chain([codes]).collect();
                paint.clone().hazards(&known.join(" "))
            })
            .collect();
        let coded = of_step(&model, &step(stage, technique, &coded), &[]);
        prop_assert!(contains(&coded, &before), "{before:?} became {coded:?}");
    }
}
