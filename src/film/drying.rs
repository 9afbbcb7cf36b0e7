//! How long a coat takes to dry, from its paints, its family and the air of the room.

use std::cmp::Ordering;

use super::cup::{Cup, forms_film};
use super::what::What;
use crate::bench::{Bench, Figure, Minutes, Setting};
use crate::guide::{MixPart, Paint, Room, Step};
use crate::trade::{Family, Kind, Reach, Stage, Technique, is_instant_glue};

/// When a coat is how dry, counted from the moment it was laid.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Drying {
    /// It may be touched.
    pub touch: Minutes,
    /// The next coat of the same step may follow.
    pub between: Minutes,
    /// It may be painted over with its own kind.
    pub recoat: Minutes,
    /// It takes a mask, or a wash in a mild solvent.
    pub safe: Minutes,
    /// It is hard through and through.
    pub cured: Minutes,
    /// Whether the product that takes longest says itself how long until it may be painted over.
    pub labelled: bool,
    /// The product that takes longest until it may be painted over, by its place in the mix.
    pub slowest: Option<usize>,
}

impl Drying {
    /// The slower of two.
    fn slower(self, other: Self) -> Self {
        // The product that rules is the one whose word counts; where two agree, one that has a word.
        let (ruling, _) = match self.recoat.partial_cmp(&other.recoat) {
            Some(Ordering::Greater) => (self, other),
            Some(Ordering::Less) => (other, self),
            _ if self.labelled => (self, other),
            _ => (other, self),
        };
        Self {
            touch: self.touch.max(other.touch),
            between: self.between.max(other.between),
            recoat: ruling.recoat,
            safe: self.safe.max(other.safe),
            cured: self.cured.max(other.cured),
            labelled: ruling.labelled,
            slowest: ruling.slowest,
        }
    }
}

/// By how much the air of the room slows or speeds drying, against 20 °C and 50 % humidity.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Air {
    water: f64,
    solvent: f64,
    oxygen: f64,
}

impl Air {
    /// Water leaves by the dryness of the air and the pressure of its vapour (first order, Magnus' formula);
    /// solvents halve their time per 12 degrees; oil and enamel harden twice as fast per 10 degrees.
    pub fn of(room: Room) -> Self {
        let warmth = room.temperature.map_or(20.0, |celsius| celsius.0).clamp(5.0, 40.0);
        let damp = room.humidity.map_or(0.5, |humidity| humidity.as_percent() / 100.0).clamp(0.0, 0.95);
        Self {
            water: 0.5 / (1.0 - damp) * (vapour_pressure(20.0) / vapour_pressure(warmth)),
            solvent: 2.0_f64.powf((20.0 - warmth) / 12.0),
            oxygen: 2.0_f64.powf((20.0 - warmth) / 10.0),
        }
    }

    /// How many times as long as at 20 °C and 50 % humidity a family takes to dry.
    pub fn factor(self, family: Family) -> f64 {
        match family {
            Family::Water => self.water,
            Family::Alcohol | Family::Lacquer | Family::TwoPack => self.solvent,
            Family::Enamel | Family::Oil => self.oxygen,
            Family::Dry | Family::Lamp => 1.0,
        }
    }
}

/// The pressure of saturated water vapour in kPa.
fn vapour_pressure(celsius: f64) -> f64 {
    0.6112 * (17.62 * celsius / (243.12 + celsius)).exp()
}

/// How a step's coat dries: the slowest of its products rules.
pub(super) fn drying(step: &Step, what: What, cup: &Cup<'_>, bench: &Bench, air: Air) -> Drying {
    let drawn_out = if cup.coloured > 0.0 { 1.0 - cup.coloured } else { cup.thinner };
    let lying = Lying { step, what, thinner: cup.thinner, drawn_out, bench, air };
    // A little glue in paint dries with it; glue as such lies thick.
    let is_paint = matches!(what, What::Ground | What::Colour | What::Shade | What::Tint);
    let rules =
        |part: &MixPart| forms_film(part.paint.kind, step.stage) && !(is_paint && part.paint.kind == Kind::Glue);
    let films = step.mix.parts.iter().enumerate().filter(|(_, part)| rules(part));
    films
        .map(|(at, part)| Drying { slowest: Some(at), ..lying.of_paint(&part.paint) })
        .reduce(Drying::slower)
        .unwrap_or_else(|| lying.usual(Setting::Decal, Family::Water))
}

/// How long two that are blended stay open together: as long as the faster of them. `None` where nothing is blended, or a
/// medium in it may keep it open for as long as its maker likes.
pub(super) fn open_time(step: &Step, what: What, thinner: f64, bench: &Bench, air: Air) -> Option<Minutes> {
    let (first, second) = step.mix.parts.split_at_checked(step.mix.blend?)?;
    if step.mix.parts.iter().any(|part| part.paint.kind == Kind::Medium) {
        return None;
    }
    let lying = Lying { step, what, thinner, drawn_out: thinner, bench, air };
    let side = |parts: &[MixPart]| {
        let films = parts.iter().filter(|part| forms_film(part.paint.kind, step.stage));
        films.map(|part| lying.of_paint(&part.paint).touch).reduce(Minutes::max)
    };
    let open =
        [side(first)?, side(second)?].into_iter().reduce(|one, other| if one.0 < other.0 { one } else { other })?;
    Some(open.times(bench.get(Figure::OpenShare)))
}

/// How a coat lies, on which its times depend.
#[derive(Clone, Copy)]
struct Lying<'a> {
    step: &'a Step,
    what: What,
    thinner: f64,
    /// The share of thinner and medium, with which a paint is drawn out.
    drawn_out: f64,
    bench: &'a Bench,
    air: Air,
}

impl Lying<'_> {
    /// The times of one product: its label's where it has some, which speaks of an ordinary coat and not of a thin one.
    fn of_paint(&self, paint: &Paint) -> Drying {
        let setting = self.setting(paint);
        let family = self.wetted().filter(|_| setting == Setting::PowderWet).unwrap_or(paint.family);
        let usual = self.usual(setting, family);
        let factor = self.air.factor(family);
        let own = |time: Option<crate::measure::Time>| time.map(|time| Minutes::from(time).times(factor));
        let cured = own(paint.cure).unwrap_or(usual.cured);
        let label = own(paint.recoat);
        let recoat = match label {
            Some(label) if setting == Setting::WaterThin => label.min(usual.recoat),
            Some(label) => label,
            None => usual.recoat,
        };
        let touch = own(paint.touch_dry).unwrap_or(usual.touch).min(recoat);
        Drying {
            touch,
            between: self.between(paint, touch, recoat),
            recoat,
            safe: usual.safe.min(cured).max(recoat),
            cured: cured.max(recoat),
            labelled: label == Some(recoat),
            slowest: None,
        }
    }

    fn usual(&self, setting: Setting, family: Family) -> Drying {
        let factor = self.air.factor(family);
        let [touch, recoat, safe, cured] =
            self.bench.times(setting, self.step.technique.sprays()).map(|minutes| Minutes(minutes * factor));
        Drying { touch, between: recoat, recoat, safe, cured, labelled: false, slowest: None }
    }

    /// How long between two coats of the step: a mist needs minutes, a quick clear that lies wet a few more, a can what its
    /// label says, a tool that does not drag until the film can be touched, a wet brush as long as any other coat.
    fn between(&self, paint: &Paint, touch: Minutes, recoat: Minutes) -> Minutes {
        let factor = self.air.factor(paint.family);
        let slow = matches!(paint.family, Family::Enamel | Family::Oil | Family::TwoPack);
        let clear = matches!(paint.kind, Kind::Clear | Kind::Varnish);
        let figure = |figure: Figure| Minutes(self.bench.get(figure) * factor);
        match self.step.technique {
            Technique::Airbrush if clear && !slow => recoat.min(figure(Figure::ClearRest)),
            Technique::Airbrush if !slow => recoat.min(figure(Figure::MistRest)),
            Technique::SprayCan if !slow && paint.recoat.is_none() => recoat.min(figure(Figure::CanRest)),
            Technique::SprayCan => recoat,
            technique if technique.is_gentle() => touch,
            _ => recoat,
        }
    }

    /// Which row of the table holds.
    fn setting(&self, paint: &Paint) -> Setting {
        let is_wash = paint.kind == Kind::Wash || self.thinner >= self.bench.get(Figure::WashFromThinner);
        match (paint.kind, paint.family) {
            (Kind::Resist, _) => Setting::Resist,
            (Kind::DecalSoftener, _) => Setting::Decal,
            (_, Family::Lamp) => Setting::Lamp,
            (Kind::Glue, _) if is_instant_glue(&paint.name, &paint.id) => Setting::InstantGlue,
            // What is poured is through when it is clear; the same gel brushed on as a skin dries like paste.
            (Kind::Resin, Family::Water) if self.step.deep.is_some() => Setting::WaterGel,
            (Kind::Texture | Kind::Glue, _) | (Kind::Resin, Family::Water) => Setting::Paste,
            (Kind::Pigment, _) | (_, Family::Dry) if self.wetted().is_some() => Setting::PowderWet,
            (Kind::Pigment, _) | (_, Family::Dry) => Setting::Powder,
            (_, Family::TwoPack) => Setting::TwoPack,
            (Kind::Varnish, Family::Water) => Setting::WaterVarnish,
            (Kind::Primer, Family::Water) => Setting::WaterPrimer,
            (Kind::OneCoat, Family::Water) => Setting::WaterFlood,
            (_, Family::Water) if self.what == What::Shade && self.floods() => Setting::WaterFlood,
            (Kind::Wash, Family::Water) if self.what == What::Shade => Setting::WaterWash,
            (_, Family::Water) if self.is_thin(paint.kind) => Setting::WaterThin,
            (Kind::Wash, Family::Water) => Setting::WaterWash,
            (_, Family::Water) => Setting::Water,
            (_, Family::Alcohol) => Setting::Alcohol,
            (Kind::Varnish | Kind::Clear, Family::Lacquer) => Setting::LacquerClear,
            (_, Family::Lacquer) if self.step.technique == Technique::SprayCan => Setting::LacquerClear,
            (_, Family::Lacquer) => Setting::Lacquer,
            (Kind::Varnish, Family::Enamel | Family::Oil) => Setting::OilVarnish,
            // Fixer is next to nothing but spirit.
            (Kind::Medium, Family::Enamel | Family::Oil) if self.step.stage.weathers() => Setting::SolventWash,
            (_, Family::Enamel | Family::Oil) if is_wash => Setting::SolventWash,
            (_, Family::Enamel) => Setting::Enamel,
            (_, Family::Oil) => Setting::Oil,
        }
    }

    /// What powder is wetted with, thinner or fixer, by its family: it has dried when it has gone pale.
    fn wetted(&self) -> Option<Family> {
        let wets = |part: &&MixPart| matches!(part.paint.kind, Kind::Thinner | Kind::Medium);
        self.step.mix.parts.iter().find(wets).map(|part| part.paint.family)
    }

    /// Whether a wash goes over everything with a wet brush, and pools.
    fn floods(&self) -> bool {
        self.step.reach == Reach::All
            && !self.step.technique.sprays()
            && self.step.stage == Stage::Shade
            && !is_glazed(self.step, self.what)
    }

    /// Whether it lies thin: drawn out from a wet palette, thinned, or sprayed as a mist over what shows through.
    fn is_thin(&self, kind: Kind) -> bool {
        let thin_work = matches!(self.step.stage, Stage::Layer | Stage::Glaze | Stage::Highlight | Stage::Detail);
        let drawn_out = self.drawn_out >= self.bench.get(Figure::ThinFromThinner);
        match self.step.technique {
            Technique::SprayCan => false,
            Technique::Airbrush => thin_work || self.step.stage == Stage::Preshade,
            Technique::Drybrush | Technique::Sponge | Technique::Stipple => true,
            // What is to stay wet is laid wet.
            _ if self.step.mix.blend.is_some() => false,
            // What sand drinks is not thin.
            _ if self.step.stage == Stage::Basing => false,
            // A neat clear is a drop that lies as it flows, whatever the work is called.
            _ if kind == Kind::Clear => drawn_out,
            _ => thin_work || drawn_out,
        }
    }
}

/// Whether paint that was thinned to shade with lies in several thin coats: nobody floods a model twice.
pub(super) fn is_glazed(step: &Step, what: What) -> bool {
    let is_paint = step.mix.parts.iter().all(|part| !matches!(part.paint.kind, Kind::Wash | Kind::OneCoat));
    what == What::Shade && step.coats > 1 && is_paint
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::{Celsius, FromText, Humidity};

    fn water_factor(celsius: f64, humidity: &str) -> f64 {
        let humidity = Humidity::from_text(humidity).ok();
        Air::of(Room { temperature: Some(Celsius(celsius)), humidity }).water
    }

    #[test]
    fn damp_and_cold_slow_water_as_the_trade_reckons() {
        for (celsius, humidity, expected) in
            [(20.0, "50%", 1.0), (20.0, "70%", 1.67), (20.0, "90%", 5.0), (10.0, "50%", 1.9), (30.0, "50%", 0.55)]
        {
            let factor = water_factor(celsius, humidity);
            assert!((factor - expected).abs() < 0.05, "{celsius} C, {humidity}: {factor}");
        }
        assert!(water_factor(60.0, "100%").is_finite());
    }
}
