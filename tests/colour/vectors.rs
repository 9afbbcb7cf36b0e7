//! The eleven computed vectors of `tests/data/colour_vectors.json`: primitives to 1e-6, fits to 1e-5.
//!
//! An independent program computed them from the same formulas.

use maulstick::colour::contrast::{Cover, black_card, contrast_ratio, white_card};
use maulstick::colour::observation::{BrushOut, Observation};
use maulstick::colour::space::{self, LinearRgb};
use maulstick::colour::{Depths, Film, Gleam, Inner, Outer, Surface, bands, cie, estimate, film, invert, upsample};
use maulstick::measure::Colour;
use serde_json::Value;

const PRIMITIVE: f64 = 1e-6;
const FIT: f64 = 1e-5;

/// The surface of the vectors.
const SKIN: Surface = Surface { outer_mirror: 0.02, inner_mirror: 0.6 };

fn vectors() -> Value {
    serde_json::from_str(include_str!("../data/colour_vectors.json")).unwrap()
}

/// The vector whose name begins with `id`.
fn vector(id: &str) -> Value {
    vectors()["vectors"]
        .as_array()
        .unwrap()
        .iter()
        .find(|vector| vector["id"].as_str().unwrap().starts_with(id))
        .unwrap()
        .clone()
}

fn numbers(value: &Value) -> Vec<f64> {
    value.as_array().unwrap().iter().map(|number| number.as_f64().unwrap()).collect()
}

/// Fails where a number is farther from the wanted one than `tolerance`, or than that part of a number above 1.
#[track_caller]
fn same(found: &[f64], wanted: &Value, tolerance: f64) {
    let wanted = numbers(wanted);
    assert_eq!(found.len(), wanted.len());
    for (at, (found, wanted)) in found.iter().zip(&wanted).enumerate() {
        let away = (found - wanted).abs() / wanted.abs().max(1.0);
        assert!(away <= tolerance, "number {at}: {found} in place of {wanted}");
    }
}

#[track_caller]
fn same_colour(found: LinearRgb, wanted: &Value, tolerance: f64) {
    same(&[found.red, found.green, found.blue], &wanted["linear"], tolerance);
    let encoded = maulstick::colour::space::EncodedRgb::from_linear(found);
    let cut = [encoded.red, encoded.green, encoded.blue].map(|channel: f64| channel.clamp(0.0, 1.0));
    same(&cut, &wanted["srgb"], tolerance);
    let lab = space::lab(found);
    // Lab spans a hundred where the others span one.
    same(&[lab.l, lab.a, lab.b].map(|number| number / 100.0), &hundredths(&wanted["lab"]), tolerance);
}

fn hundredths(value: &Value) -> Value {
    numbers(value).into_iter().map(|number| number / 100.0).collect()
}

/// A bell over the wavelengths.
fn bell(floor: f64, height: f64, centre: f64, width: f64) -> bands::Bands {
    std::array::from_fn(|band| {
        let away = (bands::wavelength(band) - centre) / width;
        floor + height * (-away * away).exp()
    })
}

fn seen(below: &Inner) -> LinearRgb {
    SKIN.outer(below).linear_rgb()
}

#[test]
fn the_tables_are_the_vectors_tables() {
    let all = vectors();
    let centres: Vec<f64> = (0..bands::COUNT).map(bands::wavelength).collect();
    same(&centres, &all["bands_nm"], 0.0);
    for band in 0..bands::COUNT {
        let mut one = [0.0; bands::COUNT];
        one[band] = 1.0;
        let linear = cie::linear_rgb(&one);
        let wanted: Vec<f64> = (0..3).map(|row| all["T_linear_sRGB"][row][band].as_f64().unwrap()).collect();
        same(&[linear.red, linear.green, linear.blue], &wanted.into_iter().collect(), 0.0);
        assert!((space::luminance(linear) - all["Y_weights"][band].as_f64().unwrap()).abs() < 1e-9);
    }
    let white = Outer::grey(1.0).linear_rgb();
    assert!([white.red, white.green, white.blue].iter().all(|channel| (channel - 1.0).abs() < 1e-8));
}

#[test]
fn tv01_from_the_screen_to_lab() {
    let vector = vector("TV01");
    let linear = space::linear(Colour([200, 30, 60]));
    same(&[linear.red, linear.green, linear.blue], &vector["linear"], PRIMITIVE);
    let xyz = space::xyz(linear);
    same(&[xyz.x, xyz.y, xyz.z], &vector["xyz"], PRIMITIVE);
    let lab = space::lab(linear);
    same(&[lab.l, lab.a, lab.b], &vector["lab"], PRIMITIVE);
    let white = space::xyz(LinearRgb::new(1.0, 1.0, 1.0));
    same(&[white.x, white.y, white.z], &vector["white_xyz"], PRIMITIVE);
}

#[test]
fn tv02_the_smoothest_reflectance() {
    let vector = vector("TV02");
    let found = upsample::reflectance(space::linear(Colour([60, 120, 200])));
    same(&found.0, &vector["R"], PRIMITIVE);
    let back = found.linear_rgb();
    same(&[back.red, back.green, back.blue], &vector["linear_back"], PRIMITIVE);
}

#[test]
fn tv03_the_skin() {
    let vector = vector("TV03");
    let bands = |value: &Value| {
        let numbers = numbers(value);
        std::array::from_fn(|band| numbers.get(band).copied().unwrap_or(0.5))
    };
    let inner = SKIN.inner(&Outer(bands(&vector["R_outer"])));
    same(&inner.0[..7], &vector["R_inner"], PRIMITIVE);
    let outer = SKIN.outer(&Inner(bands(&vector["R_inner_in"])));
    same(&outer.0[..3], &vector["R_outer_out"], PRIMITIVE);
}

#[test]
fn tv04_films_from_clear_to_thick() {
    let vector = vector("TV04");
    let films: Vec<Film> = vector["KX_SX"]
        .as_array()
        .unwrap()
        .iter()
        .map(|pair| Film::new(pair[0].as_f64().unwrap(), pair[1].as_f64().unwrap()))
        .collect();
    same(&films.iter().map(|film| film.reflectance).collect::<Vec<_>>(), &vector["R0"], PRIMITIVE);
    same(&films.iter().map(|film| film.transmittance).collect::<Vec<_>>(), &vector["T"], PRIMITIVE);
}

#[test]
fn tv05_two_coats_are_one_of_double_depth() {
    let vector = vector("TV05");
    let coat = Film::new(0.4, 0.3);
    let one = coat.over(0.85);
    same(&[one], &vector["one"], PRIMITIVE);
    same(&[coat.over(one)], &vector["two"], PRIMITIVE);
    same(&[Film::new(0.8, 0.6).over(0.85)], &vector["two_direct"], PRIMITIVE);
    same(&[film::opaque(0.8, 0.6)], &vector["r_inf"], PRIMITIVE);
}

#[test]
fn tv06_back_from_two_cards() {
    let vector = vector("TV06");
    for vector in [&vector, &vector["clear"]] {
        let [over_black, over_white] = ["Rb", "Rw"].map(|key| vector[key][0].as_f64().unwrap());
        let (absorbed, scattered) = invert::depths(over_black, over_white, 0.02, 0.85);
        // The readings have nine digits, of which the clear's scattering leaves few.
        same(&[absorbed], &vector["KX"], 5e-6);
        same(&[scattered], &vector["SX"], PRIMITIVE);
    }
}

#[test]
fn tv07_two_paints_and_their_mix() {
    let vector = vector("TV07");
    let yellow = Depths { absorbed: bell(0.02, 3.0, 430.0, 50.0), scattered: [0.8; bands::COUNT] };
    let blue = Depths { absorbed: bell(0.02, 2.5, 620.0, 70.0), scattered: [0.25; bands::COUNT] };
    let mix = yellow.times(0.75).plus(&blue.times(0.25));
    let (white, black) = (white_card(SKIN), black_card(SKIN));
    for (name, found) in [
        ("Y1_white", yellow.over(&white)),
        ("B1_white", blue.over(&white)),
        ("mix1_white", mix.over(&white)),
        ("mix2_white", mix.times(2.0).over(&white)),
        ("mix1_black", mix.over(&black)),
        ("B1_over_Y2_over_black", blue.over(&yellow.times(2.0).over(&black))),
        ("mix_opaque", mix.opaque()),
    ] {
        same_colour(seen(&found), &vector[name], PRIMITIVE);
    }
    assert!((contrast_ratio(&yellow) - vector["CR_Y"].as_f64().unwrap()).abs() < PRIMITIVE);
}

fn brush_out(ground: &Inner, colour: [u8; 3]) -> Observation {
    Observation::Swatch(Box::new(BrushOut {
        ground: Some(*ground),
        amount: 1.0,
        with: Depths::NONE,
        with_doubt: None,
        colour: Colour(colour),
        spread: 0.02,
    }))
}

/// The red of TV08.
fn red() -> Depths {
    let known = [brush_out(&white_card(SKIN), [180, 60, 40]), Observation::Cover(Cover { ratio: 0.65, spread: 1.0 })];
    estimate::depths(&known, SKIN)
}

#[test]
fn tv08_one_swatch_and_a_class() {
    let vector = vector("TV08");
    let red = red();
    same(&red.absorbed, &vector["KX"], FIT);
    same(&red.scattered, &vector["SX"], FIT);
    assert!((contrast_ratio(&red) - vector["CR"].as_f64().unwrap()).abs() < FIT);
    same_colour(seen(&red.over(&white_card(SKIN))), &vector["over_white_1"], FIT);
    same_colour(seen(&red.over(&black_card(SKIN))), &vector["over_black_1"], FIT);
    same_colour(seen(&red.times(3.0).over(&black_card(SKIN))), &vector["over_black_3"], FIT);
}

#[test]
fn tv09_black_and_white_and_a_tint() {
    let vector = vector("TV09");
    let (on_white, on_black) = (white_card(SKIN), black_card(SKIN));
    let white = estimate::depths(&[brush_out(&on_white, [235, 236, 234]), brush_out(&on_black, [205, 210, 214])], SKIN);
    same(&white.scattered, &vector["white_SX"], FIT);
    let colour = Colour([130, 165, 205]);
    let tint = BrushOut {
        ground: Some(on_white),
        amount: 0.2,
        with: white.times(0.8),
        with_doubt: None,
        colour,
        spread: 0.02,
    };
    let known =
        [brush_out(&on_white, [40, 90, 150]), brush_out(&on_black, [38, 52, 84]), Observation::Swatch(Box::new(tint))];
    let blue = estimate::depths(&known, SKIN);
    same(&blue.absorbed, &vector["KX"], FIT);
    same(&blue.scattered, &vector["SX"], FIT);
    let pale = blue.times(0.1).plus(&white.times(0.9));
    same_colour(seen(&pale.over(&white_card(SKIN))), &vector["mix_1_9_white"], FIT);
    let purple = blue.times(0.5).plus(&red().times(0.5));
    same_colour(seen(&purple.over(&white_card(SKIN))), &vector["mix_red_1_1_white"], FIT);
}

#[test]
fn tv10_a_clear_over_metal() {
    let vector = vector("TV10");
    let clear = Depths { absorbed: bell(0.05, 1.2, 460.0, 60.0), scattered: [0.02; bands::COUNT] };
    let metal = Gleam::of(&upsample::reflectance(space::linear(Colour([190, 192, 196]))));
    same_colour(metal.under(&clear).outer().linear_rgb(), &vector["metal_1"], PRIMITIVE);
    same_colour(metal.under(&clear.times(3.0)).outer().linear_rgb(), &vector["metal_3"], PRIMITIVE);
    let diffuse = Surface::CHART.outer(&clear.over(&white_card(Surface::CHART)));
    same_colour(diffuse.linear_rgb(), &vector["white_1"], PRIMITIVE);
}

#[test]
fn tv11_a_dry_brush() {
    let vector = vector("TV11");
    let black = black_card(SKIN);
    let brushed = SKIN.outer(&red().over(&black)).beside(0.3, &Outer::grey(0.02));
    same_colour(brushed.linear_rgb(), &vector["out"], FIT);
}
