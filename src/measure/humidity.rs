//! The humidity of the room.

use super::{FromText, Share};

/// Relative humidity.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Humidity(Share);

impl Humidity {
    /// In per cent.
    pub fn as_percent(self) -> f64 {
        self.0.as_percent()
    }
}

impl FromText for Humidity {
    const EXPECTED: &'static str = "a relative humidity such as '50%'";
    const EXAMPLE: &'static str = "50%";

    fn from_text(text: &str) -> Result<Self, String> {
        Share::from_text(text).map(Self)
    }
}
