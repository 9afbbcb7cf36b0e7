//! Water gel that is poured deep dries on top and stays milky below; resin that is poured deep grows hot and cracks.

use crate::bench::Figure;
use crate::film::Coat;
use crate::report::{Check, Finding, Group, Level, wording};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Family, Kind};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "poured-too-deep",
        level: Level::Warning,
        about: "water effects and resin are poured in layers that can harden through",
        why: "gel stays milky and soft for weeks, light does not reach the bottom, and two parts of resin grow hot and crack",
        group: Group::Drying,
        safety: false,
    },
    example: "'Drop' pours 6 mm of 'Lamp Drop' at once",
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let laid = look.coat().or_else(|| look.film.laid_on_base(look.position));
    let Some((coat, deep)) = laid.filter(|coat| coat.cup.kind() == Some(Kind::Resin)).zip(look.step.deep) else {
        return;
    };
    let Some((most, level)) = most(look, coat).filter(|(most, _)| deep.0 > *most) else { return };
    told.tell(&RULE, look.index, None, || {
        let name = look.step.mix.parts.first().map(|part| part.paint.name.as_str()).unwrap_or_default();
        let message = format!("{} pours {} mm of {} at once", look.own_title(), deep.0, wording::quoted(name));
        let layers = (deep.0 * f64::from(look.step.coats) / most).ceil();
        let each = (deep.0 * f64::from(look.step.coats) / layers * 10.0).floor() / 10.0;
        let mend = if layers > look.conditions.bench.get(Figure::PourLayers) {
            format!("build the bed up first, or use a casting resin; this goes on {most:.0} mm at a time")
        } else {
            format!("pour it in layers and let each harden: 'deep: {each} mm' with 'coats: {layers:.0}'")
        };
        Finding::new(&RULE.check, look.step.places.deep, message, mend).at(level)
    });
}

/// How deep one layer may be, in millimetres, and how much it matters.
fn most(look: &Look<'_>, coat: &Coat<'_>) -> Option<(f64, Level)> {
    let bench = &look.conditions.bench;
    match coat.cup.family() {
        Family::Water | Family::Lamp => Some((bench.get(Figure::GelDeepest), Level::Warning)),
        Family::TwoPack => {
            let most = bench.get(Figure::ResinDeepest);
            let hot = look.step.deep.is_some_and(|deep| deep.0 > most * bench.get(Figure::ResinHotFrom));
            Some((most, if hot { Level::Warning } else { Level::Note }))
        }
        _ => None,
    }
}
