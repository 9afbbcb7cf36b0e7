//! The pictures that a guide's texts link to or show, as their published copies: each is opened once for all of them.

use std::io;

use rayon::prelude::*;

use super::copies::Copies;
use super::progress::Progress;
use super::site::{LARGEST_LINKED, Site};
use crate::door::Door;
use crate::picture::Picture;
use crate::report::Finding;

/// Pictures that take so many bytes together are open at the same time, however many processors there are.
const BYTES_AT_ONCE: u64 = 400_000_000;

/// Writes all of them.
pub(super) fn write(
    door: &dyn Door,
    copies: &Copies<'_>,
    site: &Site<'_>,
    progress: &dyn Progress,
) -> io::Result<Vec<Finding>> {
    let mut findings = Vec::new();
    for batch in batches(site) {
        let written: Vec<io::Result<Option<Finding>>> =
            batch.into_par_iter().map(|(path, picture)| write_one(door, copies, progress, path, picture)).collect();
        let told: io::Result<Vec<Option<Finding>>> = written.into_iter().collect();
        findings.extend(told?.into_iter().flatten());
    }
    Ok(findings)
}

/// The pictures in batches that may be open at the same time.
fn batches<'a>(site: &Site<'a>) -> Vec<Vec<(&'a str, &'a Picture)>> {
    let mut batches: Vec<Vec<(&str, &Picture)>> = Vec::new();
    let mut open = BYTES_AT_ONCE;
    for (path, picture) in site.pictures() {
        // A copy with eight bits a channel is made of it while it is open.
        let bytes = picture.weight + 4 * u64::from(picture.size.width) * u64::from(picture.size.height);
        if let Some(batch) = batches.last_mut().filter(|_| open.saturating_add(bytes) <= BYTES_AT_ONCE) {
            batch.push((path, picture));
            open += bytes;
        } else {
            batches.push(vec![(path, picture)]);
            open = bytes;
        }
    }
    batches
}

fn write_one(
    door: &dyn Door,
    copies: &Copies<'_>,
    progress: &dyn Progress,
    path: &str,
    picture: &Picture,
) -> io::Result<Option<Finding>> {
    let bytes = door.read(&format!("content/{path}"), LARGEST_LINKED)?;
    copies.write((path, picture), &bytes, progress)
}
