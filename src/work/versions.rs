//! What is found about versions of a scheme beyond what is found about the scheme itself.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::kept::KeptScheme;
use crate::film::Conditions;
use crate::guide::{Scheme, Step};
use crate::report::{Finding, Level, wording};
use crate::rules::{self, Surroundings};

/// What was found about all schemes; of a version what is not found about the scheme that it is one of.
pub(super) fn findings(worked: &[Arc<KeptScheme>]) -> Vec<Finding> {
    let is_base = |known: &&Arc<KeptScheme>| known.worked.scheme.version.is_none();
    let base: BTreeMap<&str, &[Finding]> = worked
        .iter()
        .filter(is_base)
        .map(|known| (known.worked.scheme.slug.as_str(), known.findings.as_slice()))
        .collect();
    let mut all = Vec::new();
    for known in worked {
        let Some(version) = &known.worked.scheme.version else {
            all.extend(known.findings.iter().cloned());
            continue;
        };
        let known_of_base = base.get(version.of.as_str()).copied().unwrap_or_default();
        let new = known.findings.iter().filter(|finding| !is_told(known_of_base, finding)).cloned();
        all.extend(new.map(|finding| finding.see_version(version.place, version.as_told())));
    }
    all
}

/// Whether the same is told of the same place.
fn is_told(known: &[Finding], finding: &Finding) -> bool {
    known.iter().any(|one| {
        std::ptr::eq(one.check, finding.check) && one.place == finding.place && one.message == finding.message
    })
}

/// What is wrong with a scheme where one of the steps is left out that may be; notes aside.
pub(super) fn without_optional(
    scheme: &Scheme,
    conditions: &Conditions,
    around: &Surroundings<'_>,
    known: &[Finding],
) -> Vec<Finding> {
    if !scheme.whole || !scheme.is_look() {
        return Vec::new();
    }
    let mut found = Vec::new();
    for first in scheme.steps.iter().filter(|step| step.optional.is_some()) {
        let together = group(first);
        let is_first =
            scheme.steps.iter().find(|step| group(step) == together).is_some_and(|step| step.number == first.number);
        if !is_first {
            continue;
        }
        let kept =
            scheme.steps.iter().enumerate().filter(|(_, step)| step.optional.is_none() || group(step) != together);
        let order: Vec<usize> = kept.map(|(at, _)| at).collect();
        let told = rules::check_order(around, scheme, &order, conditions).into_iter();
        let new = told.filter(|finding| finding.level() != Level::Note && !is_told(known, finding));
        found.extend(new.map(|finding| {
            finding.see(first.places.title, format!("where {} is left out", wording::quoted(&first.title)))
        }));
    }
    found
}

/// Steps of one use of a sequence are left out together.
fn group(step: &Step) -> &str {
    step.via.as_ref().map_or(&step.stem, |via| &via.stem)
}
