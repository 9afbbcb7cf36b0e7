//! How the colours were predicted: the method in a painter's words, how far it was off, and what this guide's paints
//! rest on.

use serde::Serialize;

use crate::colour::Evidence;
use crate::draw;
use crate::guide::{Paint, Thing};
use crate::page::parts::frame::{Frame, Section};
use crate::page::parts::line::LinkView;
use crate::page::schemes::outlook::TrustView;
use crate::page::{Desk, Page, View};

/// Where the page stands.
pub(in crate::page) const PATH: &str = "colours.html";

/// How the colours were predicted.
#[derive(Debug, Serialize)]
pub struct ColoursView {
    /// The frame around it: head, navigation and foot.
    pub frame: Frame,
    /// What a prediction can rest on, the strongest first.
    pub levels: Vec<EvidenceView>,
    /// Paints that ought to have a colour and have none.
    pub unknown: Vec<LinkView>,
    /// What an author writes to make predictions better, as HTML.
    pub example: String,
}

/// One thing that a prediction can rest on.
#[derive(Debug, Serialize)]
pub struct EvidenceView {
    /// How far such predictions were off.
    pub trust: TrustView,
    /// The same for mixes of one paint with white, where it differs.
    pub with_white: Option<TrustView>,
    /// The paints of this guide that rest on it.
    pub paints: Vec<JudgedPaint>,
}

/// A paint of this guide.
#[derive(Debug, Serialize)]
pub struct JudgedPaint {
    /// The paint.
    pub link: LinkView,
    /// Whether a tint would tell much of it.
    pub wants_tint: bool,
}

/// What an author adds to a paint: brush-outs over black and white, and a tint with a known white.
const EXAMPLE: &str = "\
paints:
  bog-green:
    name: Bog Green
    kind: paint
    colour: \"#4d5a34\"
    hiding: opaque
    swatches:
      - {over: white, coats: 1, colour: \"#5f6c46\"}
      - {over: black, coats: 1, colour: \"#434e2e\"}
      - {with: warm-white, parts: 1, to: 4, colour: \"#a9b08c\"}
";

/// The page on predicted colours.
pub(in crate::page) fn page(desk: Desk<'_>) -> Page {
    let guide = &desk.worked.guide;
    let path = PATH.to_owned();
    let coloured = || guide.paints.iter().filter(|paint| paint.kind.has_colour());
    let level = |evidence: &Evidence| {
        let (all, white) = (evidence.uncertainty(false), evidence.uncertainty(true));
        EvidenceView {
            trust: TrustView::of_evidence(*evidence, all),
            with_white: (white != all).then(|| TrustView::of_evidence(*evidence, white)),
            paints: coloured().filter_map(|paint| judged(desk, paint, *evidence)).collect(),
        }
    };
    let unknown = coloured().filter(|paint| !desk.brush_outs.contains_key(&paint.id));
    let view = ColoursView {
        frame: Frame::new(guide, &path, Section::Paints, &guide.title, None),
        levels: Evidence::ALL.iter().rev().map(level).collect(),
        unknown: unknown.map(|paint| link(paint)).collect(),
        example: draw::code("yaml", EXAMPLE),
    };
    Page { path, view: View::Colours(view), must_show: Vec::new() }
}

fn judged(desk: Desk<'_>, paint: &Paint, evidence: Evidence) -> Option<JudgedPaint> {
    let brush_out = desk.brush_outs.get(&paint.id).filter(|brush_out| brush_out.evidence == evidence)?;
    Some(JudgedPaint { link: link(paint), wants_tint: brush_out.wants_tint })
}

fn link(paint: &Paint) -> LinkView {
    LinkView::to(PATH, &Thing::Paint(paint.id.clone()), &paint.name)
}
