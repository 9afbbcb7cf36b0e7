//! Which paint one sees on each part of the finished model, as the film has it: what was masked kept its own.

use std::sync::Arc;

use crate::film::{Coat, Film};
use crate::guide::Paint;
use crate::trade::Zone;

/// The paint that one sees in recesses, on faces and on edges of an area; `None` where none with a colour lies.
pub(super) type Seen = [Option<Arc<Paint>>; 3];

/// What one sees of each area in the end, in the order of the areas.
pub(super) fn seen(film: &Film<'_>) -> Vec<Seen> {
    let finished = film.finished();
    let top = |area: usize, zone: Zone| finished.coats(area, zone).rev().find_map(|coat| coloured(film, coat));
    let areas = 0..film.scheme().areas.len();
    areas.map(|area| [Zone::Recesses, Zone::Faces, Zone::Edges].map(|zone| top(area, zone))).collect()
}

/// The paint with the most parts of a mix, of those that have a colour.
fn coloured(film: &Film<'_>, coat: &Coat<'_>) -> Option<Arc<Paint>> {
    let parts = &film.scheme().steps.get(coat.step)?.mix.parts;
    let coloured = parts.iter().filter(|part| part.paint.kind.has_colour() && part.paint.colour.is_some());
    let most = coloured.max_by(|one, other| one.amount.as_f64().total_cmp(&other.amount.as_f64()))?;
    Some(Arc::clone(&most.paint))
}
