//! Sequences in schemes: a file that names a sequence becomes all of its steps.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use super::file::{SequenceFile, SequenceUse, StepFile};
use super::{Borrowed, Document, SequenceSource, StepSource, checks};
use crate::report::{Finding, Place, Placed, wording};

/// A file among the steps of a scheme.
#[derive(Debug, Clone)]
pub(super) enum StepContent {
    /// A step.
    Own(Arc<Document<StepFile>>),
    /// What stands for a sequence.
    Use(Arc<Document<SequenceUse>>),
}

/// A file among the steps of a scheme, by its name without its ending.
pub(super) type StepFound = (String, StepContent);

/// All sequences by their slugs, and which were used.
#[derive(Debug, Default)]
pub(super) struct Sequences {
    pub(super) known: BTreeMap<String, SequenceSource>,
    pub(super) unread: BTreeSet<String>,
    used: BTreeSet<String>,
    /// The steps that some scheme takes, with the sequence that each is of.
    taken: BTreeSet<(String, String)>,
}

impl Sequences {
    /// The steps that some files stand for.
    pub(super) fn expand(&mut self, found: Vec<StepFound>, findings: &mut Vec<Finding>) -> Vec<StepSource> {
        let mut steps = Vec::with_capacity(found.len());
        for (stem, content) in found {
            match content {
                StepContent::Own(document) => steps.push(StepSource { stem, document, by: None }),
                StepContent::Use(document) => steps.extend(self.steps_of(&stem, &document, findings)),
            }
        }
        steps
    }

    fn steps_of(
        &mut self,
        stem: &str,
        document: &Arc<Document<SequenceUse>>,
        findings: &mut Vec<Finding>,
    ) -> Vec<StepSource> {
        let Some(name) = &document.front.sequence else { return Vec::new() };
        self.used.insert(name.value.0.clone());
        let Some(sequence) = self.known.get(&name.value.0) else {
            if !self.unread.contains(&name.value.0) {
                let message = format!("there is no sequence {}", wording::quoted(&name.value.0));
                let known: Vec<&str> = self.known.keys().map(String::as_str).collect();
                let mend = wording::did_you_mean(&name.value.0, "a sequence", &known);
                findings.push(Finding::new(&checks::UNKNOWN_SEQUENCE, name.place, message, mend));
            }
            return Vec::new();
        };
        let told = check_use(document, sequence, are_areas_misread(sequence, findings));
        findings.extend(told);
        let left_out: Vec<&str> =
            document.front.without.iter().flat_map(|names| &names.value).map(|name| name.value.0.as_str()).collect();
        let kept = sequence.steps.iter().filter(|step| !left_out.contains(&step.stem.as_str()));
        kept.inspect(|step| {
            self.taken.insert((sequence.slug.clone(), step.stem.clone()));
        })
        .enumerate()
        .map(|(at, step)| StepSource {
            stem: format!("{stem}-{}", step.stem),
            document: Arc::clone(&step.document),
            by: Some(Borrowed {
                sequence: sequence.slug.clone(),
                of: Arc::clone(&sequence.document),
                document: Arc::clone(document),
                stem: stem.to_owned(),
                own: step.stem.clone(),
                first: at == 0,
            }),
        })
        .collect()
    }

    /// Steps that every scheme leaves out: no rule ever looks at them.
    fn left_out(&self) -> Vec<Finding> {
        let used = self.known.values().filter(|sequence| self.used.contains(&sequence.slug));
        let steps = used.flat_map(|sequence| sequence.steps.iter().map(move |step| (sequence, step)));
        let idle = steps.filter(|(sequence, step)| !self.taken.contains(&(sequence.slug.clone(), step.stem.clone())));
        idle.map(|(_, step)| {
            let message = "every scheme leaves this step of the sequence out, so that nothing is checked about it";
            let mend = "take it out of 'without' of one of the schemes, or delete the file";
            Finding::new(&checks::SEQUENCE_STEP_UNUSED, Place::top_of(step.document.file), message, mend)
        })
        .collect()
    }

    /// What is wrong with the sequences themselves.
    pub(super) fn check(&self, told: &[Finding]) -> Vec<Finding> {
        let unused = self.known.values().filter(|sequence| !self.used.contains(&sequence.slug));
        let unused = unused.map(|sequence| {
            let message = format!("no scheme uses the sequence {}", wording::quoted(&sequence.slug));
            let mend = format!("put 'sequence: {}' into a file among the steps of a scheme", sequence.slug);
            Finding::new(&checks::SEQUENCE_UNUSED, Place::top_of(sequence.document.file), message, mend)
        });
        let read = self.known.values().filter(|sequence| !are_areas_misread(sequence, told));
        read.flat_map(check_areas).chain(unused).chain(self.left_out()).collect()
    }
}

/// Whether a value of a sequence's own file could not be read: what seems an unknown area may be that one.
fn are_areas_misread(sequence: &SequenceSource, told: &[Finding]) -> bool {
    let is_unread =
        |finding: &Finding| [checks::VALUE_UNREADABLE.id, checks::VALUE_SHAPE.id].contains(&finding.check.id);
    told.iter().any(|finding| finding.place.file == sequence.document.file && is_unread(finding))
}

/// What a scheme says of a sequence that this does not have: steps to leave out, areas, paints to replace. Of areas nothing is
/// said where those of the sequence were misread.
fn check_use(document: &Document<SequenceUse>, sequence: &SequenceSource, misread: bool) -> Vec<Finding> {
    let title = wording::quoted(&sequence.slug);
    let stems: Vec<&str> = sequence.steps.iter().map(|step| step.stem.as_str()).collect();
    let areas: Vec<&str> = sequence.areas().collect();
    let mut findings = Vec::new();
    let mut tell = |place: Place, name: &str, what: &str, known: &[&str]| {
        let message = format!("the sequence {title} has no {what} {}", wording::quoted(name));
        let mend = wording::did_you_mean(name, &format!("a {what} of it"), known);
        findings.push(Finding::new(&checks::UNKNOWN_SEQUENCE, place, message, mend));
    };
    for name in document.front.without.iter().flat_map(|names| &names.value) {
        if !stems.contains(&name.value.0.as_str()) {
            tell(name.place, &name.value.0, "step", &stems);
        }
    }
    if misread {
        return findings;
    }
    if let Some(super::file::UseAreas::Each(table)) = document.front.areas.as_ref().map(|areas| &areas.value) {
        for (name, _) in table.0.iter().filter(|(name, _)| !areas.contains(&name.value.0.as_str())) {
            tell(name.place, &name.value.0, "area", &areas);
        }
    }
    if let Some(Placed { value: super::file::UseAreas::One(_), place }) = &document.front.areas
        && areas.len() != 1
    {
        let message = format!("the sequence {title} has {} areas", areas.len());
        let mend = match areas.as_slice() {
            [] => "take this line out".to_owned(),
            _ => format!("say which are which: 'areas: {{{}: […]}}'", areas.join(": […], ")),
        };
        findings.push(Finding::new(&checks::UNKNOWN_SEQUENCE, *place, message, mend));
    }
    findings
}

/// Areas that a sequence's steps name and its own file does not.
fn check_areas(sequence: &SequenceSource) -> Vec<Finding> {
    let known: Vec<&str> = sequence.areas().chain(["all"]).collect();
    let names = sequence.steps.iter().flat_map(|step| step.document.front.areas.iter());
    let names = names.flat_map(|names| names.value.0.iter().flatten());
    let unknown = names.filter(|name| !known.contains(&name.value.0.as_str()));
    unknown
        .map(|name| {
            let message = format!("this sequence has no area {}", wording::quoted(&name.value.0));
            let mend = format!("add it to 'areas' in sequence.md, or write {}", wording::either(&known));
            Finding::new(&checks::SEQUENCE_AREAS, name.place, message, mend)
                .see(Place::top_of(sequence.document.file), "the sequence")
        })
        .collect()
}

impl SequenceSource {
    /// The areas that its steps name.
    pub fn areas(&self) -> impl Iterator<Item = &str> {
        of_sequence(&self.document)
    }
}

/// The areas of a sequence's own file.
fn of_sequence(document: &Document<SequenceFile>) -> impl Iterator<Item = &str> {
    document.front.areas.iter().flat_map(|areas| &areas.value).map(|area| area.value.0.as_str())
}

impl Borrowed {
    /// The areas of the sequence.
    pub fn areas(&self) -> impl Iterator<Item = &str> {
        of_sequence(&self.of)
    }
}
