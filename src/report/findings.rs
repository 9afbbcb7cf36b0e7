//! All findings of a run: gathered, put in order, counted.

use serde::Serialize;

use super::{Files, Finding, Level};

/// How many findings of each level a run has.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize)]
pub struct Counts {
    /// Errors.
    pub error: usize,
    /// Warnings.
    pub warning: usize,
    /// Notes.
    pub note: usize,
}

/// The findings of a run, sorted by file and place, none twice.
#[derive(Debug, Clone, Default)]
pub struct Findings {
    sorted: Vec<Finding>,
}

impl Findings {
    /// Sorts what the stages found by path, place and rule, and drops what was found twice. Marks are looked up.
    pub fn gather(mut found: Vec<Finding>, files: &Files) -> Self {
        for finding in &mut found {
            finding.place = files.settled(finding.place);
            for related in &mut finding.related {
                related.place = files.settled(related.place);
            }
        }
        found.sort_by(|a, b| {
            let key = |finding: &Finding| (finding.place, finding.check.id);
            let by_path = files.path(a.place.file).cmp(files.path(b.place.file));
            by_path.then_with(|| key(a).cmp(&key(b))).then_with(|| a.message.cmp(&b.message))
        });
        found.dedup_by(|next, kept| {
            let same = kept.is_same(next);
            if same {
                let more = std::mem::take(&mut next.related).into_iter().filter(|one| !kept.related.contains(one));
                kept.related.extend(more.collect::<Vec<_>>());
            }
            same
        });
        Self { sorted: found }
    }

    /// The findings in their order.
    pub fn iter(&self) -> std::slice::Iter<'_, Finding> {
        self.sorted.iter()
    }

    /// How many there are of each level.
    pub fn counts(&self) -> Counts {
        let count = |level| self.sorted.iter().filter(|finding| finding.level() == level).count();
        Counts { error: count(Level::Error), warning: count(Level::Warning), note: count(Level::Note) }
    }

    /// Those that are kept, and the others.
    pub fn split(&self, is_kept: impl Fn(&Finding) -> bool) -> (Self, Self) {
        let (kept, others) = self.sorted.iter().cloned().partition(|finding| is_kept(finding));
        (Self { sorted: kept }, Self { sorted: others })
    }

    /// The errors that stand in the way of what rests on some files: those for which `rests_on` says so, by their paths.
    pub fn hindering(&self, files: &Files, rests_on: impl Fn(&str) -> bool) -> impl Iterator<Item = &Finding> {
        let errors = self.sorted.iter().filter(|finding| finding.level() == Level::Error);
        errors.filter(move |finding| rests_on(files.path(finding.place.file)))
    }

    /// Whether a site may be published: no errors, and with `strict` no warnings either.
    pub fn pass(&self, strict: bool) -> bool {
        let counts = self.counts();
        counts.error == 0 && (!strict || counts.warning == 0)
    }
}

impl<'a> IntoIterator for &'a Findings {
    type Item = &'a Finding;
    type IntoIter = std::slice::Iter<'a, Finding>;

    fn into_iter(self) -> Self::IntoIter {
        self.iter()
    }
}
