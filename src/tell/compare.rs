//! A photographed model against its predictions, for people and for scripts.

use std::fmt::Write as _;

use serde_json::{Value, json};

use crate::compare::{Absence, Change, Compared, Reading, Trial};
use crate::guide::{Area, Scheme};
use crate::measure::to_places;
use crate::report::{self, wording};

/// What came out, as text.
pub(crate) fn text(scheme: &Scheme, compared: &[Compared], reading: &Reading, balanced: bool) -> String {
    let mut out = format!("{}\n\n", scheme.title);
    let wide = compared.iter().map(|one| title(scheme, one.area).chars().count()).max().unwrap_or(0).max(4);
    let _ = writeln!(out, "{:<wide$}  predicted  measured  apart", "area");
    for one in compared {
        let predicted = one.predicted.map_or("not known".to_owned(), |colour| colour.to_string());
        let apart = one.apart.map_or(String::new(), |apart| format!("{apart:>5.0}"));
        let _ = writeln!(
            out,
            "{:<wide$}  {predicted:<9}  {:<8}  {apart}",
            title(scheme, one.area),
            one.measured.to_string()
        );
    }
    out.push_str("(faces of the finished model; apart: ΔE00)\n");
    for one in compared {
        let _ = writeln!(out, "\n{}: {}", title(scheme, one.area), verdict(one));
        for trial in &one.explained {
            let _ = writeln!(out, "  {}: then {} and {:.0} apart", in_words(scheme, trial), trial.colour, trial.apart);
        }
    }
    left_out(&mut out, scheme, reading);
    if !balanced {
        out.push_str("\nnote: the camera's own white balance and exposure are believed; give --white X,Y for something white in the picture, or --grey X,Y for a grey card\n");
    }
    out
}

/// The areas that were not compared, a line each, and what on the map is no area's.
fn left_out(out: &mut String, scheme: &Scheme, reading: &Reading) {
    for missing in &reading.missing {
        let Some(area) = scheme.areas.get(missing.area) else { continue };
        let (why, mend) = absence(area, missing.why);
        let _ = writeln!(out, "\n{}: not compared, {why}; {mend}", area.title);
    }
    for colour in &reading.strays {
        let mend = format!("give it to an area, as in 'map: \"{colour}\"', or paint over it");
        let _ = writeln!(out, "\nnote: about {colour} on the map is no area's colour; {mend}");
    }
}

/// Why an area was not compared, and what helps.
fn absence(area: &Area, why: Absence) -> (String, String) {
    let id = &area.id;
    let point = format!("name a point on it, as in '--at {id}=41%,22%'");
    match why {
        Absence::Unnamed => (
            "nothing says which colour it has on the map".to_owned(),
            format!("write it, as in 'areas: {{{id}: {{map: \"#ff0000\"}}}}', or {point}"),
        ),
        Absence::NotOnMap(colour) => {
            (format!("its colour, {colour}, is not on the map"), format!("paint it there in that colour, or {point}"))
        }
        Absence::Small(pixels) => (
            format!("the photo shows only {} of it", wording::counted(pixels, "pixel", "pixels")),
            format!("take a photo of more pixels, or {point}"),
        ),
    }
}

fn verdict(one: &Compared) -> String {
    match one.apart {
        None => "a paint on it has no colour on file, so nothing was predicted".to_owned(),
        Some(apart) => {
            let within = one.nine_in_ten.filter(|within| apart <= *within);
            let found = match within {
                Some(within) => format!("within what the prediction and the photo may be off (±{within:.0})"),
                None => "further off than predictions are".to_owned(),
            };
            match (within.is_some(), one.explained.is_empty()) {
                (true, true) => found,
                (true, false) => format!("{found}; if a step went otherwise, perhaps:"),
                (false, true) => format!("{found}, and no single step explains it: another paint, or other light"),
                (false, false) => format!("{found}; this may explain it:"),
            }
        }
    }
}

fn in_words(scheme: &Scheme, trial: &Trial) -> String {
    let step = scheme.steps.get(trial.step);
    let name = step.map_or(String::new(), |step| format!("step {}, {}", step.number, step.title));
    let first = step.and_then(|step| step.mix.parts.iter().find(|part| part.paint.kind.has_colour()));
    let first = first.map_or("the first colour", |part| part.paint.name.as_str());
    let what = match trial.change {
        Change::CoatLess => "one coat less".to_owned(),
        Change::CoatMore => "one coat more".to_owned(),
        Change::LeftOut => "left out".to_owned(),
        Change::Thinner => "thinned twice as much".to_owned(),
        Change::Thicker => "thinned half as much".to_owned(),
        Change::MoreOfFirst => format!("twice as much {first}"),
        Change::LessOfFirst => format!("half as much {first}"),
    };
    format!("{name}: {what}")
}

fn title(scheme: &Scheme, area: usize) -> &str {
    scheme.areas.get(area).map_or("", |area| area.title.as_str())
}

/// What came out, as JSON.
pub(crate) fn json(scheme: &Scheme, compared: &[Compared], reading: &Reading, balanced: bool) -> String {
    let trial = |trial: &Trial| {
        json!({
            "step": scheme.steps.get(trial.step).map(|step| step.number),
            "stem": scheme.steps.get(trial.step).map(|step| &step.stem),
            "change": trial.change.name(),
            "colour": trial.colour.to_string(),
            "apart": rounded(trial.apart),
        })
    };
    let area = |one: &Compared| {
        json!({
            "area": scheme.areas.get(one.area).map(|area| &area.id),
            "predicted": one.predicted.map(|colour| colour.to_string()),
            "measured": one.measured.to_string(),
            "apart": one.apart.map(rounded),
            "give_or_take": one.give_or_take.map(rounded),
            "nine_in_ten": one.nine_in_ten.map(rounded),
            "explained": one.explained.iter().map(trial).collect::<Vec<Value>>(),
        })
    };
    let areas: Vec<Value> = compared.iter().map(area).collect();
    let missing = reading.missing.iter().filter_map(|missing| {
        let area = scheme.areas.get(missing.area)?;
        let (why, mend) = absence(area, missing.why);
        Some(json!({ "area": area.id, "why": why, "mend": mend }))
    });
    report::json_text(&json!({
        "scheme": scheme.slug,
        "balanced": balanced,
        "areas": areas,
        "missing": missing.collect::<Vec<Value>>(),
        "unclaimed": reading.strays.iter().map(ToString::to_string).collect::<Vec<_>>(),
    }))
}

fn rounded(number: f64) -> f64 {
    to_places(number, 1)
}
