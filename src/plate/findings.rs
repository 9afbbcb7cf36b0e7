//! What is reported of bare models: pictures that can't be read or do not fit, and areas that are not found.

use booth::{NO_AREA, Photo};
use image::DynamicImage;

use super::areas::AreaMap;
use super::checks;
use super::flats::Stray;
use crate::colour::space;
use crate::guide::{BarePhoto, Scheme};
use crate::measure::Colour;
use crate::picture::Fault;
use crate::report::{Finding, Placed, wording};

/// Shapes differ where the longer side of one is off by more than this part.
const SAME_SHAPE: f64 = 0.02;

/// A photo with fewer pixels across, and a map with fewer, make coarse pictures.
const SMALL: [u32; 2] = [480, 160];

/// Where three quarters of the model have less of a white's light than this, few shades are told apart: it is 39 of
/// 255 steps (IEC 61966-2-1). Below the same bound the booth believes no colour of a coat (`booth/photo.rs`).
const DARK: f64 = 0.02;

/// Two colours on a map are taken for one where they are nearer than this, squared over all channels.
const ALIKE: u32 = 24 * 24;

/// The finding for a picture that can't be read.
pub(super) fn unread(named: &Placed<String>, fault: &Fault) -> Finding {
    let (Fault::Unreadable(why) | Fault::TooLarge(why)) = fault;
    let message = format!("{} can't be used: {why}", wording::quoted(&named.value));
    Finding::new(&checks::BARE_UNREADABLE, named.place, message, "save it again as JPEG, PNG or WebP")
}

/// Where a map does not have the shape of its photo.
pub(super) fn misfit(bare: &BarePhoto, photo: &DynamicImage, map: &DynamicImage) -> Option<Finding> {
    let shape = |width: u32, height: u32| f64::from(width) / f64::from(height.max(1));
    let same =
        |one: f64, other: f64| (one / other - 1.0).abs() <= SAME_SHAPE || (other / one - 1.0).abs() <= SAME_SHAPE;
    let (own, other) = (shape(map.width(), map.height()), shape(photo.width(), photo.height()));
    if same(own, other) {
        return None;
    }
    let message = format!(
        "the map has {} × {} pixels, the photo {} × {}",
        map.width(),
        map.height(),
        photo.width(),
        photo.height()
    );
    let mend = if same(1.0 / own, other) {
        "turn the map by a quarter: it is painted over the photo as that is shown, upright"
    } else {
        "paint the map over the whole photo, and save it uncut"
    };
    Some(Finding::new(&checks::BARE_FIT, bare.map.place, message, mend))
}

/// What is told of pictures that fit: that they are small, and areas that are not found on the map.
pub(super) fn of_map(
    scheme: &Scheme,
    bare: &BarePhoto,
    [photo, map]: [&DynamicImage; 2],
    areas: &AreaMap,
) -> Vec<Finding> {
    let pairs = [(photo, &bare.photo, SMALL[0]), (map, &bare.map, SMALL[1])];
    let small =
        pairs.into_iter().filter(|(picture, _, least)| picture.width() < *least).map(|(picture, named, least)| {
            let message = format!("{} has only {} pixels across", wording::quoted(&named.value), picture.width());
            Finding::new(&checks::BARE_SMALL, named.place, message, format!("use one with {least} or more"))
        });
    let mut findings: Vec<Finding> = small.collect();
    findings.extend(lost(scheme, bare, areas));
    findings.extend(alike(scheme));
    findings.extend(areas.strays.iter().map(|stray| no_areas(scheme, bare, *stray)));
    findings
}

/// Where the lit faces of the model are nearly black: there is next to no light to draw by.
pub(super) fn dark(bare: &BarePhoto, photo: &Photo) -> Option<Finding> {
    let is_model = |at: usize| {
        let corner = at / photo.width * 4 * photo.width + at % photo.width * 2;
        photo.areas.get(corner).is_some_and(|area| *area != NO_AREA)
    };
    let model = photo.pixels.iter().enumerate().filter(|(at, _)| is_model(*at));
    let mut light: Vec<f64> = model.map(|(_, pixel)| space::luminance(space::linear(Colour(*pixel)))).collect();
    light.sort_by(f64::total_cmp);
    let lit = light.get(light.len() * 3 / 4).filter(|lit| **lit < DARK)?;
    let message = format!("the lit faces of the model have {:.1} % of a white's light in the photo", lit * 100.0);
    let mend = "photograph the model primed in a light grey, or in more light";
    Some(Finding::new(&checks::BARE_DARK, bare.photo.place, message, mend))
}

/// A flat colour on the map that is no area's; where it is like an area's, whose it may have been meant for.
fn no_areas(scheme: &Scheme, bare: &BarePhoto, Stray { colour, near }: Stray) -> Finding {
    let near = near.and_then(|area| scheme.areas.get(area)).and_then(|area| Some((area, area.shape.map?)));
    let (message, mend) = match near {
        Some((area, own)) => {
            let name = wording::quoted(&area.id);
            (
                format!("about {colour} on the map is like the colour of {name}, {own}, but is no area's"),
                format!(
                    "if that is {name}, paint it in {own}; else give it to an area, as in 'map: \"{colour}\"', or paint over it"
                ),
            )
        }
        None => (
            format!("about {colour} on the map is no area's colour"),
            format!("give it to an area, as in 'map: \"{colour}\"', or paint over it"),
        ),
    };
    Finding::new(&checks::BARE_AREA, bare.map.place, message, mend)
}

/// Areas without a colour, and those whose colour is not on the map; one finding where no area has a colour.
fn lost(scheme: &Scheme, bare: &BarePhoto, areas: &AreaMap) -> Vec<Finding> {
    if scheme.areas.iter().all(|area| area.shape.map.is_none()) {
        let example = scheme.areas.first().map_or("shell", |area| area.id.as_str());
        let mend = format!("write each area's colour, as in 'areas: {{{example}: {{share: 40%, map: \"#ff0000\"}}}}'");
        let message = "no area says which colour it has on the map".to_owned();
        return vec![Finding::new(&checks::BARE_AREA, bare.map.place, message, mend)];
    }
    let counts = areas.counts(scheme.areas.len());
    let lost = scheme.areas.iter().zip(counts).filter(|(_, count)| *count == 0);
    lost.map(|(area, _)| {
        let (message, mend) = match area.shape.map {
            Some(colour) => (
                format!("the colour of {}, {colour}, is not on the map", wording::quoted(&area.id)),
                "paint the area on the map in that colour, or take the colour that it has there".to_owned(),
            ),
            None => (
                format!("nothing says which colour {} has on the map", wording::quoted(&area.id)),
                "write it, as in 'map: \"#ff0000\"'".to_owned(),
            ),
        };
        Finding::new(&checks::BARE_AREA, area.place, message, mend)
    })
    .collect()
}

/// Areas whose colours can't be told apart.
fn alike(scheme: &Scheme) -> Vec<Finding> {
    let mut findings = Vec::new();
    for (at, area) in scheme.areas.iter().enumerate() {
        let Some(own) = area.shape.map else { continue };
        let twin = scheme.areas[..at].iter().find(|other| {
            other.shape.map.is_some_and(|other| {
                own.0.iter().zip(other.0).map(|(one, other)| u32::from(one.abs_diff(other)).pow(2)).sum::<u32>() < ALIKE
            })
        });
        if let Some(twin) = twin {
            let (one, other) = (wording::quoted(&twin.id), wording::quoted(&area.id));
            let message = format!("{one} and {other} have the same colour on the map");
            findings.push(Finding::new(&checks::BARE_AREA, area.place, message, "give each a colour of its own"));
        }
    }
    findings
}
