//! The answer for people: the paint, then a list with the nearest on top.

use std::fmt::Write as _;

use super::{Answer, Asked};
use crate::colour::{Evidence, Sureness};
use crate::guide::{Bottle, Paint};
use crate::nearest::{Alike, Apart, Aspect, Blend, Change, FARTHEST, Fact, Near, changes};
use crate::report::{visible_line, wording};

/// Columns before the name of a paint: the figure and the words stand there.
const INDENT: usize = 35;

/// Lines are broken so that they have no more columns, where a word allows it.
const WIDTH: usize = 100;

/// The longest name that is shown whole.
const LONGEST: usize = 60;

/// The whole answer.
pub(crate) fn text(answer: &Answer) -> String {
    let mut out = match &answer.asked {
        Asked::Paint(paint) => heading(paint),
        Asked::Colour(colour, kind) => format!("{colour}, among paints of kind {kind}\n"),
    };
    nearest(answer, &mut out);
    if let Some(mixes) = &answer.mixes {
        list_mixes(answer, mixes, &mut out);
    }
    out
}

fn heading(paint: &Paint) -> String {
    let mut facts = vec![paint.kind.name().to_owned()];
    facts.extend(paint.colour.filter(|_| paint.kind.has_colour()).map(|colour| colour.to_string()));
    if paint.kind.has_colour() {
        facts.push(paint.hiding.name().to_owned());
    }
    if paint.kind.makes_film() {
        facts.push(paint.sheen.name().to_owned());
    }
    facts.push(paint.family.name().to_owned());
    let gone = if paint.discontinued { ", no longer sold" } else { "" };
    format!("{}\n{}{gone}\n", product(paint), facts.join(", "))
}

/// A paint with its id and who makes it.
fn product(paint: &Paint) -> String {
    let line = |text: &str| visible_line(text, LONGEST);
    let code = paint.code.as_ref().map(|code| format!(" {}", line(code))).unwrap_or_default();
    format!("{} ({}), {} by {}{code}", line(&paint.name), paint.id, line(&paint.range), line(&paint.maker))
}

fn nearest(answer: &Answer, out: &mut String) {
    let coloured = answer.look.is_some();
    if answer.nearest.is_empty() {
        let _ = match (coloured, answer.paint()) {
            (true, Some(_)) => writeln!(
                out,
                "\nNo other paint that is sold and used like it comes within {FARTHEST:.0} (CIEDE2000) of it."
            ),
            (true, None) => writeln!(out, "\nNo such paint that is sold comes within {FARTHEST:.0} (CIEDE2000) of it."),
            (false, _) => writeln!(out, "\nNothing else that is sold does the same work."),
        };
        return;
    }
    out.push_str(if coloured {
        "\n  ΔE00      how near, as given      paint\n"
    } else {
        "\nThese do the same work:\n"
    });
    for near in &answer.nearest {
        let how = match (near.apart, near.alike()) {
            (Some(apart), Some(alike)) => how_near(&apart, alike),
            _ => "  ".to_owned(),
        };
        let _ = writeln!(out, "{how}{}", product(&near.paint));
        let indent = if coloured { INDENT + 1 } else { 4 };
        wrapped(&told(answer, near), indent, out);
    }
    let first = answer.ranks().iter().filter(|rank| **rank == 1).count();
    if coloured && first > 1 {
        let _ = writeln!(
            out,
            "\n{first} of these lie closer together than they are known: which comes nearest can't be told."
        );
    }
}

/// The distance with its error, then the words.
fn how_near(apart: &Apart, alike: Alike) -> String {
    format!("{:>6.1} ±{:<3.0} {:<INNER$}", apart.delta_e, apart.off.nine_in_ten, alike.words())
}

/// Columns of the words and of the gap after them.
const INNER: usize = INDENT - 11;

/// What changes, each change a piece; for a colour alone, what the paint is.
fn told(answer: &Answer, near: &Near) -> Vec<String> {
    let Some(paint) = answer.paint() else { return facts(&near.paint, answer.other_currency.as_deref()) };
    let changes = changes(paint, &near.paint);
    if changes.is_empty() {
        return vec!["nothing else changes".to_owned()];
    }
    changes.iter().map(|change| change_in_words(change, answer)).collect()
}

/// What one should know of a paint.
fn facts(paint: &Paint, currency: Option<&str>) -> Vec<String> {
    let mut facts = vec![
        paint.colour.map_or_else(|| "known by its swatches".to_owned(), |colour| colour.to_string()),
        paint.hiding.to_string(),
        paint.sheen.to_string(),
        format!("carried by {}", paint.family),
    ];
    if !paint.bottles.is_empty() {
        facts.push(format!("sold as {}", sold(&paint.bottles, currency)));
    }
    facts
}

fn change_in_words(change: &Change, answer: &Answer) -> String {
    let (own, other) = (answer.currency.as_deref(), answer.other_currency.as_deref());
    let from = fact(&change.from, own, "what the first one's label says");
    let to = fact(&change.to, other, "what its label says");
    match change.aspect {
        Aspect::Family => format!("carried by {to}, not {from}"),
        Aspect::Hazards => format!("data sheet adds {}", change.added_codes().join(" ")),
        Aspect::Spraying if change.to == Fact::MaySpray(false) => "must not be sprayed".to_owned(),
        Aspect::Spraying => "may be sprayed".to_owned(),
        Aspect::Sheen | Aspect::Hiding => format!("{to}, not {from}"),
        Aspect::TouchDry => format!("touch-dry after {to}, not {from}"),
        Aspect::Recoat => format!("next coat after {to}, not {from}"),
        Aspect::Cure => format!("cured after {to}, not {from}"),
        Aspect::Bottles => format!("sold as {to}, not {from}"),
    }
}

/// What is known of an aspect, or the words for what nobody has told.
fn fact(fact: &Fact, currency: Option<&str>, untold: &str) -> String {
    match fact {
        Fact::Word(word) => (*word).to_owned(),
        Fact::Wait(time) => time.to_string(),
        Fact::MaySpray(may) => if *may { "yes" } else { "no" }.to_owned(),
        Fact::Codes(codes) => codes.join(" "),
        Fact::Sold(bottles) => sold(bottles, currency),
        Fact::Untold => untold.to_owned(),
    }
}

fn sold(bottles: &[Bottle], currency: Option<&str>) -> String {
    let one = |bottle: &Bottle| {
        let price = bottle.price.map(|price| format!(" for {price} {}", currency.unwrap_or_default()));
        format!("{} ml{}", bottle.size.0, price.unwrap_or_default().trim_end())
    };
    bottles.iter().map(one).collect::<Vec<_>>().join(" or ")
}

/// Pieces with semicolons between them, broken into lines.
fn wrapped(pieces: &[String], indent: usize, out: &mut String) {
    let mut column = 0;
    for (at, piece) in pieces.iter().enumerate() {
        let end = if at + 1 < pieces.len() { ";" } else { "" };
        let long = piece.chars().count() + end.len();
        if column > 0 && column + 1 + long > WIDTH {
            out.push('\n');
            column = 0;
        }
        if column == 0 {
            out.push_str(&" ".repeat(indent));
            column = indent;
        } else {
            out.push(' ');
            column += 1;
        }
        let _ = write!(out, "{piece}{end}");
        column += long;
    }
    out.push('\n');
}

fn list_mixes(answer: &Answer, mixes: &[Blend], out: &mut String) {
    let Some(first) = mixes.first() else {
        let _ = writeln!(
            out,
            "\nNo mix of two paints with one carrier is predicted to come within {FARTHEST:.0} (CIEDE2000) of it."
        );
        return;
    };
    out.push_str("\n  ΔE00      how near, as predicted  mix\n");
    for mix in mixes {
        mix_line(answer, mix, out);
    }
    if answer.ranks_of_mixes().iter().filter(|rank| **rank == 1).count() > 1 {
        out.push_str("\nThese mixes lie closer together than they are known: which comes nearest can't be told.\n");
    }
    let alone = answer.nearest.first().and_then(|near| Some((near.apart?, &near.paint)));
    if let Some((_, paint)) = alone.filter(|(apart, _)| !first.apart.is_surely_nearer(apart)) {
        let name = visible_line(&paint.name, LONGEST);
        let _ = writeln!(out, "\nNo mix of two is surely nearer than {name} as it comes.");
    }
    if mixes.iter().any(Blend::is_theory_alone) {
        out.push_str(
            "\nFor metals in a mix, and for clears in paint, nothing has been measured: that is theory alone.\n",
        );
    }
    ask_for_tints(mixes, out);
}

fn mix_line(answer: &Answer, mix: &Blend, out: &mut String) {
    let [(one, parts), (other, others)] = &mix.parts;
    let line = |text: &str| visible_line(text, LONGEST);
    let how = how_near(&mix.apart, mix.alike());
    let (name, other_name) = (line(&one.name), line(&other.name));
    let _ = writeln!(out, "{how}{parts} : {others}  {name} ({}) and {other_name} ({})", one.id, other.id);
    let mut more = vec![format!("predicted {}", mix.colour)];
    let sheens = wording_of_sheens(one, other);
    let own = answer.paint();
    let not = |fact: String, own: Option<String>| match own {
        Some(own) if own == fact => None,
        Some(own) => Some(format!("{fact}, not {own}")),
        None => Some(fact),
    };
    more.extend(not(mix.hiding.to_string(), own.map(|own| own.hiding.to_string())));
    more.extend(not(format!("carried by {}", one.family), own.map(|own| format!("carried by {}", own.family))));
    more.extend(not(sheens, own.map(|own| own.sheen.to_string())));
    more.extend(mix.evidence.map(|evidence| format!("rests on {}", rests_on(evidence))));
    more.extend(mix.uncertainty.map(|off| {
        let sure = match off.sureness() {
            Sureness::Surely => "surely so",
            Sureness::About => "about so",
            Sureness::Guess => "a guess",
        };
        format!(
            "{sure}: half of such predictions are off by {:.0}, nine in ten by no more than {:.0}",
            off.median, off.nine_in_ten
        )
    }));
    wrapped(&more, INDENT + 1, out);
}

fn wording_of_sheens(one: &Paint, other: &Paint) -> String {
    if one.sheen == other.sheen { one.sheen.to_string() } else { format!("between {} and {}", one.sheen, other.sheen) }
}

/// What a prediction rests on, in words.
pub(crate) fn rests_on(evidence: Evidence) -> &'static str {
    match evidence {
        Evidence::Class => "colour and hiding class alone",
        Evidence::CoatCounts => "brush-outs over white",
        Evidence::BlackAndWhite => "brush-outs over black and white",
        Evidence::Tint => "a tint with white",
    }
}

fn ask_for_tints(mixes: &[Blend], out: &mut String) {
    out.push('\n');
    let mut names: Vec<String> =
        mixes.iter().flat_map(|mix| &mix.wants_tint).map(|paint| visible_line(&paint.name, LONGEST)).collect();
    names.sort();
    names.dedup();
    if !names.is_empty() {
        let names = wording::listed(names);
        let _ = writeln!(out, "A swatch of one part to four parts of a known white would tell more, for {names}.");
    }
    out.push_str("Try a drop of a mix before you mix a pot.\n");
}
