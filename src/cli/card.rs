//! `maulstick card`: the printed recipe of a scheme.

use std::io;
use std::path::PathBuf;

use super::arguments::CardArguments;
use super::named;
use super::settings::GuideFolder;
use super::terminal::{Reply, Stream, Trouble, ask, shown};
use super::{FINE, FOUND};
use crate::door::Door;
use crate::measure::FromText;
use crate::report::{self, Finding, Level, wording};
use crate::story::{self, Carded};
use crate::trade::Paper;

/// Makes a card; the findings of the guide go to standard error.
pub(super) fn run(asked: &CardArguments) -> Result<u8, Trouble> {
    let guide = GuideFolder::open(&asked.guide)?;
    let paper = asked.paper.as_deref().map(paper).transpose()?;
    let checked = story::check(&guide.door).map_err(|error| Trouble::with_disk("the card was not made", &error))?;
    let Carded { findings, pdf, scheme } = story::card(&guide.door, &checked, named::scheme(&asked.scheme), paper)?;
    let matters = |finding: &Finding| finding.level() != Level::Note && checked.concerns(finding, &[scheme], &[]);
    Stream::Err.tell(&report::brief((&findings, &checked.files), Stream::Err.style(), &guide.shown(), matters));
    let Some(pdf) = pdf else {
        Stream::Err.tell("no card was made\n");
        return Ok(FOUND);
    };
    let target = asked.out.clone().unwrap_or_else(|| PathBuf::from(format!("{}.pdf", scheme.slug)));
    let mut saved = guide.door.save(&target, &pdf, crate::card::is_ours);
    if saved.as_ref().is_err_and(|error| error.kind() == io::ErrorKind::AlreadyExists) {
        let question = format!("{} is there already and is no card of this program's. Write over it?", shown(&target));
        if target.is_file() && ask(&question) == Reply::Yes {
            saved = guide.door.save(&target, &pdf, crate::card::is_pdf);
        }
    }
    saved.map_err(|error| match error.kind() {
        io::ErrorKind::AlreadyExists => Trouble::new(error.to_string(), "name another file with --out"),
        io::ErrorKind::NotFound => Trouble::new(
            format!("the card was not written: {error}"),
            "make the folder first, or name another file with --out",
        ),
        _ => Trouble::with_disk("the card was not written", &error),
    })?;
    Stream::Out.write(&format!("{}\n", shown(&target)));
    Ok(FINE)
}

fn paper(text: &str) -> Result<Paper, Trouble> {
    Paper::from_text(text)
        .map_err(|reason| Trouble::new(format!("there is no paper {}", wording::quoted(text)), &reason))
}
