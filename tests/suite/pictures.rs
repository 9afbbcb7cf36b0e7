//! Pictures as readers load them: upright, in every width, in sRGB, with nothing of the camera; broken ones are told.

use std::io::Cursor;

use image::codecs::png::PngEncoder;
use image::{DynamicImage, ImageEncoder, ImageFormat, Rgb, RgbImage};
use moxcms::ColorProfile;
use scraper::Html;

use crate::bench::Bench;
use crate::site::{select, site};

#[test]
fn pictures_stand_upright_and_tell_nothing_of_the_camera() {
    let site = site();
    let pictures: Vec<_> = site.iter().filter(|(path, _)| path.split('.').next_back() == Some("jpg")).collect();
    // Eleven photographs of 1400 or 1050 pixels, each with a copy of 480 and one of 960 pixels beside it.
    assert_eq!(pictures.len(), 33);
    for (path, bytes) in pictures {
        for secret in [&b"Exif"[..], b"Peatglim", b"GPS", b"http://ns.adobe.com/xap", b"FL2-", b"ICC_PROFILE"] {
            assert!(!bytes.windows(secret.len()).any(|part| part == secret), "{path} still holds hidden data");
        }
        let page = Html::parse_document(std::str::from_utf8(&site[&scheme_page(path)]).unwrap());
        let (width, height) = size_of_jpeg(bytes);
        let tail = path.rsplit('/').next().unwrap();
        for image in select(&page, &format!("img[src$='photos/{tail}']")) {
            assert_eq!(image.attr("width"), Some(width.to_string().as_str()), "{path}");
            assert_eq!(image.attr("height"), Some(height.to_string().as_str()), "{path}");
        }
    }
}

#[test]
fn a_phone_loads_a_narrow_copy() {
    let site = site();
    let page = Html::parse_document(std::str::from_utf8(&site["schemes/fen-warden.html"]).unwrap());
    let pictures = select(&page, "img");
    assert!(!pictures.is_empty());
    for picture in pictures {
        assert!(picture.attr("sizes").is_some(), "{}", picture.html());
        for entry in picture.attr("srcset").unwrap().split(", ") {
            let (path, width) = entry.split_once(' ').unwrap();
            let (real, _) = size_of_jpeg(&site[&format!("schemes/{path}")]);
            assert_eq!(width, format!("{real}w"), "{entry}");
        }
    }
}

#[test]
fn only_the_first_picture_of_a_page_is_loaded_at_once() {
    let site = site();
    for path in ["index.html", "schemes/fen-warden.html"] {
        let page = Html::parse_document(std::str::from_utf8(&site[path]).unwrap());
        let pictures = select(&page, "img");
        assert!(pictures[0].attr("loading").is_none(), "{path}");
        assert!(pictures[1..].iter().all(|picture| picture.attr("loading") == Some("lazy")), "{path}");
    }
}

#[test]
fn before_and_after_stand_side_by_side() {
    let site = site();
    let page = Html::parse_document(std::str::from_utf8(&site["schemes/fen-warden/50-amber-shell.html"]).unwrap());
    let pair: Vec<String> = select(&page, ".pair figcaption").iter().map(|words| words.text().collect()).collect();
    assert_eq!(pair, ["Before", "After"]);
    let shown: Vec<_> = select(&page, ".pair img").iter().map(|picture| picture.attr("src").unwrap()).collect();
    assert!(shown[0].ends_with("gold.jpg") && shown[1].ends_with("amber.jpg"), "{shown:?}");
}

#[test]
fn a_pictures_own_colours_are_kept_on_a_screen_that_knows_srgb_only() {
    // The colour is measured on a screen of wider primaries (Display P3). In sRGB, by the matrix between the two
    // (SMPTE RP 431-2 primaries, D65; linear light), it is 191.5, 105.7, 85.1.
    let wide = RgbImage::from_pixel(64, 64, Rgb([180, 110, 90]));
    let mut png = Vec::new();
    let mut encoder = PngEncoder::new(&mut png);
    encoder.set_icc_profile(ColorProfile::new_display_p3().encode().unwrap()).unwrap();
    encoder.write_image(&wide, 64, 64, image::ExtendedColorType::Rgb8).unwrap();
    let bench = with_photo("wide.png", &png);
    assert_eq!(bench.run(&["publish"]).status, 0);
    let shown = std::fs::read(bench.path("published/schemes/cup/photos/wide.png")).unwrap();
    let Rgb(seen) = *image::load_from_memory(&shown).unwrap().to_rgb8().get_pixel(30, 30);
    for (seen, wished) in seen.into_iter().zip([191.5, 105.7, 85.1]) {
        assert!((f64::from(seen) - wished).abs() < 1.5, "{seen} for {wished}");
    }
}

#[test]
fn shades_of_grey_are_published_by_their_own_profile() {
    // Of linear light a shade of 64 is 0.251, which is 137 in sRGB (IEC 61966-2-1). Without a profile it is sRGB.
    let grey = [64; 64 * 64];
    for (profile, wanted) in [(Some(ColorProfile::new_gray_with_gamma(1.0)), 137), (None, 64)] {
        let mut png = Vec::new();
        let mut encoder = PngEncoder::new(&mut png);
        if let Some(profile) = profile {
            encoder.set_icc_profile(profile.encode().unwrap()).unwrap();
        }
        encoder.write_image(&grey, 64, 64, image::ExtendedColorType::L8).unwrap();
        let bench = with_photo("grey.png", &png);
        assert_eq!(bench.run(&["publish"]).status, 0);
        let shown = std::fs::read(bench.path("published/schemes/cup/photos/grey.png")).unwrap();
        let Rgb(seen) = *image::load_from_memory(&shown).unwrap().to_rgb8().get_pixel(30, 30);
        assert!(seen.iter().all(|seen| seen.abs_diff(wanted) <= 1), "{seen:?} for {wanted}");
    }
}

#[test]
fn a_narrow_copy_of_a_cut_out_model_has_no_dark_rim() {
    // What was cut out is black in the file, though nobody sees it.
    let cut = image::RgbaImage::from_fn(900, 600, |x, y| {
        let is_seen = f64::from(x.abs_diff(450)).hypot(f64::from(y.abs_diff(300))) < 250.0;
        image::Rgba(if is_seen { [230, 190, 120, 255] } else { [0; 4] })
    });
    let mut png = Cursor::new(Vec::new());
    DynamicImage::from(cut).write_to(&mut png, ImageFormat::Png).unwrap();
    let bench = with_photo("cut.png", png.get_ref());
    assert_eq!(bench.run(&["publish"]).status, 0);
    let narrow = std::fs::read(bench.path("published/schemes/cup/photos/cut.480.png")).unwrap();
    let narrow = image::load_from_memory(&narrow).unwrap().to_rgba8();
    assert_eq!((narrow.get_pixel(2, 2).0[3], narrow.get_pixel(240, 160).0), (0, [230, 190, 120, 255]));
    let rim: Vec<[u8; 4]> =
        narrow.pixels().map(|pixel| pixel.0).filter(|pixel| (64..192).contains(&pixel[3])).collect();
    assert!(rim.len() > 100, "the edge is soft");
    for pixel in rim {
        let apart = [230_u8, 190, 120].iter().zip(pixel).map(|(wanted, seen)| wanted.abs_diff(seen)).max();
        assert!(apart < Some(6), "{pixel:?}");
    }
}

#[test]
fn a_picture_of_more_pixels_than_can_be_opened_is_told() {
    let mut whole = Cursor::new(Vec::new());
    let line = vec![0_u8; 60_000 * 1_000];
    PngEncoder::new(&mut whole).write_image(&line, 60_000, 1_000, image::ExtendedColorType::L8).unwrap();
    let bench = with_photo("wide.png", &whole.into_inner());
    let run = bench.run(&["check"]);
    assert!(run.status == 1 && run.out.contains("[picture-too-large]"), "{}", run.out);
}

#[test]
fn a_picture_without_its_end_is_told_and_not_published() {
    for (name, format) in
        [("cut.jpg", ImageFormat::Jpeg), ("cut.png", ImageFormat::Png), ("cut.webp", ImageFormat::WebP)]
    {
        let mut whole = Cursor::new(Vec::new());
        let picture = RgbImage::from_fn(200, 200, |x, y| Rgb([u8::try_from(x).unwrap(), u8::try_from(y).unwrap(), 90]));
        DynamicImage::ImageRgb8(picture).write_to(&mut whole, format).unwrap();
        let whole = whole.into_inner();
        assert_eq!(with_photo(name, &whole).run(&["publish"]).status, 0, "{name}");
        let bench = with_photo(name, &whole[..whole.len() * 2 / 3]);
        let run = bench.run(&["publish"]);
        assert_eq!(run.status, 1, "{name}: {}", run.err);
        assert!(run.err.contains("picture-unreadable") && run.err.contains(name), "{}", run.err);
        assert!(!bench.path("published").exists());
        let card = bench.run(&["card", ".", "cup", "--out", "cup.pdf"]);
        assert!(card.status == 1 && card.err.contains("picture-unreadable"), "{}", card.err);
        assert!(!bench.path("cup.pdf").exists());
    }
}

#[test]
fn a_file_that_stands_where_a_narrow_copy_would_is_left_alone() {
    let mut wide = Cursor::new(Vec::new());
    DynamicImage::ImageRgb8(RgbImage::from_pixel(600, 300, Rgb([9, 99, 9])))
        .write_to(&mut wide, ImageFormat::Png)
        .unwrap();
    let mut small = Cursor::new(Vec::new());
    DynamicImage::ImageRgb8(RgbImage::from_pixel(20, 20, Rgb([99, 9, 9])))
        .write_to(&mut small, ImageFormat::Png)
        .unwrap();
    let bench = with_photo("cup.png", wide.get_ref());
    bench.write("content/schemes/cup/photos/cup.480.png", small.get_ref());
    bench.write("content/pages/notes.md", "---\ntitle: Notes\n---\n![A red spot](../schemes/cup/photos/cup.480.png)\n");
    let run = bench.run(&["publish"]);
    assert_eq!(run.status, 0, "{}", run.err);
    let published = std::fs::read(bench.path("published/schemes/cup/photos/cup.480.png")).unwrap();
    assert_eq!(image::load_from_memory(&published).unwrap().width(), 20);
}

/// A small guide whose scheme shows one photograph.
fn with_photo(name: &str, bytes: &[u8]) -> Bench {
    let bench = Bench::empty();
    bench.write("content/guide.yaml", "title: Cups\nauthor: Quill Hollis\n");
    bench.write("content/paints/mere.yaml", "maker: Tarn & Daughter\nrange: Mere\nfamily: water\npaints:\n  moss: {name: Moss, kind: primer, colour: \"#445533\"}\n");
    let scheme = format!("---\ntitle: Cup\nareas: {{body: 100%}}\nphoto: photos/{name}\nalt: A cup.\n---\n");
    bench.write("content/schemes/cup/scheme.md", scheme);
    bench.write(
        "content/schemes/cup/10-body.md",
        "---\ntitle: Body\nstage: undercoat\nareas: [body]\nwith: brush\npaints: [moss]\n---\nOne coat.\n",
    );
    bench.write(&format!("content/schemes/cup/photos/{name}"), bytes);
    bench
}

fn scheme_page(picture: &str) -> String {
    format!("schemes/{}.html", picture.split('/').nth(1).unwrap())
}

/// Width and height from the start-of-frame segment of a JPEG (ITU-T T.81, B.2.2).
fn size_of_jpeg(bytes: &[u8]) -> (u16, u16) {
    let mut at = 2;
    while bytes[at + 1] < 0xc0 || bytes[at + 1] > 0xc2 {
        at += 2 + usize::from(u16::from_be_bytes([bytes[at + 2], bytes[at + 3]]));
    }
    let number = |from: usize| u16::from_be_bytes([bytes[from], bytes[from + 1]]);
    (number(at + 7), number(at + 5))
}
