//! What was read, for people and for scripts.

use std::fmt::Write as _;

use serde_json::{Value, json};

use crate::brushout::{Bands, Entry, Reading, Spot};
use crate::measure::to_places;
use crate::report;

/// A bare patch of the light tells as much as this: below it nobody would level it out.
const TOLD_TILT: f64 = 1.03;

/// A veil of less than this part of the light changes no colour.
const TOLD_VEIL: f64 = 0.001;

/// The entry, ready to be pasted.
pub(crate) fn text(entry: &Entry) -> String {
    entry.yaml.clone()
}

/// What was read, before the entry.
pub(crate) fn report(reading: &Reading, entry: &Entry) -> String {
    let mut out = String::from("patch                    at            side  colour   spread  used\n");
    for (name, spot) in spots(reading) {
        let (x, y) = spot.sample.at;
        let at = format!("{x:.0},{y:.0}");
        let used = format!("{:.0} %", 100.0 * spot.sample.used);
        let _ = writeln!(
            out,
            "{name:<23}  {at:<12}  {:>4}  {}  {:>6.1}  {used:>5}",
            spot.sample.side, spot.colour, spot.sample.spread
        );
    }
    out.push_str("(pixels of the upright picture; spread: ΔE00 of the patch's parts; bare patches as photographed)\n");
    if reading.light.tilt > TOLD_TILT {
        let tilt = 100.0 * (reading.light.tilt - 1.0);
        let _ = writeln!(
            out,
            "The light is {tilt:.0} % stronger at one bare patch than at another; that was levelled out."
        );
    }
    let veil = 100.0 * reading.light.veil();
    if veil > 100.0 * TOLD_VEIL {
        let _ = writeln!(out, "A veil of {veil:.1} % of the light lay over the picture; that was taken out.");
    }
    if let Some(bands) = reading.other_bands {
        let _ = writeln!(
            out,
            "The colours are told as over cards of {:.0} % and {:.0} %, which the guide counts with, and not {:.0} % and \
             {:.0} %.",
            100.0 * Bands::USUAL.white,
            100.0 * Bands::USUAL.black,
            100.0 * bands.white,
            100.0 * bands.black
        );
    }
    let _ =
        writeln!(out, "One coat is predicted to hide {} (contrast ratio, ISO 6504-3): {}.", hides(entry), entry.hiding);
    for warning in warnings(reading, entry) {
        let _ = writeln!(out, "note: {warning}");
    }
    out.push_str("Put this below 'paints:' in a file of content/paints/:\n\n");
    out
}

/// The range of contrast ratios, or one where it shows as one.
fn hides(entry: &Entry) -> String {
    let (least, most) = entry.contrast_between;
    let [least, most] = [least, most].map(|ratio| format!("{:.0}", 100.0 * ratio));
    if least == most { format!("{least} %") } else { format!("{least} to {most} %") }
}

fn spots(reading: &Reading) -> Vec<(&'static str, Spot)> {
    let mut spots = vec![("over white", reading.white), ("over black", reading.black)];
    spots.extend(reading.bare.iter().copied());
    spots
}

fn warnings(reading: &Reading, entry: &Entry) -> Vec<String> {
    let mut warnings = reading.warnings.clone();
    if entry.wants_tint {
        warnings.push(
            "the two patches look nearly alike or very dark, so nobody can see how strong the paint is; \
             brush out a thinner coat, or better a tint of 1 part to 4 parts of a known white"
                .to_owned(),
        );
    }
    warnings
}

/// Everything as one JSON document. Its fields are described in the README and stay as they are.
pub(crate) fn json(reading: &Reading, entry: &Entry) -> String {
    let spot = |name: &str, spot: &Spot| {
        json!({
            "name": name,
            "x": spot.sample.at.0,
            "y": spot.sample.at.1,
            "side": spot.sample.side,
            "colour": spot.colour.to_string(),
            "spread": to_places(spot.sample.spread, 2),
            "used": to_places(spot.sample.used, 3),
        })
    };
    let coats = entry.label.coats;
    let (least, most) = entry.contrast_between;
    let between = [least, most].map(|ratio| to_places(ratio, 3));
    let bare: Vec<Value> = reading.bare.iter().map(|(name, bare)| spot(name, bare)).collect();
    report::json_text(&json!({
        "picture": { "width": reading.size.0, "height": reading.size.1 },
        "white": spot("over white", &reading.white),
        "black": spot("over black", &reading.black),
        "bare": bare,
        "tilt": to_places(reading.light.tilt, 3),
        "veil": to_places(reading.light.veil(), 3),
        "light_off": to_places(reading.light.off, 3),
        "paint": {
            "id": entry.label.id,
            "name": entry.label.name,
            "kind": entry.label.kind,
            "colour": entry.colour.to_string(),
            "hiding": entry.hiding,
            "contrast_ratio": to_places(entry.contrast_ratio, 3),
            "contrast_between": between,
            "swatches": [
                { "over": "white", "coats": coats, "colour": reading.white.colour.to_string() },
                { "over": "black", "coats": coats, "colour": reading.black.colour.to_string() },
            ],
        },
        "wants_tint": entry.wants_tint,
        "warnings": warnings(reading, entry),
    }))
}
