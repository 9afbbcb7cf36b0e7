//! A shopping list: bottles, what they are for and what they cost, as a till slip to take along.

use serde::Serialize;

use super::basket::{self, Basket, Form};
use super::slip_data;
use crate::draw;
use crate::guide::{Paint, Scheme, Step, Thing};
use crate::measure::{exact, guessed};
use crate::page::parts::address::{Address, relative};
use crate::page::parts::frame::{Frame, Section};
use crate::page::parts::gear_box;
use crate::page::parts::line::{LinkView, ProductView};
use crate::page::parts::prose::escaped;
use crate::page::{Desk, Page, View};
use crate::quantity::SurfaceSource;
use crate::shop::{Line, List, Role, Use};
use crate::tell::shopping::Voice;
use crate::trade::ToolKind;

/// The shopping list of a scheme or an army.
#[derive(Debug, Serialize)]
pub struct ShoppingView {
    /// The frame around it: head, navigation and foot.
    pub frame: Frame,
    /// The scheme or the army.
    pub of: LinkView,
    /// Whether it is for an army.
    pub army: bool,
    /// How many models it is for.
    pub models: u64,
    /// The currency of the prices.
    pub currency: Option<String>,
    /// Products by their role.
    pub products: Vec<ProductGroup>,
    /// What keeps people safe, finished; empty where nothing is asked for.
    pub gear: String,
    /// The texts of the cautions, finished; empty where there are none.
    pub texts: String,
    /// The things that keep people safe that the author names.
    pub own_gear: Vec<ToolLine>,
    /// What comes before these, in the program's words.
    pub own_gear_label: &'static str,
    /// The other tools by their kind.
    pub tools: Vec<ToolGroup>,
    /// How many bottles and packs have to be bought, in words.
    pub to_buy: String,
    /// What they cost, with the currency.
    pub total: String,
    /// What is to be known about the figures.
    pub notes: Vec<String>,
    /// Which armies are added up, where several have the scheme.
    pub added_up: Option<String>,
    /// How the figures came about.
    pub sums: Vec<SumsView>,
    /// The same list as files.
    pub files: Vec<LinkView>,
    /// The figures for a script: JSON, safe inside a script element.
    pub data: String,
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
    /// Whether it is in the cupboard, so that nothing has to be bought.
    pub there: bool,
    /// What has to be bought, or why nothing has.
    pub bought: String,
    /// A bottle filled as far as what is bought is needed, drawn; empty where that is not known.
    pub bottle: String,
    /// What that costs, without the currency.
    pub price: String,
    /// How much is needed.
    pub need: String,
    /// The steps that use it, as links.
    pub uses: String,
    /// What else is worth saying.
    pub more: Vec<String>,
    /// What would do by the likely figure, where that is less.
    pub likely: String,
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
    /// How many pieces of it are needed, where it is counted.
    pub pieces: Option<String>,
    /// The id by which a script finds it, where it is counted.
    pub counted: Option<String>,
    /// Anything worth knowing.
    pub note: Option<String>,
    /// The steps that use it, as links.
    pub uses: String,
}

/// How the figures of one scheme came about.
#[derive(Debug, Serialize)]
pub struct SumsView {
    /// The scheme.
    pub scheme: LinkView,
    /// How many models of it.
    pub models: u32,
    /// The surface of one model in square centimetres.
    pub area: Option<String>,
    /// How the surface is known; words below `shopping.surface`.
    pub source: &'static str,
    /// The steps that use something.
    pub steps: Vec<SumView>,
}

/// How the figure of one step came about.
#[derive(Debug, Serialize)]
pub struct SumView {
    /// The step.
    pub step: UseView,
    /// The surface that it covers on one model, in square centimetres.
    pub area: String,
    /// The wet film of one coat in micrometres.
    pub film: String,
    /// How many coats.
    pub coats: u32,
    /// How much of the paint arrives, in per cent.
    pub arrives: String,
    /// What each model takes, of so many, in millilitres.
    pub per_model: String,
    /// What stays in cup and jar, in millilitres.
    pub lost: String,
    /// What is mixed in all.
    pub lot: String,
}

/// The page of a shopping list.
pub(in crate::page) fn page<'a>(desk: Desk<'a>, basket: Basket<'a>) -> Page {
    let path = basket.path(Form::Page);
    let list = basket.list(desk);
    let spot = Spot { desk, list: &list, voice: basket::voice(desk), path: &path };
    let [gear, texts] = gear_box::html(&list, spot.voice, |uses| spot.links(uses));
    let (section, army) = match basket {
        Basket::Scheme(_) => (Section::Schemes, false),
        Basket::Army(_) => (Section::Armies, true),
    };
    let added_up = spot.voice.added_up(&list);
    let view = ShoppingView {
        frame: Frame::new(&desk.worked.guide, &path, section, &list.order.title, None),
        of: LinkView::to(&path, &basket.thing(), &list.order.title),
        army,
        models: list.order.models(),
        currency: desk.worked.guide.currency.clone(),
        products: Role::ALL.iter().filter_map(|role| spot.product_group(*role)).collect(),
        own_gear: spot.tools(ToolKind::Protection),
        own_gear_label: &spot.voice.cautions().labels().author_note,
        tools: [ToolKind::Tool, ToolKind::Consumable].into_iter().filter_map(|kind| spot.tool_group(kind)).collect(),
        to_buy: spot.voice.to_buy(&list),
        total: spot.voice.money(list.total, &list),
        notes: spot.voice.notes(&list).into_iter().filter(|note| Some(note) != added_up.as_ref()).collect(),
        added_up,
        sums: spot.sums(),
        files: spot.files(basket),
        data: slip_data::json(&list, spot.voice),
        gear: gear.clone(),
        texts: texts.clone(),
    };
    let must_show = [gear, texts].into_iter().filter(|said| !said.is_empty()).collect();
    Page { path, view: View::Shopping(Box::new(view)), must_show }
}

/// A list on its page.
struct Spot<'a> {
    desk: Desk<'a>,
    list: &'a List<'a>,
    voice: Voice<'a>,
    path: &'a str,
}

impl Spot<'_> {
    fn product_group(&self, role: Role) -> Option<ProductGroup> {
        let lines = self.list.lines.iter().filter(|line| line.role == role);
        let lines: Vec<ProductLine> = lines.map(|line| self.product(line)).collect();
        (!lines.is_empty()).then_some(ProductGroup { role: role.name(), lines })
    }

    fn product(&self, line: &Line<'_>) -> ProductLine {
        let bought = !line.picks.is_empty();
        let likely = self.voice.would_do(line).unwrap_or_default();
        let more = self.voice.more(line, self.list);
        ProductLine {
            product: ProductView::of(self.desk, self.path, &line.paint),
            there: line.is_there(),
            bought: self.voice.bought(line),
            bottle: line.filling().map(draw::bottle).unwrap_or_default(),
            price: if bought { self.voice.price(line.price, self.list) } else { String::new() },
            need: self.voice.need(line, self.list),
            uses: self.links(&line.uses),
            more: more.into_iter().filter(|more| *more != likely).collect(),
            likely,
        }
    }

    fn tool_group(&self, kind: ToolKind) -> Option<ToolGroup> {
        let lines = self.tools(kind);
        (!lines.is_empty()).then_some(ToolGroup { kind: kind.name(), lines })
    }

    /// The tools of a kind; what the guide has no product for stands with what is used up.
    fn tools(&self, kind: ToolKind) -> Vec<ToolLine> {
        let own = self.list.tools.iter().filter(|(tool, _)| tool.kind == kind);
        let own = own.map(|(tool, uses)| ToolLine {
            name: tool.name.clone(),
            pieces: self.voice.pieces(tool, self.list),
            counted: tool.per_model.map(|_| tool.id.clone()),
            note: tool.note.clone(),
            uses: self.links(uses),
        });
        let unlisted = self.list.unlisted.iter().filter(|_| kind == ToolKind::Consumable);
        let unlisted = unlisted.map(|(purpose, need, uses)| ToolLine {
            name: self.voice.purpose(*purpose),
            pieces: None,
            counted: None,
            note: Some(self.voice.unlisted(*need, self.list)),
            uses: self.links(uses),
        });
        own.chain(unlisted).collect()
    }

    /// Steps as links, runs of them drawn together; on a list for several schemes behind the name of each.
    fn links(&self, uses: &[Use<'_>]) -> String {
        let several = self.list.order.units.len() > 1;
        let schemes = self.voice.by_scheme(uses, self.list);
        let more = |at: usize| if at + 1 < schemes.len() { ";" } else { "" };
        let shown = schemes.iter().enumerate().map(|(at, (scheme, word, runs))| {
            // What parts two numbers stays with the first, so that no line begins with it.
            let run = |(place, run): (usize, &Vec<&Use<'_>>)| {
                let links = run.iter().map(|of| self.link(of)).collect::<Vec<_>>().join("–");
                format!("<span class=\"whole\">{links}{}</span>", if place + 1 < runs.len() { "," } else { more(at) })
            };
            let steps = runs.iter().enumerate().map(run).collect::<Vec<_>>().join(" ");
            let steps = format!("{} {steps}", escaped(word));
            if several { format!("{}: {steps}", escaped(&scheme.title)) } else { steps }
        });
        shown.collect::<Vec<_>>().join(" ")
    }

    fn link(&self, of: &Use<'_>) -> String {
        let UseView { number, title, href } = use_view(of, self.path);
        format!("<a href=\"{}\" title=\"{}\">{number}</a>", escaped(&href), escaped(&title))
    }

    fn files(&self, basket: Basket<'_>) -> Vec<LinkView> {
        let files = Form::FILES.into_iter();
        files
            .map(|form| LinkView { title: form.ending().to_uppercase(), href: relative(self.path, &basket.path(form)) })
            .collect()
    }

    fn sums(&self) -> Vec<SumsView> {
        let units = self.list.order.units.iter();
        units
            .map(|(worked, models)| SumsView {
                scheme: LinkView::to(self.path, &Thing::Scheme(worked.scheme.slug.clone()), &worked.scheme.title),
                models: *models,
                area: worked.surface.map(|surface| match surface.source {
                    SurfaceSource::Guessed(_) => guessed(surface.area.0),
                    SurfaceSource::Given | SurfaceSource::Mesh => self.voice.plain(surface.area.0),
                }),
                source: match worked.surface.map(|surface| surface.source) {
                    Some(SurfaceSource::Given) => "given",
                    Some(SurfaceSource::Mesh) => "mesh",
                    Some(SurfaceSource::Guessed(_)) => "guessed",
                    None => "unknown",
                },
                steps: worked
                    .scheme
                    .steps
                    .iter()
                    .zip(&worked.needs)
                    .filter_map(|(step, need)| {
                        let of = Use { scheme: &worked.scheme, step };
                        self.sum(&of, need.as_ref()?, *models)
                    })
                    .collect(),
            })
            .collect()
    }

    fn sum(&self, of: &Use<'_>, need: &crate::quantity::StepNeed, models: u32) -> Option<SumView> {
        let sum = &need.sum;
        (!need.portions.is_empty()).then(|| SumView {
            step: use_view(of, self.path),
            area: self.voice.plain(sum.area.0 * sum.areas * sum.zones),
            film: self.voice.plain(sum.film.0),
            coats: sum.coats,
            arrives: self.voice.plain(sum.efficiency_for(models) * 100.0),
            per_model: self.voice.plain(sum.each_of(models).0),
            lost: self.voice.plain(sum.lost.0),
            lot: self.voice.estimate(need.for_models(models).lot, need.drop),
        })
    }
}

fn use_view(of: &Use<'_>, path: &str) -> UseView {
    let thing = Thing::Step(of.scheme.slug.clone(), of.step.stem.clone());
    UseView { number: of.step.number, title: of.step.title.clone(), href: relative(path, &Address::of(&thing)) }
}

/// The sizes that a paint is sold in.
pub(in crate::page) fn bottles(paint: &Paint) -> Vec<BottleView> {
    let bottles = paint.bottles.iter();
    bottles
        .map(|bottle| BottleView { size: exact(bottle.size.0, 1), price: bottle.price.map(|price| price.to_string()) })
        .collect()
}

/// The steps of a scheme for which something holds at their places, as links from the page at `path`.
pub(in crate::page) fn uses(scheme: &Scheme, path: &str, holds: impl Fn(usize, &Step) -> bool) -> Vec<UseView> {
    let steps = scheme.steps.iter().enumerate().filter(|(at, step)| holds(*at, step));
    steps
        .map(|(_, step)| UseView {
            number: step.number,
            title: step.title.clone(),
            href: relative(path, &Address::of(&Thing::Step(scheme.slug.clone(), step.stem.clone()))),
        })
        .collect()
}
