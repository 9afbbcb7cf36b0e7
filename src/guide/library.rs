//! Everything in a guide that can be named, so that a name can be looked up or its nearest relative be found.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::{Arc, OnceLock};

use super::anchors::Anchors;
use super::asked::Lookups;
use super::{Paint, Pot, Thing, Tool, markdown};
use crate::door::is_device;
use crate::measure::hyphenated;
use crate::report::FileId;
use crate::source::{SchemeSource, Source, StepSource};
use crate::trade::Stage;

/// What the files of a guide are looked up in.
///
/// Whatever is resolved reads names from [`Names`], and the insides of a paint, a tool or a text only through
/// [`Self::paint`], [`Self::tool`] and [`Self::anchors`], which note what was asked: that is how a run knows what a
/// change touches.
#[derive(Debug)]
pub(crate) struct Library {
    /// All names.
    pub(crate) names: Arc<Names>,
    paints: BTreeMap<String, Arc<Paint>>,
    /// The paints by their names as ids, worked out when the first is asked for.
    called: OnceLock<BTreeMap<String, Arc<Paint>>>,
    tools: BTreeMap<String, Arc<Tool>>,
    pots: BTreeMap<String, Arc<Pot>>,
    anchors: BTreeMap<String, Arc<Anchors>>,
}

/// All names of a guide, without the things themselves.
#[derive(Debug, Default, PartialEq, Eq)]
pub(crate) struct Names {
    /// The ids of the paints.
    pub(crate) paints: BTreeSet<String>,
    /// The ids of the listed tools.
    pub(crate) tools: BTreeSet<String>,
    /// The slugs of the schemes.
    pub(crate) schemes: BTreeSet<String>,
    /// The slugs of the sequences.
    pub(crate) sequences: BTreeSet<String>,
    /// The slugs of the free pages.
    pub(crate) pages: BTreeSet<String>,
    /// The slugs of the armies.
    pub(crate) armies: BTreeSet<String>,
    /// What each Markdown or YAML file of the content folder is, by its path from there.
    pub(crate) files: BTreeMap<String, Thing>,
    /// The schemes, each with its versions, by their slugs.
    pub(crate) by_slug: BTreeMap<String, SchemeNames>,
    /// The stages that steps have.
    pub(crate) stages: BTreeSet<Stage>,
    /// Whether no other step may have another one: all could be read.
    pub(crate) all_stages: bool,
    /// The slugs of all tags.
    pub(crate) tags: BTreeSet<String>,
    /// The words that were first written for each of them.
    pub(crate) tag_words: BTreeMap<String, String>,
    /// The other files of the content folder.
    pub(crate) others: BTreeSet<String>,
    /// Files of which nothing could be read; whatever they hold may well exist.
    pub(crate) unread: BTreeSet<String>,
    /// Whether HTML inside Markdown passes: its links are looked up then.
    pub(crate) raw_html: bool,
    /// The language of the guide.
    pub(crate) language: String,
}

/// What is named in a scheme, or in a version of one.
#[derive(Debug, PartialEq, Eq)]
pub(crate) struct SchemeNames {
    /// The path of its own file from the content folder.
    pub(crate) file: String,
    /// The names of its steps, sorted.
    steps: Box<[Box<str>]>,
}

impl SchemeNames {
    /// Whether it has a step of a name.
    pub(crate) fn has_step(&self, name: &str) -> bool {
        self.steps.binary_search_by(|step| step.as_ref().cmp(name)).is_ok()
    }
}

impl Library {
    /// A library of these names, with the things behind those of paints, tools and the files of texts.
    pub(crate) fn new(
        names: Arc<Names>,
        paints: &[Arc<Paint>],
        tools: &[Arc<Tool>],
        anchors: BTreeMap<String, Arc<Anchors>>,
    ) -> Self {
        Self {
            names,
            paints: paints.iter().map(|paint| (paint.id.clone(), Arc::clone(paint))).collect(),
            called: OnceLock::new(),
            tools: tools.iter().map(|tool| (tool.id.clone(), Arc::clone(tool))).collect(),
            pots: BTreeMap::new(),
            anchors,
        }
    }

    /// Puts the pots of the guide in; what they are mixed of is looked up here.
    pub(crate) fn put_pots(&mut self, pots: &[Arc<Pot>]) {
        self.pots = pots.iter().map(|pot| (pot.id.clone(), Arc::clone(pot))).collect();
    }

    /// The guide's pot of an id; that it was asked for is noted.
    pub(crate) fn pot(&self, id: &str, asked: &mut Lookups) -> Option<&Arc<Pot>> {
        let found = self.pots.get(id);
        asked.pots.entry(id.to_owned()).or_insert_with(|| found.cloned());
        found
    }

    /// The ids of the guide's pots.
    pub(crate) fn pot_ids(&self) -> impl Iterator<Item = &str> {
        self.pots.keys().map(String::as_str)
    }

    /// The paint of an id; that it was asked for is noted.
    pub(crate) fn paint(&self, id: &str, asked: &mut Lookups) -> Option<&Arc<Paint>> {
        let found = self.paints.get(id);
        asked.paints.entry(id.to_owned()).or_insert_with(|| found.cloned());
        found
    }

    /// The first paint whose name is this one, as ids are written; that it was asked for is noted.
    pub(crate) fn paint_called(&self, name: &str, asked: &mut Lookups) -> Option<&Arc<Paint>> {
        let name = hyphenated(name);
        let found = self.called().get(&name);
        asked.called.entry(name).or_insert_with(|| found.cloned());
        found
    }

    fn called(&self) -> &BTreeMap<String, Arc<Paint>> {
        let by_name = || self.paints.values().rev().map(|paint| (hyphenated(&paint.name), Arc::clone(paint))).collect();
        self.called.get_or_init(by_name)
    }

    /// The listed tool of an id; that it was asked for is noted.
    pub(crate) fn tool(&self, id: &str, asked: &mut Lookups) -> Option<&Arc<Tool>> {
        let found = self.tools.get(id);
        asked.tools.entry(id.to_owned()).or_insert_with(|| found.cloned());
        found
    }

    /// The anchors of the text in a file, by its path from the content folder; that they were asked for is noted.
    pub(crate) fn anchors(&self, path: &str, asked: &mut Lookups) -> Option<&BTreeSet<String>> {
        let found = self.anchors.get(path);
        asked.anchors.entry(path.to_owned()).or_insert_with(|| found.cloned());
        found.map(|anchors| anchors.all())
    }

    /// Whether all that was asked would be answered with the same things now.
    pub(crate) fn still_answers(&self, asked: &Lookups) -> bool {
        fn same<T>(all: &BTreeMap<String, Arc<T>>, asked: &BTreeMap<String, Option<Arc<T>>>) -> bool {
            asked.iter().all(|(id, answer)| match (all.get(id), answer) {
                (Some(now), Some(then)) => Arc::ptr_eq(now, then),
                (None, None) => true,
                _ => false,
            })
        }
        same(&self.paints, &asked.paints)
            && (asked.called.is_empty() || same(self.called(), &asked.called))
            && same(&self.tools, &asked.tools)
            && same(&self.pots, &asked.pots)
            && asked.anchors.iter().all(|(path, then)| self.anchors.get(path) == then.as_ref())
    }
}

impl Names {
    /// The names of all files. Paints and tools are added when they are resolved.
    pub(crate) fn of(source: &Source) -> Self {
        let raw_html = source.guide.as_ref().and_then(|guide| guide.raw_html.as_ref()).is_some_and(|flag| flag.value.0);
        let language = source.guide.as_ref().and_then(|guide| guide.language.as_ref());
        let language = language.map_or_else(|| "en".to_owned(), |language| language.value.0.clone());
        let (others, unread) = (source.others.clone(), source.unread.clone());
        let all_stages = source.has_all_schemes()
            && source.schemes.iter().flat_map(|scheme| &scheme.steps).all(|step| stage_of(step).is_some());
        let mut names = Self { all_stages, others, unread, raw_html, language, ..Self::default() };
        // A file that several versions have leads to the scheme as it is.
        let (base, versions): (Vec<&SchemeSource>, Vec<&SchemeSource>) =
            source.schemes.iter().partition(|scheme| scheme.version.is_base());
        for scheme in base.into_iter().chain(versions) {
            names.schemes.insert(scheme.slug.clone());
            names.by_slug.insert(scheme.slug.clone(), names_in(source, scheme));
            if scheme.version.is_base() {
                names.stages.extend(scheme.steps.iter().filter_map(stage_of));
            }
            let document = &scheme.scheme;
            names.add(source, document.file, Thing::Scheme(scheme.slug.clone()));
            for step in &scheme.steps {
                let thing = Thing::Step(scheme.slug.clone(), step.stem.clone());
                match &step.by {
                    None => names.add(source, step.document.file, thing),
                    Some(by) if by.first => names.add(source, by.document.file, thing),
                    Some(_) => {}
                }
            }
            let tags = scheme.scheme.front.tags.iter().flat_map(|tags| &tags.value);
            for tag in tags {
                names.tags.insert(tag_slug(tag));
                names.tag_words.entry(tag_slug(tag)).or_insert_with(|| tag.clone());
            }
        }
        for sequence in &source.sequences {
            names.sequences.insert(sequence.slug.clone());
            for file in sequence.steps.iter().map(|step| step.document.file).chain([sequence.document.file]) {
                names.add(source, file, Thing::Sequence(sequence.slug.clone()));
            }
        }
        for page in &source.pages {
            names.pages.insert(page.slug.clone());
            names.add(source, page.file, Thing::Page(page.slug.clone()));
        }
        for army in &source.armies {
            names.armies.insert(army.slug.clone());
            names.add(source, army.file, Thing::Army(army.slug.clone()));
        }
        names
    }

    /// What is named in a scheme, or in a version of one, by its slug.
    pub(crate) fn of_scheme(&self, slug: &str) -> Option<&SchemeNames> {
        self.by_slug.get(slug)
    }

    /// Whether a file that could not be read stands at a path, or anywhere below a folder.
    pub(crate) fn is_unread(&self, path: &str) -> bool {
        let inside = format!("{path}/");
        self.unread.contains(path)
            || self.unread.range(inside.clone()..).next().is_some_and(|unread| unread.starts_with(&inside))
    }

    /// The path of the file that a path means: that file, or where a step was given another number, the one step of
    /// its scheme with the same name behind the number.
    pub(crate) fn known_path<'a>(&'a self, path: &'a str) -> Option<&'a str> {
        if self.files.contains_key(path) {
            return Some(path);
        }
        let (folder, name) = path.rsplit_once('/').filter(|(folder, _)| folder.starts_with("schemes/"))?;
        let wanted = behind_number(name)?;
        let same = |known: &&String| {
            known.rsplit_once('/').is_some_and(|(other, name)| other == folder && behind_number(name) == Some(wanted))
        };
        let inside = format!("{folder}/");
        let from = self.files.range(inside.clone()..).map(|(known, _)| known);
        let mut found = from.take_while(|known| known.starts_with(&inside)).filter(same);
        found.next().filter(|_| found.next().is_none()).map(String::as_str)
    }

    fn add(&mut self, source: &Source, file: FileId, thing: Thing) {
        self.files.entry(path_in_content(source.files.path(file))).or_insert(thing);
    }
}

fn names_in(source: &Source, scheme: &SchemeSource) -> SchemeNames {
    let mut steps: Box<[Box<str>]> = scheme.steps.iter().map(|step| step.stem.as_str().into()).collect();
    steps.sort_unstable();
    SchemeNames { file: path_in_content(source.files.path(scheme.scheme.file)), steps }
}

fn stage_of(step: &StepSource) -> Option<Stage> {
    step.document.front.stage.as_ref().map(|stage| stage.value)
}

/// The name of a step behind its number: `pale-gold` of `30-pale-gold`.
pub(crate) fn behind_number(name: &str) -> Option<&str> {
    name.split_once('-')
        .filter(|(number, _)| !number.is_empty() && number.bytes().all(|byte| byte.is_ascii_digit()))
        .map(|(_, rest)| rest)
}

/// A path from the content folder, from one of the guide's folder.
pub(crate) fn path_in_content(path: &str) -> String {
    path.strip_prefix("content/").unwrap_or(path).to_owned()
}

/// The most letters of a tag that its address has.
const LONGEST_TAG: usize = 60;

/// A sign by which two tags may differ, as a word for their addresses; any other letter as it is.
fn spelt(letter: char) -> String {
    match letter {
        '+' => "-plus".to_owned(),
        '#' => "-sharp".to_owned(),
        '%' => "-percent".to_owned(),
        letter => letter.to_string(),
    }
}

/// The name of a tag's page: its words, not too long for a file's name, and never that of the list of all tags or of a device.
pub(crate) fn tag_slug(name: &str) -> String {
    // `C`, `C++` and `C#` are three tags.
    let spelt: String = name.chars().map(spelt).collect();
    let slug: String = markdown::slug(&spelt).chars().take(LONGEST_TAG).collect();
    if slug == "index" || is_device(&slug) { format!("tag-{slug}") } else { slug }
}
