//! The walk through the content folder: each file is read once, in parallel, and put where it belongs.

use std::collections::{BTreeMap, BTreeSet};
use std::io;
use std::sync::Arc;

use rayon::prelude::*;

use super::expand::{Sequences, StepContent, StepFound};
use super::file::{SchemeFile, SequenceFile, UnitEntry};
use super::kept::{KeptFile, KeptSource, Load};
use super::layout::{CONTENT, Part};
use super::parsed::{Content, Parsed};
use super::size::check_size;
use super::strays::Strays;
use super::text_file::{locked, refused, twin};
use super::versions::{Version, versions};
use super::{Document, Id, Named, SchemeSource, SequenceSource, Source, StepSource, checks};
use crate::door::Door;
use crate::measure::FromText;
use crate::report::{FileId, Files, Finding, Place, Placed, wording};

/// Reads a guide through the door.
///
/// # Errors
/// When the content folder itself can't be listed; everything else is a finding.
pub fn read(door: &dyn Door) -> io::Result<Source> {
    read_again(door, &mut KeptSource::default())
}

/// Reads a guide that may have been read before: a file whose bytes are the same is not parsed again.
///
/// # Errors
/// When the content folder itself can't be listed; everything else is a finding.
pub fn read_again(door: &dyn Door, kept: &mut KeptSource) -> io::Result<Source> {
    let listing = door.list(CONTENT)?;
    let mut source = Source { files: std::mem::take(&mut kept.files), ..Source::default() };
    for (path, why) in listing.refused {
        let file = source.files.add(path.as_str(), "");
        let taken = listing.twins.get(&path);
        // What is in a folder that can't be listed may well be there, and is not missed.
        if let Some(why) = why.strip_prefix("it can't be read: ") {
            source.unread.insert(path.trim_start_matches("content/").to_owned());
            if why == io::ErrorKind::PermissionDenied.to_string() {
                source.findings.push(locked(file, why));
                continue;
            }
        }
        source.findings.push(taken.map_or_else(|| refused(file, &why), |taken| twin(file, &path, taken)));
    }
    let mut parts = Vec::new();
    for entry in listing.files {
        let path = entry.path.strip_prefix("content/").unwrap_or(&entry.path);
        let part = Part::of(path);
        if matches!(part, Part::Other) {
            source.others.insert(path.to_owned());
        } else {
            parts.push((entry.path, part));
        }
    }
    let loaded: Vec<(String, Part, Load)> = parts
        .into_par_iter()
        .map(|(path, part)| {
            let load = kept.load(door, &path, &part);
            (path, part, load)
        })
        .collect();
    let parsed = parse(&mut source.files, loaded, kept);
    source.letters = kept.letters();
    gather(&mut source, parsed);
    kept.files = source.files.clone();
    Ok(source)
}

/// A file, what part of the guide it is, and what is in it.
type Found = (FileId, Part, Arc<Parsed>);

/// Parses what is new, in parallel, and keeps all for the next time.
fn parse(files: &mut Files, loaded: Vec<(String, Part, Load)>, kept: &mut KeptSource) -> Vec<Found> {
    let mut named = Vec::with_capacity(loaded.len());
    for (path, part, load) in loaded {
        let file = match &load {
            Load::Same(known) => known.file,
            Load::New(text, _) => files.add(path.as_str(), Arc::clone(&text.text)),
        };
        named.push((path, file, part, load));
    }
    let parsed: Vec<(String, Part, KeptFile)> = named
        .into_par_iter()
        .map(|(path, file, part, load)| {
            let known = match load {
                Load::Same(known) => known,
                Load::New(text, stamp) => {
                    let parsed = match &text.problem {
                        Some(problem) if part.is_read() => Parsed::nothing(problem.finding(file)),
                        _ => Parsed::of(&text.text, file, &part),
                    };
                    KeptFile { stamp, file, text, parsed: Arc::new(parsed) }
                }
            };
            (path, part, known)
        })
        .collect();
    let found = parsed.iter().map(|(_, part, known)| (known.file, part.clone(), Arc::clone(&known.parsed))).collect();
    kept.keep(parsed.into_iter().map(|(path, _, known)| (path, known)));
    found
}

/// A scheme while its files arrive.
#[derive(Default)]
struct SchemeParts {
    scheme: Option<Arc<Document<SchemeFile>>>,
    broken: bool,
    steps: Vec<StepFound>,
    first_file: Option<FileId>,
}

/// A sequence while its files arrive.
#[derive(Default)]
struct SequenceParts {
    document: Option<Arc<Document<SequenceFile>>>,
    broken: bool,
    steps: Vec<StepSource>,
    first_file: Option<FileId>,
}

fn gather(source: &mut Source, found: Vec<Found>) {
    let mut schemes: BTreeMap<String, SchemeParts> = BTreeMap::new();
    let mut sequences: BTreeMap<String, SequenceParts> = BTreeMap::new();
    let mut guide_seen = false;
    let mut strays = Strays::default();
    for (file, part, parsed) in found {
        source.findings.extend(parsed.findings.iter().cloned());
        if let (Part::Stray(stray), Content::Strayed(held)) = (&part, &parsed.content) {
            strays.add(file, stray, held);
            continue;
        }
        strays.read.push(file);
        guide_seen |= part == Part::Guide;
        let nothing = matches!(parsed.content, Content::Nothing);
        if nothing {
            source.unread.insert(source.files.path(file).trim_start_matches("content/").to_owned());
        }
        if let Part::Misnamed(folder, slug, name) = &part {
            // It is there, under another name: nothing that it holds is missing.
            source.unread.insert(format!("{folder}/{slug}/{name}"));
        }
        note_scheme(&mut schemes, &part, file, nothing);
        note_sequence(&mut sequences, &part, file, nothing);
        put(source, (&mut schemes, &mut sequences), file, (parsed.content.clone(), part));
    }
    for (file, path) in strays.tell(source) {
        let part = Part::of(&path);
        guide_seen |= part == Part::Guide;
        note_scheme(&mut schemes, &part, file, true);
        note_sequence(&mut sequences, &part, file, true);
        source.unread.insert(path);
    }
    if !guide_seen {
        source.unread.insert("guide.yaml".to_owned());
        source.guide_file = source.files.add("content/guide.yaml", "");
        source.findings.push(no_file(
            source.guide_file,
            "this guide has no guide.yaml",
            "add the file; it needs 'title: …' and 'author: …'",
        ));
    }
    let mut sequences = finish_sequences(source, sequences);
    for (slug, parts) in schemes {
        finish_scheme(source, slug, parts, &mut sequences);
    }
    take_apart(source);
    let told = sequences.check(&source.findings);
    source.findings.extend(told);
    source.sequences = sequences.known.into_values().collect();
    check_names(source);
    check_size(source);
}

/// Puts what is in a file where it belongs.
fn put(
    source: &mut Source,
    (schemes, sequences): (&mut BTreeMap<String, SchemeParts>, &mut BTreeMap<String, SequenceParts>),
    file: FileId,
    (content, part): (Content, Part),
) {
    match (content, part) {
        (Content::Guide(guide), _) => {
            source.guide = Some(guide);
            source.guide_file = file;
        }
        (Content::Tools(tools), _) => {
            mark(&mut source.files, file, tools.tools.iter().flat_map(|tools| &tools.value.0).map(|(id, _)| id));
            source.tools = Some(tools);
        }
        (Content::Paints(range), _) => {
            let paints = range.paints.iter().flat_map(|paints| &paints.value.0);
            mark(&mut source.files, file, paints.map(|(id, _)| id));
            source.paints.push(range);
        }
        (Content::Army(record), Part::Army(slug)) => source.armies.push(Named { slug, file, record }),
        (Content::Page(record), Part::Page(slug)) => source.pages.push(Named { slug, file, record }),
        (Content::Scheme(document), Part::Scheme(slug)) => {
            schemes.entry(slug).or_default().scheme = Some(document);
        }
        (Content::Step(document), Part::Step(slug, stem)) => {
            schemes.entry(slug).or_default().steps.push((stem, StepContent::Own(document)));
        }
        (Content::Use(document), Part::Step(slug, stem)) => {
            schemes.entry(slug).or_default().steps.push((stem, StepContent::Use(document)));
        }
        (Content::Sequence(document), Part::Sequence(slug)) => {
            sequences.entry(slug).or_default().document = Some(document);
        }
        (Content::Step(document), Part::SequenceStep(slug, stem)) => {
            sequences.entry(slug).or_default().steps.push(StepSource { stem, document, by: None });
        }
        _ => {}
    }
}

/// Marks the ids of a file, so that what was worked out with one of them still finds it when lines before it change.
fn mark<'a>(files: &mut Files, file: FileId, ids: impl Iterator<Item = &'a Placed<Id>>) {
    for id in ids {
        let name = super::mark_name(files.path(file), &id.value);
        files.mark(&name, id.place);
    }
}

fn note_scheme(schemes: &mut BTreeMap<String, SchemeParts>, part: &Part, file: FileId, unread: bool) {
    if let Part::Scheme(slug) | Part::Step(slug, _) | Part::Misnamed("schemes", slug, _) = part {
        let parts = schemes.entry(slug.clone()).or_default();
        parts.first_file.get_or_insert(file);
        parts.broken |= unread && matches!(part, Part::Scheme(_) | Part::Misnamed(..));
    }
}

fn no_file(file: FileId, message: &str, mend: &str) -> Finding {
    Finding::new(&checks::FOLDER, Place::top_of(file), message, mend)
}

/// Every scheme becomes the scheme as it is and its versions, all of them in the order of their slugs.
fn take_apart(source: &mut Source) {
    let units = source.armies.iter().filter_map(|army| army.record.units.as_ref());
    let units: Vec<&UnitEntry> = units.flat_map(|units| units.value.iter().map(|unit| &unit.value)).collect();
    let mut taken: BTreeSet<String> = source.schemes.iter().map(|scheme| scheme.slug.clone()).collect();
    let mut findings = Vec::new();
    let is_unread = |folder: &str| source.unread.iter().any(|path| path.starts_with(folder));
    let is_read = |scheme: &SchemeSource| {
        !is_unread(&format!("schemes/{}/", scheme.slug)) && (scheme.uses.is_empty() || !is_unread("sequences/"))
    };
    let stock = stock(source);
    let apart = source.schemes.iter();
    let apart = apart
        .flat_map(|scheme| versions(scheme, &units, &mut taken, (is_read(scheme).then_some(&stock), &mut findings)));
    let apart = apart.collect();
    source.schemes = apart;
    source.schemes.sort_by(|one, other| one.slug.cmp(&other.slug));
    source.findings.extend(findings);
}

/// The ids of all paints, and of the pots that stand ready for every scheme.
fn stock(source: &Source) -> BTreeSet<String> {
    let paints = source.paints.iter().filter_map(|range| range.paints.as_ref());
    let paints = paints.flat_map(|paints| &paints.value.0).map(|(id, _)| id);
    let pots = source.guide.iter().flat_map(|guide| &guide.pots).flat_map(|pots| &pots.value.0).map(|(id, _)| id);
    paints.chain(pots).map(|id| id.value.0.clone()).collect()
}

fn note_sequence(sequences: &mut BTreeMap<String, SequenceParts>, part: &Part, file: FileId, unread: bool) {
    if let Part::Sequence(slug) | Part::SequenceStep(slug, _) | Part::Misnamed("sequences", slug, _) = part {
        let parts = sequences.entry(slug.clone()).or_default();
        parts.first_file.get_or_insert(file);
        parts.broken |= unread && matches!(part, Part::Sequence(_) | Part::Misnamed(..));
    }
}

/// The sequences, their steps in the order of their numbers.
fn finish_sequences(source: &mut Source, parts: BTreeMap<String, SequenceParts>) -> Sequences {
    let mut sequences = Sequences::default();
    for (slug, SequenceParts { document, broken, mut steps, first_file }) in parts {
        steps.sort_by(|a, b| (step_number(&a.stem), &a.stem).cmp(&(step_number(&b.stem), &b.stem)));
        let names: Vec<(&str, FileId)> = steps.iter().map(|step| (step.stem.as_str(), step.document.file)).collect();
        check_step_names(&names, &mut source.findings);
        match document {
            Some(document) => {
                sequences.known.insert(slug.clone(), SequenceSource { slug, document, steps });
                continue;
            }
            None if broken => {}
            None => {
                let message = format!("the sequence {} has steps and no sequence.md", wording::quoted(&slug));
                let mend = "add sequence.md to its folder; it needs 'title: …'";
                source.findings.push(no_file(first_file.unwrap_or(source.guide_file), &message, mend));
            }
        }
        source.unread.insert(format!("sequences/{slug}/sequence.md"));
        sequences.unread.insert(slug);
    }
    sequences
}

fn finish_scheme(source: &mut Source, slug: String, parts: SchemeParts, sequences: &mut Sequences) {
    let SchemeParts { scheme, broken, steps: mut found, first_file } = parts;
    found.sort_by(|(a, _), (b, _)| (step_number(a), a).cmp(&(step_number(b), b)));
    let file_of = |content: &StepContent| match content {
        StepContent::Own(document) => document.file,
        StepContent::Use(document) => document.file,
    };
    let names: Vec<(&str, FileId)> = found.iter().map(|(stem, content)| (stem.as_str(), file_of(content))).collect();
    check_step_names(&names, &mut source.findings);
    let is_use = |content: &StepContent| matches!(content, StepContent::Use(_));
    let uses = found.iter().filter(|(_, content)| is_use(content)).map(|(_, content)| file_of(content)).collect();
    let mut steps = sequences.expand(found, &mut source.findings);
    leave_out(source, &slug, &mut steps);
    let too_many = scheme.as_ref().and_then(|scheme| too_many_areas(scheme));
    match scheme {
        Some(scheme) if too_many.is_none() => {
            source.schemes.push(SchemeSource {
                slug,
                scheme,
                steps,
                uses,
                version: Version::default(),
                left_out: Vec::new(),
            });
            return;
        }
        Some(_) => source.findings.extend(too_many),
        None if broken => {}
        None => {
            let file = first_file.unwrap_or(source.guide_file);
            let message = format!("the scheme {} has steps and no scheme.md", wording::quoted(&slug));
            source.findings.push(no_file(
                file,
                &message,
                "add scheme.md to its folder; it needs 'title: …' and 'areas: …'",
            ));
        }
    }
    source.unread.insert(format!("schemes/{slug}/scheme.md"));
    source.unread.extend(steps.iter().map(|step| format!("schemes/{slug}/{}.md", step.stem)));
}

/// The most steps of a scheme, and the most areas.
const MOST: usize = 200;

/// Leaves out the steps that are too many.
fn leave_out(source: &mut Source, slug: &str, steps: &mut Vec<StepSource>) {
    let Some(first) = steps.get(MOST) else { return };
    let message =
        format!("the scheme {} has more than {MOST} steps; from here on they are left out", wording::quoted(slug));
    let mend = "make several schemes of it";
    source.findings.push(Finding::new(&checks::SCHEME_SIZE, Place::top_of(first.document.file), message, mend));
    source.unread.extend(steps.iter().skip(MOST).map(|step| format!("schemes/{slug}/{}.md", step.stem)));
    steps.truncate(MOST);
}

/// The finding for a scheme of too many areas. The whole scheme is left out then: without some of them its steps would
/// name areas that there are not, and its shares would not add up.
fn too_many_areas(scheme: &Document<SchemeFile>) -> Option<Finding> {
    let (first, _) = scheme.front.areas.as_ref()?.value.0.get(MOST)?;
    let message = format!("this scheme has more than {MOST} areas, so nothing else is checked about it");
    Some(Finding::new(&checks::SCHEME_SIZE, first.place, message, "name only what is painted differently"))
}

/// The number in front of a step's name; a sign other than a hyphen after it is told with the name itself.
pub fn step_number(stem: &str) -> Option<u64> {
    let (number, _) = stem.split_once(|sign: char| !sign.is_alphanumeric())?;
    number.parse().ok()
}

fn check_step_names(steps: &[(&str, FileId)], findings: &mut Vec<Finding>) {
    let mut before: Option<(&str, FileId)> = None;
    for (stem, file) in steps.iter().copied() {
        let top = Place::top_of(file);
        let number = step_number(stem);
        if number.is_none() {
            let (message, mend) = why_no_number(stem);
            findings.push(Finding::new(&checks::STEP_NAME, top, message, mend));
        } else if let Some((earlier, other)) = before.filter(|(earlier, _)| step_number(earlier) == number) {
            let message = format!("'{stem}' has the same number as '{earlier}'");
            let mend = "give each step its own number; the numbers are the order of work";
            findings
                .push(Finding::new(&checks::STEP_NAME, top, message, mend).see(Place::top_of(other), "the other one"));
        }
        before = Some((stem, file));
    }
}

/// Why the name of a step gives it no place in the order of work, and what mends it.
fn why_no_number(stem: &str) -> (String, String) {
    /// More digits than anybody numbers steps with.
    const MOST_DIGITS: usize = 6;
    let (number, name) = stem.split_at(stem.bytes().take_while(u8::is_ascii_digit).count());
    let plain = crate::measure::hyphenated(name);
    let shown = wording::quoted(stem);
    if number.is_empty() {
        let message = format!("{shown} does not begin with a number of the order of work");
        (message, "name it like '30-pale-gold.md'".to_owned())
    } else if number.len() > MOST_DIGITS {
        (format!("the number of {shown} is too large"), "name it like '30-pale-gold.md'".to_owned())
    } else if plain.is_empty() {
        let mend = format!("name it like '{number}-pale-gold.md'");
        (format!("{shown} has a number and no name after it"), mend)
    } else {
        let message = format!("{shown} has no hyphen after its number");
        (message, format!("rename it to {}", wording::quoted(&format!("{number}-{plain}.md"))))
    }
}

/// Names that become addresses must be plain.
fn check_names(source: &mut Source) {
    let schemes = source.schemes.iter().map(|scheme| (scheme.slug.as_str(), scheme.scheme.file));
    let steps =
        source.schemes.iter().flat_map(|scheme| &scheme.steps).map(|step| (step.stem.as_str(), step.document.file));
    let sequences = source.sequences.iter().map(|one| (one.slug.as_str(), one.document.file));
    let armies = source.armies.iter().map(|army| (army.slug.as_str(), army.file));
    let pages = source.pages.iter().map(|page| (page.slug.as_str(), page.file));
    let found: Vec<Finding> = schemes
        .chain(steps)
        .chain(sequences)
        .chain(armies)
        .chain(pages)
        .filter_map(|(name, file)| Id::from_text(name).err().map(|why| (name, file, why)))
        .map(|(name, file, why)| {
            let message = format!("{} can't become an address: {why}", wording::quoted(name));
            let plain = crate::measure::hyphenated(name);
            let own = source.files.path(file).rsplit('/').next().unwrap_or_default();
            let mend = if Id::from_text(&plain).is_ok() {
                // With its ending, where the name is a file's: without it nobody would read the file any more.
                match own.strip_prefix(name).filter(|ending| ending.starts_with('.')) {
                    Some(ending) => format!("rename it to {}", wording::quoted(&format!("{plain}{ending}"))),
                    None => format!("rename its folder to {}", wording::quoted(&plain)),
                }
            } else {
                "give it a short name of small letters, digits and hyphens, such as 'fen-warden'".to_owned()
            };
            Finding::new(&checks::NAME, Place::top_of(file), message, mend)
        })
        .collect();
    source.findings.extend(found);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_folder_with_a_twin_is_told_once_with_its_own_mend() {
        let file = Files::default().add("content/schemes/First-Figure", "");
        let told = twin(file, "content/schemes/First-Figure", "content/schemes/first-figure");
        assert_eq!(told.check.id, "file-name");
        assert!(
            told.message.contains("'First-Figure'") && told.mend.contains("'content/schemes/first-figure'"),
            "{told:?}"
        );
    }
}
