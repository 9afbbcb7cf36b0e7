//! What one product brings to the desk, read from its kind, its family and the codes of its safety data sheet.
//!
//! Every question is answered from what the product says on top of what its kind and family say already, so that a
//! further code can only add a danger.

use std::ops::RangeInclusive;

use crate::guide::{Paint, Suits};
use crate::trade::{Family, Kind, ToolWord, is_instant_glue, tool_words};

/// Codes without the letters behind their digits, from the first to the last of each run.
type Codes = [RangeInclusive<&'static str>];

/// What burns or makes an explosive vapour; P210 keeps a product from heat and sparks, P211 from flames.
const FLAMMABLE: &Codes = &[
    "H220"..="H228",
    "H232"..="H232",
    "H240"..="H242",
    "H250"..="H250",
    "H282"..="H283",
    "EUH018"..="EUH019",
    "EUH209"..="EUH209",
    "P210"..="P211",
];

/// What a liquid has that is, or holds, a solvent: it is drawn into the airways when swallowed (with P331, the advice
/// not to vomit), makes drowsy, or takes the fat out of the skin.
const SOLVENT: &Codes = &["H304"..="H305", "H336"..="H336", "EUH066"..="EUH066", "P331"..="P331"];

/// What harms when breathed in, be it vapour, mist or dust.
const BREATHED: &Codes = &["H330"..="H333", "H335"..="H335", "EUH071"..="EUH071"];

/// What sensitises the airways: H334, isocyanates, and P342, the advice for symptoms of that.
const SENSITISES_LUNGS: &Codes = &["H334"..="H334", "EUH204"..="EUH204", "P342"..="P342"];

/// What holds epoxy: it sensitises the skin, and sprayed the lungs too.
const EPOXY: &Codes = &["EUH205"..="EUH205"];

/// What starts an allergy of the skin and does nothing else; where a data sheet has only these, its advice on the skin is
/// about them.
const ALLERGY: &Codes = &["H317"..="H317", "EUH208"..="EUH208"];

/// What harms life in water.
const WATER_LIFE: &Codes = &["H400"..="H413"];

/// What may harm a child before it is born or by its mother's milk, or is breathed with asthma.
const UNBORN: &Codes = &["H334"..="H335", "H340"..="H362", "H370"..="H373", "EUH201"..="EUH201", "EUH380"..="EUH381"];

/// What hurts skin or eyes, sensitises, or does lasting harm by way of hands and mouth; and the advice to wear gloves,
/// to wash the skin and to rinse the eyes.
const SKIN: &Codes = &[
    "H300"..="H303",
    "H310"..="H320",
    "H340"..="H373",
    "EUH066"..="EUH071",
    "EUH201"..="EUH205",
    "EUH207"..="EUH208",
    "EUH380"..="EUH381",
    "P262"..="P263",
    "P280"..="P280",
    "P302"..="P303",
    "P305"..="P305",
    "P332"..="P333",
    "P337"..="P337",
];

/// What a child must not get hold of; P102 and P405 say so.
const GRAVE: &Codes = &[
    "H300"..="H312",
    "H314"..="H314",
    "H318"..="H318",
    "H330"..="H334",
    "H340"..="H373",
    "EUH070"..="EUH071",
    "EUH201"..="EUH202",
    "EUH206"..="EUH207",
    "EUH380"..="EUH381",
    "P102"..="P102",
    "P405"..="P405",
];

/// The most that a package may hold for its label to leave out warnings: 125 ml (CLP, Annex I, 1.5.2).
const SMALL_PACKAGE_ML: f64 = 125.0;

/// Whether what evaporates from it burns.
pub(super) fn is_flammable(paint: &Paint) -> bool {
    let solvent = paint.kind != Kind::Resin && families(paint).any(Family::is_solvent);
    solvent || says(paint, FLAMMABLE) || is_cement(paint)
}

/// Whether it gives off vapour that a particle mask lets through, as far as family and codes say.
pub(super) fn has_vapour(paint: &Paint) -> bool {
    is_flammable(paint) || says(paint, SOLVENT)
}

/// Whether it is or holds a solvent, or gives off vapour that harms.
///
/// Cleaners dissolve films by trade, whatever carries them. Powders and glues that harm when breathed in have cautions of
/// their own.
pub(super) fn is_solvent(paint: &Paint) -> bool {
    let breathed = !is_powder(paint) && !is_glue(paint) && says(paint, BREATHED);
    paint.kind == Kind::Cleaner || is_flammable(paint) || says(paint, SOLVENT) || breathed
}

/// Whether it makes decals soft and is no more than that: by the drop, carried by water, with no code that says vapour.
pub(super) fn is_softener(paint: &Paint) -> bool {
    paint.kind == Kind::DecalSoftener && !is_solvent(paint)
}

/// Whether it comes out of a container under pressure.
pub(super) fn is_pressurised(paint: &Paint) -> bool {
    paint.is_pressurised()
}

/// Whether it dusts. A glue does not: who calls its family `dry` means that no water is in it.
pub(super) fn is_powder(paint: &Paint) -> bool {
    let dry = paint.family == Family::Dry && paint.kind != Kind::Glue;
    paint.kind == Kind::Pigment || dry || says(paint, &["EUH212"..="EUH212"])
}

/// Whether a cloth with it can start to burn by itself: it hardens by taking up oxygen, or thins what does.
pub(super) fn heats_rags(paint: &Paint) -> bool {
    families(paint).any(|family| matches!(family, Family::Oil | Family::Enamel)) || says(paint, &["H251"..="H252"])
}

/// Whether it is glue that bonds skin, or any glue of which that is not ruled out: white glue and cement do not.
pub(super) fn is_glue(paint: &Paint) -> bool {
    let mild = [ToolWord::WhiteGlue, ToolWord::Cement];
    let unknown = || !named(paint).iter().any(|word| mild.contains(word));
    says(paint, &["EUH202"..="EUH202"]) || (paint.kind == Kind::Glue && (is_instant(paint) || unknown()))
}

fn is_instant(paint: &Paint) -> bool {
    paint.kind == Kind::Glue && is_instant_glue(&paint.name, &paint.id)
}

/// Whether it is glue that melts plastic: a solvent.
fn is_cement(paint: &Paint) -> bool {
    paint.kind == Kind::Glue && named(paint).contains(&ToolWord::Cement)
}

/// Pigments that hold cadmium, cobalt, chromate, lead, arsenic or mercury, by their colour index names.
const HEAVY: &[&str] = &[
    "PO20", "PO21", "PO23", "PR103", "PR104", "PR105", "PR106", "PR108", "PR113", "PY31", "PY32", "PY34", "PY35",
    "PY36", "PY37", "PY39", "PY40", "PY41", "PY46", "PB28", "PB35", "PB36", "PB72", "PB74", "PG19", "PG21", "PG22",
    "PG26", "PG50", "PV14", "PV47", "PV48", "PV49", "PW1",
];

/// Whether its pigments hold cadmium, cobalt, chromium or lead, as their colour index names or its own name say; an
/// imitation says so in its name.
pub(super) fn has_heavy_pigment(paint: &Paint) -> bool {
    // What follows a colon tells the shade, and of cadmium that barium sulphate is in it: 'PR108:1'.
    let bare = |pigment: &str| pigment.split_once(':').map_or(pigment, |(bare, _)| bare).to_owned();
    if paint.pigments.iter().any(|pigment| HEAVY.contains(&bare(pigment).as_str())) {
        return true;
    }
    let words = named(paint);
    words.contains(&ToolWord::HeavyPigment) && !words.contains(&ToolWord::Hue)
}

/// What the words of its name mean.
fn named(paint: &Paint) -> Vec<ToolWord> {
    tool_words(&paint.name)
}

/// Whether it hardens in two parts, or sensitises as hardeners do.
pub(super) fn is_hardener(paint: &Paint) -> bool {
    is_two_pack(paint) || says(paint, SENSITISES_LUNGS) || says(paint, EPOXY)
}

fn is_two_pack(paint: &Paint) -> bool {
    families(paint).any(|family| family == Family::TwoPack)
}

/// Whether it may sensitise the lungs unsprayed. Of a two-pack product without codes nobody knows, and a
/// [check](super::checks) refuses it.
pub(super) fn sensitises_lungs(paint: &Paint) -> bool {
    says(paint, SENSITISES_LUNGS)
}

/// Whether a lamp hardens it.
pub(super) fn is_hardened_by_a_lamp(paint: &Paint) -> bool {
    families(paint).any(|family| family == Family::Lamp)
}

/// Whether it hurts skin or eyes, or should not get to the mouth.
pub(super) fn hurts_skin(paint: &Paint) -> bool {
    let hurts = paint.codes().any(|code| is_one(code, SKIN) && !is_one(code, ALLERGY) && !code.starts_with('P'));
    let advice = !has_allergen(paint) && paint.codes().any(|code| code.starts_with('P') && is_one(code, SKIN));
    let raw = is_hardened_by_a_lamp(paint) || (paint.kind == Kind::Resin && paint.family != Family::Water);
    is_solvent(paint) || is_hardener(paint) || raw || is_instant(paint) || hurts || advice
}

/// Whether it may start an allergy of the skin.
pub(super) fn has_allergen(paint: &Paint) -> bool {
    says(paint, ALLERGY)
}

/// Whether it harms life in water.
pub(super) fn harms_water(paint: &Paint) -> bool {
    says(paint, WATER_LIFE) || is_hardened_by_a_lamp(paint)
}

/// Whether whoever is pregnant or has asthma should ask about it.
pub(super) fn harms_the_unborn(paint: &Paint) -> bool {
    says(paint, UNBORN)
}

/// Whether a child must not get hold of it.
pub(super) fn is_grave(paint: &Paint) -> bool {
    says(paint, GRAVE)
}

/// Whether its label may say less than there is to say. A size that is not known may be a small one.
pub(super) fn may_have_a_bare_label(paint: &Paint) -> bool {
    let small = paint.bottles.is_empty() || paint.bottles.iter().any(|bottle| bottle.size.0 <= SMALL_PACKAGE_ML);
    small && (paint.hazards.iter().any(|code| code.0.starts_with('H')) || is_solvent(paint))
}

/// What is known about isocyanates in it: the reason why a home guide can't use it, if there is one.
pub(super) fn isocyanate_reason(paint: &Paint) -> Option<&'static str> {
    let two_pack = paint.family == Family::TwoPack;
    // EUH210 alone says that a data sheet exists and that the product needs no classification: that is an answer.
    let classified = paint.codes().any(|code| !code.starts_with('P'));
    if says(paint, &["EUH204"..="EUH204"]) {
        Some("contains isocyanates (EUH204)")
    } else if two_pack && says(paint, &["H334"..="H334"]) {
        Some("is a two-pack product that can cause asthma (H334), as isocyanates do")
    } else if two_pack && !classified {
        Some("is a two-pack product without hazard codes, so isocyanates can't be ruled out")
    } else {
        None
    }
}

/// The family that carries a product, the one that its kind settles, and those that it thins or cleans.
///
/// A thinner that is in a water-based range and suits enamels is white spirit all the same.
fn families(paint: &Paint) -> impl Iterator<Item = Family> {
    let suited = paint.suits.iter().filter_map(|suits| match suits {
        Suits::Family(family) => Some(*family),
        Suits::Paint(_) => None,
    });
    [paint.family].into_iter().chain(paint.kind.family()).chain(suited)
}

/// Whether the product's data sheet has one of the codes, alone or joined to others.
fn says(paint: &Paint, wanted: &Codes) -> bool {
    paint.codes().any(|code| is_one(code, wanted))
}

fn is_one(code: &str, wanted: &Codes) -> bool {
    wanted.iter().any(|run| run.contains(&code))
}
