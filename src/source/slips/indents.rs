//! Lines that begin in the wrong column, or with a tab.

use super::line::Line;
use super::torn::{Slip, Torn};

/// A tab before the first sign of a line: with spaces in its place the text can be read.
pub(super) fn tab(torn: &Torn<'_>) -> Option<Slip> {
    // A tab may be noticed only after the line before it was read.
    let below = torn.lines.iter().enumerate().skip(torn.fault + 1).take(1);
    below.chain(torn.up(2)).find_map(|(at, line)| {
        let tab = line.text.get(..line.content())?.find('\t')?;
        let text = line.text.trim_start();
        let above = torn.lines.get(..at)?.iter().rev().find(|line| !line.is_bare()).map_or(0, Line::indent);
        let widths = [above, above + 2, 0, 2, 4, 6, 8];
        let tabs: Vec<usize> =
            (at..torn.lines.len()).take_while(|at| torn.lines[*at].text.starts_with(['\t', ' '])).collect();
        let spaced = |width: &usize| {
            let line = |at: &usize| (*at, format!("{}{}", " ".repeat(*width), torn.lines[*at].text.trim_start()));
            let alone = torn.goes_on(at, format!("{}{text}", " ".repeat(*width)));
            alone || torn.is_whole(&tabs.iter().map(line).collect::<Vec<_>>())
        };
        let mend = "use spaces in the place of the tab";
        widths
            .iter()
            .any(spaced)
            .then(|| torn.slip(at, (tab, tab + 1), "a tab is before the first sign of this line", mend))
    })
}

/// A line that begins in the wrong column: in the column of a line near it, the whole text can be read. Of several such
/// edits the one that moves the fewest lines is meant.
pub(super) fn wrong(torn: &Torn<'_>) -> Option<Slip> {
    if is_mixed(torn) {
        return None;
    }
    let moves = torn.up(4).filter(|(_, line)| is_entry(line)).flat_map(|(at, line)| {
        let indent = line.indent();
        let columns = columns(torn, at).into_iter().filter(move |(column, _)| *column != indent);
        columns.filter_map(move |(column, like)| {
            let lines = moved(torn, at, column)?;
            Some(Move { at, column, like, lines, far: column.abs_diff(indent) })
        })
    });
    let moves: Vec<Move> = moves.collect();
    let least = |one: &&Move| (one.lines, one.far, usize::MAX - one.at);
    let best = moves.iter().min_by_key(least)?;
    let close = moves.iter().filter(|one| one.at == best.at && least(one) == least(&best));
    let close: Vec<String> = close.map(|one| format!("in column {}, {}", one.column + 1, one.like)).collect();
    let line = torn.lines.get(best.at)?;
    let message = format!("the indentation of this line is wrong: it begins in column {}", line.indent() + 1);
    let mend = format!("begin it {}{}", close.join(", or "), or_one_text(torn, best.at));
    Some(torn.slip(best.at, (line.indent(), line.text.trim_end().len()), message, mend))
}

/// Whether entries with a hyphen and keys without one are beside each other at the fault: then no column is to blame.
fn is_mixed(torn: &Torn<'_>) -> bool {
    let lines: Vec<&Line<'_>> = torn.lines.iter().take(torn.fault + 2).filter(|line| !line.is_bare()).collect();
    lines.windows(2).rev().take(2).any(|two| {
        let [above, below] = two else { return false };
        let (in_list, is_entry) = (above.content() > above.indent(), below.content() > below.indent());
        let has_value = above.pair().is_some_and(|pair| !pair.value.is_empty());
        let mixed = (in_list && !is_entry && above.indent() > 0) || (!in_list && is_entry && has_value);
        mixed && above.indent() == below.indent()
    })
}

/// A line that is put into another column.
struct Move {
    /// The line.
    at: usize,
    /// The column, from 0.
    column: usize,
    /// What begins there.
    like: String,
    /// How many lines are moved with it.
    lines: usize,
    /// By how much.
    far: usize,
}

/// Whether a line is a key or an entry of a list.
fn is_entry(line: &Line<'_>) -> bool {
    !line.is_bare() && (line.pair().is_some() || line.text.trim_start().starts_with("- "))
}

/// The columns in which a line may begin, each with what begins there.
fn columns(torn: &Torn<'_>, at: usize) -> Vec<(usize, String)> {
    let mut columns: Vec<(usize, String)> = Vec::new();
    let mut add = |column: usize, like: String| {
        if !columns.iter().any(|(known, _)| *known == column) {
            columns.push((column, like));
        }
    };
    let mut above = usize::MAX;
    for line in torn.lines.iter().take(at).rev().filter(|line| is_entry(line)) {
        let (indent, content) = (line.indent(), line.content());
        if content < above || indent < above {
            let name = line.pair().map_or_else(|| "the entry above".to_owned(), |pair| format!("'{}' above", pair.key));
            add(content, format!("under {name}"));
            add(indent, format!("under {}", if indent == content { &name } else { "the hyphen above" }));
            above = above.min(indent);
        }
        if indent == 0 {
            break;
        }
    }
    if let Some(below) = torn.lines.iter().skip(at + 1).find(|line| is_entry(line)) {
        let name = below.pair().map_or_else(|| "the entry".to_owned(), |pair| format!("'{}'", pair.key));
        add(below.indent(), format!("like {name} below"));
    }
    columns
}

/// How many lines are moved, where the whole text can be read with a line in another column: with all that belongs to
/// it, or with all lines after it that are as far in.
fn moved(torn: &Torn<'_>, at: usize, column: usize) -> Option<usize> {
    let indent = torn.lines.get(at)?.indent();
    let to = |at: usize| {
        let line = &torn.lines[at];
        let width = (line.indent() + column).saturating_sub(indent);
        (at, format!("{}{}", " ".repeat(width), line.text.trim_start()))
    };
    let below = |belongs: fn(usize, usize) -> bool| {
        let rest = torn.lines.iter().enumerate().skip(at + 1);
        let rest = rest.take_while(|(_, line)| line.text.trim().is_empty() || belongs(line.indent(), indent));
        std::iter::once(at).chain(rest.map(|(at, _)| at)).map(to).collect::<Vec<_>>()
    };
    let tried = [below(|below, own| below > own), below(|below, own| below >= own)];
    tried.iter().find(|edits| torn.is_whole(edits)).map(Vec::len)
}

/// What else may be meant where the line above is a text that can go on.
fn or_one_text(torn: &Torn<'_>, at: usize) -> &'static str {
    let above = torn.lines.get(..at).and_then(|above| above.iter().rev().find(|line| !line.is_bare()));
    let goes_on = above.and_then(Line::pair).is_some_and(|pair| pair.may_go_on());
    let deeper = above.is_some_and(|above| torn.lines[at].indent() > above.indent());
    if goes_on && deeper { "; or if the text above goes on here, put quotes around all of it" } else { "" }
}
