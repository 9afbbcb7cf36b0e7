//! The files that a guide's texts link to or show: pictures as their published copies, all others byte for byte.

use std::io;

use rayon::prelude::*;

use super::publish::{Job, Progress};
use crate::door::{Door, Staging};
use crate::picture;
use crate::report::Finding;

/// Largest file that a text links to, in bytes.
const LARGEST_LINKED: u64 = 200_000_000;

/// Pictures with so many pixels together are open at the same time, however many processors there are: some 400 MB.
const PIXELS_AT_ONCE: u64 = 100_000_000;

/// How many files the linked files become.
pub(super) fn count(job: Job<'_>) -> usize {
    let linked = job.desk.worked.guide.linked_files.iter();
    linked.map(|path| job.desk.pictures.copies(path).len().max(1)).sum()
}

/// Writes all of them.
pub(super) fn write(
    door: &dyn Door,
    staging: &dyn Staging,
    job: Job<'_>,
    progress: &dyn Progress,
) -> io::Result<Vec<Finding>> {
    let mut findings = Vec::new();
    for batch in batches(job) {
        let written: Vec<io::Result<Option<Finding>>> =
            batch.into_par_iter().map(|path| write_one(door, staging, job, progress, path)).collect();
        let told: io::Result<Vec<Option<Finding>>> = written.into_iter().collect();
        findings.extend(told?.into_iter().flatten());
    }
    Ok(findings)
}

/// The linked files in batches that may be open at the same time.
fn batches(job: Job<'_>) -> Vec<Vec<&str>> {
    let mut batches: Vec<Vec<&str>> = Vec::new();
    let mut open = PIXELS_AT_ONCE;
    for path in &job.desk.worked.guide.linked_files {
        let size = job.desk.pictures.get(path).map(|picture| picture.size);
        let pixels = size.map_or(0, |size| u64::from(size.width) * u64::from(size.height));
        if let Some(batch) = batches.last_mut().filter(|_| open.saturating_add(pixels) <= PIXELS_AT_ONCE) {
            batch.push(path);
            open += pixels;
        } else {
            batches.push(vec![path]);
            open = pixels;
        }
    }
    batches
}

fn write_one(
    door: &dyn Door,
    staging: &dyn Staging,
    job: Job<'_>,
    progress: &dyn Progress,
    path: &str,
) -> io::Result<Option<Finding>> {
    let bytes = door.read(&format!("content/{path}"), LARGEST_LINKED)?;
    let Some(known) = job.desk.pictures.get(path) else {
        staging.write(path, &bytes)?;
        progress.step();
        return Ok(None);
    };
    let copies = match picture::ready(&bytes, known) {
        Ok(copies) => copies,
        Err(finding) => return Ok(Some(*finding)),
    };
    for (copy, bytes) in copies {
        staging.write(&copy.path, &bytes)?;
        progress.step();
    }
    Ok(None)
}
