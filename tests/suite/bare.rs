//! A photograph of the bare model in place of a mesh: the steps are drawn on it, whatever camera and program it comes from.

use std::io::Cursor;

use image::codecs::jpeg::JpegEncoder;
use image::imageops::FilterType;
use image::{DynamicImage, ExtendedColorType, ImageEncoder, ImageFormat, Rgb, RgbImage};
use maulstick::colour::space;
use maulstick::door::Memory;
use maulstick::measure::Colour;
use maulstick::render::{Cut, Studio};
use maulstick::story;

const PAINTS: &str = "maker: Fenwick\nrange: Own\nfamily: water\nbottle: 17 ml\npaints:
  grey: {name: Grey ground, kind: primer, colour: '#8f8f8c', hiding: opaque}
  ochre: {name: Ochre, kind: paint, colour: '#b98a3c', hiding: opaque}
  teal: {name: Teal, kind: paint, colour: '#2f6769', hiding: opaque}
";

const AREAS: &str = "shell: {share: 50%, map: '#ff0000'}, cloth: {share: 50%, map: '#0000ff'}";

fn guide(areas: &str, photo: Vec<u8>, map: Vec<u8>) -> Memory {
    let front = format!(
        "---\ntitle: Beetle\nareas: {{{areas}}}\nmodel: {{name: Beetle, surface: 30 cm2, bare: photo.jpg, map: map.png}}\n---\n"
    );
    let step = |title: &str, front: &str| format!("---\ntitle: {title}\nwith: brush\n{front}\n---\n");
    Memory::default()
        .with("content/guide.yaml", "title: Guide\nauthor: Ada\n")
        .with("content/paints/own.yaml", PAINTS)
        .with("content/schemes/beetle/scheme.md", front)
        .with("content/schemes/beetle/photo.jpg", photo)
        .with("content/schemes/beetle/map.png", map)
        .with("content/schemes/beetle/10-ground.md", step("Ground", "stage: undercoat\nareas: [all]\npaints: [grey]"))
        .with(
            "content/schemes/beetle/20-ochre.md",
            step("Ochre", "stage: basecoat\nareas: [shell]\npaints: [ochre]\ncoats: 3"),
        )
        .with(
            "content/schemes/beetle/30-teal.md",
            step("Teal", "stage: basecoat\nareas: [cloth]\npaints: [teal]\ncoats: 3"),
        )
}

/// How far a place lies from the middle of a ball, in radii.
fn in_ball(x: f64, y: f64, middle: f64) -> f64 {
    ((x - middle) / 0.2).hypot((y - 0.5) / 0.3)
}

/// Two grey balls in front of something pale, with a groove around each, under a light of some colour.
fn photo(width: u32, height: u32, light: [f64; 3]) -> RgbImage {
    RgbImage::from_fn(width, height, |x, y| {
        let (x, y) = (f64::from(x) / f64::from(width), f64::from(y) / f64::from(height));
        let near = in_ball(x, y, 0.27).min(in_ball(x, y, 0.73));
        let middle = if x < 0.5 { 0.27 } else { 0.73 };
        let (dx, dy) = ((x - middle) / 0.2, (y - 0.5) / 0.3);
        let facing = (-0.4 * dx - 0.6 * dy + 0.7 * (1.0 - near * near).max(0.0).sqrt()).max(0.0);
        let groove = if (near - 0.5).abs() < 0.025 { 0.5 } else { 1.0 };
        let grey = if near < 1.0 { (0.05 + 0.28 * facing) * groove } else { 0.55 };
        let linear = space::LinearRgb::new(grey * light[0], grey * light[1], grey * light[2]);
        Rgb(space::shown(linear).0)
    })
}

/// The map of the two balls: red and blue.
fn map(width: u32, height: u32) -> RgbImage {
    RgbImage::from_fn(width, height, |x, y| {
        let (x, y) = (f64::from(x) / f64::from(width), f64::from(y) / f64::from(height));
        match (in_ball(x, y, 0.27) < 1.0, in_ball(x, y, 0.73) < 1.0) {
            (true, _) => Rgb([255, 0, 0]),
            (_, true) => Rgb([0, 0, 255]),
            _ => Rgb([255, 255, 255]),
        }
    })
}

fn png(picture: impl Into<DynamicImage>) -> Vec<u8> {
    let mut bytes = Cursor::new(Vec::new());
    picture.into().write_to(&mut bytes, ImageFormat::Png).unwrap();
    bytes.into_inner()
}

/// A JPEG as a camera writes it that lay on its side: turned by a quarter, with a note to turn it back.
fn turned(picture: &RgbImage) -> Vec<u8> {
    let lying = image::imageops::rotate270(picture);
    let mut bytes = Vec::new();
    let mut encoder = JpegEncoder::new_with_quality(&mut bytes, 95);
    // TIFF header, one entry: orientation (0x0112) is 6, to be turned by a quarter clockwise (TIFF 6.0, EXIF 2.3).
    let note = [b"II*\0\x08\0\0\0\x01\0\x12\x01\x03\0\x01\0\0\0\x06\0\0\0".as_slice(), &[0; 4]].concat();
    encoder.set_exif_metadata(note).unwrap();
    encoder.write_image(&lying, lying.width(), lying.height(), ExtendedColorType::Rgb8).unwrap();
    bytes
}

fn jpeg(picture: impl Into<DynamicImage>) -> Vec<u8> {
    let picture: DynamicImage = picture.into();
    let mut bytes = Vec::new();
    picture.write_with_encoder(JpegEncoder::new_with_quality(&mut bytes, 95)).unwrap();
    bytes
}

/// The last picture of a guide's scheme, its findings about the photo, and the predicted colours of its two areas.
fn last(door: &Memory) -> (Option<RgbImage>, Vec<(String, String)>, [Colour; 2]) {
    let checked = story::check(door).unwrap();
    let told = checked.findings.iter().filter(|finding| finding.check.id.starts_with("bare"));
    let told = told.map(|finding| (finding.check.id.to_owned(), format!("{} {}", finding.message, finding.mend)));
    let worked = checked.worked.called("beetle").unwrap();
    let faces =
        [0, 1].map(|area: usize| worked.tones.get(area).and_then(|tones| tones.faces).unwrap_or(Colour([0; 3])));
    let picture = worked.sitter().zip(worked.looks.last()).map(|(sitter, look)| {
        let drawn = Studio::default().picture(sitter, &look.areas, &look.rest).unwrap();
        image::load_from_memory(drawn.bytes(Cut::Large)).unwrap().to_rgb8()
    });
    (picture, told.collect(), faces)
}

/// The mean of a small patch around a place of a picture.
fn seen(picture: &RgbImage, x: f64, y: f64) -> Colour {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a place in the picture")]
    let at = |part: f64, length: u32| (part * f64::from(length)) as u32;
    let reach = (picture.width() / 60).max(1);
    let (x, y) = (at(x, picture.width()), at(y, picture.height()));
    let patch = image::imageops::crop_imm(picture, x - reach, y - reach, 2 * reach, 2 * reach).to_image();
    Colour(image::imageops::resize(&patch, 1, 1, FilterType::Triangle).get_pixel(0, 0).0)
}

/// A place on a ball that looks into the light.
const LIT: (f64, f64) = (0.24, 0.43);

#[test]
fn the_steps_are_drawn_on_a_photo_from_any_camera_and_a_map_from_any_program() {
    let plain = photo(900, 600, [1.0; 3]);
    let smoothed = DynamicImage::from(map(300, 200)).resize_exact(900, 600, FilterType::Triangle);
    let grey = || DynamicImage::from(plain.clone()).to_luma8();
    let cases: [(&str, Vec<u8>, Vec<u8>); 7] = [
        ("plain", jpeg(plain.clone()), png(map(900, 600))),
        ("in warm light", jpeg(photo(900, 600, [1.2, 1.0, 0.7])), png(map(900, 600))),
        ("turned by a note", turned(&plain), png(map(900, 600))),
        ("grey", jpeg(grey()), png(map(900, 600))),
        ("dark", jpeg(photo(900, 600, [0.3; 3])), png(map(900, 600))),
        ("of odd size, with a smoothed map of another", jpeg(photo(1501, 1001, [1.0; 3])), png(smoothed)),
        ("with a tiny map", jpeg(plain.clone()), png(map(45, 30))),
    ];
    for (name, photo, map) in cases {
        let (picture, told, faces) = last(&guide(AREAS, photo, map));
        let wrong = told.iter().find(|(id, _)| id != "bare-small");
        assert!(wrong.is_none(), "{name}: {told:?}");
        let picture = picture.unwrap_or_else(|| panic!("{name}: not drawn"));
        let shell = seen(&picture, LIT.0, LIT.1);
        let cloth = seen(&picture, LIT.0 + 0.46, LIT.1);
        for (area, shown, wanted) in [("shell", shell, faces[0]), ("cloth", cloth, faces[1])] {
            let apart = space::difference(shown, wanted);
            assert!(apart < 6.0, "{name}: {area} is {shown}, predicted {wanted}: {apart:.1}");
        }
        let [red, green, blue] = seen(&picture, 0.06, 0.1).0.map(i32::from);
        assert!((red - blue).abs() < 12 && (red - green).abs() < 12, "{name}: the ground is neutral");
        let groove = seen(&picture, 0.27 - 0.1, 0.5);
        let lightness = |colour| space::lab(space::linear(colour)).l;
        assert!(lightness(groove) < lightness(shell) - 4.0, "{name}: the groove is still seen");
    }
}

#[test]
fn sixteen_bits_and_a_cut_out_are_drawn_too() {
    let grey = DynamicImage::from(photo(600, 400, [1.0; 3])).to_luma16();
    let mut cut = DynamicImage::from(photo(600, 400, [1.0; 3])).to_rgba8();
    for (pixel, owner) in cut.pixels_mut().zip(map(600, 400).pixels()) {
        if owner.0 == [255; 3] {
            pixel.0 = [0; 4];
        }
    }
    for photo in [png(grey), png(cut)] {
        let mut door = guide(AREAS, Vec::new(), png(map(600, 400)));
        let front =
            "---\ntitle: Beetle\nareas: {AREAS}\nmodel: {bare: photo.png, map: map.png, surface: 30 cm2}\n---\n";
        door = door.with("content/schemes/beetle/scheme.md", front.replace("AREAS", AREAS));
        let (picture, told, _) = last(&door.with("content/schemes/beetle/photo.png", photo));
        assert!(told.is_empty() && picture.is_some(), "{told:?}");
    }
}

/// Areas, photo and map, the check that fires, what it says, and whether the steps are drawn all the same.
type Told<'a> = (&'a str, Vec<u8>, Vec<u8>, &'a str, &'a str, bool);

#[test]
fn a_map_that_does_not_fit_or_lacks_an_area_is_told_where_it_is_named() {
    let plain = || jpeg(photo(900, 600, [1.0; 3]));
    let lying = image::imageops::rotate90(&map(900, 600));
    let mut stray = map(900, 600);
    for pixel in stray.pixels_mut().skip(900 * 270).take(900 * 30) {
        pixel.0 = [0, 200, 60];
    }
    let three = "shell: {share: 40%, map: '#ff0000'}, cloth: {share: 40%, map: '#0000ff'}, straps: {share: 20%";
    let cases: [Told<'_>; 9] = [
        (AREAS, plain(), png(map(900, 500)), "bare-fit", "the map has 900 × 500 pixels, the photo 900 × 600", false),
        (AREAS, plain(), png(lying), "bare-fit", "turn the map by a quarter", false),
        (
            &format!("{three}}}"),
            plain(),
            png(map(900, 600)),
            "bare-area",
            "nothing says which colour 'straps' has",
            true,
        ),
        (
            &format!("{three}, map: '#00ff00'}}"),
            plain(),
            png(map(900, 600)),
            "bare-area",
            "'straps', #00ff00, is not on",
            true,
        ),
        (
            &format!("{three}, map: '#0005ff'}}"),
            plain(),
            png(map(900, 600)),
            "bare-area",
            "same colour on the map",
            true,
        ),
        ("shell: 50%, cloth: 50%", plain(), png(map(900, 600)), "bare-area", "no area says which colour", false),
        (AREAS, plain(), png(stray), "bare-area", "is no area's colour", true),
        (AREAS, plain(), png(map(90, 60)), "bare-small", "has only 90 pixels across", true),
        (AREAS, b"no picture".to_vec(), png(map(900, 600)), "bare-unreadable", "can't be used", false),
    ];
    for (areas, photo, map, id, said, drawn) in cases {
        let (picture, told, _) = last(&guide(areas, photo, map));
        let found = told.iter().any(|(rule, words)| rule == id && words.contains(said));
        assert!(found, "{id}, '{said}': {told:?}");
        assert_eq!(picture.is_some(), drawn, "{id}, '{said}'");
    }
}
