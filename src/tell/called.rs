//! What a step's mix is called in short: the names alone, a pot by its title and not by what is in it.

use crate::guide::{Mix, MixRow};
use crate::theme::Words;
use crate::trade::Kind;

/// Of the largest part of a mix, less than this share of it is what tints it and not what it is called after.
const TINTS: f64 = 0.25;

/// Of so many names all are said; of more the last are counted.
const MOST: usize = 3;

/// All that is taken up for a mix, thinner with it: `Coat mix + Chalk`. Nothing where nothing is.
pub(crate) fn whole(mix: &Mix, words: &Words) -> Option<String> {
    joined(mix, &mix.lines().map(|line| line.name).collect::<Vec<_>>(), beside(mix), words)
}

/// What a mix is named after, for a line that goes on behind a comma.
pub(crate) fn in_line(mix: &Mix, words: &Words) -> Option<String> {
    joined(mix, &leading(mix), " + ", words)
}

/// The same for a list of layers, with what little tints it, for the colour that stands beside it is that of all:
/// `Gorse with Deep Ferry`; cut where it is long: `Oil Umber, Oil Ochre, Oil White and 2 more`.
pub(crate) fn of_layer(mix: &Mix, words: &Words) -> Option<String> {
    let mut names = leading(mix);
    let more = names.len().saturating_sub(MOST);
    names.truncate(MOST);
    let names = joined(mix, &names, beside(mix), words)?;
    let tints = tinting(mix);
    Some(match more {
        0 if tints.is_empty() => names,
        0 => words.filled("mix.with", &[("names", &names), ("tints", &tints.join(" + "))]),
        _ => words.filled("mix.more", &[("names", &names), ("n", &more.to_string())]),
    })
}

/// What stands between products: they are one mix, or they lie one beside or after the other.
fn beside(mix: &Mix) -> &'static str {
    if mix.is_beside() { ", " } else { " + " }
}

/// Of two that are blended wet in wet it is said from which to which.
fn joined(mix: &Mix, names: &[&str], sign: &str, words: &Words) -> Option<String> {
    match names {
        [] => None,
        [first, second] if mix.blend.is_some() => {
            Some(words.filled("mix.from-to", &[("first", first), ("second", second)]))
        }
        names => Some(names.join(sign)),
    }
}

/// The names that a mix is called after, in the author's order: of what stays on the model, the largest part and what
/// comes near it.
fn leading(mix: &Mix) -> Vec<&str> {
    let lines: Vec<MixRow<'_>> = mix.lines().filter(|line| stays(mix, line)).collect();
    let most = lines.iter().map(|line| line.amount.as_f64()).fold(0.0, f64::max);
    lines.iter().filter(|line| line.amount.as_f64() >= TINTS * most).map(|line| line.name).collect()
}

/// The colours of which there is so little in a mix that it is not called after them, in the author's order.
fn tinting(mix: &Mix) -> Vec<&str> {
    if mix.is_beside() || mix.blend.is_some() {
        return Vec::new();
    }
    let called = leading(mix);
    let coloured = |line: &MixRow<'_>| {
        mix.parts.get(line.parts.clone()).is_some_and(|of| of.iter().any(|of| of.paint.kind.has_colour()))
    };
    let little = mix.lines().filter(coloured).map(|line| line.name).filter(|name| !called.contains(name));
    little.take(MOST).collect()
}

/// Whether anything of a line stays on the model and is seen there.
fn stays(mix: &Mix, line: &MixRow<'_>) -> bool {
    let leaves = |kind: Kind| {
        matches!(kind, Kind::Thinner | Kind::Cleaner | Kind::Medium | Kind::DecalSoftener | Kind::Resist | Kind::Glue)
    };
    mix.parts.get(line.parts.clone()).is_some_and(|parts| parts.iter().any(|part| !leaves(part.paint.kind)))
}
