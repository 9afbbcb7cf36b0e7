//! What was asked for: a paint that is one, or a colour, and paints to look among.

use std::path::Path;
use std::sync::Arc;

use super::super::arguments::MatchArguments;
use super::super::settings::{GuideFolder, read_file};
use super::super::terminal::{Stream, Trouble};
use crate::door::{Door, Memory};
use crate::guide::{self, Guide, Paint, Unclear};
use crate::measure::{Colour, FromText};
use crate::report::{self, Level, visible_line, wording};
use crate::source::LARGEST_TEXT;
use crate::story::{self, Shelved};
use crate::tell::matching::Asked;
use crate::trade::Kind;

/// A question that can be answered.
#[derive(Debug)]
pub(super) struct MatchAsked {
    /// The guide of the paint.
    pub(super) guide: Guide,
    /// The paint or the colour.
    pub(super) asked: Asked,
    /// Where to look, if not in the same guide.
    pub(super) others: Option<Guide>,
}

impl MatchAsked {
    /// Reads the guides and finds what was asked about.
    pub(super) fn open(arguments: &MatchArguments) -> Result<Self, Trouble> {
        let guide = shelved(&GuideFolder::open(&arguments.guide)?.door)?;
        let asked = asked(&guide, arguments)?;
        let others = arguments.from.as_deref().map(paints_from).transpose()?;
        Ok(Self { guide, asked, others })
    }
}

/// What was asked about: what begins with '#' is a colour.
fn asked(guide: &Guide, arguments: &MatchArguments) -> Result<Asked, Trouble> {
    let shown = |text: &str| wording::quoted(&visible_line(text, 80));
    if !arguments.paint.trim_start().starts_with('#') {
        if arguments.among.is_some() {
            let message = "a paint is looked for among its own kind".to_owned();
            return Err(Trouble::new(message, "ask with --among for a colour alone, such as \"#2f7f7a\""));
        }
        return Ok(Asked::Paint(find(guide, &arguments.paint)?));
    }
    let colour = Colour::from_text(&arguments.paint).map_err(|why| {
        let message = format!("can't read the colour {}: {why}", shown(&arguments.paint));
        Trouble::new(message, &format!("write {}", Colour::EXPECTED))
    })?;
    let among = arguments.among.as_deref().unwrap_or(Kind::Paint.name());
    let kind = Kind::ALL.iter().copied().find(|kind| kind.has_colour() && kind.name() == among);
    let kind = kind.ok_or_else(|| {
        let coloured = Kind::ALL.iter().filter(|kind| kind.has_colour()).map(|kind| kind.name());
        let message = format!("{} is no kind of paint with a colour", shown(among));
        Trouble::new(message, &format!("write {}", wording::either(coloured)))
    })?;
    Ok(Asked::Colour(colour, kind))
}

/// The guide behind a door; what is wrong with its paints is reported, and the rest is used.
fn shelved(door: &dyn Door) -> Result<Guide, Trouble> {
    let shelved = story::shelve(door).map_err(|error| Trouble::with_disk("the guide can't be read", &error))?;
    let faulty = errors(&shelved, "content/paints/");
    if faulty > 0 {
        let count = wording::counted(faulty, "error", "errors");
        Stream::Err.tell(&format!("the files of paints have {count}, which 'maulstick check' shows\n"));
    }
    Ok(shelved.guide)
}

fn errors(shelved: &Shelved, below: &str) -> usize {
    let errors = shelved.findings.iter().filter(|finding| finding.level() == Level::Error);
    errors.filter(|finding| shelved.files.path(finding.place.file).starts_with(below)).count()
}

/// The paints of one file of paints, or of a whole guide.
fn paints_from(path: &Path) -> Result<Guide, Trouble> {
    if path.is_dir() {
        return shelved(&GuideFolder::open(path)?.door);
    }
    let mend = "name a file of paints such as content/paints/mere.yaml, or the folder of a guide";
    let bytes = read_file(path, LARGEST_TEXT, mend)?;
    // A file of paints is in no guide of its own; the smallest one is put around it.
    let put = "content/paints/paints.yaml";
    let door = Memory::default().with("content/guide.yaml", "title: Paints\nauthor: Paints\n").with(put, bytes);
    let mut shelved = story::shelve(&door).map_err(|error| Trouble::with_disk("the file can't be read", &error))?;
    if errors(&shelved, "content/") > 0 {
        shelved.files.show_as(put, path.display().to_string());
        Stream::Err.tell(&report::text(&shelved.findings, &shelved.files, Stream::Err.style()));
        return Err(Trouble::new(format!("{} is no sound file of paints", path.display()), mend));
    }
    Ok(shelved.guide)
}

/// A paint by its id or its name.
fn find(guide: &Guide, wanted: &str) -> Result<Arc<Paint>, Unclear> {
    let known: Vec<[&str; 2]> = guide.paints.iter().map(|paint| [paint.id.as_str(), &paint.name]).collect();
    Ok(Arc::clone(&guide.paints[guide::find(wanted, "a paint", &known)?]))
}
