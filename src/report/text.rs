//! Findings for the terminal: each with its source line, its why and its mend, then one line that counts them.

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::iter;

use annotate_snippets::renderer::{DEFAULT_ERROR_STYLE, DEFAULT_NOTE_STYLE, DEFAULT_WARNING_STYLE, DecorStyle, Style};
use annotate_snippets::{Annotation, AnnotationKind, Element, Group, Level as Heading, Origin, Renderer, Snippet};

use super::excerpt::Excerpt;
use super::folded::folded;
use super::visible::visible_line;
use super::wording::counted;
use super::{Counts, Files, Finding, Findings, Group as CheckGroup, Level, Place};

/// Whether the terminal understands colours.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TextStyle {
    /// No escape codes at all: for files, pipes and terminals without colours.
    Plain,
    /// With the escape codes for colours.
    Coloured,
}

/// The longest message that is shown whole, in characters: a name that an author wrote may have any length.
const LONGEST: usize = 1000;

/// The width that source lines are cut to, in columns.
const WIDTH: usize = 100;

/// Stands for a snippet's place until it is drawn. The drawing library counts columns in what it is given, and
/// a long line is given to it in part; so it draws this sign, which no author's text can hold any more, and the
/// true place is put in afterwards.
const PLACE: char = '\u{1}';

/// What the drawing library puts before a second place; many terminals' fonts lack it.
const RARE_SIGN: &str = "⸬ ";

/// What is put there instead, as wide, in the style of the sign before the first place.
const COMMON_SIGN: &str = "├▸";

/// All findings, then how many there are.
pub fn text(findings: &Findings, files: &Files, style: TextStyle) -> String {
    let renderer = match style {
        TextStyle::Plain => Renderer::plain(),
        TextStyle::Coloured => Renderer::styled(),
    };
    let renderer = renderer.decor_style(DecorStyle::Unicode).term_width(WIDTH);
    let mut out = String::new();
    let mut books: BTreeMap<_, Vec<&Finding>> = BTreeMap::new();
    for finding in findings {
        if let Some(cause) = cause(finding) {
            books.entry(cause).or_default().push(finding);
        }
    }
    for finding in findings {
        let others = match cause(finding) {
            Some(cause) => {
                let Some(same) = books.remove(&cause) else { continue };
                same
            }
            None => Vec::new(),
        };
        out.push_str(&drawn(finding, files, &renderer));
        out.push('\n');
        for other in others.into_iter().skip(1) {
            let said = visible_line(&other.message, LONGEST);
            let _ = writeln!(out, " ├ {}: {said}", where_it_is(other.place, files));
        }
        out.push('\n');
    }
    out.push_str(&tally(findings.counts(), style));
    out.push('\n');
    out
}

/// What a finding shares with others that are told with it, each in a line: its check, its mend, and for a warning the place
/// that explains it.
type Cause<'a> = (&'static str, &'a str, Option<Place>);

/// What the books lack is told once where the same mends it at several places, as nothing is ruined by it; a warning only
/// where one entry explains them all, such as that of a paint which nobody can buy any more.
fn cause(finding: &Finding) -> Option<Cause<'_>> {
    let explained = finding.related.iter().find(|related| related.version.is_none()).map(|related| related.place);
    let place = match finding.level() {
        Level::Note => None,
        Level::Warning => Some(explained?),
        Level::Error => return None,
    };
    (finding.check.group == CheckGroup::Bookkeeping).then_some((finding.check.id, finding.mend.as_str(), place))
}

/// One finding: what, where, other places that explain it, why, and what to do.
fn drawn(finding: &Finding, files: &Files, renderer: &Renderer) -> String {
    let heading = match finding.level() {
        Level::Error => Heading::ERROR,
        Level::Warning => Heading::WARNING,
        Level::Note => Heading::NOTE,
    };
    let title = heading.primary_title(visible_line(&finding.message, LONGEST)).id(finding.check.id);
    let others = folded(&finding.related);
    let related = others.iter().map(|(place, message)| snippet(*place, Some(message), files));
    let group = Group::with_title(title)
        .element(frame(finding.place, files))
        .elements(related)
        .element(Heading::NOTE.with_name("why").message(finding.check.why))
        .element(Heading::HELP.with_name("mend").message(visible_line(&finding.mend, LONGEST)));
    let places = iter::once(finding.place).chain(others.iter().map(|(place, _)| *place));
    with_places(&renderer.render(&[group]), places.map(|place| where_it_is(place, files)))
}

/// The source line of a finding, or the place alone in a file that has no lines to show.
fn frame<'a>(place: Place, files: &Files) -> Element<'a> {
    if files.text(place.file).is_empty() {
        Origin::path(PLACE.to_string()).into()
    } else {
        snippet(place, None, files).into()
    }
}

/// A source line with its mark; the line of a related place has its message after the mark.
fn snippet<'a>(place: Place, label: Option<&str>, files: &Files) -> Snippet<'a, Annotation<'a>> {
    let (line, _) = files.line_and_column(place);
    let excerpt = Excerpt::of(files.text(place.file), files.byte_range(place));
    let kind = if label.is_some() { AnnotationKind::Context } else { AnnotationKind::Primary };
    let mark = kind.span(excerpt.mark).label(label.map(|label| visible_line(label, LONGEST)));
    Snippet::source(excerpt.text)
        .line_start(line.saturating_sub(excerpt.lines_before))
        .path(PLACE.to_string())
        .fold(false)
        .annotation(mark)
}

/// `content/tools.yaml:3:14`.
fn where_it_is(place: Place, files: &Files) -> String {
    let (line, column) = files.line_and_column(place);
    match files.path(place.file) {
        "" => "(no file)".to_owned(),
        path => format!("{}:{line}:{column}", visible_line(path, LONGEST)),
    }
}

/// The drawing with the true places, in their order, at the end of the lines that wait for them.
fn with_places(drawing: &str, places: impl Iterator<Item = String>) -> String {
    let mut out = String::with_capacity(drawing.len());
    let mut rest = drawing;
    for place in places {
        let Some((before, after)) = rest.split_once(PLACE) else { break };
        let (lines, sign) = before.split_at(before.rfind('\n').map_or(0, |at| at + 1));
        out.push_str(lines);
        out.push_str(&sign.replace(RARE_SIGN, COMMON_SIGN));
        out.push_str(&place);
        rest = after.find('\n').map_or("", |end| &after[end..]);
    }
    out + rest
}

/// `2 errors, 1 warning`.
pub(super) fn tally(counts: Counts, style: TextStyle) -> String {
    let levels = [
        (counts.error, "error", "errors", DEFAULT_ERROR_STYLE),
        (counts.warning, "warning", "warnings", DEFAULT_WARNING_STYLE),
        (counts.note, "note", "notes", DEFAULT_NOTE_STYLE),
    ];
    let present: Vec<String> = levels
        .into_iter()
        .filter(|(count, ..)| *count > 0)
        .map(|(count, one, many, colour)| {
            let colour = if style == TextStyle::Coloured { colour } else { Style::new() };
            format!("{colour}{}{colour:#}", counted(count, one, many))
        })
        .collect();
    if present.is_empty() { "no findings".to_owned() } else { present.join(", ") }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::super::sample::{self, BARE, STRAY, TWICE};
    use super::super::{Check, FileId};
    use super::*;

    fn plain(finding: Finding, files: &Files) -> String {
        text(&Findings::gather(vec![finding], files), files, TextStyle::Plain)
    }

    #[test]
    fn a_related_place_in_another_file_is_drawn_below_the_first() {
        let (findings, files) = sample::paint_in_two_ranges();
        assert_eq!(
            text(&findings, &files, TextStyle::Plain),
            "\
error[paint-twice]: 'marsh-gold' is in two ranges
   ╭▸ content/paints/mere.yaml:12:9
   │
12 │   - id: marsh-gold
   │         ━━━━━━━━━━
   │
   ├▸ content/paints/größe 2.yaml:3:9
   │
 3 │   - id: marsh-gold
   │         ────────── first used here
   │
   ├ why: a step that names it could mean either
   ╰ mend: give one of them another id

1 error
"
        );
    }

    #[test]
    fn what_the_books_lack_is_told_once_and_its_other_places_in_a_line_each() {
        static UNTIMED: Check = Check { group: CheckGroup::Bookkeeping, ..BARE };
        let mut files = Files::default();
        let id = files.add("a.md", "one: 1\ntwo: 2\n");
        let note =
            |word, mend| Finding::new(&UNTIMED, sample::place_of(&files, id, word), format!("{word} lacks"), mend);
        let found = vec![note("one", "time it"), note("two", "time it"), note("two", "leave it")];
        let shown = text(&Findings::gather(found, &files), &files, TextStyle::Plain);
        assert_eq!(shown.matches("note[picture-bare]").count(), 2, "{shown}");
        assert!(shown.contains(" ╰ mend: time it\n ├ a.md:2:1: two lacks\n\n"), "{shown}");
        assert!(shown.ends_with("3 notes\n"), "{shown}");
    }

    #[test]
    fn warnings_of_the_books_are_told_together_where_one_entry_explains_them() {
        static SOLD_OUT: Check = Check { group: CheckGroup::Bookkeeping, level: Level::Warning, ..BARE };
        let mut files = Files::default();
        let id = files.add("a.md", "one: 1\ntwo: 2\nentry: 3\nother: 4\n");
        let at = |word| sample::place_of(&files, id, word);
        let warning = |word, entry| {
            Finding::new(&SOLD_OUT, at(word), format!("{word} is lost"), "take another").see(at(entry), "its entry")
        };
        let alone = Finding::new(&SOLD_OUT, at("3"), "three is lost", "take another");
        let found = vec![warning("one", "entry"), warning("two", "entry"), warning("1", "other"), alone];
        let shown = text(&Findings::gather(found, &files), &files, TextStyle::Plain);
        assert_eq!(shown.matches("warning[picture-bare]").count(), 3, "{shown}");
        assert!(shown.contains(" ├ a.md:2:1: two is lost\n") && shown.ends_with("4 warnings\n"), "{shown}");
    }

    #[test]
    fn an_empty_file_shows_its_path() {
        let mut files = Files::default();
        let id = files.add("content/tools.yaml", "");
        let finding = Finding::new(&STRAY, Place::top_of(id), "this file is empty", "write it, or delete the file");
        assert_eq!(
            plain(finding, &files),
            "\
warning[file-stray]: this file is empty
 ╭▸ content/tools.yaml:1:1
 ├ why: it is silently missing from the guide
 ╰ mend: write it, or delete the file

1 warning
"
        );
    }

    #[test]
    fn a_finding_without_a_file_is_still_told() {
        let finding = Finding::new(&STRAY, Place::top_of(FileId::new(7)), "something is missing", "add it");
        let shown = plain(finding, &Files::default());
        assert!(shown.starts_with("warning[file-stray]: something is missing\n ╭▸ (no file)\n"), "{shown}");
    }

    #[test]
    fn marks_stand_below_wide_letters_and_behind_tabs() {
        let mut files = Files::default();
        let id = files.add("a.md", "größe: 金\n\tweg: 重ね色 x\n");
        let place = sample::place_of(&files, id, "重ね色");
        let shown = plain(Finding::new(&BARE, place, "no such way", "choose one"), &files);
        let drawn = "
 ╭▸ a.md:2:7
  │
2 │     weg: 重ね色 x
  │          ━━━━━━
";
        assert!(shown.contains(drawn.trim_start_matches('\n')), "{shown}");
    }

    #[test]
    fn an_empty_place_at_the_end_shows_the_last_line_and_a_mark() {
        let mut files = Files::default();
        let id = files.add("a.md", "---\ntitle: Pale gold\n");
        let finding = Finding::new(&TWICE, Place::new(id, 21, 21), "the front matter has no end", "close it");
        let shown = plain(finding, &files);
        let drawn = "  ╭▸ a.md:3:1\n  │\n2 │ title: Pale gold\n3 │  \n  │ ━\n";
        assert!(shown.contains(drawn), "{shown}");
    }

    #[test]
    fn nothing_of_an_author_reaches_the_terminal_as_a_command() {
        let mut files = Files::default();
        let id = files.add("a\u{1b}[2J\n.md", "k\u{1b}]0;x\u{7}: \u{202e}dlog\u{1} key\r\n");
        let finding = Finding::new(&BARE, sample::place_of(&files, id, "key"), "'\u{9b}31m\nnote: x'", "\tcut\r")
            .see(Place::new(id, 0, 1), "\u{1b}c");
        assert_eq!(
            plain(finding, &files),
            "\
note[picture-bare]: '�31m␊note: x'
  ╭▸ a␛[2J␊.md:1:17
  │
1 │ k␛]0;x␇: �dlog␁ key
  │                 ━━━
  │
  ├▸ a␛[2J␊.md:1:1
  │
1 │ k␛]0;x␇: �dlog␁ key
  │ ─ ␛c
  │
  ├ why: who can't see it learns nothing from it
  ╰ mend:  cut␍

1 note
"
        );
    }

    #[test]
    fn a_line_of_a_million_characters_is_cut_around_the_mark_but_keeps_its_column() {
        let mut files = Files::default();
        let text = "wash ".repeat(100_000) + "![](beetle.jpg)" + &" edge".repeat(100_000);
        let id = files.add("a.md", text);
        let place = sample::place_of(&files, id, "![](beetle.jpg)");
        let shown = plain(Finding::new(&BARE, place, "no description", "write one"), &files);
        let drawn = "  ╭▸ a.md:1:500001
  │
1 │ …ash wash wash wash wash wash wash wash ![](beetle.jpg) edge";
        assert!(shown.lines().all(|line| line.chars().count() <= WIDTH), "{shown}");
        assert!(shown.contains(drawn), "{shown}");
        let whole = plain(Finding::new(&BARE, Place::new(id, 0, 1_000_000), "long", "cut it"), &files);
        assert!(whole.lines().all(|line| line.chars().count() <= WIDTH), "{whole}");
    }

    #[test]
    fn a_message_of_any_length_is_cut() {
        let mut files = Files::default();
        let id = files.add("a.md", "x");
        let name = "n".repeat(1_000_000);
        let finding = Finding::new(&BARE, Place::top_of(id), &name, &name).see(Place::top_of(id), &name);
        assert!(plain(finding, &files).len() < 4 * LONGEST);
    }

    #[test]
    fn colours_are_all_that_the_styles_differ_in() {
        let (findings, files) = sample::paint_in_two_ranges();
        let plain = text(&findings, &files, TextStyle::Plain);
        let coloured = text(&findings, &files, TextStyle::Coloured);
        let codes = regex::Regex::new("\u{1b}\\[[0-9;]*m").unwrap();
        assert!(codes.is_match(&coloured) && !plain.contains('\u{1b}'));
        assert_eq!(codes.replace_all(&coloured, ""), plain);
    }

    #[test]
    fn the_last_line_counts_only_what_was_found() {
        let counts = |error, warning, note| tally(Counts { error, warning, note }, TextStyle::Plain);
        assert_eq!(counts(2, 1, 0), "2 errors, 1 warning");
        assert_eq!(counts(1, 0, 3), "1 error, 3 notes");
        assert_eq!(counts(0, 2, 1), "2 warnings, 1 note");
        assert_eq!(text(&Findings::default(), &Files::default(), TextStyle::Coloured), "no findings\n");
    }

    proptest! {
        #[test]
        fn any_text_and_any_place_can_be_drawn(
            written in "[a金é\u{301}\u{1b}\u{202e}\u{200d}\u{1}\t\r\n /{]{0,80}",
            places in prop::array::uniform4(0_usize..300),
        ) {
            let [start, end, other_start, other_end] = places;
            let mut files = Files::default();
            let id = files.add(written.as_str(), written.as_str());
            let finding = Finding::new(&TWICE, Place::new(id, start, end), &written, &written)
                .see(Place::new(id, other_start, other_end), &written);
            let shown = plain(finding, &files);
            prop_assert!(shown.chars().all(|c| c == '\n' || !c.is_control()), "{shown}");
            prop_assert!(shown.contains(" mend: ") && shown.ends_with("\n1 error\n"), "{shown}");
        }
    }
}
