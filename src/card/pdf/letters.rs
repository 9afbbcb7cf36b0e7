//! Which letters of which fonts a card needs.

use std::collections::BTreeMap;
use std::sync::Arc;

use crate::card::cut_font::CutFont;
use crate::card::cut_fonts::Shown;
use crate::card::fonts::Fonts;
use crate::card::sheet::{Card, Run, What};

/// A font has no more glyphs than this (OpenType, maxp).
const MOST_GLYPHS: usize = 65_535;

/// The fonts of a card, by their positions, with all letters that stand on it.
///
/// # Errors
/// Why a font can't be cut down, in words.
pub(super) fn cut_fonts(card: &Card, fonts: &Fonts) -> Result<BTreeMap<usize, Arc<CutFont>>, String> {
    let mut more: BTreeMap<usize, (Shown, Vec<bool>)> = BTreeMap::new();
    for run in runs(card) {
        let Some(face) = fonts.faces.get(run.font) else { continue };
        let (more, seen) = more.entry(run.font).or_default();
        for (glyph, text) in shown(run).filter(|(glyph, _)| is_new(seen, *glyph)) {
            if !face.usual().contains_key(&glyph) {
                more.insert(glyph, text.to_owned());
            }
        }
    }
    more.into_iter().map(|(at, (more, _))| Ok((at, fonts.cut(at, more)?))).collect()
}

/// Whether a glyph is seen for the first time: most stand on a card some hundred times.
fn is_new(seen: &mut Vec<bool>, glyph: u32) -> bool {
    let at = usize::try_from(glyph).unwrap_or(usize::MAX).min(MOST_GLYPHS);
    seen.resize(seen.len().max(at + 1), false);
    !std::mem::replace(&mut seen[at], true)
}

/// All lines of text on a card.
fn runs(card: &Card) -> impl Iterator<Item = &Run> {
    card.sheets.iter().flatten().filter_map(|mark| match &mark.what {
        What::Text(run) => Some(run),
        What::Shape(_) | What::Photo(_) => None,
    })
}

/// The glyphs of a text with the part of it that each shows.
fn shown(run: &Run) -> impl Iterator<Item = (u32, &str)> {
    run.glyphs.iter().map(|glyph| (glyph.id, run.text.get(glyph.range.clone()).unwrap_or_default()))
}
