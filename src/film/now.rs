//! The surface of an area at one moment, in typed words; the theme's words make a sentence of it.

use super::coat::Coat;
use super::view::View;
use super::what::What;
use crate::bench::{Bench, Figure, Minutes};
use crate::measure::Time;
use crate::trade::{Family, Kind, Sheen, Zone};

/// What a painter finds on an area.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SurfaceNow {
    /// The zone that speaks for the area.
    pub zone: Zone,
    /// How it shines.
    pub sheen: Sheen,
    /// What lies on top.
    pub top: OnTop,
    /// What shows through, where the top is a clear film or a wash.
    pub under: Option<OnTop>,
    /// Whether a clear film shuts it in.
    pub sealed: bool,
    /// Whether a decal lies bare.
    pub bare_decals: bool,
    /// Whether a decal lies beneath a coat.
    pub covered_decals: bool,
    /// Whether it is chipped.
    pub chipped: bool,
    /// Whether a mask lies on it.
    pub masked: bool,
    /// How long until it is cured.
    pub cured_after: Time,
}

/// A coat in words.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct OnTop {
    /// What it is.
    pub what: What,
    /// What carried it.
    pub family: Family,
    /// The kind of its main product.
    pub kind: Option<Kind>,
    /// Whether metal flakes make it shine.
    pub metallic: bool,
    /// Whether something in it would hold powder; of powder, whether it is fixed.
    pub holds: bool,
    /// The step that laid it, by its place in the scheme's list.
    pub step: usize,
}

impl OnTop {
    fn of(coat: &Coat<'_>) -> Self {
        Self {
            what: coat.what,
            family: coat.cup.family(),
            kind: coat.cup.kind(),
            metallic: coat.metallic(),
            holds: coat.cup.holds,
            step: coat.step,
        }
    }
}

/// The surface of an area; `None` while it is bare. The first of `zones` on which anything lies speaks for the area.
pub fn surface_now(view: View<'_, '_>, area: usize, zones: [Zone; 3], bench: &Bench) -> Option<SurfaceNow> {
    let zone = zones.into_iter().find(|zone| view.top(area, *zone).is_some())?;
    let top = view.top(area, zone)?;
    let shows_through = top.is_clear_film() || top.from.is_some() || matches!(top.what, What::Shade | What::Tint);
    let below = view.coats(area, zone).rfind(|coat| coat.position < top.position && !coat.is_clear_film());
    let tops = || zones.into_iter().filter_map(|zone| view.top(area, zone)).chain(view.bare_decals(area));
    let until = |latest: Minutes| (latest - view.now()).roughly().as_time();
    let bare_decals = view.bare_decals(area).count();
    Some(SurfaceNow {
        zone,
        sheen: sheen(top, bench),
        top: OnTop::of(top),
        under: below.filter(|_| shows_through).map(OnTop::of),
        sealed: view.seal(area, zone).is_some(),
        bare_decals: bare_decals > 0,
        covered_decals: view.decals(area).count() > bare_decals,
        chipped: view.chips(area).next().is_some(),
        masked: view.mask(area).is_some(),
        cured_after: until(tops().map(Coat::cured_at).fold(view.now(), Minutes::max)),
    })
}

/// How a coat shines, in the trade's words.
pub fn sheen(coat: &Coat<'_>, bench: &Bench) -> Sheen {
    let gloss = coat.gloss().0;
    if coat.metallic() && !coat.is_clear_film() {
        Sheen::Metallic
    } else if gloss < bench.get(Figure::MattBelow) {
        Sheen::Matt
    } else if gloss <= bench.get(Figure::GlossAbove) {
        Sheen::Satin
    } else {
        Sheen::Gloss
    }
}
