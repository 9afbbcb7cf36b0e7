//! Finding a scheme and a step by what somebody types: a number, a file's name with or without its number, a title.

use std::sync::Arc;

use crate::cli::terminal::Trouble;
use crate::guide::{Scheme, Step, has_title, is_called};
use crate::report::{visible_line, wording};
use crate::work::WorkedScheme;

/// The longest name that a message repeats, in characters.
const LONGEST: usize = 80;

/// The scheme of a name or a title.
pub(super) fn scheme<'a>(schemes: &'a [Arc<WorkedScheme>], asked: &str) -> Result<&'a WorkedScheme, Trouble> {
    let named = |worked: &&Arc<WorkedScheme>| is_called(asked, (&worked.scheme.slug, &worked.scheme.title));
    schemes.iter().find(named).map(AsRef::as_ref).ok_or_else(|| {
        let known: Vec<&str> = schemes.iter().map(|worked| worked.scheme.slug.as_str()).collect();
        unknown("scheme", asked, &wording::did_you_mean(asked, "a scheme", &known))
    })
}

/// The position of the step of a number, a name or a title.
pub(super) fn step(scheme: &Scheme, asked: &str) -> Result<usize, Trouble> {
    let number = asked.parse::<usize>().ok();
    let named = |step: &Step| {
        number == Some(step.number) || step.stem == asked || bare(&step.stem) == asked || has_title(asked, &step.title)
    };
    scheme.steps.iter().position(named).ok_or_else(|| {
        let stems = || scheme.steps.iter().map(|step| step.stem.as_str());
        let titles = scheme.steps.iter().map(|step| step.title.as_str());
        let near = wording::nearest(asked, stems().chain(stems().map(bare)).chain(titles));
        let near = near.or_else(|| stems().find(|stem| !asked.is_empty() && stem.contains(asked)));
        let count = wording::counted(scheme.steps.len(), "step", "steps");
        let mend = match near {
            Some(near) => format!("did you mean {}?", wording::quoted(&visible_line(near, LONGEST))),
            None => format!("name a step by its number, its file or its title; the scheme has {count}"),
        };
        unknown(&format!("step in {}", wording::quoted(&scheme.slug)), asked, &mend)
    })
}

fn unknown(what: &str, asked: &str, mend: &str) -> Trouble {
    Trouble::new(format!("there is no {what} called {}", wording::quoted(&visible_line(asked, LONGEST))), mend)
}

/// A step's name without the number in front.
fn bare(stem: &str) -> &str {
    stem.split_once('-').map_or(stem, |(_, name)| name)
}
