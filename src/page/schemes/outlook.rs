//! What a page says about the colour of a step: how it comes out, how many coats it wants, how far that is to be trusted.

use serde::Serialize;

use crate::colour::{Evidence, MOST_COATS, Uncertainty, difference};
use crate::draw::{self, LadderWords};
use crate::theme::Words;
use crate::trade::Zone;
use crate::work::{Ladder, Lift, Part, Rise, Sway, Trust, WorkedScheme};

/// The colour of a step, predicted for one zone of one area.
#[derive(Debug, Serialize)]
pub struct OutlookView {
    /// The area.
    pub area: String,
    /// The zone, where it is not the faces; words below `reach`.
    pub zone: Option<&'static str>,
    /// How it comes out, as `#rrggbb`; none where it is unknown.
    pub colour: Option<String>,
    /// Where the coat came from one side: that, and the rest of the zone.
    pub aside: Option<AsideView>,
    /// What was measured there on the finished model, where this step is the last on it.
    pub measured: Option<String>,
    /// How far the prediction is from that.
    pub measured_off: Option<String>,
    /// How it looks away from the glint, where it is a clear over metal.
    pub off_glint: Option<String>,
    /// How far that may be off; none where it is unknown.
    pub trust: Option<TrustView>,
    /// The colour coat by coat.
    pub ladder: Option<LadderView>,
    /// How many coats like these hide black and white, where the coat is to cover.
    pub hides: Option<HidesView>,
    /// How much hangs on coats and thinner.
    pub sway: Option<SwayView>,
    /// How far a highlight stands off.
    pub lift: Option<LiftView>,
}

/// What is beside a part of a zone.
#[derive(Debug, Serialize)]
pub struct AsideView {
    /// Which part that is; words below `from`.
    pub part: &'static str,
    /// Whether the rest lies under a mask.
    pub masked: bool,
    /// How the rest of the zone looks, as `#rrggbb`; none where it is unknown.
    pub rest: Option<String>,
}

/// How far a prediction is to be trusted.
#[derive(Debug, Clone, Serialize)]
pub struct TrustView {
    /// What it rests on; words below `evidence`.
    pub evidence: &'static str,
    /// How sure it is; words below `sure`.
    pub sure: &'static str,
    /// Half of such predictions were nearer than this.
    pub median: String,
    /// Nine in ten were nearer than this.
    pub nine: String,
    /// Whether it is theory alone.
    pub theory: bool,
}

/// How many coats hide black and white.
#[derive(Debug, Clone, Copy, Serialize)]
pub struct HidesView {
    /// So many at least.
    pub least: u32,
    /// So many at most; none: more than anybody lays.
    pub most: Option<u32>,
    /// Whether nobody lays so many.
    pub never: bool,
    /// Whether so little is known of the paint that the two are far apart.
    pub unsure: bool,
}

impl HidesView {
    /// From the fewest and the most that may be needed.
    pub(in crate::page) fn of((least, most): (u32, Option<u32>)) -> Self {
        let unsure = most.is_some_and(|most| most >= 3 * least.max(1) && most > least + 2);
        Self { least: least.min(MOST_COATS), most, never: least > MOST_COATS, unsure }
    }
}

/// A coat ladder.
#[derive(Debug, Serialize)]
pub struct LadderView {
    /// The picture, as SVG.
    pub picture: String,
    /// The same in figures.
    pub facts: String,
    /// After this coat nothing more shows.
    pub nothing_after: Option<u32>,
    /// The last coat on the ladder, which still shows.
    pub still: Option<usize>,
}

/// How much a small slip moves the colour.
#[derive(Debug, Serialize)]
pub struct SwayView {
    /// One coat more or less.
    pub one_coat: String,
    /// Whether it is one more alone.
    pub only_more: bool,
    /// One part or drop more of what thins it.
    pub one_part: Option<String>,
}

/// How far a lighter or darker coat stands off.
#[derive(Debug, Serialize)]
pub struct LiftView {
    /// How far away it is.
    pub difference: String,
    /// How much lighter or darker it is.
    pub lightness: String,
    /// Whether it is lighter.
    pub lighter: bool,
    /// Whether it stands off from the faces beside it; otherwise from what was there before.
    pub from_faces: bool,
}

/// How light an area becomes, step by step.
#[derive(Debug, Serialize)]
pub struct ValuesView {
    /// The area.
    pub area: String,
    /// The picture, as SVG.
    pub picture: String,
    /// The same in figures.
    pub rises: Vec<RiseView>,
}

/// A zone after a step.
#[derive(Debug, Serialize)]
pub struct RiseView {
    /// The number of the step, where it is the first of its rises.
    pub step: Option<usize>,
    /// The zone; words below `film`.
    pub zone: &'static str,
    /// Its lightness.
    pub lightness: String,
}

/// What can be said of the colour of the step at a position of a scheme.
pub(in crate::page) fn outlook(words: &Words, worked: &WorkedScheme, at: usize) -> Option<OutlookView> {
    let outlook = worked.outlooks.get(at)?.as_ref()?;
    let said = |key: &str| words.filled(key, &[]);
    let labels = LadderWords { ground: said("ladder.ground"), stop: said("ladder.stop") };
    let ladder = |ladder: &Ladder| LadderView {
        picture: draw::coat_ladder(ladder, &labels),
        facts: draw::in_figures(ladder),
        nothing_after: ladder.shows_until,
        still: ladder.shows_until.is_none().then(|| ladder.rungs.len().saturating_sub(1)),
    };
    Some(OutlookView {
        area: worked.scheme.areas.get(outlook.area)?.title.clone(),
        zone: Some(outlook.zone).filter(|zone| *zone != Zone::Faces).map(Zone::name),
        colour: outlook.colour.map(|colour| colour.to_string()),
        aside: outlook.aside.map(|aside| AsideView {
            part: aside.part.name(),
            masked: aside.part == Part::BesideMask,
            rest: aside.rest.map(|colour| colour.to_string()),
        }),
        measured: outlook.measured.map(|colour| colour.to_string()),
        measured_off: outlook.measured.zip(outlook.colour).map(|(one, other)| words.difference(difference(one, other))),
        off_glint: outlook.off_glint.map(|colour| colour.to_string()),
        trust: outlook.trust.map(TrustView::of),
        ladder: outlook.ladder.as_ref().filter(|ladder| can_be_told(ladder, outlook.trust)).map(ladder),
        hides: outlook.hides_after.map(HidesView::of),
        sway: outlook.sway.map(|one| sway(one, words)),
        lift: outlook.lift.map(|one| lift(one, words)),
    })
}

/// Whether the coats of a ladder differ by more than the prediction may be off: otherwise it claims nothing.
fn can_be_told(ladder: &Ladder, trust: Option<Trust>) -> bool {
    let own = usize::try_from(ladder.own).unwrap_or(usize::MAX);
    let (Some(ground), Some(own), Some(trust)) = (ladder.rungs.first(), ladder.rungs.get(own), trust) else {
        return false;
    };
    difference(ground.colour, own.colour) > trust.uncertainty.median
}

fn sway(sway: Sway, words: &Words) -> SwayView {
    SwayView {
        one_coat: words.difference(sway.one_coat),
        only_more: sway.only_more,
        one_part: sway.one_part.map(|one_part| words.difference(one_part)),
    }
}

fn lift(lift: Lift, words: &Words) -> LiftView {
    LiftView {
        difference: words.difference(lift.difference),
        lightness: format!("{:.0}", lift.lightness.abs()),
        lighter: lift.lightness >= 0.0,
        from_faces: lift.from_faces,
    }
}

impl TrustView {
    fn of(trust: Trust) -> Self {
        let known = Self::of_evidence(trust.evidence, trust.uncertainty);
        Self { theory: trust.theory_alone, sure: trust.sureness().name(), ..known }
    }

    /// How far predictions that rest on this were off.
    pub(in crate::page) fn of_evidence(evidence: Evidence, uncertainty: Uncertainty) -> Self {
        let figure = |figure: f64| format!("{figure:.0}");
        Self {
            evidence: evidence.name(),
            sure: uncertainty.sureness().name(),
            median: figure(uncertainty.median),
            nine: figure(uncertainty.nine_in_ten),
            theory: false,
        }
    }
}

/// The value ladders of the areas of a scheme that change at least twice.
pub(in crate::page) fn values(worked: &WorkedScheme) -> Vec<ValuesView> {
    let areas = worked.scheme.areas.iter().zip(&worked.values);
    let told = areas.filter(|(_, rises)| rises.len() > 1);
    told.map(|(area, rises)| ValuesView {
        area: area.title.clone(),
        picture: draw::value_ladder(rises),
        rises: rises.iter().enumerate().map(|(at, one)| rise(rises, at, one)).collect(),
    })
    .collect()
}

fn rise(rises: &[Rise], at: usize, rise: &Rise) -> RiseView {
    let again = at.checked_sub(1).and_then(|before| rises.get(before)).is_some_and(|before| before.step == rise.step);
    RiseView {
        step: (!again).then_some(rise.step + 1),
        zone: rise.zone.name(),
        lightness: format!("{:.0}", rise.lightness),
    }
}
