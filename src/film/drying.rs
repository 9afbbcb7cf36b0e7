//! How long a coat takes to dry, from its paints, its family and the air of the room.

use std::cmp::Ordering;

use crate::bench::{Bench, Figure, Minutes, Setting};
use crate::guide::{Paint, Room, Step};
use crate::trade::{Family, Kind, Stage};

/// When a coat is how dry, counted from the moment it was laid.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Drying {
    /// It may be touched.
    pub touch: Minutes,
    /// It may be painted over with its own kind.
    pub recoat: Minutes,
    /// It takes a mask, or a wash in a mild solvent.
    pub safe: Minutes,
    /// It is hard through and through.
    pub cured: Minutes,
    /// Whether a paint of the coat itself says how long until it may be painted over.
    pub labelled: bool,
}

impl Drying {
    /// The slower of two.
    fn slower(self, other: Self) -> Self {
        Self {
            touch: self.touch.max(other.touch),
            recoat: self.recoat.max(other.recoat),
            safe: self.safe.max(other.safe),
            cured: self.cured.max(other.cured),
            // The product that rules is the one whose word counts; where two agree, either.
            labelled: match self.recoat.partial_cmp(&other.recoat) {
                Some(Ordering::Greater) => self.labelled,
                Some(Ordering::Less) => other.labelled,
                _ => self.labelled || other.labelled,
            },
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
            Family::Dry => 1.0,
        }
    }
}

/// The pressure of saturated water vapour in kPa.
fn vapour_pressure(celsius: f64) -> f64 {
    0.6112 * (17.62 * celsius / (243.12 + celsius)).exp()
}

/// How a step's coat dries: the slowest of its products rules.
pub(super) fn drying(step: &Step, thinner: f64, bench: &Bench, air: Air) -> Drying {
    let films = step.mix.parts.iter().map(|part| &*part.paint).filter(|paint| forms_film(paint.kind, step.stage));
    films
        .map(|paint| of_paint(paint, step, thinner, bench, air))
        .reduce(Drying::slower)
        .unwrap_or_else(|| defaults(Setting::Decal, Family::Water, step, bench, air))
}

/// Whether a product stays on the model as a film.
pub(super) fn forms_film(kind: Kind, stage: Stage) -> bool {
    match kind {
        Kind::Thinner | Kind::Cleaner => false,
        Kind::DecalSoftener => stage == Stage::Decal,
        _ => true,
    }
}

fn of_paint(paint: &Paint, step: &Step, thinner: f64, bench: &Bench, air: Air) -> Drying {
    let usual = defaults(setting(paint, step, thinner, bench), paint.family, step, bench, air);
    let factor = air.factor(paint.family);
    let own = |time: Option<crate::measure::Time>| time.map(|time| Minutes::from(time).times(factor));
    let cured = own(paint.cure).unwrap_or(usual.cured);
    let recoat = own(paint.recoat).unwrap_or(usual.recoat);
    Drying {
        touch: own(paint.touch_dry).unwrap_or(usual.touch).min(recoat),
        recoat,
        safe: usual.safe.min(cured).max(recoat),
        cured: cured.max(recoat),
        labelled: paint.recoat.is_some(),
    }
}

fn defaults(setting: Setting, family: Family, step: &Step, bench: &Bench, air: Air) -> Drying {
    let factor = air.factor(family);
    let [touch, recoat, safe, cured] =
        bench.times(setting, step.technique.sprays()).map(|minutes| Minutes(minutes * factor));
    Drying { touch, recoat, safe, cured, labelled: false }
}

fn setting(paint: &Paint, step: &Step, thinner: f64, bench: &Bench) -> Setting {
    let is_wash = paint.kind == Kind::Wash || thinner >= bench.get(Figure::WashFromThinner);
    match (paint.kind, paint.family) {
        (Kind::Resist, _) => Setting::Resist,
        (Kind::DecalSoftener, _) => Setting::Decal,
        (Kind::Texture | Kind::Glue, _) => Setting::Paste,
        (Kind::Pigment, _) | (_, Family::Dry) => Setting::Powder,
        (_, Family::TwoPack) => Setting::TwoPack,
        (Kind::Varnish, Family::Water) => Setting::WaterVarnish,
        (Kind::Primer, Family::Water) => Setting::WaterPrimer,
        (Kind::Wash | Kind::OneCoat, Family::Water) => Setting::WaterWash,
        (_, Family::Water) => Setting::Water,
        (_, Family::Alcohol) => Setting::Alcohol,
        (Kind::Varnish | Kind::Clear, Family::Lacquer) => Setting::LacquerClear,
        (_, Family::Lacquer) if step.technique == crate::trade::Technique::SprayCan => Setting::LacquerClear,
        (_, Family::Lacquer) => Setting::Lacquer,
        (Kind::Varnish, Family::Enamel | Family::Oil) => Setting::OilVarnish,
        (_, Family::Enamel | Family::Oil) if is_wash => Setting::SolventWash,
        (_, Family::Enamel) => Setting::Enamel,
        (_, Family::Oil) => Setting::Oil,
    }
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
