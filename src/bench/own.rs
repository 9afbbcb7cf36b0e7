//! The figures of one guide, with an author's own in the places of the program's.

use super::entry::{Known, Unit};
use super::figures::{FIGURES, Figure};
use super::times::{PHASE_WORDS, PHASES, Row, Setting, TIMES};
use crate::guide::{BenchFigure, Paint};
use crate::measure::Millilitres;
use crate::trade::{Family, Kind};

/// The figures of one guide: the program's, with the author's own in their places.
#[derive(Debug, Clone, PartialEq)]
pub struct Bench {
    figures: Vec<f64>,
    times: Vec<[f64; PHASES.len()]>,
}

impl Default for Bench {
    fn default() -> Self {
        Self {
            figures: FIGURES.iter().map(|entry| entry.value).collect(),
            times: TIMES.iter().map(|row| row.minutes).collect(),
        }
    }
}

impl Bench {
    /// The figures with an author's own; what has no known key is left out.
    pub fn of(own: &[BenchFigure]) -> Self {
        let mut bench = Self::default();
        for figure in own {
            if let Some(slot) = bench.slot(&figure.key) {
                *slot = figure.value.as_f64();
            }
        }
        bench
    }

    fn slot(&mut self, key: &str) -> Option<&mut f64> {
        if let Some(at) = FIGURES.iter().position(|entry| entry.key == key) {
            return self.figures.get_mut(at);
        }
        let (row, phase) = TIMES.iter().enumerate().find_map(|(at, row)| {
            let phase = key.strip_prefix(row.key)?.strip_prefix('-')?;
            Some((at, PHASES.iter().position(|name| *name == phase)?))
        })?;
        self.times.get_mut(row)?.get_mut(phase)
    }

    /// Whether a figure is divided by, so that it can't be 0: what a coat takes to hide, what of the paint reaches the
    /// model, how large and how heavy a drop is, how far a figure may be off, what a figure of minutes is for.
    pub fn is_divided_by(key: &str) -> bool {
        let named =
            ["hiding-coat", "solids-water", "figure-height", "minutes-colour-share", "minutes-terrain"].contains(&key);
        let begins = ["drop-", "density-", "spread-", "can-on-"].iter().any(|start| key.starts_with(start));
        let sprayed = ["airbrush-single", "airbrush-row", "airbrush-vehicle", "airbrush-terrain"].contains(&key);
        named || begins || sprayed || key.ends_with("-efficiency")
    }

    /// All keys by which an author may replace a figure.
    pub fn keys() -> impl Iterator<Item = String> {
        let times = TIMES.iter().flat_map(|row| PHASES.iter().map(|phase| format!("{}-{phase}", row.key)));
        FIGURES.iter().map(|entry| entry.key.to_owned()).chain(times)
    }

    /// Every figure that an author may replace, with what it is: those of the table of times too.
    pub fn entries() -> impl Iterator<Item = Known> {
        let figures = FIGURES.iter().map(|entry| Known {
            key: entry.key.to_owned(),
            value: entry.value,
            unit: entry.unit,
            trust: entry.trust,
            about: entry.about.to_owned(),
        });
        let time = |row: &Row, at: usize| Known {
            key: format!("{}-{}", row.key, PHASES[at]),
            value: row.minutes[at],
            unit: Unit::Minutes,
            trust: row.setting.trust(),
            about: format!("{}: {}, at 20 °C and 50 % humidity.", row.setting.about(), PHASE_WORDS[at]),
        };
        let times = TIMES.iter().flat_map(move |row| (0..PHASES.len()).map(move |at| time(row, at)));
        figures.chain(times)
    }

    /// A figure.
    pub fn get(&self, figure: Figure) -> f64 {
        self.figures.get(figure as usize).copied().unwrap_or_default()
    }

    /// The times of a kind of film, sprayed or brushed: touch dry, recoat, safe for masks and solvents, cured.
    pub fn times(&self, setting: Setting, sprayed: bool) -> [f64; 4] {
        let at = TIMES.iter().position(|row| row.setting == setting);
        let [spray_touch, spray_recoat, brush_touch, brush_recoat, safe, cure] =
            at.and_then(|at| self.times.get(at)).copied().unwrap_or_default();
        if sprayed { [spray_touch, spray_recoat, safe, cure] } else { [brush_touch, brush_recoat, safe, cure] }
    }

    /// How much a drop of a product is: as the author says, or what is usual for its kind and family.
    pub fn drop(&self, paint: &Paint) -> Millilitres {
        paint.drop.unwrap_or_else(|| Millilitres(self.get(usual_drop(paint.kind, paint.family))))
    }

    /// How long a gloss of a family rests before a decal, in minutes.
    pub fn decal_rest(&self, family: Family) -> f64 {
        self.get(match family {
            Family::Enamel | Family::Oil | Family::TwoPack => Figure::DecalAfterEnamel,
            Family::Lacquer => Figure::DecalAfterLacquer,
            Family::Water | Family::Alcohol | Family::Lamp | Family::Dry => Figure::DecalAfterWater,
        })
    }
}

/// The figure of a product's drop, where nobody says how large it is.
fn usual_drop(kind: Kind, family: Family) -> Figure {
    match (kind, family) {
        (Kind::Clear | Kind::Ink | Kind::Thinner | Kind::Cleaner, Family::Alcohol | Family::Lacquer) => {
            Figure::DropThinSolvent
        }
        (_, Family::Enamel | Family::Alcohol | Family::Lacquer) | (Kind::Thinner | Kind::Cleaner, Family::Oil) => {
            Figure::DropSpirit
        }
        (Kind::Wash | Kind::OneCoat | Kind::Ink | Kind::Clear, _) => Figure::DropThin,
        (Kind::Thinner | Kind::Cleaner, Family::Water) => Figure::DropWater,
        (Kind::Oil, _) | (Kind::Metal | Kind::Varnish | Kind::Primer | Kind::Glue, Family::Water) => Figure::DropThick,
        _ => Figure::DropPaint,
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;
    use crate::measure::Fraction;
    use crate::report::Place;

    #[test]
    fn every_figure_has_one_key_and_can_be_replaced() {
        let keys: Vec<String> = Bench::keys().collect();
        assert_eq!(keys.iter().collect::<BTreeSet<_>>().len(), keys.len());
        let mut bench = Bench::default();
        for key in &keys {
            assert!(bench.slot(key).is_some(), "{key}");
        }
        let own = BenchFigure { key: "oil-cure".to_owned(), value: Fraction::new(5, 1), place: Place::default() };
        assert_eq!(Bench::of(&[own]).times(Setting::Oil, false)[3].to_bits(), 5.0_f64.to_bits());
    }

    #[test]
    fn a_film_takes_ever_longer_to_the_next_stage_of_drying() {
        for row in TIMES {
            for sprayed in [true, false] {
                let times = Bench::default().times(row.setting, sprayed);
                assert!(times.is_sorted(), "{}: {times:?}", row.key);
            }
        }
    }
}
