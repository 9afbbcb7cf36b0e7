//! What is meant as a link or a picture and is written so that Markdown takes it for words: readers would see its signs.

use std::collections::BTreeSet;
use std::ops::Range;

use pulldown_cmark::{Event, Tag, TagEnd};

use super::ResolveDesk;
use super::addresses::{HANDED_ON, scheme_of};
use super::context::Context;
use crate::guide::library::{Names, behind_number, tag_slug};
use crate::guide::{Prose, checks, markdown};
use crate::measure::hyphenated;
use crate::report::{Finding, Place, wording};

/// So many characters around its brackets are looked at: paths and the words of links are shorter.
const REACH: usize = 300;

/// The endings of pictures that can't be published, but are meant as pictures, and of the texts of a guide.
const ALSO_MEANT: &[&str] = &["md", "heic", "gif", "tif", "tiff", "bmp", "svg", "avif"];

/// The kinds of addresses that begin with a word and a colon, besides those of the web.
const KINDS: &[&str] = &["mailto", "scheme", "paint", "page", "army", "sequence", "stage", "tag"];

/// What ends a sentence, or a part of one, and no address.
const ENDS_WORDS: &[char] = &['.', ',', ';', ':', '!', '?'];

/// Which bytes of a text are words, and no part of code, of a link or of a picture.
#[derive(Debug, Default)]
pub(super) struct PlainWords {
    ranges: Vec<Range<usize>>,
    inside: usize,
}

impl PlainWords {
    /// Notes the next event of the text, which stands at these bytes.
    pub(super) fn note(&mut self, event: &Event<'_>, range: &Range<usize>) {
        match event {
            Event::Start(Tag::Link { .. } | Tag::Image { .. } | Tag::CodeBlock(_)) => self.inside += 1,
            Event::End(TagEnd::Link | TagEnd::Image | TagEnd::CodeBlock) => self.inside = self.inside.saturating_sub(1),
            Event::Text(_) if self.inside == 0 => self.ranges.push(range.clone()),
            _ => {}
        }
    }

    fn holds(&self, byte: usize) -> bool {
        let behind = self.ranges.partition_point(|range| range.start <= byte);
        behind.checked_sub(1).and_then(|at| self.ranges.get(at)).is_some_and(|range| range.contains(&byte))
    }
}

/// Tells of everything in a text that is meant as a link or a picture and is none.
pub(super) fn tell(context: &Context<'_>, prose: &Prose, words: &PlainWords, desk: &mut ResolveDesk) {
    let text = prose.markdown();
    let is_written = |at: usize| words.holds(at) && !text[..at].ends_with('\\');
    let closed = text.match_indices(']').map(|(at, _)| at).filter(|at| is_written(*at));
    for at in closed {
        let found = behind_brackets(context, text, at).or_else(|| in_two_brackets(context, text, at));
        if let Some(Meant { start, end, message, mend }) = found.filter(|meant| is_written(meant.start)) {
            let place = Place::new(context.file, prose.start + start, prose.start + end);
            desk.tell(Finding::new(&checks::LINK_AS_WORDS, place, message, mend));
        }
    }
}

/// What is meant as a link: its bytes in the text, what is wrong with it, and how to mend it.
struct Meant {
    start: usize,
    end: usize,
    message: String,
    mend: String,
}

/// A link whose words end at a bracket: one with a space in its address, before it, or without an end.
fn behind_brackets(context: &Context<'_>, text: &str, at: usize) -> Option<Meant> {
    let rest = text.get(at + 1..)?;
    let address = rest.trim_start_matches([' ', '\t']).strip_prefix('(')?;
    let gap = rest.len() - address.len() - 1;
    let start = opening(text, at)?;
    let is_picture = text[..start].ends_with('!');
    let what = if is_picture { "picture" } else { "link" };
    let begins = at + 1 + gap + 1;
    let (written, is_closed) = up_to_bracket(address);
    let end = begins + written.len() + usize::from(is_closed);
    let dest = without_title(written);
    let said = |message: String, mend: String| Some(Meant { start, end, message, mend });
    if is_closed && gap == 0 {
        let is_meant = dest.contains([' ', '\t']) && !dest.starts_with('<') && leads_somewhere(context, dest);
        let message = format!("this is no {what}: its address {} has a space", wording::quoted(dest));
        return if is_meant { said(message, without_space(dest)) } else { None };
    }
    let first = dest.split([' ', '\t']).next().unwrap_or_default();
    if is_closed {
        // A number in brackets, and what it stands for behind it, is a note: `[1] (chart.pdf)`.
        let is_mark = !is_picture && !text[start..at].contains(char::is_alphabetic);
        let is_note = is_mark && scheme_of(dest).is_none();
        let is_meant = first == dest && if is_note { is_there(context, dest) } else { leads_somewhere(context, dest) };
        let message = format!("this is no {what}: there is a space between ']' and '('");
        return if is_meant { said(message, format!("write ']({dest})'")) } else { None };
    }
    let first = first.trim_end_matches(ENDS_WORDS);
    let message = format!("this is no {what}: nothing closes its address");
    let is_meant = gap == 0 && leads_somewhere(context, first);
    let end = begins + first.len();
    is_meant.then(|| Meant { start, end, message, mend: format!("write ')' after {}", wording::quoted(first)) })
}

/// A name in two brackets, as other places have it: only where there is something of that name.
fn in_two_brackets(context: &Context<'_>, text: &str, at: usize) -> Option<Meant> {
    text.get(at + 1..)?.strip_prefix(']')?;
    let inner = opening(text, at)?;
    let start = inner.checked_sub(1).filter(|start| text.as_bytes().get(*start) == Some(&b'['))?;
    let (name, words) = text.get(inner + 1..at)?.split_once('|').unwrap_or((&text[inner + 1..at], ""));
    let address = address_of(context, name.trim())?;
    let words = if words.trim().is_empty() { name.trim() } else { words.trim() };
    let message = format!("{} is no link here", wording::quoted(&text[start..at + 2]));
    Some(Meant { start, end: at + 2, message, mend: format!("write '[{words}]({address})'") })
}

/// How a link to the thing of a name is written in this file.
fn address_of(context: &Context<'_>, name: &str) -> Option<String> {
    let names = &context.library.names;
    let (id, title) = (name, hyphenated(name));
    if title.is_empty() {
        return None;
    }
    if let Some((kind, rest)) = id.split_once(':') {
        let rest = hyphenated(rest);
        return is_thing(names, kind, &rest).then(|| format!("{kind}:{rest}"));
    }
    let stem = id.trim_end_matches(".md");
    let numbered = if behind_number(stem).is_some() { stem.to_owned() } else { format!("0-{title}") };
    let paths = [id.to_owned(), format!("{stem}.md"), format!("{numbered}.md")];
    let file = paths.iter().find_map(|path| known_file(context, &context.path_of(path)?));
    let ids = kinds(names).into_iter().find(|(_, ids)| ids.contains(&title)).map(|(kind, _)| format!("{kind}:{title}"));
    file.map(|path| context.written_here(&path)).or(ids)
}

/// The ids of the things that are linked to by their kind and id.
fn kinds(names: &Names) -> [(&'static str, &BTreeSet<String>); 5] {
    [
        ("paint", &names.paints),
        ("scheme", &names.schemes),
        ("sequence", &names.sequences),
        ("page", &names.pages),
        ("army", &names.armies),
    ]
}

fn is_thing(names: &Names, kind: &str, id: &str) -> bool {
    kinds(names).into_iter().any(|(known, ids)| known == kind && ids.contains(id))
}

/// The file of the guide that a path from the content folder means.
fn known_file(context: &Context<'_>, path: &str) -> Option<String> {
    let names = &context.library.names;
    let other = names.others.get(path).map(String::as_str);
    names.known_path(path).or(other).map(ToOwned::to_owned)
}

/// Whether an address is one: there is such a file, it has the ending of one that can be linked to, or it is of a known kind.
/// With a space behind the colon it is of no kind, as in `(page: 12)`, unless there is such a thing.
fn leads_somewhere(context: &Context<'_>, dest: &str) -> bool {
    let path = without_anchor(dest);
    if path.is_empty() {
        return false;
    }
    if let Some(kind) = scheme_of(path) {
        let name = &path[kind.len() + 1..];
        return match kind {
            "http" | "https" => name.strip_prefix("//").is_some_and(|rest| !rest.is_empty()),
            _ if name.starts_with([' ', '\t']) => is_thing(&context.library.names, kind, &hyphenated(name)),
            _ => KINDS.contains(&kind) && !name.is_empty(),
        };
    }
    let ending = path.rsplit_once('.').filter(|(name, _)| !name.is_empty()).map(|(_, ending)| ending.to_lowercase());
    let can_be = |ending: &str| HANDED_ON.contains(&ending) || ALSO_MEANT.contains(&ending);
    ending.is_some_and(|ending| can_be(&ending)) || is_there(context, path)
}

/// Whether there is the file of an address.
fn is_there(context: &Context<'_>, dest: &str) -> bool {
    let path = without_anchor(dest);
    !path.is_empty() && context.path_of(path).is_some_and(|path| known_file(context, &path).is_some())
}

/// What comes before the `#` of an address.
fn without_anchor(dest: &str) -> &str {
    dest.split_once('#').map_or(dest, |(path, _)| path).trim()
}

/// The mend of an address with spaces in it.
fn without_space(dest: &str) -> String {
    let kind = scheme_of(dest);
    if let Some("http" | "https" | "mailto") = kind {
        return "write '%20' in place of each space".to_owned();
    }
    let (path, anchor) = dest.split_once('#').map_or((dest, ""), |(path, anchor)| (path.trim_end(), anchor.trim()));
    // Anchors are made of headings in this way, and have no spaces either.
    let anchor = if anchor.contains([' ', '\t']) { markdown::slug(anchor) } else { anchor.to_owned() };
    let anchor = if anchor.is_empty() { anchor } else { format!("#{anchor}") };
    let Some(kind) = kind else {
        return if path.contains([' ', '\t']) {
            format!("write '(<{path}{anchor}>)': the address in angle brackets")
        } else {
            format!("write '({path}{anchor})', the address without spaces")
        };
    };
    let name = &path[kind.len() + 1..];
    let id = if kind == "tag" { tag_slug(name) } else { hyphenated(name) };
    if id.is_empty() {
        format!("write the id of the {kind} after '{kind}:', which has no spaces")
    } else {
        format!("write '({kind}:{id}{anchor})', the id without spaces")
    }
}

/// The byte of the bracket that opens the words which end at another, in the same paragraph.
fn opening(text: &str, at: usize) -> Option<usize> {
    let mut depth = 0_usize;
    let before = text.get(..at)?;
    for (byte, sign) in before.char_indices().rev().take(REACH) {
        match sign {
            ']' => depth += 1,
            '[' if depth == 0 => return Some(byte),
            '[' => depth -= 1,
            '\n' if before[..byte].trim_end_matches([' ', '\t', '\r']).ends_with('\n') => return None,
            _ => {}
        }
    }
    None
}

/// What stands before the bracket that closes an address, in one line, and whether there is one. An address may have pairs
/// of brackets in it.
fn up_to_bracket(rest: &str) -> (&str, bool) {
    let mut depth = 0_usize;
    let mut end = 0;
    for (byte, sign) in rest.char_indices().take(REACH) {
        match sign {
            ')' if depth == 0 => return (&rest[..byte], true),
            ')' => depth -= 1,
            '(' => depth += 1,
            '\n' | '\r' => return (&rest[..byte], false),
            _ => {}
        }
        end = byte + sign.len_utf8();
    }
    (&rest[..end], false)
}

/// An address without the title that may stand after it in quotes.
fn without_title(written: &str) -> &str {
    let bare = written.trim();
    let titled = [" \"", " '"].into_iter().find_map(|quote| bare.find(quote)).filter(|_| bare.ends_with(['"', '\'']));
    titled.map_or(bare, |at| bare[..at].trim_end())
}

#[cfg(test)]
mod tests {
    use crate::door::Memory;

    /// What is told of a text that is the introduction of a scheme with the step `20-coat` and the picture `IMG 1.jpg`.
    fn told(text: &str) -> Vec<(String, String)> {
        let step = "---\ntitle: Coat\nstage: basecoat\nareas: [all]\nwith: brush\n---\nBrush it on.\n";
        let range = "maker: Tarn & Daughter\nrange: Shell\nfamily: water\npaints:\n  moss-green: {name: Moss Green, kind: paint}\n";
        let door = Memory::default()
            .with("content/guide.yaml", "title: Test\nauthor: Quill Hollis\n")
            .with("content/paints/shell.yaml", range)
            .with("content/schemes/warden/photos/IMG 1.jpg", "")
            .with("content/schemes/warden/20-coat.md", step)
            .with(
                "content/schemes/warden/scheme.md",
                format!("---\ntitle: Warden\nareas: {{shell: 100%}}\n---\n{text}\n"),
            );
        let mut source = crate::source::read(&door).unwrap();
        let (_, findings) = crate::guide::resolve(&mut source);
        let told = findings.into_iter().filter(|finding| finding.check.id == "link-as-words");
        told.map(|finding| {
            let place = finding.place;
            let whole = source.files.shared_text(place.file);
            (whole[place.start as usize..place.end as usize].to_owned(), finding.mend)
        })
        .collect()
    }

    #[test]
    fn what_is_meant_as_a_link_and_is_none_is_told_with_its_mend() {
        for (text, marked, mend) in [
            (
                "![It](photos/IMG 1.jpg)",
                "[It](photos/IMG 1.jpg)",
                "write '(<photos/IMG 1.jpg>)': the address in angle brackets",
            ),
            (
                "[a](no where.png \"Title\")",
                "[a](no where.png \"Title\")",
                "write '(<no where.png>)': the address in angle brackets",
            ),
            (
                "[a *b*](IMG (2) x.jpg) c",
                "[a *b*](IMG (2) x.jpg)",
                "write '(<IMG (2) x.jpg>)': the address in angle brackets",
            ),
            ("[a](paint:Moss Green)", "[a](paint:Moss Green)", "write '(paint:moss-green)', the id without spaces"),
            ("[a](paint: Moss Green)", "[a](paint: Moss Green)", "write '(paint:moss-green)', the id without spaces"),
            (
                "[a](scheme:The Warden#20 coat)",
                "[a](scheme:The Warden#20 coat)",
                "write '(scheme:the-warden#20-coat)', the id without spaces",
            ),
            (
                "[a](20-coat.md#How to thin)",
                "[a](20-coat.md#How to thin)",
                "write '(20-coat.md#how-to-thin)', the address without spaces",
            ),
            ("[a](paint:漢 字)", "[a](paint:漢 字)", "write the id of the paint after 'paint:', which has no spaces"),
            ("[a](tag:漢 字)", "[a](tag:漢 字)", "write '(tag:漢-字)', the id without spaces"),
            ("[a](https://a.example/b c)", "[a](https://a.example/b c)", "write '%20' in place of each space"),
            ("[a] (20-coat.md)", "[a] (20-coat.md)", "write '](20-coat.md)'"),
            ("so [a](20-coat.md and\n\nmore", "[a](20-coat.md", "write ')' after '20-coat.md'"),
            (
                "see [a](https://a.example/a, and more",
                "[a](https://a.example/a",
                "write ')' after 'https://a.example/a'",
            ),
            ("so [a](20-coat.md; more", "[a](20-coat.md", "write ')' after '20-coat.md'"),
            ("[1] (20-coat.md)", "[1] (20-coat.md)", "write '](20-coat.md)'"),
            ("[chart] (a.pdf)", "[chart] (a.pdf)", "write '](a.pdf)'"),
            ("[[coat]]", "[[coat]]", "write '[coat](20-coat.md)'"),
            ("[[Moss Green|the green]]", "[[Moss Green|the green]]", "write '[the green](paint:moss-green)'"),
        ] {
            assert_eq!(told(text), [(marked.to_owned(), mend.to_owned())], "{text}");
        }
    }

    #[test]
    fn brackets_that_are_words_are_left_alone() {
        for text in [
            "[a](20-coat.md), ![It](<photos/IMG 1.jpg>) and ![It](photos/IMG%201.jpg \"With a title\")",
            "`[a](no where.png)` and `[[coat]]`",
            "    [a](no where.png)\n",
            "```\n[[coat]] [a] (20-coat.md)\n```",
            "\\[a](no where.png) and [a\\](no where.png)",
            "[1](see page 4) [sic] (as they say) [2] (3 of them)",
            "see [3](page: 12), [Tip](http: it is no link), [a](stage: basecoat) and [b](paint: none of it)",
            "[1] (a.pdf), <b>[2] (a.pdf)</b>\n\n| A |\n| --- |\n| [3] (a.pdf) |",
            "[Tip](https:it is none), [a](paint:, and [b](mailto: me at home)",
            "[[nothing of the kind]] and a[b](c",
            "- [x] (optional) do it\n- [ ] (20-coat.md)",
            "[a] and (20-coat.md)",
            "No [ at all.\n\n](no where.png)",
        ] {
            assert_eq!(told(text), [], "{text}");
        }
    }
}
