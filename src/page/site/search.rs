//! The search page: everything from A to Z for readers without script, and beside it the texts that the script
//! searches.
//!
//! The texts are files of script that hand over a list, because a browser lets no page opened by double click read
//! a file of data. They are loaded when a reader goes to the field, in parts of a size that a telephone takes well.

use std::collections::BTreeMap;

use pulldown_cmark::{Event, Tag as Mark, TagEnd};
use serde::Serialize;
use unicode_normalization::UnicodeNormalization;

use crate::caution::{self, CautionTexts};
use crate::guide::markdown::parser;
use crate::guide::{self, Army, Paint, Prose, Scheme, Step, Tag, Thing};
use crate::measure::Colour;
use crate::page::parts::address::Address;
use crate::page::parts::frame::{Frame, Section};
use crate::page::schemes::strip::left_behind;
use crate::page::schemes::versions;
use crate::page::{Desk, Page, View, relative};
use crate::trade::Stage;
use crate::work::WorkedScheme;

/// Where the page stands.
pub(in crate::page) const PATH: &str = "search.html";

/// The most letters in one part of the texts.
const PART: usize = 500_000;

/// The search page.
#[derive(Debug, Serialize)]
pub struct SearchView {
    /// The frame around it: head, navigation and foot.
    pub frame: Frame,
    /// Schemes, armies, products, tags and free pages, by their first letter.
    pub letters: Vec<LetterView>,
    /// The stages that are used.
    pub stages: Vec<Entry>,
    /// The files with the texts that the script searches.
    pub parts: Vec<String>,
}

/// Everything that begins with one letter.
#[derive(Debug, Serialize)]
pub struct LetterView {
    /// The letter.
    pub letter: String,
    /// What begins with it, sorted.
    pub entries: Vec<Entry>,
}

/// A part of the texts that are searched.
#[derive(Debug, Serialize)]
pub struct SearchDataView {
    /// Its entries.
    pub entries: Vec<Entry>,
    /// The sentence behind all cautions, which stands once before the steps that are found.
    pub closing: &'static str,
}

/// Something that can be found.
#[derive(Debug, Clone, Serialize)]
pub struct Entry {
    /// What it is; words below `search-kind`.
    pub kind: &'static str,
    /// Of a product what it is; words below `kind`.
    pub product: Option<&'static str>,
    /// What it is called; empty for a stage, which the theme has the word for.
    pub title: String,
    /// What it belongs to: a step's scheme, a paint's maker and range.
    pub place: String,
    /// The stage that it is or belongs to; words below `stage`.
    pub stage: Option<&'static str>,
    /// What to do before a step, as plain text; it comes before everything else that is said.
    pub first: String,
    /// What else it is looked for by, where that is not said on its page.
    pub ways: String,
    /// The page that it is found under: of a step its scheme, of a version the scheme itself.
    pub of: Option<String>,
    /// Everything else that is said about it.
    pub text: String,
    /// Its page, from the published folder.
    pub href: String,
    /// A small picture of a scheme, from the published folder.
    pub photo: Option<String>,
    /// The colour of a paint, the one that a step leaves behind, or the first of a scheme.
    pub colour: Option<String>,
}

/// Something that can be found, before its texts are put together.
#[derive(Debug, Clone, Copy)]
enum Find<'a> {
    Scheme(&'a WorkedScheme),
    Step(&'a WorkedScheme, usize, &'a CautionTexts),
    Paint(&'a Paint),
    Army(&'a Army),
    Page(&'a guide::Page),
    Sequence(&'a guide::Sequence),
    Tag(&'a Tag),
    Stage(Stage),
}

/// What a page has of some schemes.
#[derive(Debug)]
pub struct Excerpt<'a> {
    /// The schemes.
    pub schemes: Vec<&'a WorkedScheme>,
    /// With what of them it begins and ends, where it does not have all of each.
    pub ends: Vec<String>,
}

/// A part of the texts: its number from 0, and which of all that can be found is in it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TextsPart {
    at: usize,
    first: usize,
    count: usize,
}

impl TextsPart {
    /// Its path.
    pub(in crate::page) fn path(self) -> String {
        format!("data/search-{}.js", self.at + 1)
    }

    /// What is in it.
    fn finds(self, desk: Desk<'_>) -> impl Iterator<Item = Find<'_>> {
        finds(desk).skip(self.first).take(self.count)
    }

    /// What it has of some schemes; none, where it has something that all schemes have a part in, such as the tags.
    pub(in crate::page) fn excerpt(self, desk: Desk<'_>) -> Option<Excerpt<'_>> {
        let mut schemes: Vec<&WorkedScheme> = Vec::new();
        for find in self.finds(desk) {
            match find {
                Find::Scheme(worked) | Find::Step(worked, ..) => {
                    if !schemes.last().is_some_and(|last| std::ptr::eq(*last, worked)) {
                        schemes.push(worked);
                    }
                }
                Find::Army(_) | Find::Tag(_) | Find::Stage(_) => return None,
                Find::Paint(_) | Find::Page(_) | Find::Sequence(_) => {}
            }
        }
        // Where it begins and ends depends on how long the texts before it are. What is between the two follows from them.
        let ends = [self.finds(desk).next(), self.finds(desk).last()];
        Some(Excerpt { schemes, ends: ends.into_iter().flatten().map(Find::name).collect() })
    }
}

/// The parts of the texts.
pub(in crate::page) fn parts(desk: Desk<'_>) -> Vec<TextsPart> {
    let mut parts: Vec<TextsPart> = Vec::new();
    for (first, at) in cut(finds(desk).map(Find::size)).enumerate() {
        match parts.last_mut().filter(|part| part.at == at) {
            Some(part) => part.count += 1,
            None => parts.push(TextsPart { at, first, count: 1 }),
        }
    }
    parts
}

/// A part of the texts.
pub(in crate::page) fn part(desk: Desk<'_>, part: TextsPart) -> Page {
    let view = View::SearchData(SearchDataView {
        entries: part.finds(desk).map(|find| find.entry(desk)).collect(),
        closing: CautionTexts::of(&desk.worked.guide.language).closing(),
    });
    Page { path: part.path(), view, must_show: Vec::new() }
}

/// The search page.
pub(in crate::page) fn page(desk: Desk<'_>) -> Page {
    let guide = &desk.worked.guide;
    let stages = finds(desk).filter(|find| matches!(find, Find::Stage(_))).map(|find| find.entry(desk)).collect();
    // Steps are not on the list: they are under their schemes.
    let listed = finds(desk).filter(|find| !matches!(find, Find::Stage(_) | Find::Step(..)));
    let listed = listed.map(|find| Entry { text: String::new(), ..find.entry(desk) });
    let view = SearchView {
        frame: Frame::new(guide, PATH, Section::Search, &guide.title, None),
        letters: by_letter(listed.collect()),
        stages,
        parts: parts(desk).into_iter().map(TextsPart::path).collect(),
    };
    Page { path: PATH.to_owned(), view: View::Search(view), must_show: Vec::new() }
}

/// Everything that can be found.
fn finds(desk: Desk<'_>) -> impl Iterator<Item = Find<'_>> {
    let guide = &desk.worked.guide;
    let schemes = desk.worked.schemes.iter().map(|worked| Find::Scheme(worked));
    let sequences = guide.sequences.iter().map(Find::Sequence);
    let paints = guide.paints.iter().map(|paint| Find::Paint(paint));
    let tags = desk.ledger.tags.iter().map(|users| Find::Tag(&users.tag));
    let stages = desk.ledger.stages.iter().map(|users| Find::Stage(users.stage));
    let texts = CautionTexts::of(&guide.language);
    // Of a version the steps that set it apart: all others are in the scheme.
    let apart = |worked: &WorkedScheme, at: usize| {
        let scheme = &worked.scheme;
        scheme.version.as_ref().is_none_or(|version| version.ways.contains(&scheme.steps[at].stem))
    };
    let steps = desk.worked.schemes.iter().flat_map(move |worked| {
        let steps = (0..worked.scheme.steps.len()).filter(move |at| apart(worked, *at));
        steps.map(move |at| Find::Step(worked, at, texts))
    });
    schemes
        .chain(paints)
        .chain(sequences)
        .chain(guide.pages.iter().map(Find::Page))
        .chain(guide.armies.iter().map(Find::Army))
        .chain(tags)
        .chain(stages)
        .chain(steps)
}

/// The part that each entry is in, by their sizes; one that is longer than a part has one of its own.
fn cut(sizes: impl Iterator<Item = usize>) -> impl Iterator<Item = usize> {
    let (mut parts, mut room) = (0_usize, 0);
    sizes.map(move |size| {
        if size > room {
            parts += 1;
            room = PART;
        }
        room = room.saturating_sub(size);
        parts - 1
    })
}

impl Find<'_> {
    /// A name that nothing else that can be found has.
    fn name(self) -> String {
        match self {
            Self::Scheme(worked) => format!("scheme {}", worked.scheme.slug),
            Self::Step(worked, at, _) => format!("step {at} of {}", worked.scheme.slug),
            Self::Paint(paint) => format!("paint {}", paint.id),
            Self::Army(army) => format!("army {}", army.slug),
            Self::Page(page) => format!("page {}", page.slug),
            Self::Sequence(sequence) => format!("sequence {}", sequence.slug),
            Self::Tag(tag) => format!("tag {}", tag.slug),
            Self::Stage(stage) => format!("stage {}", stage.name()),
        }
    }

    /// About how many letters it is written in, without putting it together.
    fn size(self) -> usize {
        const ROUND: usize = 300;
        ROUND
            + match self {
                Self::Scheme(worked) => worked.scheme.intro.markdown().len(),
                Self::Step(worked, at, _) => worked.scheme.steps[at].body.markdown().len(),
                Self::Sequence(sequence) => sequence.intro.markdown().len(),
                Self::Page(page) => page.body.markdown().len(),
                Self::Paint(_) | Self::Army(_) | Self::Tag(_) | Self::Stage(_) => 0,
            }
    }

    fn entry(self, desk: Desk<'_>) -> Entry {
        let shown = |colour: Option<Colour>| colour.map(|colour| colour.to_string());
        match self {
            Self::Scheme(worked) => {
                let photo = worked.scheme.photo.as_ref().and_then(|photo| desk.pictures.copies(&photo.path).first());
                let colour = worked.tones.first().and_then(|tones| tones.faces);
                let photo = photo.map(|copy| relative("", &copy.path));
                Entry { photo, colour: shown(colour), ways: ways(desk, worked), ..of_scheme(&worked.scheme) }
            }
            Self::Step(worked, at, texts) => Entry {
                first: texts.to_do(&caution::to_do([&worked.step_cautions[at]])),
                colour: shown(left_behind(worked, at)),
                ..of_step(&worked.scheme, &worked.scheme.steps[at])
            },
            Self::Paint(paint) => Entry { colour: shown(paint.colour), ..of_paint(paint) },
            Self::Army(army) => {
                let units = army.units.iter().map(|unit| unit.scheme.title.as_str());
                let words: Vec<&str> = army.summary.as_deref().into_iter().chain(units).collect();
                entry("army", &army.title, &Thing::Army(army.slug.clone()), String::new(), words.join(" "))
            }
            Self::Page(page) => {
                let text = [page.summary.clone().unwrap_or_default(), plain(&page.body)].join(" ");
                entry("page", &page.title, &Thing::Page(page.slug.clone()), String::new(), text)
            }
            Self::Sequence(sequence) => {
                let text = [sequence.summary.clone().unwrap_or_default(), plain(&sequence.intro)].join(" ");
                let thing = Thing::Sequence(sequence.slug.clone());
                entry("sequence", &sequence.title, &thing, String::new(), text)
            }
            Self::Tag(tag) => entry("tag", &tag.name, &Thing::Tag(tag.slug.clone()), String::new(), String::new()),
            Self::Stage(stage) => Entry {
                stage: Some(stage.name()),
                ..entry("stage", "", &Thing::Stage(stage), String::new(), String::new())
            },
        }
    }
}

fn entry(kind: &'static str, title: &str, thing: &Thing, place: String, text: String) -> Entry {
    Entry {
        kind,
        product: None,
        title: title.to_owned(),
        place,
        stage: None,
        first: String::new(),
        ways: String::new(),
        of: None,
        text,
        href: relative("", &Address::of(thing)),
        photo: None,
        colour: None,
    }
}

/// Whoever has no airbrush looks for what does without, in words that no page uses.
fn ways(desk: Desk<'_>, worked: &WorkedScheme) -> String {
    let by_brush = worked.scheme.is_brush_only() || versions::by_brush(desk, worked).is_some();
    if by_brush { desk.words.filled("search.brush-only", &[]) } else { String::new() }
}

fn of_scheme(scheme: &Scheme) -> Entry {
    let tags = scheme.tags.iter().map(|tag| tag.name.as_str());
    let areas = scheme.areas.iter().map(|area| area.title.as_str());
    let model = scheme.model.name.iter().chain(&scheme.model.material).map(String::as_str);
    let words: Vec<&str> = scheme.summary.as_deref().into_iter().chain(model).chain(tags).chain(areas).collect();
    let text = format!("{} {}", words.join(" "), plain(&scheme.intro));
    let of = scheme.version.as_ref().map(|version| scheme_page(&version.of));
    Entry { of, ..entry("scheme", &scheme.title, &Thing::Scheme(scheme.slug.clone()), String::new(), text) }
}

fn scheme_page(slug: &str) -> String {
    relative("", &Address::of(&Thing::Scheme(slug.to_owned())))
}

fn of_step(scheme: &Scheme, step: &Step) -> Entry {
    let areas = step.areas.iter().filter_map(|area| scheme.areas.get(*area)).map(|area| area.title.as_str());
    let paints = step.mix.parts.iter().map(|part| part.paint.name.as_str());
    let tools = step.tools.iter().map(|tool| tool.name.as_str());
    let words: Vec<&str> = areas.chain(paints).chain(tools).collect();
    let text = format!("{} {}", plain(&step.body), words.join(" "));
    let thing = Thing::Step(scheme.slug.clone(), step.stem.clone());
    let of = Some(scheme_page(&scheme.slug));
    Entry { stage: Some(step.stage.name()), of, ..entry("step", &step.title, &thing, scheme.title.clone(), text) }
}

fn of_paint(paint: &Paint) -> Entry {
    let place = format!("{} · {}", paint.maker, paint.range);
    let text: Vec<&str> = paint.code.iter().chain(&paint.note).map(String::as_str).collect();
    let product = Some(paint.kind.name());
    Entry { product, ..entry("paint", &paint.name, &Thing::Paint(paint.id.clone()), place, text.join(" ")) }
}

/// The words of a text, without its marks and without what describes its pictures.
pub(in crate::page) fn plain(prose: &Prose) -> String {
    words_of(prose.markdown())
}

fn words_of(markdown: &str) -> String {
    let mut text = String::new();
    let mut pictures = 0_usize;
    let mut is_behind_picture = false;
    for event in parser(markdown) {
        let was_behind_picture = std::mem::take(&mut is_behind_picture);
        match event {
            Event::Start(Mark::Image { .. }) => pictures += 1,
            Event::End(TagEnd::Image) => {
                pictures = pictures.saturating_sub(1);
                is_behind_picture = true;
            }
            _ if pictures > 0 => {}
            Event::Text(words) => {
                // Where a picture stood before a full stop, the space before it is left. Any other is as it was written.
                let is_left = words.starts_with(' ') || was_behind_picture && ends_words(&words);
                if is_left && text.ends_with(' ') {
                    text.pop();
                }
                text.push_str(&words);
            }
            Event::Code(words) => text.push_str(&words),
            // A picture may be the words of a link.
            Event::End(end) if is_inline(end) => is_behind_picture = was_behind_picture,
            Event::SoftBreak | Event::HardBreak | Event::End(_) if !text.ends_with(' ') => text.push(' '),
            _ => {}
        }
    }
    text
}

/// Whether a text begins with a sign that ends the words before it: what follows one without a space is a figure or a name.
fn ends_words(text: &str) -> bool {
    let rest = text.trim_start_matches(['.', ',', ';', ':', '!', '?']);
    rest.len() < text.len() && !rest.starts_with(char::is_alphanumeric)
}

/// Whether what ends is a part of a line.
fn is_inline(end: TagEnd) -> bool {
    matches!(end, TagEnd::Emphasis | TagEnd::Strong | TagEnd::Strikethrough | TagEnd::Link)
}

/// Capitals and accents do not count where things are sorted.
fn folded(text: &str) -> String {
    text.nfkd()
        .filter(|letter| !unicode_normalization::char::is_combining_mark(*letter))
        .collect::<String>()
        .to_lowercase()
}

fn by_letter(mut entries: Vec<Entry>) -> Vec<LetterView> {
    entries.sort_by_cached_key(|entry| (folded(&entry.title), entry.href.clone()));
    let mut letters: BTreeMap<String, Vec<Entry>> = BTreeMap::new();
    for entry in entries {
        let first = folded(&entry.title).chars().find(|letter| letter.is_alphanumeric());
        let letter = match first {
            Some(letter) if letter.is_numeric() => "0–9".to_owned(),
            Some(letter) => letter.to_uppercase().collect(),
            None => "…".to_owned(),
        };
        letters.entry(letter).or_default().push(entry);
    }
    letters.into_iter().map(|(letter, entries)| LetterView { letter, entries }).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_have_a_space_between_blocks_and_none_before_a_full_stop() {
        for (text, words) in [
            ("As on [the *ground*](a.md). `Thin` it", "As on the ground. Thin it "),
            ("As on the ground ![A coat](a.png). Then", "As on the ground. Then "),
            ("Look ![A coat](a.png) there", "Look there "),
            ("As on ![A coat](a.png), ![B](b.png)! Then", "As on,! Then "),
            ("As on [![A coat](a.png)](b.md). Then", "As on. Then "),
            (
                "Set it to `.5` bar, or .5. See the `.md` files \\!important.",
                "Set it to .5 bar, or .5. See the .md files !important. ",
            ),
            ("Set ![it](a.png) to *.5* bar,\n.7 at most", "Set to .5 bar, .7 at most "),
            ("Set it ![so](a.png).5", "Set it .5 "),
            ("# Head\n\n- one\n- two\nlines", "Head one two lines "),
        ] {
            assert_eq!(words_of(text), words, "{text}");
        }
    }

    fn named(title: &str) -> Entry {
        entry("page", title, &Thing::Page("a".to_owned()), String::new(), String::new())
    }

    #[test]
    fn accents_and_capitals_do_not_part_what_belongs_together() {
        let letters = by_letter(vec![named("Zinc"), named("Éclat"), named("earth"), named("3 greys")]);
        let shown: Vec<(&str, usize)> = letters.iter().map(|one| (one.letter.as_str(), one.entries.len())).collect();
        assert_eq!(shown, [("0–9", 1), ("E", 2), ("Z", 1)]);
        assert_eq!(letters[1].entries[0].title, "earth");
    }

    #[test]
    fn a_large_guide_is_searched_in_parts() {
        let parts: Vec<usize> = cut([300_000, 100_000, 200_000, 900_000, 1].into_iter()).collect();
        assert_eq!(parts, [0, 0, 1, 2, 3]);
    }
}
