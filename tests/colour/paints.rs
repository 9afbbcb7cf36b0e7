//! Paints for the tests, made of nothing but what the colour method looks at.

use maulstick::guide::{Paint, Swatch};
use maulstick::measure::{Colour, FromText as _, Millilitres};
use maulstick::report::Place;
use maulstick::trade::{Family, Hiding, Kind, Sheen};

/// An ordinary matt paint.
pub(crate) fn paint(id: &str, colour: Option<[u8; 3]>, hiding: Hiding, swatches: Vec<Swatch>) -> Paint {
    Paint {
        id: id.to_owned(),
        name: id.to_owned(),
        maker: String::new(),
        range: String::new(),
        kind: Kind::Paint,
        family: Family::Water,
        colour: colour.map(Colour),
        hiding,
        sheen: Sheen::Matt,
        code: None,
        drop: Millilitres::from_text("0.04 ml").ok(),
        bottles: Vec::new(),
        swatches,
        pigments: Vec::new(),
        thin_with: Vec::new(),
        suits: Vec::new(),
        hazards: Vec::new(),
        touch_dry: None,
        recoat: None,
        cure: None,
        discontinued: false,
        not_for_spraying: false,
        note: None,
        place: Place::default(),
    }
}
