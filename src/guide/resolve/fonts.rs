//! The fonts that a guide brings for letters that the program's have not.

use super::context::Context;
use super::desk::ResolveDesk;
use crate::guide::checks;
use crate::report::{Finding, Placed, wording};

/// The endings of fonts that cards can be printed with.
const FONTS: [&str; 2] = ["ttf", "otf"];

/// The fonts that are there, by their paths from the content folder, each once.
pub(super) fn named(
    context: &Context<'_>,
    fonts: Option<&Placed<Vec<Placed<String>>>>,
    desk: &mut ResolveDesk,
) -> Vec<Placed<String>> {
    let mut found: Vec<Placed<String>> = Vec::new();
    for named in fonts.iter().flat_map(|fonts| &fonts.value) {
        match locate(context, named) {
            Ok(path) if found.iter().any(|known| known.value == path) => {}
            Ok(path) => found.push(Placed { value: path, place: named.place }),
            Err(finding) => desk.tell(*finding),
        }
    }
    found
}

fn locate(context: &Context<'_>, named: &Placed<String>) -> Result<String, Box<Finding>> {
    let others = &context.library.names.others;
    let written = wording::quoted(&named.value);
    let told = |message: String, mend: &str| Box::new(Finding::new(&checks::FONT_MISSING, named.place, message, mend));
    let Some(path) = context.path_of(&named.value) else {
        return Err(told(
            format!("{written} leads out of the content folder"),
            "copy the font into the content folder",
        ));
    };
    if !is_font(&path) {
        let mend = "name the same font as TrueType (.ttf) or OpenType (.otf)";
        return Err(told(format!("{written} is no font that can be printed with"), mend));
    }
    if !others.contains(&path) {
        let near: Vec<String> =
            others.iter().filter(|other| is_font(other)).map(|other| context.written_here(other)).collect();
        let near: Vec<&str> = near.iter().map(String::as_str).collect();
        let mend = wording::did_you_mean(&named.value, "a font", &near);
        return Err(told(format!("there is no font {written}"), &mend));
    }
    Ok(path)
}

fn is_font(path: &str) -> bool {
    path.rsplit_once('.').is_some_and(|(_, ending)| FONTS.contains(&ending))
}
