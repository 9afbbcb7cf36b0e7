//! The plates of all models that have a photograph of the bare model, each read once.

use std::collections::BTreeMap;
use std::io;
use std::sync::Arc;

use booth::Photo;
use image::DynamicImage;
use image::imageops::FilterType;
use rayon::prelude::*;
use sha2::{Digest, Sha256};

use super::areas::AreaMap;
use super::findings;
use crate::door::Door;
use crate::guide::{self, BarePhoto, Guide, Scheme};
use crate::measure::Colour;
use crate::picture::{self, Fault, MOST_BYTES};
use crate::report::{Finding, Place, Placed};

/// The largest picture that is drawn, across and down.
const LARGEST: (u32, u32) = (960, 1440);

/// A photograph and its map with more pixels than this are read while no others are.
const AT_ONCE: u64 = 20_000_000;

/// What is behind a model that was cut out.
const GROUND: [u8; 3] = [238, 235, 229];

/// A photograph of a bare model that others can be drawn on.
#[derive(Debug, Clone, PartialEq)]
pub struct Plate {
    /// The photograph, and whose each part of it is.
    pub photo: Photo,
    /// How much of the model lies in recesses and on edges.
    pub zones: [f32; 2],
    /// What tells it from any other.
    pub mark: [u8; 32],
}

/// All plates that can be drawn on, by the slugs of their schemes.
#[derive(Debug, Clone, Default)]
pub struct Plates(BTreeMap<String, Arc<Plate>>);

impl Plates {
    /// The plate of a scheme's model.
    pub fn plate(&self, slug: &str) -> Option<&Arc<Plate>> {
        self.0.get(slug)
    }
}

/// The plates of the last survey.
#[derive(Debug, Default)]
pub(crate) struct KeptPlates(BTreeMap<String, Look>);

/// What a reading gave, and all that it was read from.
#[derive(Debug, Clone)]
struct Look {
    stamps: [Option<u64>; 2],
    asked: Asked,
    plate: Option<Arc<Plate>>,
    findings: Vec<Finding>,
}

/// What of a scheme decides what is read, and where findings stand.
type Asked = (BarePhoto, Vec<(String, Option<Colour>, Place)>, crate::guide::Zones);

fn asked(scheme: &Scheme, bare: &BarePhoto) -> Asked {
    let areas = scheme.areas.iter().map(|area| (area.id.clone(), area.shape.map, area.place)).collect();
    (bare.clone(), areas, scheme.zones)
}

/// Reads the photographs of bare models and their maps; what can't be read or does not fit is reported. What has the
/// stamps of the last survey is not read again.
pub(crate) fn survey(door: &dyn Door, guide: &Guide, kept: &mut KeptPlates) -> (Plates, Vec<Finding>) {
    let named = guide.schemes.iter().filter_map(|scheme| Some((scheme, asked(scheme, scheme.model.bare.as_ref()?))));
    let stamped =
        |(bare, ..): &Asked| [&bare.photo, &bare.map].map(|named| door.stamp(&format!("content/{}", named.value)));
    let known = |asked: &Asked, schemes: &[&Arc<Scheme>]| {
        let stamps = stamped(asked);
        let same =
            |known: &&Look| stamps.iter().all(Option::is_some) && known.stamps == stamps && known.asked == *asked;
        schemes.iter().find_map(|scheme| kept.0.get(&scheme.slug).filter(same)).cloned()
    };
    let look = |(asked, schemes): (Asked, Vec<&Arc<Scheme>>)| {
        let look = if let Some(known) = known(&asked, &schemes) {
            known
        } else {
            // Before it is read: what changes meanwhile is read again.
            let stamps = stamped(&asked);
            let (plate, findings) = read(door, schemes.first()?, &asked.0);
            Look { stamps, plate: plate.map(Arc::new), findings, asked }
        };
        Some(schemes.into_iter().map(|scheme| (scheme.slug.clone(), look.clone())).collect::<Vec<_>>())
    };
    // Large ones are open one after the other, however many processors there are.
    let (large, small): (Vec<_>, Vec<_>) = guide::alike(named)
        .into_par_iter()
        .partition(|(asked, schemes)| known(asked, schemes).is_none() && pixels_of(door, &asked.0) > AT_ONCE);
    let looks: Vec<_> = small.into_par_iter().filter_map(look).collect();
    let looks = looks.into_iter().chain(large.into_iter().filter_map(look));
    let looks: BTreeMap<String, Look> = looks.flatten().collect();
    kept.0 = looks;
    let plates = kept.0.iter().filter_map(|(slug, look)| Some((slug.clone(), Arc::clone(look.plate.as_ref()?))));
    let plates = Plates(plates.collect());
    (plates, kept.0.values().flat_map(|look| look.findings.iter().cloned()).collect())
}

/// How many pixels a photograph and its map have by their heads; none where they can't be read.
fn pixels_of(door: &dyn Door, bare: &BarePhoto) -> u64 {
    let count = |named: &Placed<String>| {
        let bytes = door.read(&format!("content/{}", named.value), MOST_BYTES).ok()?;
        picture::pixel_count(&bytes)
    };
    [&bare.photo, &bare.map].into_iter().filter_map(count).sum()
}

/// A plate from the bytes of its pictures, and what is told of them.
fn read(door: &dyn Door, scheme: &Scheme, bare: &BarePhoto) -> (Option<Plate>, Vec<Finding>) {
    let opened = [&bare.photo, &bare.map].map(|named| opened(door, named));
    let (photo, map) = match opened {
        [Ok(photo), Ok(map)] => (photo, map),
        unread => return (None, unread.into_iter().filter_map(Result::err).collect()),
    };
    if let Some(finding) = findings::misfit(bare, &photo, &map) {
        return (None, vec![finding]);
    }
    let (width, height) = size(photo.width(), photo.height());
    let (wide, tall) = (width * 2, height * 2);
    let colours: Vec<Option<Colour>> = scheme.areas.iter().map(|area| area.shape.map).collect();
    let areas = AreaMap::read_within(&map, &colours, [wide, tall]);
    let mut findings = findings::of_map(scheme, bare, [&photo, &map], &areas);
    if areas.counts(colours.len()).iter().all(|count| *count == 0) {
        return (None, findings);
    }
    // On its ground before it is scaled: what was cut out has a colour all the same, which would darken the edge.
    let whole = DynamicImage::from(picture::laid_on(photo, GROUND));
    let pixels = whole.resize_exact(width, height, FilterType::CatmullRom).into_rgb8();
    let photo = Photo {
        width: width as usize,
        height: height as usize,
        pixels: pixels.pixels().map(|pixel| pixel.0).collect(),
        areas: areas.at_size(wide as usize, tall as usize),
    };
    findings.extend(findings::dark(bare, &photo));
    let share = |share: crate::measure::Share| share.as_percent() / 100.0;
    #[expect(clippy::cast_possible_truncation, reason = "shares from 0 to 1")]
    let zones = [scheme.zones.recesses, scheme.zones.edges].map(|zone| share(zone) as f32);
    let mark = mark(&photo, zones);
    (Some(Plate { photo, zones, mark }), findings)
}

fn opened(door: &dyn Door, named: &Placed<String>) -> Result<DynamicImage, Finding> {
    let bytes = door.read(&format!("content/{}", named.value), MOST_BYTES).map_err(|error| match error.kind() {
        io::ErrorKind::FileTooLarge => Fault::TooLarge(format!("it is larger than {} MB", MOST_BYTES / 1_000_000)),
        _ => Fault::Unreadable(error.to_string()),
    });
    let read = bytes.and_then(|bytes| picture::pixels(&bytes));
    read.map(|read| read.image).map_err(|fault| findings::unread(named, &fault))
}

/// The size in which a photograph is drawn: no larger than it is, and of even sides.
fn size(width: u32, height: u32) -> (u32, u32) {
    let (width, height) = (width.max(1), height.max(1));
    let part = (f64::from(LARGEST.0) / f64::from(width)).min(f64::from(LARGEST.1) / f64::from(height)).min(1.0);
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "no larger than it was")]
    let scaled = |side: u32| ((f64::from(side) * part).round() as u32 & !1).max(2);
    (scaled(width), scaled(height))
}

/// The hash of what is drawn on.
fn mark(photo: &Photo, zones: [f32; 2]) -> [u8; 32] {
    let mut hash = Sha256::new();
    hash.update(format!("{} {} {zones:?} ", photo.width, photo.height));
    for pixel in &photo.pixels {
        hash.update(pixel);
    }
    for area in &photo.areas {
        hash.update(area.to_le_bytes());
    }
    hash.finalize().into()
}
