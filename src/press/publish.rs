//! From pages to a published folder: rendered, checked for lost cautions, written, and swapped in as one change.

use std::borrow::Cow;
use std::io;
use std::path::Path;
use std::sync::Arc;

use rayon::prelude::*;

use super::engine::Engine;
use super::version::Noted;
use super::{linked, singles};
use crate::door::{Door, Purpose, Staging};
use crate::page::{self, Desk, Leaf, Page, View};
use crate::report::{FileId, Finding, Place};
use crate::theme::{CAUTION_LOST, Theme};

/// Told about every file that is written, so that long work can be shown.
pub trait Progress: Sync {
    /// How many files there will be.
    fn begin(&self, files: usize);
    /// One more is written.
    fn step(&self);
    /// All are written and the new site stands.
    fn finish(&self);
}

/// What came of pressing.
#[derive(Debug)]
pub enum Pressed {
    /// The new site stands; so many files.
    Published(usize),
    /// Nothing was changed, for these reasons.
    Stopped(Vec<Finding>),
}

/// What is pressed.
#[derive(Debug, Clone, Copy)]
pub struct Job<'a> {
    /// What pages are made from.
    pub desk: Desk<'a>,
    /// The theme that shows them.
    pub theme: &'a Arc<Theme>,
    /// `guide.yaml`, where findings about the whole guide stand.
    pub guide_file: FileId,
    /// Whether one file a scheme with everything inside is written too.
    pub single: bool,
}

/// Renders and writes a site, and puts it in the place of the old one.
///
/// # Errors
/// When something can't be read or written; then the old site stands as it was.
pub fn press(door: &dyn Door, target: &Path, job: Job<'_>, progress: &dyn Progress) -> io::Result<Pressed> {
    let engine = match Engine::new(job.theme, job.guide_file) {
        Ok(engine) => engine,
        Err(finding) => return Ok(Pressed::Stopped(vec![*finding])),
    };
    let staging = door.stage(target, Purpose::Site)?;
    let leaves = page::outline(job.desk);
    let files = leaves.len() + job.theme.assets.len() + linked::count(job) + singles::count(job);
    progress.begin(files);
    let noted = Noted::new(&*staging);
    let mut findings = write_pages(&engine, &noted, job, &leaves, progress)?;
    if findings.is_empty() {
        findings = linked::write(door, &noted, job, progress)?;
    }
    if findings.is_empty() {
        findings = singles::write(&engine, door, &*staging, job, progress)?;
    }
    if !findings.is_empty() {
        return Ok(Pressed::Stopped(findings));
    }
    for (path, bytes) in &job.theme.assets {
        noted.write(path, bytes)?;
        progress.step();
    }
    let more = noted.finish()?;
    staging.swap()?;
    progress.finish();
    Ok(Pressed::Published(files + more))
}

/// Makes, shows and writes each page; none of them is kept.
fn write_pages(
    engine: &Engine,
    staging: &dyn Staging,
    job: Job<'_>,
    leaves: &[Leaf<'_>],
    progress: &dyn Progress,
) -> io::Result<Vec<Finding>> {
    let written: Vec<io::Result<Option<Finding>>> = leaves
        .par_iter()
        .map(|leaf| {
            let page = page::make(job.desk, *leaf);
            match shown(engine, &page, job.guide_file) {
                Ok(bytes) => staging.write(&page.path, &bytes)?,
                Err(finding) => return Ok(Some(*finding)),
            }
            progress.step();
            Ok(None)
        })
        .collect();
    let findings: io::Result<Vec<Option<Finding>>> = written.into_iter().collect();
    Ok(findings?.into_iter().flatten().collect())
}

/// The bytes of a page.
///
/// # Errors
/// A finding where its template can't show it, or leaves out a caution.
pub(super) fn shown<'a>(engine: &Engine, page: &'a Page, guide_file: FileId) -> Result<Cow<'a, [u8]>, Box<Finding>> {
    match &page.view {
        View::Finished(bytes) => return Ok(Cow::Borrowed(bytes)),
        View::Failed(finding) => return Err(finding.clone()),
        _ => {}
    }
    let template = page.view.template().unwrap_or_default();
    let html = engine.render(template, &page.view)?;
    match lost_caution(page, template, &html, guide_file) {
        Some(finding) => Err(Box::new(finding)),
        None => Ok(Cow::Owned(html.into_bytes())),
    }
}

/// A page without its HTML comments, which no reader sees.
fn without_comments(html: &str) -> String {
    let mut seen = String::with_capacity(html.len());
    let mut rest = html;
    while let Some((before, behind)) = rest.split_once("<!--") {
        seen.push_str(before);
        rest = behind.split_once("-->").map_or("", |(_, after)| after);
    }
    seen + rest
}

/// Elements whose content is not shown, or only when asked for.
const CLOSED: &[&str] = &["template", "textarea", "details", "noscript", "select", "title"];

/// Whether a text stands in a page, and not inside an element that keeps it from being seen.
fn is_shown(html: &str, text: &str) -> bool {
    html.match_indices(text).any(|(at, _)| {
        let before = &html[..at];
        CLOSED.iter().all(|name| {
            let opened = before.matches(&format!("<{name}")).count();
            opened <= before.matches(&format!("</{name}")).count()
        })
    })
}

/// A template that leaves a caution out is stopped here, whatever else it shows.
pub(super) fn lost_caution(page: &Page, template: &str, html: &str, guide_file: FileId) -> Option<Finding> {
    let seen = without_comments(html);
    let lost = page.must_show.iter().any(|text| !is_shown(&seen, text));
    lost.then(|| {
        let message = format!("the template '{template}' leaves out a caution of {}", page.path);
        let mend = "show {{ step.cautions | safe }} for every step, and {{ cautions | safe }} for the scheme";
        Finding::new(&CAUTION_LOST, Place::top_of(guide_file), message, mend)
    })
}
