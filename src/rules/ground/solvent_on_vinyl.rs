//! Soft vinyl sweats plasticiser, and a paint that does not suit it stays tacky for good. Colour that gets its
//! undercoat later is left to the rule for that.

use crate::film::{Coat, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Family, Material, Technique};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "solvent-on-vinyl",
        level: Level::Error,
        about: "soft vinyl gets a water-based first coat, or one that is made for vinyl",
        why: "the softener in the vinyl creeps into the paint and keeps it tacky for good, and brittle enamel cracks when the vinyl bends",
        group: Group::Surface,
        safety: false,
    },
    example: "'Tar boots' lays enamel on the bare vinyl of 'Boots'",
    ordering: true,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let Some(coat) = look.coat().filter(|coat| stays_tacky(coat) && !is_made_for_vinyl(look)) else { return };
    let Some(level) = bends(look) else { return };
    let before = look.before();
    let is_bare = |area, zone| before.coats(area, zone).all(|under| under.what == What::Filler);
    let bare = look.on_zones(|area, zone| is_bare(area, zone).then_some(()));
    let Some((first, ())) = bare.first() else { return };
    let later = look.film.coats().iter().find(|other| {
        other.position > coat.position
            && other.what == What::Ground
            && !stays_tacky(other)
            && look.film.areas(other.position).contains(first)
    });
    if later.is_some() && coat.what != What::Ground {
        return;
    }
    told.tell_with_own_mend(&RULE, coat.step, later.map(|ground| ground.step), || {
        let areas = look.area_titles(bare.iter().map(|(area, ())| *area));
        let family = coat.cup.strongest();
        let start = "start with a flexible water-based primer; if the label names vinyl, say so in the paint's 'note'";
        let (vinyl, mend) = match level {
            Level::Error => ("vinyl", start.to_owned()),
            _ => {
                ("PVC, which may be soft,", format!("say 'soft PVC' or 'hard PVC' in 'material'; on soft PVC {start}"))
            }
        };
        let message = format!("{} lays {family} on the bare {vinyl} of {areas}", look.own_title());
        let finding = Finding::new(&RULE.check, look.step.places.paints, message, mend).at(level);
        match later {
            Some(ground) => look.see(finding, ground.step, "the water-based ground comes only here"),
            None => finding,
        }
    });
}

/// How bad it is, if the model is of a plastic that bends. Hard vinyl and foamed sheets do not sweat. PVC may be either where
/// nobody says which; a house is built of sheet.
fn bends(look: &Look<'_>) -> Option<Level> {
    let materials = look.materials();
    if materials.has(Material::OtherFoam) || materials.has(Material::Foam) {
        return None;
    }
    let may_bend = materials.has(Material::Pvc) && !look.scheme.model.is_ground();
    materials.has(Material::SoftPlastic).then_some(Level::Error).or_else(|| may_bend.then_some(Level::Warning))
}

fn stays_tacky(coat: &Coat<'_>) -> bool {
    let first_coat = coat.what == What::Ground || coat.technique == Technique::SprayCan;
    coat.cup.families.contains(Family::Enamel) || (first_coat && coat.cup.family().is_solvent())
}

/// Whether a paint of the step says that it suits vinyl.
fn is_made_for_vinyl(look: &Look<'_>) -> bool {
    look.step.mix.parts.iter().any(|part| {
        let paint = &part.paint;
        let texts = [Some(&paint.name), Some(&paint.range), paint.note.as_ref()];
        texts.into_iter().flatten().any(|text| text.to_lowercase().contains("vinyl"))
    })
}
