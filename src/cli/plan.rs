//! `maulstick plan`: an army's work, laid out over its evenings.

use super::arguments::{PlanArguments, PlanFormat};
use super::gate;
use super::named::{self, Folder};
use super::settings::GuideFolder;
use super::terminal::{Stream, Trouble};
use super::{FINE, FOUND};
use crate::guide::{self, Scheme, Thing};
use crate::page::Address;
use crate::report::{Level, wording};
use crate::story;
use crate::tell::calendar::army_calendar;
use crate::tell::plan::{plan_json, plan_text};

/// Prints the plan of an army; the guide's findings go to standard error. Units of schemes that have errors are left out,
/// and named.
pub(super) fn run(asked: &PlanArguments) -> Result<u8, Trouble> {
    let guide = GuideFolder::open(&asked.guide)?;
    let mut checked =
        story::check(&guide.door).map_err(|error| Trouble::with_disk("the guide can't be read", &error))?;
    let armies = &checked.worked.guide.armies;
    let name = match named::split(&asked.army) {
        (Some(Folder::Armies), name) => name,
        _ => asked.army.as_str(),
    };
    let known: Vec<[&str; 2]> = armies.iter().map(|army| [army.slug.as_str(), &army.title]).collect();
    let at = guide::find(name, "an army", &known)?;
    let army = &armies[at];
    let schemes: Vec<&Scheme> = army.units.iter().map(|unit| unit.scheme.as_ref()).collect();
    gate::tell(&checked, &guide, |finding| {
        (finding.level() != Level::Note || finding.place.file == army.file)
            && checked.concerns(finding, &schemes, &[&army.slug])
    });
    let unsound = checked.unsound(schemes);
    let left_out: Vec<String> = unsound.into_iter().map(ToOwned::to_owned).collect();
    let unsound = wording::listed(&left_out);
    let sound: Vec<bool> = army.units.iter().map(|unit| checked.is_sound(&unit.scheme)).collect();
    if !sound.contains(&true) || !checked.is_army_sound(&army.slug) {
        if sound.contains(&false) {
            Stream::Err.tell(&format!("there is no plan, because of the errors: {unsound}\n"));
        }
        return Ok(FOUND);
    }
    let mut sound = sound.iter();
    checked.worked.guide.armies[at].units.retain(|_| sound.next() == Some(&true));
    let army = &checked.worked.guide.armies[at];
    let (worked, words) = (&checked.worked, &checked.theme.words);
    match asked.format {
        PlanFormat::Text => Stream::Out.tell(&plan_text(worked, army, &left_out, words)),
        PlanFormat::Ics => {
            let address = Address::of(&Thing::Army(army.slug.clone()));
            Stream::Out.write(&army_calendar(worked, army, words, &address));
        }
        PlanFormat::Json => Stream::Out.write(&plan_json(worked, army, words)),
    }
    if unsound.is_empty() {
        return Ok(FINE);
    }
    Stream::Err.tell(&format!("not in the plan, because of the errors: {unsound}\n"));
    Ok(FOUND)
}
