//! Links and pictures inside Markdown: each finds its target, or a finding says why not.

use std::collections::BTreeSet;

use pulldown_cmark::{Event, LinkType, Tag, TagEnd};

use super::addresses::{HANDED_ON, scheme_of};
use super::context::Context;
use super::near_links::{self, PlainWords};
use super::{ResolveDesk, paints, photos};
use crate::guide::bounds::{self, Excess};
use crate::guide::library::Names;
use crate::guide::raw_html::{self, Piece};
use crate::guide::{Prose, Target, Thing, checks, headings, markdown, step_anchor};
use crate::measure::FromText;
use crate::report::{Finding, Place, Placed, wording};
use crate::source::WebAddress;
use crate::trade::Stage;

/// The body of a file with the targets of its links. One beyond measure is reported and left empty, for the pages that the
/// live view shows in spite of errors must be made in time as well.
pub(super) fn resolve(context: &Context<'_>, body_start: usize, desk: &mut ResolveDesk) -> Prose {
    let text = context.files.shared_text(context.file);
    let mut prose = Prose { file: context.file, text, start: body_start, targets: Vec::new() };
    if let Some((excess, range)) = bounds::excess(prose.markdown()) {
        let place = Place::new(context.file, body_start + range.start, body_start + range.end);
        desk.tell(beyond_measure(excess, place));
        prose.start = prose.text.len();
    }
    prose.targets = targets(context, &prose, desk);
    prose.targets.shrink_to_fit();
    prose
}

/// The text of a key with the targets of its links; what is wrong with one is reported at the key.
pub(super) fn resolve_text(context: &Context<'_>, text: &Placed<String>, desk: &mut ResolveDesk) -> Prose {
    let mut prose = Prose { file: context.file, text: text.value.as_str().into(), start: 0, targets: Vec::new() };
    let known = desk.findings.len();
    if let Some((excess, _)) = bounds::excess(prose.markdown()) {
        desk.tell(beyond_measure(excess, text.place));
        prose.start = prose.text.len();
    }
    prose.targets = targets(context, &prose, desk);
    for finding in desk.findings.iter_mut().skip(known) {
        finding.place = text.place;
    }
    prose
}

fn beyond_measure(excess: Excess, place: Place) -> Finding {
    let (message, mend) = match excess {
        Excess::Depth => (
            format!("this text has more than {} quotes, lists or other pieces inside each other", bounds::DEEPEST),
            "write it flat",
        ),
        Excess::Html => ("this text has too many tags of HTML for its length".to_owned(), "write it in Markdown"),
        Excess::Attributes => (
            format!("this text has a tag of HTML with more than {} attributes", bounds::MOST_ATTRIBUTES),
            "take out what it does not need",
        ),
    };
    Finding::new(&checks::TEXT_BOUNDS, place, message, mend)
}

fn targets(context: &Context<'_>, prose: &Prose, desk: &mut ResolveDesk) -> Vec<Target> {
    let mut targets = Vec::new();
    let mut picture: Option<(Place, String, bool)> = None;
    let mut block: Option<(usize, String)> = None;
    let mut words = PlainWords::default();
    for (event, range) in markdown::placed(prose.markdown()) {
        words.note(&event, &range);
        let place = Place::new(context.file, prose.start + range.start, prose.start + range.end);
        match event {
            Event::Start(Tag::Link { link_type, dest_url, .. }) => {
                let url =
                    if link_type == LinkType::Email { format!("mailto:{dest_url}") } else { dest_url.to_string() };
                targets.push(target(context, &url, place, desk));
            }
            Event::Start(Tag::Image { dest_url, .. }) => {
                let found = photos::find(context, &unescaped(&dest_url), place, desk);
                targets.push(found.map_or(Target::Nowhere, Target::File));
                picture = Some((place, dest_url.to_string(), false));
            }
            Event::Text(words) | Event::Code(words) if !words.trim().is_empty() => {
                if let Some((_, _, described)) = &mut picture {
                    *described = true;
                }
            }
            Event::End(TagEnd::Image) => {
                if let Some((place, path, false)) = picture.take() {
                    desk.tell(photos::without_words(place, &path, &format!("![What can be seen on it.]({path})")));
                }
            }
            Event::Start(Tag::HtmlBlock) if context.library.names.raw_html => {
                block = Some((range.start, String::new()));
            }
            Event::Html(html) => block.iter_mut().for_each(|(_, text)| text.push_str(&html)),
            Event::End(TagEnd::HtmlBlock) => {
                if let Some((start, html)) = block.take() {
                    targets.extend(raw_targets(context, &html, prose.start + start, desk));
                }
            }
            Event::InlineHtml(html) if context.library.names.raw_html => {
                targets.extend(raw_targets(context, &html, prose.start + range.start, desk));
            }
            _ => {}
        }
    }
    near_links::tell(context, prose, &words, desk);
    targets
}

/// Where the links and pictures of an author's HTML lead, which begins at a byte of the file.
fn raw_targets(context: &Context<'_>, html: &str, start: usize, desk: &mut ResolveDesk) -> Vec<Target> {
    let mut seen = 0;
    // The place of an address in the text; one that is written with entities is reported where its HTML begins.
    let mut place = |written: &str| {
        let found = html.get(seen..).and_then(|rest| rest.find(written)).filter(|_| !written.is_empty());
        let (from, to) = found.map_or((0, html.trim_end().len()), |at| (seen + at, seen + at + written.len()));
        seen = found.map_or(seen, |_| to);
        Place::new(context.file, start + from, start + to)
    };
    let mut targets = Vec::new();
    for piece in raw_html::pieces(html) {
        match piece {
            Piece::LeftOut(name) => desk.tell(left_out(&name, place(&format!("<{name}")))),
            Piece::Link(href, _) => targets.push(target(context, href.trim(), place(&href), desk)),
            Piece::Picture(src, alt) => {
                let place = place(&src);
                if alt.trim().is_empty() {
                    desk.tell(photos::without_words(place, &src, "alt=\"What can be seen on it.\""));
                }
                let found = photos::find(context, &unescaped(&src), place, desk);
                targets.push(found.map_or(Target::Nowhere, Target::File));
            }
            _ => {}
        }
    }
    targets
}

/// An element that would take in the text behind it.
fn left_out(name: &str, place: Place) -> Finding {
    let message = format!("<{name}> in a text is left out, with what is in it");
    Finding::new(&checks::HTML_LEFT_OUT, place, message, "write it in Markdown, or in the theme")
}

/// Spaces and other letters may be written as `%20` in Markdown's addresses.
fn unescaped(written: &str) -> String {
    percent_encoding::percent_decode_str(written).decode_utf8_lossy().into_owned()
}

fn target(context: &Context<'_>, url: &str, place: Place, desk: &mut ResolveDesk) -> Target {
    let found = match scheme_of(url) {
        Some("http" | "https") => outside(url),
        Some("mailto") => Ok(Target::Outside(wording::shown(url).into_owned())),
        Some(kind @ ("scheme" | "paint" | "page" | "army" | "sequence" | "stage" | "tag")) => {
            named(context, kind, &url[kind.len() + 1..], desk)
        }
        Some(other) => Err(Wrong::Unsafe(format!("{other}:"))),
        None => inside(context, &unescaped(url), desk),
    };
    found.unwrap_or_else(|wrong| {
        desk.tell(wrong.finding(place));
        Target::Nowhere
    })
}

fn can_be_handed_on(path: &str) -> bool {
    let ending = path.rsplit_once('.').map(|(_, ending)| ending.to_lowercase());
    ending.is_some_and(|ending| HANDED_ON.contains(&ending.as_str()))
}

/// Why a link leads nowhere.
enum Wrong {
    Unsafe(String),
    Dead(String, String),
    Anchor(String, String),
}

impl Wrong {
    fn finding(self, place: Place) -> Finding {
        match self {
            Self::Unsafe(kind) => {
                let message = format!("a link to {} is not published", wording::quoted(&kind));
                let mend = format!(
                    "link by https, by mailto, to a file of the guide, or to a file such as {}",
                    HANDED_ON.join(", ")
                );
                Finding::new(&checks::UNSAFE_LINK, place, message, mend)
            }
            Self::Dead(message, mend) => Finding::new(&checks::DEAD_LINK, place, message, mend),
            Self::Anchor(message, mend) => Finding::new(&checks::DEAD_ANCHOR, place, message, mend),
        }
    }
}

fn outside(url: &str) -> Result<Target, Wrong> {
    WebAddress::from_text(url).map(|address| Target::Outside(address.0)).map_err(|why| {
        Wrong::Dead(format!("{} is no web address: {why}", wording::quoted(url)), "write it again".to_owned())
    })
}

/// `paint:bog-iron`, `stage:glaze`: a thing by its kind and name.
fn named(context: &Context<'_>, kind: &str, rest: &str, desk: &mut ResolveDesk) -> Result<Target, Wrong> {
    let (name, anchor) = rest.split_once('#').map_or((rest, None), |(name, anchor)| (name, Some(anchor)));
    let names = &context.library.names;
    let known = match kind {
        "paint" => Some(&names.paints),
        "tag" => Some(&names.tags),
        "scheme" => Some(&names.schemes),
        "sequence" => Some(&names.sequences),
        "page" => Some(&names.pages),
        "army" => Some(&names.armies),
        _ => None,
    };
    // What is no stage is worth a long look for what may be meant: only where one is asked for.
    let stage = if known.is_none() { Stage::from_text(name).ok() } else { None };
    let is_known = known.map_or(stage.is_some(), |known| known.contains(name));
    if let Some(stage) = stage.filter(|stage| !names.stages.contains(stage)) {
        // What could not be read may be of that stage.
        return if names.all_stages { Err(unused_stage(stage, names)) } else { Ok(Target::Nowhere) };
    }
    let folder = match kind {
        "scheme" => format!("schemes/{name}"),
        "sequence" => format!("sequences/{name}"),
        "page" => format!("pages/{name}.md"),
        "army" => format!("armies/{name}.yaml"),
        _ => "paints".to_owned(),
    };
    if !is_known && names.is_unread(&folder) {
        return Ok(Target::Nowhere);
    }
    if !is_known {
        let what = if kind == "army" { "an army" } else { &format!("a {kind}") };
        let message = format!("there is no {kind} {}", wording::quoted(name));
        let mend = match known {
            Some(_) if kind == "paint" => paints::mend_of_unknown(name, context.library, desk),
            Some(known) => desk.did_you_mean(name, what, known.len(), known.iter().map(String::as_str)),
            None => wording::did_you_mean(name, what, Stage::NAMES),
        };
        return Err(Wrong::Dead(message, mend));
    }
    let own = name.to_owned();
    let thing = match kind {
        "paint" => Thing::Paint(own),
        "tag" => Thing::Tag(own),
        "scheme" => Thing::Scheme(own),
        "sequence" => Thing::Sequence(own),
        "page" => Thing::Page(own),
        "army" => Thing::Army(own),
        _ => Thing::Stage(stage.unwrap_or(Stage::Prepare)),
    };
    match anchor.map(unescaped) {
        Some(anchor) => at_anchor(context, thing, (&format!("{kind}:{name}"), &anchor), desk),
        None => Ok(Target::Thing(thing, None)),
    }
}

/// A heading on the page of a thing, by how that is written and by its anchor.
fn at_anchor(
    context: &Context<'_>,
    thing: Thing,
    (written, anchor): (&str, &str),
    desk: &mut ResolveDesk,
) -> Result<Target, Wrong> {
    let names = &context.library.names;
    let file = match &thing {
        Thing::Scheme(slug) => names.of_scheme(slug).map(|scheme| scheme.file.clone()).unwrap_or_default(),
        Thing::Sequence(slug) => format!("sequences/{slug}/sequence.md"),
        Thing::Page(slug) => format!("pages/{slug}.md"),
        _ => {
            let message = format!(
                "the page of {} has no headings, so none {}",
                wording::quoted(written),
                wording::quoted(anchor)
            );
            return Err(Wrong::Anchor(message, format!("write {}", wording::quoted(written))));
        }
    };
    if names.is_unread(&file) {
        return Ok(Target::Nowhere);
    }
    let anchor = anchor_of(context, &thing, &file, anchor, desk)?;
    Ok(Target::Thing(thing, Some(anchor)))
}

/// A stage without a page.
fn unused_stage(stage: Stage, names: &Names) -> Wrong {
    let message = format!("no step of this guide has the stage '{stage}', so that it has no page");
    let used = names.stages.iter().map(|stage| format!("stage:{stage}")).collect::<Vec<_>>();
    let mend = if used.is_empty() {
        "link to it when a step has it".to_owned()
    } else {
        format!("link to {}, or leave the words without a link", wording::either(&used))
    };
    Wrong::Dead(message, mend)
}

/// A path, an anchor, or both.
fn inside(context: &Context<'_>, url: &str, desk: &mut ResolveDesk) -> Result<Target, Wrong> {
    let (written, anchor) = url.split_once('#').map_or((url, None), |(path, anchor)| (path, Some(anchor)));
    if written.is_empty() {
        let anchor = anchor.unwrap_or_default();
        check_anchor(context, &context.own_path(), anchor, desk)?;
        return Ok(Target::Here(anchor.to_owned()));
    }
    let Some(path) = context.path_of(written) else {
        let message = format!("{} leads out of the content folder", wording::quoted(written));
        return Err(Wrong::Dead(message, "copy what it leads to into the content folder".to_owned()));
    };
    let known = context.library.names.known_path(&path);
    if let Some((known, thing)) = known.and_then(|known| Some((known, context.library.names.files.get(known)?))) {
        let anchor = anchor.map(|anchor| anchor_of(context, thing, known, anchor, desk)).transpose()?;
        let anchor = step_of_sequence(thing, known).or(anchor);
        return Ok(Target::Thing(thing.clone(), anchor));
    }
    if context.library.names.is_unread(&path) {
        return Ok(Target::Nowhere);
    }
    if context.library.names.others.contains(&path) {
        if !can_be_handed_on(&path) {
            return Err(Wrong::Unsafe(path));
        }
        desk.linked_files.insert(path.clone());
        return Ok(Target::File(path));
    }
    let names = &context.library.names;
    let known = names.files.keys().chain(&names.others).map(String::as_str);
    let mend = match desk.nearest(&path, names.files.len() + names.others.len(), known) {
        Some(near) => context.meant(&path, near),
        None => {
            "link to a file of the guide by its path from this file, or by 'paint:…', 'scheme:…', 'stage:…'".to_owned()
        }
    };
    Err(Wrong::Dead(format!("there is no {} in the content folder", wording::quoted(&path)), mend))
}

/// Where the step of a sequence stands on the sequence's page, if a file is one; the page has its line and not its text.
fn step_of_sequence(thing: &Thing, path: &str) -> Option<String> {
    let stem = path.rsplit('/').next()?.strip_suffix(".md")?;
    (matches!(thing, Thing::Sequence(_)) && stem != "sequence").then(|| step_anchor(stem))
}

/// What a heading of a thing's file is called in a link: on a scheme's page, which has the scheme's steps as well, by its name there.
fn anchor_of(
    context: &Context<'_>,
    thing: &Thing,
    file: &str,
    anchor: &str,
    desk: &mut ResolveDesk,
) -> Result<String, Wrong> {
    let Thing::Scheme(slug) = thing else {
        return check_anchor(context, file, anchor, desk).map(|()| anchor.to_owned());
    };
    let is_step = |name: &str| context.library.names.of_scheme(slug).is_some_and(|scheme| scheme.has_step(name));
    match check_anchor(context, file, anchor, desk) {
        Ok(()) => Ok(headings::of_scheme(anchor, is_step)),
        Err(_) if is_step(anchor) => Ok(anchor.to_owned()),
        Err(wrong) => Err(wrong),
    }
}

fn check_anchor(context: &Context<'_>, path: &str, anchor: &str, desk: &mut ResolveDesk) -> Result<(), Wrong> {
    let none = BTreeSet::new();
    let known = context.library.anchors(path, &mut desk.asked).unwrap_or(&none);
    if known.contains(anchor) {
        return Ok(());
    }
    let message = format!("there is no heading {} in {path}", wording::quoted(anchor));
    Err(Wrong::Anchor(message, desk.did_you_mean(anchor, "heading", known.len(), known.iter().map(String::as_str))))
}
