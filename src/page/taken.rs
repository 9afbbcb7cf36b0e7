//! Files of the author's that would be where the site puts a file of its own: one of the two would be lost.

use std::collections::{BTreeMap, BTreeSet};

use super::Address;
use super::outline::of_scheme;
use super::schemes::card;
use super::stock::basket::{Basket, Form};
use crate::report::{Check, Files, Finding, Group, Level, Place, wording};
use crate::work::Worked;

/// Every check of this layer.
pub const CHECKS: &[&Check] = &[&NAME_TAKEN];

/// A file keeps its path in the site, and the site's own files have theirs.
static NAME_TAKEN: Check = Check {
    id: "name-taken",
    level: Level::Error,
    about: "no file that a text links to or shows has the path of one that the site writes itself",
    why: "only one file can stand there, and readers would get the other one, or none",
    group: Group::Files,
    safety: false,
};

/// A finding for every file of the content folder that something links to or shows, and whose place in the site is
/// taken by a card, a list, a preview or a file of the theme (`assets`). Capitals don't count, as on many systems.
pub fn taken<'a>(worked: &Worked, assets: impl Iterator<Item = &'a str>, files: &mut Files) -> Vec<Finding> {
    let linked = &worked.guide.linked_files;
    // Without a linked file nothing can be taken, and the paths of a large site are many.
    if linked.is_empty() {
        return Vec::new();
    }
    let preview = worked.guide.address.as_ref().map(|_| card::GUIDE_PREVIEW);
    let common: BTreeSet<String> = assets.chain(preview).map(str::to_lowercase).collect();
    let own = Own::of(worked);
    let clashes = linked.iter().filter(|path| {
        let path = path.to_lowercase();
        common.contains(&path) || own.has(&path)
    });
    clashes
        .map(|path| {
            let place = Place::top_of(files.add(format!("content/{path}"), ""));
            let message = format!("{} is the name of a file that the site has of its own", wording::quoted(path));
            Finding::new(&NAME_TAKEN, place, message, "give your file another name, and change the links to it")
        })
        .collect()
}

/// The files of schemes and armies, looked up by the folder that they are in.
struct Own<'a> {
    /// Without an address there are no previews.
    previews: bool,
    baskets: BTreeMap<String, Basket<'a>>,
}

impl<'a> Own<'a> {
    fn of(worked: &'a Worked) -> Self {
        let schemes = worked.schemes.iter().map(|one| (format!("schemes/{}", one.scheme.slug), Basket::Scheme(one)));
        let armies = worked.guide.armies.iter().map(|army| (format!("armies/{}", army.slug), Basket::Army(army)));
        Self { previews: worked.guide.address.is_some(), baskets: schemes.chain(armies).collect() }
    }

    fn has(&self, path: &str) -> bool {
        let Some(basket) = path.rsplit_once('/').and_then(|(folder, _)| self.baskets.get(folder)) else {
            return false;
        };
        let lists = Form::FILES.map(|form| basket.path(form));
        let more: Vec<String> = match basket {
            Basket::Scheme(worked) => {
                let preview = self.previews.then(|| Address::preview(&worked.scheme.slug));
                of_scheme(worked).map(|leaf| leaf.path()).chain(preview).collect()
            }
            Basket::Army(_) => Vec::new(),
        };
        lists.iter().chain(&more).any(|own| own == path)
    }
}
