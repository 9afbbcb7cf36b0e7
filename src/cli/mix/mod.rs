//! `maulstick mix`: one step for so many models, as one mixes it: drops, millilitres, grams, cups.

mod find;

use super::FINE;
use super::arguments::{MixArguments, Plain};
use super::settings::GuideFolder;
use super::terminal::{Stream, Trouble};
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
    let scheme = find::scheme(&checked.worked.schemes, &asked.scheme)?;
    let step = find::step(&scheme.scheme, &asked.step)?;
    let sheet = Sheet::of(&checked.worked, &checked.findings, scheme, step, asked.models.0, asked.cup);
    Stream::Out.write(&match asked.format {
        Plain::Text => mix::text(&sheet),
        Plain::Json => report::json_text(&sheet),
    });
    Ok(FINE)
}
