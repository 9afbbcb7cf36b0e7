//! From a site to a published folder: every file is made, written and dropped, and all are swapped in as one change.

use std::io;
use std::path::Path;

use rayon::prelude::*;

use super::copies::Copies;
use super::makings::{self, Makings};
use super::progress::Progress;
use super::site::{Hitch, Piece, Site};
use super::version::Noted;
use super::{pictures, singles};
use crate::door::{Door, Purpose};
use crate::picture::{self, Picture};
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
    // Both take a while in a large guide, and neither needs the other.
    let (staging, shared) = rayon::join(|| door.stage(target, Purpose::Site), || makings::shared(site));
    let staging = staging?;
    let pieces = site.pieces();
    let files = pieces.len() + if single { singles::count(site) } else { 0 };
    progress.begin(files);
    let noted = Noted::new(&*staging);
    let copies = Copies::new(&noted);
    // Pages draw photos in from the copies that are written here.
    let mut findings = pictures::write(door, &copies, site, progress)?;
    let makings = Makings::of(site, shared, &copies.made_from());
    if findings.is_empty() {
        findings = pages(door, &pieces, site, (&noted, &makings), progress)?;
    }
    if findings.is_empty() && single {
        findings = singles::write(&*staging, site, &makings, progress)?;
    }
    if !findings.is_empty() {
        return Ok(Pressed::Stopped(findings));
    }
    let more = noted.finish()?;
    staging.swap()?;
    progress.finish();
    Ok(Pressed::Published(files + more))
}

/// Writes everything but the copies of pictures; only what isn't there from the last run, made from the same, is made.
fn pages(
    door: &dyn Door,
    pieces: &[Piece<'_>],
    site: &Site<'_>,
    (noted, makings): (&Noted<'_>, &Makings),
    progress: &dyn Progress,
) -> io::Result<Vec<Finding>> {
    let bytes_of = |_: &str, _: &Picture, copy: &picture::Copy| noted.written(&copy.path).ok();
    let make = |piece: &Piece<'_>| {
        let (path, from) = (piece.path(), makings.of_piece(piece, site.desk));
        let kept = from.map_or(Ok(false), |from| noted.keep(&path, from))?;
        if !kept {
            match site.bytes_with(door, *piece, &bytes_of) {
                Ok(bytes) => noted.write(&path, &bytes, from)?,
                Err(Hitch::Told(finding)) => return Ok(Some(*finding)),
                Err(Hitch::Disk(error)) => return Err(error),
            }
        }
        progress.step();
        Ok(None)
    };
    let pieces = pieces.par_iter().filter(|piece| !matches!(piece, Piece::Copy(..)));
    let told: Vec<io::Result<Finding>> = pieces.filter_map(|piece| make(piece).transpose()).collect();
    told.into_iter().collect()
}
