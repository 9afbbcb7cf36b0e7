//! `maulstick plan`: an army's work, laid out over its evenings.

use super::arguments::{PlanArguments, PlanFormat};
use super::settings::GuideFolder;
use super::terminal::{Stream, Trouble};
use super::{FINE, FOUND};
use crate::page::{army_calendar, plan_json, plan_text};
use crate::report::{self, wording};
use crate::story;

/// Prints the plan of an army; the guide's findings go to standard error.
pub(super) fn run(asked: &PlanArguments) -> Result<u8, Trouble> {
    let guide = GuideFolder::open(&asked.guide)?;
    let checked = story::check(&guide.door).map_err(|error| Trouble::with_disk("the guide can't be read", &error))?;
    let armies = &checked.worked.guide.armies;
    let Some(army) = armies.iter().find(|army| army.slug == asked.army) else {
        let known: Vec<&str> = armies.iter().map(|army| army.slug.as_str()).collect();
        let mend = wording::did_you_mean(&asked.army, "an army", &known);
        return Err(Trouble::new(format!("there is no army {}", wording::quoted(&asked.army)), &mend));
    };
    if checked.findings.iter().next().is_some() {
        Stream::Err.write(&report::text(&checked.findings, &checked.files, Stream::Err.style()));
    }
    if !checked.findings.pass(false) {
        return Ok(FOUND);
    }
    Stream::Out.write(&match asked.format {
        PlanFormat::Text => plan_text(&checked.worked, army),
        PlanFormat::Ics => army_calendar(&checked.worked, army),
        PlanFormat::Json => plan_json(&checked.worked, army),
    });
    Ok(FINE)
}
