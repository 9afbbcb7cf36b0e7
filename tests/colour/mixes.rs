//! Mixes of two colours as painters make them, of paints known by a colour and a hiding class alone: red and yellow turn orange, yellow and
//! blue green, and no strong colour swallows a light one.

use std::path::Path;
use std::sync::Arc;

use maulstick::colour::space::{self, Lab, lab_difference};
use maulstick::colour::{Depths, Ground, Mixture, Shelf, Stack, Surface, contrast};
use maulstick::measure::Colour;
use maulstick::trade::Hiding::{self, Opaque, SemiOpaque, SemiTransparent};

use super::films;
use super::measured::figures;
use super::paints::paint;

const RED: [u8; 3] = [0x9d, 0x1c, 0x24];
const BRIGHT_RED: [u8; 3] = [0xc8, 0x20, 0x2a];
const ORANGE: [u8; 3] = [0xd8, 0x6a, 0x1c];
const YELLOW: [u8; 3] = [0xf0, 0xc2, 0x2b];
const BRIGHT_YELLOW: [u8; 3] = [0xf4, 0xd0, 0x1e];
const OCHRE: [u8; 3] = [0xc0, 0x8a, 0x30];
const RUST: [u8; 3] = [0x7b, 0x3a, 0x1c];
const BROWN: [u8; 3] = [0x5b, 0x3a, 0x24];
const GREEN: [u8; 3] = [0x2c, 0x6a, 0x35];
const BLUE: [u8; 3] = [0x1f, 0x4f, 0xa0];
const SKY: [u8; 3] = [0x3a, 0x8a, 0xc8];
const NAVY: [u8; 3] = [0x1c, 0x2a, 0x4d];
const WHITE: [u8; 3] = [0xf4, 0xf3, 0xee];
const BLACK: [u8; 3] = [0x16, 0x16, 0x16];

/// Parts of a paint.
type Part = (f64, [u8; 3], Hiding);

/// Two paints, and from and to of the lightness and the hue angle that their mix may have. Paints of one colour and one class
/// differ in strength by much, so the bounds are wide; what is named beside them is what paints show that are mixed of measured acrylics (19,
/// Berns) to the same colours and are not thinned to a class: lightness and hue angle.
const MIXES: [(Part, Part, [f64; 2], [f64; 2]); 17] = [
    // 48, 37: with a yellow that hides less, a red that leans no more to blue than it did.
    ((1.0, RED, SemiOpaque), (1.0, YELLOW, SemiTransparent), [38.0, 52.0], [28.5, 48.0]),
    ((1.0, RED, SemiOpaque), (1.0, YELLOW, Opaque), [43.0, 56.0], [33.0, 50.0]),
    // 59, 55: an orange.
    ((1.0, RED, SemiOpaque), (4.0, YELLOW, SemiTransparent), [46.0, 64.0], [38.0, 64.0]),
    ((1.0, RED, SemiOpaque), (4.0, YELLOW, Opaque), [54.0, 66.0], [48.0, 66.0]),
    ((1.0, [0xb0, 0x1e, 0x22], SemiOpaque), (3.0, [0xf2, 0xc7, 0x18], SemiTransparent), [45.0, 62.0], [34.0, 58.0]),
    // 51, 38.
    ((1.0, BRIGHT_RED, SemiOpaque), (1.0, BRIGHT_YELLOW, SemiOpaque), [45.0, 58.0], [29.5, 48.0]),
    ((1.0, OCHRE, SemiOpaque), (1.0, RED, SemiOpaque), [38.0, 48.0], [31.0, 50.0]),
    ((1.0, RED, SemiOpaque), (1.0, WHITE, Opaque), [48.0, 64.0], [0.0, 25.0]),
    // 37, 176 and 49, 142: a navy that is said to be opaque is strong, but four parts of yellow make a green of it.
    ((1.0, NAVY, Opaque), (1.0, YELLOW, SemiTransparent), [26.0, 44.0], [130.0, 232.0]),
    ((1.0, NAVY, Opaque), (4.0, YELLOW, SemiTransparent), [36.0, 56.0], [110.0, 160.0]),
    // 43, 164 and 52, 139.
    ((1.0, BLUE, SemiOpaque), (1.0, YELLOW, SemiTransparent), [36.0, 52.0], [125.0, 185.0]),
    ((1.0, BLUE, SemiOpaque), (3.0, BRIGHT_YELLOW, SemiOpaque), [42.0, 62.0], [115.0, 160.0]),
    ((1.0, SKY, Opaque), (1.0, BRIGHT_YELLOW, SemiOpaque), [50.0, 64.0], [124.0, 160.0]),
    // 61, 70: rust does not swallow three and a half times as much yellow. 46, 70.
    ((2.0, RUST, Opaque), (7.0, YELLOW, SemiTransparent), [42.0, 66.0], [53.0, 78.0]),
    ((1.0, BROWN, Opaque), (1.0, YELLOW, SemiTransparent), [31.0, 52.0], [57.0, 90.0]),
    // 54, 127.
    ((1.0, GREEN, SemiOpaque), (1.0, YELLOW, SemiTransparent), [45.0, 60.0], [110.0, 139.0]),
    // An olive.
    ((4.0, YELLOW, SemiTransparent), (1.0, BLACK, Opaque), [34.0, 52.0], [80.0, 115.0]),
];

fn hue(lab: Lab) -> f64 {
    lab.b.atan2(lab.a).to_degrees().rem_euclid(360.0)
}

/// How far one hue angle is turned from another.
fn turned(from: f64, to: f64) -> f64 {
    (to - from + 540.0).rem_euclid(360.0) - 180.0
}

#[test]
fn two_colours_mix_to_the_one_that_painters_know() {
    let mut wrong = Vec::new();
    for ((some, one, its), (more, other, others), light, turn) in MIXES {
        let paints = [paint("one", Some(one), its, Vec::new()), paint("other", Some(other), others, Vec::new())];
        let black = paint("black", Some(BLACK), Opaque, Vec::new());
        let shelf = Shelf::of(&paints.into_iter().chain([black]).map(Arc::new).collect::<Vec<_>>());
        let of = |id: &str| shelf.pigment(id).unwrap();
        let mix = Mixture::of(&[(of("one"), some), (of("other"), more)]).unwrap();
        let stack = Stack::on(&Ground::grey(0.5), shelf.surface()).lay(&mix, 8.0);
        let (colour, lab) = (stack.colour(), stack.lab());
        let told = format!(
            "{some} {} ({its}) and {more} {} ({others}): {colour}, {:.0} {:.0} {:.0}",
            Colour(one),
            Colour(other),
            lab.l,
            lab.a.hypot(lab.b),
            hue(lab)
        );
        println!("{told}");
        let inside = |[from, to]: [f64; 2], value: f64| (from..=to).contains(&value);
        if !inside(light, lab.l) || !inside(turn, hue(lab)) {
            wrong.push(told);
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

/// Two paints, and how far off half of their mixes and nine in ten may be.
const PAIRS: [([u8; 3], [u8; 3], f64, f64); 7] = [
    (RED, YELLOW, 2.2, 4.5),
    (BRIGHT_RED, BRIGHT_YELLOW, 2.0, 4.5),
    (BLUE, YELLOW, 4.0, 8.5),
    (SKY, BRIGHT_YELLOW, 5.5, 8.5),
    (RUST, YELLOW, 4.7, 7.0),
    (GREEN, YELLOW, 4.7, 9.5),
    (RED, ORANGE, 1.5, 3.0),
];

/// At most so many paints of one colour.
const EACH: usize = 8;

/// Paints of one or two measured acrylics with white and black that show a colour where they cover, some of each sort.
fn mixed_to(measured: &[Depths], wanted: [u8; 3], skin: Surface) -> Vec<Depths> {
    let (black, white) = (0, films::WHITE);
    let wanted = space::lab(space::linear(Colour(wanted)));
    let mut all: Vec<(f64, Depths)> = Vec::new();
    let pairs = (1..white).flat_map(|one| (1..=one).map(move |other| (one, other)));
    for ((one, other), share) in pairs.flat_map(|pair| [0.1, 0.3, 0.5, 0.7, 0.9].map(|share| (pair, share))) {
        for (light, dark) in
            [0.0, 0.03, 0.1, 0.2, 0.4, 0.6].iter().flat_map(|l| [0.0, 0.02, 0.05, 0.15].map(|d| (*l, d)))
        {
            let colour = 1.0 - light - dark;
            let pure = measured[one].times(share * colour).plus(&measured[other].times((1.0 - share) * colour));
            let film = pure.plus(&measured[white].times(light)).plus(&measured[black].times(dark));
            let off = lab_difference(space::lab(skin.outer(&film.opaque()).linear_rgb()), wanted);
            if off < 4.0 {
                all.push((off, film));
            }
        }
    }
    all.sort_by(|(a, _), (b, _)| a.total_cmp(b));
    let step = (all.len() / EACH).max(1);
    all.into_iter().step_by(step).take(EACH).map(|(_, film)| film).collect()
}

/// Paints as makers of paints for models mix them, each told by its colour and the class that fits it: what two of them show
/// together. Their pigments are known here and their recipes are not.
#[test]
#[ignore = "needs measured spectra in the folder MAULSTICK_MEASURED names"]
fn paints_mixed_of_measured_acrylics_mix_as_predicted() {
    let folder = std::env::var_os("MAULSTICK_MEASURED").expect("MAULSTICK_MEASURED names a folder");
    let measured = films::read(Path::new(&folder));
    let skin = Surface { outer_mirror: 0.0056, ..Surface::CHART };
    let mut wrong = Vec::new();
    for (one, other, half, nine) in PAIRS {
        let [ones, others] = [one, other].map(|colour| mixed_to(&measured, colour, skin));
        let all: Vec<&Depths> = ones.iter().chain(&others).collect();
        let told = |(at, film): (usize, &&Depths)| {
            let colour = space::shown(skin.outer(&film.opaque()).linear_rgb());
            Arc::new(paint(&at.to_string(), Some(colour.0), contrast::class_of(film, false), Vec::new()))
        };
        let black = Arc::new(paint("black", Some(BLACK), Opaque, Vec::new()));
        let shelf = Shelf::of(&all.iter().enumerate().map(told).chain([black]).collect::<Vec<_>>());
        let found = |at: usize| shelf.pigment(&at.to_string()).unwrap();
        let (mut off, mut turns) = (Vec::new(), Vec::new());
        for (at, with) in (0..ones.len()).flat_map(|at| (ones.len()..all.len()).map(move |with| (at, with))) {
            for share in [0.2, 0.5, 0.8] {
                let film = all[at].times(share).plus(&all[with].times(1.0 - share));
                let truth = space::lab(skin.outer(&film.opaque()).linear_rgb());
                let mix = Mixture::of(&[(found(at), share), (found(with), 1.0 - share)]).unwrap();
                let seen = space::lab(mix.opaque(shelf.surface()));
                off.push(lab_difference(seen, truth));
                turns.push(turned(hue(truth), hue(seen)));
            }
        }
        let (of, found) = ((ones.len(), others.len()), figures(off));
        let (turn, _) = figures(turns);
        println!("{} and {}: {of:?} paints, {found:.1?} off, turned {turn:.0}", Colour(one), Colour(other));
        if found.0 > half || found.1 > nine || of.0.min(of.1) < 3 {
            wrong.push(format!("{} and {}: {found:.1?}, at most {half} and {nine}", Colour(one), Colour(other)));
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}
