//! The table of drying times: what holds where no label says anything.

use super::entry::Trust;

/// The ways in which films set, each with its own row of drying times.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Setting {
    /// Water-based paint.
    Water,
    /// Water-based paint laid thin, from a wet palette or as a mist.
    WaterThin,
    /// Water-based wash, where it runs.
    WaterWash,
    /// Water-based wash or one-coat paint that floods an area and pools.
    WaterFlood,
    /// Water-based undercoat.
    WaterPrimer,
    /// Water-based varnish.
    WaterVarnish,
    /// Alcohol-carried paint.
    Alcohol,
    /// Lacquer.
    Lacquer,
    /// Clear lacquer.
    LacquerClear,
    /// Enamel.
    Enamel,
    /// Wash in a mild solvent.
    SolventWash,
    /// Artist's oil.
    Oil,
    /// Varnish on oil.
    OilVarnish,
    /// Paint that sets with a hardener.
    TwoPack,
    /// What a lamp hardens.
    Lamp,
    /// What is laid to be taken off again.
    Resist,
    /// Water-slide decal.
    Decal,
    /// Paste with grit.
    Paste,
    /// Water gel or water-based resin that is poured with a depth.
    WaterGel,
    /// Glue that sets in seconds.
    InstantGlue,
    /// Dry powder.
    Powder,
    /// Powder in thinner or fixer.
    PowderWet,
}

/// How long a kind of film takes, in minutes at 20 °C and 50 % humidity, thin, in gentle air. Trade figures of
/// medium trust, but for own estimates, which say so; a label's own times take their place.
pub(super) struct Row {
    pub(super) setting: Setting,
    pub(super) key: &'static str,
    pub(super) minutes: [f64; PHASES.len()],
}

/// The columns of the table, as the second half of a key: `water-brush-recoat`.
pub(super) const PHASES: [&str; 6] =
    ["spray-touch", "spray-recoat", "brush-touch", "brush-recoat", "solvent-safe", "cure"];

/// The same in words.
pub(super) const PHASE_WORDS: [&str; PHASES.len()] = [
    "touch dry after it was sprayed",
    "ready for the next coat after it was sprayed",
    "touch dry after it was brushed",
    "ready for the next coat after it was brushed",
    "ready for tape and for mild solvents",
    "hard all through",
];

const fn row(setting: Setting, key: &'static str, minutes: [f64; PHASES.len()]) -> Row {
    Row { setting, key, minutes }
}

impl Setting {
    /// How far to trust its times.
    pub(super) const fn trust(self) -> Trust {
        match self {
            Self::WaterGel | Self::InstantGlue | Self::PowderWet => Trust::Low,
            _ => Trust::Medium,
        }
    }

    /// What kind of film it is, in the trade's words.
    pub(super) const fn about(self) -> &'static str {
        match self {
            Self::Water => "water-based paint",
            Self::WaterThin => "water-based paint laid thin",
            Self::WaterWash => "water-based wash",
            Self::WaterFlood => "water-based wash that floods an area",
            Self::WaterPrimer => "water-based undercoat",
            Self::WaterVarnish => "water-based varnish",
            Self::Alcohol => "alcohol-carried paint",
            Self::Lacquer => "lacquer",
            Self::LacquerClear => "clear lacquer",
            Self::Enamel => "enamel",
            Self::SolventWash => "wash in white spirit",
            Self::Oil => "artist's oil",
            Self::OilVarnish => "varnish in white spirit",
            Self::TwoPack => "two-pack paint",
            Self::Lamp => "resin under a lamp",
            Self::Resist => "chipping medium",
            Self::Decal => "water-slide decal",
            Self::Paste => "paste with grit",
            Self::WaterGel => "water gel that is poured (own estimate)",
            Self::InstantGlue => "instant glue (own estimate)",
            Self::Powder => "dry powder",
            Self::PowderWet => "powder laid with thinner or fixer (own estimate)",
        }
    }
}

const HOUR: f64 = 60.0;
const DAY: f64 = 24.0 * HOUR;

pub(super) static TIMES: &[Row] = &[
    row(Setting::Water, "water", [6.0, 20.0, 20.0, 40.0, DAY, 3.0 * DAY]),
    row(Setting::WaterThin, "water-thin", [1.0, 3.0, 2.0, 5.0, DAY, 3.0 * DAY]),
    row(Setting::WaterFlood, "water-flood", [45.0, 90.0, 45.0, 90.0, DAY, 3.0 * DAY]),
    row(Setting::WaterWash, "water-wash", [30.0, HOUR, 30.0, HOUR, DAY, 3.0 * DAY]),
    row(Setting::WaterPrimer, "water-primer", [15.0, 30.0, 30.0, 2.0 * HOUR, DAY, 2.0 * DAY]),
    row(Setting::WaterVarnish, "water-varnish", [10.0, 30.0, 30.0, 2.0 * HOUR, DAY, 3.0 * DAY]),
    row(Setting::Alcohol, "alcohol", [3.0, 15.0, 15.0, 40.0, 18.0 * HOUR, 2.0 * DAY]),
    row(Setting::Lacquer, "lacquer", [3.0, 20.0, 10.0, 40.0, 2.0 * HOUR, DAY]),
    row(Setting::LacquerClear, "lacquer-clear", [10.0, 25.0, 10.0, 40.0, 12.0 * HOUR, 2.0 * DAY]),
    row(Setting::Enamel, "enamel", [3.0 * HOUR, 18.0 * HOUR, 6.0 * HOUR, DAY, 2.0 * DAY, 5.0 * DAY]),
    row(Setting::SolventWash, "solvent-wash", [2.0 * HOUR, 18.0 * HOUR, 2.0 * HOUR, 18.0 * HOUR, DAY, 3.0 * DAY]),
    row(Setting::Oil, "oil", [DAY, 3.0 * DAY, DAY, 3.0 * DAY, 7.0 * DAY, 30.0 * DAY]),
    row(Setting::OilVarnish, "oil-varnish", [3.0 * HOUR, 12.0 * HOUR, 3.0 * HOUR, 12.0 * HOUR, 3.0 * DAY, 30.0 * DAY]),
    row(Setting::TwoPack, "two-pack", [2.0 * HOUR, 12.0 * HOUR, 2.0 * HOUR, 12.0 * HOUR, DAY, 7.0 * DAY]),
    row(Setting::Lamp, "lamp", [3.0, 5.0, 3.0, 5.0, 10.0, HOUR]),
    row(Setting::Resist, "resist", [6.0, 12.0, 6.0, 12.0, 12.0, 12.0]),
    row(Setting::Decal, "decal", [2.0 * HOUR, 12.0 * HOUR, 2.0 * HOUR, 12.0 * HOUR, DAY, DAY]),
    row(Setting::Paste, "paste", [2.0 * HOUR, 8.0 * HOUR, 2.0 * HOUR, 8.0 * HOUR, DAY, DAY]),
    // A poured layer goes on when it is clear: about a day for 2 to 3 mm (own estimate on a painter's word).
    row(Setting::WaterGel, "water-gel", [8.0 * HOUR, DAY, 8.0 * HOUR, DAY, 2.0 * DAY, 3.0 * DAY]),
    // It holds in seconds and takes paint in minutes (own estimate); full strength, which paint does not need, takes a day.
    row(Setting::InstantGlue, "instant-glue", [2.0, 10.0, 2.0, 10.0, 30.0, HOUR]),
    row(Setting::Powder, "powder", [0.0; PHASES.len()]),
    // Until it has gone pale: half an hour to an hour (own estimate on a painter's word).
    row(Setting::PowderWet, "powder-wet", [20.0, 45.0, 20.0, 45.0, HOUR, HOUR]),
];
