//! From a site to a published folder: every file is made, written and dropped, and all are swapped in as one change.

use std::borrow::Cow;
use std::io;
use std::path::Path;

use rayon::prelude::*;

use super::copies::Copies;
use super::progress::Progress;
use super::site::{Hitch, Piece, Site};
use super::version::Noted;
use super::{pictures, singles};
use crate::door::{Door, Purpose, Staging};
use crate::report::Finding;

/// What came of pressing.
#[derive(Debug)]
pub enum Pressed {
    /// The new site is in place; so many files.
    Published(usize),
    /// Nothing was changed, for these reasons.
    Stopped(Vec<Finding>),
}

/// Makes and writes a site, with `single` also one file a scheme with everything inside, and puts it in the place of the
/// old one.
///
/// # Errors
/// When something can't be read or written; then the old site is as it was.
pub fn press(
    door: &dyn Door,
    target: &Path,
    site: &Site<'_>,
    single: bool,
    progress: &dyn Progress,
) -> io::Result<Pressed> {
    let staging = door.stage(target, Purpose::Site)?;
    let pieces = site.pieces();
    let files = pieces.len() + if single { singles::count(site) } else { 0 };
    progress.begin(files);
    let noted = Noted::new(&*staging);
    let copies = Copies::new(&noted);
    let written: Vec<io::Result<Option<Finding>>> = pieces
        .par_iter()
        .filter(|piece| !matches!(piece, Piece::Copy(..)))
        .map(|piece| {
            let made = match piece.mark() {
                Some(mark) => {
                    copies.drawn(&piece.path(), mark, || site.bytes(door, *piece).map(Cow::into_owned)).map(Cow::Owned)
                }
                None => site.bytes(door, *piece),
            };
            match made {
                Ok(bytes) => noted.write(&piece.path(), &bytes)?,
                Err(Hitch::Told(finding)) => return Ok(Some(*finding)),
                Err(Hitch::Disk(error)) => return Err(error),
            }
            progress.step();
            Ok(None)
        })
        .collect();
    let findings: io::Result<Vec<Option<Finding>>> = written.into_iter().collect();
    let mut findings: Vec<Finding> = findings?.into_iter().flatten().collect();
    if findings.is_empty() {
        findings = pictures::write(door, &copies, site, progress)?;
    }
    if findings.is_empty() && single {
        findings = singles::write(&*staging, site, progress)?;
    }
    if !findings.is_empty() {
        return Ok(Pressed::Stopped(findings));
    }
    let more = copies.finish()? + noted.finish()?;
    staging.swap()?;
    progress.finish();
    Ok(Pressed::Published(files + more))
}
