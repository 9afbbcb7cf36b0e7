//! Small pieces that several pages share: links and products.

use serde::Serialize;

use super::address::{Address, relative, with_anchor};
use crate::draw;
use crate::guide::{Mix, MixRow, Paint, Pot, Thing};
use crate::page::Desk;
use crate::work::BrushOut;

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
            chip: draw::chip(&paint.id, paint.kind, desk.brush_outs.get(&paint.id)),
            discontinued: paint.discontinued,
        }
    }

    /// A pot of a scheme on the page at `from`: what is in it stands where a product's maker does.
    pub(in crate::page) fn of_pot(desk: Desk<'_>, from: &str, scheme: &str, pot: &Pot) -> Self {
        let page = Address::of(&Thing::Scheme(scheme.to_owned()));
        let main = pot.mix.parts.first().map_or(crate::trade::Kind::Paint, |part| part.paint.kind);
        Self {
            id: pot.id.clone(),
            name: pot.title.clone(),
            maker: pot.mix.in_words(|number| desk.words.number(number)),
            range: String::new(),
            code: None,
            kind: main.name(),
            href: with_anchor(&relative(from, &page), Some(&pot_anchor(&pot.id))),
            chip: draw::chip(&pot.id, main, BrushOut::of_pot(pot, &desk.worked.conditions.shelf).as_ref()),
            discontinued: false,
        }
    }

    /// A line of a mix of a scheme.
    pub(in crate::page) fn of_line(
        desk: Desk<'_>,
        from: &str,
        scheme: &str,
        mix: &Mix,
        line: &MixRow<'_>,
    ) -> Option<Self> {
        match line.pot {
            Some(pot) => Some(Self::of_pot(desk, from, scheme, pot)),
            None => mix.parts.get(line.parts.start).map(|part| Self::of(desk, from, &part.paint)),
        }
    }
}

/// Where a pot stands on its scheme's page.
pub(in crate::page) fn pot_anchor(id: &str) -> String {
    format!("pot_{id}")
}
