//! Groups of schemes: those that the guide puts in order are those that its schemes are in.

use std::collections::BTreeSet;
use std::sync::Arc;

use super::ResolveDesk;
use crate::guide::library::Library;
use crate::guide::{Scheme, checks};
use crate::report::{Finding, Placed, wording};

/// Tells of each group of the guide that no scheme is in; nothing while a scheme could not be read, or none says its
/// group yet.
pub(super) fn check(
    groups: Option<&Placed<Vec<Placed<String>>>>,
    schemes: &[Arc<Scheme>],
    library: &Library,
    desk: &mut ResolveDesk,
) {
    let whole = !library.names.is_unread("schemes") && schemes.iter().all(|scheme| scheme.whole);
    let Some(groups) = groups.filter(|_| whole) else { return };
    let used: BTreeSet<&str> = schemes.iter().filter_map(|scheme| scheme.group.as_deref()).collect();
    if used.is_empty() {
        return;
    }
    let listed: BTreeSet<&str> = groups.value.iter().map(|group| group.value.as_str()).collect();
    // A group that has its place already is not what another entry means.
    let form = |group: &str| group.to_lowercase().replace(['_', ' '], "-");
    let unlisted: Vec<(String, &str)> = used.difference(&listed).map(|group| (form(group), *group)).collect();
    for group in groups.value.iter().filter(|group| !used.contains(group.value.as_str())) {
        let near = desk.nearest(&group.value, unlisted.len(), unlisted.iter().map(|(form, _)| form.as_str()));
        let meant = near.and_then(|near| unlisted.iter().find(|(form, _)| form == near));
        let mend = if let Some((_, meant)) = meant {
            format!("did you mean {}?", wording::quoted(meant))
        } else {
            let key = wording::quoted(&format!("group: {}", group.value));
            format!("write {key} in scheme.md of the schemes that belong there, or take it out")
        };
        let message = format!("no scheme is in the group {}", wording::quoted(&group.value));
        desk.tell(Finding::new(&checks::UNKNOWN_GROUP, group.place, message, mend));
    }
}
