//! One file a scheme with everything inside, to send in a chat: its page, cautions and all, beside the site.

use std::io;

use rayon::prelude::*;

use super::engine::Engine;
use super::publish::{Job, Progress, lost_caution, shown};
use super::single::{Surroundings, data_address, inlined};
use crate::door::{Door, Staging};
use crate::page::{self, Leaf};
use crate::picture::{self, Picture};
use crate::report::Finding;
use crate::work::WorkedScheme;

/// The widest picture in such a file, in pixels; a phone shows no more of it.
const WIDEST: u32 = 960;

/// The largest picture that is read, in bytes.
const LARGEST: u64 = 200_000_000;

/// How many files there will be.
pub(super) fn count(job: Job<'_>) -> usize {
    if job.single { job.desk.worked.schemes.len() } else { 0 }
}

/// Writes the file of every scheme, if they are asked for.
pub(super) fn write(
    engine: &Engine,
    door: &dyn Door,
    staging: &dyn Staging,
    job: Job<'_>,
    progress: &dyn Progress,
) -> io::Result<Vec<Finding>> {
    if !job.single {
        return Ok(Vec::new());
    }
    let schemes = job.desk.worked.schemes.par_iter();
    let written: Vec<io::Result<Option<Finding>>> = schemes
        .map(|worked| {
            let (path, html) = match one(engine, door, job, worked) {
                Ok(made) => made,
                Err(finding) => return Ok(Some(*finding)),
            };
            staging.write(&path, html.as_bytes())?;
            progress.step();
            Ok(None)
        })
        .collect();
    let findings: io::Result<Vec<Option<Finding>>> = written.into_iter().collect();
    Ok(findings?.into_iter().flatten().collect())
}

/// The page of a scheme with everything inside. Its cautions are looked for once more, as they must now stand there.
fn one(
    engine: &Engine,
    door: &dyn Door,
    job: Job<'_>,
    worked: &WorkedScheme,
) -> Result<(String, String), Box<Finding>> {
    let mut page = page::make(job.desk, Leaf::Scheme(worked));
    let html = String::from_utf8_lossy(&shown(engine, &page, job.guide_file)?).into_owned();
    let site = job.desk.worked.guide.address.as_ref().map(crate::source::WebAddress::as_folder);
    let path = page.path.clone();
    let picture = |path: &str| picture(door, job, path);
    let around = Surroundings { path: &path, site: site.as_deref(), assets: &job.theme.assets, picture: &picture };
    let whole = inlined(&html, &around);
    page.path = format!("single/{}.html", worked.scheme.slug);
    page.must_show = page.must_show.iter().map(|caution| inlined(caution, &around)).collect();
    match lost_caution(&page, page.view.template().unwrap_or_default(), &whole, job.guide_file) {
        Some(finding) => Err(Box::new(finding)),
        None => Ok((page.path, whole)),
    }
}

/// A picture as an address that has it inside. One that can't be read was told when the site itself was written.
fn picture(door: &dyn Door, job: Job<'_>, path: &str) -> Option<String> {
    let known = job.desk.pictures.get(path)?;
    let copy = known.copies.iter().rev().find(|copy| copy.size.width <= WIDEST).or(known.copies.first())?;
    let bytes = door.read(&format!("content/{path}"), LARGEST).ok()?;
    let wanted = Picture { copies: vec![copy.clone()], ..known.clone() };
    let (_, bytes) = picture::ready(&bytes, &wanted).ok()?.pop()?;
    Some(data_address(path, &bytes))
}
