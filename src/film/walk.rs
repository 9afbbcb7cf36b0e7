//! Walking the steps: each lays its coat on the zones it reaches, and time passes.

use crate::bench::{Micrometres, Minutes};
use std::ops::Range;

use super::clock::{self, Last};
use super::coat::{self, Coat};
use super::conditions::Conditions;
use super::cup::Cup;
use super::drying::{drying, open_time};
use super::history::{Film, Laid, Link, MaskSpan, Slot};
use super::needs::Next;
use super::turn::{self, Deed, Preparation, Turn, Wait};
use super::view::View;
use super::what::{Opacity, What};
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
            links: Vec::new(),
            stacks: vec![Vec::new(); areas * Slot::COUNT],
            masks: Vec::new(),
            on_base: Vec::new(),
            appearance: std::sync::OnceLock::new(),
            told: std::sync::OnceLock::new(),
        },
        conditions,
        hands_free: Minutes::default(),
        last: vec![Last::default(); areas],
        base: None,
        over_base: None,
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
    /// The last steps on each area.
    last: Vec<Last>,
    /// The last step on the base that is beside the model, with what it laid there.
    base: Option<(usize, Option<Coat<'s>>)>,
    /// The last coat that went over everything, and so over the base too.
    over_base: Option<(usize, Coat<'s>)>,
}

impl<'s> Walk<'s, '_> {
    fn take(&mut self, index: usize, step: &'s Step) {
        let position = self.film.turns.len();
        let start = self.film.reached.len();
        self.reach(step, position);
        let areas = start..self.film.reached.len();
        let mut coat = self.coat(step, (index, position));
        let deed = Deed::of(step, coat.is_some());
        coat = coat.filter(|_| matches!(deed, Deed::Coat | Deed::Prepare(_) | Deed::Assemble));
        let sets =
            coat.as_ref().map(|coat| coat.drying.recoat).or_else(|| turn::glue_sets(step, &self.conditions.bench));
        let links = self.wait_for(Next { deed, coat: coat.as_ref(), step }, areas.clone());
        let wait = Wait::of(self.film.scheme, step, coat.as_ref(), &self.conditions.bench);
        let (begins, ends) = self.pass_time(step, wait, links.clone());
        if let Some(coat) = &mut coat {
            coat.laid = ends;
        }
        self.note(step, position, deed, areas.clone(), coat.as_ref());
        let coat = coat.filter(|_| !areas.is_empty()).map(|coat| self.lay(coat, areas.clone()));
        self.mask(step, deed, position, areas.clone());
        self.film.turns.push(Turn { step: index, begins, ends, deed, wait, sets, coat, areas, links });
    }

    /// Notes which earlier steps a step waits for: one link for each, the longest wait.
    fn wait_for(&mut self, next: Next<'_, 's>, areas: Range<usize>) -> Range<usize> {
        let (film, bench) = (&self.film, &self.conditions.bench);
        let reached = film.reached.get(areas).unwrap_or_default();
        let mut links: Vec<Link> = Vec::new();
        // What it shuts in can't be worked on afterwards: all of that comes before it, and dries in the open.
        for area in reached.iter().chain(next.step.hides.iter().filter(|area| !reached.contains(*area))) {
            let last = self.last.get(*area).copied().unwrap_or_default();
            clock::links_on_area(film, (*area, last), &next, bench, &mut links);
        }
        if next.deed == Deed::Unmask {
            clock::links_to_unmask(film, reached, bench, &mut links);
        }
        if let Some((from, coat)) = self.base.as_ref().filter(|_| clock::meets_base(next.step)) {
            links.extend(film.step(*from).map(|step| clock::link_on_base((*from, step), coat.as_ref(), &next, bench)));
        }
        // What went over everything lies on the base too.
        if let Some((from, coat)) = self.over_base.as_ref().filter(|_| next.step.is_about_base()) {
            links.extend(film.step(*from).map(|step| clock::link_on_base((*from, step), Some(coat), &next, bench)));
        }
        links.sort_by(|a, b| a.from.cmp(&b.from).then(b.rest.0.total_cmp(&a.rest.0)));
        links.dedup_by_key(|link| link.from);
        let start = self.film.links.len();
        self.film.links.extend(links);
        start..self.film.links.len()
    }

    /// Notes the areas that a step reaches: those it names, or all that no mask covers.
    fn reach(&mut self, step: &Step, position: usize) {
        if step.is_about_base() {
            return;
        }
        let count = self.film.scheme.areas.len();
        let view = View::new(&self.film, position, Minutes::default());
        let spared =
            step.all_over && !matches!(step.stage, Stage::Mask | Stage::Unmask | Stage::Prepare | Stage::Assemble);
        let named = || step.areas.iter().copied().filter(|area| *area < count);
        let is_open = |area: &usize| view.is_open(*area) && view.shut_in(*area).is_none();
        let open: Vec<usize> = named().filter(|area| !spared || is_open(area)).collect();
        if open.is_empty() {
            self.film.reached.extend(named());
        } else {
            self.film.reached.extend(open);
        }
    }

    /// When a step begins, and when its last coat has been laid.
    fn pass_time(&mut self, step: &Step, wait: Wait, links: Range<usize>) -> (Minutes, Minutes) {
        let links = self.film.links.get(links).unwrap_or_default();
        let rested = |link: &Link| self.film.turns.get(link.from).map_or(link.rest, |turn| turn.ends + link.rest);
        let begins = links.iter().map(rested).fold(self.hands_free, Minutes::max);
        self.hands_free = begins + wait.hands_on;
        (begins, self.hands_free + wait.between.times(f64::from(step.coats.saturating_sub(1))))
    }

    /// The coat that a step lays, as if it were laid at once.
    fn coat(&self, step: &'s Step, (index, position): (usize, usize)) -> Option<Coat<'s>> {
        let bench = &self.conditions.bench;
        let cup = Cup::of(step, bench);
        let what = What::of(step, &cup)?;
        let drying = drying(step, what, &cup, bench, self.conditions.air);
        let wet = coat::wet_film(step, what, &cup, bench);
        let dry = if what == What::Decal { wet } else { wet * cup.solids };
        let optical = coat::optical(wet, what, &cup, (step.technique, bench));
        let cover = coat::cover(optical * f64::from(step.coats), &cup);
        Some(Coat {
            position,
            step: index,
            stage: step.stage,
            technique: step.technique,
            overbrushed: coat::is_overbrush(step),
            reach: step.reach,
            from: step.from,
            what,
            count: step.coats,
            wet: Micrometres(wet),
            dry: Micrometres(dry),
            optical,
            cover,
            opacity: Opacity::of(cover, bench),
            laid: Minutes::default(),
            open: open_time(step, what, cup.thinner, bench, self.conditions.air),
            drying,
            cup,
        })
    }

    /// Notes a step as the last one on what it reaches.
    fn note(&mut self, step: &Step, position: usize, deed: Deed, areas: Range<usize>, coat: Option<&Coat<'s>>) {
        let washes = matches!(deed, Deed::Prepare(Preparation { washes: true, .. }));
        for area in self.film.reached.get(areas).unwrap_or_default() {
            let Some(last) = self.last.get_mut(*area) else { continue };
            last.step = Some(position);
            if washes {
                last.washed = Some(position);
            } else if coat.is_some() {
                last.washed = None;
            }
        }
        if step.is_about_base() {
            self.base = Some((position, coat.cloned()));
        } else if let Some(coat) = coat.filter(|coat| step.all_over && coat.is_all_over()) {
            self.over_base = Some((position, coat.clone()));
        }
        self.film.on_base.extend(coat.filter(|_| clock::meets_base(step)).cloned());
    }

    fn lay(&mut self, coat: Coat<'s>, areas: Range<usize>) -> usize {
        let at = self.film.coats.len();
        for area in self.film.reached.get(areas).unwrap_or_default() {
            let mut lay = |slot: Slot, share: f64| {
                if let Some(stack) = self.film.stacks.get_mut(slot.index(*area)) {
                    stack.push(Laid { coat: at, dry: Micrometres(coat.all_dry().0 * share) });
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

    fn mask(&mut self, step: &Step, deed: Deed, position: usize, areas: Range<usize>) {
        let areas = self.film.reached.get(areas).unwrap_or_default();
        if deed == Deed::Mask {
            let covers = step.covers.map(|share| share.as_fraction().as_f64());
            let span = |area: &usize| MaskSpan { area: *area, on: position, off: None, covers };
            self.film.masks.extend(areas.iter().map(span));
        }
        if deed == Deed::Unmask {
            let lying = self.film.masks.iter_mut().filter(|mask| mask.off.is_none() && areas.contains(&mask.area));
            lying.for_each(|mask| mask.off = Some(position));
        }
    }
}
