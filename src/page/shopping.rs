//! A scheme's shopping list: every product and tool, by what it is for.

use std::sync::Arc;

use serde::Serialize;

use super::address::{Address, relative};
use super::frame::{Frame, Section};
use super::line::{LinkView, ProductView};
use super::{Desk, Page, View};
use crate::guide::{Paint, Scheme, Thing, Tool};
use crate::trade::{Kind, ToolKind};
use crate::work::WorkedScheme;

/// The shopping list of a scheme.
#[derive(Debug, Serialize)]
pub struct ShoppingView {
    /// What stands around it.
    pub frame: Frame,
    /// The scheme.
    pub scheme: LinkView,
    /// The currency of the prices.
    pub currency: Option<String>,
    /// How many different things are on it.
    pub count: usize,
    /// Products by their role.
    pub products: Vec<ProductGroup>,
    /// Tools by their kind.
    pub tools: Vec<ToolGroup>,
}

/// Products of one role.
#[derive(Debug, Serialize)]
pub struct ProductGroup {
    /// The role; words below `role`.
    pub role: &'static str,
    /// The products, in the order in which the steps first use them.
    pub lines: Vec<ProductLine>,
}

/// One product on the list.
#[derive(Debug, Serialize)]
pub struct ProductLine {
    /// The product.
    pub product: ProductView,
    /// The sizes it is sold in.
    pub bottles: Vec<BottleView>,
    /// The steps that use it.
    pub uses: Vec<UseView>,
}

/// A size that a product is sold in.
#[derive(Debug, Serialize)]
pub struct BottleView {
    /// Millilitres.
    pub size: String,
    /// What it costs, with two decimals.
    pub price: Option<String>,
}

/// A step that uses something.
#[derive(Debug, Serialize)]
pub struct UseView {
    /// Its number.
    pub number: usize,
    /// What it is called.
    pub title: String,
    /// Its page.
    pub href: String,
}

/// Tools of one kind.
#[derive(Debug, Serialize)]
pub struct ToolGroup {
    /// The kind; words below `tool-kind`.
    pub kind: &'static str,
    /// The tools, in the order in which the steps first name them.
    pub lines: Vec<ToolLine>,
}

/// One tool on the list.
#[derive(Debug, Serialize)]
pub struct ToolLine {
    /// What it is called.
    pub name: String,
    /// Anything worth knowing.
    pub note: Option<String>,
    /// The steps that use it.
    pub uses: Vec<UseView>,
}

/// The roles on the list, in its order.
const ROLES: &[&str] = &["ground", "paints", "thinners", "varnishes", "helpers"];

/// The role of a kind of product.
fn role(kind: Kind) -> &'static str {
    match kind {
        Kind::Primer => "ground",
        Kind::Thinner | Kind::Cleaner | Kind::Medium => "thinners",
        Kind::Varnish => "varnishes",
        Kind::DecalSoftener | Kind::Resist | Kind::Glue | Kind::Texture => "helpers",
        _ => "paints",
    }
}

/// The page of a scheme's shopping list.
pub(super) fn page(desk: Desk<'_>, worked: &WorkedScheme) -> Page {
    let guide = &desk.worked.guide;
    let scheme = &worked.scheme;
    let path = Address::shopping(&scheme.slug);
    let paints = used_paints(scheme);
    let tools = used_tools(scheme);
    let view = ShoppingView {
        frame: Frame::new(guide, &path, Section::Schemes, &scheme.title, scheme.summary.as_deref()),
        scheme: LinkView::to(&path, &Thing::Scheme(scheme.slug.clone()), &scheme.title),
        currency: guide.currency.clone(),
        count: paints.len() + tools.len(),
        products: ROLES.iter().filter_map(|role| product_group(desk, role, &paints, (scheme, &path))).collect(),
        tools: ToolKind::ALL.iter().filter_map(|kind| tool_group(*kind, &tools, scheme, &path)).collect(),
    };
    Page { path, view: View::Shopping(view), must_show: Vec::new() }
}

fn used_paints(scheme: &Scheme) -> Vec<Arc<Paint>> {
    let mut paints: Vec<Arc<Paint>> = Vec::new();
    for part in scheme.steps.iter().flat_map(|step| &step.mix.parts) {
        if !paints.iter().any(|known| known.id == part.paint.id) {
            paints.push(Arc::clone(&part.paint));
        }
    }
    paints
}

fn used_tools(scheme: &Scheme) -> Vec<Arc<Tool>> {
    let mut tools: Vec<Arc<Tool>> = Vec::new();
    for tool in scheme.steps.iter().flat_map(|step| &step.tools) {
        if !tools.iter().any(|known| known.id == tool.id) {
            tools.push(Arc::clone(tool));
        }
    }
    tools
}

fn product_group(
    desk: Desk<'_>,
    wanted: &'static str,
    paints: &[Arc<Paint>],
    (scheme, path): (&Scheme, &str),
) -> Option<ProductGroup> {
    let lines: Vec<ProductLine> = paints
        .iter()
        .filter(|paint| role(paint.kind) == wanted)
        .map(|paint| ProductLine {
            product: ProductView::of(desk, path, paint),
            bottles: bottles(paint),
            uses: uses(scheme, path, |step| step.mix.parts.iter().any(|part| part.paint.id == paint.id)),
        })
        .collect();
    (!lines.is_empty()).then_some(ProductGroup { role: wanted, lines })
}

/// The sizes that a paint is sold in.
pub(super) fn bottles(paint: &Paint) -> Vec<BottleView> {
    let bottles = paint.bottles.iter();
    bottles
        .map(|bottle| BottleView {
            size: format!("{:.1}", bottle.size.0).trim_end_matches(".0").to_owned(),
            price: bottle.price.map(|price| price.to_string()),
        })
        .collect()
}

fn tool_group(kind: ToolKind, tools: &[Arc<Tool>], scheme: &Scheme, path: &str) -> Option<ToolGroup> {
    let lines: Vec<ToolLine> = tools
        .iter()
        .filter(|tool| tool.kind == kind)
        .map(|tool| ToolLine {
            name: tool.name.clone(),
            note: tool.note.clone(),
            uses: uses(scheme, path, |step| step.tools.iter().any(|used| used.id == tool.id)),
        })
        .collect();
    (!lines.is_empty()).then_some(ToolGroup { kind: kind.name(), lines })
}

/// The steps of a scheme for which something holds, as links from the page at `path`.
pub(super) fn uses(scheme: &Scheme, path: &str, holds: impl Fn(&crate::guide::Step) -> bool) -> Vec<UseView> {
    let steps = scheme.steps.iter().filter(|step| holds(step));
    steps
        .map(|step| UseView {
            number: step.number,
            title: step.title.clone(),
            href: relative(path, &Address::of(&Thing::Step(scheme.slug.clone(), step.stem.clone()))),
        })
        .collect()
}
