//! Versions of a scheme: its variants, other ways of doing a step, steps left out. Each becomes a scheme of its own, made
//! of the same files, so that all that is worked out about a scheme is worked out about each of them.

use std::collections::BTreeSet;

use super::file::{StepFile, UnitEntry};
use super::{Mention, SchemeSource, StepSource, checks};
use crate::report::{Finding, Level, Place, Placed, wording};

/// What sets a version of a scheme apart; nothing at all for the scheme as it is.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Version {
    /// The slug of the scheme.
    pub of: String,
    /// The variant.
    pub variant: Option<String>,
    /// The other ways that are taken, by the names of their steps.
    pub ways: Vec<String>,
    /// The optional steps that are left out, by their names.
    pub skip: Vec<String>,
    /// What these are called; all steps of a sequence go by its title.
    pub skip_titles: Vec<String>,
    /// Whether nothing is sprayed in it, while the scheme itself sprays.
    pub brush_only: bool,
}

impl Version {
    /// Whether it is the scheme as it is.
    pub fn is_base(&self) -> bool {
        self.variant.is_none() && self.ways.is_empty() && self.skip.is_empty()
    }

    /// Whether another has the same variant, ways and steps left out.
    pub fn is_same(&self, other: &Self) -> bool {
        (&self.of, &self.variant, &self.ways, &self.skip) == (&other.of, &other.variant, &other.ways, &other.skip)
    }
}

/// The most versions of a scheme.
const MOST: usize = 40;

/// The longest name that a version's parts make; a longer one is a number.
const LONGEST: usize = 80;

/// The scheme as it is, and its versions; `units` are those of all armies. What is wrong with their names is reported;
/// `stock` are the paints and pots that there are; none where not every step could be read.
pub(super) fn versions(
    whole: &SchemeSource,
    units: &[&UnitEntry],
    taken: &mut BTreeSet<String>,
    (stock, findings): (Option<&BTreeSet<String>>, &mut Vec<Finding>),
) -> Vec<SchemeSource> {
    let table = Table { whole };
    findings.extend(table.check());
    // A step that can't be read may name any paint.
    findings.extend(stock.into_iter().flat_map(|stock| table.idle_swaps(stock)));
    let own = |unit: &&&UnitEntry| unit.scheme.as_ref().is_some_and(|name| name.value.0 == whole.slug);
    let asked = units.iter().filter(own).filter_map(|unit| table.asked_by(unit));
    let asked: Vec<Version> = asked.collect();
    let mut wanted: Vec<Version> = Vec::new();
    let all = table.usual().into_iter().chain(asked.iter().cloned()).chain(table.shorter());
    for version in all.filter(|version| !version.is_base()) {
        if !wanted.iter().any(|known| known.is_same(&version)) {
            wanted.push(version);
        }
    }
    let looks = std::iter::once(None).chain(table.variants().map(Some));
    for brush in looks.filter_map(|variant| table.by_brush(variant)) {
        match wanted.iter_mut().find(|known| known.is_same(&brush)) {
            Some(known) => known.brush_only = true,
            None => wanted.push(brush),
        }
    }
    findings.extend(table.leave_out(&mut wanted, &asked));
    let mut all = vec![table.compose(Version { of: whole.slug.clone(), ..Version::default() }, whole.slug.clone())];
    for (at, version) in wanted.into_iter().enumerate() {
        let slug = free(table.slug(&version, at), taken);
        all.push(table.compose(version, slug));
    }
    all
}

/// A name that no scheme has yet.
fn free(wanted: String, taken: &mut BTreeSet<String>) -> String {
    let numbered = (2..).map(|number: u32| format!("{wanted}-{number}"));
    let name = std::iter::once(wanted.clone()).chain(numbered).find(|name| !taken.contains(name)).unwrap_or(wanted);
    taken.insert(name.clone());
    name
}

/// The unit's version of a scheme with all of its steps, as names of files; `None` where it names something else.
pub fn asked_by(steps: &[StepSource], unit: &UnitEntry, of: &str) -> Option<Version> {
    let files = |names: &Option<Placed<Vec<Placed<Mention>>>>| -> Option<Vec<String>> {
        let names = names.iter().flat_map(|names| &names.value);
        let mut found_files = Vec::new();
        for name in names {
            let found = named(steps, &name.value.0);
            if found.is_empty() {
                return None;
            }
            found_files.extend(found.into_iter().map(|at| steps[at].stem.clone()));
        }
        found_files.sort();
        found_files.dedup();
        Some(found_files)
    };
    Some(Version {
        of: of.to_owned(),
        variant: unit.variant.as_ref().map(|name| name.value.0.clone()),
        ways: files(&unit.ways)?,
        skip: files(&unit.skip)?,
        ..Version::default()
    })
}

/// The steps that a name means: one file, or all steps of the sequence that a file stands for.
pub fn named(steps: &[StepSource], name: &str) -> Vec<usize> {
    let is = |step: &StepSource| step.stem == name || step.by.as_ref().is_some_and(|by| by.stem == name);
    steps.iter().enumerate().filter(|(_, step)| is(step)).map(|(at, _)| at).collect()
}

/// A scheme with the steps of all its versions.
struct Table<'a> {
    whole: &'a SchemeSource,
}

impl Table<'_> {
    fn steps(&self) -> &[StepSource] {
        &self.whole.steps
    }

    fn variants(&self) -> impl Iterator<Item = &str> {
        let table = self.whole.scheme.front.variants.iter().flat_map(|table| &table.value.0);
        table.map(|(id, _)| id.value.0.as_str())
    }

    /// Every variant, every other way to each look by itself, and the scheme without all that may be left out.
    fn usual(&self) -> Vec<Version> {
        let none = || Version { of: self.whole.slug.clone(), ..Version::default() };
        let variants = self.variants().map(|id| Version { variant: Some(id.to_owned()), ..none() });
        let looks = std::iter::once(None).chain(self.variants().map(Some));
        let ways = looks.flat_map(|look| {
            let is_way = move |step: &&StepSource| step.document.front.other_way_for.is_some() && belongs(step, look);
            let of = self.whole.slug.clone();
            let variant = look.map(ToOwned::to_owned);
            self.steps().iter().filter(is_way).map(move |step| Version {
                of: of.clone(),
                variant: variant.clone(),
                ways: vec![step.stem.clone()],
                ..Version::default()
            })
        });
        variants.chain(ways).chain([Version { skip: self.optional(None), ..none() }]).collect()
    }

    /// Every variant without all that may be left out of it.
    fn shorter(&self) -> impl Iterator<Item = Version> {
        self.variants().map(|id| Version {
            of: self.whole.slug.clone(),
            variant: Some(id.to_owned()),
            skip: self.optional(Some(id)),
            ..Version::default()
        })
    }

    /// The steps that may be left out of a look, in the order in which those of a unit are, so that both are one version.
    fn optional(&self, look: Option<&str>) -> Vec<String> {
        let optional = self.steps().iter().filter(|step| is_optional(step) && belongs(step, look));
        let mut optional: Vec<String> = optional.map(|step| step.stem.clone()).collect();
        optional.sort();
        optional.dedup();
        optional
    }

    /// The scheme or a variant of it without a spray, where every step that sprays has another way.
    fn by_brush(&self, variant: Option<&str>) -> Option<Version> {
        let look =
            Version { of: self.whole.slug.clone(), variant: variant.map(ToOwned::to_owned), ..Version::default() };
        let usual = self.kept(&look);
        let sprays = |at: &usize| is_sprayed(&self.steps()[*at].document.front);
        let sprayed: Vec<usize> = usual.into_iter().filter(sprays).collect();
        let way = |at: &usize| {
            let is_way = |way: &&StepSource| {
                belongs(way, variant) && !is_sprayed(&way.document.front) && self.targets(way).contains(at)
            };
            self.steps().iter().find(is_way).map(|way| way.stem.clone())
        };
        let mut ways: Vec<String> = sprayed.iter().map(way).collect::<Option<_>>()?;
        ways.sort();
        ways.dedup();
        (!ways.is_empty()).then_some(Version { ways, brush_only: true, ..look })
    }

    fn asked_by(&self, unit: &UnitEntry) -> Option<Version> {
        let version = asked_by(self.steps(), unit, &self.whole.slug)?;
        let known = version.variant.as_deref().is_none_or(|variant| self.variants().any(|id| id == variant));
        known.then_some(version)
    }

    /// The steps whose work a step does by other means.
    fn targets(&self, step: &StepSource) -> Vec<usize> {
        let names = step.document.front.other_way_for.iter().flat_map(|names| &names.value);
        names.flat_map(|name| self.meant(step, &name.value.0)).collect()
    }

    /// The steps that a name in a step's file means; inside a sequence its own steps come first.
    fn meant(&self, step: &StepSource, name: &str) -> Vec<usize> {
        let here = step.by.as_ref().map(|by| format!("{}-{name}", by.stem));
        let inside = here.map(|name| named(self.steps(), &name)).unwrap_or_default();
        if inside.is_empty() { named(self.steps(), name) } else { inside }
    }

    /// The steps of a version.
    fn kept(&self, version: &Version) -> Vec<usize> {
        let ways: Vec<&StepSource> = self.steps().iter().filter(|step| version.ways.contains(&step.stem)).collect();
        let replaced: Vec<usize> = ways.iter().flat_map(|way| self.targets(way)).collect();
        let is_kept = |(at, step): &(usize, &StepSource)| {
            belongs(step, version.variant.as_deref())
                && !version.skip.contains(&step.stem)
                && !replaced.contains(at)
                && (step.document.front.other_way_for.is_none() || version.ways.contains(&step.stem))
        };
        self.steps().iter().enumerate().filter(is_kept).map(|(at, _)| at).collect()
    }

    fn compose(&self, mut version: Version, slug: String) -> SchemeSource {
        version.skip_titles = self.titles(&version.skip);
        let kept = self.kept(&version);
        let steps: Vec<StepSource> = kept.iter().map(|at| self.steps()[*at].clone()).collect();
        let left = self.steps().iter().enumerate().filter(|(at, _)| !kept.contains(at));
        let left_out = left.map(|(_, step)| step.stem.clone()).collect();
        SchemeSource { slug, steps, version, left_out, ..self.whole.clone() }
    }

    /// What some steps are called, each once: by the title of a sequence where all its steps are among them.
    fn titles(&self, stems: &[String]) -> Vec<String> {
        let mut titles: Vec<String> = Vec::new();
        let is_whole = |stem: &str| named(self.steps(), stem).iter().all(|at| stems.contains(&self.steps()[*at].stem));
        for step in self.steps().iter().filter(|step| stems.contains(&step.stem)) {
            let (title, stem) = match &step.by {
                Some(by) if is_whole(&by.stem) => (&by.of.front.title, &by.stem),
                _ => (&step.document.front.title, &step.stem),
            };
            let bare = stem.split_once('-').map_or(stem.as_str(), |(_, name)| name);
            let title = title.as_ref().map_or_else(|| bare.replace('-', " "), |title| title.value.clone());
            if !titles.contains(&title) {
                titles.push(title);
            }
        }
        titles
    }

    fn slug(&self, version: &Version, at: usize) -> String {
        let bare = |stem: &String| stem.split_once('-').map_or(stem.as_str(), |(_, name)| name).to_owned();
        let short = version.skip.len() > 1 && version.skip == self.optional(version.variant.as_deref());
        let skipped = if short {
            vec!["short".to_owned()]
        } else {
            version.skip.iter().map(|stem| format!("without-{}", bare(stem))).collect()
        };
        let parts = version.variant.iter().cloned().chain(version.ways.iter().map(bare)).chain(skipped);
        let name = parts.collect::<Vec<_>>().join("-");
        let name = if name.len() > LONGEST { format!("version-{}", at + 1) } else { name };
        format!("{}-{name}", self.whole.slug)
    }

    /// Leaves out the versions that are too many, first those that nobody named: what is left out of those that somebody
    /// did is an error.
    fn leave_out(&self, wanted: &mut Vec<Version>, asked: &[Version]) -> Option<Finding> {
        let all = wanted.len();
        if all <= MOST {
            return None;
        }
        let rank = |version: &Version| match version {
            Version { variant: Some(_), ways, skip, .. } if ways.is_empty() && skip.is_empty() => 0,
            _ if asked.iter().any(|one| one.is_same(version)) => 1,
            _ if version.brush_only => 2,
            _ => 3,
        };
        let mut ranks: Vec<(i32, usize)> = wanted.iter().map(rank).zip(0..).collect();
        ranks.sort_unstable();
        let is_named = |(rank, _): &(i32, usize)| *rank < 2;
        let named = ranks.iter().filter(|one| is_named(one)).count();
        let kept: BTreeSet<usize> = ranks.iter().take(MOST).map(|(_, at)| *at).collect();
        let mut at = 0..;
        wanted.retain(|_| at.next().is_some_and(|at| kept.contains(&at)));
        let name = wording::quoted(&self.whole.slug);
        let (level, message) = if named > MOST {
            let message = format!(
                "the scheme {name} has {named} variants and versions that armies ask for: only {MOST} are made"
            );
            (Level::Error, message)
        } else {
            let message =
                format!("of {all} variants and other ways of the scheme {name} {MOST} have pages of their own");
            (Level::Note, message)
        };
        let front = &self.whole.scheme.front;
        let place = front.variants.as_ref().map_or_else(|| Place::top_of(self.whole.scheme.file), |table| table.place);
        let mend = "make several schemes of it";
        Some(Finding::new(&checks::SCHEME_SIZE, place, message, mend).at(level))
    }

    /// Names of variants and steps that there are not.
    fn check(&self) -> Vec<Finding> {
        let mut findings = Vec::new();
        let variants: Vec<&str> = self.variants().collect();
        for name in self.steps().iter().flat_map(limits).filter(|name| !variants.contains(&name.value.0.as_str())) {
            let message = format!("this scheme has no variant {}", wording::quoted(&name.value.0));
            let mend = wording::did_you_mean(&name.value.0, "a variant", &variants);
            findings.push(Finding::new(&checks::UNKNOWN_VARIANT, name.place, message, mend));
        }
        let stems: Vec<&str> = self.steps().iter().map(|step| step.stem.as_str()).collect();
        for (at, step) in self.steps().iter().enumerate() {
            for name in step.document.front.other_way_for.iter().flat_map(|names| &names.value) {
                let targets = self.meant(step, &name.value.0);
                if targets.is_empty() {
                    let message = format!("this scheme has no step {}", wording::quoted(&name.value.0));
                    let mend = wording::did_you_mean(&name.value.0, "a step", &stems);
                    findings.push(Finding::new(&checks::OTHER_WAY, name.place, message, mend));
                } else if targets.iter().any(|target| *target >= at) {
                    let message = "another way stands behind the step whose work it does";
                    let mend = "give this file the next number behind that step";
                    findings.push(Finding::new(&checks::OTHER_WAY, name.place, message, mend));
                }
            }
        }
        findings
    }

    /// What is in place of a paint that no step uses. What a pot of the guide holds is not looked into. Where a step has
    /// nearly that name and there is no such paint, the slip is the step's and told there.
    fn idle_swaps(&self, stock: &BTreeSet<String>) -> Vec<Finding> {
        let front = &self.whole.scheme.front;
        let in_pots = front.pots.iter().flat_map(|pots| &pots.value.0).filter_map(|(_, pot)| pot.paints.as_ref());
        let in_steps = self.steps().iter().filter_map(|step| step.document.front.paints.as_ref());
        let lines = in_pots.chain(in_steps).flat_map(|lines| &lines.value);
        let blended = self.steps().iter().flat_map(|step| &step.document.front.blend).flat_map(|names| &names.value);
        let lines = lines.filter_map(|line| line.paint.as_ref()).map(|name| name.value.0.as_str());
        let named: BTreeSet<&str> = lines.chain(blended.map(|name| name.value.0.as_str())).collect();
        let swapped_in = self.steps().iter().filter_map(|step| step.by.as_ref()?.document.front.instead.as_ref());
        let swapped: BTreeSet<&str> =
            swapped_in.flat_map(|table| &table.value.0).map(|(_, other)| other.value.0.as_str()).collect();
        let variants = front.variants.iter().flat_map(|table| &table.value.0);
        let of_variants = variants.filter_map(|(_, variant)| variant.instead.as_ref());
        let of_uses = self
            .steps()
            .iter()
            .filter_map(|step| step.by.as_ref().filter(|by| by.first)?.document.front.instead.as_ref());
        let keys = of_variants.chain(of_uses).flat_map(|table| &table.value.0).map(|(id, _)| id);
        let own_pot = |name: &str| front.pots.iter().flat_map(|pots| &pots.value.0).any(|(id, _)| id.value.0 == name);
        let slipped = |id: &str| {
            let near = wording::nearest(id, named.iter().copied());
            near.is_some_and(|near| !stock.contains(near) && !own_pot(near))
        };
        keys.filter(|id| !named.contains(id.value.0.as_str()) && !swapped.contains(id.value.0.as_str()))
            .filter(|id| !slipped(&id.value.0))
            .map(|id| {
                let message = format!("no step names {}, so nothing stands in its place", wording::quoted(&id.value.0));
                let known: Vec<&str> = named.iter().copied().collect();
                let mend = wording::did_you_mean(&id.value.0, "a paint that a step names", &known);
                Finding::new(&checks::INSTEAD_UNUSED, id.place, message, mend)
            })
            .collect()
    }
}

/// The variants that a step names, its own and those of the file that stands for its sequence.
fn limits(step: &StepSource) -> impl Iterator<Item = &Placed<Mention>> {
    let (own, by) = (&step.document.front, step.by.as_ref().map(|by| &by.document.front));
    let of_use = by.into_iter().flat_map(|by| [&by.only_for, &by.not_for]);
    [&own.only_for, &own.not_for].into_iter().chain(of_use).flatten().flat_map(|names| &names.value)
}

/// Whether a variant has a step; without one, the scheme as it is.
fn belongs(step: &StepSource, variant: Option<&str>) -> bool {
    let (own, by) = (&step.document.front, step.by.as_ref().map(|by| &by.document.front));
    let names = |list: &Option<Placed<Vec<Placed<Mention>>>>| {
        list.as_ref().is_some_and(|names| names.value.iter().any(|name| Some(name.value.0.as_str()) == variant))
    };
    let only = [Some(&own.only_for), by.map(|by| &by.only_for)];
    let not = [Some(&own.not_for), by.map(|by| &by.not_for)];
    only.into_iter().flatten().all(|list| list.is_none() || names(list)) && !not.into_iter().flatten().any(names)
}

fn is_optional(step: &StepSource) -> bool {
    step.document.front.optional.is_some() || step.by.as_ref().is_some_and(|by| by.document.front.optional.is_some())
}

fn is_sprayed(front: &StepFile) -> bool {
    front.with.as_ref().is_some_and(|with| with.value.sprays())
}

/// Where a version is told of: its variant, or else the first step that sets it apart.
pub fn place_of(scheme: &SchemeSource) -> Place {
    let variants = scheme.scheme.front.variants.iter().flat_map(|table| &table.value.0);
    let variant = scheme.version.variant.as_ref();
    let of_variant = variants.filter(|(id, _)| Some(&id.value.0) == variant).map(|(id, _)| id.place).next();
    let way = scheme.steps.iter().find(|step| scheme.version.ways.contains(&step.stem));
    let of_way = way.map(|step| Place::top_of(step.document.file));
    of_variant.or(of_way).unwrap_or(Place::top_of(scheme.scheme.file))
}
