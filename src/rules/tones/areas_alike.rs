//! Two areas that only red and green keep apart are one area to every twelfth man.

use crate::bench::Figure;
use crate::colour::space::{self, LinearRgb, lab_difference};
use crate::colour::{CLOSE, Sight, Stack};
use crate::film::{Coat, What};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::{ModelKind, Zone};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "areas-alike",
        level: Level::Note,
        about: "areas that are to be told apart differ to colour-blind eyes too",
        why: "some one man in twelve lacks or confuses red and green; to him the two areas are one, in the guide and on the table",
        group: Group::Order,
        safety: false,
    },
    example: "'Shell' and 'Cloth' can't be told apart with deuteranopia; by prediction they differ by 0.4, and by 50 to other eyes",
    ordering: false,
    look,
};

/// Looks once, at the last step, when all areas are finished.
fn look(look: &Look<'_>, told: &mut Told) {
    // Hull and tracks, water and bank are told apart by their shape: nature's colours may lie close there.
    let by_shape = matches!(
        look.scheme.model.kind,
        Some(ModelKind::Vehicle | ModelKind::Aircraft | ModelKind::Building | ModelKind::Terrain)
    );
    if by_shape || look.position + 1 != look.film.turns().len() {
        return;
    }
    let finished: Vec<Finished<'_>> =
        (0..look.scheme.areas.len()).filter_map(|area| Finished::of(look, area)).collect();
    for (at, one) in finished.iter().enumerate() {
        for other in &finished[at + 1..] {
            compare(look, one, other, told);
        }
    }
}

/// An area whose faces have a known colour in the end.
struct Finished<'a> {
    area: usize,
    light: LinearRgb,
    /// How far that may be off.
    off: f64,
    /// The coat that gives it its colour.
    coat: &'a Coat<'a>,
    metal: bool,
}

impl<'a> Finished<'a> {
    fn of(look: &Look<'a>, area: usize) -> Option<Self> {
        let finished = look.film.finished();
        let stack = look.appearance().after(look.position, area, Zone::Faces).stack();
        Some(Self {
            area,
            light: stack.map(Stack::linear_rgb)?,
            off: stack.and_then(Stack::uncertainty).map_or(0.0, |off| off.median),
            coat: finished.coats(area, Zone::Faces).rfind(|coat| gives_colour(coat))?,
            metal: finished.metal(area, Zone::Faces, &look.conditions.bench).is_some(),
        })
    }
}

/// Whether a coat is what an area is painted in; an area that was only undercoated or dirtied is not painted.
fn gives_colour(coat: &Coat<'_>) -> bool {
    matches!(coat.what, What::Colour | What::Tint) && !coat.stage.weathers()
}

/// Metal and paint are told apart by their shine; areas of one coat are meant to look alike; and of two that may be off by
/// more than they differ nothing is said.
fn compare(look: &Look<'_>, one: &Finished<'_>, other: &Finished<'_>, told: &mut Told) {
    let figure = |figure| look.conditions.bench.get(figure);
    let apart = |a, b| lab_difference(space::lab(a), space::lab(b));
    let plain = apart(one.light, other.light);
    let one_coat = one.coat.position == other.coat.position;
    let vague = one.off.hypot(other.off) > CLOSE;
    if one_coat || vague || one.metal != other.metal || plain < figure(Figure::AreasDifferFrom) {
        return;
    }
    let by = |sight: &Sight| (*sight, apart(sight.seen(one.light), sight.seen(other.light)));
    let alike = Sight::ALL.iter().map(by).find(|(_, apart)| *apart < figure(Figure::AreasAlikeBelow));
    let Some((sight, seen)) = alike else { return };
    let (earlier, later) =
        if one.coat.position <= other.coat.position { (one.coat, other.coat) } else { (other.coat, one.coat) };
    told.tell(&RULE, later.step, Some(earlier.step), || {
        let areas = look.area_titles([one.area, other.area]);
        let message = format!(
            "{areas} can't be told apart with {}; by prediction they differ by {seen:.1}, and by {plain:.0} to other eyes",
            sight.name()
        );
        let mend = "make one of them clearly lighter or darker than the other: lightness is seen by everybody";
        let finding = Finding::new(&RULE.check, look.step_at(later.step).places.paints, message, mend);
        look.see(finding, earlier.step, "the other area's colour")
    });
}
