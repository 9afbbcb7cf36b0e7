//! What a shopping list is for, and the files that it is published as.

use crate::guide::{Army, Thing};
use crate::page::parts::address::Address;
use crate::page::{Desk, Page};
use crate::shop::{List, Order};
use crate::tell::shopping::{self, Voice};
use crate::work::WorkedScheme;

/// What is shopped for.
#[derive(Debug, Clone, Copy)]
pub enum Basket<'a> {
    /// One scheme.
    Scheme(&'a WorkedScheme),
    /// A whole army.
    Army(&'a Army),
}

/// A file with a shopping list.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Form {
    /// A page to read and to tick.
    Page,
    /// Plain text.
    Text,
    /// A table for spreadsheets.
    Csv,
    /// For scripts.
    Json,
}

impl Form {
    /// The files beside the page.
    pub(in crate::page) const FILES: [Self; 3] = [Self::Text, Self::Csv, Self::Json];

    /// The ending of the file's name.
    pub(in crate::page) const fn ending(self) -> &'static str {
        match self {
            Self::Page => "html",
            Self::Text => "txt",
            Self::Csv => "csv",
            Self::Json => "json",
        }
    }
}

/// Columns of the plain text: as many as a letter has.
const COLUMNS: usize = 76;

impl<'a> Basket<'a> {
    /// The path of a list in the published folder.
    pub(in crate::page) fn path(self, form: Form) -> String {
        match self {
            Self::Scheme(worked) => Address::shopping(&worked.scheme.slug, form.ending()),
            Self::Army(army) => Address::army_shopping(&army.slug, form.ending()),
        }
    }

    /// The scheme or the army itself.
    pub(in crate::page) fn thing(self) -> Thing {
        match self {
            Self::Scheme(worked) => Thing::Scheme(worked.scheme.slug.clone()),
            Self::Army(army) => Thing::Army(army.slug.clone()),
        }
    }

    /// Its list: of a scheme for as many models as are usual.
    pub(in crate::page) fn list(self, desk: Desk<'a>) -> List<'a> {
        List::of(match self {
            Self::Scheme(worked) => Order::of_scheme(desk.worked, worked, None),
            Self::Army(army) => Order::of_army(desk.worked, army),
        })
    }
}

/// The words of the guide.
pub(in crate::page) fn voice(desk: Desk<'_>) -> Voice<'_> {
    Voice::new(desk.words, &desk.worked.guide.language)
}

/// A list as a file beside its page.
pub(in crate::page) fn file<'a>(desk: Desk<'a>, basket: Basket<'a>, form: Form) -> Page {
    let list = basket.list(desk);
    let text = match form {
        Form::Page | Form::Text => shopping::text(&list, voice(desk), COLUMNS),
        Form::Csv => shopping::csv(&list),
        Form::Json => shopping::json(&list),
    };
    Page::finished(basket.path(form), text)
}
