//! From a card to a PDF: tagged (PDF/UA-1, ISO 14289-1), with its fonts cut down to the letters in use, and the
//! same bytes every time.

use krilla::color::rgb;
use krilla::configure::{Accessibility, ConfigurationBuilder};
use krilla::destination::XyzDestination;
use krilla::geom::{Path, PathBuilder, Point};
use krilla::metadata::{Metadata, TextDirection};
use krilla::num::NormalizedF32;
use krilla::outline::{Outline, OutlineNode};
use krilla::page::PageSettings;
use krilla::paint::{Fill, FillRule, Stroke};
use krilla::surface::Surface;
use krilla::tagging::{
    Artifact, ArtifactType, ContentTag, Identifier, ListNumbering, Node, SpanTag, Tag, TagGroup, TagKind, TagTree,
};
use krilla::text::{GlyphId, KrillaGlyph};
use krilla::{Document, SerializeSettings};

use super::fonts::Fonts;
use super::sheet::{At, Card, Mark, Meaning, Paint, Piece, Role, Run, Shape, What};
use crate::measure::Colour;

/// The name that every card carries as its maker.
const MAKER: &str = "Maulstick";

/// By what a card is known again: that it was made here stands in its list of facts, as a fact and not as a word.
pub(super) const MARK: &str = "/Creator(Maulstick)";

/// The marks that belong to each piece of the text.
type Leaves = Vec<Vec<Identifier>>;

/// Writes a card as a PDF.
///
/// # Errors
/// What keeps it from being a correct one, in words: a font that can't be cut down.
pub(super) fn write(card: &Card, fonts: &Fonts) -> Result<Vec<u8>, String> {
    let accessible = ConfigurationBuilder::new().with_accessibility_validator(Accessibility::UA1).finish();
    let configuration = accessible.map_err(|error| format!("{error:?}"))?;
    let settings = SerializeSettings { configuration, enable_tagging: true, ..SerializeSettings::default() };
    let mut document = Document::new_with(settings);
    let mut leaves: Leaves = vec![Vec::new(); card.outline.pieces.len()];
    let (width, height) = card.size;
    for sheet in &card.sheets {
        let size = PageSettings::from_wh(width, height).ok_or("a sheet without a size")?;
        let mut page = document.start_page_with(size);
        let mut surface = page.surface();
        for marks in sheet.chunk_by(|one, other| one.meaning == other.meaning) {
            draw(&mut surface, marks, fonts, &mut leaves);
        }
        surface.finish();
        page.finish();
    }
    document.set_tag_tree(tag_tree(card, &leaves));
    document.set_outline(contents(card));
    document.set_metadata(metadata(card));
    let mut bytes = document.finish().map_err(|error| format!("{error:?}"))?;
    quiet(&mut bytes);
    Ok(bytes)
}

/// Takes out a note that says nothing: no tag of a card is suspect. It is what a reader takes for granted, and some that
/// check a PDF report it all the same. Spaces stand in, so that everything keeps its place.
fn quiet(bytes: &mut [u8]) {
    const NOTE: &[u8] = b"/Suspects false";
    if let Some(at) = bytes.windows(NOTE.len()).rposition(|part| part == NOTE) {
        bytes[at..at + NOTE.len()].fill(b' ');
    }
}

fn metadata(card: &Card) -> Metadata {
    Metadata::new()
        .title(card.title.clone())
        .authors(vec![card.author.clone()])
        .language(card.language.clone())
        .creator(MAKER.to_owned())
        .document_id(format!("{}/{}", card.author, card.title))
        .text_direction(TextDirection::LeftToRight)
}

fn contents(card: &Card) -> Outline {
    let mut outline = Outline::new();
    let title = (card.title.clone(), 0, 0.0);
    for (text, sheet, y) in std::iter::once(&title).chain(&card.contents) {
        let sheet = (*sheet).min(card.sheets.len().saturating_sub(1));
        outline.push_child(OutlineNode::new(text.clone(), XyzDestination::new(sheet, Point::from_xy(0.0, *y))));
    }
    outline
}

/// Draws marks of one meaning.
fn draw(surface: &mut Surface<'_>, marks: &[Mark], fonts: &Fonts, leaves: &mut Leaves) {
    let Some(first) = marks.first() else { return };
    let artifact = |kind| ContentTag::Artifact(Artifact::with_kind(kind));
    match first.meaning {
        Meaning::Decoration => drop(surface.start_tagged(artifact(ArtifactType::Layout))),
        Meaning::Margin => drop(surface.start_tagged(artifact(ArtifactType::PaginationOther))),
        Meaning::Piece(piece) => {
            let is_shape = matches!(first.what, What::Shape(_));
            let tag = if is_shape { ContentTag::Other } else { ContentTag::Span(SpanTag::empty()) };
            let identifier = surface.start_tagged(tag);
            leaves.get_mut(piece).into_iter().for_each(|own| own.push(identifier));
        }
    }
    for mark in marks {
        match &mark.what {
            What::Text(run) => draw_text(surface, run, fonts),
            What::Shape(shape) => draw_shape(surface, shape),
        }
    }
    surface.end_tagged();
}

fn draw_text(surface: &mut Surface<'_>, run: &Run, fonts: &Fonts) {
    let Some(face) = fonts.faces.get(run.font) else { return };
    let glyphs: Vec<KrillaGlyph> = run
        .glyphs
        .iter()
        .map(|glyph| {
            let part = |length: f32| length / run.size;
            let (x, y) = glyph.moved;
            let id = GlyphId::new(glyph.id);
            KrillaGlyph::new(id, part(glyph.advance), part(x), part(y), 0.0, glyph.range.clone(), None)
        })
        .collect();
    surface.set_fill(Some(fill(run.colour)));
    surface.set_stroke(None);
    let start = Point::from_xy(run.at.0, run.at.1);
    surface.draw_glyphs(start, &glyphs, face.for_pdf.clone(), &run.text, run.size, false);
}

fn draw_shape(surface: &mut Surface<'_>, shape: &Shape) {
    let (filled, drawn, closed) = match shape.paint {
        Paint::Fill(colour) => (Some(fill(colour)), None, true),
        Paint::Outline(colour, width) => (None, Some(stroke(colour, width)), true),
        Paint::Line(colour, width) => (None, Some(stroke(colour, width)), false),
    };
    let Some(path) = path(&shape.outlines, closed) else { return };
    surface.set_fill(filled);
    surface.set_stroke(drawn);
    surface.draw_path(&path);
}

fn fill(colour: Colour) -> Fill {
    Fill { paint: paint(colour).into(), opacity: NormalizedF32::ONE, rule: FillRule::EvenOdd }
}

fn stroke(colour: Colour, width: f32) -> Stroke {
    Stroke { paint: paint(colour).into(), width, ..Stroke::default() }
}

fn paint(colour: Colour) -> rgb::Color {
    let [red, green, blue] = colour.0;
    rgb::Color::new(red, green, blue)
}

fn path(outlines: &[Vec<At>], closed: bool) -> Option<Path> {
    let mut path = PathBuilder::new();
    for outline in outlines {
        let Some(((x, y), rest)) = outline.split_first() else { continue };
        path.move_to(*x, *y);
        for (x, y) in rest {
            path.line_to(*x, *y);
        }
        if closed {
            path.close();
        }
    }
    path.finish()
}

/// The pieces of the text as a tree. Each stands behind the one that it is part of, so the tree grows from its end.
fn tag_tree(card: &Card, leaves: &Leaves) -> TagTree {
    let pieces = &card.outline.pieces;
    let mut children: Vec<Vec<Node>> = leaves.iter().map(|own| own.iter().copied().map(Node::from).collect()).collect();
    let mut tree: Vec<Node> = Vec::new();
    for (at, piece) in pieces.iter().enumerate().rev() {
        let mut own = children.pop().unwrap_or_default();
        if own.is_empty() {
            continue;
        }
        if leaves.get(at).is_none_or(Vec::is_empty) {
            // What other pieces have left here came in from the last to the first.
            own.reverse();
        }
        let node = Node::Group(TagGroup::with_children(tag(piece), own));
        match piece.inside.and_then(|outer| children.get_mut(outer)) {
            Some(outer) => outer.push(node),
            None => tree.push(node),
        }
    }
    tree.reverse();
    let mut root = TagTree::new().with_lang(Some(card.language.clone()));
    for node in tree {
        root.push(node);
    }
    root
}

fn tag(piece: &Piece) -> TagKind {
    const FIRST: std::num::NonZeroU16 = std::num::NonZeroU16::MIN;
    const SECOND: std::num::NonZeroU16 = FIRST.saturating_add(1);
    let mut tag: TagKind = match &piece.role {
        Role::Title(words) => Tag::Hn(FIRST, Some(words.clone())).into(),
        Role::Heading(words) => Tag::Hn(SECOND, Some(words.clone())).into(),
        Role::Part => Tag::Section.into(),
        Role::Paragraph => Tag::P.into(),
        Role::Numbered => Tag::L(ListNumbering::Decimal).into(),
        Role::List => Tag::L(ListNumbering::None).into(),
        Role::Entry => Tag::LI.into(),
        Role::Label => Tag::Lbl.into(),
        Role::Body => Tag::LBody.into(),
        Role::Figure(alt) => Tag::Figure(Some(alt.clone())).into(),
    };
    if let Some(language) = piece.language {
        tag.as_any_mut().set_lang(Some(language.to_owned()));
    }
    tag
}
