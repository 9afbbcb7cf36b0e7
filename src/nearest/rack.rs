//! The paints of a guide, laid out by sort and lightness, so that one finds the nearest without looking at all of them.

use std::cmp::Ordering;
use std::collections::BTreeMap;
use std::sync::Arc;

use super::looks::{self, hides_alike, sort};
use super::near::Near;
use crate::colour::Shelf;
use crate::colour::space::{self, Lab};
use crate::guide::{Paint, Suits};
use crate::trade::Kind;

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
    pub(super) look: Lab,
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
            places.sort_by(|a, b| a.look.l.total_cmp(&b.look.l));
        }
        Self { shelf, sorts, uncoloured }
    }

    /// The colour that a paint of this guide is known by; `None` where it has none or nothing is said of it.
    pub fn look(&self, paint: &Paint) -> Option<Lab> {
        look(&self.shelf, paint)
    }

    /// The paints that come nearest to one of that look, the nearest first, at most `most` of them. For a paint without
    /// colour, `look` is `None`, and those come that do the same work.
    ///
    /// Differences that show as the same figure (to a tenth) are ranked by carrier and sheen: alike comes first.
    pub fn nearest(&self, paint: &Paint, look: Option<Lab>, most: usize) -> Vec<Near> {
        self.nearest_of(paint, look, most, |_| true)
    }

    /// What can be bought in the place of a paint: the nearest, and where all of these have another carrier, after them
    /// the nearest that has the same.
    pub fn substitutes(&self, paint: &Paint, look: Option<Lab>, most: usize) -> Vec<Near> {
        let mut found = self.nearest(paint, look, most);
        if found.iter().all(|near| near.paint.family != paint.family) {
            found.extend(self.nearest_of(paint, look, 1, |other| other.family == paint.family));
        }
        found
    }

    fn nearest_of(&self, paint: &Paint, look: Option<Lab>, most: usize, fits: impl Fn(&Paint) -> bool) -> Vec<Near> {
        if !paint.kind.has_colour() {
            return self.same_work(paint, most);
        }
        let (Some(look), Some(places)) = (look, self.sorts.get(&sort(paint))) else { return Vec::new() };
        let fits = |other: &Paint| hides_alike(paint.hiding, other.hiding) && !is_same(paint, other) && fits(other);
        let mut best = Best { paint, most, found: Vec::new() };
        let (darker, lighter) = places.split_at(places.partition_point(|place| place.look.l < look.l));
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
        };
        let mut found: Vec<&Arc<Paint>> = self.uncoloured.iter().filter(does).collect();
        found.sort_by_key(|other| other.sheen != paint.sheen);
        found.truncate(most);
        found.into_iter().map(|other| Near { paint: Arc::clone(other), delta_e: None }).collect()
    }
}

fn look(shelf: &Shelf, paint: &Paint) -> Option<Lab> {
    looks::look(paint, shelf.surface(), || shelf.pigment(&paint.id))
}

/// Whether two entries are one product; two guides may have it each.
pub(super) fn is_same(one: &Paint, other: &Paint) -> bool {
    one.id == other.id && one.maker == other.maker && one.range == other.range
}

fn suits_all(own: &[Suits], wanted: &[Suits]) -> bool {
    wanted.iter().all(|suits| own.contains(suits))
}

/// The best so far.
struct Best<'a> {
    paint: &'a Paint,
    most: usize,
    found: Vec<Near>,
}

impl Best<'_> {
    /// Goes away from a lightness until no better one can come.
    fn walk<'p>(&mut self, look: Lab, places: impl Iterator<Item = &'p Place>, fits: &impl Fn(&Paint) -> bool) {
        for place in places {
            if self.is_beyond((place.look.l - look.l).abs() / LIGHTNESS_OF_ONE) || self.is_full_of_likes() {
                return;
            }
            if fits(&place.paint) {
                self.offer(Near {
                    paint: Arc::clone(&place.paint),
                    delta_e: Some(space::lab_difference(look, place.look)),
                });
            }
        }
    }

    /// Whether whatever lies at least so far off ranks after all of a full list.
    fn is_beyond(&self, at_least: f64) -> bool {
        let last = self.found.last().and_then(|near| near.delta_e);
        self.found.len() >= self.most && last.is_none_or(|last| at_least > last + 0.1)
    }

    /// Whether the list is full of paints that nobody can tell from the wanted one, in colour, carrier or sheen: a shelf of
    /// a thousand of them need not be gone through.
    fn is_full_of_likes(&self) -> bool {
        let is_like = |near: &Near| {
            near.delta_e.is_some_and(|delta_e| delta_e < 0.05)
                && near.paint.family == self.paint.family
                && near.paint.sheen == self.paint.sheen
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
            let tenths = near.delta_e.map(|delta_e| (delta_e * 10.0).round()).unwrap_or_default();
            (tenths, near.paint.family != self.paint.family, near.paint.sheen != self.paint.sheen)
        };
        let ((a, carrier, shine), (b, other_carrier, other_shine)) = (key(one), key(other));
        a.total_cmp(&b)
            .then((carrier, shine).cmp(&(other_carrier, other_shine)))
            .then(one.delta_e.unwrap_or_default().total_cmp(&other.delta_e.unwrap_or_default()))
            .then_with(|| one.paint.id.cmp(&other.paint.id))
    }
}
