//! `maulstick swatch`: what it reads from photographs whose truth is known, and what it refuses.

use image::ImageEncoder as _;
use image::codecs::jpeg::JpegEncoder;
use maulstick::colour::{Depths, Ground, Mixture, Pigment, Stack, Surface, difference};
use maulstick::measure::{Colour, FromText};
use moxcms::{ColorProfile, Layout, TransformOptions};
use serde_json::Value;

use crate::bench::Bench;
use crate::photograph::{self, Photograph};

const POINTS: [&str; 4] = ["--white", "400,150", "--black", "400,350"];

/// Cards with the paints of very different strength and colour.
const PAINTS: [([u8; 3], [u8; 3]); 6] = [
    ([0xc9, 0xa0, 0x70], [0x8a, 0x60, 0x3a]),
    ([0x8a, 0x20, 0x18], [0x70, 0x1a, 0x14]),
    ([0x2f, 0x67, 0x69], [0x29, 0x5a, 0x5c]),
    ([0xde, 0x95, 0x1d], [0x40, 0x2c, 0x10]),
    ([0xd8, 0xd4, 0xc8], [0xb0, 0xac, 0xa6]),
    ([0x34, 0x30, 0x2c], [0x22, 0x20, 0x1e]),
];

fn read(photograph: &[u8], more: &[&str]) -> Value {
    let bench = Bench::empty();
    bench.write("card.jpg", photograph);
    let run = bench.run(&[&["swatch", "card.jpg", "--format", "json"], &POINTS[..], more].concat());
    assert_eq!(run.status, 0, "{}", run.err);
    serde_json::from_str(&run.out).unwrap()
}

/// How far both patches are from the truth.
fn off(answer: &Value, truth: ([u8; 3], [u8; 3])) -> [f64; 2] {
    [("white", truth.0), ("black", truth.1)].map(|(band, truth)| {
        difference(Colour::from_text(answer[band]["colour"].as_str().unwrap()).unwrap(), Colour(truth))
    })
}

/// The worst of all paints in photographs of one sort.
fn worst(spoil: impl Fn(Photograph) -> Photograph, more: &[&str]) -> f64 {
    let all = PAINTS
        .iter()
        .flat_map(|(white, black)| off(&read(&spoil(Photograph::of(*white, *black)).jpeg(), more), (*white, *black)));
    all.fold(0.0, f64::max)
}

#[test]
fn colours_come_back_from_spoiled_photographs() {
    let paper = ["--paper", "100,150"];
    let both = ["--paper", "100,150", "--paper", "700,150"];
    let three = ["--paper", "100,150", "--paper", "700,150", "--grey", "400,550"];
    let noisy = |photograph| Photograph { noise: 4.0, spoiled: true, ..photograph };
    let warm = |photograph| Photograph { cast: [1.0, 0.86, 0.62], ..noisy(photograph) };
    let figures = [
        ("clean, nothing named", worst(|photograph| photograph, &[]), 2.0),
        ("noise, specks and glare", worst(noisy, &[]), 2.0),
        ("warm light, bare paper", worst(warm, &paper), 2.0),
        ("warm light, grey card", worst(warm, &["--grey", "400,550"]), 2.0),
        (
            "light falls to the right, paper on both sides",
            worst(|photograph| Photograph { tilt: (0.4, 0.0), ..warm(photograph) }, &both),
            2.0,
        ),
        (
            "light falls to the right and down, three bare patches",
            worst(|photograph| Photograph { tilt: (0.3, 0.25), ..warm(photograph) }, &three),
            2.0,
        ),
    ];
    let shown: String =
        figures.iter().map(|(what, worst, most)| format!("{what}: {worst:.2} (below {most})\n")).collect();
    println!("worst of {} patches, CIEDE2000\n{shown}", PAINTS.len());
    assert!(figures.iter().all(|(_, worst, most)| worst < most), "{shown}");
    let cast = worst(warm, &[]);
    assert!(cast > 8.0, "without a bare patch a cast stays: {cast}");
}

/// What telephones make of a picture: smooth, blurred, pressed hard, or grainy.
#[test]
fn smooth_blurred_pressed_and_grainy_pictures_are_read_as_well() {
    let falling = |photograph| Photograph { tilt: (0.3, 0.2), cast: [1.0, 0.9, 0.75], ..photograph };
    let three = ["--paper", "100,150", "--paper", "700,150", "--grey", "400,550"];
    let figures = [
        ("no noise, PNG-like", worst(|photograph| Photograph { quality: 100, ..falling(photograph) }, &three), 2.0),
        ("grain of 2", worst(|photograph| Photograph { noise: 2.0, ..falling(photograph) }, &three), 1.5),
        ("grain of 8", worst(|photograph| Photograph { noise: 8.0, ..falling(photograph) }, &three), 2.0),
        (
            "blurred and pressed to quality 60",
            worst(|photograph| Photograph { blur: 3.0, quality: 60, ..falling(photograph) }, &three),
            3.0,
        ),
        (
            "grain of 4, pressed to quality 60",
            worst(|photograph| Photograph { noise: 4.0, quality: 60, ..falling(photograph) }, &three),
            2.0,
        ),
    ];
    let shown: String = figures.iter().map(|(what, worst, _)| format!("{what}: {worst:.2}\n")).collect();
    println!("worst of {} patches, CIEDE2000\n{shown}", PAINTS.len());
    assert!(figures.iter().all(|(_, worst, most)| worst < most), "{shown}");
}

#[test]
fn a_bare_black_patch_takes_the_veil_out() {
    let veiled = |photograph| Photograph { veil: 0.05, noise: 2.0, cast: [1.0, 0.9, 0.8], ..photograph };
    let with = ["--paper", "100,150", "--black-card", "100,350"];
    let (left, taken) = (worst(veiled, &with[..2]), worst(veiled, &with));
    assert!(taken < 2.5 && left > 5.0, "taken out: {taken:.2}, left in: {left:.2}");
    let dark = Photograph::of([0x34, 0x30, 0x2c], [0x22, 0x20, 0x1e]);
    let answer = read(&veiled(dark).jpeg(), &with);
    assert!((answer["veil"].as_f64().unwrap() - 0.05).abs() < 0.01, "{answer}");
    assert_eq!(answer["bare"].as_array().unwrap().last().unwrap()["name"], "bare black card");
    let answer = read(&Photograph { veil: 0.12, ..veiled(dark) }.jpeg(), &with);
    assert!(answer["warnings"].to_string().contains("a veil of 1"), "{answer}");
    let answer = read(&dark.jpeg(), &[&with[..], &["--black-value", "6%"]].concat());
    assert!(answer["warnings"].to_string().contains("--black-value is too high"), "{answer}");
    assert_eq!(read(&dark.jpeg(), &with)["warnings"], serde_json::json!([]));
}

#[test]
fn light_that_is_no_plane_is_told() {
    let even = Photograph::of([0xc9, 0xa0, 0x70], [0x8a, 0x60, 0x3a]);
    let corners: Vec<&str> =
        ["100,80", "700,80", "100,230", "700,230"].into_iter().flat_map(|at| ["--paper", at]).collect();
    let said = |picture: &image::RgbImage| read(&photograph::jpeg(picture), &corners)["warnings"].to_string();
    let falling = Photograph { tilt: (0.3, 0.2), ..even }.picture();
    assert_eq!(said(&falling), "[]", "a plane");
    let mut shaded = falling;
    for (_, _, pixel) in shaded.enumerate_pixels_mut().filter(|(x, y, _)| *x > 620 && *y < 150) {
        pixel.0 = pixel.0.map(|channel| channel / 10 * 8);
    }
    assert!(said(&shaded).contains("neither even nor does it fall off evenly"), "{}", said(&shaded));
}

#[test]
fn what_the_cards_reflect_can_be_said() {
    let veil = Mixture::of(&[(
        &Pigment { depths: Depths { absorbed: [0.2; 36], scattered: [0.3; 36] }, ..Pigment::COLOURLESS },
        1.0,
    )]);
    let over = |card: f64| Stack::on(&Ground::grey(card), Surface::CHART).lay(&veil.clone().unwrap(), 1.0).colour();
    let picture = Photograph { cards: [0.93, 0.05], ..Photograph::of(over(0.93).0, over(0.05).0) };
    let points = ["--paper", "100,150", "--paper-value", "93%", "--black-card", "100,350", "--black-value", "5%"];
    let answer = read(&picture.jpeg(), &points);
    let off = off(&answer, (over(0.85).0, over(0.02).0));
    assert!(off.iter().all(|off| *off < 1.0), "{off:?} {answer}");
    for (option, value, says) in
        [("--paper-value", "20%", "from 40% to 100%"), ("--black-value", "30%", "is a grey one")]
    {
        let bench = Bench::empty();
        let run = bench.run(&[&["swatch", "card.jpg"], &POINTS[..], &[option, value]].concat());
        assert!(run.status == 2 && run.err.contains(says), "{}", run.err);
    }
}

#[test]
fn the_entry_is_ready_to_be_pasted_and_says_what_was_read() {
    let bench = Bench::empty();
    bench.write("card.jpg", Photograph::of([0xc9, 0xa0, 0x70], [0x8a, 0x60, 0x3a]).jpeg());
    let arguments = ["swatch", "card.jpg", "--paper", "12.5%,25%", "--coats", "2", "--name", "Marsh: Gold"];
    let run = bench.run(&[&arguments[..], &POINTS[..]].concat());
    assert_eq!(run.status, 0, "{}", run.err);
    assert_eq!(
        run.out,
        "  marsh-gold:\n    name: \"Marsh: Gold\"\n    kind: paint\n    # where it covers fully, predicted: #a9733e (±6)\n    \
         hiding: semi-transparent\n    swatches:\n      - {over: white, coats: 2, colour: \"#c9a170\"}\n      \
         - {over: black, coats: 2, colour: \"#8a603a\"}\n"
    );
    assert_eq!(
        run.err,
        "\
patch                    at            side  colour   spread  used
over white               400,150         18  #c9a170     0.0  100 %
over black               400,350         18  #8a603a     0.0  100 %
bare white card          100,150         18  #ededed     0.0  100 %
(pixels of the upright picture; spread: ΔE00 of the patch's parts; bare patches as photographed)
One coat is predicted to hide 16 to 18 % (contrast ratio, ISO 6504-3): semi-transparent.
Put this below 'paints:' in a file of content/paints/:

"
    );
    bench.write("g/content/guide.yaml", "title: Fen\nauthor: Quill Hollis\n");
    bench.write("g/content/paints/own.yaml", format!("maker: Case\nrange: Own\nfamily: water\npaints:\n{}", run.out));
    let check = bench.run(&["check", "g"]);
    assert!(!check.out.contains("own.yaml") || !check.out.contains("error"), "{}", check.out);
    assert_eq!(bench.run(&["match", "g", "marsh-gold"]).status, 0);
}

#[test]
fn pictures_stand_upright_before_points_count() {
    let (white, black) = PAINTS[0];
    let lying = image::imageops::rotate270(&Photograph::of(white, black).picture());
    let answer = read(&photograph::turned(&photograph::jpeg(&lying), 6), &[]);
    assert_eq!(answer["picture"], serde_json::json!({ "width": 800, "height": 600 }));
    assert!(off(&answer, (white, black)).iter().all(|off| *off < 1.0), "{answer}");
}

#[test]
fn a_telephone_that_saves_in_wider_primaries_is_understood() {
    let (white, black) = PAINTS[3];
    let mut picture = Photograph::of(white, black).picture();
    let (wide, usual) = (ColorProfile::new_display_p3(), ColorProfile::new_srgb());
    let to_wide = usual.create_transform_8bit(Layout::Rgb, &wide, Layout::Rgb, TransformOptions::default()).unwrap();
    let pixels = picture.as_raw().clone();
    to_wide.transform(&pixels, &mut picture).unwrap();
    let mut bytes = Vec::new();
    let mut encoder = JpegEncoder::new_with_quality(&mut bytes, 85);
    encoder.set_icc_profile(wide.encode().unwrap()).unwrap();
    picture.write_with_encoder(encoder).unwrap();
    let answer = read(&bytes, &["--paper", "100,150"]);
    assert!(off(&answer, (white, black)).iter().all(|off| *off < 2.0), "{answer}");
    let unaware = off(&read(&photograph::jpeg(&picture), &["--paper", "100,150"]), (white, black));
    assert!(unaware.iter().any(|off| *off > 2.5), "without the profile it would be off: {unaware:?}");
}

#[test]
fn an_opaque_paint_asks_for_a_tint_and_a_missing_reference_is_told() {
    let answer = read(&Photograph::of([0x80, 0x40, 0x30], [0x7f, 0x3f, 0x30]).jpeg(), &[]);
    assert_eq!((&answer["wants_tint"], &answer["paint"]["hiding"]), (&true.into(), &"opaque".into()));
    let warnings = answer["warnings"].to_string();
    assert!(warnings.contains("no bare patch") && warnings.contains("thinner coat, or better a tint"), "{warnings}");
    let answer = read(&Photograph::of([0xc9, 0xa0, 0x70], [0x8a, 0x60, 0x3a]).jpeg(), &["--paper", "100,150"]);
    assert_eq!(answer["warnings"], serde_json::json!([]));
}

#[test]
fn what_can_not_be_read_is_refused_with_reason_and_mend() {
    let good = Photograph::of([0xc9, 0xa0, 0x70], [0x8a, 0x60, 0x3a]);
    let bright = Photograph { cast: [1.4; 3], ..Photograph::of([0xf0; 3], [0xc0; 3]) };
    let dark = Photograph { cast: [0.001; 3], ..good };
    let cases: [(&str, Vec<u8>, &[&str]); 14] = [
        (
            "the patch over white does not lie in the picture",
            good.jpeg(),
            &["--white", "795,150", "--black", "400,350"],
        ),
        ("does not lie in the picture", good.jpeg(), &["--white", "120%,50%", "--black", "400,350"]),
        ("is too uneven", good.jpeg(), &["--white", "400,250", "--black", "400,350"]),
        ("only 4 × 4 pixels", good.jpeg(), &["--white", "400,150", "--black", "400,350", "--patch", "4"]),
        ("over white is burnt out", bright.jpeg(), &POINTS),
        ("lost in the dark", dark.jpeg(), &POINTS),
        ("points of --white and --black are exchanged", good.jpeg(), &["--white", "400,350", "--black", "400,150"]),
        ("brighter than white", good.jpeg(), &["--white", "400,150", "--black", "400,350", "--paper", "100,350"]),
        ("times stronger", good.jpeg(), &[&POINTS[..], &["--paper", "100,150", "--paper", "100,350"]].concat()),
        ("can't read --white 'here'", good.jpeg(), &["--white", "here", "--black", "400,350"]),
        ("has no colour to read", good.jpeg(), &[&POINTS[..], &["--kind", "thinner"]].concat()),
        ("can't be read", b"no picture".to_vec(), &POINTS),
        ("can't be read", good.jpeg()[..9000].to_vec(), &POINTS),
        ("40000 × 40000 pixels", bomb(), &POINTS),
    ];
    for (says, photograph, points) in cases {
        let bench = Bench::empty();
        bench.write("card.jpg", photograph);
        let run = bench.run(&[&["swatch", "card.jpg"], points].concat());
        assert_eq!((run.status, run.out.as_str()), (2, ""), "{says}");
        assert!(run.err.starts_with("maulstick: ") && run.err.contains("\n  mend: "), "{}", run.err);
        assert!(run.err.contains(says), "{says}: {}", run.err);
    }
    let bench = Bench::empty();
    let run = bench.run(&[&["swatch", "none.jpg"], &POINTS[..]].concat());
    assert_eq!((run.status, run.err.contains("there is no file none.jpg")), (2, true), "{}", run.err);
    assert_eq!(bench.run(&["swatch", "none.jpg"]).status, 2);
}

/// The header of a PNG that would fill the memory.
fn bomb() -> Vec<u8> {
    let whole = photograph::png(&image::RgbImage::new(1, 1));
    let mut header = b"IHDR".to_vec();
    header.extend(40_000_u32.to_be_bytes().repeat(2));
    header.extend(&whole[24..29]);
    let sum = header.iter().fold(u32::MAX, |sum, byte| {
        (0..8).fold(sum ^ u32::from(*byte), |sum, _| if sum & 1 == 1 { (sum >> 1) ^ 0xedb8_8320 } else { sum >> 1 })
    });
    [&whole[..12], &header, &(!sum).to_be_bytes(), &whole[33..]].concat()
}

#[test]
fn a_photograph_cut_or_spoiled_anywhere_is_no_panic() {
    let whole = Photograph::of([0xc9, 0xa0, 0x70], [0x8a, 0x60, 0x3a]).jpeg();
    for at in (0..whole.len()).step_by(whole.len() / 12) {
        let mut spoiled = whole.clone();
        spoiled[at] ^= 0x5a;
        for photograph in [whole[..at].to_vec(), spoiled] {
            let bench = Bench::empty();
            bench.write("card.jpg", photograph);
            let run = bench.run(&[&["swatch", "card.jpg"], &POINTS[..]].concat());
            assert!(matches!(run.status, 0 | 2) && !run.err.contains("panicked"), "{at}: {}", run.err);
        }
    }
}

#[test]
fn points_on_one_spot_and_a_veil_over_all_are_refused() {
    let good = Photograph::of([0xc9, 0xa0, 0x70], [0x8a, 0x60, 0x3a]);
    let black_card = ["--paper", "100,150", "--black-card", "100,350"];
    let refused = |photograph: Photograph, points: &[&str]| {
        let bench = Bench::empty();
        bench.write("card.jpg", photograph.jpeg());
        let run = bench.run(&[&["swatch", "card.jpg"], points].concat());
        assert!(run.status == 2 && run.out.is_empty() && run.err.contains("\n  mend: "), "{}", run.err);
        run.err
    };
    for (says, points) in [
        ("over white and over black lie on one another", &["--white", "400,150", "--black", "404,150"][..]),
        (
            "bare white card and bare black card lie on one another",
            &[&POINTS[..], &["--paper", "100,150", "--black-card", "100,150"]].concat(),
        ),
        ("over white and bare white card lie on one another", &[&POINTS[..], &["--paper", "400,150"]].concat()),
        (
            "two patches of bare white card lie on one another",
            &[&POINTS[..], &["--paper", "100,150", "--paper", "110,150"]].concat(),
        ),
    ] {
        let said = refused(good, points);
        assert!(said.contains(says), "{says}: {said}");
    }
    let dim = Photograph { cast: [0.6; 3], veil: 0.5, ..good };
    let said = refused(dim, &[&POINTS[..], &black_card].concat());
    assert!(said.contains("of the light would be a veil"), "{said}");
    let side_by_side = ["--paper", "100,150", "--paper", "120,150"];
    assert_eq!(read(&good.jpeg(), &side_by_side)["warnings"], serde_json::json!([]), "neighbours share nothing");
    assert_eq!(read(&good.jpeg(), &black_card)["warnings"], serde_json::json!([]));
}

#[test]
fn a_picture_without_colour_and_one_bare_patch_far_away_are_told() {
    let good = Photograph::of([0xc9, 0xa0, 0x70], [0x8a, 0x60, 0x3a]);
    let near = ["--paper", "100,150"];
    let said = |photograph: &[u8], more: &[&str]| read(photograph, more)["warnings"].to_string();
    assert_eq!(said(&good.jpeg(), &near), "[]");
    let grey = image::DynamicImage::ImageRgb8(good.picture()).grayscale();
    let as_colours = photograph::jpeg(&grey.to_rgb8());
    assert!(said(&as_colours, &near).contains("no colour anywhere"), "three channels that are the same");
    let mut one_channel = Vec::new();
    JpegEncoder::new_with_quality(&mut one_channel, 85).encode_image(&grey.to_luma8()).unwrap();
    assert!(said(&one_channel, &near).contains("no colour anywhere"), "one channel");
    let far = ["--paper", "780,20"];
    assert!(said(&good.jpeg(), &far).contains("can't show how the light falls off"), "{}", said(&good.jpeg(), &far));
    assert_eq!(said(&good.jpeg(), &[&far[..], &near].concat()), "[]", "two show it");
}
