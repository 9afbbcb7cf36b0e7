//! A font cut down to some letters and packed, ready for any PDF.

use pdf_writer::types::{CidFontType, FontFlags, SystemInfo, UnicodeCmap};
use pdf_writer::{Filter, Finish as _, Name, Pdf, Rect, Ref, Str};
use sha2::{Digest as _, Sha256};
use skrifa::instance::{LocationRef, Size};
use skrifa::raw::TableProvider as _;
use skrifa::string::StringId;
use skrifa::{FontRef, GlyphId, MetadataProvider as _, Tag};
use subsetter::GlyphRemapper;

use super::packing::Packing;

/// The units of a PDF's letters: thousandths of their size (ISO 32000-1, 9.2.4).
const UNITS: f32 = 1000.0;

/// Numbers of two bytes, which name the glyphs themselves (ISO 32000-1, 9.7.5.2).
const ENCODING: &[u8] = b"Identity-H";

/// What those numbers are of (ISO 32000-1, 9.7.3).
const NUMBERS: SystemInfo<'_> = SystemInfo { registry: Str(b"Adobe"), ordering: Str(b"Identity"), supplement: 0 };

/// The longest name of a font, in bytes: a name of a PDF has 127 (ISO 32000-1, annex C) with what stands before and behind.
const LONGEST_NAME: usize = 100;

/// Whether a PDF can hold a font: it can be read, and has outlines.
pub(super) fn can_hold(font: &[u8]) -> bool {
    let has = |font: &FontRef<'_>, table| font.table_data(Tag::new(table)).is_some();
    FontRef::new(font).is_ok_and(|font| [b"glyf", b"CFF ", b"CFF2"].into_iter().any(|table| has(&font, table)))
}

/// One glyph of a cut font.
pub(super) struct Letter {
    /// Its number in the cut font.
    pub(super) number: u16,
    /// The text that it shows, if nothing else is said.
    pub(super) text: String,
    /// How far the next glyph stands, in thousandths of its size.
    pub(super) width: f32,
}

/// What a reader has to know of a font, in thousandths of its size and degrees.
struct Measures {
    flags: u32,
    bounds: Rect,
    slant: f32,
    ascent: f32,
    descent: f32,
    capital: f32,
    stem: f32,
}

/// A font cut down to some letters and packed.
pub(super) struct CutFont {
    /// By the numbers of the whole font, which letter it is: looked up for every glyph of every card. Nought is none.
    places: Vec<u16>,
    /// The glyphs, by their numbers in the cut font; the first stands for letters that a font lacks.
    letters: Vec<Letter>,
    name: String,
    measures: Measures,
    /// Whether its outlines are of the compact format (CFF), and not TrueType.
    compact: bool,
    /// The packed file, and its length before.
    file: (Vec<u8>, i32),
    /// The packed list of texts that its numbers show.
    texts: Vec<u8>,
}

impl CutFont {
    /// Cuts a font down to some glyphs, given with the texts that they show.
    ///
    /// # Errors
    /// Why it can't be cut down, in words.
    pub(super) fn new<'a>(font: &[u8], glyphs: impl Iterator<Item = (u32, &'a str)>) -> Result<Self, String> {
        let read = FontRef::new(font).map_err(|error| error.to_string())?;
        // Embedding is forbidden where this alone is set (OpenType, OS/2, fsType).
        if read.os2().is_ok_and(|table| table.fs_type() & 0xf == 2) {
            return Err("its maker does not allow it to be put into a document".to_owned());
        }
        let measured = read.glyph_metrics(Size::unscaled(), LocationRef::default());
        let scale = UNITS / f32::from(read.metrics(Size::unscaled(), LocationRef::default()).units_per_em.max(1));
        let width = |glyph: u32| measured.advance_width(GlyphId::new(glyph)).unwrap_or(0.0) * scale;
        let mut numbers = GlyphRemapper::new();
        let mut named = Sha256::new();
        let mut places: Vec<u16> = Vec::new();
        let mut letters = vec![Letter { number: 0, text: String::new(), width: width(0) }];
        let mut texts = UnicodeCmap::new(Name(b"Letters"), NUMBERS);
        for (glyph, text) in glyphs {
            let whole = u16::try_from(glyph).ok().filter(|glyph| *glyph > 0).ok_or("a letter is missing in a font")?;
            let (number, width) = (numbers.remap(whole), width(glyph));
            named.update(whole.to_be_bytes());
            if !text.is_empty() {
                texts.pair_with_multiple(number, text.chars());
            }
            places.resize(places.len().max(usize::from(whole) + 1), 0);
            places[usize::from(whole)] = number;
            letters.push(Letter { number, text: text.to_owned(), width });
        }
        let cut = subsetter::subset_with_variations(font, 0, &[], &numbers).map_err(|error| error.to_string())?;
        let outlines = FontRef::new(&cut).ok().and_then(|cut| cut.table_data(Tag::new(b"CFF ")));
        let program = outlines.map_or(&cut[..], |table| table.as_bytes());
        let mut packing = Packing::small();
        Ok(Self {
            places,
            letters,
            name: format!("{}+{}", tag(&named.finalize()), name(&read)),
            measures: Measures::of(&read, scale),
            compact: outlines.is_some(),
            file: (packing.pack(program), i32::try_from(program.len()).map_err(|_| "it is too large")?),
            texts: packing.pack(texts.finish().as_slice()),
        })
    }

    /// A glyph by its number in the whole font.
    pub(super) fn letter(&self, glyph: u32) -> Option<&Letter> {
        let place = self.places.get(usize::try_from(glyph).ok()?).filter(|place| **place > 0)?;
        self.letters.get(usize::from(*place))
    }

    /// Puts the font into a document (ISO 32000-1, 9.7).
    pub(super) fn write(&self, pdf: &mut Pdf, next: &mut Ref) -> Ref {
        let [own, numbered, about, file, texts] = std::array::from_fn(|_| next.bump());
        let name = Name(self.name.as_bytes());
        let mut font = pdf.type0_font(own);
        font.base_font(name).encoding_predefined(Name(ENCODING)).descendant_font(numbered).to_unicode(texts);
        font.finish();
        let mut font = pdf.cid_font(numbered);
        font.subtype(if self.compact { CidFontType::Type0 } else { CidFontType::Type2 });
        font.base_font(name).system_info(NUMBERS).font_descriptor(about).default_width(0.0);
        if !self.compact {
            font.cid_to_gid_map_predefined(Name(b"Identity"));
        }
        font.widths().consecutive(0, self.letters.iter().map(|letter| letter.width));
        font.finish();
        self.describe(pdf, about, file);
        let mut stream = pdf.stream(file, &self.file.0);
        stream.filter(Filter::FlateDecode);
        if self.compact {
            stream.pair(Name(b"Subtype"), Name(b"CIDFontType0C"));
        } else {
            stream.pair(Name(b"Length1"), self.file.1);
        }
        stream.finish();
        pdf.cmap(texts, &self.texts).filter(Filter::FlateDecode);
        own
    }

    fn describe(&self, pdf: &mut Pdf, own: Ref, file: Ref) {
        let measures = &self.measures;
        let mut about = pdf.font_descriptor(own);
        about
            .name(Name(self.name.as_bytes()))
            .flags(FontFlags::from_bits_truncate(measures.flags))
            .bbox(measures.bounds);
        about.italic_angle(measures.slant).ascent(measures.ascent).descent(measures.descent);
        about.cap_height(measures.capital).stem_v(measures.stem);
        if self.compact {
            about.font_file3(file);
        } else {
            about.font_file2(file);
        }
    }
}

impl Measures {
    /// What a font says of itself; lengths in its own units times `scale`.
    fn of(font: &FontRef<'_>, scale: f32) -> Self {
        let all = font.metrics(Size::unscaled(), LocationRef::default());
        let bounds = all.bounds.map_or([0.0, 0.0, UNITS, UNITS], |bounds| {
            [bounds.x_min, bounds.y_min, bounds.x_max, bounds.y_max].map(|side| (side * scale).round())
        });
        // All that is not of the Latin set of old is called symbolic; such are the glyphs by number.
        let mut flags = FontFlags::SYMBOLIC;
        flags.set(FontFlags::FIXED_PITCH, all.is_monospace);
        flags.set(FontFlags::ITALIC, all.italic_angle != 0.0);
        let ascent = (all.ascent * scale).round();
        Self {
            flags: flags.bits(),
            bounds: Rect::new(bounds[0], bounds[1], bounds[2], bounds[3]),
            slant: all.italic_angle,
            ascent,
            descent: (all.descent * scale).round(),
            capital: all.cap_height.map_or(ascent, |height| (height * scale).round()),
            // A PDF asks for it, no reader needs it where the font is inside: a guess from the weight, 50 to 200 of 1000.
            stem: (font.attributes().weight.value() * 0.2).round().clamp(50.0, 200.0),
        }
    }
}

/// The name that a font has among programs, in letters that need no care.
fn name(font: &FontRef<'_>) -> String {
    let own = font.localized_strings(StringId::POSTSCRIPT_NAME).english_or_first();
    let plain = own.into_iter().flat_map(|name| name.chars().collect::<Vec<_>>());
    let mut name: String =
        plain.filter(|letter| letter.is_ascii_alphanumeric() || *letter == '-').take(LONGEST_NAME).collect();
    if name.is_empty() {
        name.push_str("Letters");
    }
    name
}

/// Six capitals that tell one cut of a font from another (ISO 32000-1, 9.6.4).
fn tag(hash: &[u8]) -> String {
    hash.iter().take(6).map(|byte| char::from(b'A' + byte % 26)).collect()
}
