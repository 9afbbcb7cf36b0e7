//! What a finding bears on: a scheme, an army, or all that there is.

use super::Checked;
use crate::guide;
use crate::report::{Finding, Group};
use crate::rules;

/// Where a file of a guide belongs.
enum Home<'a> {
    /// A scheme and its versions, by the name of the folder.
    Scheme(&'a str),
    /// An army, by its name.
    Army(&'a str),
    Page,
    /// Beside all schemes or armies, and none of them.
    Stray,
    /// All that schemes, armies and pages share.
    Shared,
}

impl<'a> Home<'a> {
    fn of(path: &'a str) -> Self {
        let below = |folder: &str| path.strip_prefix("content/")?.strip_prefix(folder)?.strip_prefix('/');
        let scheme = below("schemes").and_then(|rest| rest.split_once('/'));
        let army = below("armies").and_then(|file| file.strip_suffix(".yaml"));
        match (scheme, army) {
            (Some((slug, _)), _) => Self::Scheme(slug),
            (None, Some(slug)) => Self::Army(slug),
            (None, None) if below("pages").is_some() => Self::Page,
            (None, None) if below("schemes").or_else(|| below("armies")).is_some() => Self::Stray,
            (None, None) => Self::Shared,
        }
    }
}

impl Checked {
    /// Whether nothing is wrong with a scheme or with what all schemes share: errors of other schemes, of armies and of
    /// pages are no hindrance to it. The files of a version are those of what it is a version of.
    pub fn is_sound(&self, scheme: &guide::Scheme) -> bool {
        self.errors_of(scheme).next().is_none()
    }

    /// Whether a scheme was understood as it is written: the errors that it has, if any, are of what it does, of its links
    /// or of its pictures, so that its figures and cautions are all there.
    pub fn is_understood(&self, scheme: &guide::Scheme) -> bool {
        let is_rule = |id: &str| rules::RULES.iter().any(|rule| rule.check.id == id);
        self.errors_of(scheme).all(|error| error.check.group == Group::Links || is_rule(error.check.id))
    }

    fn errors_of(&self, scheme: &guide::Scheme) -> impl Iterator<Item = &Finding> {
        self.findings.hindering(&self.files, |path| match Home::of(path) {
            Home::Scheme(slug) => slug == scheme.base(),
            Home::Shared => true,
            Home::Army(_) | Home::Page | Home::Stray => false,
        })
    }

    /// Whether nothing is wrong with the file of an army; a name that no army has is sound.
    pub fn is_army_sound(&self, army: &str) -> bool {
        let is_its = |path: &str| matches!(Home::of(path), Home::Army(slug) if slug == army);
        self.findings.hindering(&self.files, is_its).next().is_none()
    }

    /// The titles of those of some schemes that have errors.
    pub fn unsound<'a>(&self, schemes: impl IntoIterator<Item = &'a guide::Scheme>) -> Vec<&'a str> {
        let unsound = schemes.into_iter().filter(|scheme| !self.is_sound(scheme));
        unsound.map(|scheme| scheme.title.as_str()).collect()
    }

    /// Whether a finding matters to somebody who asked for some schemes and armies: not where it is in another scheme, in
    /// another army or on a page. What could not be read as a scheme or an army matters to all, for it may be what was meant.
    pub fn concerns(&self, finding: &Finding, schemes: &[&guide::Scheme], armies: &[&str]) -> bool {
        let guide = &self.worked.guide;
        match Home::of(self.files.path(finding.place.file)) {
            Home::Scheme(slug) => {
                schemes.iter().any(|scheme| scheme.base() == slug)
                    || guide.schemes.iter().all(|scheme| scheme.base() != slug)
            }
            Home::Army(slug) => armies.contains(&slug) || guide.armies.iter().all(|army| army.slug != slug),
            Home::Page => false,
            Home::Shared | Home::Stray => true,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_belongs_where_it_lies() {
        assert!(matches!(Home::of("content/schemes/warden/10-ground.md"), Home::Scheme("warden")));
        assert!(matches!(Home::of("content/schemes/warden/photos/a.png"), Home::Scheme("warden")));
        assert!(matches!(Home::of("content/armies/watch.yaml"), Home::Army("watch")));
        assert!(matches!(Home::of("content/pages/about.md"), Home::Page));
        for stray in ["content/schemes/notes.md", "content/armies/notes.md"] {
            assert!(matches!(Home::of(stray), Home::Stray), "{stray}");
        }
        for shared in ["content/guide.yaml", "content/paints/mere.yaml", "content/schemes.md"] {
            assert!(matches!(Home::of(shared), Home::Shared), "{shared}");
        }
    }
}
