//! The entry for a file of paints, with what follows from the two patches.

use std::fmt::Write as _;

use super::card::Reading;
use crate::colour::contrast::class_of;
use crate::colour::{Mixture, Shelf, TELLS_NO_STRENGTH, coats_over_white, space};
use crate::door::Memory;
use crate::measure::Colour;
use crate::trade::{Hiding, Kind};
use crate::{guide, source};

/// What the author says of the paint.
#[derive(Debug, Clone)]
pub struct Label {
    /// The id.
    pub id: String,
    /// The name.
    pub name: String,
    /// What it is.
    pub kind: Kind,
    /// How many coats are on the card.
    pub coats: u32,
}

/// What is known of the paint now.
#[derive(Debug, Clone)]
pub struct Entry {
    /// The label.
    pub label: Label,
    /// Its predicted colour where it covers fully; of what tints, over white.
    pub colour: Colour,
    /// The hiding class that comes nearest to one coat.
    pub hiding: Hiding,
    /// How one coat hides: luminance over black by luminance over white (ISO 6504-3), predicted for one coat.
    pub contrast_ratio: f64,
    /// Between what it lies, by all that the card leaves open.
    pub contrast_between: (f64, f64),
    /// Whether its strength can't be seen on this card.
    pub wants_tint: bool,
    /// The entry as YAML, indented as it is below `paints:`.
    pub yaml: String,
}

/// The entry for what was read.
///
/// `None` where the program's own reader does not take it: an id or a name that is none.
pub fn entry(label: Label, reading: &Reading) -> Option<Entry> {
    let swatches = format!(
        "    swatches:\n      - {{over: white, coats: {coats}, colour: \"{}\"}}\n      \
         - {{over: black, coats: {coats}, colour: \"{}\"}}\n",
        reading.white.colour,
        reading.black.colour,
        coats = label.coats,
    );
    // A string of JSON is one of YAML too.
    let name = serde_json::Value::from(label.name.as_str());
    let head = format!("  {}:\n    name: {name}\n    kind: {}\n", label.id, label.kind);
    let paints = resolved(&format!("maker: Card\nrange: Card\nfamily: water\npaints:\n{head}{swatches}"))?;
    let shelf = Shelf::of(&paints);
    let pigment = shelf.pigment(&label.id)?;
    let mixture = Mixture::of(&[(pigment, 1.0)])?;
    let hiding = class_of(&pigment.depths, pigment.white);
    let over_white = coats_over_white(label.kind, hiding);
    let covering = || mixture.opaque(shelf.surface());
    let linear = over_white.map_or_else(covering, |coats| mixture.over_white(coats, shelf.surface()));
    let off = match over_white {
        Some(coats) => mixture.uncertainty_over_white(coats, shelf.surface()),
        None => mixture.uncertainty(shelf.surface()),
    };
    let off = off.map(|off| off.nine_in_ten);
    let (colour, contrast_ratio) = (space::shown(linear), mixture.contrast_ratio(1.0));
    let contrast_between = mixture.contrast_between(1.0);
    let luminance = |colour: Colour| space::luminance(space::linear(colour));
    let alike = luminance(reading.black.colour) > TELLS_NO_STRENGTH * luminance(reading.white.colour);
    let what = over_white.map_or("where it covers fully".to_owned(), |coats| format!("{coats} coats over white"));
    let mut yaml = head;
    // A note and no key: what is stated counts as seen, and this is not.
    let _ =
        writeln!(yaml, "    # {what}, predicted: {colour}{}", off.map_or(String::new(), |off| format!(" (±{off:.0})")));
    let _ = writeln!(yaml, "    hiding: {hiding}");
    yaml.push_str(&swatches);
    Some(Entry {
        colour,
        hiding,
        contrast_ratio,
        contrast_between,
        wants_tint: alike || pigment.wants_tint,
        yaml,
        label,
    })
}

/// The paints of a file, as a guide would have them; the entry is read by what will read it.
fn resolved(file: &str) -> Option<Vec<std::sync::Arc<guide::Paint>>> {
    let door = Memory::default()
        .with("content/guide.yaml", "title: Card\nauthor: Card\n")
        .with("content/paints/card.yaml", file);
    let mut source = source::read(&door).ok()?;
    let (guide, _) = guide::resolve(&mut source);
    (!guide.paints.is_empty()).then_some(guide.paints)
}
