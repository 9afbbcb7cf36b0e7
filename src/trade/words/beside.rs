//! What stands beside a blade or an abrasive in a sentence: whether that is a tool, or a thing that is painted.

use std::ops::Range;
use std::sync::LazyLock;

use super::table::Table;

/// What a word says beside a blade or an abrasive: whether that is a tool, or a thing that is painted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Beside {
    /// It is used, said before it: `with`.
    Use,
    /// It is worked, wherever that is said: `scratch`.
    Work,
    /// Colour is put on it.
    Paint,
    /// What something is for: `a fine brush for the knife`.
    For,
    /// Who or what holds it, which may be the painter or a figure; a brush is used as often as a blade.
    Held,
    /// Who holds it where that stands right before `with`: `paint the man with a knife`.
    Bearer,
    /// What makes it the mark of an abrasive: `sanding marks`.
    Mark,
    /// An article or the like, between what is done and what it is done to.
    Article,
}

static BESIDE: LazyLock<Table<Beside>> = LazyLock::new(|| {
    Table::read(include_str!("use.tsv"), |name| match name {
        "use" => Some(Beside::Use),
        "work" => Some(Beside::Work),
        "paint" => Some(Beside::Paint),
        "for" => Some(Beside::For),
        "held" => Some(Beside::Held),
        "bearer" => Some(Beside::Bearer),
        "mark" => Some(Beside::Mark),
        "article" => Some(Beside::Article),
        _ => None,
    })
});

/// What each word of a thought says beside a tool; every word of a phrase says what the phrase does.
pub(super) fn beside(words: &[&str]) -> Vec<Option<Beside>> {
    let said = BESIDE.look(words).into_iter();
    said.flat_map(|(phrase, known)| std::iter::repeat_n(known, phrase.len())).collect()
}

/// Whether some words of a thought say that something is painted.
pub(super) fn says_paint(words: &[&str]) -> bool {
    beside(words).contains(&Some(Beside::Paint))
}

/// The most words between the word for a use and the tool: `with the tip of a fresh knife`.
const NEAR: usize = 6;

/// Whether right before a tool stands that it is painted: `paint the sandpaper`; or a figure that holds it is.
pub(super) fn is_plainly_painted(beside: &[Option<Beside>], tool: &Range<usize>) -> bool {
    let before = beside.get(..tool.start).unwrap_or_default();
    matches!(before, [.., Some(Beside::Paint), Some(Beside::Article)]) || is_borne(beside, before)
}

/// Whether what is painted is a figure with a tool, and nothing is worked: `paint the man with the long knife`.
fn is_borne(beside: &[Option<Beside>], before: &[Option<Beside>]) -> bool {
    let with = before.iter().rposition(|one| *one == Some(Beside::Use)).unwrap_or(0);
    let (figure, named) = before.split_at(with);
    let painted = || figure.contains(&Some(Beside::Paint)) || beside.get(before.len()..).is_some_and(has_paint);
    named.len() <= NEAR
        && figure.last() == Some(&Some(Beside::Bearer))
        && painted()
        && !figure.contains(&Some(Beside::Use))
        && !beside.contains(&Some(Beside::Work))
}

/// Whether a word of some says that something is painted.
fn has_paint(beside: &[Option<Beside>]) -> bool {
    beside.contains(&Some(Beside::Paint))
}

/// Whether a blade is worked with in its thought: what names it is the work itself (`snip off`), or the nearest word before
/// it says so (`with a knife`), and not that it is painted or held. Held or named first, it is worked with if any word says so.
pub(super) fn is_worked_with(beside: &[Option<Beside>], tool: &Range<usize>) -> bool {
    use Beside::{Bearer, For, Held, Paint, Use, Work};
    let before = beside.get(..tool.start).unwrap_or_default();
    let nearest = before.iter().rev().take(NEAR).flatten().find(|one| !matches!(one, Beside::Article | Beside::Mark));
    let of = |one: Option<&Option<Beside>>| one.copied().flatten();
    let used = || before.contains(&Some(Use)) || beside.contains(&Some(Work));
    of(beside.get(tool.start)) == Some(Work)
        || match nearest {
            Some(Use | Work) => !is_borne(beside, before),
            Some(Paint | For) => false,
            Some(Held | Bearer) => used(),
            _ if beside.contains(&Some(Held)) || beside.contains(&Some(Bearer)) => used(),
            _ => of(beside.get(tool.end)) == Some(Work),
        }
}
