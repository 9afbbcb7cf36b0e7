//! The places that explain a finding, as somebody reads them: what holds for many versions of a scheme is said once.

use super::{Place, Related, Role, wording};

/// The places with what is there. Versions of one scheme are told together, at the place of the one with the shortest name,
/// which differs least from the scheme; uses of a sequence only where they are the same place.
pub(super) fn folded(related: &[Related]) -> Vec<(Place, String)> {
    let mut groups: Vec<Vec<&Related>> = Vec::new();
    for one in related {
        match groups.iter_mut().find(|group| group.first().is_some_and(|first| is_one(first, one))) {
            Some(group) => group.push(one),
            None => groups.push(vec![one]),
        }
    }
    groups.into_iter().filter_map(said).collect()
}

/// Whether two are told as one.
fn is_one(first: &Related, other: &Related) -> bool {
    match (&first.version, &other.version) {
        (Some(known), Some(more)) => {
            let same = (known.role, &known.scheme) == (more.role, &more.scheme);
            same && (known.role == Role::Version || first.place == other.place)
        }
        _ => first == other,
    }
}

/// Where a group is told, and what is said of it; two versions are named, and the others of many are counted.
fn said(mut group: Vec<&Related>) -> Option<(Place, String)> {
    group.sort_by_key(|one| one.version.as_ref().map(|version| (version.name.chars().count(), version.name.as_str())));
    let mut names: Vec<&str> =
        group.iter().filter_map(|one| one.version.as_ref()).map(|version| version.name.as_str()).collect();
    names.dedup();
    let first = group.first()?;
    let role = first.version.as_ref().map(|version| version.role);
    let words = match (role, names.as_slice()) {
        (None, _) | (_, [] | [_]) => first.message.clone(),
        (Some(Role::Use), [a, b]) => format!("used here by {}", wording::listed([a, b])),
        (Some(Role::Use), [a, more @ ..]) => {
            format!("used here by {} and in {} more versions of it", wording::quoted(a), more.len())
        }
        (Some(Role::Version), [a, b]) => format!("in the versions {}", wording::listed([a, b])),
        (Some(Role::Version), [a, b, more @ ..]) => {
            format!("in the versions {}, {} and {} more", wording::quoted(a), wording::quoted(b), more.len())
        }
    };
    Some((first.place, words))
}

#[cfg(test)]
mod tests {
    use super::super::sample::BARE;
    use super::super::{FileId, Finding, OfVersion};
    use super::*;

    fn place(at: usize) -> Place {
        Place::new(FileId::new(0), at, at + 1)
    }

    /// A finding that holds for so many versions of a scheme, as they are told one after the other.
    fn in_versions(count: usize) -> Finding {
        let of = |name: String, role| OfVersion { scheme: "guard".to_owned(), name, role };
        (0..count).fold(Finding::new(&BARE, place(0), "it is bare", "dress it"), |finding, at| {
            let label = format!("Way {}", "x".repeat(count - at));
            let used = of(format!("Guard: {label}"), Role::Use);
            finding.see_version(place(1), used).see_version(place(2 + at), of(label, Role::Version))
        })
    }

    fn told(finding: &Finding) -> Vec<(u32, String)> {
        folded(&finding.related).into_iter().map(|(place, words)| (place.start, words)).collect()
    }

    fn owned(told: [(u32, &str); 2]) -> Vec<(u32, String)> {
        told.map(|(at, words)| (at, words.to_owned())).to_vec()
    }

    #[test]
    fn one_version_is_told_as_it_is() {
        let expected = owned([(1, "used here by 'Guard: Way x'"), (2, "in the version 'Way x'")]);
        assert_eq!(told(&in_versions(1)), expected);
    }

    #[test]
    fn two_versions_are_both_named() {
        let expected = owned([
            (1, "used here by 'Guard: Way x' and 'Guard: Way xx'"),
            (3, "in the versions 'Way x' and 'Way xx'"),
        ]);
        assert_eq!(told(&in_versions(2)), expected);
    }

    #[test]
    fn of_many_versions_the_plainest_are_named_and_the_others_counted() {
        let finding = in_versions(7);
        let expected = owned([
            (1, "used here by 'Guard: Way x' and in 6 more versions of it"),
            (8, "in the versions 'Way x', 'Way xx' and 5 more"),
        ]);
        assert_eq!(told(&finding), expected);
        assert_eq!(finding.related.len(), 14, "what editors get is whole");
    }

    #[test]
    fn what_is_no_version_is_told_in_full_and_another_scheme_by_itself() {
        let other = OfVersion { scheme: "scout".to_owned(), name: "Scout".to_owned(), role: Role::Use };
        let finding =
            in_versions(3).see(place(1), "the varnish").see(place(1), "the wash").see_version(place(1), other);
        let words: Vec<String> = told(&finding).into_iter().map(|(_, words)| words).collect();
        assert_eq!(words.len(), 5, "{words:?}");
        assert_eq!(words[2..], ["the varnish", "the wash", "used here by 'Scout'"]);
    }
}
