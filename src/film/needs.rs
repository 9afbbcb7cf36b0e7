//! How long a coat must rest before the next thing is done to it, and why: the one table that the clock, the rules and
//! the plan ask.
//!
//! | what comes next | how long the coat beneath rests |
//! | --- | --- |
//! | tape | its safe time; under putty an hour, half of that on a mist, and until it can be painted over |
//! | anything of another family on oil or enamel | its safe time; half of it, and two days at least, where an oil is only a wash and not neat |
//! | lacquer or alcohol on water-based paint | a day |
//! | oil or enamel on anything quicker | its safe time |
//! | a varnish on colour, or on base paste | a night |
//! | resin on water-based paint, mirror metal on gloss lacquer | a day |
//! | chipping medium on a water-based seal | a night |
//! | a flood of wash or one-coat paint on a mist | longer than a mist under a mist |
//! | anything on powder | not at all on dry powder; on wetted powder as on what wets it |
//! | a decal | as long as its gloss needs |
//! | grit on a clear coat that is levelled | its safe time |
//! | whatever covers a decal | the decal's own rest |
//! | everything else | until it may be painted over |

use super::coat::Coat;
use super::cup::strength;
use super::turn::{Deed, Preparation};
use super::what::What;
use crate::bench::{Bench, Figure, Minutes};
use crate::guide::Step;
use crate::trade::{Family, Kind, Reach, Stage, Technique};

/// Why a step rests before the next one.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Reason {
    /// It is handled, and nothing more is laid on it.
    Handling,
    /// It is painted over.
    Recoat,
    /// A mask that lies beside it is taken off.
    Unmask,
    /// A decal comes on it.
    Decal,
    /// It is a decal, and something covers it.
    OverDecal,
    /// A varnish shuts it in.
    Varnish,
    /// Resin is poured on it.
    Pour,
    /// A mild solvent comes on it: oil or enamel.
    Spirit,
    /// A strong solvent comes on it: lacquer or alcohol.
    Solvent,
    /// A mask comes on it.
    Tape,
    /// It is oil or enamel, and something of another family shuts it in.
    Harden,
    /// It was washed, and is still damp.
    Washed,
}

impl Reason {
    /// Every reason.
    pub const ALL: [Self; 12] = [
        Self::Handling,
        Self::Recoat,
        Self::Unmask,
        Self::Decal,
        Self::OverDecal,
        Self::Varnish,
        Self::Pour,
        Self::Spirit,
        Self::Solvent,
        Self::Tape,
        Self::Harden,
        Self::Washed,
    ];

    /// Its name in data and in a theme's words.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Handling => "handling",
            Self::Recoat => "recoat",
            Self::Unmask => "unmask",
            Self::Decal => "decal",
            Self::OverDecal => "over-decal",
            Self::Varnish => "varnish",
            Self::Pour => "pour",
            Self::Spirit => "spirit",
            Self::Solvent => "solvent",
            Self::Tape => "tape",
            Self::Harden => "harden",
            Self::Washed => "washed",
        }
    }
}

/// How long a coat rests before something, and why.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Need {
    /// How long.
    pub time: Minutes,
    /// Why.
    pub reason: Reason,
}

/// What is done next.
#[derive(Debug, Clone, Copy)]
pub struct Next<'a, 's> {
    /// What it does.
    pub deed: Deed,
    /// What it lays, if it lays anything.
    pub coat: Option<&'a Coat<'s>>,
    /// The step.
    pub step: &'a Step,
}

/// What a coat needs before something is done to it.
pub fn need(under: &Coat<'_>, next: &Next<'_, '_>, bench: &Bench) -> Need {
    let drying = under.drying;
    let of = |time: Minutes, reason| Need { time: time.max(drying.recoat).to_be_written(), reason };
    if under.is_dry_powder() {
        return Need { time: Minutes::default(), reason: Reason::Recoat };
    }
    if next.deed == Deed::Mask {
        let least = Minutes(bench.get(Figure::TapeLeast));
        let putty =
            Minutes(bench.get(Figure::PuttyLeast)).times(if under.technique.sprays() { MIST_UNDER_PUTTY } else { 1.0 });
        return of(if is_soft_mask(next.step) { putty } else { drying.safe.max(least) }, Reason::Tape);
    }
    if next.deed == Deed::Assemble {
        return of(drying.recoat, Reason::Handling);
    }
    if matches!(next.deed, Deed::Prepare(Preparation { sands: true, .. })) && under.is_clear_film() {
        return of(drying.safe, Reason::Handling);
    }
    let Some(coat) = next.coat else {
        if is_wiped(under) && wipes(next) {
            return Need { time: Minutes(bench.get(Figure::WipeRest)).to_be_written(), reason: Reason::Recoat };
        }
        return of(drying.recoat, Reason::Recoat);
    };
    if shuts_in_slow(coat, under) {
        let rest = Minutes(bench.get(Figure::ThinOilRest));
        let thin = under.is_thin_oil(bench).then(|| drying.safe.times(bench.get(Figure::SolventSafeShare)).max(rest));
        return of(thin.unwrap_or(drying.safe), Reason::Harden);
    }
    if under.what == What::Decal {
        return of(drying.recoat, Reason::OverDecal);
    }
    if coat.what == What::Decal {
        return of(Minutes(bench.decal_rest(under.cup.family())).min(drying.cured), Reason::Decal);
    }
    if let Some((figure, reason)) = long_rest(coat, under, bench) {
        return of(Minutes(bench.get(figure)).min(drying.cured), reason);
    }
    match bite(coat, under) {
        Some(Bite::Strong) => {
            let day = Minutes(bench.get(Figure::SolventAfterWater)).min(drying.cured);
            of(if under.carrier() == Family::Water { day } else { drying.safe }, Reason::Solvent)
        }
        Some(Bite::Mild) => of(drying.safe, Reason::Spirit),
        None if shuts_in_colour(coat, under) => {
            let quick = under.cup.family() == Family::Lacquer;
            let night = Minutes(bench.get(Figure::VarnishRest)).min(drying.cured);
            of(if quick { drying.safe.min(night) } else { night }, Reason::Varnish)
        }
        None => of(drying.recoat, Reason::Recoat),
    }
}

/// Whether a step that lays nothing tidies what is still open: oil that is rubbed off with spirit is no chipped paint.
fn wipes(next: &Next<'_, '_>) -> bool {
    let slow = |family: Family| matches!(family, Family::Enamel | Family::Oil);
    let spirit = || next.step.mix.parts.iter().any(|part| part.paint.kind == Kind::Thinner && slow(part.paint.family));
    next.deed == Deed::Nothing || (next.deed == Deed::Chip && spirit())
}

/// What rests longer under a coat than paint under paint, although no solvent bites.
fn long_rest(coat: &Coat<'_>, under: &Coat<'_>, bench: &Bench) -> Option<(Figure, Reason)> {
    let (own, beneath) = (coat.cup.family(), under.cup.family());
    let gloss = under.gloss().0 > bench.get(Figure::GlossAbove) && !under.metallic();
    if coat.cup.kind() == Some(Kind::Resin) {
        let open = beneath == Family::Water && under.cup.kind() != Some(Kind::Resin);
        return (open && coat.reach != Reach::Spots).then_some((Figure::RestUnderResin, Reason::Pour));
    }
    if coat.what == What::Resist {
        let sealed = under.is_clear_film() && beneath == Family::Water;
        return sealed.then_some((Figure::VarnishRest, Reason::Recoat));
    }
    if coat.metallic() && coat.technique.sprays() && own == Family::Lacquer {
        return (gloss && beneath == Family::Lacquer).then_some((Figure::GlossUnderMetal, Reason::Recoat));
    }
    let floods = coat.what == What::Shade || coat.cup.kind() == Some(Kind::OneCoat);
    let mist = under.technique == Technique::Airbrush && beneath == Family::Water && own == Family::Water;
    (floods && mist && !coat.technique.sprays()).then_some((Figure::MistUnderFlood, Reason::Recoat))
}

/// How a coat's solvent gets at what lies beneath.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Bite {
    /// Lacquer or alcohol over something weaker.
    Strong,
    /// White spirit over something quicker.
    Mild,
}

/// How a coat's solvent gets at what lies beneath, if it does.
pub(super) fn bite(coat: &Coat<'_>, under: &Coat<'_>) -> Option<Bite> {
    if coat.what == What::Decal || coat.is_dry_powder() || coat.is_solvent_free() {
        return None;
    }
    let slow = |family: Family| matches!(family, Family::Enamel | Family::Oil);
    let weak = if under.is_thinned_powder() { Family::Dry } else { under.carrier() };
    let strongest = coat.cup.strongest();
    if matches!(strongest, Family::Lacquer | Family::Alcohol | Family::TwoPack) {
        return (strength(strongest) > strength(weak) && weak != Family::Dry).then_some(Bite::Strong);
    }
    let spirit = coat.cup.families.iter().any(slow);
    (spirit && !slow(weak) && weak != Family::Dry).then_some(Bite::Mild)
}

/// Whether a coat is work in oil or enamel that is wiped, tidied and drawn out while it is open, and not when it has dried.
pub(crate) fn is_wiped(under: &Coat<'_>) -> bool {
    match under.cup.family() {
        Family::Oil => true,
        Family::Enamel => under.what == What::Shade || under.stage.weathers() || under.stage == Stage::Glaze,
        _ => false,
    }
}

/// Whether a coat of another family shuts in oil or enamel.
pub(super) fn shuts_in_slow(coat: &Coat<'_>, under: &Coat<'_>) -> bool {
    let slow = |coat: &Coat<'_>| matches!(coat.carrier(), Family::Enamel | Family::Oil);
    slow(under)
        && !under.is_thinned_powder()
        && !slow(coat)
        && !matches!(coat.what, What::Powder | What::Decal | What::Texture)
}

/// Whether a varnish shuts in colour or paste: not where it is dabbed on a spot.
pub(super) fn shuts_in_colour(coat: &Coat<'_>, under: &Coat<'_>) -> bool {
    coat.what == What::Varnish
        && coat.reach != Reach::Spots
        && matches!(under.what, What::Colour | What::Shade | What::Tint | What::Texture)
}

/// The share of the rest under putty (`putty-least`) which a thin, sprayed coat takes. Own estimate.
const MIST_UNDER_PUTTY: f64 = 0.5;

/// The words by which a mask is known that is pressed on and pulls at nothing.
const SOFT: &[&str] = &["putty", "foam", "cotton", "knete", "knetmasse", "masilla", "pate", "mousse", "espuma"];

/// Those of what holds by itself and pulls.
const TAPE: &[&str] = &["tape", "klebeband", "maskierband", "ruban", "cinta"];

/// Whether a step masks with putty or the like and with nothing else, as its tools or its name say.
pub fn is_soft_mask(step: &Step) -> bool {
    let is = |name: &str, words: &[&str]| name.split('-').any(|word| words.contains(&word));
    let mut tools = step.tools.iter().map(|tool| tool.id.as_str());
    let soft = tools.clone().any(|tool| is(tool, SOFT)) || is(&step.stem, SOFT);
    soft && !tools.any(|tool| is(tool, TAPE))
}
