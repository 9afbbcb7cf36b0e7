//! `maulstick mix`: one step, a sequence or a pot for so many models, as one mixes it: drops, millilitres, grams, cups.

use serde_json::Value;

use super::arguments::{MixArguments, Plain};
use super::named::{self, Folder};
use super::settings::GuideFolder;
use super::sought::{self, What};
use super::terminal::{Stream, Trouble};
use super::{FOUND, gate};
use crate::bench::Figure;
use crate::guide::{self, Army, Scheme, Unclear};
use crate::report::{self, visible};
use crate::story::{self, Checked};
use crate::tell::mix::{self, MixSheet, PotSheet};
use crate::theme::Words;
use crate::work::WorkedScheme;

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
    let (folder, name) = named::split(&asked.scheme);
    let army = guide::find(name, "an army", &known.collect::<Vec<_>>());
    let scheme = worked.called(name);
    let wants_army = folder.map_or(scheme.is_err(), |folder| folder == Folder::Armies);
    let army = match army {
        Ok(at) if wants_army => Some(&worked.guide.armies[at]),
        Err(unclear) if folder == Some(Folder::Armies) => return Err(unclear.into()),
        _ => None,
    };
    let schemes: Vec<&Scheme> = match (army, &scheme) {
        (Some(army), _) => army.units.iter().map(|unit| unit.scheme.as_ref()).collect(),
        (None, scheme) => scheme.iter().map(|scheme| scheme.scheme.as_ref()).collect(),
    };
    if gate::is_shut(&checked, &guide, &schemes, "nothing is mixed") {
        return Ok(FOUND);
    }
    let text = match army {
        Some(army) => of_army(&checked, army, asked)?,
        None => of_scheme(&checked, scheme?, asked)?,
    };
    match asked.format {
        Plain::Text => Stream::Out.tell(&text),
        Plain::Json => Stream::Out.write(&text),
    }
    Ok(gate::status(&checked, &guide, &schemes))
}

/// One step of a scheme, all steps of a sequence in it, or a pot for all of its steps.
fn of_scheme(checked: &Checked, scheme: &WorkedScheme, asked: &MixArguments) -> Result<String, Unclear> {
    let found = sought::find(&checked.worked, scheme, asked)?;
    // Of an army nothing but a pot could be meant.
    if matches!(found.what, What::Pot(_)) {
        named::tell_taken(&checked.worked, &asked.scheme);
    }
    let text = match &found.what {
        What::Pot(id) => {
            let sheets = PotSheet::of_scheme(&checked.worked, found.scheme, id, asked.models.0);
            potted(&sheets, asked.format, &checked.theme.words)
        }
        What::Steps(steps) => stepped(checked, (found.scheme, steps), asked),
    };
    Ok(match asked.format {
        Plain::Text => headed(text, &found.also),
        Plain::Json => {
            // What reads the sheets is no reader of sentences.
            found.also.iter().for_each(|line| Stream::Err.tell(&format!("{}\n", visible(line))));
            text
        }
    })
}

/// The sheets of some steps of a scheme, one after the other.
fn stepped(checked: &Checked, (scheme, steps): (&WorkedScheme, &[usize]), asked: &MixArguments) -> String {
    let words = &checked.theme.words;
    let told = (&checked.findings, words);
    let sheet = |at: &usize| MixSheet::of(&checked.worked, told, (scheme, *at), asked.models.0, asked.cup);
    let sheets: Vec<MixSheet> = steps.iter().map(sheet).collect();
    match (asked.format, sheets.as_slice()) {
        (Plain::Text, _) => sheets.iter().map(|sheet| mix::text(sheet, words)).collect::<Vec<_>>().join("\n"),
        (Plain::Json, [only]) => report::json_text(only),
        (Plain::Json, _) => report::json_text(&sheets),
    }
}

/// A sheet with some lines below its heading.
fn headed(text: String, lines: &[String]) -> String {
    let said: String = lines.iter().map(|line| format!("{}\n", visible(line))).collect();
    match text.split_once('\n') {
        Some((head, rest)) => format!("{head}\n{said}{rest}"),
        None => text,
    }
}

/// A pot for all steps of an army that use it.
fn of_army(checked: &Checked, army: &Army, asked: &MixArguments) -> Result<String, Unclear> {
    let pots = mix::pot_names(army.units.iter().map(|unit| &*unit.scheme));
    let at = guide::find(&asked.step, "a pot", &pots)?;
    let [pot, _] = pots.get(at).copied().unwrap_or_default();
    Ok(potted(&PotSheet::of_army(&checked.worked, army, pot), asked.format, &checked.theme.words))
}

/// A pot, and where versions fill it with other paints each of its mixes, one after the other.
fn potted(sheets: &[PotSheet<'_>], format: Plain, words: &Words) -> String {
    match (format, sheets) {
        (Plain::Text, _) => sheets.iter().map(|sheet| sheet.text(words)).collect::<Vec<_>>().join("\n"),
        (Plain::Json, [only]) => format!("{:#}\n", only.json()),
        (Plain::Json, _) => format!("{:#}\n", Value::Array(sheets.iter().map(PotSheet::json).collect())),
    }
}
