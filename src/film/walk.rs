//! Walking the steps: each lays its coat on the zones it reaches, and time passes.

use crate::bench::{Figure, Micrometres, Minutes};
use std::ops::Range;

use super::coat::{self, Coat, Opacity, What};
use super::cup::Cup;
use super::drying::{Drying, drying};
use super::turn::{Deed, Turn};
use super::view::View;
use super::{Conditions, Film, Laid, MaskSpan, Slot};
use crate::guide::{Scheme, Step};
use crate::trade::{Reach, Stage};

/// Walks the steps in an order; a position that no step has is passed over.
pub(super) fn walk<'s>(scheme: &'s Scheme, order: &[usize], conditions: &Conditions) -> Film<'s> {
    let areas = scheme.areas.len();
    let mut walk = Walk {
        film: Film {
            scheme,
            turns: Vec::with_capacity(order.len()),
            reached: Vec::with_capacity(order.len() * areas),
            coats: Vec::with_capacity(order.len()),
            stacks: vec![Vec::new(); areas * Slot::COUNT],
            masks: Vec::new(),
            appearance: std::sync::OnceLock::new(),
        },
        conditions,
        hands_free: Minutes::default(),
        ready: vec![Minutes::default(); areas],
    };
    for index in order {
        if let Some(step) = scheme.steps.get(*index) {
            walk.take(*index, step);
        }
    }
    walk.film
}

struct Walk<'s, 'c> {
    film: Film<'s>,
    conditions: &'c Conditions,
    hands_free: Minutes,
    ready: Vec<Minutes>,
}

/// A coat in the making: everything that does not depend on when it is laid.
#[derive(Clone, Copy)]
struct Mixed<'s> {
    cup: Cup<'s>,
    what: What,
    drying: Drying,
}

impl<'s> Walk<'s, '_> {
    fn take(&mut self, index: usize, step: &'s Step) {
        let position = self.film.turns.len();
        let start = self.film.reached.len();
        self.reach(step, position);
        let areas = start..self.film.reached.len();
        let mixed = Mixed::of(step, self.conditions);
        let deed = Deed::of(step, mixed.is_some());
        let recoat = mixed.map(|mixed| mixed.drying.recoat).unwrap_or_default();
        let (begins, ends) = self.pass_time(step, areas.clone(), recoat);
        let mixed = mixed.filter(|_| !areas.is_empty() && matches!(deed, Deed::Coat | Deed::Prepare(_)));
        let coat = mixed.map(|mixed| self.coat(mixed, step, (index, position), ends));
        self.dry(step, areas.clone(), ends, coat.as_ref());
        let coat = coat.map(|coat| self.lay(coat, areas.clone()));
        self.mask(deed, position, areas.clone());
        self.film.turns.push(Turn { step: index, begins, ends, deed, coat, areas });
    }

    /// Notes the areas that a step reaches: those it names, or all that no mask covers.
    fn reach(&mut self, step: &Step, position: usize) {
        if step.stage == Stage::Basing && step.places.areas == step.places.title {
            return;
        }
        let count = self.film.scheme.areas.len();
        let view = View::new(&self.film, position, Minutes::default());
        let spared = step.all_over && !matches!(step.stage, Stage::Mask | Stage::Unmask | Stage::Prepare);
        let named = || step.areas.iter().copied().filter(|area| *area < count);
        let open: Vec<usize> = named().filter(|area| !spared || view.mask(*area).is_none()).collect();
        if open.is_empty() {
            self.film.reached.extend(named());
        } else {
            self.film.reached.extend(open);
        }
    }

    /// When a step begins, and when its last coat has been laid.
    fn pass_time(&mut self, step: &Step, areas: Range<usize>, recoat: Minutes) -> (Minutes, Minutes) {
        let ready = self.film.reached.get(areas).unwrap_or_default().iter().filter_map(|area| self.ready.get(*area));
        let begins = ready.fold(self.hands_free, |latest, one| latest.max(*one));
        let usual = self.conditions.bench.get(Figure::HandsOn) * f64::from(step.coats);
        let hands_on = step.hands_on().map_or(Minutes(usual), Minutes::from);
        let between = step.wait.map_or(recoat, Minutes::from).times(f64::from(step.coats.saturating_sub(1)));
        self.hands_free = begins + hands_on;
        (begins, begins + hands_on + between)
    }

    fn coat(&self, mixed: Mixed<'s>, step: &Step, (index, position): (usize, usize), laid: Minutes) -> Coat<'s> {
        let Mixed { cup, what, drying } = mixed;
        let bench = &self.conditions.bench;
        let wet = coat::wet_film(step, what, &cup, bench) * f64::from(step.coats);
        let dry = if what == What::Decal { wet } else { wet * cup.solids };
        let optical = coat::optical(wet, &cup, step.technique, bench);
        let cover = coat::cover(optical, &cup);
        Coat {
            position,
            step: index,
            stage: step.stage,
            technique: step.technique,
            reach: step.reach,
            what,
            wet: Micrometres(wet),
            dry: Micrometres(dry),
            optical,
            cover,
            opacity: Opacity::of(cover, bench),
            laid,
            drying,
            cup,
        }
    }

    /// Until when the areas must rest before the next step on them.
    fn dry(&mut self, step: &Step, areas: Range<usize>, ends: Minutes, coat: Option<&Coat<'_>>) {
        let rest = step.dry.map(Minutes::from).or(coat.map(|coat| coat.drying.recoat)).unwrap_or_default();
        for area in self.film.reached.get(areas).unwrap_or_default() {
            if let Some(ready) = self.ready.get_mut(*area) {
                *ready = ready.max(ends + rest);
            }
        }
    }

    fn lay(&mut self, coat: Coat<'s>, areas: Range<usize>) -> usize {
        let at = self.film.coats.len();
        for area in self.film.reached.get(areas).unwrap_or_default() {
            let mut lay = |slot: Slot, share: f64| {
                if let Some(stack) = self.film.stacks.get_mut(slot.index(*area)) {
                    stack.push(Laid { coat: at, dry: Micrometres(coat.dry.0 * share) });
                }
            };
            if coat.what == What::Decal {
                lay(Slot::Decals, 1.0);
                continue;
            }
            if coat.reach == Reach::Spots {
                lay(Slot::Spots, 1.0);
            }
            for zone in coat.reach.zones() {
                lay(Slot::Zone(*zone), coat.share_in(*zone, &self.conditions.bench));
            }
        }
        self.film.coats.push(coat);
        at
    }

    fn mask(&mut self, deed: Deed, position: usize, areas: Range<usize>) {
        let areas = self.film.reached.get(areas).unwrap_or_default();
        if deed == Deed::Mask {
            self.film.masks.extend(areas.iter().map(|area| MaskSpan { area: *area, on: position, off: None }));
        }
        if deed == Deed::Unmask {
            let lying = self.film.masks.iter_mut().filter(|mask| mask.off.is_none() && areas.contains(&mask.area));
            lying.for_each(|mask| mask.off = Some(position));
        }
    }
}

impl<'s> Mixed<'s> {
    fn of(step: &'s Step, conditions: &Conditions) -> Option<Self> {
        let cup = Cup::of(step, &conditions.bench);
        let what = What::of(step, &cup)?;
        let drying = drying(step, cup.thinner, &conditions.bench, conditions.air);
        Some(Self { cup, what, drying })
    }
}
