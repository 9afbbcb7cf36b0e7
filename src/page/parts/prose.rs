//! Markdown as HTML: links lead where they were resolved to, headings fit under the page's own, pictures have sizes.

use std::collections::{BTreeMap, HashMap};
use std::fmt::Write as _;

use pulldown_cmark::{CodeBlockKind, CowStr, Event, HeadingLevel, LinkType, Tag, TagEnd, html};

use super::address::{Address, relative, with_anchor};
use super::columns::Columns;
use super::picture::PictureView;
use crate::guide::raw_html::{self, Piece};
use crate::guide::{Prose, Scheme, Target, Thing, headings, markdown};
use crate::page::Desk;
use crate::page::schemes::task;
use crate::report::wording;

/// How wide a browser should expect a picture in a text: as wide as the text, or as the screen of a phone.
const PROSE_SIZES: &str = "(min-width: 40rem) 38rem, 100vw";

/// Where and how a text is shown.
#[derive(Debug, Clone, Copy)]
pub(in crate::page) struct Setting<'a> {
    /// The page it is on.
    pub(in crate::page) path: &'a str,
    /// The level of its highest heading, from 1.
    pub(in crate::page) level: usize,
    /// What it shares the page with.
    pub(in crate::page) company: Company<'a>,
}

/// What a text shares its page with, which has names of its own there.
#[derive(Debug, Clone, Copy)]
pub(in crate::page) enum Company<'a> {
    /// Nothing but the page's frame.
    None,
    /// The parts of the front page.
    Front,
    /// The steps of the scheme that it introduces.
    Steps(&'a StepsHere<'a>),
    /// The other steps of its scheme; its own place among them.
    OtherSteps(&'a StepsHere<'a>, &'a str),
}

/// The steps of a scheme that a page shows whole.
#[derive(Debug)]
pub(in crate::page) struct StepsHere<'a> {
    slug: &'a str,
    numbers: BTreeMap<&'a str, usize>,
}

impl<'a> StepsHere<'a> {
    /// The steps of a scheme.
    pub(in crate::page) fn of(scheme: &'a Scheme) -> Self {
        let numbers = scheme.steps.iter().map(|step| (step.stem.as_str(), step.number)).collect();
        Self { slug: &scheme.slug, numbers }
    }

    fn heading(&self, stem: &str, anchor: &str) -> String {
        let number = self.numbers.get(stem).copied().unwrap_or_default();
        headings::of_step((stem, number), anchor, |name| self.numbers.contains_key(name))
    }
}

impl Company<'_> {
    /// What a heading of the text is called on the page.
    fn heading(self, anchor: &str) -> String {
        match self {
            Self::None => headings::on_page(anchor),
            Self::Front => headings::on_front(anchor),
            Self::Steps(steps) => headings::of_scheme(anchor, |name| steps.numbers.contains_key(name)),
            Self::OtherSteps(steps, stem) => steps.heading(stem, anchor),
        }
    }

    /// What a note of the text is called on the page, by its number there.
    fn note(self, number: usize) -> String {
        match self {
            Self::OtherSteps(steps, stem) => {
                format!("note_{}_{number}", steps.numbers.get(stem).copied().unwrap_or_default())
            }
            _ => format!("note_{number}"),
        }
    }

    /// The steps that are on the page.
    fn steps(&self) -> Option<&StepsHere<'_>> {
        match self {
            Self::Steps(steps) | Self::OtherSteps(steps, _) => Some(steps),
            Self::None | Self::Front => None,
        }
    }
}

/// The text as HTML.
pub(in crate::page) fn html(desk: Desk<'_>, prose: &Prose, setting: Setting<'_>) -> String {
    let mut writer = Writer::new(desk, prose, setting);
    let parser = markdown::parser(prose.markdown());
    let (mut out, mut columns) = (String::new(), Columns::default());
    html::push_html(
        &mut out,
        task::labelled(parser.filter_map(|event| writer.event(event)).map(|event| columns.event(event))),
    );
    let out = in_boxes(&out);
    let raw = desk.worked.guide.raw_html;
    if raw { clean(&out) } else { out }
}

/// Puts every table into a box in which it moves sideways where it is too wide: one that keys reach too.
fn in_boxes(html: &str) -> String {
    html.replace("<table>", "<div class=\"sideways\" tabindex=\"0\"><table>").replace("</table>", "</table></div>")
}

/// What HTML of an author may hold; scripts, styles, frames and forms go. It comes with the program's own, whose classes,
/// anchors and boxes stay: the author's were left out before.
fn clean(html: &str) -> String {
    ammonia::Builder::default()
        .add_generic_attributes(["id", "class"])
        .add_tags(["input", "label"])
        .rm_tags(["area", "map"])
        .add_tag_attributes("input", ["type", "checked"])
        .add_tag_attributes("img", ["srcset", "sizes", "loading"])
        .add_tag_attributes("pre", ["tabindex"])
        .add_tag_attributes("div", ["tabindex"])
        .url_schemes(["http", "https", "mailto"].into())
        .link_rel(None)
        .clean(html)
        .to_string()
}

/// Text made safe for an element or an attribute.
pub(in crate::page) fn escaped(text: &str) -> String {
    let mut bytes = Vec::with_capacity(text.len() + 16);
    // Writing to a vector can't fail, and what comes out of a string is one again.
    let _ = tera::escape_html(text, &mut bytes);
    String::from_utf8(bytes).unwrap_or_default()
}

fn opened(name: &str, attributes: &[(String, String)]) -> String {
    let pairs = attributes.iter().map(|(name, value)| format!(" {name}=\"{}\"", escaped(value)));
    format!("<{name}{}>", pairs.collect::<String>())
}

/// HTML of an author that is shown as words.
fn words_of_html(html: &str) -> String {
    wording::shown(&without_comments(html)).into_owned()
}

/// A text without comments of HTML, which are an author's own notes. A note ends in its own paragraph, before another begins:
/// where the end of one is missing or misspelt, the end of a later one would take all between the two along, a warning too.
/// What is no note stays, with its signs.
fn without_comments(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(start) = rest.find(NOTE) {
        let (before, note) = rest.split_at(start);
        out.push_str(before);
        let begun = &note[NOTE.len()..];
        let reach = begun.find(NOTE).map_or(note.len(), |next| NOTE.len() + next);
        // The hyphens that begin a comment may be those that end it.
        let end = note[2..reach].find("-->").map(|at| 2 + at + 3);
        let is_of_one_paragraph = |end: &usize| note[..*end].lines().all(|line| !line.trim().is_empty());
        rest = if let Some(end) = end.filter(is_of_one_paragraph) {
            &note[end..]
        } else {
            out.push_str(&note[..reach]);
            &note[reach..]
        };
    }
    out.push_str(rest);
    out
}

/// What a comment of HTML begins with.
const NOTE: &str = "<!--";

struct Writer<'a> {
    desk: Desk<'a>,
    setting: Setting<'a>,
    targets: std::slice::Iter<'a, Target>,
    anchors: std::vec::IntoIter<String>,
    highest: usize,
    lost_links: usize,
    /// The numbers of the notes at the foot of the text, by name, and whether the note itself was there already.
    notes: HashMap<String, (usize, bool)>,
    code: Option<(String, String)>,
    picture: Option<OpenPicture>,
    /// The lines of a block of the author's HTML.
    html: Option<String>,
}

/// A picture whose description is being read. Pictures and links inside a description are only words.
struct OpenPicture {
    path: Option<String>,
    alt: String,
    inner: usize,
}

impl<'a> Writer<'a> {
    fn new(desk: Desk<'a>, prose: &'a Prose, setting: Setting<'a>) -> Self {
        let headings = markdown::headings(prose.markdown());
        let highest = headings.iter().map(|heading| heading.level as usize).min().unwrap_or(1);
        let anchors: Vec<String> =
            headings.into_iter().map(|heading| setting.company.heading(&heading.anchor)).collect();
        Self {
            desk,
            setting,
            targets: prose.targets.iter(),
            anchors: anchors.into_iter(),
            highest,
            lost_links: 0,
            notes: HashMap::new(),
            code: None,
            picture: None,
            html: None,
        }
    }

    fn event<'e>(&mut self, event: Event<'e>) -> Option<Event<'e>> {
        if self.code.is_some() {
            return self.in_code(event);
        }
        if self.picture.is_some() {
            return self.in_picture(event);
        }
        match event {
            Event::Start(Tag::Heading { level, .. }) => Some(self.heading(level)),
            Event::End(TagEnd::Heading(level)) => Some(Event::End(TagEnd::Heading(self.lifted(level)))),
            Event::Start(Tag::Link { title, id, .. }) => {
                // Where the link leads is settled; the kind in which it was written no longer matters.
                let link_type = LinkType::Inline;
                let href = self.targets.next().cloned().and_then(|target| self.href(&target));
                self.link(href, |dest_url| Tag::Link { link_type, dest_url, title, id })
            }
            Event::End(TagEnd::Link) if self.lost_links > 0 => {
                self.lost_links -= 1;
                None
            }
            Event::Start(Tag::Image { .. }) => {
                self.picture = Some(OpenPicture { path: self.next_picture(), alt: String::new(), inner: 0 });
                None
            }
            Event::Start(Tag::CodeBlock(kind)) => {
                let language = match kind {
                    CodeBlockKind::Fenced(language) => language.to_string(),
                    CodeBlockKind::Indented => String::new(),
                };
                self.code = Some((language, String::new()));
                None
            }
            Event::Start(Tag::FootnoteDefinition(name)) => Some(Event::Html(CowStr::from(self.note(&name)))),
            Event::End(TagEnd::FootnoteDefinition) => Some(Event::Html(CowStr::from("</div>\n"))),
            Event::FootnoteReference(name) => Some(Event::InlineHtml(CowStr::from(self.note_mark(&name)))),
            Event::InlineHtml(text) if !self.desk.worked.guide.raw_html => {
                Some(Event::Text(CowStr::from(words_of_html(&text))))
            }
            Event::Start(Tag::HtmlBlock) => {
                self.html = Some(String::new());
                None
            }
            Event::Html(text) => {
                self.html.iter_mut().for_each(|block| block.push_str(&text));
                None
            }
            Event::End(TagEnd::HtmlBlock) => {
                let block = self.html.take()?;
                Some(self.html_block(&block))
            }
            Event::InlineHtml(text) => Some(Event::InlineHtml(CowStr::from(self.raw(&text)))),
            other => Some(other),
        }
    }

    /// A block of an author's HTML: as it is where the guide lets it pass, else as words.
    fn html_block<'e>(&mut self, block: &str) -> Event<'e> {
        if self.desk.worked.guide.raw_html {
            Event::Html(CowStr::from(self.raw(block)))
        } else {
            Event::Text(CowStr::from(words_of_html(block)))
        }
    }

    fn lifted(&self, level: HeadingLevel) -> HeadingLevel {
        let below_highest = (level as usize).saturating_sub(self.highest);
        HeadingLevel::try_from((self.setting.level + below_highest).min(6)).unwrap_or(HeadingLevel::H6)
    }

    fn heading<'e>(&mut self, level: HeadingLevel) -> Event<'e> {
        let id = self.anchors.next().map(CowStr::from);
        Event::Start(Tag::Heading { level: self.lifted(level), id, classes: Vec::new(), attrs: Vec::new() })
    }

    /// The number of a note at the foot of the text, in the order in which they first come.
    fn numbered(&mut self, name: &str) -> &mut (usize, bool) {
        let next = self.notes.len() + 1;
        self.notes.entry(name.to_owned()).or_insert((next, false))
    }

    /// The first note of a name is the one that its marks lead to.
    fn note(&mut self, name: &str) -> String {
        let (number, is_there) = self.numbered(name);
        let (number, is_first) = (*number, !std::mem::replace(is_there, true));
        let id = if is_first { format!(" id=\"{}\"", self.setting.company.note(number)) } else { String::new() };
        format!("<div class=\"below-note\"{id}><sup>{number}</sup>\n")
    }

    fn note_mark(&mut self, name: &str) -> String {
        let (number, _) = *self.numbered(name);
        format!("<sup class=\"below-mark\"><a href=\"#{}\">{number}</a></sup>", self.setting.company.note(number))
    }

    fn link<'e>(&mut self, href: Option<String>, tag: impl FnOnce(CowStr<'e>) -> Tag<'e>) -> Option<Event<'e>> {
        if let Some(href) = href {
            return Some(Event::Start(tag(CowStr::from(href))));
        }
        self.lost_links += 1;
        None
    }

    fn href(&self, target: &Target) -> Option<String> {
        let path = self.setting.path;
        match target {
            Target::Outside(address) => Some(address.clone()),
            Target::Here(anchor) => Some(with_anchor("", Some(&self.setting.company.heading(anchor)))),
            Target::Thing(thing, anchor) => Some(self.thing_href(thing, anchor.as_deref())),
            Target::File(file) => Some(relative(path, file)),
            Target::Nowhere => None,
        }
    }

    /// On the page that shows a whole scheme, its own steps are reached by their anchors.
    fn thing_href(&self, thing: &Thing, anchor: Option<&str>) -> String {
        let steps = self.setting.company.steps();
        match (thing, steps) {
            (Thing::Step(slug, stem), Some(steps)) if steps.slug == slug => {
                let anchor = anchor.map_or_else(|| stem.clone(), |anchor| steps.heading(stem, anchor));
                with_anchor("", Some(&anchor))
            }
            // What is on the page of a scheme was settled with the link.
            _ => {
                with_anchor(&relative(self.setting.path, &Address::of(thing)), anchor.map(headings::on_page).as_deref())
            }
        }
    }

    fn next_picture(&mut self) -> Option<String> {
        match self.targets.next() {
            Some(Target::File(path)) => Some(path.clone()),
            _ => None,
        }
    }

    /// Gathers the words that describe a picture, then shows it.
    fn in_picture<'e>(&mut self, event: Event<'e>) -> Option<Event<'e>> {
        let open = self.picture.as_mut()?;
        match event {
            Event::Text(words) | Event::Code(words) => open.alt.push_str(&words),
            Event::Start(Tag::Image { .. }) => {
                open.inner += 1;
                self.targets.next();
            }
            Event::Start(Tag::Link { .. }) => {
                self.targets.next();
            }
            Event::End(TagEnd::Image) if open.inner > 0 => open.inner -= 1,
            Event::End(TagEnd::Image) => {
                let OpenPicture { path, alt, .. } = self.picture.take()?;
                return Some(self.picture(path.as_deref(), &alt));
            }
            Event::InlineHtml(html) if self.desk.worked.guide.raw_html => {
                let leads = |piece: &Piece| matches!(piece, Piece::Link(..) | Piece::Picture(..));
                raw_html::pieces(&html).iter().filter(|piece| leads(piece)).for_each(|_| _ = self.targets.next());
            }
            _ => {}
        }
        None
    }

    /// The author's HTML, its links led to where they were resolved to.
    fn raw(&mut self, html: &str) -> String {
        let mut out = String::new();
        for piece in raw_html::pieces(html) {
            match piece {
                Piece::Text(text) => {
                    out.push_str(&escaped(&text));
                }
                Piece::Open(name, attributes) => out.push_str(&opened(&name, &attributes)),
                Piece::Close(name) => _ = write!(out, "</{name}>"),
                Piece::LeftOut(_) => {}
                Piece::Link(_, mut attributes) => {
                    let href = self.targets.next().cloned().and_then(|target| self.href(&target));
                    attributes.extend(href.map(|href| ("href".to_owned(), href)));
                    out.push_str(&opened("a", &attributes));
                }
                Piece::Picture(_, alt) => {
                    let path = self.next_picture();
                    match self.picture(path.as_deref(), &alt) {
                        Event::Text(words) => out.push_str(&escaped(&words)),
                        Event::InlineHtml(tag) => out.push_str(&tag),
                        _ => {}
                    }
                }
            }
        }
        out
    }

    fn picture<'e>(&self, path: Option<&str>, alt: &str) -> Event<'e> {
        let view = path.and_then(|path| PictureView::at(self.desk, self.setting.path, path, alt));
        let Some(view) = view else { return Event::Text(CowStr::from(alt.to_owned())) };
        let mut tag = format!("<img src=\"{}\"", view.src);
        if !view.srcset.is_empty() {
            let _ = write!(tag, " srcset=\"{}\" sizes=\"{PROSE_SIZES}\"", view.srcset);
        }
        let _ = write!(
            tag,
            " alt=\"{}\" width=\"{}\" height=\"{}\" loading=\"lazy\">",
            escaped(alt),
            view.width,
            view.height
        );
        Event::InlineHtml(CowStr::from(tag))
    }

    fn in_code<'e>(&mut self, event: Event<'e>) -> Option<Event<'e>> {
        match event {
            Event::Text(text) => {
                if let Some((_, code)) = &mut self.code {
                    code.push_str(&text);
                }
                None
            }
            Event::End(TagEnd::CodeBlock) => {
                let (language, code) = self.code.take()?;
                Some(Event::Html(CowStr::from(crate::draw::code(&language, &code))))
            }
            _ => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_author_s_notes_are_left_out_and_what_nothing_ends_is_not() {
        for (text, shown) in [
            ("a <!-- ask Tom\nabout it --> b", "a  b"),
            ("<!-- one --><!-- two -->", ""),
            ("<!--> a", " a"),
            ("<!-- a --> b <!-- c", " b <!-- c"),
            ("<!-- <!-- <!--", "<!-- <!-- <!--"),
            ("<!---> a <!----> b", " a  b"),
            ("<p>a</p>", "<p>a</p>"),
            ("", ""),
        ] {
            assert_eq!(without_comments(text), shown, "{text}");
        }
    }

    #[test]
    fn a_note_without_its_end_takes_no_text_along() {
        for (text, shown) in [
            (
                "<!-- ask Tom ->\n\nWear a mask.\n\nMore.\n\n<!-- second -->",
                "<!-- ask Tom ->\n\nWear a mask.\n\nMore.\n\n",
            ),
            ("<!-- ask Tom -> Wear a mask. <!-- second --> b", "<!-- ask Tom -> Wear a mask.  b"),
            ("<!-- ask Tom\n \t\nWear a mask. --> b", "<!-- ask Tom\n \t\nWear a mask. --> b"),
            ("<!-- ask Tom\r\n\r\nWear a mask. --> b", "<!-- ask Tom\r\n\r\nWear a mask. --> b"),
            ("<!-- one -->\n\na\n\n<!-- two -->", "\n\na\n\n"),
        ] {
            assert_eq!(without_comments(text), shown, "{text}");
        }
    }
}
