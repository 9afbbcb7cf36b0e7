//! The versions of a scheme side by side: its variants with how far their colours are apart, and other ways through it.

use serde::Serialize;

use super::areas::{AreaView, areas};
use crate::colour::space;
use crate::guide::{Scheme, Thing};
use crate::page::Desk;
use crate::page::parts::line::LinkView;
use crate::theme::Words;
use crate::work::WorkedScheme;

/// A scheme beside its variants.
#[derive(Debug, Serialize)]
pub struct VersionsView {
    /// The scheme as it is and its variants, that of this page among them; none where there are no variants.
    pub looks: Vec<LookView>,
    /// Other ways to the look of this page: steps done by other means, or left out.
    pub ways: Vec<WayView>,
}

/// One of several looks.
#[derive(Debug, Serialize)]
pub struct LookView {
    /// What it is called, and its page.
    pub link: LinkView,
    /// Whether it is that of this page.
    pub here: bool,
    /// Its areas.
    pub areas: Vec<AreaView>,
    /// How far the faces of each area are from those of this page's: the area, and the predicted difference (CIEDE2000).
    pub apart: Vec<ApartView>,
}

/// How far an area is from that of another look.
#[derive(Debug, Serialize)]
pub struct ApartView {
    /// The area.
    pub area: String,
    /// The difference, no finer than whole numbers.
    pub difference: String,
}

/// Another way through a scheme.
#[derive(Debug, Serialize)]
pub struct WayView {
    /// What it is called, and its page.
    pub link: LinkView,
    /// Whether nothing is sprayed in it.
    pub brush_only: bool,
    /// Hands-on seconds for one model.
    pub hands_on: u32,
}

/// The versions beside a scheme, on its page at `path`; `None` where it is alone.
pub(in crate::page) fn versions(desk: Desk<'_>, worked: &WorkedScheme, path: &str) -> Option<VersionsView> {
    let all: Vec<&WorkedScheme> = desk.ledger.versions(desk.worked, worked.scheme.base()).collect();
    if all.len() < 2 {
        return None;
    }
    let (looks, ways): (Vec<&WorkedScheme>, Vec<&WorkedScheme>) = all.into_iter().partition(|one| one.scheme.is_look());
    let back = looks.iter().copied().filter(|_| !worked.scheme.is_look());
    let others: Vec<WayView> = back
        .chain(ways)
        .filter(|other| other.scheme.slug != worked.scheme.slug && other.scheme.variant() == worked.scheme.variant())
        .map(|other| way(other, path))
        .collect();
    let looks = if looks.len() > 1 { looks } else { Vec::new() };
    Some(VersionsView {
        looks: looks.into_iter().map(|other| look(desk.words, worked, other, path)).collect(),
        ways: others,
    })
}

/// A scheme painted with brushes alone: as it is where nothing is sprayed in it, or else its way that does without.
pub(in crate::page) fn by_brush<'a>(desk: Desk<'a>, base: &'a WorkedScheme) -> Option<&'a WorkedScheme> {
    if base.scheme.is_brush_only() {
        return Some(base);
    }
    let ways = || {
        let all = desk.ledger.versions(desk.worked, base.scheme.base());
        all.filter(|other| other.scheme.variant() == base.scheme.variant())
    };
    ways().find(|other| other.scheme.is_by_brush()).or_else(|| ways().find(|other| other.scheme.is_brush_only()))
}

/// Less than this between two colours is none.
const SEEN: f64 = 0.1;

fn look(words: &Words, here: &WorkedScheme, other: &WorkedScheme, path: &str) -> LookView {
    let is_here = here.scheme.slug == other.scheme.slug;
    let pairs = other.scheme.areas.iter().zip(here.tones.iter().zip(&other.tones));
    let apart = pairs.filter_map(|(area, (one, two))| {
        let difference = space::difference(one.faces?, two.faces?);
        // What is the same needs no figure.
        (difference >= SEEN).then(|| ApartView { area: area.title.clone(), difference: words.difference(difference) })
    });
    LookView {
        link: link(&other.scheme, path),
        here: is_here,
        areas: areas(other),
        apart: if is_here { Vec::new() } else { apart.collect() },
    }
}

fn way(worked: &WorkedScheme, path: &str) -> WayView {
    WayView {
        link: link(&worked.scheme, path),
        brush_only: worked.scheme.is_by_brush(),
        hands_on: worked.glance.hands_on.as_seconds(),
    }
}

fn link(scheme: &Scheme, path: &str) -> LinkView {
    let title = scheme.version.as_ref().map_or(&scheme.title, |version| &version.label);
    LinkView::to(path, &Thing::Scheme(scheme.slug.clone()), title)
}
