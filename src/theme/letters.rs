//! The letters that fonts have, and the fonts that a page asks for beyond those of every page: those that ship for Greek
//! and Cyrillic, and a guide's own. A guide that has no such letters gets none of them.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use std::path::Path;
use std::sync::{Arc, LazyLock};

use skrifa::MetadataProvider;
use skrifa::instance::{LocationRef, Size};

use super::{Letters, built_in};

/// The files of a theme that are published, by their paths.
type Assets = BTreeMap<String, Vec<u8>>;

/// A font by its path in the theme, and its size in bytes.
type Weighed = (String, usize);

/// The style sheet of every page, which names the fonts.
const STYLE: &str = "theme/style/chart.css";

/// The family of a guide's own letters, which stands in every list of the style sheet behind the first one.
const FAMILY: &str = "Guide Letters";

/// The largest font for printing that pages load too, in bytes.
const LARGEST_ON_PAGES: usize = 1_000_000;

/// What the names of the fonts for Greek and Cyrillic have in common.
const SHIPPED: &str = "greek-cyrillic";

/// The letters for which those are asked where a guide has Greek ones, and where it has none: then signs such as 'µ' stay
/// with the Latin letters around them.
const GREEK_TOO: &str = "U+301,U+370-52F";
const CYRILLIC: &str = "U+301,U+400-52F";

/// Those fonts, with the families of the style sheet that they complete: file, family, weight, style.
const SHIPPED_FACES: [(&str, &str, u16, &str); 5] = [
    ("heading", "Besley", 700, "normal"),
    ("text", "Atkinson Hyperlegible Next", 400, "normal"),
    ("text-italic", "Atkinson Hyperlegible Next", 400, "italic"),
    ("text-bold", "Atkinson Hyperlegible Next", 700, "normal"),
    ("label", "Barlow Condensed", 500, "normal"),
];

/// The built-in fonts for printing.
static BUILT_IN: LazyLock<Vec<Letters>> = LazyLock::new(|| {
    let fonts = built_in::files().into_iter().filter(|(path, _)| is_for_print(path));
    fonts.map(|(path, bytes)| Letters::new(path, bytes.into(), false)).collect()
});

impl Letters {
    /// A font with the letters that it has: none, if it can't be read.
    pub(super) fn new(path: String, bytes: Arc<[u8]>, own: bool) -> Self {
        let font = skrifa::FontRef::new(&bytes);
        let mut known: Vec<u32> =
            font.map(|font| font.charmap().mappings().map(|(letter, _)| letter).collect()).unwrap_or_default();
        known.sort_unstable();
        known.dedup();
        Self { path, known: known.into(), bytes, own }
    }

    /// Whether the font has a letter.
    pub fn has(&self, letter: char) -> bool {
        self.known.binary_search(&u32::from(letter)).is_ok()
    }

    /// What it is for: `heading` of `print/heading.ttf` and of `print/heading.greek.ttf`.
    pub fn voice(&self) -> &str {
        let name = self.path.rsplit('/').next().unwrap_or_default();
        name.split('.').next().unwrap_or_default()
    }

    /// Whether it is the font that the guide names, by its path from the content folder.
    pub fn is_of_guide(&self, path: &str) -> bool {
        self.own && self.path == of_guide(path)
    }

    /// Whether it only lends letters to the font of its voice.
    pub fn lends(&self) -> bool {
        self.path.matches('.').count() > 1
    }
}

/// How wide each letter of labels is, in their size.
static LABEL_WIDTHS: LazyLock<BTreeMap<char, f64>> = LazyLock::new(|| {
    let mut widths = BTreeMap::new();
    for label in BUILT_IN.iter().filter(|font| font.voice() == "label") {
        let Ok(font) = skrifa::FontRef::new(&label.bytes) else { continue };
        let measured = font.glyph_metrics(Size::new(1.0), LocationRef::default());
        for (letter, glyph) in font.charmap().mappings() {
            let width = measured.advance_width(glyph).map(f64::from);
            if let (Some(letter), Some(width)) = (char::from_u32(letter), width) {
                widths.entry(letter).or_insert(width);
            }
        }
    }
    widths
});

/// From here on letters fill a square: Chinese, Japanese and Korean ones.
pub const SQUARE_FROM: char = '\u{2e80}';

/// How wide a letter is that the fonts of labels don't have and that fills no square, in its size.
const OTHER_WIDTH: f64 = 0.5;

/// How wide a text is in the letters of labels, in their size.
pub fn label_width(text: &str) -> f64 {
    let width = |letter: char| {
        let other = if letter >= SQUARE_FROM { 1.0 } else { OTHER_WIDTH };
        LABEL_WIDTHS.get(&letter).copied().unwrap_or(other)
    };
    text.chars().map(width).sum()
}

/// Whether a file of a theme is a font for printing.
pub(super) fn is_for_print(path: &str) -> bool {
    path.starts_with("print/") && [".ttf", ".otf"].iter().any(|ending| path.ends_with(ending))
}

/// Where in the theme a font stands that the guide names, by its path from the content folder.
pub(super) fn of_guide(path: &str) -> String {
    format!("print/{path}")
}

/// The built-in fonts for printing.
pub(super) fn built_in_letters() -> impl Iterator<Item = Letters> {
    BUILT_IN.iter().cloned()
}

/// Has the pages load what they need for the letters of a guide, and takes out what no page needs. Gives the guide's own
/// fonts that are too large for pages, by their paths in the theme.
pub(super) fn dress(assets: &mut Assets, fonts: &[Letters], used: &BTreeSet<char>) -> Vec<Weighed> {
    let usual = |letter: char| BUILT_IN.iter().any(|font| !font.lends() && font.has(letter));
    let wanted: BTreeSet<char> = used.iter().copied().filter(|letter| !usual(*letter)).collect();
    let is_greek = |letter: &char| ('\u{370}'..='\u{3ff}').contains(letter);
    let range = if wanted.iter().any(is_greek) { GREEK_TOO } else { CYRILLIC };
    let mut rules = String::new();
    let mut heavy = Vec::new();
    if BUILT_IN.iter().any(|font| font.lends() && wanted.iter().any(|letter| font.has(*letter))) {
        for (file, family, weight, style) in SHIPPED_FACES {
            let source = format!("fonts/{SHIPPED}-{file}.woff2");
            rule(&mut rules, (family, weight, style), &source, range);
        }
    } else {
        assets.retain(|path, _| !path.starts_with(&format!("theme/fonts/{SHIPPED}")));
    }
    // Of two fonts that have a letter browsers take the one that is named last, and cards the first one.
    for font in fonts.iter().rev().filter(|font| font.own && !BUILT_IN.iter().any(|known| known.bytes == font.bytes)) {
        let runs = runs(wanted.iter().copied().filter(|letter| font.has(*letter)), usual);
        if runs.is_empty() {
            continue;
        }
        match published(assets, font) {
            Some(source) => {
                let weight = if font.voice() == "text-bold" { 700 } else { 400 };
                rule(&mut rules, (FAMILY, weight, "normal"), &source, &runs.join(","));
            }
            None => heavy.push((font.path.clone(), font.bytes.len())),
        }
    }
    if let Some(style) = assets.get_mut(STYLE).filter(|_| !rules.is_empty()) {
        style.extend(rules.into_bytes());
    }
    heavy
}

/// One rule that names a font.
fn rule(rules: &mut String, (family, weight, style): (&str, u16, &str), source: &str, range: &str) {
    let _ = write!(
        rules,
        "@font-face{{font-family:\"{family}\";font-weight:{weight};font-style:{style};font-display:swap;\
         src:url(\"../{source}\");unicode-range:{range};}}"
    );
}

/// Where in the published theme a font of the guide's own is: packed as an author packed it, where there is a file of
/// its name under `fonts`, otherwise as it is for printing, unless every reader would wait for it.
fn published(assets: &mut Assets, font: &Letters) -> Option<String> {
    let packed = packed(&font.path);
    if assets.contains_key(&format!("theme/{packed}")) {
        return Some(packed);
    }
    if font.bytes.len() > LARGEST_ON_PAGES {
        return None;
    }
    assets.insert(format!("theme/{}", font.path), font.bytes.to_vec());
    Some(font.path.clone())
}

/// Where in a theme the letters of a font for printing are packed for pages, by its path there.
pub(super) fn packed(path: &str) -> String {
    let name = Path::new(path).file_stem().unwrap_or_default().to_string_lossy();
    format!("fonts/{name}.woff2")
}

/// Letters as ranges of a style sheet: two are in one where no usual letter stands between them.
fn runs(letters: impl Iterator<Item = char>, usual: impl Fn(char) -> bool) -> Vec<String> {
    let mut runs: Vec<(char, char)> = Vec::new();
    for letter in letters {
        match runs.last_mut().filter(|(_, last)| !(*last..letter).any(&usual)) {
            Some((_, last)) => *last = letter,
            None => runs.push((letter, letter)),
        }
    }
    let shown = |(first, last): (char, char)| {
        let end = if first == last { String::new() } else { format!("-{:X}", u32::from(last)) };
        format!("U+{:X}{end}", u32::from(first))
    };
    runs.into_iter().map(shown).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn dressed(text: &str, own: &[Letters]) -> (Assets, Vec<Weighed>) {
        let files = built_in::files().into_iter().map(|(path, bytes)| (format!("theme/{path}"), bytes.to_vec()));
        let mut assets: Assets = files.collect();
        let heavy = dress(&mut assets, own, &text.chars().collect());
        (assets, heavy)
    }

    fn style(assets: &Assets) -> String {
        String::from_utf8(assets[STYLE].clone()).unwrap()
    }

    /// A guide's own font with Greek and Cyrillic letters, and a path that gives it no part.
    fn own(path: &str, size: usize) -> Letters {
        let shipped = BUILT_IN.iter().find(|font| font.lends()).unwrap();
        let bytes: Vec<u8> = shipped.bytes.iter().copied().chain(std::iter::repeat_n(0, size)).collect();
        Letters::new(path.to_owned(), bytes.into(), true)
    }

    #[test]
    fn a_guide_in_latin_letters_gets_no_other_font() {
        let built_in = style(&dressed("", &[]).0);
        for text in ["Łódź, naïve, Übermaß “quoted” – 40 µm, ΔE", "☢", "青"] {
            let (assets, heavy) = dressed(text, &[own("print/more.ttf", 1)]);
            assert_eq!(style(&assets), built_in, "{text}");
            assert!(!assets.keys().any(|path| path.starts_with("theme/fonts/greek-cyrillic")), "{text}");
            assert!(!assets.contains_key("theme/print/more.ttf.ttf") && heavy.is_empty(), "{text}");
        }
    }

    #[test]
    fn greek_and_cyrillic_get_a_face_for_every_voice() {
        for text in ["Μανδύας", "Плащ"] {
            let (assets, _) = dressed(text, &[]);
            for (file, family, weight, _) in SHIPPED_FACES {
                assert!(assets.contains_key(&format!("theme/fonts/greek-cyrillic-{file}.woff2")), "{file}");
                let rule = format!("font-family:\"{family}\";font-weight:{weight};");
                assert!(style(&assets).contains(&rule), "{family} {weight}");
            }
        }
    }

    #[test]
    fn a_guide_s_own_font_is_asked_for_the_letters_that_others_lack() {
        let (assets, _) = dressed("Плащ и лампа", &[own("print/mine.ttf", 1)]);
        assert!(
            style(&assets).contains("src:url(\"../print/mine.ttf\");unicode-range:U+41F-449"),
            "{}",
            style(&assets)
        );
        assert!(assets.contains_key("theme/print/mine.ttf"));
        let (assets, heavy) = dressed("Плащ", &[own("print/mine.ttf", LARGEST_ON_PAGES)]);
        assert!(!style(&assets).contains("mine") && !assets.contains_key("theme/print/mine.ttf"));
        assert_eq!(heavy[0].0, "print/mine.ttf");
    }

    #[test]
    fn a_font_is_packed_under_its_own_name_wherever_it_lies() {
        assert_eq!(packed("print/jp.otf"), "fonts/jp.woff2");
        assert_eq!(packed(&of_guide("fonts/jp.otf")), "fonts/jp.woff2");
    }

    #[test]
    fn a_label_is_as_wide_as_its_letters() {
        assert!(label_width("WWW") > 2.0 * label_width("iii"), "{} {}", label_width("WWW"), label_width("iii"));
        let (one, other) = (label_width("Pale Lamp Gold"), label_width("Pale Lamp") + label_width(" Gold"));
        assert!((one - other).abs() < 0.001 && (3.0..8.0).contains(&one), "{one} {other}");
        assert!((label_width("青苔") - 2.0).abs() < 0.001 && label_width("Плащ") < 2.5);
    }

    #[test]
    fn ranges_leave_out_what_other_fonts_have() {
        let shown = |text: &str| runs(text.chars(), |letter| letter.is_ascii()).join(",");
        assert_eq!(shown("あお青"), "U+3042-9752");
        assert_eq!(runs(['!', '#'].into_iter(), |letter| letter == '"').join(","), "U+21,U+23");
        assert_eq!(shown(""), "");
    }
}
