//! One coat: everything that later steps and the rules need to know of it.

use super::cup::Cup;
use super::drying::{Drying, is_glazed};
use super::what::{Opacity, What};
use crate::bench::{Bench, Figure, Gloss, Micrometres, Minutes};
use crate::guide::{Paint, Step};
use crate::trade::{Direction, Family, Hiding, Kind, Reach, Stage, Technique, Zone, names_mirror, names_overbrush};

/// What one step laid.
#[derive(Debug, Clone, PartialEq)]
pub struct Coat<'s> {
    /// At which place of the order it was laid.
    pub position: usize,
    /// The step, by its place in the scheme's list.
    pub step: usize,
    /// The step's stage.
    pub stage: Stage,
    /// What put it on.
    pub technique: Technique,
    /// Whether it is a heavy drybrush, which lays a colour and no light.
    pub overbrushed: bool,
    /// Where on its areas it lies.
    pub reach: Reach,
    /// From where it came, where it lies only on what looks that way.
    pub from: Option<Direction>,
    /// What it is.
    pub what: What,
    /// The mix it was laid from.
    pub cup: Cup<'s>,
    /// How many coats.
    pub count: u32,
    /// One coat, wet.
    pub wet: Micrometres,
    /// One coat, dry, averaged over its zones.
    pub dry: Micrometres,
    /// One coat in coats of colour: see `Figure::HidingCoat`.
    pub optical: f64,
    /// How much of what lies beneath all its coats hide, from 0 to 1.
    pub cover: f64,
    /// The same in words.
    pub opacity: Opacity,
    /// When the last of its coats was laid.
    pub laid: Minutes,
    /// How long it dries.
    pub drying: Drying,
    /// How long two that are blended in it stay open together, where they are and that is known.
    pub open: Option<Minutes>,
}

impl Coat<'_> {
    /// Whether metal flakes make it shine.
    pub fn metallic(&self) -> bool {
        self.cup.metallic
    }

    /// Whether it is bright metal that is named as a mirror, and laid closely enough to be one: chips, rivets, edges and glazes of
    /// chrome mirror nothing.
    pub fn is_mirror(&self) -> bool {
        let named = |paint: &&Paint| {
            paint.kind == Kind::Metal && [&paint.name, &paint.id].into_iter().any(|name| names_mirror(name))
        };
        let is_closed = !matches!(self.technique, Technique::Drybrush | Technique::Sponge | Technique::Stipple)
            && !matches!(self.reach, Reach::Spots | Reach::Edges)
            && self.opacity > Opacity::Clear;
        self.metallic() && is_closed && self.cup.alone && self.cup.main.as_ref().is_some_and(named)
    }

    /// How it shines.
    pub fn gloss(&self) -> Gloss {
        self.cup.gloss
    }

    /// Whether it is a clear film: varnish or a tinted clear, which shows and shuts in what lies beneath.
    pub fn is_clear_film(&self) -> bool {
        self.what == What::Varnish || self.is_tinted_clear()
    }

    /// Whether it is a tinted clear, as opposed to a paint that is only laid thin.
    pub fn is_tinted_clear(&self) -> bool {
        self.what == What::Tint && self.cup.kind() == Some(Kind::Clear)
    }

    /// The family of what it dries from: of powder, whatever wets it, the slowest first.
    pub fn carrier(&self) -> Family {
        if self.what != What::Powder {
            return self.cup.family();
        }
        let slow = |family: &Family| matches!(family, Family::Enamel | Family::Oil);
        let wet = || self.cup.families.iter().filter(|family| *family != Family::Dry);
        wet().find(slow).or_else(|| wet().next()).unwrap_or(Family::Dry)
    }

    /// Whether it is powder that went on dry.
    pub fn is_dry_powder(&self) -> bool {
        self.carrier() == Family::Dry && self.what == What::Powder
    }

    /// Whether it is powder in thinner alone, which keeps it where it was laid, and is gone when it has dried.
    pub fn is_thinned_powder(&self) -> bool {
        self.what == What::Powder && !self.cup.holds && self.carrier() != Family::Dry
    }

    /// Whether it is drybrushed over more than spots, in colour: the brush touches everything near.
    pub fn dusts(&self) -> bool {
        self.technique == Technique::Drybrush
            && self.what == What::Colour
            && self.reach != Reach::Spots
            && self.stage != Stage::Basing
            && !self.stage.weathers()
    }

    /// Whether it covers all three zones of its areas, on all their sides.
    pub fn is_all_over(&self) -> bool {
        self.reach == Reach::All && self.from.is_none() && self.what != What::Decal
    }

    /// How much it leaves to see of a coat beneath it where most of that shows, from 0 to 1: what came from one side
    /// hides nothing of what lies on the others.
    pub fn leaves_of(&self, under: &Self) -> f64 {
        if self.from.is_none() || self.from == under.from { 1.0 - self.cover } else { 1.0 }
    }

    /// All its coats together, dry, averaged over its zones.
    pub fn all_dry(&self) -> Micrometres {
        Micrometres(self.dry.0 * f64::from(self.count))
    }

    /// All its coats together in coats of colour.
    pub fn all_optical(&self) -> f64 {
        self.optical * f64::from(self.count)
    }

    /// Whether it is an oil that lies as a wash, a glaze, as streaks or as dots, not as a painted colour.
    pub fn is_thin_oil(&self, bench: &Bench) -> bool {
        self.lies_thin(bench) && self.cup.family() == Family::Oil
    }

    /// Whether it lies as a wash, a glaze, as streaks or as dots, not as a painted colour.
    pub fn lies_thin(&self, bench: &Bench) -> bool {
        let thinned = self.cup.thinner >= bench.get(Figure::ThinFromThinner);
        let washed = self.stage.weathers() && !self.is_neat_oil(bench);
        thinned || washed || self.stage == Stage::Glaze || self.reach == Reach::Spots
    }

    /// Whether it is oil as it comes from the tube over all of an area: it dries as painted oil does, though it shades.
    pub fn is_neat_oil(&self, bench: &Bench) -> bool {
        self.stage == Stage::Shade
            && self.cup.kind() == Some(Kind::Oil)
            && 1.0 - self.cup.coloured < bench.get(Figure::ThinFromThinner)
            && matches!(self.reach, Reach::All | Reach::Faces | Reach::Raised)
    }

    /// Whether it is a filter: a glaze of oil or enamel, or a coat that is nearly all thinner, which leaves a surface as
    /// smooth as it was.
    pub fn is_filter(&self, bench: &Bench) -> bool {
        let slow = matches!(self.cup.family(), Family::Enamel | Family::Oil);
        let thin = self.cup.thinner >= bench.get(Figure::FilterFromThinner);
        match self.stage {
            Stage::Glaze => slow || thin,
            Stage::Weather => thin,
            _ => false,
        }
    }

    /// Whether it has nothing in it that bites: resin that is cast, or that a lamp hardens, hardens as a whole.
    pub fn is_solvent_free(&self) -> bool {
        match self.cup.strongest() {
            Family::Lamp => true,
            Family::TwoPack => !self.technique.sprays() || self.cup.kind() == Some(Kind::Resin),
            _ => false,
        }
    }

    /// When it is cured.
    pub fn cured_at(&self) -> Minutes {
        self.laid + self.drying.cured
    }

    /// How thick it lies in one zone, against its average.
    pub fn share_in(&self, zone: Zone, bench: &Bench) -> f64 {
        let stain = self.cup.kind() == Some(Kind::OneCoat);
        if !(stain || self.what == What::Shade) || self.reach != Reach::All || self.technique.sprays() {
            return 1.0;
        }
        if stain {
            return bench.get(match zone {
                Zone::Recesses => Figure::OneCoatInRecesses,
                Zone::Faces => Figure::OneCoatOnFaces,
                Zone::Edges => Figure::OneCoatOnEdges,
            });
        }
        bench.get(if zone == Zone::Recesses { Figure::WashInRecesses } else { Figure::WashOnFaces })
    }
}

/// How much of a zone looks to one side, and gets what comes from there.
pub fn aimed_share(zone: Zone, bench: &Bench) -> f64 {
    let share = bench.get(match zone {
        Zone::Recesses => Figure::AimedInRecesses,
        Zone::Faces => Figure::AimedOnFaces,
        Zone::Edges => Figure::AimedOnEdges,
    });
    share.clamp(0.0, 1.0)
}

/// The wet film of one coat of a step.
pub(super) fn wet_film(step: &Step, what: What, cup: &Cup<'_>, bench: &Bench) -> f64 {
    let aimed = step.stage == Stage::Preshade && step.from.is_none() && step.technique.sprays();
    bench.get(figure_of(step, what, cup, bench)) * if aimed { bench.get(Figure::PreshadeShare) } else { 1.0 }
}

/// Whether a step drybrushes heavily: its name says so, or its author wants it everywhere and not only on what stands up. What
/// an instruction says of it may be about another step.
pub(super) fn is_overbrush(step: &Step) -> bool {
    let everywhere = || step.reach == Reach::All && step.places.reach.is_some();
    let named = || names_overbrush(&step.title) || names_overbrush(&step.stem);
    step.technique == Technique::Drybrush && (everywhere() || named())
}

/// The figure that the wet film of one coat of a step rests on.
pub fn figure_of(step: &Step, what: What, cup: &Cup<'_>, bench: &Bench) -> Figure {
    match (what, step.technique) {
        (What::Decal, _) => Figure::DecalFilm,
        (What::Texture | What::Filler, _) => Figure::WetTexture,
        (What::Varnish, Technique::Airbrush | Technique::SprayCan) => Figure::WetSprayedVarnish,
        (_, Technique::SprayCan) => Figure::WetCan,
        (_, Technique::Airbrush) => Figure::WetAirbrush,
        (What::Powder, _) => Figure::WetDrybrush,
        (_, Technique::Drybrush) if is_overbrush(step) => Figure::WetOverbrush,
        (_, Technique::Drybrush) => Figure::WetDrybrush,
        (_, Technique::Sponge | Technique::Stipple) => Figure::WetDabbed,
        (What::Varnish, _) => Figure::WetBrushedVarnish,
        (_, Technique::Pipette) => Figure::WetPinWash,
        _ => brushed(step, what, cup, bench),
    }
}

fn brushed(step: &Step, what: What, cup: &Cup<'_>, bench: &Bench) -> Figure {
    match step.stage {
        Stage::PanelWash => Figure::WetPinWash,
        Stage::Weather | Stage::Glaze if cup.thinner >= bench.get(Figure::FilterFromThinner) => Figure::WetFilter,
        Stage::Weather if is_dotted(step, cup, bench) => Figure::WetOilDots,
        _ if is_glazed(step, what) => Figure::WetLayer,
        // Streaks are drawn, and nothing is flooded between them.
        Stage::Weather if !matches!(step.reach, Reach::All | Reach::Recesses) => Figure::WetLayer,
        _ if what == What::Shade => Figure::WetWash,
        Stage::Layer | Stage::Glaze | Stage::Weather => Figure::WetLayer,
        Stage::Highlight | Stage::Detail | Stage::Chip => Figure::WetLine,
        _ if cup.kind() == Some(Kind::OneCoat) => Figure::WetOneCoat,
        _ => Figure::WetBrush,
    }
}

/// Whether oil as it comes from the tube is dotted on and drawn out over broad surfaces.
fn is_dotted(step: &Step, cup: &Cup<'_>, bench: &Bench) -> bool {
    cup.kind() == Some(Kind::Oil)
        && cup.thinner < bench.get(Figure::ThinFromThinner)
        && matches!(step.reach, Reach::All | Reach::Faces | Reach::Raised)
}

/// A wet film in coats of colour, as a hiding class is judged on one: without thinner and medium, washes by their solids.
///
/// A paste that is said to be transparent stays so, however deep it lies: its class is of the paste and not of paint.
pub(super) fn optical(wet: f64, what: What, cup: &Cup<'_>, (technique, bench): (Technique, &Bench)) -> f64 {
    let paint = if technique == Technique::SprayCan { bench.get(Figure::CanShare) } else { 1.0 };
    let coats = wet * cup.strength * paint / bench.get(Figure::HidingCoat).max(f64::MIN_POSITIVE);
    let clear = cup.main.is_some_and(|main| main.hiding == Hiding::Transparent);
    if what == What::Texture && clear { coats.min(1.0) } else { coats }
}

/// How much of its ground a film hides: each coat of colour leaves the same share of what the one before left.
pub(super) fn cover(optical: f64, cup: &Cup<'_>) -> f64 {
    (1.0 - cup.uncovered.powf(optical)).clamp(0.0, 1.0)
}
