//! A painted model against its predictions: what was done otherwise than written is found.

use std::io::Cursor;

use image::{DynamicImage, ImageFormat, Rgb, RgbImage, Rgba, RgbaImage};
use maulstick::brushout::PatchSize;
use maulstick::colour::space;
use maulstick::compare::{Change, Compared, Measured, Question, compare, measure};
use maulstick::door::Memory;
use maulstick::measure::Colour;
use maulstick::render::{Cut, Studio};
use maulstick::story;

use crate::bench::Bench;

const PAINTS: &str = "maker: Fenwick\nrange: Own\nfamily: water\nbottle: 17 ml\npaints:
  white: {name: White ground, kind: primer, colour: '#e8e6e0', hiding: opaque}
  ochre: {name: Ochre, kind: paint, colour: '#b98a3c', hiding: semi-opaque}
  blue: {name: Blue, kind: paint, colour: '#2c4a86', hiding: semi-transparent}
  rust: {name: Rust, kind: paint, colour: '#8a3f22', hiding: semi-transparent}
  amber: {name: Amber, kind: clear, colour: '#d08a1e', hiding: transparent}
  peat: {name: Peat wash, kind: wash, colour: '#4a3826'}
  water: {name: Thinner, kind: thinner, suits: [water]}
";

/// The steps of a small scheme, each with its area and its mix.
const STEPS: [(&str, &str); 8] = [
    ("10-ground", "stage: undercoat\nareas: [all]\npaints: [white]"),
    ("20-green", "stage: basecoat\nareas: [shell]\npaints: [{use: ochre, parts: 2}, {use: blue, parts: 1}]\ncoats: 2"),
    ("30-wash", "stage: shade\nareas: [shell]\nwhere: all\npaints: [peat]"),
    ("40-amber", "stage: glaze\nareas: [cloth]\npaints: [{use: amber, parts: 1}, {use: water, parts: 1}]\ncoats: 4"),
    ("50-rust", "stage: basecoat\nareas: [straps]\npaints: [rust]\ncoats: 2"),
    ("60-blue-mist", "stage: layer\nareas: [straps]\npaints: [{use: blue, parts: 1}, {use: water, parts: 3}]"),
    ("70-ochre", "stage: basecoat\nareas: [hood]\npaints: [{use: ochre, parts: 1}, {use: rust, parts: 1}]\ncoats: 2"),
    ("80-matt", "stage: shade\nareas: [hood]\nwhere: all\npaints: [{use: peat, parts: 1}, {use: water, parts: 1}]"),
];

/// What somebody did otherwise: the area, the step, what is written there, what was done, and what that is.
const SLIPS: [(usize, &str, &str, &str, Change); 10] = [
    (0, "20-green", "parts: 2", "parts: 4", Change::MoreOfFirst),
    (0, "20-green", "parts: 2", "parts: 1", Change::LessOfFirst),
    (0, "30-wash", "[shell]", "[]", Change::LeftOut),
    (1, "40-amber", "coats: 4", "coats: 3", Change::CoatLess),
    (1, "40-amber", "coats: 4", "coats: 5", Change::CoatMore),
    (1, "40-amber", "water, parts: 1", "water, parts: 2", Change::Thinner),
    (2, "50-rust", "coats: 2", "coats: 1", Change::CoatLess),
    (2, "60-blue-mist", "water, parts: 3", "water, parts: 1.5", Change::Thicker),
    (3, "70-ochre", "{use: ochre, parts: 1}", "{use: ochre, parts: 2}", Change::MoreOfFirst),
    (3, "80-matt", "[hood]", "[]", Change::LeftOut),
];

/// Other paints than written: the area, the step, what is written, and what was taken.
const OTHER_PAINTS: [(usize, &str, &str, &str); 2] =
    [(0, "20-green", "use: blue", "use: rust"), (2, "50-rust", "[rust]", "[blue]")];

/// Four columns of the bare model, grey, each lit from the middle.
fn bare() -> RgbImage {
    RgbImage::from_fn(480, 320, |x, y| {
        let across = f64::from(x % 120) / 60.0 - 1.0;
        let light = (1.0 - 0.6 * across * across) * (1.0 - f64::from(y) / 1200.0);
        let linear = 0.78 * light;
        Rgb(space::shown(space::LinearRgb::new(linear, linear, linear)).0)
    })
}

/// The map of the four columns.
fn map() -> RgbImage {
    RgbImage::from_fn(480, 320, |x, _| Rgb([[255, 0, 0], [0, 255, 0], [0, 0, 255], [255, 255, 0]][x as usize / 120]))
}

fn png(pixels: &RgbImage) -> Vec<u8> {
    png_of(&pixels.clone().into())
}

fn png_of(picture: &DynamicImage) -> Vec<u8> {
    let mut bytes = Cursor::new(Vec::new());
    picture.write_to(&mut bytes, ImageFormat::Png).unwrap();
    bytes.into_inner()
}

/// A picture of the finished model of a guide.
fn painted(door: &Memory) -> Vec<u8> {
    let checked = story::check(door).unwrap();
    let worked = checked.worked.called("beetle").unwrap();
    let look = worked.looks.last().unwrap().at_rest();
    let drawn = Studio::default().picture(worked.sitter().unwrap(), &look.areas, &look.rest).unwrap();
    drawn.bytes(Cut::Large).to_vec()
}

/// The guide with one thing done otherwise.
fn guide(slip: Option<(&str, &str, &str)>) -> Memory {
    guide_with(slip, png(&bare()), png(&map()))
}

/// The same with other pictures of the bare model.
fn guide_with(slip: Option<(&str, &str, &str)>, bare: Vec<u8>, map: Vec<u8>) -> Memory {
    let mut door = Memory::default()
        .with("content/guide.yaml", "title: Guide\nauthor: Ada\n")
        .with("content/paints/own.yaml", PAINTS)
        .with(
            "content/schemes/beetle/scheme.md",
            "---\ntitle: Beetle\nareas:\n  shell: {share: 40%, map: '#ff0000'}\n  cloth: {share: 20%, map: '#00ff00'}
  straps: {share: 20%, map: '#0000ff'}\n  hood: {share: 20%, map: '#ffff00'}
model: {surface: 30 cm2, bare: bare.png, map: map.png}\n---\n",
        )
        .with("content/schemes/beetle/bare.png", bare)
        .with("content/schemes/beetle/map.png", map);
    for (name, front) in STEPS {
        let done = match slip {
            Some((step, _, "[]")) if step == name => continue,
            Some((step, written, done)) if step == name => front.replace(written, done),
            _ => front.to_owned(),
        };
        door = door.with(
            &format!("content/schemes/beetle/{name}.md"),
            format!("---\ntitle: {name}\nwith: brush\n{done}\n---\n"),
        );
    }
    door
}

/// One area of a guide compared with a colour.
fn one(door: &Memory, area: usize, colour: Colour) -> Compared {
    let checked = story::check(door).unwrap();
    let scheme = checked.worked.called("beetle").unwrap();
    compare(&scheme.scheme, &checked.worked.conditions, &[Measured { area, colour }]).remove(0)
}

#[test]
fn what_was_done_otherwise_is_found() {
    let written = guide(None);
    let mut missed = Vec::new();
    for (area, step, said, done, change) in SLIPS {
        let model = one(&guide(Some((step, said, done))), area, Colour([0; 3])).predicted.unwrap();
        let compared = one(&written, area, model);
        let place = STEPS.iter().position(|(name, _)| *name == step);
        let best = compared.explained.first().map(|trial| (Some(trial.step), trial.change));
        if best != Some((place, change)) {
            missed.push(format!("{step} {change:?}: {compared:?}"));
        }
    }
    assert!(missed.len() <= 2, "{} of ten missed:\n{}", missed.len(), missed.join("\n"));
}

#[test]
fn the_step_is_found_on_a_picture_of_the_whole_model_through_its_map() {
    let checked = story::check(&guide(None)).unwrap();
    let scheme = &checked.worked.called("beetle").unwrap().scheme;
    let map = png(&map());
    let question = Question { points: Vec::new(), map: Some(&map), bare: Vec::new(), patch: PatchSize::USUAL };
    let slips = SLIPS.map(|(area, step, said, done, _)| (area, step, said, done, true));
    let others = OTHER_PAINTS.map(|(area, step, said, done)| (area, step, said, done, false));
    let mut missed = Vec::new();
    for (area, step, said, done, is_tried) in slips.into_iter().chain(others) {
        let photo = painted(&guide(Some((step, said, done))));
        let reading = measure(&photo, scheme, &question).unwrap();
        assert_eq!((reading.measured.len(), reading.missing.len(), reading.strays.len()), (4, 0, 0), "{step}");
        let compared = compare(scheme, &checked.worked.conditions, &reading.measured);
        let place = STEPS.iter().position(|(name, _)| *name == step);
        let one = &compared[area];
        if !is_tried {
            // Other paints are not tried; that something else was taken is told by how far it is off.
            assert!(one.apart > one.give_or_take, "{step} with another paint: {one:?}");
        } else if one.explained.first().map(|trial| trial.step) != place {
            missed.push(format!("{step} {said} as {done}: {one:?}"));
        }
        let others = compared.iter().filter(|other| other.area != area && !other.explained.is_empty());
        assert_eq!(others.count(), 0, "{step}: only what was done otherwise is explained: {compared:?}");
    }
    assert!(missed.len() <= 2, "{} of ten missed:\n{}", missed.len(), missed.join("\n"));
}

#[test]
fn a_model_that_is_as_written_is_explained_by_nothing() {
    let written = guide(None);
    let as_predicted = one(&written, 0, Colour([90; 3])).predicted.unwrap();
    let compared = one(&written, 0, as_predicted);
    assert_eq!((compared.apart, compared.explained.len()), (Some(0.0), 0));
}

#[test]
fn a_photograph_is_read_at_points_or_through_a_map() {
    let bench = Bench::demo();
    let scheme = "content/schemes/fen-warden/scheme.md";
    bench.replace(scheme, "shell: {share: 45%", "shell: {map: \"#ff0000\", share: 45%");
    let png = |pixels: RgbImage| {
        let mut bytes = Cursor::new(Vec::new());
        DynamicImage::from(pixels).write_to(&mut bytes, ImageFormat::Png).unwrap();
        bytes.into_inner()
    };
    // The left half is shell, the right half something white in a warm light.
    let half =
        |left: [u8; 3], right: [u8; 3]| RgbImage::from_fn(840, 420, |x, _| Rgb(if x < 420 { left } else { right }));
    bench.write("photo.png", png(half([150, 90, 40], [230, 215, 190])));
    bench.write("map.png", png(half([255, 0, 0], [0, 0, 0])));
    let at = bench.run(&["compare", ".", "fen-warden", "photo.png", "--at", "shell=25%,50%", "--white", "75%,50%"]);
    assert_eq!(at.status, 0, "{}", at.err);
    assert!(
        at.out.contains("Beetle shell") && at.out.contains("apart") && !at.out.contains("white balance"),
        "{}",
        at.out
    );
    let mapped = bench.run(&["compare", ".", "fen-warden", "photo.png", "--map", "map.png", "--format", "json"]);
    assert_eq!(mapped.status, 0, "{}", mapped.err);
    let json: serde_json::Value = serde_json::from_str(&mapped.out).unwrap();
    assert_eq!(
        (json["areas"][0]["area"].as_str(), json["areas"][0]["measured"].as_str()),
        (Some("shell"), Some("#965a28"))
    );
    assert_eq!(json["balanced"], false);
    for (arguments, answer) in [
        (&["compare", ".", "fen-warden", "photo.png"][..], "nothing says where the areas are"),
        (&["compare", ".", "fen-warden", "photo.png", "--at", "shel=1%,1%"], "shell"),
        (&["compare", ".", "fen-warden", "photo.png", "--at", "shell"], "there is no '='"),
        (&["compare", ".", "fen-warden", "map.png", "--map", "photo.png"], "shows none of the areas"),
    ] {
        let run = bench.run(arguments);
        assert!(run.status != 0 && run.err.contains(answer), "{arguments:?}: {}", run.err);
    }
    let own = "content/schemes/fen-warden";
    bench.replace(scheme, "surface: 32 cm2", "surface: 32 cm2, bare: bare.png, map: map.png");
    bench.write(&format!("{own}/bare.png"), png(half([150, 150, 150], [90, 90, 90])));
    bench.write(&format!("{own}/map.png"), png(half([255, 0, 0], [0, 0, 0])));
    let by_itself = bench.run(&["compare", ".", "fen-warden", "photo.png", "--format", "json"]);
    assert_eq!((by_itself.status, &by_itself.out), (0, &mapped.out), "the model's own map: {}", by_itself.err);
    bench.write(&format!("{own}/map.png"), png(RgbImage::from_pixel(420, 420, Rgb([255, 0, 0]))));
    let other = bench.run(&["compare", ".", "fen-warden", "photo.png"]);
    assert!(
        other.status != 0 && other.err.contains("the map has 420 × 420 pixels, the photo 840 × 420"),
        "{}",
        other.err
    );
}

#[test]
fn areas_that_a_map_does_not_show_are_told_each_with_its_reason() {
    let bench = Bench::demo();
    let scheme = "content/schemes/fen-warden/scheme.md";
    bench.replace(scheme, "shell: {share: 45%", "shell: {map: \"#ff0000\", share: 45%");
    bench.replace(scheme, "cloth: {share: 30%", "cloth: {map: \"#0000ff\", share: 30%");
    bench.write("photo.png", png(&RgbImage::from_pixel(800, 600, Rgb([150, 90, 40]))));
    let map = RgbImage::from_fn(400, 300, |x, y| match (x, y) {
        (40..180, 40..260) => Rgb([255, 0, 0]),
        (220..360, 40..260) => Rgb([255, 96, 0]),
        _ => Rgb([255; 3]),
    });
    bench.write("map.png", png(&map));
    let text = bench.run(&["compare", ".", "fen-warden", "photo.png", "--map", "map.png"]);
    assert_eq!(text.status, 0, "{}", text.err);
    for said in [
        "Reed cloth: not compared, its colour, #0000ff, is not on the map",
        "Straps and boots: not compared, nothing says which colour it has on the map",
        "Lantern panes: not compared",
        "about #ff6000 on the map is no area's colour",
    ] {
        assert!(text.out.contains(said), "{said}: {}", text.out);
    }
    assert!(!text.out.contains("Beetle shell: not compared"), "{}", text.out);
    let json = bench.run(&["compare", ".", "fen-warden", "photo.png", "--map", "map.png", "--format", "json"]);
    let json: serde_json::Value = serde_json::from_str(&json.out).unwrap();
    let missing = json["missing"].as_array().unwrap();
    let ids: Vec<&str> = missing.iter().filter_map(|one| one["area"].as_str()).collect();
    assert_eq!(ids, ["cloth", "leather", "lantern"]);
    assert!(missing.iter().all(|one| one["why"].is_string() && one["mend"].as_str().unwrap().contains("--at")));
    assert_eq!(json["unclaimed"], serde_json::json!(["#ff6000"]));
    let at = bench.run(&["compare", ".", "fen-warden", "photo.png", "--at", "shell=25%,50%"]);
    assert!(at.status == 0 && !at.out.contains("not compared"), "who names points chooses: {}", at.out);
}

/// What a guide is told about the map of its bare model.
fn told(door: &Memory) -> Vec<String> {
    let checked = story::check(door).unwrap();
    let told = checked.findings.iter().filter(|finding| finding.check.id == "bare-area");
    told.map(|finding| format!("{}: {}", finding.message, finding.mend)).collect()
}

#[test]
fn a_part_of_the_map_in_a_colour_like_an_area_s_is_told_with_both_colours() {
    let mut like = map();
    for (x, y) in (20..100).flat_map(|x| (100..200).map(move |y| (x, y))) {
        like.put_pixel(x, y, Rgb([255, 96, 0]));
    }
    let said = told(&guide_with(None, png(&bare()), png(&like)));
    assert!(said.len() == 1 && said[0].contains("about #ff6000 on the map is like the colour of 'shell', #ff0000"));
    assert!(said[0].contains("'map: \"#ff6000\"'"), "{said:?}");
    assert_eq!(told(&guide(None)), [""; 0], "areas alone are no mistake");
}

#[test]
fn a_photo_without_light_is_told_and_one_in_little_light_is_not() {
    // A shade of 60 is 4.5 percent of a white's light, one of 20 is 0.7 (IEC 61966-2-1).
    for (shade, wanted) in [(0, true), (20, true), (60, false)] {
        let dim = RgbImage::from_pixel(480, 320, Rgb([shade; 3]));
        let checked = story::check(&guide_with(None, png(&dim), png(&map()))).unwrap();
        let found = checked.findings.iter().find(|finding| finding.check.id == "bare-dark");
        assert_eq!(found.is_some(), wanted, "a shade of {shade}: {found:?}");
    }
}

#[test]
fn a_cut_out_model_is_drawn_as_on_its_ground() {
    // What was cut out is black in the file, and is scaled to two thirds.
    let on = |clear: [u8; 4]| {
        let shade = |x: u32, y: u32| u8::try_from(140 + (x + y) / 30).unwrap();
        let seen = RgbaImage::from_fn(1440, 960, |x, y| {
            let light = shade(x, y);
            let is_seen = f64::from(x.abs_diff(720)).hypot(f64::from(y.abs_diff(480))) < 450.0;
            Rgba(if is_seen { [light, light, light, 255] } else { clear })
        });
        painted(&guide_with(None, png_of(&seen.into()), png(&map())))
    };
    // The ground behind models that were cut out, as `plate/survey.rs` has it.
    assert!(on([0; 4]) == on([238, 235, 229, 255]), "there is no dark rim");
    assert!(on([0; 4]) != on([0, 0, 0, 255]), "and black that is seen is drawn");
}

/// What is as far off as before explains nothing: a trial is told where it takes at least half of the difference away, or comes to
/// within what the prediction may be off.
#[test]
fn what_leaves_most_of_the_difference_explains_nothing() {
    let written = guide(None);
    let colours = [[240, 120, 10], [20, 40, 200], [250, 250, 250], [10, 10, 10], [230, 40, 160]];
    for (area, colour) in (0..4).flat_map(|area| colours.map(|colour| (area, Colour(colour)))) {
        let compared = one(&written, area, colour);
        let (Some(apart), within) = (compared.apart, compared.nine_in_ten.unwrap_or_default()) else { continue };
        for trial in &compared.explained {
            assert!(trial.apart <= within.max(apart / 2.0), "{colour}: {trial:?} of {apart}");
        }
    }
}
