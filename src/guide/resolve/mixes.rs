//! Mixes: every line finds its paint, and the amounts make one ratio.

use std::sync::Arc;

use super::{Desk, paints};
use crate::guide::library::Library;
use crate::guide::{Measured, Mix, MixPart, checks};
use crate::measure::Fraction;
use crate::report::{Finding, Placed, wording};
use crate::source::file::MixLine;

/// More bottles than this nobody hits twice.
const MOST_LINES: usize = 8;

/// The mix of a step; lines that can't be used are told and left out.
pub(super) fn resolve(lines: Option<&Placed<Vec<Placed<MixLine>>>>, library: &Library, desk: &mut Desk) -> Mix {
    let Some(lines) = lines else { return Mix::default() };
    if lines.value.len() > MOST_LINES {
        let message = format!("this mix has {} lines", lines.value.len());
        let mend = format!("mix some of them first, or do with {MOST_LINES}");
        desk.tell(Finding::new(&checks::MIX_LENGTH, lines.place, message, mend));
    }
    let measured = measure(&lines.value, desk);
    let mut mix = Mix { parts: Vec::new(), measured };
    for line in &lines.value {
        if let Some(part) = part(line, lines.value.len() == 1, library, desk) {
            check_repeated(&mix, &part, desk);
            mix.parts.push(part);
        }
    }
    mix
}

/// What the amounts count: whichever most lines use; each line that differs is told.
fn measure(lines: &[Placed<MixLine>], desk: &mut Desk) -> Measured {
    let in_drops = lines.iter().filter(|line| line.drops.is_some()).count();
    let in_parts = lines.iter().filter(|line| line.parts.is_some()).count();
    let measured = if in_drops > in_parts { Measured::Drops } else { Measured::Parts };
    let (wanted, other) = match measured {
        Measured::Parts => ("parts", "drops"),
        Measured::Drops => ("drops", "parts"),
    };
    for line in lines {
        let (right, wrong) = match measured {
            Measured::Parts => (&line.parts, &line.drops),
            Measured::Drops => (&line.drops, &line.parts),
        };
        if let Some(wrong) = wrong {
            let message = format!("this line has {other}, the mix is in {wanted}");
            let mend = format!("write '{wanted}: …' on every line");
            desk.tell(Finding::new(&checks::MIX_MEASURES, wrong.place, message, mend));
        } else if right.is_none() && !line.unread && lines.len() > 1 {
            let message = format!("this line has no {wanted}");
            let mend = format!("write '{wanted}: …' on every line");
            desk.tell(Finding::new(&checks::MIX_MEASURES, line.place, message, mend));
        }
    }
    measured
}

fn part(line: &Placed<MixLine>, alone: bool, library: &Library, desk: &mut Desk) -> Option<MixPart> {
    let name = line.paint.as_ref()?;
    let amount = line.parts.as_ref().or(line.drops.as_ref());
    if let Some(nothing) = amount.filter(|amount| amount.value.is_zero()) {
        let message = format!("0 of {} is no part of a mix", wording::quoted(&name.value.0));
        desk.tell(Finding::new(&checks::MIX_AMOUNT, nothing.place, message, "write how much, or take the line out"));
        return None;
    }
    let Some(paint) = library.paint(&name.value.0, &mut desk.asked) else {
        paints::tell_unknown(&name.value.0, name.place, library, desk);
        return None;
    };
    let amount = match amount {
        Some(amount) if !alone || line.drops.is_some() => amount.value,
        _ => Fraction::ONE,
    };
    Some(MixPart { paint: Arc::clone(paint), amount, place: name.place })
}

fn check_repeated(mix: &Mix, part: &MixPart, desk: &mut Desk) {
    if let Some(first) = mix.parts.iter().find(|known| known.paint.id == part.paint.id) {
        let message = format!("{} stands in this mix a second time", wording::quoted(&part.paint.id));
        let mend = "add the two amounts up on one line";
        desk.tell(Finding::new(&checks::MIX_AMOUNT, part.place, message, mend).see(first.place, "the first line"));
    }
}
