//! The index: a colour card of all schemes; in a very large guide of the first two hundred, and a list of the others.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::guide::{Scheme, Thing};
use crate::page::parts::address::{Address, relative};
use crate::page::parts::frame::{Frame, Section};
use crate::page::parts::line::LinkView;
use crate::page::parts::picture::PictureView;
use crate::page::parts::prose::{self, Company, Setting};
use crate::page::schemes::areas::{AreaView, areas};
use crate::page::schemes::drawn;
use crate::page::schemes::scheme::{GlanceView, tags};
use crate::page::schemes::versions;
use crate::page::{Desk, Page, View};
use crate::trade::{Skill, Technique};
use crate::work::WorkedScheme;

/// All schemes.
#[derive(Debug, Serialize)]
pub struct IndexView {
    /// The frame around it: head, navigation and foot.
    pub frame: Frame,
    /// What the guide is called.
    pub title: String,
    /// One sentence on it.
    pub summary: Option<String>,
    /// What the author says above the schemes, as HTML.
    pub welcome: String,
    /// How many schemes there are.
    pub count: usize,
    /// The schemes in their groups, as the author orders them.
    pub groups: Vec<GroupView>,
    /// The schemes that can be painted with brushes alone, each as its way that does so; empty where nothing is sprayed.
    pub by_brush: Vec<LinkView>,
    /// The armies.
    pub armies: Vec<LinkView>,
    /// The sequences.
    pub sequences: Vec<LinkView>,
    /// The list of stages, if any is used.
    pub stages: Option<String>,
    /// The list of tags, if any is used.
    pub tags: Option<String>,
    /// What the schemes can be narrowed down by, where there are enough of them.
    pub sieve: Option<SieveView>,
}

/// Schemes that stand together.
#[derive(Debug, Serialize)]
pub struct GroupView {
    /// Their group; of those in none a word for the others, where some are in groups.
    pub title: Option<String>,
    /// The schemes, as many as have cards.
    pub cards: Vec<SchemeCard>,
    /// The schemes that come when there are cards enough: a line each.
    pub lines: Vec<SchemeLine>,
}

/// Every word of the schemes that a reader can choose by, each once.
#[derive(Debug, Serialize)]
pub struct SieveView {
    /// Tags and techniques: what a card is known by, and what a reader sees.
    pub words: Vec<(String, String)>,
    /// The levels; words below `level`.
    pub levels: Vec<&'static str>,
}

/// Fewer schemes than this are looked over faster than filtered.
const FEWEST_SIEVED: usize = 8;

impl SieveView {
    fn of(desk: Desk<'_>) -> Option<Self> {
        // Versions have no card of their own.
        if bases(desk).count() < FEWEST_SIEVED {
            return None;
        }
        let words: BTreeMap<String, String> = bases(desk).flat_map(|worked| words(desk, worked)).collect();
        let has = |level: &&Skill| bases(desk).any(|worked| worked.scheme.level == Some(**level));
        Some(Self {
            words: words.into_iter().collect(),
            levels: Skill::ALL.iter().filter(has).map(|level| level.name()).collect(),
        })
    }
}

/// The tags of a scheme, the techniques of its steps, and whether brushes alone will do; a tag that is called like a technique
/// is the same word.
fn words(desk: Desk<'_>, worked: &WorkedScheme) -> BTreeMap<String, String> {
    let scheme = &worked.scheme;
    let by_brush = versions::by_brush(desk, worked).map(|_| desk.words.filled("versions.brush-only", &[]));
    let techniques = techniques(scheme.steps.iter().map(|step| step.technique));
    let techniques = techniques.into_iter().map(|name| desk.words.filled(&format!("technique.{name}"), &[]));
    let tags = scheme.tags.iter().map(|tag| tag.name.clone());
    tags.chain(techniques).chain(by_brush).map(|word| (word.to_lowercase(), word)).collect()
}

/// Each technique once, in the trade's order.
fn techniques(used: impl Iterator<Item = Technique>) -> Vec<&'static str> {
    let used: Vec<Technique> = used.collect();
    Technique::ALL.iter().filter(|technique| used.contains(technique)).map(|technique| technique.name()).collect()
}

/// So many schemes have cards on the index. Nobody looks through more, and a page of ten thousand cards is too much for a
/// telephone: all that follow are lines, to be narrowed down and found by their names.
const MOST_CARDS: usize = 200;

/// One scheme on the index that has no card.
#[derive(Debug, Serialize)]
pub struct SchemeLine {
    /// What it is called, and its page.
    pub link: LinkView,
    /// One sentence on how it looks.
    pub summary: Option<String>,
    /// How hard it is; a word below `level`.
    pub level: Option<&'static str>,
    /// Work on one model, in seconds.
    pub hands_on: u32,
    /// As of a card.
    pub words: String,
}

/// One scheme on the index.
#[derive(Debug, Serialize)]
pub struct SchemeCard {
    /// What it is called, and its page.
    pub link: LinkView,
    /// One sentence on how it looks.
    pub summary: Option<String>,
    /// The finished model.
    pub photo: Option<PictureView>,
    /// Its areas.
    pub areas: Vec<AreaView>,
    /// What it asks for.
    pub glance: GlanceView,
    /// Words to find it by.
    pub tags: Vec<LinkView>,
    /// Its variants.
    pub variants: Vec<LinkView>,
    /// The page of its way with brushes alone, where it sprays otherwise.
    pub by_brush: Option<String>,
    /// What it can be found by, a line each: tags and techniques in small letters.
    pub words: String,
}

/// The index page.
pub(in crate::page) fn page(desk: Desk<'_>) -> Page {
    let path = "index.html".to_owned();
    let guide = &desk.worked.guide;
    let has_steps = guide.schemes.iter().any(|scheme| !scheme.steps.is_empty());
    let has_tags = guide.schemes.iter().any(|scheme| !scheme.tags.is_empty());
    let setting = Setting { path: &path, level: 2, company: Company::Front };
    let view = IndexView {
        frame: Frame::new(guide, &path, Section::Schemes, &guide.title, guide.summary.as_deref()),
        title: guide.title.clone(),
        summary: guide.summary.clone(),
        welcome: guide.welcome.as_ref().map(|text| prose::html(desk, text, setting)).unwrap_or_default(),
        count: bases(desk).count(),
        groups: groups(desk, &path),
        by_brush: by_brush(desk, &path),
        sequences: guide
            .sequences
            .iter()
            .map(|one| LinkView::to(&path, &Thing::Sequence(one.slug.clone()), &one.title))
            .collect(),
        armies: guide
            .armies
            .iter()
            .map(|army| LinkView::to(&path, &Thing::Army(army.slug.clone()), &army.title))
            .collect(),
        stages: has_steps.then(|| "stages/index.html".to_owned()),
        tags: has_tags.then(|| "tags/index.html".to_owned()),
        sieve: SieveView::of(desk),
    };
    Page { path, view: View::Index(view), must_show: Vec::new() }
}

fn card(desk: Desk<'_>, worked: &WorkedScheme, path: &str) -> SchemeCard {
    let scheme = &worked.scheme;
    let href = relative(path, &Address::of(&Thing::Scheme(scheme.slug.clone())));
    SchemeCard {
        link: LinkView { title: scheme.title.clone(), href },
        summary: scheme.summary.clone(),
        photo: PictureView::of(desk, path, scheme.photo.as_ref()).or_else(|| drawn::finished(desk, worked, path)),
        areas: areas(worked),
        glance: GlanceView::of(worked, desk.words),
        tags: tags(scheme, path),
        variants: variants(desk, worked, path),
        by_brush: by_brush_of(desk, worked, path).filter(|_| !scheme.is_brush_only()).map(|link| link.href),
        words: found_by(desk, worked),
    }
}

fn line(desk: Desk<'_>, worked: &WorkedScheme, path: &str) -> SchemeLine {
    let scheme = &worked.scheme;
    SchemeLine {
        link: LinkView::to(path, &Thing::Scheme(scheme.slug.clone()), &scheme.title),
        summary: scheme.summary.clone(),
        level: scheme.level.map(Skill::name),
        hands_on: worked.glance.hands_on.as_seconds(),
        words: found_by(desk, worked),
    }
}

fn found_by(desk: Desk<'_>, worked: &WorkedScheme) -> String {
    words(desk, worked).into_keys().collect::<Vec<_>>().join("\n")
}

/// Everything that brushes alone can paint; nothing to choose by where nobody sprays.
fn by_brush(desk: Desk<'_>, path: &str) -> Vec<LinkView> {
    if bases(desk).all(|worked| worked.scheme.is_brush_only()) {
        return Vec::new();
    }
    bases(desk).filter_map(|worked| by_brush_of(desk, worked, path)).collect()
}

fn by_brush_of(desk: Desk<'_>, worked: &WorkedScheme, path: &str) -> Option<LinkView> {
    let way = versions::by_brush(desk, worked)?;
    Some(LinkView::to(path, &Thing::Scheme(way.scheme.slug.clone()), &worked.scheme.title))
}

/// The schemes as they are, without their versions.
fn bases(desk: Desk<'_>) -> impl Iterator<Item = &WorkedScheme> {
    desk.worked.schemes.iter().map(AsRef::as_ref).filter(|worked| worked.scheme.version.is_none())
}

fn variants(desk: Desk<'_>, worked: &WorkedScheme, path: &str) -> Vec<LinkView> {
    let all = desk.ledger.versions(desk.worked, &worked.scheme.slug).filter(|other| other.scheme.is_look());
    let named = all.filter_map(|other| Some((other, other.scheme.version.as_ref()?)));
    named
        .map(|(other, version)| LinkView::to(path, &Thing::Scheme(other.scheme.slug.clone()), &version.label))
        .collect()
}

/// The schemes in the author's groups and order: named groups as `groups` has them, then others by their names, then
/// what is in none; inside one by `order`, then by their folders.
fn groups(desk: Desk<'_>, path: &str) -> Vec<GroupView> {
    let known = &desk.worked.guide.groups;
    let rank = |group: &Option<String>| match group {
        Some(name) => known.iter().position(|known| known == name).unwrap_or(known.len()),
        None => usize::MAX,
    };
    let mut sorted: Vec<&WorkedScheme> = bases(desk).collect();
    sorted.sort_by_key(|worked| {
        let Scheme { group, order, slug, .. } = &*worked.scheme;
        (rank(group), group.clone(), order.unwrap_or(u32::MAX), slug.clone())
    });
    let some = sorted.iter().any(|worked| worked.scheme.group.is_some());
    let others = || some.then(|| desk.words.filled("index.more", &[]));
    let together = sorted.chunk_by(|a, b| a.scheme.group == b.scheme.group);
    let mut room = MOST_CARDS;
    let group = |schemes: &[&WorkedScheme]| {
        let (cards, lines) = schemes.split_at(room.min(schemes.len()));
        room -= cards.len();
        GroupView {
            title: schemes.first().and_then(|worked| worked.scheme.group.clone()).or_else(others),
            cards: cards.iter().map(|worked| card(desk, worked, path)).collect(),
            lines: lines.iter().map(|worked| line(desk, worked, path)).collect(),
        }
    };
    together.map(group).collect()
}
