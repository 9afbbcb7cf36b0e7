//! A whole scheme on one page: at a glance, areas, cautions, stages and steps.

use serde::Serialize;
use serde_json::json;

use super::areas::{AreaView, areas};
use super::drawn::{self, TurnedView};
use super::outlook::{self, ValuesView};
use super::pots::{self, PotView};
use super::recipe::{self, Spot, StepView};
use super::strip::{self, StripStep};
use super::versions::{self, VersionsView};
use crate::caution::{self, Action, CautionTexts};
use crate::draw;
use crate::guide::{Model, Scheme, Thing, first_sentence};
use crate::measure::exact;
use crate::page::parts::address::{Address, relative};
use crate::page::parts::caution_box;
use crate::page::parts::frame::{Frame, Section};
use crate::page::parts::line::LinkView;
use crate::page::parts::picture::PictureView;
use crate::page::parts::prose::{self, Company, Setting, StepsHere};
use crate::page::{Desk, Page, View};
use crate::render::Cut;
use crate::shop::usual_models;
use crate::tell::facts;
use crate::theme::Words;
use crate::trade::Technique;
use crate::work::WorkedScheme;

/// One scheme.
#[derive(Debug, Serialize)]
pub struct SchemeView {
    /// The frame around it: head, navigation and foot.
    pub frame: Frame,
    /// What it is called.
    pub title: String,
    /// One sentence on how it looks.
    pub summary: Option<String>,
    /// What it asks for.
    pub glance: GlanceView,
    /// What it is painted with, and which air it wants.
    pub asks: AsksView,
    /// The parts of the model.
    pub areas: Vec<AreaView>,
    /// How light they become, step by step.
    pub values: Vec<ValuesView>,
    /// The cautions of all steps in full, finished.
    pub cautions: String,
    /// The introduction, as HTML.
    pub intro: String,
    /// The finished model.
    pub photo: Option<PictureView>,
    /// The model before.
    pub before: Option<PictureView>,
    /// The finished model, drawn by the program.
    pub drawn: Option<PictureView>,
    /// The finished model from all sides, drawn; empty where it can't be turned.
    pub turned: Vec<TurnedView>,
    /// A video of the whole scheme.
    pub video: Option<String>,
    /// Words to find it by.
    pub tags: Vec<LinkView>,
    /// Whom to thank.
    pub credits: Vec<String>,
    /// The day it was first published.
    pub written: Option<String>,
    /// What changed in its steps, the newest first.
    pub changes: Vec<SchemeChange>,
    /// The large page of its first step.
    pub start: Option<String>,
    /// For how many models the amounts are, until the reader says another number.
    pub models: u32,
    /// All steps at a glance.
    pub strip: Vec<StripStep>,
    /// It beside its versions, if it has some.
    pub versions: Option<VersionsView>,
    /// Mixes that several of its steps use.
    pub pots: Vec<PotView>,
    /// The steps under their stages.
    pub chapters: Vec<ChapterView>,
    /// Its shopping list.
    pub shopping: String,
    /// Its recipe, to print.
    pub card: String,
    /// The paper that this is made for.
    pub paper: &'static str,
    /// Its recipe, to paste.
    pub recipe: String,
    /// The chapters of its video, for players and to paste, if steps say where they are.
    pub video_chapters: Option<[String; 2]>,
    /// Its own Markdown.
    pub source: String,
    /// The page as data for search engines: JSON, safe inside a script element.
    pub json_ld: String,
}

/// What a scheme is painted with, in the order in which it is first used.
#[derive(Debug, Serialize)]
pub struct AsksView {
    /// The techniques; words below `technique`, each with its drawing.
    pub tools: Vec<(&'static str, String)>,
    /// The air that steps ask for: in the program's words, its drawing, the numbers of these steps.
    pub airs: Vec<(String, String, Vec<usize>)>,
}

impl AsksView {
    fn of(worked: &WorkedScheme, language: &str) -> Self {
        let mut techniques: Vec<Technique> = Vec::new();
        for step in &worked.scheme.steps {
            if !techniques.contains(&step.technique) {
                techniques.push(step.technique);
            }
        }
        let airs = [Action::Outdoors, Action::Extraction, Action::FreshAir].into_iter().filter_map(|air| {
            let steps = worked.scheme.steps.iter().zip(&worked.step_cautions);
            let steps = steps.filter(|(_, said)| caution::to_do([*said]).contains(&air));
            let numbers: Vec<usize> = steps.map(|(step, _)| step.number).collect();
            let words = || CautionTexts::of(language).action(air).to_owned();
            (!numbers.is_empty()).then(|| (words(), draw::action(air), numbers))
        });
        Self {
            tools: techniques.into_iter().map(|technique| (technique.name(), draw::tool(technique))).collect(),
            airs: airs.collect(),
        }
    }
}

/// What a scheme asks for.
#[derive(Debug, Serialize)]
pub struct GlanceView {
    /// What the model is.
    pub model: Option<String>,
    /// Its size.
    pub scale: Option<String>,
    /// What it is made of.
    pub material: Option<String>,
    /// Its surface in square centimetres.
    pub surface: Option<String>,
    /// How much it asks of the painter; words below `level`.
    pub level: Option<&'static str>,
    /// How many steps.
    pub steps: usize,
    /// How many products.
    pub products: usize,
    /// Hands-on seconds for one model.
    pub hands_on: u32,
    /// Whether some of that is the usual for such steps.
    pub usual: bool,
    /// After how many days and evenings it is finished, at the earliest, in words.
    pub ready: Option<String>,
}

impl GlanceView {
    /// The figures of a scheme.
    pub(in crate::page) fn of(worked: &WorkedScheme, words: &Words) -> Self {
        let Model { name, scale, material, surface, .. } = &worked.scheme.model;
        Self {
            model: name.clone(),
            scale: scale.map(|scale| scale.to_string()),
            material: material.clone(),
            surface: surface.map(|surface| exact(surface.0, 1)),
            level: worked.scheme.level.map(crate::trade::Skill::name),
            steps: worked.glance.steps,
            products: worked.glance.products,
            hands_on: worked.glance.hands_on.as_seconds(),
            usual: worked.glance.usual,
            ready: facts::ready(worked, words),
        }
    }
}

/// Steps that follow each other in one stage.
#[derive(Debug, Serialize)]
pub struct ChapterView {
    /// The stage; words below `stage`.
    pub stage: &'static str,
    /// Hands-on seconds for one model.
    pub hands_on: u32,
    /// Seconds of waiting.
    pub waiting: u32,
    /// Whether all its steps are done for every model together.
    pub together: bool,
    /// The steps.
    pub steps: Vec<StepView>,
}

/// A change in one of the steps.
#[derive(Debug, Serialize)]
pub struct SchemeChange {
    /// The day.
    pub day: String,
    /// The step.
    pub step: LinkView,
    /// What changed.
    pub what: String,
}

/// What a search engine says of a scheme: a version without a sentence of its own says which it is.
fn about(scheme: &Scheme) -> Option<String> {
    let summary = scheme.summary.as_deref()?;
    Some(match &scheme.version {
        Some(version) => format!("{}: {summary}", version.label),
        None => summary.to_owned(),
    })
}

/// The page of a scheme.
pub(in crate::page) fn page(desk: Desk<'_>, worked: &WorkedScheme) -> Page {
    let scheme = &worked.scheme;
    let path = Address::of(&Thing::Scheme(scheme.slug.clone()));
    let lines = caution_box::lines_of_page(&desk.worked.guide, worked.step_cautions.iter().map(|said| [said]));
    let whole = caution_box::of_scheme(desk, worked);
    let models = usual_models(desk.worked, worked);
    let here = StepsHere::of(scheme);
    let spot =
        |at: usize| Spot { path: &path, level: 4, whole_scheme: Some(&here), models, to_do: &lines[at], cautions: "" };
    let steps = (0..scheme.steps.len()).map(|at| recipe::step(desk, worked, at, spot(at))).collect();
    let about = about(scheme);
    let view = SchemeView {
        frame: Frame::new(&desk.worked.guide, &path, Section::Schemes, &scheme.title, about.as_deref()),
        title: scheme.title.clone(),
        summary: scheme.summary.clone(),
        glance: GlanceView::of(worked, desk.words),
        asks: AsksView::of(worked, &desk.worked.guide.language),
        areas: areas(worked),
        values: outlook::values(worked),
        cautions: whole.clone(),
        intro: prose::html(desk, &scheme.intro, Setting { path: &path, level: 2, company: Company::Steps(&here) }),
        photo: PictureView::of(desk, &path, scheme.photo.as_ref()),
        before: PictureView::of(desk, &path, scheme.before.as_ref()),
        drawn: drawn::finished(desk, worked, &path),
        turned: drawn::turned(desk, worked, &path),
        video: scheme.video.as_ref().map(|address| address.0.clone()),
        tags: tags(scheme, &path),
        credits: scheme.credits.clone(),
        written: scheme.written.map(|day| day.to_string()),
        changes: changes(scheme),
        start: (!scheme.steps.is_empty()).then(|| relative(&path, &super::step_page::address(scheme, 0))),
        models,
        strip: strip::strip(desk, worked, &path, None),
        versions: versions::versions(desk, worked, &path),
        pots: pots::pots(desk, worked, &path),
        chapters: chapters(steps),
        shopping: relative(&path, &Address::shopping(&scheme.slug, "html")),
        card: relative(&path, &Address::card(&scheme.slug)),
        paper: desk.worked.guide.paper.name(),
        recipe: relative(&path, &Address::recipe(&scheme.slug)),
        video_chapters: crate::tell::chapters::has_chapters(scheme).then(|| {
            [Address::chapters(&scheme.slug), Address::chapter_list(&scheme.slug)].map(|file| relative(&path, &file))
        }),
        source: relative(&path, &Address::source(&scheme.slug)),
        json_ld: json_ld(desk, worked, &path),
    };
    let must_show = lines.into_iter().chain([whole]).filter(|text| !text.is_empty()).collect();
    Page { path, view: View::Scheme(Box::new(view)), must_show }
}

/// The tags of a scheme as links from the page at `path`.
pub(in crate::page) fn tags(scheme: &Scheme, path: &str) -> Vec<LinkView> {
    scheme.tags.iter().map(|tag| LinkView::to(path, &Thing::Tag(tag.slug.clone()), &tag.name)).collect()
}

fn changes(scheme: &Scheme) -> Vec<SchemeChange> {
    let mut changes: Vec<SchemeChange> = scheme
        .steps
        .iter()
        .flat_map(|step| step.changed.iter().map(move |(day, what)| (step, day, what)))
        .map(|(step, day, what)| SchemeChange {
            day: day.to_string(),
            step: LinkView { title: step.title.clone(), href: format!("#{}", step.stem) },
            what: what.clone(),
        })
        .collect();
    changes.sort_by(|a, b| b.day.cmp(&a.day));
    changes
}

/// Groups steps that follow each other in one stage.
fn chapters(steps: Vec<StepView>) -> Vec<ChapterView> {
    let mut chapters: Vec<ChapterView> = Vec::new();
    for step in steps {
        let same = chapters.last().is_some_and(|chapter| chapter.stage == step.stage);
        if !same {
            chapters.push(ChapterView {
                stage: step.stage,
                hands_on: 0,
                waiting: 0,
                together: true,
                steps: Vec::new(),
            });
        }
        if let Some(chapter) = chapters.last_mut() {
            chapter.hands_on = chapter.hands_on.saturating_add(step.hands_on);
            chapter.waiting = chapter.waiting.saturating_add(step.waiting);
            chapter.together &= step.together;
            chapter.steps.push(step);
        }
    }
    chapters
}

/// The path of the picture after a step: the author's, or else the drawn one.
fn step_picture(worked: &WorkedScheme, step: &crate::guide::Step) -> Option<String> {
    let photo = step.photo.as_ref().map(|photo| photo.path.clone());
    let drawn = || drawn::can_be(worked).then(|| drawn::address(worked, step.number - 1, Cut::Large));
    photo.or_else(drawn).map(|path| relative("", &path))
}

/// The scheme as a schema.org `HowTo`.
fn json_ld(desk: Desk<'_>, worked: &WorkedScheme, path: &str) -> String {
    let guide = &desk.worked.guide;
    let scheme = &worked.scheme;
    let base = guide.address.as_ref().map(crate::source::WebAddress::as_folder);
    let texts = CautionTexts::of(&guide.language);
    let steps: Vec<serde_json::Value> = scheme
        .steps
        .iter()
        .zip(&worked.step_cautions)
        .map(|(step, said)| {
            let text = first_sentence(step.body.markdown()).unwrap_or_else(|| step.title.clone());
            let mut entry = json!({ "@type": "HowToStep", "position": step.number, "name": step.title });
            // What to do first stands before the instruction here too.
            let first = texts.to_do(&caution::to_do([said]));
            let text = if first.is_empty() { text } else { format!("{first}. {text}") };
            entry["text"] = json!(text);
            if let (Some(base), Some(picture)) = (&base, step_picture(worked, step)) {
                entry["image"] = json!(format!("{base}{picture}"));
            }
            if let Some(base) = &base {
                entry["url"] = json!(format!("{base}{path}#{}", step.stem));
            }
            entry
        })
        .collect();
    let mut supplies: Vec<&str> =
        scheme.steps.iter().flat_map(|step| &step.mix.parts).map(|part| part.paint.name.as_str()).collect();
    supplies.sort_unstable();
    supplies.dedup();
    let mut tools: Vec<&str> =
        scheme.steps.iter().flat_map(|step| &step.tools).map(|tool| tool.name.as_str()).collect();
    tools.sort_unstable();
    tools.dedup();
    let mut data = json!({
        "@context": "https://schema.org",
        "@type": "HowTo",
        "name": scheme.title,
        "inLanguage": guide.language,
        "author": { "@type": "Person", "name": guide.author },
        "totalTime": format!("P{}D", worked.sittings.ready_after.max(1)),
        "supply": supplies.iter().map(|name| json!({ "@type": "HowToSupply", "name": name })).collect::<Vec<_>>(),
        "tool": tools.iter().map(|name| json!({ "@type": "HowToTool", "name": name })).collect::<Vec<_>>(),
        "step": steps,
    });
    // The sentence that goes with what to do first stands once.
    let closing = (!worked.cautions.is_empty()).then(|| texts.closing().to_owned());
    let about: Vec<String> = scheme.summary.clone().into_iter().chain(closing).collect();
    if !about.is_empty() {
        data["description"] = json!(about.join(" "));
    }
    let photo = scheme.photo.as_ref().map(|photo| relative("", &photo.path));
    let picture = photo.or_else(|| drawn::last(worked).map(|path| relative("", &path)));
    if let (Some(base), Some(picture)) = (&base, picture) {
        data["image"] = json!(format!("{base}{picture}"));
    }
    data.to_string().replace('<', "\\u003c")
}
