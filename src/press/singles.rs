//! One file a scheme with everything inside, to send in a chat: its page, cautions and all, beside the site.

use std::io;

use rayon::prelude::*;

use super::makings::Makings;
use super::progress::Progress;
use super::single::{Surroundings, data_address, inlined};
use super::site::Site;
use super::version::Noted;
use crate::door::Staging;
use crate::page::{self, Leaf};
use crate::report::Finding;
use crate::work::WorkedScheme;

/// The widest picture in such a file, in pixels; a phone shows no more of it.
const WIDEST: u32 = 960;

/// How many files there will be.
pub(super) fn count(site: &Site<'_>) -> usize {
    site.desk.worked.schemes.len()
}

/// Writes the file of every scheme.
pub(super) fn write(
    staging: &dyn Staging,
    site: &Site<'_>,
    makings: &Makings,
    progress: &dyn Progress,
) -> io::Result<Vec<Finding>> {
    // They lie beside the site: its version does not count them.
    let noted = Noted::new(staging);
    let schemes = site.desk.worked.schemes.par_iter();
    let written: Vec<io::Result<Option<Finding>>> = schemes
        .map(|worked| {
            let path = format!("single/{}.html", worked.scheme.slug);
            let from = makings.of_scheme(worked);
            if !noted.keep(&path, from)? {
                match one(staging, site, worked) {
                    Ok(html) => noted.write(&path, html.as_bytes(), Some(from))?,
                    Err(finding) => return Ok(Some(*finding)),
                }
            }
            progress.step();
            Ok(None)
        })
        .collect();
    noted.list();
    let findings: io::Result<Vec<Option<Finding>>> = written.into_iter().collect();
    Ok(findings?.into_iter().flatten().collect())
}

/// The page of a scheme with everything inside. Its cautions are looked for once more, as they must now be there.
fn one(staging: &dyn Staging, site: &Site<'_>, worked: &WorkedScheme) -> Result<String, Box<Finding>> {
    let mut page = page::make(site.desk, Leaf::Scheme(worked), None);
    let html = site.shown(&page)?;
    let address = site.desk.worked.guide.address.as_ref().map(crate::source::WebAddress::as_folder);
    let path = page.path.clone();
    let picture = |path: &str| picture(staging, site, path);
    let around =
        Surroundings { path: &path, site: address.as_deref(), assets: &site.engine.theme().assets, picture: &picture };
    let whole = inlined(&html, &around);
    page.must_show = page.must_show.iter().map(|caution| inlined(caution, &around)).collect();
    match site.lost_caution(&page, &whole) {
        Some(finding) => Err(finding),
        None => Ok(whole),
    }
}

/// A picture as an address that has it inside: one of the copies that were written for the site.
fn picture(staging: &dyn Staging, site: &Site<'_>, path: &str) -> Option<String> {
    if path.contains("/drawn/") {
        let tiny = path.ends_with("-160.jpg");
        let small = if tiny { path.to_owned() } else { format!("{}-480.jpg", path.strip_suffix(".jpg")?) };
        return Some(data_address(path, &staging.written(&small).or_else(|_| staging.written(path)).ok()?));
    }
    let known = site.desk.pictures.get(path)?;
    let copy = known.copies.iter().rev().find(|copy| copy.size.width <= WIDEST).or(known.copies.first())?;
    Some(data_address(path, &staging.written(&copy.path).ok()?))
}
