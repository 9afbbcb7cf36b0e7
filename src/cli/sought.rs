//! What somebody means who names a step or a pot: one step, all steps of a sequence, or a pot; in the scheme that is named, or
//! in a version of it.

use std::iter;

use super::arguments::MixArguments;
use crate::guide::{self, Scheme, Step, Unclear};
use crate::report::{visible_line, wording};
use crate::tell::mix;
use crate::work::{Worked, WorkedScheme};

/// The longest name that a message repeats, in characters.
const LONGEST: usize = 80;

/// What a name means, and in which scheme.
#[derive(Debug)]
pub(super) struct Sought<'a> {
    /// The scheme, or the version of it that has what is named.
    pub(super) scheme: &'a WorkedScheme,
    /// What is named.
    pub(super) what: What,
    /// What else could be meant, and how to ask for it: a line each.
    pub(super) also: Vec<String>,
}

/// What is mixed.
#[derive(Debug)]
pub(super) enum What {
    /// A pot, by its id.
    Pot(String),
    /// Steps, by their places in the scheme; more than one only of a sequence or of a number that their files share.
    Steps(Vec<usize>),
}

/// Looks a step or a pot up in a scheme, then in those versions of it that may stand for it.
///
/// # Errors
/// Where nothing is called so, or several things are, or only versions in other colours than those that are asked for have it.
pub(super) fn find<'a>(
    worked: &'a Worked,
    scheme: &'a WorkedScheme,
    asked: &MixArguments,
) -> Result<Sought<'a>, Unclear> {
    let unclear = match meant(&scheme.scheme, asked) {
        Ok((what, also)) => return Ok(Sought { scheme, what, also: also.into_iter().collect() }),
        Err(unclear) => unclear,
    };
    // A number means another step in each version.
    if asked.step.parse::<usize>().is_ok() {
        return Err(unclear);
    }
    let versions = versions(worked, &scheme.scheme);
    let in_version = |known: &&'a WorkedScheme| Some((*known, meant(&known.scheme, asked).ok()?));
    let (known, (what, also)) = versions.iter().find_map(in_version).ok_or(unclear)?;
    let variant = scheme.scheme.variant();
    if variant.is_some() && known.scheme.variant() != variant {
        return Err(lacking(&scheme.scheme, &known.scheme, &what, asked));
    }
    let otherwise = match &what {
        What::Pot(id) => filled_otherwise(&versions, &known.scheme, id, asked),
        What::Steps(_) => None,
    };
    Ok(Sought { scheme: known, what, also: also.into_iter().chain(otherwise).collect() })
}

/// A scheme and its versions: first those in the colours of the one that is asked for, then the others in the author's order;
/// the plain ones before other ways through them.
fn versions<'a>(worked: &'a Worked, asked: &Scheme) -> Vec<&'a WorkedScheme> {
    let mut versions: Vec<&WorkedScheme> =
        worked.schemes.iter().map(AsRef::as_ref).filter(|known| known.scheme.base() == asked.base()).collect();
    versions.sort_by_key(|known| {
        let version = known.scheme.version.as_ref();
        let changes = version.map_or(0, |version| version.ways.len() + version.skip.len());
        (known.scheme.variant() != asked.variant(), changes, version.map(|version| version.place))
    });
    versions
}

/// What a name means in one scheme, and what else is called so there.
///
/// The id of a pot is an exact name, which a step has to have too if it is to be meant; a name of a step goes before the title
/// of a pot.
fn meant(scheme: &Scheme, asked: &MixArguments) -> Result<(What, Option<String>), Unclear> {
    let name = asked.step.as_str();
    let pots = mix::pot_names(iter::once(scheme));
    let pot = guide::find(name, "a pot", &pots).ok().and_then(|at| pots.get(at)).map(|[id, _]| *id);
    let steps = steps(scheme, name);
    Ok(match (pot, steps) {
        (None, steps) => (What::Steps(steps?), None),
        (Some(id), Err(_)) => (What::Pot(id.to_owned()), None),
        (Some(id), Ok(steps)) if id == name || !is_whole_name(scheme, name) => {
            let step = written(scheme, &steps, name);
            let also = format!("a step is called so too: {}", how_to_ask(asked, scheme, &step));
            (What::Pot(id.to_owned()), Some(also))
        }
        (Some(id), Ok(steps)) => {
            let also = format!("a pot is called so too: {}", how_to_ask(asked, scheme, id));
            (What::Steps(steps), Some(also))
        }
    })
}

/// The places of the steps of a number, a file's name with or without its number, that number, or a title; a file that stands
/// for a sequence, and the title of that, mean all of its steps that have a mix.
fn steps(scheme: &Scheme, name: &str) -> Result<Vec<usize>, Unclear> {
    let number = name.parse::<usize>().ok();
    let numbered = scheme.steps.iter().position(|step| number == Some(step.number));
    // The number that readers see and that of another step's file may be the same: nobody knows which is meant.
    let is_filed = |step: &Step| split(file(step)).0 == name;
    let filed: Vec<usize> =
        scheme.steps.iter().enumerate().filter(|(_, step)| is_filed(step)).map(|(at, _)| at).collect();
    match (numbered.and_then(|at| scheme.steps.get(at)), scheme.steps.iter().find(|step| is_filed(step))) {
        (Some(step), Some(other)) if !is_filed(step) => {
            let message = format!("step {name} is {}, and its file has another number", shown(&step.title));
            let mend = format!("write {}", wording::either([step.stem.as_str(), file(other)]));
            Err(Unclear { message, mend })
        }
        (Some(_), _) => Ok(numbered.into_iter().collect()),
        (None, Some(_)) => Ok(with_mix(scheme, filed)),
        (None, None) => {
            let known = names(scheme);
            let at = guide::find(name, "a step", &known.iter().map(|(names, _)| *names).collect::<Vec<_>>())?;
            let found = known.into_iter().nth(at).map(|(_, steps)| steps);
            Ok(with_mix(scheme, found.unwrap_or_default()))
        }
    }
}

/// The names of every step and of every use of a sequence: of its file, of that without its number, and its title.
fn names(scheme: &Scheme) -> Vec<([&str; 3], Vec<usize>)> {
    let steps = || scheme.steps.iter().enumerate();
    let mut known: Vec<([&str; 3], Vec<usize>)> =
        steps().map(|(at, step)| ([step.stem.as_str(), split(&step.stem).1, step.title.as_str()], vec![at])).collect();
    for (at, via) in steps().filter_map(|(at, step)| Some((at, step.via.as_ref()?))) {
        // The title of a step means that step, even where its sequence is called the same.
        let is_step = scheme.steps.iter().any(|step| step.title == via.title);
        let title = if is_step { &via.stem } else { &via.title };
        match known.iter_mut().find(|([stem, ..], _)| *stem == via.stem) {
            Some((_, steps)) => steps.push(at),
            None => known.push(([via.stem.as_str(), split(&via.stem).1, title.as_str()], vec![at])),
        }
    }
    known
}

/// Whether a name is all of what a step is called, and not the name of a file without its number.
fn is_whole_name(scheme: &Scheme, name: &str) -> bool {
    let known: Vec<[&str; 2]> = names(scheme).into_iter().map(|([stem, _, title], _)| [stem, title]).collect();
    name.parse::<usize>().is_ok() || guide::find(name, "a step", &known).is_ok()
}

/// Of several steps those that have a mix, if any has.
fn with_mix(scheme: &Scheme, steps: Vec<usize>) -> Vec<usize> {
    let is_mixed = |at: &usize| scheme.steps.get(*at).is_some_and(|step| !step.mix.parts.is_empty());
    let mixed: Vec<usize> = steps.iter().copied().filter(is_mixed).collect();
    if mixed.is_empty() { steps } else { mixed }
}

/// The name of the file in the scheme's folder that a step comes from, without its ending.
fn file(step: &Step) -> &str {
    step.via.as_ref().map_or(&step.stem, |via| &via.stem)
}

/// The number of a file and the rest of its name; a name without a number is both.
fn split(stem: &str) -> (&str, &str) {
    stem.split_once('-').unwrap_or((stem, stem))
}

/// What to write for some steps: the name of their file, and the number of the first where that name is taken.
fn written(scheme: &Scheme, steps: &[usize], taken: &str) -> String {
    let found: Vec<&Step> = steps.iter().filter_map(|at| scheme.steps.get(*at)).collect();
    let name = match found.as_slice() {
        [only] => only.stem.as_str(),
        several => several.first().map_or("", |first| file(first)),
    };
    let number = || found.first().map_or(0, |first| first.number).to_string();
    if name == taken { number() } else { name.to_owned() }
}

/// That a variant lacks what another version of its scheme has.
fn lacking(scheme: &Scheme, other: &Scheme, what: &What, asked: &MixArguments) -> Unclear {
    let label = scheme.version.as_ref().map_or(&scheme.title, |version| &version.label);
    let (kind, name) = match what {
        What::Pot(id) => ("pot", id.clone()),
        What::Steps(steps) => ("step", written(other, steps, "")),
    };
    Unclear {
        message: format!("{} has no {kind} {}", shown(label), shown(&asked.step)),
        mend: format!("{} has it: {}", shown(&other.title), how_to_ask(asked, other, &name)),
    }
}

/// Which other versions fill a pot with other paints, one for each filling.
fn filled_otherwise(versions: &[&WorkedScheme], first: &Scheme, id: &str, asked: &MixArguments) -> Option<String> {
    let of = |scheme: &Scheme| scheme.pots.iter().find(|pot| pot.id == id).cloned();
    let mut told = vec![of(first)?];
    let mut others = Vec::new();
    for known in versions {
        let scheme = &*known.scheme;
        if let Some(pot) = of(scheme).filter(|pot| !told.contains(pot)) {
            let label = scheme.version.as_ref().map_or(&scheme.title, |version| &version.label);
            others.push(format!("{} has other paints in it: {}", shown(label), how_to_ask(asked, scheme, id)));
            told.push(pot);
        }
    }
    (!others.is_empty()).then(|| others.join("; "))
}

/// What an author or somebody at the terminal wrote, as a message repeats it.
fn shown(name: &str) -> String {
    wording::quoted(&visible_line(name, LONGEST))
}

/// The command that asks for something by a name.
fn how_to_ask(asked: &MixArguments, scheme: &Scheme, name: &str) -> String {
    format!("'maulstick mix {} {} {name}'", asked.guide.display(), scheme.slug)
}
