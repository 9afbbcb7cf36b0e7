//! Water that is in the joints of a model that was just washed comes out under the undercoat.

use crate::bench::{Figure, Minutes};
use crate::film::{Coat, Deed};
use crate::report::{Check, Finding, Group, Level};
use crate::rules::judge::look::{needed, rested};
use crate::rules::{Look, Rule, Told};
use crate::trade::Stage;

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "undercoat-on-wet",
        level: Level::Warning,
        about: "a washed model dries before it is undercoated",
        why: "the undercoat runs off wet spots, and lifts where water dries out from under it",
        group: Group::Surface,
        safety: false,
    },
    example: "'Wash' gives the model 10 min before 'Ground' follows",
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let undercoats = |coat: &&Coat<'_>| coat.stage == Stage::Undercoat;
    let Some(coat) = look.coat().filter(undercoats) else { return };
    let least = Minutes(look.conditions.bench.get(Figure::WashedDriesIn));
    let now = look.before().now();
    let washed = (0..look.position).rev().find_map(|at| {
        let turn = look.film.turn(at)?;
        let Deed::Prepare(done) = turn.deed else { return None };
        // A wait that nobody wrote is filled in long enough, and held against nobody.
        let counts = done.washes && look.step_at(turn.step).dry.is_some();
        let meets = look.film.areas(at).iter().any(|area| look.areas().contains(area));
        (counts && meets).then_some(turn)
    });
    let Some(turn) = washed.filter(|turn| now - turn.ends < least) else { return };
    told.tell_with_own_mend(&RULE, turn.step, Some(coat.step), || {
        let (title, rest) = (look.title(turn.step), rested(now - turn.ends));
        let message = format!("{title} gives the model {rest} before {} follows", look.own_title());
        let mend = format!("let it dry for at least {}, better overnight: 'dry: 12 h'", needed(least));
        let finding = Finding::new(&RULE.check, look.step_at(turn.step).places.dry, message, mend);
        look.see(finding, coat.step, "the undercoat")
    });
}
