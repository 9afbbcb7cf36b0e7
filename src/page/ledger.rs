//! Who uses what: gone through once for the whole guide, so that no page has to look through all schemes.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use crate::guide::{Paint, Scheme, Tag};
use crate::nearest::Rack;
use crate::trade::Stage;
use crate::work::{Worked, WorkedScheme, beside};

/// What several pages look up about the guide as a whole. Schemes and paints stand by their positions in its lists.
#[derive(Debug)]
pub struct Ledger {
    /// The stages that are used, in the trade's order.
    pub(super) stages: Vec<StageUsers>,
    /// The tags that are used, by their slugs.
    pub(super) tags: Vec<TagUsers>,
    /// The paints, laid out so that the nearest others are soon found.
    pub(super) rack: Rack,
    paint_users: BTreeMap<String, Vec<u32>>,
    /// The schemes with their versions, by the slugs of the schemes.
    versions: BTreeMap<String, Vec<u32>>,
    /// The schemes that use a sequence, by its slug.
    borrowers: BTreeMap<String, Vec<u32>>,
    paints: BTreeMap<String, u32>,
}

/// The schemes that have steps of a stage.
#[derive(Debug)]
pub struct StageUsers {
    /// The stage.
    pub(super) stage: Stage,
    /// The schemes.
    pub(super) schemes: Vec<u32>,
}

/// The schemes with a tag.
#[derive(Debug)]
pub struct TagUsers {
    /// The tag; one that is spelt in two ways is shown in the first one.
    pub(super) tag: Tag,
    /// The schemes.
    pub(super) schemes: Vec<u32>,
}

impl Ledger {
    /// Goes through a guide.
    pub fn of(worked: &Worked) -> Self {
        let guide = &worked.guide;
        Self {
            stages: stages(&guide.schemes),
            tags: tags(&guide.schemes),
            rack: Rack::of(&guide.paints),
            paint_users: paint_users(worked),
            versions: versions(&guide.schemes),
            borrowers: borrowers(&guide.schemes),
            paints: positions(guide.paints.iter().map(|paint| paint.id.as_str())),
        }
    }

    /// The schemes that use a paint, in a mix or beside it.
    pub(super) fn users(&self, paint: &str) -> &[u32] {
        self.paint_users.get(paint).map_or(&[], Vec::as_slice)
    }

    /// The same, as they were worked out.
    pub(super) fn painted_with<'a>(
        &'a self,
        worked: &'a Worked,
        paint: &str,
    ) -> impl Iterator<Item = &'a WorkedScheme> {
        self.users(paint).iter().filter_map(|at| worked.schemes.get(*at as usize)).map(AsRef::as_ref)
    }

    /// The scheme of a slug and its versions.
    pub(super) fn versions<'a>(&'a self, worked: &'a Worked, base: &str) -> impl Iterator<Item = &'a WorkedScheme> {
        let positions = self.versions.get(base).map_or(&[][..], Vec::as_slice);
        positions.iter().filter_map(|at| worked.schemes.get(*at as usize)).map(AsRef::as_ref)
    }

    /// The schemes that use a sequence; of a scheme and its versions the scheme.
    pub(super) fn borrowers<'a>(&'a self, worked: &'a Worked, sequence: &str) -> impl Iterator<Item = &'a Scheme> {
        at(worked, self.borrowers.get(sequence).map_or(&[], Vec::as_slice))
    }

    /// The paint of an id.
    pub(super) fn paint<'a>(&self, worked: &'a Worked, id: &str) -> Option<&'a Paint> {
        let at = *self.paints.get(id)?;
        worked.guide.paints.get(at as usize).map(AsRef::as_ref)
    }
}

/// The schemes at some positions of the guide's list.
pub(super) fn at<'a>(worked: &'a Worked, positions: &'a [u32]) -> impl Iterator<Item = &'a Scheme> {
    positions.iter().filter_map(|at| worked.guide.schemes.get(*at as usize)).map(AsRef::as_ref)
}

fn numbered<T>(all: &[T]) -> impl Iterator<Item = (u32, &T)> {
    (0..).zip(all)
}

fn positions<'a>(names: impl Iterator<Item = &'a str>) -> BTreeMap<String, u32> {
    names.map(str::to_owned).zip(0..).collect()
}

/// Notes a scheme once; schemes come in their order.
fn note(users: &mut Vec<u32>, scheme: u32) {
    if users.last() != Some(&scheme) {
        users.push(scheme);
    }
}

fn stages(schemes: &[Arc<Scheme>]) -> Vec<StageUsers> {
    let mut users: Vec<StageUsers> =
        Stage::ALL.iter().map(|stage| StageUsers { stage: *stage, schemes: Vec::new() }).collect();
    for (at, scheme) in numbered(schemes).filter(|(_, scheme)| scheme.version.is_none()) {
        for step in &scheme.steps {
            if let Some(of_stage) = users.iter_mut().find(|users| users.stage == step.stage) {
                note(&mut of_stage.schemes, at);
            }
        }
    }
    users.retain(|users| !users.schemes.is_empty());
    users
}

fn tags(schemes: &[Arc<Scheme>]) -> Vec<TagUsers> {
    let mut users: BTreeMap<&str, TagUsers> = BTreeMap::new();
    for (at, scheme) in numbered(schemes).filter(|(_, scheme)| scheme.version.is_none()) {
        for tag in &scheme.tags {
            let of_tag = users.entry(&tag.slug);
            let of_tag = of_tag.or_insert_with(|| TagUsers { tag: tag.clone(), schemes: Vec::new() });
            note(&mut of_tag.schemes, at);
        }
    }
    users.into_values().collect()
}

fn paint_users(worked: &Worked) -> BTreeMap<String, Vec<u32>> {
    let paints = |at: usize, scheme: &Scheme| {
        let mixed = scheme.steps.iter().flat_map(|step| &step.mix.parts).map(|part| &part.paint);
        let needs = worked.schemes.get(at).into_iter().flat_map(|worked| worked.needs.iter().flatten());
        let beside = needs.flat_map(beside).map(|(_, paint)| paint);
        mixed.chain(beside).map(|paint| paint.id.clone()).collect()
    };
    users(&worked.guide.schemes, paints)
}

fn borrowers(schemes: &[Arc<Scheme>]) -> BTreeMap<String, Vec<u32>> {
    let used = |_: usize, scheme: &Scheme| {
        scheme.steps.iter().filter_map(|step| Some(step.via.as_ref()?.sequence.clone())).collect()
    };
    users(schemes, used)
}

/// Who uses what; a version counts only for what the scheme itself does not use.
fn users(schemes: &[Arc<Scheme>], used: impl Fn(usize, &Scheme) -> Vec<String>) -> BTreeMap<String, Vec<u32>> {
    let mut users: BTreeMap<String, Vec<u32>> = BTreeMap::new();
    let mut of_base: BTreeMap<&str, BTreeSet<String>> = BTreeMap::new();
    let versioned = schemes.iter().any(|scheme| scheme.version.is_some());
    for (at, scheme) in schemes.iter().enumerate().filter(|(_, scheme)| versioned && scheme.version.is_none()) {
        of_base.insert(&scheme.slug, used(at, scheme).into_iter().collect());
    }
    for (at, scheme) in numbered(schemes) {
        let known = scheme.version.as_ref().and_then(|version| of_base.get(version.of.as_str()));
        for id in used(at as usize, scheme).into_iter().filter(|id| known.is_none_or(|known| !known.contains(id))) {
            note(users.entry(id).or_default(), at);
        }
    }
    users
}

fn versions(schemes: &[Arc<Scheme>]) -> BTreeMap<String, Vec<u32>> {
    let mut versions: BTreeMap<String, Vec<u32>> = BTreeMap::new();
    for (at, scheme) in numbered(schemes) {
        versions.entry(scheme.base().to_owned()).or_default().push(at);
    }
    versions
}
