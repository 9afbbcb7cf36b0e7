//! Everything in a guide that can be named, so that a name can be looked up or its nearest relative be found.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use super::{Paint, Thing, Tool, markdown};
use crate::source::Source;

/// All names of a guide.
#[derive(Debug, Default)]
pub(crate) struct Library {
    /// The paints by id.
    pub(crate) paints: BTreeMap<String, Arc<Paint>>,
    /// The listed tools by id.
    pub(crate) tools: BTreeMap<String, Arc<Tool>>,
    /// What each Markdown or YAML file of the content folder is, by its path from there.
    pub(crate) files: BTreeMap<String, Thing>,
    /// The anchors of each Markdown file, by its path from the content folder.
    pub(crate) anchors: BTreeMap<String, Vec<String>>,
    /// The slugs of all tags.
    pub(crate) tags: BTreeSet<String>,
    /// The other files of the content folder.
    pub(crate) others: BTreeSet<String>,
    /// Files of which nothing could be read; whatever they hold may well exist.
    pub(crate) unread: BTreeSet<String>,
}

impl Library {
    /// Gathers the names of all files; paints and tools are added when they are resolved.
    pub(crate) fn of(source: &Source) -> Self {
        let mut library = Self { others: source.others.clone(), unread: source.unread.clone(), ..Self::default() };
        for scheme in &source.schemes {
            let thing = Thing::Scheme(scheme.slug.clone());
            library.add(source, scheme.scheme.file, scheme.scheme.body_start, thing);
            for step in &scheme.steps {
                let thing = Thing::Step(scheme.slug.clone(), step.stem.clone());
                library.add(source, step.document.file, step.document.body_start, thing);
            }
            let tags = scheme.scheme.front.tags.iter().flat_map(|tags| &tags.value);
            library.tags.extend(tags.map(|tag| super::resolve::tag_slug(tag)));
        }
        for page in &source.pages {
            library.add(source, page.file, page.record.body_start, Thing::Page(page.slug.clone()));
        }
        for army in &source.armies {
            library.files.insert(path_in_content(source.files.path(army.file)), Thing::Army(army.slug.clone()));
        }
        library
    }

    /// Whether a file that could not be read stands at a path, or anywhere below a folder.
    pub(crate) fn is_unread(&self, path: &str) -> bool {
        self.unread
            .iter()
            .any(|unread| unread == path || unread.strip_prefix(path).is_some_and(|rest| rest.starts_with('/')))
    }

    /// The path of the file that a path means: that file, or where a step was given another number, the one step of
    /// its scheme with the same name behind the number.
    pub(crate) fn known_path<'a>(&'a self, path: &'a str) -> Option<&'a str> {
        if self.files.contains_key(path) {
            return Some(path);
        }
        let (folder, name) = path.rsplit_once('/').filter(|(folder, _)| folder.starts_with("schemes/"))?;
        let wanted = behind_number(name)?;
        let same = |known: &&String| {
            known.rsplit_once('/').is_some_and(|(other, name)| other == folder && behind_number(name) == Some(wanted))
        };
        let mut found = self.files.keys().filter(same);
        found.next().filter(|_| found.next().is_none()).map(String::as_str)
    }

    fn add(&mut self, source: &Source, file: crate::report::FileId, body_start: usize, thing: Thing) {
        let path = path_in_content(source.files.path(file));
        let body = source.files.text(file).get(body_start..).unwrap_or_default();
        let anchors = markdown::headings(body).into_iter().map(|heading| heading.anchor).collect();
        self.anchors.insert(path.clone(), anchors);
        self.files.insert(path, thing);
    }
}

/// The name of a step behind its number: `pale-gold` of `30-pale-gold`.
pub(crate) fn behind_number(name: &str) -> Option<&str> {
    name.split_once('-')
        .filter(|(number, _)| !number.is_empty() && number.bytes().all(|byte| byte.is_ascii_digit()))
        .map(|(_, rest)| rest)
}

/// A path from the content folder, from one of the guide's folder.
pub(crate) fn path_in_content(path: &str) -> String {
    path.strip_prefix("content/").unwrap_or(path).to_owned()
}
