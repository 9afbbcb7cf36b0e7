//! Resin draws air out of whatever drinks: bubbles rise and stay in it.

use crate::film::{Coat, What};
use crate::report::{Check, Finding, Group, Level, wording};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Kind, Reach, Zone};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "pour-on-raw",
        level: Level::Note,
        about: "cork, plaster, wood and foam are sealed before resin is poured on them",
        why: "air comes out of them while the resin hardens, and its bubbles stay in the water for good",
        group: Group::Surface,
        safety: false,
    },
    example: "'Pond' is poured on 'Bed', where nothing closes what is raw of 'cork'",
    ordering: true,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let materials = look.materials();
    if !materials.drink() || !is_poured(look) {
        return;
    }
    let raw: Vec<usize> = if look.step.is_about_base() {
        Vec::new()
    } else {
        let before = look.before();
        let open = |area: &usize| before.coats(*area, Zone::Faces).all(|coat| !closes(coat));
        look.areas().iter().copied().filter(open).collect()
    };
    let on_base = look.step.is_about_base() && !look.film.was_laid_on_base(look.position, closes);
    if raw.is_empty() && !on_base {
        return;
    }
    told.tell_with_mend_first(&RULE, look.index, None, || {
        let named = wording::quoted(look.scheme.model.material.as_deref().unwrap_or_default());
        let place = if on_base { "the base".to_owned() } else { look.area_titles(raw.iter().copied()) };
        let message = format!("{} is poured on {place}, where nothing closes what is raw of {named}", look.own_title());
        let mend = format!("seal {place} first: a coat of varnish or primer, or a thin skin of the resin that hardens");
        Finding::new(&RULE.check, look.step.places.paints, message, mend)
    });
}

/// Whether resin is poured, and not dabbed or brushed on as a skin.
fn is_poured(look: &Look<'_>) -> bool {
    let resin = look.step.mix.parts.first().is_some_and(|part| part.paint.kind == Kind::Resin);
    resin && look.step.reach != Reach::Spots && look.step.deep.is_some()
}

/// Whether a coat closes the pores beneath it.
fn closes(coat: &Coat<'_>) -> bool {
    matches!(coat.what, What::Ground | What::Colour | What::Texture | What::Varnish | What::Filler)
}
