//! One step as a reader sees it, on the scheme's page and on its own.

use serde::Serialize;

use super::drawn;
use super::film::{self, FilmView};
use super::mix_amounts::MixAmounts;
use super::other_ways;
use super::outlook::{self, OutlookView};
use super::surface::{self, SurfaceView};
use crate::guide::{Measured, Mix, MixRow, Prose, Scheme, Step, Thing};
use crate::page::Desk;
use crate::page::parts::address::{Address, relative, with_anchor};
use crate::page::parts::line::{LinkView, ProductView};
use crate::page::parts::picture::PictureView;
use crate::page::parts::prose::{self, Company, Setting, StepsHere};
use crate::quantity::StepNeed;
use crate::tell::facts::{self, StepFact};
use crate::work::WorkedScheme;

/// One step.
#[derive(Debug, Serialize)]
pub struct StepView {
    /// Its place in the order of work.
    pub number: usize,
    /// Its anchor on the scheme's page.
    pub anchor: String,
    /// Its own page.
    pub href: String,
    /// What it is called.
    pub title: String,
    /// Its stage; words below `stage`.
    pub stage: &'static str,
    /// All steps of that stage.
    pub stage_href: String,
    /// Its technique; words below `technique`.
    pub technique: &'static str,
    /// What there is to know of it, in the order in which it is shown.
    pub facts: Vec<StepFact>,
    /// The titles of its areas; empty where it is about all of them.
    pub areas: Vec<String>,
    /// How many coats.
    pub coats: u32,
    /// Seconds between coats, where there are several.
    pub wait: Option<u32>,
    /// Seconds before the next step on these areas, where there are any.
    pub dry: Option<u32>,
    /// Seconds of waiting until anything else can be done.
    pub waiting: u32,
    /// Hands-on seconds for one model.
    pub hands_on: u32,
    /// Whether every model is done in one go.
    pub together: bool,
    /// The mix.
    pub mix: MixView,
    /// What else is needed.
    pub tools: Vec<String>,
    /// The steps that the author wants before it.
    pub after: Vec<LinkView>,
    /// The sequence that it is one of, if it is.
    pub sequence: Option<LinkView>,
    /// Other ways of doing it, or the way that it takes the place of.
    pub other_ways: Vec<LinkView>,
    /// What to do first, as one line, finished: no theme changes it.
    pub to_do: String,
    /// The cautions in full, finished: no theme changes them. Empty on the scheme's page, where those of all steps stand
    /// once.
    pub cautions: String,
    /// The instruction, as HTML.
    pub body: String,
    /// The model after the step.
    pub photo: Option<PictureView>,
    /// More pictures of the step.
    pub photos: Vec<PictureView>,
    /// The model before the step.
    pub before: Option<PictureView>,
    /// The model after the step, drawn by the program.
    pub drawn: Option<PictureView>,
    /// Where in the video it is shown.
    pub video: Option<LinkView>,
    /// What changed, the newest first.
    pub changed: Vec<ChangeView>,
    /// Rules that it breaks on purpose.
    pub waivers: Vec<WaiverView>,
    /// The cut through the paint so far, if the step has an area.
    pub film: Option<FilmView>,
    /// The surface after the step; areas that look the same stand together.
    pub surfaces: Vec<SurfaceView>,
    /// What can be said of its colour.
    pub outlook: Option<OutlookView>,
}

/// What is in the cup.
#[derive(Debug, Serialize)]
pub struct MixView {
    /// Its lines.
    pub parts: Vec<PartView>,
    /// Whether it is a ratio: more than one product or pot.
    pub mixed: bool,
    /// Whether several products are used one beside or after the other.
    pub unmixed: bool,
    /// Whether the amounts are drops; otherwise they are parts.
    pub drops: bool,
    /// How much one needs, as far as it is known.
    pub amounts: Option<MixAmounts>,
}

/// One line of a mix.
#[derive(Debug, Serialize)]
pub struct PartView {
    /// How many parts or drops, as the author wrote it.
    pub amount: String,
    /// The product.
    pub product: ProductView,
}

/// A change of a step.
#[derive(Debug, Serialize)]
pub struct ChangeView {
    /// The day, as year, month and day.
    pub day: String,
    /// What changed.
    pub what: String,
}

/// A rule that a step breaks on purpose.
#[derive(Debug, Serialize)]
pub struct WaiverView {
    /// The rule's id.
    pub rule: String,
    /// Where it is explained.
    pub href: String,
    /// The author's reason.
    pub reason: String,
}

/// Where a step is shown.
#[derive(Debug, Clone, Copy)]
pub(in crate::page) struct Spot<'a> {
    /// The page.
    pub(in crate::page) path: &'a str,
    /// The level of the highest heading in its text.
    pub(in crate::page) level: usize,
    /// The steps on the page, where it shows the whole scheme.
    pub(in crate::page) whole_scheme: Option<&'a StepsHere<'a>>,
    /// For how many models the amounts are.
    pub(in crate::page) models: u32,
    /// What to do first, finished.
    pub(in crate::page) to_do: &'a str,
    /// The cautions in full, finished; empty where they are elsewhere on the page.
    pub(in crate::page) cautions: &'a str,
}

/// The step at a position of a scheme.
pub(in crate::page) fn step(desk: Desk<'_>, worked: &WorkedScheme, at: usize, spot: Spot<'_>) -> StepView {
    let scheme = &worked.scheme;
    let step = &scheme.steps[at];
    let path = spot.path;
    let thing = Thing::Step(scheme.slug.clone(), step.stem.clone());
    let times = worked.times.get(at).cloned().unwrap_or_default();
    StepView {
        number: step.number,
        anchor: step.stem.clone(),
        href: relative(path, &Address::of(&thing)),
        title: step.title.clone(),
        stage: step.stage.name(),
        stage_href: relative(path, &Address::stage(step.stage)),
        technique: step.technique.name(),
        facts: facts::in_short(worked, at, desk.words).collect(),
        areas: areas(scheme, step),
        coats: step.coats,
        wait: times.between.map(crate::measure::Time::as_seconds),
        dry: times.rests.first().map(|rest| rest.time.as_seconds()).filter(|seconds| *seconds > 0),
        waiting: times.idle.as_seconds(),
        hands_on: times.hands_on.as_seconds(),
        together: step.together,
        mix: mix(
            desk,
            (path, &scheme.slug),
            &step.mix,
            worked.needs.get(at).and_then(Option::as_ref).map(|need| (need, spot.models)),
        ),
        tools: step.tools.iter().map(|tool| facts::counted(tool, desk.words)).collect(),
        after: after(scheme, step, spot),
        sequence: step.via.as_ref().map(|via| LinkView::to(path, &Thing::Sequence(via.sequence.clone()), &via.title)),
        other_ways: other_ways::other_ways(desk, scheme, step, path),
        to_do: spot.to_do.to_owned(),
        cautions: spot.cautions.to_owned(),
        body: body(desk, step, spot),
        photo: PictureView::of(desk, path, step.photo.as_deref()),
        photos: step.photos.iter().filter_map(|photo| PictureView::of(desk, path, Some(photo))).collect(),
        before: PictureView::of(desk, path, step.before.as_deref()),
        drawn: drawn::after(desk, worked, path, at),
        video: video(scheme, step),
        changed: changes(step),
        waivers: waivers(path, step),
        film: film::film(desk, worked, at),
        surfaces: surface::surfaces(worked, at),
        outlook: outlook::outlook(desk.words, worked, at),
    }
}

fn areas(scheme: &Scheme, step: &Step) -> Vec<String> {
    if step.all_over {
        return Vec::new();
    }
    step.areas.iter().filter_map(|area| scheme.areas.get(*area)).map(|area| area.title.clone()).collect()
}

/// The mix of a scheme on the page at `path`, with what so many models need of it.
pub(in crate::page) fn mix(
    desk: Desk<'_>,
    (path, scheme): (&str, &str),
    mix: &Mix,
    need: Option<(&StepNeed, u32)>,
) -> MixView {
    let part = |line: MixRow<'_>| {
        let product = ProductView::of_line(desk, path, scheme, mix, &line)?;
        Some(PartView { amount: line.amount.to_string(), product })
    };
    MixView {
        parts: mix.lines().filter_map(part).collect(),
        mixed: mix.is_ratio(),
        unmixed: mix.is_beside() && mix.parts.len() > 1,
        drops: mix.measured == Measured::Drops,
        amounts: need.filter(|_| !mix.parts.is_empty()).map(|(need, models)| MixAmounts::of(mix, need, models)),
    }
}

fn after(scheme: &Scheme, step: &Step, spot: Spot<'_>) -> Vec<LinkView> {
    step.after.iter().filter_map(|at| scheme.steps.get(*at)).map(|earlier| link(scheme, earlier, spot)).collect()
}

/// The way to another step of the scheme.
fn link(scheme: &Scheme, step: &Step, spot: Spot<'_>) -> LinkView {
    if spot.whole_scheme.is_some() {
        return LinkView { title: step.title.clone(), href: with_anchor("", Some(&step.stem)) };
    }
    LinkView::to(spot.path, &Thing::Step(scheme.slug.clone(), step.stem.clone()), &step.title)
}

fn body(desk: Desk<'_>, step: &Step, spot: Spot<'_>) -> String {
    let company = spot.whole_scheme.map_or(Company::None, |steps| Company::OtherSteps(steps, &step.stem));
    prose::html(desk, &step.body, Setting { path: spot.path, level: spot.level, company })
}

/// The place in the scheme's video, as a media fragment (W3C Media Fragments 1.0).
fn video(scheme: &Scheme, step: &Step) -> Option<LinkView> {
    let (address, time) = (scheme.video.as_ref()?, step.video?);
    Some(LinkView { title: time.to_string(), href: format!("{}#t={}", address.0, time.0) })
}

fn changes(step: &Step) -> Vec<ChangeView> {
    step.changed.iter().map(|(day, what)| ChangeView { day: day.to_string(), what: what.clone() }).collect()
}

fn waivers(path: &str, step: &Step) -> Vec<WaiverView> {
    let waivers = step.waivers.iter();
    waivers
        .map(|waiver| WaiverView {
            rule: waiver.rule.clone(),
            href: with_anchor(&relative(path, "checks.html"), Some(&waiver.rule)),
            reason: waiver.reason.clone(),
        })
        .collect()
}

/// The beginning of an instruction, to the end of a word: the page itself has the rest.
pub(in crate::page) fn begun(body: &Prose) -> String {
    const LETTERS: usize = 100;
    let text = crate::page::site::search::plain(body).split_whitespace().collect::<Vec<_>>().join(" ");
    let Some((end, _)) = text.char_indices().nth(LETTERS) else { return text };
    let end = text[..end].rfind(char::is_whitespace).unwrap_or(end);
    format!("{}…", text[..end].trim_end())
}
