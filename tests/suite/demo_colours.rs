//! Every area of the demo guide is predicted as what its text calls it, and as its photograph shows it.

use std::collections::BTreeMap;
use std::fs;

use maulstick::brushout::{PatchSize, Point, spots};
use maulstick::colour::space::{self, Lab};
use maulstick::door::Disk;
use maulstick::measure::{Colour, FromText};
use maulstick::story;
use maulstick::work::Worked;

use crate::bench::demo_folder;

const WORDS: &str = include_str!("../data/colour_words.tsv");

const AREAS: &str = include_str!("../data/demo_colours.tsv");

const PHOTOS: &str = include_str!("../data/demo_photos.tsv");

/// No chip is farther from its word, or from its photograph (CIEDE2000): it would be called by another name.
const FARTHEST: f64 = 12.0;

/// The side of the patches in the photographs: small, for faces are.
const PATCH: &str = "1.8%";

/// What a word stands for: bounds of lightness, chroma and hue.
struct Region([[f64; 2]; 3]);

impl Region {
    /// How far a colour lies from the nearest one that the word stands for.
    fn distance(&self, colour: Lab) -> f64 {
        let [lightness, chroma, hue] = self.0;
        let (own_chroma, own_hue) = (colour.a.hypot(colour.b), colour.b.atan2(colour.a).to_degrees().rem_euclid(360.0));
        let turn = |from: f64, to: f64| (to - from + 540.0).rem_euclid(360.0) - 180.0;
        let inside = (hue[0]..=hue[1]).contains(&own_hue);
        let nearer = if turn(hue[0], own_hue).abs() < turn(hue[1], own_hue).abs() { hue[0] } else { hue[1] };
        let hue = if inside { own_hue } else { nearer }.to_radians();
        let chroma = own_chroma.clamp(chroma[0], chroma[1]);
        let nearest = Lab::new(colour.l.clamp(lightness[0], lightness[1]), chroma * hue.cos(), chroma * hue.sin());
        space::lab_difference(colour, nearest)
    }
}

fn lines(table: &'static str) -> impl Iterator<Item = Vec<&'static str>> {
    let lines = table.lines().filter(|line| !line.starts_with('#') && !line.is_empty());
    lines.map(|line| line.split('\t').collect())
}

fn words() -> BTreeMap<&'static str, Region> {
    let number = |field: &&str| field.parse::<f64>().unwrap();
    let region =
        |fields: &[&str]| Region(std::array::from_fn(|at| [number(&fields[2 * at]), number(&fields[2 * at + 1])]));
    lines(WORDS).map(|line| (line[0], region(&line[1..]))).collect()
}

/// The chip of an area: its faces when all is done.
fn chip(worked: &Worked, scheme: &str, area: &str) -> Colour {
    let scheme = worked.schemes.iter().find(|one| one.scheme.slug == scheme).unwrap();
    let at = scheme.scheme.areas.iter().position(|one| one.id == area).unwrap();
    scheme.tones[at].faces.unwrap()
}

#[test]
fn every_area_of_the_demo_is_what_its_text_calls_it_and_what_its_photograph_shows() {
    let checked = story::check(&Disk::new(demo_folder())).unwrap();
    let words = words();
    let mut wrong = Vec::new();
    let mut known = 0;
    for line in lines(AREAS) {
        let (scheme, area) = line[0].split_once(' ').unwrap();
        let text = fs::read_to_string(demo_folder().join("content").join(line[1])).unwrap();
        let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(text.contains(line[2]), "{} does not say '{}'", line[1], line[2]);
        let chip = chip(&checked.worked, scheme, area);
        let off = words[line[3]].distance(space::lab(space::linear(chip)));
        let seen = (line[4] != "-").then(|| photographed(scheme, "photos/finished.jpg", line[4]));
        let apart = seen.map(|seen| maulstick::colour::difference(chip, seen));
        println!("{scheme} {area} {chip}: {} {off:.1}, photograph {apart:.1?}", line[3]);
        if off > FARTHEST || apart.is_some_and(|apart| apart > FARTHEST) {
            wrong
                .push(format!("{scheme} {area} is {chip}: {off:.1} from '{}', {apart:?} from its photograph", line[3]));
        }
        known += 1;
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
    let all: usize = ["fen-warden", "heron-rider", "lantern-pier", "marsh-levy", "reed-boat"]
        .iter()
        .map(|slug| checked.worked.schemes.iter().find(|one| one.scheme.slug == *slug).unwrap().scheme.areas.len())
        .sum();
    assert_eq!(known, all, "every area of the demo stands in the table");
}

#[test]
fn every_photograph_of_a_step_shows_what_is_predicted_after_it() {
    let checked = story::check(&Disk::new(demo_folder())).unwrap();
    let mut wrong = Vec::new();
    for line in lines(PHOTOS) {
        let worked = checked.worked.scheme(line[0]).unwrap();
        let at = worked.scheme.steps.iter().position(|step| step.stem == line[1]).unwrap();
        let area = worked.scheme.areas.iter().position(|area| area.id == line[2]).unwrap();
        let [red, green, blue] = worked.looks[at].areas[area].zones[1].colour.map(f64::from);
        let predicted = space::shown(space::LinearRgb::new(red, green, blue));
        let seen = photographed(line[0], line[3], line[4]);
        let apart = maulstick::colour::difference(predicted, seen);
        println!("{} {} {predicted}, photograph {seen}: {apart:.1}", line[1], line[2]);
        if apart > FARTHEST {
            wrong.push(format!("{} {} is {predicted}, and {seen} in {}: {apart:.1}", line[1], line[2], line[3]));
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn the_pictures_and_meshes_of_the_demo_take_no_more_than_six_megabytes() {
    let files = crate::bench::files_below(&demo_folder().join("content"));
    let is_heavy = |path: &&String| matches!(path.rsplit_once('.'), Some((_, "jpg" | "png" | "obj")));
    let heavy: usize = files.keys().filter(is_heavy).map(|path| files[path].len()).sum();
    assert!(heavy > 1_000_000 && heavy < 6_000_000, "{heavy} bytes");
}

fn photographed(scheme: &str, picture: &str, at: &str) -> Colour {
    let bytes = fs::read(demo_folder().join(format!("content/schemes/{scheme}/{picture}"))).unwrap();
    let (point, patch) = (Point::from_text(at).unwrap(), PatchSize::from_text(PATCH).unwrap());
    let (read, _) =
        spots(&bytes, &[(at, point)], &[], patch).unwrap_or_else(|refusal| panic!("{scheme} {at}: {}", refusal.what));
    read[0].colour
}
