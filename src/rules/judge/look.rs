//! What a rule looks at: one step, and the film before and after it.

use crate::bench::{Figure, Minutes};
use crate::film::{Appearance, Coat, Conditions, Deed, Film, Next, Shown, View, touched};
use crate::guide::{Scheme, Step};
use crate::report::{Finding, wording};
use crate::rules::Surroundings;
use crate::trade::{Materials, Reach, Zone};

/// One step in its place, as a rule sees it.
#[derive(Debug, Clone, Copy)]
pub struct Look<'a> {
    /// What stands around the scheme.
    pub around: &'a Surroundings<'a>,
    /// The scheme.
    pub scheme: &'a Scheme,
    /// The figures and the air.
    pub conditions: &'a Conditions,
    /// The film of the whole scheme, also of what comes later.
    pub film: &'a Film<'a>,
    /// The place of the step in the order.
    pub position: usize,
    /// The step.
    pub step: &'a Step,
    /// The step by its place in the scheme's list.
    pub index: usize,
}

impl<'a> Look<'a> {
    pub(in crate::rules) fn at(
        around: &'a Surroundings<'a>,
        conditions: &'a Conditions,
        film: &'a Film<'a>,
        position: usize,
    ) -> Option<Self> {
        let step = film.step(position)?;
        let index = film.turn(position)?.step;
        Some(Self { around, scheme: film.scheme(), conditions, film, position, step, index })
    }

    /// What the model is made of, as far as its author's words are known.
    pub fn materials(&self) -> Materials {
        Materials::of(self.scheme.model.material.as_deref().unwrap_or_default())
    }

    /// The film when the step begins.
    pub fn before(&self) -> View<'a, 'a> {
        self.film.before(self.position)
    }

    /// How old a coat is when the step begins, for somebody who waits after each step what is written there: what another
    /// area dries for in the meantime is no wait of this one.
    pub fn age(&self, coat: &Coat<'_>) -> Minutes {
        self.before().age(coat).min(self.film.told_age(coat.position, self.position))
    }

    /// The film when its last coat has been laid.
    pub fn after(&self) -> View<'a, 'a> {
        self.film.after(self.position)
    }

    /// The coat that it lays, if it lays one.
    pub fn coat(&self) -> Option<&'a Coat<'a>> {
        self.film.coat(self.position)
    }

    /// The predicted colours of the film.
    pub fn appearance(&self) -> &'a Appearance {
        self.film.appearance(self.conditions)
    }

    /// What a zone shows when it begins, where it works on it.
    pub fn showed(&self, area: usize, zone: Zone) -> &'a Shown {
        match self.film.beside_mask(self.position, area, self.appearance()) {
            Some(patch) => self.appearance().before_on(self.position, area, zone, patch),
            None => self.appearance().before(self.position, area, zone),
        }
    }

    /// What a zone shows when its last coat has been laid, where it works on it.
    pub fn shows(&self, area: usize, zone: Zone) -> &'a Shown {
        match self.film.beside_mask(self.position, area, self.appearance()) {
            Some(patch) => self.appearance().after_on(self.position, area, zone, patch),
            None => self.appearance().after(self.position, area, zone),
        }
    }

    /// The areas that it reaches.
    pub fn areas(&self) -> &'a [usize] {
        self.film.areas(self.position)
    }

    /// The zones that it works on; spots and decals count as lying on the faces.
    pub fn zones(&self) -> &'static [Zone] {
        if self.step.reach == Reach::Spots { &[Zone::Faces] } else { self.step.reach.zones() }
    }

    /// On each area the first thing that `find` finds in the zones that the step works on.
    pub fn on_zones<T>(&self, find: impl Fn(usize, Zone) -> Option<T>) -> Vec<(usize, T)> {
        let on_area =
            |area: &usize| self.zones().iter().find_map(|zone| find(*area, *zone)).map(|found| (*area, found));
        self.areas().iter().filter_map(on_area).collect()
    }

    /// The zones that it touches, for waits and solvents.
    pub fn touched(&self) -> &'static [Zone] {
        let deed = self.film.turn(self.position).map_or(Deed::Nothing, |turn| turn.deed);
        touched(&Next { deed, coat: self.coat(), step: self.step })
    }

    /// What `find` finds on the areas and zones that the step works on, once for each step that it comes from, with the
    /// areas where it is that step's.
    pub fn by_step<T>(
        &self,
        find: impl Fn(usize, Zone) -> Option<T>,
        step: impl Fn(&T) -> usize,
    ) -> Vec<(T, Vec<usize>)> {
        self.by_step_in(self.zones(), find, step)
    }

    /// The same on the zones that are named.
    pub fn by_step_in<T>(
        &self,
        zones: &[Zone],
        find: impl Fn(usize, Zone) -> Option<T>,
        step: impl Fn(&T) -> usize,
    ) -> Vec<(T, Vec<usize>)> {
        let mut found: Vec<(T, Vec<usize>)> = Vec::new();
        for area in self.areas().iter().copied() {
            for one in zones.iter().filter_map(|zone| find(area, *zone)) {
                match found.iter_mut().find(|(known, _)| step(known) == step(&one)) {
                    Some((_, areas)) if areas.last() == Some(&area) => {}
                    Some((_, areas)) => areas.push(area),
                    None => found.push((one, vec![area])),
                }
            }
        }
        found
    }

    /// A step of the scheme, by its place in the list.
    pub fn step_at(&self, index: usize) -> &'a Step {
        self.scheme.steps.get(index).unwrap_or(self.step)
    }

    /// The title of a step, in quotes.
    pub fn title(&self, index: usize) -> String {
        wording::quoted(&self.step_at(index).title)
    }

    /// The title of this step, in quotes.
    pub fn own_title(&self) -> String {
        wording::quoted(&self.step.title)
    }

    /// The titles of areas, in quotes, as a list.
    pub fn area_titles(&self, areas: impl IntoIterator<Item = usize>) -> String {
        wording::listed(areas.into_iter().filter_map(|area| self.scheme.areas.get(area)).map(|area| &area.title))
    }

    /// A finding that also shows another step.
    pub fn see(&self, finding: Finding, index: usize, what: impl Into<String>) -> Finding {
        finding.see(self.step_at(index).places.title, what)
    }
}

impl Look<'_> {
    /// By how much the room slows or speeds a coat's drying.
    fn room_factor(&self, coat: &Coat<'_>) -> f64 {
        self.conditions.air.factor(coat.cup.family())
    }

    /// What a room makes of a label's time is a prediction, and not exact to the minute.
    fn forgiven(&self) -> f64 {
        self.conditions.bench.get(Figure::RoomForgiven)
    }

    /// Words behind a time that a coat needs, where the room makes it another than the label's: a label speaks of 20 °C.
    pub fn by_room(&self, coat: &Coat<'_>) -> String {
        let factor = self.room_factor(coat);
        if factor < 1.0 + self.forgiven() {
            return String::new();
        }
        format!(" (in the air of your 'room' it takes {factor:.1} times as long as at 20 °C and 50 % humidity)")
    }
}

/// How long something has rested, in words as an author writes them: `90 s`, `45 min`, `1 h 30 min`, `2 d`; rounded down.
pub(in crate::rules) fn rested(time: Minutes) -> String {
    let seconds = (time.0 * 60.0).floor();
    if (1.0..120.0).contains(&seconds) && seconds % 60.0 > 0.0 {
        return format!("{seconds} s");
    }
    spelled(time, f64::floor)
}

/// How long something must rest, rounded up, so that whoever writes it down has waited long enough.
pub(in crate::rules) fn needed(time: Minutes) -> String {
    spelled(time, f64::ceil)
}

fn spelled(time: Minutes, round: fn(f64) -> f64) -> String {
    let minutes = round(time.as_time().as_minutes());
    let minutes = if minutes >= 1440.0 { round(minutes / 60.0) * 60.0 } else { minutes };
    let days = if minutes >= 2880.0 { (minutes / 1440.0).floor() } else { 0.0 };
    let rest = minutes - days * 1440.0;
    let parts: Vec<String> = [(days, "d"), ((rest / 60.0).floor(), "h"), (rest % 60.0, "min")]
        .iter()
        .filter(|(count, _)| *count > 0.0)
        .map(|(count, unit)| format!("{count} {unit}"))
        .collect();
    if parts.is_empty() { "0 min".to_owned() } else { parts.join(" ") }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn times_are_spelled_as_authors_write_them() {
        for (minutes, past, wait) in [
            (0.0, "0 min", "0 min"),
            (1.5, "90 s", "2 min"),
            (45.2, "45 min", "46 min"),
            (90.0, "1 h 30 min", "1 h 30 min"),
            (1440.0, "24 h", "24 h"),
            (2868.0, "47 h", "2 d"),
            (3000.0, "2 d 2 h", "2 d 2 h"),
            (-5.0, "0 min", "0 min"),
        ] {
            assert_eq!((rested(Minutes(minutes)), needed(Minutes(minutes))), (past.to_owned(), wait.to_owned()));
        }
    }
}
