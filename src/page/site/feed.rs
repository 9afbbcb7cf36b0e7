//! What is new, for feed readers (Atom, RFC 4287): new schemes and changed steps, by the days their authors give.

use serde::Serialize;

use crate::caution::CautionTexts;
use crate::guide::Thing;
use crate::page::parts::address::Address;
use crate::page::{Desk, Page, View};
use crate::tell::cautions;

/// The feed.
#[derive(Debug, Serialize)]
pub struct FeedView {
    /// What the guide is called.
    pub title: String,
    /// Who wrote it.
    pub author: String,
    /// The language of its texts.
    pub language: String,
    /// The address of the guide, with a slash at its end.
    pub address: String,
    /// When something changed last (RFC 3339).
    pub updated: String,
    /// What is new, the newest first.
    pub entries: Vec<EntryView>,
}

/// Something new.
#[derive(Debug, Serialize)]
pub struct EntryView {
    /// Its lasting name.
    pub id: String,
    /// What it is about.
    pub title: String,
    /// Its page.
    pub link: String,
    /// When (RFC 3339).
    pub updated: String,
    /// What is new.
    pub summary: Option<String>,
}

/// So much of what is new is told: more than anybody has missed since the last look, and a feed is fetched again and again.
const MOST: usize = 200;

/// The day of a feed in which nothing is dated; a feed must have one.
const NO_DAY: &str = "1970-01-01";

/// A day as the moment that feeds want; authors give days, so it is its first second.
fn moment(day: &str) -> String {
    format!("{day}T00:00:00Z")
}

/// What is new, after what to do before it.
fn summary(first: String, what: Option<&str>) -> Option<String> {
    let parts = [Some(first).filter(|text| !text.is_empty()), what.map(ToOwned::to_owned)];
    let parts: Vec<String> = parts.into_iter().flatten().collect();
    (!parts.is_empty()).then(|| parts.join(" "))
}

/// The feed of a guide; only one that has an address has a feed.
pub(in crate::page) fn page(desk: Desk<'_>) -> Page {
    let guide = &desk.worked.guide;
    let folder = guide.address.as_ref().map(crate::source::WebAddress::as_folder).unwrap_or_default();
    let mut entries = Vec::new();
    let texts = CautionTexts::of(&guide.language);
    for worked in desk.worked.schemes.iter().filter(|worked| worked.scheme.version.is_none()) {
        let scheme = &worked.scheme;
        let own = format!("{folder}{}", Address::of(&Thing::Scheme(scheme.slug.clone())));
        if let Some(day) = scheme.written {
            entries.push(EntryView {
                id: own.clone(),
                title: scheme.title.clone(),
                link: own.clone(),
                updated: moment(&day.to_string()),
                summary: summary(cautions::in_short(texts, &worked.step_cautions), scheme.summary.as_deref()),
            });
        }
        for (step, said) in scheme.steps.iter().zip(&worked.step_cautions) {
            entries.extend(step.changed.iter().map(|(day, what)| EntryView {
                id: format!("{own}#{}-{day}", step.stem),
                title: format!("{}: {}", scheme.title, step.title),
                link: format!("{own}#{}", step.stem),
                updated: moment(&day.to_string()),
                summary: summary(cautions::in_short(texts, [said]), Some(what)),
            }));
        }
    }
    entries.sort_by(|a, b| b.updated.cmp(&a.updated).then_with(|| a.id.cmp(&b.id)));
    entries.truncate(MOST);
    let view = FeedView {
        title: guide.title.clone(),
        author: guide.author.clone(),
        language: guide.language.clone(),
        address: folder,
        updated: entries.first().map_or_else(|| moment(NO_DAY), |entry| entry.updated.clone()),
        entries,
    };
    Page { path: "feed.xml".to_owned(), view: View::Feed(view), must_show: Vec::new() }
}
