//! The paints of a guide, laid out by sort and lightness, so that one finds the nearest without looking at all of them.

use std::cmp::Ordering;
use std::collections::BTreeMap;
use std::sync::Arc;

use super::apart::Look;
use super::looks::{self, sort};
use super::near::{FARTHEST, Near};
use super::wanted::{Wanted, is_same};
use crate::colour::Shelf;
use crate::guide::{Paint, Suits};
use crate::trade::{Kind, glue_sort};

/// Two colours of which the lightness differs by so much lie at least 1 apart in CIEDE2000.
///
/// Its weight of lightness, SL = 1 + 0.015 (L − 50)² / √(20 + (L − 50)²), is largest at the ends of the scale; what
/// chroma and hue add is never below zero, because the rotation term stays within ±2.
const LIGHTNESS_OF_ONE: f64 = 1.75;

/// The paints of a guide that can be bought and have a known colour, by sort and lightness; the others as they come.
#[derive(Debug)]
pub struct Rack {
    pub(super) shelf: Shelf,
    sorts: BTreeMap<Kind, Vec<Place>>,
    uncoloured: Vec<Arc<Paint>>,
}

/// A paint with the colour that it is known by.
#[derive(Debug, Clone)]
pub(super) struct Place {
    pub(super) look: Look,
    pub(super) paint: Arc<Paint>,
}

impl Rack {
    /// A rack of these paints. Those without a colour of their own are predicted from their swatches here.
    pub fn of(paints: &[Arc<Paint>]) -> Self {
        let shelf = Shelf::of(paints);
        let mut sorts: BTreeMap<Kind, Vec<Place>> = BTreeMap::new();
        let mut uncoloured = Vec::new();
        for paint in paints.iter().filter(|paint| !paint.discontinued) {
            if !paint.kind.has_colour() {
                uncoloured.push(Arc::clone(paint));
            } else if let Some(look) = look(&shelf, paint) {
                sorts.entry(sort(paint)).or_default().push(Place { look, paint: Arc::clone(paint) });
            }
        }
        for places in sorts.values_mut() {
            places.sort_by(|a, b| a.look.lab.l.total_cmp(&b.look.lab.l));
        }
        Self { shelf, sorts, uncoloured }
    }

    /// The colour that a paint of this guide is known by; `None` where it has none or nothing is said of it.
    pub fn look(&self, paint: &Paint) -> Option<Look> {
        look(&self.shelf, paint)
    }

    /// The paints that come nearest to what is looked for, the nearest first, at most `most` of them and none that is
    /// further off than [`FARTHEST`]. For a paint without colour those come that do the same work.
    ///
    /// Differences that show as the same figure (to a tenth) are ranked by carrier and sheen: alike comes first.
    pub fn nearest(&self, wanted: &Wanted<'_>, most: usize) -> Vec<Near> {
        self.nearest_of(wanted, most, |_| true)
    }

    /// What can be bought in the place of a paint: the nearest, and where all of these have another carrier, after them
    /// the nearest that has the same.
    pub fn substitutes(&self, wanted: &Wanted<'_>, most: usize) -> Vec<Near> {
        let mut found = self.nearest(wanted, most);
        let Some(paint) = wanted.paint else { return found };
        if found.iter().all(|near| near.paint.family != paint.family) {
            found.extend(self.nearest_of(wanted, 1, |other| other.family == paint.family));
        }
        found
    }

    fn nearest_of(&self, wanted: &Wanted<'_>, most: usize, fits: impl Fn(&Paint) -> bool) -> Vec<Near> {
        if let Some(paint) = wanted.paint.filter(|paint| !paint.kind.has_colour()) {
            return self.same_work(paint, most);
        }
        let Some(look) = wanted.look else { return Vec::new() };
        let places = self.places(wanted.sort);
        let fits = |other: &Paint| wanted.is_used_like(other) && fits(other);
        let mut best = Best { paint: wanted.paint, most, found: Vec::new() };
        let (darker, lighter) = places.split_at(places.partition_point(|place| place.look.lab.l < look.lab.l));
        best.walk(look, lighter.iter(), &fits);
        best.walk(look, darker.iter().rev(), &fits);
        best.found
    }

    /// All places of a sort, the dark ones first.
    pub(super) fn places(&self, sort: Kind) -> &[Place] {
        self.sorts.get(&sort).map_or(&[], Vec::as_slice)
    }

    /// Products without colour that do what this one does, those that shine alike first.
    fn same_work(&self, paint: &Paint, most: usize) -> Vec<Near> {
        let does = |other: &&Arc<Paint>| {
            other.kind == paint.kind
                && other.family == paint.family
                && !is_same(paint, other)
                && suits_all(&other.suits, &paint.suits)
                && (paint.kind != Kind::Glue || glues_alike(paint, other))
        };
        let mut found: Vec<&Arc<Paint>> = self.uncoloured.iter().filter(does).collect();
        found.sort_by_key(|other| other.sheen != paint.sheen);
        found.truncate(most);
        found.into_iter().map(|other| Near { paint: Arc::clone(other), apart: None }).collect()
    }
}

fn look(shelf: &Shelf, paint: &Paint) -> Option<Look> {
    looks::look(paint, shelf.surface(), || shelf.pigment(&paint.id))
}

/// Whether two glues are of one sort: white glue holds no joint that instant glue does.
fn glues_alike(one: &Paint, other: &Paint) -> bool {
    glue_sort(&one.name, &one.id) == glue_sort(&other.name, &other.id)
}

fn suits_all(own: &[Suits], wanted: &[Suits]) -> bool {
    wanted.iter().all(|suits| own.contains(suits))
}

/// The best so far.
struct Best<'a> {
    paint: Option<&'a Paint>,
    most: usize,
    found: Vec<Near>,
}

impl Best<'_> {
    /// Goes away from a lightness until no better one can come.
    fn walk<'p>(&mut self, look: Look, places: impl Iterator<Item = &'p Place>, fits: &impl Fn(&Paint) -> bool) {
        for place in places {
            if self.is_beyond((place.look.lab.l - look.lab.l).abs() / LIGHTNESS_OF_ONE) || self.is_full_of_likes() {
                return;
            }
            let apart = look.apart(&place.look);
            if apart.delta_e <= FARTHEST && fits(&place.paint) {
                self.offer(Near { paint: Arc::clone(&place.paint), apart: Some(apart) });
            }
        }
    }

    /// Whether whatever lies at least so far off ranks after all of a full list.
    fn is_beyond(&self, at_least: f64) -> bool {
        let last = self.found.last().and_then(Near::delta_e);
        at_least > FARTHEST || self.found.len() >= self.most && last.is_none_or(|last| at_least > last + 0.1)
    }

    /// Whether the list is full of paints that nobody can tell from the wanted one, in colour, carrier or sheen: a shelf of
    /// a thousand of them need not be gone through.
    fn is_full_of_likes(&self) -> bool {
        let is_like = |near: &Near| {
            near.delta_e().is_some_and(|delta_e| delta_e < 0.05)
                && self.paint.is_none_or(|paint| near.paint.family == paint.family && near.paint.sheen == paint.sheen)
        };
        self.found.len() >= self.most && self.found.last().is_none_or(is_like)
    }

    fn offer(&mut self, near: Near) {
        let at = self.found.partition_point(|known| self.rank(known, &near).is_lt());
        self.found.insert(at, near);
        self.found.truncate(self.most);
    }

    fn rank(&self, one: &Near, other: &Near) -> Ordering {
        let key = |near: &Near| {
            let tenths = near.delta_e().map(|delta_e| (delta_e * 10.0).round()).unwrap_or_default();
            let family = self.paint.is_some_and(|paint| near.paint.family != paint.family);
            (tenths, family, self.paint.is_some_and(|paint| near.paint.sheen != paint.sheen))
        };
        let ((a, carrier, shine), (b, other_carrier, other_shine)) = (key(one), key(other));
        a.total_cmp(&b)
            .then((carrier, shine).cmp(&(other_carrier, other_shine)))
            .then(one.delta_e().unwrap_or_default().total_cmp(&other.delta_e().unwrap_or_default()))
            .then_with(|| one.paint.id.cmp(&other.paint.id))
    }
}
