//! A depth that is given for ordinary paint, which lies as a film and is never poured.

use crate::report::{Check, Finding, Group, Level, wording};
use crate::rules::{Look, Rule, Told};
use crate::trade::Kind;

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "depth-of-paint",
        level: Level::Warning,
        about: "only what is poured or trowelled has a depth",
        why: "paint lies a tenth of a millimetre thick at most: by a depth its amount comes out many times too large",
        group: Group::Drying,
        safety: false,
    },
    example: "'Coat' lays 'Olive' 1 mm deep",
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let is_film = |kind: Kind| {
        !matches!(
            kind,
            Kind::Texture | Kind::Resin | Kind::Glue | Kind::Medium | Kind::Varnish | Kind::Pigment | Kind::Oil
        )
    };
    let Some(deep) = look.step.deep else { return };
    let mut parts = look.step.mix.parts.iter();
    let Some(first) = parts.next().filter(|first| is_film(first.paint.kind)) else { return };
    // Paint that only tints a paste or resin goes as deep as that does.
    if !parts.all(|part| is_film(part.paint.kind)) {
        return;
    }
    told.tell(&RULE, look.index, None, || {
        let name = wording::quoted(&first.paint.name);
        let message = format!("{} lays {name} {} mm deep", look.own_title(), deep.0);
        let mend = "take 'deep' out; or name the paste, gel or resin that is laid so deep";
        Finding::new(&RULE.check, look.step.places.deep, message, mend)
    });
}
