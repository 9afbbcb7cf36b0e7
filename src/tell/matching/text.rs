//! The answer for people: the paint, then a list with the nearest on top.

use std::fmt::Write as _;

use super::Answer;
use crate::colour::{Evidence, Sureness};
use crate::guide::{Bottle, Paint};
use crate::nearest::{Aspect, Blend, Change, Fact, Near, changes};
use crate::report::{visible_line, wording};

/// Columns before the name of a paint: the figure and the words stand there.
const INDENT: usize = 29;

/// Lines are broken so that they have no more columns, where a word allows it.
const WIDTH: usize = 100;

/// The longest name that is shown whole.
const LONGEST: usize = 60;

/// The whole answer.
pub(crate) fn text(answer: &Answer) -> String {
    let mut out = heading(&answer.paint);
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
    let coloured = answer.paint.kind.has_colour();
    if answer.nearest.is_empty() {
        out.push_str(if coloured {
            "\nNo other paint that is sold is of its sort and hides about as well.\n"
        } else {
            "\nNothing else that is sold does the same work.\n"
        });
        return;
    }
    out.push_str(if coloured { "\n  ΔE00  how near              paint\n" } else { "\nThese do the same work:\n" });
    for near in &answer.nearest {
        let how = match (near.delta_e, near.alike()) {
            (Some(delta_e), Some(alike)) => format!("{delta_e:>6.1}  {:<INNER$}", alike.words()),
            _ => "  ".to_owned(),
        };
        let _ = writeln!(out, "{how}{}", product(&near.paint));
        let indent = if coloured { INDENT + 1 } else { 4 };
        wrapped(&told(answer, near), indent, out);
    }
}

/// Columns of the words and of the gap after them.
const INNER: usize = INDENT - 7;

/// What changes, each change a piece.
fn told(answer: &Answer, near: &Near) -> Vec<String> {
    let changes = changes(&answer.paint, &near.paint);
    if changes.is_empty() {
        return vec!["nothing else changes".to_owned()];
    }
    changes.iter().map(|change| change_in_words(change, answer)).collect()
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
        out.push_str("\nThere are no two paints of its sort, with one carrier, that could be mixed.\n");
        return;
    };
    out.push_str("\n  ΔE00  how near, as predicted  mix\n");
    for mix in mixes {
        mix_line(answer, mix, out);
    }
    let alone = answer.nearest.first().and_then(|near| Some((near.delta_e?, &near.paint)));
    if let Some((_, paint)) = alone.filter(|(delta_e, _)| *delta_e <= first.delta_e) {
        let name = visible_line(&paint.name, LONGEST);
        let _ = writeln!(out, "\nNo mix of two is predicted nearer than {name} as it comes.");
    }
    if mixes.iter().any(Blend::is_theory_alone) {
        out.push_str("\nFor mixes of metals nothing has been measured: these are theory alone.\n");
    }
    ask_for_tints(mixes, out);
}

fn mix_line(answer: &Answer, mix: &Blend, out: &mut String) {
    let [(one, parts), (other, others)] = &mix.parts;
    let line = |text: &str| visible_line(text, LONGEST);
    let how = format!("{:>6.1}  {:<INNER$}  ", mix.delta_e, mix.alike().words());
    let (name, other_name) = (line(&one.name), line(&other.name));
    let _ = writeln!(out, "{how}{parts} : {others}  {name} ({}) and {other_name} ({})", one.id, other.id);
    let mut more = vec![format!("predicted {}", mix.colour)];
    if mix.hiding != answer.paint.hiding {
        more.push(format!("{}, not {}", mix.hiding, answer.paint.hiding));
    }
    if one.family != answer.paint.family {
        more.push(format!("carried by {}, not {}", one.family, answer.paint.family));
    }
    let sheens = wording_of_sheens(one, other);
    if sheens != answer.paint.sheen.name() {
        more.push(format!("{sheens}, not {}", answer.paint.sheen));
    }
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
    wrapped(&more, INDENT + 3, out);
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
