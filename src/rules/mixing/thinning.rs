//! What thins what, and what mixes with what: the trade's table of carriers, and what labels add to it.

use crate::guide::{MixPart, Paint, Suits};
use crate::report::wording;
use crate::rules::Look;
use crate::trade::{Family, Kind, Stage};

/// What is to be said of a paint and a thinner in one cup.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(in crate::rules) enum Verdict {
    /// It is made for it.
    Suits,
    /// It may work, or it may not: the label or the trade advises against it.
    Doubtful,
    /// It curdles, strings or separates.
    Never,
}

/// Whether two carriers mix in one cup.
pub(in crate::rules) fn mix(one: Family, other: Family) -> bool {
    let same = |pair: [Family; 2]| pair.contains(&one) && pair.contains(&other);
    one == other
        || [one, other].contains(&Family::Dry)
        || same([Family::Oil, Family::Enamel])
        || same([Family::Alcohol, Family::Lacquer])
}

/// What the trade says of a paint and a thinner by their carriers alone. Alcohol in water-based paint is disputed:
/// some thin with a little of it, tests see it string.
fn by_family(paint: Family, thinner: Family) -> Verdict {
    match (paint, thinner) {
        (Family::Lacquer | Family::Water, Family::Alcohol) | (Family::Enamel | Family::Oil, Family::Lacquer) => {
            Verdict::Doubtful
        }
        (Family::Alcohol, Family::Water) => Verdict::Suits,
        _ if mix(paint, thinner) => Verdict::Suits,
        _ => Verdict::Never,
    }
}

/// What is to be said of a paint and a thinner. What a label says counts before the carriers.
pub(in crate::rules) fn verdict(paint: &Paint, thinner: &Paint) -> Verdict {
    if names(paint, thinner) {
        return Verdict::Suits;
    }
    let made_for: Vec<Family> = suited_families(thinner).collect();
    let carriers = if made_for.is_empty() { vec![thinner.family] } else { made_for.clone() };
    let best = carriers.iter().map(|family| by_family(paint.family, *family)).min().unwrap_or(Verdict::Suits);
    let white_spirit = matches!(paint.family, Family::Enamel | Family::Oil) && best == Verdict::Suits;
    // Powder has no carrier: it is wetted with water, alcohol or white spirit alike.
    let dry = paint.family == Family::Dry;
    let foreign = !made_for.is_empty() && !made_for.contains(&paint.family) && !white_spirit && !dry;
    let unnamed = !paint.thin_with.is_empty() || thinner.kind == Kind::Cleaner;
    if foreign || unnamed { best.max(Verdict::Doubtful) } else { best }
}

/// Whether one of the two labels names the other product.
fn names(paint: &Paint, thinner: &Paint) -> bool {
    let suits_it = |suits: &Suits| matches!(suits, Suits::Paint(id) if *id == paint.id);
    paint.thin_with.contains(&thinner.id) || (thinner.kind == Kind::Thinner && thinner.suits.iter().any(suits_it))
}

/// The families that a thinner says it suits.
pub(in crate::rules) fn suited_families(thinner: &Paint) -> impl Iterator<Item = Family> {
    thinner.suits.iter().filter_map(|suits| match suits {
        Suits::Family(family) => Some(*family),
        Suits::Paint(_) => None,
    })
}

/// The first paint and thinner in a step's cup of which a verdict holds, among the paints that mix with its main one.
pub(in crate::rules) fn first_pair<'a>(look: &Look<'a>, wanted: Verdict) -> Option<(&'a MixPart, &'a MixPart)> {
    let main = look
        .coat()
        .filter(|coat| !matches!(coat.stage, Stage::Prepare | Stage::Assemble) && !look.step.mix.unmixed)?
        .cup
        .main?;
    let thins = |part: &MixPart| matches!(part.paint.kind, Kind::Thinner | Kind::Cleaner);
    let parts = || look.step.mix.parts.iter();
    let is_paint =
        |part: &&MixPart| !thins(part) && part.paint.kind != Kind::DecalSoftener && mix(part.paint.family, main.family);
    parts().filter(is_paint).find_map(|paint| {
        let thinner = parts().find(|part| thins(part) && verdict(&paint.paint, &part.paint) == wanted)?;
        Some((paint, thinner))
    })
}

/// How to thin a paint instead.
pub(in crate::rules) fn better(look: &Look<'_>, paint: &Paint) -> String {
    let stocked = look.around.stock.of_kind(Kind::Thinner).filter(|other| !other.discontinued);
    let suited = stocked.filter(|other| verdict(paint, other) == Verdict::Suits);
    match suited.min_by_key(|other| (!paint.thin_with.contains(&other.id), other.range != paint.range)) {
        Some(thinner) => format!("thin it with {}", wording::quoted(&thinner.name)),
        None => format!("thin it with what its label names, or with a thinner for {} paint", paint.family),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn carriers_thin_as_the_trade_says() {
        for (paint, thinner, expected) in [
            (Family::Water, Family::Water, Verdict::Suits),
            (Family::Water, Family::Alcohol, Verdict::Doubtful),
            (Family::Water, Family::Enamel, Verdict::Never),
            (Family::Alcohol, Family::Water, Verdict::Suits),
            (Family::Alcohol, Family::Lacquer, Verdict::Suits),
            (Family::Lacquer, Family::Water, Verdict::Never),
            (Family::Oil, Family::Enamel, Verdict::Suits),
            (Family::Enamel, Family::Lacquer, Verdict::Doubtful),
            (Family::Oil, Family::Water, Verdict::Never),
            (Family::Dry, Family::Water, Verdict::Suits),
        ] {
            assert_eq!(by_family(paint, thinner), expected, "{paint} with {thinner}");
        }
    }
}
