//! Where a step is done by other means.

use crate::guide::{Scheme, Step, Thing};
use crate::page::Desk;
use crate::page::parts::address::{Address, relative, with_anchor};
use crate::page::parts::line::LinkView;

/// The other ways of doing a step, as links from the page at `path` to where they are done; from another way, that of
/// the step whose work it does.
pub(in crate::page) fn other_ways(desk: Desk<'_>, scheme: &Scheme, step: &Step, path: &str) -> Vec<LinkView> {
    let own = scheme.version.as_ref();
    let all = desk.ledger.versions(desk.worked, scheme.base());
    let all = all.filter(|other| other.scheme.slug != scheme.slug && other.scheme.variant() == scheme.variant());
    let found = all.filter_map(|other| {
        let ways = other.scheme.version.as_ref().filter(|version| version.ways.len() == 1 && version.skip.is_empty());
        let does = |way: &&Step| match ways {
            Some(version) => version.ways.contains(&way.stem) && way.other_way_for.contains(&step.stem),
            None => other.scheme.is_look() && own.is_some() && step.other_way_for.contains(&way.stem),
        };
        let way = other.scheme.steps.iter().find(does)?;
        let page = Address::of(&Thing::Scheme(other.scheme.slug.clone()));
        Some(LinkView { title: way.title.clone(), href: with_anchor(&relative(path, &page), Some(&way.stem)) })
    });
    found.collect()
}
