//! How light and dark an area becomes, step by step: each lightness that a painter can tell from the one before.

use crate::colour::{JUST_SEEN, space};
use crate::film::{Appearance, Conditions, Film, What};
use crate::measure::Colour;
use crate::trade::Zone;

/// At most so many rises of an area are reported: more would not be read.
const MOST: usize = 24;

/// A zone of an area after a step that changed it visibly.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rise {
    /// The step, by its place in the scheme's list.
    pub step: usize,
    /// The zone; faces stand for zones that look the same.
    pub zone: Zone,
    /// Its predicted colour.
    pub colour: Colour,
    /// CIE lightness, 0 to 100.
    pub lightness: f64,
}

/// The rises of each area of a scheme, in the order of work.
pub(super) fn values(film: &Film<'_>, conditions: &Conditions) -> Vec<Vec<Rise>> {
    let appearance = film.appearance(conditions);
    (0..film.scheme().areas.len()).map(|area| of_area(film, appearance, area)).collect()
}

fn of_area(film: &Film<'_>, appearance: &Appearance, area: usize) -> Vec<Rise> {
    let mut rises: Vec<Rise> = Vec::new();
    let colours = film.turns().iter().enumerate().filter(|(position, _)| film.areas(*position).contains(&area));
    for (position, turn) in colours {
        if film.coat(position).is_some_and(|coat| coat.what == What::Varnish) {
            continue;
        }
        let mut here: Vec<Rise> = Vec::new();
        for zone in [Zone::Faces, Zone::Recesses, Zone::Edges] {
            let seen = appearance.after(position, area, zone);
            let Some(lab) = seen.lab().filter(|lab| changes(appearance, (position, area, zone), lab)) else { continue };
            let colour = space::shown(seen.stack().map(crate::colour::Stack::linear_rgb).unwrap_or_default());
            if here.iter().all(|rise| rise.colour != colour) {
                here.push(Rise { step: turn.step, zone, colour, lightness: lab.l });
            }
        }
        rises.extend(here);
        if rises.len() >= MOST {
            break;
        }
    }
    rises
}

/// Whether a painter can tell a zone after a step from the same zone before it.
fn changes(appearance: &Appearance, (position, area, zone): (usize, usize, Zone), after: &space::Lab) -> bool {
    let before = appearance.before(position, area, zone).lab();
    before.is_none_or(|before| space::lab_difference(before, *after) >= JUST_SEEN)
}
