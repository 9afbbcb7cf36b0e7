//! A paint that nobody can buy any more.

use super::{Look, Rule, Told};
use crate::guide::Paint;
use crate::report::{Check, Finding, Group, Level, wording};

pub(super) static RULE: Rule = Rule {
    check: Check {
        id: "discontinued-paint",
        level: Level::Warning,
        about: "a scheme uses paints that can still be bought",
        why: "readers search the shops for it, and a second batch will not match the first",
        group: Group::Bookkeeping,
        safety: false,
    },
    example: "'Red' uses 'Old Red', which has left the market",
    ordering: false,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    for part in look.step.mix.parts.iter().filter(|part| part.paint.discontinued) {
        told.tell(look.index, None, || {
            let name = wording::quoted(&part.paint.name);
            let message = format!("{} uses {name}, which has left the market", look.own_title());
            let mend = match nearest(look, &part.paint) {
                Some(near) => {
                    format!("try {} in its place: of those still sold it comes nearest", wording::quoted(&near.name))
                }
                None => "use one that is still sold, or mix it from others".to_owned(),
            };
            let finding = Finding::new(&RULE.check, part.place, message, mend);
            finding.see(part.paint.place, "its entry")
        });
    }
}

/// The paint of the same kind and family that comes nearest: one that shines alike before one that does not.
fn nearest<'a>(look: &Look<'a>, paint: &Paint) -> Option<&'a Paint> {
    let sold = look.around.stock().iter().map(|other| &**other).filter(|other| {
        !other.discontinued && other.kind == paint.kind && other.family == paint.family && other.id != paint.id
    });
    sold.filter_map(|other| Some((other.sheen != paint.sheen, apart(paint, other)?, other)))
        .min_by_key(|(shines_otherwise, apart, _)| (*shines_otherwise, *apart))
        .map(|(.., other)| other)
}

/// How far apart two colours look, only to find the nearest: squared distance in encoded sRGB, with the channels weighed
/// 2, 4 and 3 for how much the eye sees of each. Products without colour are as near as any.
fn apart(one: &Paint, other: &Paint) -> Option<i32> {
    if !one.kind.has_colour() {
        return Some(0);
    }
    let (one, other) = (one.colour?, other.colour?);
    let channels = one.0.iter().zip(other.0).zip([2, 4, 3]);
    Some(channels.map(|((a, b), weight)| weight * (i32::from(*a) - i32::from(b)).pow(2)).sum())
}
