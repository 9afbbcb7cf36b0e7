//! What an author leaves to the mesh, written into the scheme: shares and zones.

use super::Shape;
use crate::guide::{Scheme, Zones};
use crate::measure::Share;

/// The scheme with what was measured; `None` where the author gives all, or the mesh has no areas.
pub(super) fn filled(scheme: &Scheme, shape: &Shape) -> Option<Scheme> {
    let leaves_shares = scheme.areas.iter().any(|area| area.share_left);
    if !shape.has_areas() || (!leaves_shares && scheme.zones_place.is_some()) {
        return None;
    }
    let mut scheme = scheme.clone();
    if leaves_shares {
        fill_shares(&mut scheme, shape);
    }
    if scheme.zones_place.is_none() {
        let [recesses, _, edges] = shape.all_zones().map(whole);
        let (recesses, edges) = (recesses.clamp(1, 60), edges.clamp(1, 38));
        let percent = Share::percent;
        scheme.zones =
            Zones { recesses: percent(recesses), faces: percent(100 - recesses - edges), edges: percent(edges) };
    }
    Some(scheme)
}

/// Gives the areas without a share what the others leave, as the mesh tells; the last rounding goes to the largest.
fn fill_shares(scheme: &mut Scheme, shape: &Shape) {
    let given: f64 = scheme.areas.iter().filter_map(|area| area.share).map(Share::as_percent).sum();
    let left: Vec<usize> = (0..scheme.areas.len()).filter(|at| scheme.areas[*at].share_left).collect();
    let measured = |at: usize| shape.areas.get(at).copied().unwrap_or_default();
    let all: f64 = left.iter().map(|at| measured(*at)).sum();
    if all <= 0.0 || given >= 100.0 {
        return;
    }
    let room = whole((100.0 - given) / 100.0);
    let mut shares: Vec<u64> = left.iter().map(|at| whole(measured(*at) / all * (100.0 - given) / 100.0)).collect();
    let sum: u64 = shares.iter().sum();
    if let Some(largest) = shares.iter_mut().max() {
        *largest = (*largest + room).saturating_sub(sum);
    }
    for (at, share) in left.into_iter().zip(shares) {
        scheme.areas[at].share = Some(Share::percent(share));
    }
}

/// A part of one as whole per cent.
pub(super) fn whole(part: f64) -> u64 {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a hundred at most")]
    let percent = (part * 100.0).round().clamp(0.0, 100.0) as u64;
    percent
}
