//! `maulstick publish`: checks a guide and writes its site.

use std::mem;

use super::arguments::PublishArguments;
use super::progress::Bar;
use super::settings::GuideFolder;
use super::terminal::{Stream, Trouble, shown};
use super::{FINE, FOUND};
use crate::report::{self, Level, wording};
use crate::story::{self, Wanted};

/// Publishes a guide; its findings go to standard error.
pub(super) fn run(asked: &PublishArguments) -> Result<u8, Trouble> {
    let guide = GuideFolder::open(&asked.guide)?;
    let target = guide.target(asked.out.as_ref());
    let wanted = Wanted { strict: asked.strict, single: asked.single };
    let published = story::publish(&guide.door, &target, wanted, &Bar::default())
        .map_err(|error| Trouble::with_disk("the site was not published", &error))?;
    Stream::Err.tell(&report::brief(
        (&published.findings, &published.files),
        Stream::Err.style(),
        &guide.shown(),
        |finding| finding.level() != Level::Note,
    ));
    let written = published.written;
    // The program ends after this: to give back piece by piece what a large guide took would only take time.
    mem::forget(published);
    let Some(files) = written else {
        Stream::Err.tell("nothing was published; the old site is unchanged\n");
        return Ok(FOUND);
    };
    let count = wording::counted(files, "file", "files");
    Stream::Out.write(&format!("{count} in {}\n", shown(&target)));
    Ok(FINE)
}
