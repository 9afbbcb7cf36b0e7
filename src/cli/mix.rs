//! `maulstick mix`: one step for so many models, as one mixes it: drops, millilitres, grams, cups.

use serde_json::Value;

use super::FINE;
use super::arguments::{MixArguments, Plain};
use super::settings::GuideFolder;
use super::terminal::{Stream, Trouble};
use crate::bench::Figure;
use crate::guide::{self, Army, Scheme, Unclear};
use crate::report::{self, wording};
use crate::story::{self, Checked};
use crate::tell::mix::{self, MixSheet, PotSheet};
use crate::work::{Worked, WorkedScheme};

/// Works out one step and prints its mix with its cautions.
pub(super) fn run(asked: &MixArguments) -> Result<u8, Trouble> {
    let guide = GuideFolder::open(&asked.guide)?;
    let checked = story::check(&guide.door).map_err(|error| Trouble::with_disk("the guide can't be read", &error))?;
    let worked = &checked.worked;
    let least = worked.conditions.bench.get(Figure::LeastCup);
    if let Some(cup) = asked.cup.filter(|cup| cup.0 < least) {
        return Err(Trouble::new(format!("no drop fits into a cup of {} ml", cup.0), "name a cup such as '2ml'"));
    }
    let known = worked.guide.armies.iter().map(|army| [army.slug.as_str(), &army.title]);
    let army = guide::find(&asked.scheme, "an army", &known.collect::<Vec<_>>());
    let text = match (worked.called(&asked.scheme), army) {
        (Err(_), Ok(at)) => of_army(worked, &worked.guide.armies[at], asked)?,
        (scheme, _) => of_scheme(&checked, scheme?, asked)?,
    };
    Stream::Out.write(&text);
    Ok(FINE)
}

/// One step of a scheme, or a pot for all of its steps.
fn of_scheme(checked: &Checked, scheme: &WorkedScheme, asked: &MixArguments) -> Result<String, Unclear> {
    let pots = mix::pot_names([&*scheme.scheme].into_iter());
    let pot = guide::find(&asked.step, "a pot", &pots).ok().and_then(|at| pots.get(at));
    match (step(&scheme.scheme, &asked.step), pot) {
        (Err(_), Some([pot, _])) => {
            Ok(potted(&PotSheet::of_scheme(&checked.worked, scheme, pot, asked.models.0), asked.format))
        }
        (step, _) => {
            let told = (&checked.findings, &checked.theme.words);
            let (scheme, step) = match step {
                Ok(step) => (scheme, step),
                Err(unclear) => in_version(&checked.worked, &scheme.scheme, &asked.step).ok_or(unclear)?,
            };
            let sheet = MixSheet::of(&checked.worked, told, (scheme, step), asked.models.0, asked.cup);
            Ok(match asked.format {
                Plain::Text => mix::text(&sheet),
                Plain::Json => report::json_text(&sheet),
            })
        }
    }
}

/// A step that only a version of a scheme has, by its name; a number means another step in each version.
fn in_version<'a>(worked: &'a Worked, scheme: &Scheme, asked: &str) -> Option<(&'a WorkedScheme, usize)> {
    let of = scheme.version.as_ref().map_or(scheme.slug.as_str(), |version| version.of.as_str());
    let is_version = |known: &&std::sync::Arc<WorkedScheme>| {
        known.scheme.version.as_ref().is_some_and(|version| version.of == of) || known.scheme.slug == of
    };
    let named = asked.parse::<usize>().is_err();
    let mut versions = worked.schemes.iter().filter(|known| named && is_version(known));
    versions.find_map(|known| Some((&**known, step(&known.scheme, asked).ok()?)))
}

/// A pot for all steps of an army that use it.
fn of_army(worked: &Worked, army: &Army, asked: &MixArguments) -> Result<String, Unclear> {
    let pots = mix::pot_names(army.units.iter().map(|unit| &*unit.scheme));
    let at = guide::find(&asked.step, "a pot", &pots)?;
    let [pot, _] = pots.get(at).copied().unwrap_or_default();
    Ok(potted(&PotSheet::of_army(worked, army, pot), asked.format))
}

/// A pot, and where versions fill it with other paints each of its mixes, one after the other.
fn potted(sheets: &[PotSheet<'_>], format: Plain) -> String {
    match (format, sheets) {
        (Plain::Text, _) => sheets.iter().map(PotSheet::text).collect::<Vec<_>>().join("\n"),
        (Plain::Json, [only]) => format!("{:#}\n", only.json()),
        (Plain::Json, _) => format!("{:#}\n", Value::Array(sheets.iter().map(PotSheet::json).collect())),
    }
}

/// The position of the step of a number, a file's name with or without its number, that number, or a title.
fn step(scheme: &Scheme, asked: &str) -> Result<usize, Unclear> {
    let number = asked.parse::<usize>().ok();
    let split = |stem| str::split_once(stem, '-').unwrap_or((stem, stem));
    let numbered = scheme.steps.iter().find(|step| number == Some(step.number));
    // The number that readers see and that of another step's file may be the same: nobody knows which is meant.
    let filed = scheme.steps.iter().find(|step| split(&step.stem).0 == asked);
    match (numbered, filed) {
        (Some(step), Some(other)) if step.number != other.number => {
            let message =
                format!("step {} is {}, and its file has another number", asked, wording::quoted(&step.title));
            Err(Unclear { message, mend: format!("write {}", wording::either([&step.stem, &other.stem])) })
        }
        (Some(step), _) | (None, Some(step)) => Ok(step.number - 1),
        (None, None) => {
            let known = scheme.steps.iter().map(|step| [step.stem.as_str(), split(&step.stem).1, &step.title]);
            guide::find(asked, "a step", &known.collect::<Vec<_>>())
        }
    }
}
