//! Small pieces that several pages share: links and products.

use serde::Serialize;

use super::address::{Address, relative};
use crate::draw;
use crate::guide::{Paint, Thing};
use crate::page::Desk;

/// Some words and where they lead.
#[derive(Debug, Clone, Serialize, PartialEq, Eq)]
pub struct LinkView {
    /// The words.
    pub title: String,
    /// Where they lead.
    pub href: String,
}

impl LinkView {
    /// The link from the page at `from` to a thing.
    pub(in crate::page) fn to(from: &str, thing: &Thing, title: &str) -> Self {
        Self { title: title.to_owned(), href: relative(from, &Address::of(thing)) }
    }
}

/// A product with its chip.
#[derive(Debug, Clone, Serialize)]
pub struct ProductView {
    /// Its id.
    pub id: String,
    /// What the label calls it.
    pub name: String,
    /// Who makes it.
    pub maker: String,
    /// The range it belongs to.
    pub range: String,
    /// The maker's own number.
    pub code: Option<String>,
    /// Its kind; words below `kind`.
    pub kind: &'static str,
    /// Where its page is.
    pub href: String,
    /// Its chip, as SVG.
    pub chip: String,
    /// Whether it has left the market.
    pub discontinued: bool,
}

impl ProductView {
    /// A product on the page at `from`.
    pub(in crate::page) fn of(desk: Desk<'_>, from: &str, paint: &Paint) -> Self {
        Self {
            id: paint.id.clone(),
            name: paint.name.clone(),
            maker: paint.maker.clone(),
            range: paint.range.clone(),
            code: paint.code.clone(),
            kind: paint.kind.name(),
            href: relative(from, &Address::of(&Thing::Paint(paint.id.clone()))),
            chip: draw::chip(&paint.id, desk.brush_outs.get(&paint.id)),
            discontinued: paint.discontinued,
        }
    }
}
