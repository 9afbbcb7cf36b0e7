//! What is in the cup, in figures: how much of it is paint, what it shines like, what it covers.

use crate::bench::{Bench, Figure, Gloss};
use crate::guide::{Measured, MixPart, Paint, Step};
use crate::trade::{Family, Hiding, Kind, Sheen, Stage};

/// A mix, summed up.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cup<'s> {
    /// The product that makes the coat what it is; `None` for a decal that is laid down with water.
    pub main: Option<&'s Paint>,
    /// The families of all products in it, thinners too.
    pub families: Families,
    /// The share of thinner, from 0 to 1.
    pub thinner: f64,
    /// The share of coloured products, from 0 to 1; the rest is thinner, medium and varnish.
    pub coloured: f64,
    /// The same with washes counted by their solids: they are ordinary paint, thinned by the maker.
    pub strength: f64,
    /// The share of it that stays as a dry film.
    pub solids: f64,
    /// How its dry film shines.
    pub gloss: Gloss,
    /// Whether metal flakes make it shine.
    pub metallic: bool,
    /// Whether something in it stays that holds powder: fixer, varnish, paint.
    pub holds: bool,
    /// Whether its main product is all that colours it.
    pub alone: bool,
    /// What one ordinary coat of its coloured products, undiluted, leaves uncovered, from 0 to 1.
    pub uncovered: f64,
}

/// A set of families.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Families(u8);

impl Families {
    fn with(self, family: Family) -> Self {
        Self(self.0 | 1 << family as u8)
    }

    /// Whether a family is in it.
    pub fn contains(self, family: Family) -> bool {
        self.0 & 1 << family as u8 != 0
    }

    /// The families in it, in the order of the trade.
    pub fn iter(self) -> impl Iterator<Item = Family> {
        Family::ALL.iter().copied().filter(move |family| self.contains(*family))
    }
}

impl<'s> Cup<'s> {
    /// Sums up a step's mix.
    pub(super) fn of(step: &'s Step, bench: &Bench) -> Self {
        let powder = step.mix.parts.iter().any(|part| part.paint.kind == Kind::Pigment);
        let mut sums = Sums { powder, ..Sums::default() };
        for part in &step.mix.parts {
            if step.mix.is_beside() && !forms_film(part.paint.kind, step.stage) {
                sums.families = sums.families.with(part.paint.solvent());
                continue;
            }
            sums.add(part, volume(part, step.mix.measured, bench), step.stage, bench);
        }
        let share = |sum: f64, of: f64| if of > 0.0 { sum / of } else { 0.0 };
        Self {
            main: main(step, bench),
            families: sums.families,
            thinner: share(sums.thinner, sums.total),
            coloured: share(sums.coloured, sums.total),
            strength: share(sums.strength, sums.total),
            solids: share(sums.solids, sums.total),
            gloss: Gloss(share(sums.gloss, sums.film)),
            metallic: share(sums.metal, sums.coloured) >= bench.get(Figure::MetalShowsFrom),
            holds: sums.holds,
            alone: sums.colours <= 1,
            uncovered: if sums.coloured > 0.0 { sums.uncovered / sums.coloured } else { 1.0 },
        }
    }

    /// The family of the main product; a decal counts as water-based.
    pub fn family(&self) -> Family {
        self.main.map_or(Family::Water, |paint| paint.family)
    }

    /// The kind of the main product.
    pub fn kind(&self) -> Option<Kind> {
        self.main.map(|paint| paint.kind)
    }

    /// The family in it whose solvent bites hardest.
    pub fn strongest(&self) -> Family {
        self.families.iter().max_by_key(|family| strength(*family)).unwrap_or(Family::Water)
    }
}

/// How hard a family's solvent bites into what lies beneath: the ladder of the trade.
pub fn strength(family: Family) -> u8 {
    match family {
        Family::Dry => 0,
        Family::Oil => 1,
        Family::Enamel => 2,
        Family::Water => 3,
        Family::Alcohol => 4,
        Family::Lacquer | Family::TwoPack | Family::Lamp => 5,
    }
}

/// How much ordinary paint a part of a product is worth. A wash is ordinary paint that its maker thinned, whatever its
/// class is called: what it hides follows from its solids. Other products are judged on a brushed coat of themselves.
pub(super) fn strength_of(paint: &Paint, bench: &Bench) -> f64 {
    if paint.kind != Kind::Wash {
        return 1.0;
    }
    bench.get(Figure::SolidsWash) / bench.get(Figure::SolidsWater).max(f64::MIN_POSITIVE)
}

pub(super) fn volume(part: &MixPart, measured: Measured, bench: &Bench) -> f64 {
    match measured {
        Measured::Parts => part.amount.as_f64(),
        Measured::Drops => part.amount.as_f64() * bench.drop(&part.paint).0,
    }
}

/// Whether a product stays on the model as a film.
pub(super) fn forms_film(kind: Kind, stage: Stage) -> bool {
    match kind {
        Kind::Thinner | Kind::Cleaner => false,
        Kind::DecalSoftener => stage == Stage::Decal,
        _ => true,
    }
}

/// The product that makes a coat what it is: the largest share of what colours, or, in a varnish, of what stays.
fn main<'s>(step: &'s Step, bench: &Bench) -> Option<&'s Paint> {
    let rank = |paint: &Paint| match paint.kind {
        Kind::Medium | Kind::DecalSoftener => 0,
        Kind::Varnish | Kind::Glue if step.stage != Stage::Varnish => 1,
        _ => 2,
    };
    let films = step.mix.parts.iter().filter(|part| forms_film(part.paint.kind, step.stage));
    films
        .map(|part| (rank(&part.paint), volume(part, step.mix.measured, bench), &*part.paint))
        .reduce(|best, one| if (one.0, one.1) > (best.0, best.1) { one } else { best })
        .map(|(_, _, paint)| paint)
}

#[derive(Default)]
struct Sums {
    /// Whether there is powder in it: what only holds powder lies between its grains, and makes nothing shine.
    powder: bool,
    holds: bool,
    families: Families,
    total: f64,
    thinner: f64,
    film: f64,
    coloured: f64,
    strength: f64,
    solids: f64,
    gloss: f64,
    metal: f64,
    uncovered: f64,
    /// How many products colour it.
    colours: usize,
}

impl Sums {
    fn add(&mut self, part: &MixPart, volume: f64, stage: Stage, bench: &Bench) {
        let paint = &*part.paint;
        self.total += volume;
        self.families = self.families.with(paint.solvent());
        if !forms_film(paint.kind, stage) {
            self.thinner += volume;
            return;
        }
        self.holds |= paint.kind != Kind::Pigment;
        self.solids += volume * solids(paint, bench);
        if !(paint.kind == Kind::Medium && (self.powder || stage == Stage::Pigment)) {
            self.film += volume;
            self.gloss += volume * gloss_of(paint.sheen, bench);
        }
        if paint.kind.has_colour() {
            self.add_colour(paint, volume, bench);
        }
    }

    fn add_colour(&mut self, paint: &Paint, volume: f64, bench: &Bench) {
        self.coloured += volume;
        self.strength += volume * strength_of(paint, bench);
        self.uncovered += volume * (1.0 - cover(paint.hiding, bench)).clamp(0.0, 1.0);
        if paint.sheen == Sheen::Metallic || paint.kind == Kind::Metal {
            self.metal += volume;
        }
        self.colours += usize::from(volume > 0.0);
    }
}

fn gloss_of(sheen: Sheen, bench: &Bench) -> f64 {
    bench.get(match sheen {
        Sheen::Matt => Figure::GlossOfMatt,
        Sheen::Satin => Figure::GlossOfSatin,
        Sheen::Gloss => Figure::GlossOfGloss,
        Sheen::Metallic => Figure::GlossOfMetal,
    })
}

fn cover(hiding: Hiding, bench: &Bench) -> f64 {
    bench.get(match hiding {
        Hiding::Opaque => Figure::CoverOpaque,
        Hiding::SemiOpaque => Figure::CoverSemiOpaque,
        Hiding::SemiTransparent => Figure::CoverSemiTransparent,
        Hiding::Transparent => Figure::CoverTransparent,
    })
}

fn solids(paint: &Paint, bench: &Bench) -> f64 {
    bench.get(match (paint.kind, paint.family) {
        (Kind::Pigment, _) | (_, Family::Dry | Family::Lamp) | (Kind::Resin, Family::TwoPack) => return 1.0,
        (Kind::Resist, _) => Figure::SolidsResist,
        (Kind::Texture | Kind::Glue, _) => Figure::SolidsTexture,
        (_, Family::Oil) => Figure::SolidsOil,
        (_, Family::Enamel) => Figure::SolidsEnamel,
        (_, Family::TwoPack) => Figure::SolidsTwoPack,
        (Kind::Clear, _) => Figure::SolidsClear,
        (_, Family::Lacquer) => Figure::SolidsLacquer,
        (_, Family::Alcohol) => Figure::SolidsAlcohol,
        (Kind::Wash | Kind::OneCoat, Family::Water) => Figure::SolidsWash,
        (Kind::Ink, Family::Water) => Figure::SolidsInk,
        (Kind::Primer | Kind::Varnish | Kind::Medium | Kind::Resin, Family::Water) => Figure::SolidsWaterClear,
        (_, Family::Water) => Figure::SolidsWater,
    })
}
