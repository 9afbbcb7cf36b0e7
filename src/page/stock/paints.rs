//! All paints by maker and range, and one page a paint with its figures and who uses it.

use serde::Serialize;

use super::hue;
use super::near::NearView;
use super::shopping::{BottleView, UseView, bottles, uses};
use crate::caution::CautionTexts;
use crate::draw;
use crate::guide::{Paint, Suits, Thing};
use crate::measure::Time;
use crate::nearest::{Near, Wanted};
use crate::page::parts::address::Address;
use crate::page::parts::frame::{Frame, Section};
use crate::page::parts::line::{LinkView, ProductView};
use crate::page::schemes::outlook::{HidesView, TrustView};
use crate::page::{Desk, Page, View};
use crate::quantity::Purpose;
use crate::trade::Kind;
use crate::work::{self, BrushOut, coats_on_card};

/// One to five coats of a paint, brushed out; nothing for what has no colour to show.
fn coats(desk: Desk<'_>, paint: &Paint) -> String {
    let coats = paint.kind.has_colour().then(|| coats_on_card(desk.worked, &paint.id)).flatten();
    coats.map(|coats| draw::coats_on_card(&coats)).unwrap_or_default()
}

/// All paints.
#[derive(Debug, Serialize)]
pub struct PaintsView {
    /// The frame around it: head, navigation and foot.
    pub frame: Frame,
    /// How many there are.
    pub count: usize,
    /// The kinds that there are; words below `kind`.
    pub kinds: Vec<&'static str>,
    /// The colours that there are; words below `drawer`.
    pub hues: Vec<&'static str>,
    /// The ranges, in the order of their files.
    pub ranges: Vec<RangeView>,
}

/// One range of a maker.
#[derive(Debug, Serialize)]
pub struct RangeView {
    /// Who makes it.
    pub maker: String,
    /// What it is called.
    pub range: String,
    /// Its paints.
    pub paints: Vec<PaintLine>,
}

/// One paint on the list.
#[derive(Debug, Serialize)]
pub struct PaintLine {
    /// The paint.
    pub product: ProductView,
    /// How well it covers; words below `hiding`. Only where it has a colour.
    pub hiding: Option<&'static str>,
    /// The colour that it is filed under; words below `drawer`. Only where it has one.
    pub hue: Option<&'static str>,
    /// In how many schemes it is used.
    pub schemes: usize,
}

/// One paint with its figures.
#[derive(Debug, Serialize)]
pub struct PaintView {
    /// The frame around it: head, navigation and foot.
    pub frame: Frame,
    /// The paint.
    pub product: ProductView,
    /// What carries it; words below `family`.
    pub family: &'static str,
    /// Its colour as `#rrggbb`, where it has one.
    pub colour: Option<String>,
    /// One to five coats of it on card, drawn; empty where its colour is not known.
    pub coats: String,
    /// Two coats of it on card, predicted, where its colour is known.
    pub card: Option<CardView>,
    /// The pigments that its maker prints.
    pub pigments: Vec<String>,
    /// How well it covers; words below `hiding`. Only where it has a colour.
    pub hiding: Option<&'static str>,
    /// How it shines; words below `sheen`. Only where it makes a film.
    pub sheen: Option<&'static str>,
    /// Seconds until it may be touched.
    pub touch_dry: Option<u32>,
    /// Seconds until it may be painted over.
    pub recoat: Option<u32>,
    /// Seconds until it is hard.
    pub cure: Option<u32>,
    /// The sizes it is sold in.
    pub bottles: Vec<BottleView>,
    /// The currency of the prices.
    pub currency: Option<String>,
    /// The only thinners that suit it.
    pub thin_with: Vec<LinkView>,
    /// For a thinner: the families it suits; words below `family`.
    pub suits_families: Vec<&'static str>,
    /// For a thinner: the paints it suits.
    pub suits_paints: Vec<LinkView>,
    /// For a paint that has left the market: what to buy in its place.
    pub substitute: Option<NearView>,
    /// Whether that one is a different colour.
    pub none_close: bool,
    /// The nearest others, the nearest first.
    pub nearest: Vec<NearView>,
    /// Statements from its data sheet.
    pub statements: Vec<StatementView>,
    /// Anything worth knowing.
    pub note: Option<String>,
    /// Who uses it.
    pub used_by: Vec<UsedByView>,
}

/// A paint on card, predicted.
#[derive(Debug, Serialize)]
pub struct CardView {
    /// Two coats over white, as `#rrggbb`.
    pub over_white: String,
    /// Of a one-coat paint, flooded over white: where it pools, and where it draws back.
    pub pooled: Option<[String; 2]>,
    /// Two coats over black.
    pub over_black: String,
    /// How many coats hide black and white.
    pub hides: HidesView,
    /// How far that may be off.
    pub trust: TrustView,
}

/// A statement from a data sheet.
#[derive(Debug, Serialize)]
pub struct StatementView {
    /// Its code.
    pub code: String,
    /// Its official text, in the guide's language where it is known in it.
    pub text: Option<String>,
    /// The tag of the language that the text is in.
    pub language: Option<&'static str>,
}

/// A scheme that uses a paint.
#[derive(Debug, Serialize)]
pub struct UsedByView {
    /// The scheme.
    pub scheme: LinkView,
    /// The steps with it in their mix.
    pub steps: Vec<UseView>,
    /// The steps after which it cleans the tool.
    pub cleans: Vec<UseView>,
    /// The steps in which it softens decals.
    pub softens: Vec<UseView>,
}

/// The page of all paints.
pub(in crate::page) fn index(desk: Desk<'_>) -> Page {
    let path = "paints/index.html".to_owned();
    let guide = &desk.worked.guide;
    let mut ranges: Vec<RangeView> = Vec::new();
    for paint in &guide.paints {
        let at = ranges.iter().position(|range| range.maker == paint.maker && range.range == paint.range);
        let at = at.unwrap_or_else(|| {
            ranges.push(RangeView { maker: paint.maker.clone(), range: paint.range.clone(), paints: Vec::new() });
            ranges.len() - 1
        });
        ranges[at].paints.push(PaintLine {
            product: ProductView::of(desk, &path, paint),
            hiding: hiding(paint),
            hue: paint.colour.filter(|_| paint.kind.has_colour()).map(hue::of),
            schemes: desk.ledger.users(&paint.id).len(),
        });
    }
    let is_there = |kind: Kind| guide.paints.iter().any(|paint| paint.kind == kind);
    let filed = |hue: &str| ranges.iter().flat_map(|range| &range.paints).any(|line| line.hue == Some(hue));
    let view = PaintsView {
        frame: Frame::new(guide, &path, Section::Paints, &guide.title, guide.summary.as_deref()),
        count: guide.paints.len(),
        kinds: Kind::ALL.iter().filter(|kind| is_there(**kind)).map(|kind| kind.name()).collect(),
        hues: hue::ALL.iter().filter(|hue| filed(hue)).copied().collect(),
        ranges,
    };
    Page { path, view: View::Paints(view), must_show: Vec::new() }
}

/// How many of the nearest others are shown.
const NEAREST: usize = 3;

/// The page of a paint.
pub(in crate::page) fn page(desk: Desk<'_>, paint: &Paint) -> Page {
    let guide = &desk.worked.guide;
    let path = Address::of(&Thing::Paint(paint.id.clone()));
    let named = |id: &String| {
        let known = desk.ledger.paint(desk.worked, id)?;
        Some(LinkView::to(&path, &Thing::Paint(id.clone()), &known.name))
    };
    let rack = &desk.ledger.rack;
    let found = rack.substitutes(&Wanted::in_place_of(paint, rack.look(paint)), NEAREST);
    let none_close = found.first().is_some_and(Near::is_different);
    let mut near = found.iter().map(|near| NearView::of(desk, &path, paint, near));
    let view = PaintView {
        frame: Frame::new(guide, &path, Section::Paints, &paint.name, None),
        product: ProductView::of(desk, &path, paint),
        family: paint.family.name(),
        coats: coats(desk, paint),
        card: desk.brush_outs.get(&paint.id).map(card),
        colour: paint.colour.map(|colour| colour.to_string()),
        pigments: paint.pigments.clone(),
        hiding: hiding(paint),
        sheen: paint.kind.makes_film().then(|| paint.sheen.name()),
        touch_dry: paint.touch_dry.map(Time::as_seconds),
        recoat: paint.recoat.map(Time::as_seconds),
        cure: paint.cure.map(Time::as_seconds),
        bottles: bottles(paint),
        currency: guide.currency.clone(),
        thin_with: paint.thin_with.iter().filter_map(named).collect(),
        suits_families: paint.suits.iter().filter_map(family_suited).collect(),
        suits_paints: paint.suits.iter().filter_map(paint_suited).filter_map(named).collect(),
        substitute: if paint.discontinued { near.next() } else { None },
        none_close,
        nearest: near.collect(),
        statements: statements(desk, paint),
        note: paint.note.clone(),
        used_by: used_by(desk, paint, &path),
    };
    Page { path, view: View::Paint(Box::new(view)), must_show: Vec::new() }
}

fn card(brush_out: &BrushOut) -> CardView {
    CardView {
        over_white: brush_out.over_white.to_string(),
        pooled: brush_out.pooled.map(|both| both.map(|colour| colour.to_string())),
        over_black: brush_out.over_black.to_string(),
        hides: HidesView::of(brush_out.hides_after),
        trust: TrustView::of_evidence(brush_out.evidence, brush_out.uncertainty),
    }
}

fn hiding(paint: &Paint) -> Option<&'static str> {
    paint.kind.has_colour().then(|| paint.hiding.name())
}

fn family_suited(suits: &Suits) -> Option<&'static str> {
    match suits {
        Suits::Family(family) => Some(family.name()),
        Suits::Paint(_) => None,
    }
}

fn paint_suited(suits: &Suits) -> Option<&String> {
    match suits {
        Suits::Family(_) => None,
        Suits::Paint(id) => Some(id),
    }
}

fn statements(desk: Desk<'_>, paint: &Paint) -> Vec<StatementView> {
    let texts = CautionTexts::of(&desk.worked.guide.language);
    let of = |code: &str| {
        let (text, language) = texts.statement(code)?;
        Some((text.into_owned(), language))
    };
    let codes = paint.hazards.iter().map(|code| (code.0.clone(), of(&code.0).unzip()));
    codes.map(|(code, (text, language))| StatementView { code, text, language }).collect()
}

fn used_by(desk: Desk<'_>, paint: &Paint, path: &str) -> Vec<UsedByView> {
    let schemes = desk.ledger.painted_with(desk.worked, &paint.id);
    schemes
        .map(|worked| {
            let scheme = &worked.scheme;
            let beside = |for_decals: bool| {
                uses(scheme, path, |at, _| {
                    let mut all = worked.needs.get(at).into_iter().flatten().flat_map(work::beside);
                    all.any(|(why, other)| other.id == paint.id && for_decals == (why == Purpose::DecalSoftening))
                })
            };
            UsedByView {
                scheme: LinkView::to(path, &Thing::Scheme(scheme.slug.clone()), &scheme.title),
                steps: uses(scheme, path, |_, step| step.mix.parts.iter().any(|part| part.paint.id == paint.id)),
                cleans: beside(false),
                softens: beside(true),
            }
        })
        .collect()
}
