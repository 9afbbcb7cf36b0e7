//! `maulstick check`: reads, resolves, works, and prints the findings.

use super::arguments::{CheckArguments, Format};
use super::settings::GuideFolder;
use super::terminal::{Stream, Trouble};
use super::{FINE, FOUND};
use crate::{report, story};

/// Checks a guide; its findings are the output.
pub(super) fn run(asked: &CheckArguments) -> Result<u8, Trouble> {
    let guide = GuideFolder::open(&asked.guide)?;
    let checked = story::check(&guide.door).map_err(|error| Trouble::with_disk("the guide can't be read", &error))?;
    let shown = match asked.format {
        Format::Text => report::text(&checked.findings, &checked.files, Stream::Out.style()),
        Format::Json => report::json(&checked.findings, &checked.files),
        Format::Sarif => report::sarif(&checked.findings, &checked.files),
    };
    Stream::Out.write(&shown);
    Ok(if checked.findings.pass(asked.strict) { FINE } else { FOUND })
}
