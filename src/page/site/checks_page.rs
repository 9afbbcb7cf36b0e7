//! What is checked, and why: from the same texts as the findings.

use serde::Serialize;

use crate::page::parts::frame::{Frame, Section};
use crate::page::{Desk, Page, View};
use crate::report::{Check, Group, Level};

/// All checks.
#[derive(Debug, Serialize)]
pub struct ChecksView {
    /// The frame around it: head, navigation and foot.
    pub frame: Frame,
    /// How many there are.
    pub count: usize,
    /// The checks in their groups.
    pub groups: Vec<CheckGroup>,
}

/// The checks of one group.
#[derive(Debug, Serialize)]
pub struct CheckGroup {
    /// The group; words below `group`.
    pub group: Group,
    /// Its checks.
    pub checks: Vec<CheckView>,
}

/// One check.
#[derive(Debug, Serialize)]
pub struct CheckView {
    /// Its id, and its anchor on the page.
    pub id: &'static str,
    /// How much it matters; words below `finding`.
    pub level: Level,
    /// What is looked for.
    pub about: &'static str,
    /// What is lost without it.
    pub why: &'static str,
    /// What it says about a scheme that breaks it, for rules about painting.
    pub example: Option<&'static str>,
    /// Whether it keeps people safe and can't be waived.
    pub safety: bool,
}

/// The page of all checks.
pub(in crate::page) fn page(desk: Desk<'_>) -> Page {
    let path = "checks.html".to_owned();
    let guide = &desk.worked.guide;
    let all: Vec<&'static Check> = desk.worked.registry.iter().collect();
    let view = ChecksView {
        frame: Frame::new(guide, &path, Section::Elsewhere, &guide.title, None),
        count: all.len(),
        groups: Group::ALL.iter().filter_map(|group| check_group(*group, &all)).collect(),
    };
    Page { path, view: View::Checks(view), must_show: Vec::new() }
}

fn check_group(group: Group, all: &[&'static Check]) -> Option<CheckGroup> {
    let of_group = all.iter().filter(|check| check.group == group);
    let checks: Vec<CheckView> = of_group
        .map(|check| CheckView {
            id: check.id,
            level: check.level,
            about: check.about,
            why: check.why,
            example: crate::rules::example(check.id),
            safety: check.safety,
        })
        .collect();
    (!checks.is_empty()).then_some(CheckGroup { group, checks })
}
