//! What is known of a figure: its value and unit, what it is, and how far to trust it.

/// What a figure counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unit {
    /// Thousandths of a millimetre.
    Micrometres,
    /// A share of one.
    Share,
    /// Minutes.
    Minutes,
    /// Gloss units at 60 degrees.
    GlossUnits,
    /// CIE lightness, from 0 to 100.
    Lightness,
    /// A plain factor.
    Factor,
    /// Square centimetres.
    SquareCentimetres,
    /// Millimetres.
    Millimetres,
    /// Millilitres.
    Millilitres,
    /// Models.
    Models,
    /// Grams per millilitre.
    GramsPerMillilitre,
    /// CIEDE2000.
    ColourDifference,
    /// Per cent.
    Percent,
    /// Degrees Celsius.
    Celsius,
    /// Parts of a mix, as drops or marks count them.
    Parts,
    /// Steps of a scheme.
    Steps,
    /// Layers that are poured.
    Layers,
}

/// How far a figure can be trusted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Trust {
    /// A standard, or several sources that agree.
    High,
    /// The trade agrees, or one good source says so.
    Medium,
    /// An estimate; measure your own.
    Low,
}

/// One figure.
#[derive(Debug)]
pub struct Entry {
    /// The key by which an author replaces it.
    pub key: &'static str,
    /// The figure.
    pub value: f64,
    /// What it counts.
    pub unit: Unit,
    /// How far to trust it.
    pub trust: Trust,
    /// What it is.
    pub about: &'static str,
}

/// One figure as it is explained: like [`Entry`], for the figures of the table of times too.
#[derive(Debug, Clone)]
pub struct Known {
    /// The key by which an author replaces it.
    pub key: String,
    /// The program's own figure.
    pub value: f64,
    /// What it counts.
    pub unit: Unit,
    /// How far to trust it.
    pub trust: Trust,
    /// What it is.
    pub about: String,
}

impl Unit {
    /// The unit in words, as it is written after a number.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Micrometres => "µm",
            Self::Share => "of 1",
            Self::Minutes => "min",
            Self::GlossUnits => "gloss units",
            Self::Lightness => "of 100",
            Self::Factor => "times",
            Self::SquareCentimetres => "cm²",
            Self::Millimetres => "mm",
            Self::Millilitres => "ml",
            Self::Models => "models",
            Self::GramsPerMillilitre => "g/ml",
            Self::ColourDifference => "CIEDE2000",
            Self::Percent => "%",
            Self::Celsius => "°C",
            Self::Parts => "parts",
            Self::Steps => "steps",
            Self::Layers => "layers",
        }
    }
}

impl Trust {
    /// The trust in words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::High => "high: a standard, or several sources that agree",
            Self::Medium => "medium: the trade agrees, or one good source",
            Self::Low => "low: an estimate; measure your own",
        }
    }
}

/// Makes the names of figures and their entries from one list.
macro_rules! figures {
    ($($(#[doc = $about:literal])+ $name:ident = $key:literal, $value:literal $unit:ident, $trust:ident;)+) => {
        /// A figure, by its name in the program.
        #[derive(Debug, Clone, Copy, PartialEq, Eq)]
        pub enum Figure { $($(#[doc = $about])+ $name,)+ }

        /// All figures, in the order of [`Figure`].
        pub static FIGURES: &[Entry] = &[$(Entry {
            key: $key,
            value: $value,
            unit: Unit::$unit,
            trust: Trust::$trust,
            about: concat!($($about),+).trim_ascii(),
        },)+];
    };
}
