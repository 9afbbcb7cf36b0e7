//! `maulstick plan`: an army's work, laid out over its evenings.

use super::arguments::{PlanArguments, PlanFormat};
use super::settings::GuideFolder;
use super::terminal::{Stream, Trouble};
use super::{FINE, FOUND};
use crate::guide::{self, Thing};
use crate::page::Address;
use crate::report::{self, wording};
use crate::story;
use crate::tell::calendar::army_calendar;
use crate::tell::plan::{plan_json, plan_text};

/// Prints the plan of an army; the guide's findings go to standard error.
pub(super) fn run(asked: &PlanArguments) -> Result<u8, Trouble> {
    let guide = GuideFolder::open(&asked.guide)?;
    let checked = story::check(&guide.door).map_err(|error| Trouble::with_disk("the guide can't be read", &error))?;
    let armies = &checked.worked.guide.armies;
    let known: Vec<[&str; 2]> = armies.iter().map(|army| [army.slug.as_str(), &army.title]).collect();
    let army = &armies[guide::find(&asked.army, "an army", &known)?];
    Stream::Err.write(&report::brief(
        (&checked.findings, &checked.files),
        Stream::Err.style(),
        &guide.shown(),
        |finding| finding.place.file == army.file,
    ));
    let unsound = checked.unsound(army.units.iter().map(|unit| unit.scheme.as_ref()));
    if !unsound.is_empty() {
        Stream::Err.write(&format!("there is no plan, because of the errors: {}\n", wording::listed(unsound)));
        return Ok(FOUND);
    }
    if !checked.is_army_sound(&army.slug) {
        return Ok(FOUND);
    }
    Stream::Out.write(&match asked.format {
        PlanFormat::Text => plan_text(&checked.worked, army, &checked.theme.words),
        PlanFormat::Ics => {
            army_calendar(&checked.worked, army, &checked.theme.words, &Address::of(&Thing::Army(army.slug.clone())))
        }
        PlanFormat::Json => plan_json(&checked.worked, army, &checked.theme.words),
    });
    Ok(FINE)
}
