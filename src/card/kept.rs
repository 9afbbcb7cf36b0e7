//! What is kept for printing between looks at a guide: fonts, and what was found about the letters of each scheme.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use rayon::prelude::*;

use super::checks;
use super::fonts::Fonts;
use super::letters::{Missing, missing_in, missing_of_scheme, told};
use crate::guide::Guide;
use crate::report::{Finding, Place, Placed};
use crate::theme::Theme;
use crate::work::{Worked, WorkedScheme};

/// What is kept between checks: fonts that were read, and schemes whose letters were looked at.
#[derive(Debug, Default)]
pub struct KeptLetters {
    fonts: Option<KeptFonts>,
    checked_with: Option<Arc<Fonts>>,
    schemes: BTreeMap<String, (Arc<WorkedScheme>, Vec<Missing>)>,
}

/// Fonts and what they were read from.
#[derive(Debug)]
struct KeptFonts {
    theme: Arc<Theme>,
    places: (Place, Vec<Placed<String>>),
    fonts: Arc<Fonts>,
    findings: Vec<Finding>,
}

impl KeptLetters {
    /// The fonts of a theme, read unless they were before. One that can't be read is reported where the guide names it, or
    /// else the theme.
    pub fn fonts(&mut self, theme: &Arc<Theme>, guide: &Guide) -> (Arc<Fonts>, Vec<Finding>) {
        let places = (guide.theme_place, guide.fonts.clone());
        let known = self.fonts.take().filter(|known| Arc::ptr_eq(&known.theme, theme) && known.places == places);
        let known = known.unwrap_or_else(|| {
            let (fonts, findings) = Fonts::read(theme, guide);
            KeptFonts { theme: Arc::clone(theme), places, fonts: Arc::new(fonts), findings }
        });
        let known = self.fonts.insert(known);
        (Arc::clone(&known.fonts), known.findings.clone())
    }

    /// Looks at the letters of each scheme that is another than the last time, in parallel.
    fn check_schemes(&mut self, schemes: &[Arc<WorkedScheme>], fonts: &Arc<Fonts>) -> Vec<Missing> {
        if !self.checked_with.as_ref().is_some_and(|last| Arc::ptr_eq(last, fonts)) {
            self.schemes.clear();
        }
        self.checked_with = Some(Arc::clone(fonts));
        let checked = schemes.par_iter().map(|worked| {
            let known = self.schemes.get(&worked.scheme.slug).filter(|(known, _)| Arc::ptr_eq(known, worked));
            let missing = known.map_or_else(|| missing_of_scheme(worked, fonts), |(_, missing)| missing.clone());
            (worked.scheme.slug.clone(), (Arc::clone(worked), missing))
        });
        self.schemes = checked.collect();
        self.schemes.values().flat_map(|(_, missing)| missing).cloned().collect()
    }
}

/// Tells of letters on the cards of a guide that no font has.
pub fn check(worked: &Worked, fonts: &Arc<Fonts>, theme: &Theme, kept: &mut KeptLetters) -> Vec<Finding> {
    let head = format!("{} {}", worked.guide.title, worked.guide.author);
    let place = worked.guide.theme_place;
    let mut missing = missing_in(fonts, &checks::GLYPH_MISSING, &head, "the title or the author of the guide", place);
    let steps = worked.schemes.iter().flat_map(|worked| &worked.scheme.steps);
    let used: BTreeSet<&str> = steps.flat_map(|step| &step.mix.parts).map(|part| part.paint.id.as_str()).collect();
    for paint in worked.guide.paints.iter().filter(|paint| used.contains(paint.id.as_str())) {
        let name = [paint.name.as_str(), &paint.maker, &paint.range].join(" ");
        missing.extend(missing_in(fonts, &checks::GLYPH_MISSING, &name, "the name of a paint", paint.place));
    }
    missing.extend(missing_of_prices(worked, fonts, theme));
    missing.extend(kept.check_schemes(&worked.schemes, fonts));
    told(&missing, &worked.guide.theme)
}

/// The letters of prices that can't be printed: a card prices what is counted in pieces, with the sign of the currency.
fn missing_of_prices(worked: &Worked, fonts: &Fonts, theme: &Theme) -> Vec<Missing> {
    let mut tools = worked.schemes.iter().flat_map(|worked| &worked.scheme.steps).flat_map(|step| &step.tools);
    let priced = tools.find_map(|tool| Some((tool.place, tool.per_model.and(tool.price)?)));
    let Some((place, price)) = priced else { return Vec::new() };
    let price = theme.words.money(price, worked.guide.currency.as_deref());
    missing_in(fonts, &checks::GLYPH_MISSING, &price, "a price", place)
}
