//! `maulstick mix`: one step for so many models, as one mixes it: drops, millilitres, grams, cups.

use super::FINE;
use super::arguments::{MixArguments, Plain};
use super::settings::GuideFolder;
use super::terminal::{Stream, Trouble};
use crate::guide::{self, Scheme, Unclear};
use crate::report;
use crate::story;
use crate::tell::mix::{self, Sheet};

/// A cup that holds less than this, in ml, holds no drop.
const SMALLEST_CUP: f64 = 0.1;

/// Works out one step and prints its mix with its cautions.
pub(super) fn run(asked: &MixArguments) -> Result<u8, Trouble> {
    if let Some(cup) = asked.cup.filter(|cup| cup.0 < SMALLEST_CUP) {
        return Err(Trouble::new(format!("no drop fits into a cup of {} ml", cup.0), "name a cup such as '2ml'"));
    }
    let guide = GuideFolder::open(&asked.guide)?;
    let checked = story::check(&guide.door).map_err(|error| Trouble::with_disk("the guide can't be read", &error))?;
    let scheme = checked.worked.called(&asked.scheme)?;
    let step = step(&scheme.scheme, &asked.step)?;
    let words = &checked.theme.words;
    let sheet = Sheet::of(&checked.worked, &checked.findings, words, (scheme, step), asked.models.0, asked.cup);
    Stream::Out.write(&match asked.format {
        Plain::Text => mix::text(&sheet),
        Plain::Json => report::json_text(&sheet),
    });
    Ok(FINE)
}

/// The position of the step of a number, a file's name with or without its number, or a title.
fn step(scheme: &Scheme, asked: &str) -> Result<usize, Unclear> {
    let number = asked.parse::<usize>().ok();
    let bare = |stem| str::split_once(stem, '-').map_or(stem, |(_, name)| name);
    let known = scheme.steps.iter().map(|step| [step.stem.as_str(), bare(&step.stem), &step.title]);
    match scheme.steps.iter().position(|step| number == Some(step.number)) {
        Some(at) => Ok(at),
        None => guide::find(asked, "a step", &known.collect::<Vec<_>>()),
    }
}
