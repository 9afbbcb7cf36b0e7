//! The whole way of a guide, every stage with its product.

mod bearing;
mod mends;
mod proof;
mod registry;

use std::collections::BTreeSet;
use std::io;
use std::path::Path;
use std::sync::Arc;

pub use mends::{Mends, SchemeMend, breaks, carry_out, mends};
pub use proof::Proof;
pub use registry::REGISTRY;

use crate::card::{self, Fonts, Kit};
use crate::door::Door;
use crate::guide::Unclear;
use crate::page::{self, Desk, Ledger};
use crate::picture::{self, Pictures};
use crate::press::{self, Engine, Held, Hitch, Pressed, Progress, Site};
use crate::render::Studio;
use crate::report::{FileId, Files, Finding, Findings};
use crate::shop::Cupboard;
use crate::theme::{self, Theme};
use crate::trade::Paper;
use crate::work::{self, BrushOuts, Sitters, Worked, brush_outs};
use crate::{colour, guide, mesh, plate, source};

/// A guide that has been read, resolved and worked out, and everything that was found on the way.
#[derive(Debug)]
pub struct Checked {
    /// The text files that findings point into.
    pub files: Files,
    /// The guide and all that was worked out about it.
    pub worked: Worked,
    /// Its pictures.
    pub pictures: Pictures,
    /// The theme it asks for.
    pub theme: Arc<Theme>,
    /// The fonts of the theme, for printing.
    pub fonts: Arc<Fonts>,
    /// What was found.
    pub findings: Findings,
    guide_file: FileId,
}

impl Checked {
    /// What pages are made from.
    fn desk<'a>(&'a self, ledger: &'a Ledger, brush_outs: &'a BrushOuts, studio: &'a Studio) -> Desk<'a> {
        let Self { worked, pictures, theme, fonts, .. } = self;
        let kit = Kit { fonts, words: &theme.words };
        Desk { worked, pictures, words: &theme.words, brush_outs, ledger, kit, studio }
    }
}

/// Reads a guide, resolves its names, and works everything out. Nothing is written.
///
/// # Errors
/// When the guide's folder can't be read at all; everything else is a finding.
pub fn check(door: &dyn Door) -> io::Result<Checked> {
    Session::for_one_look().check(door)
}

/// What is kept between looks at one guide, so that each works again only on what changed.
///
/// Every stage keeps its products with what they were made from, and takes one back only where that is the same: a
/// session never gives anything that a fresh look would not give.
#[derive(Debug, Default)]
pub struct Session {
    source: source::KeptSource,
    guide: guide::KeptGuide,
    pictures: picture::KeptPictures,
    theme: theme::KeptTheme,
    meshes: mesh::KeptMeshes,
    plates: plate::KeptPlates,
    letters: card::KeptLetters,
    work: work::KeptWork,
    /// Whether there is one look and no more: then what was read is let go as soon as its names are looked up.
    once: bool,
}

impl Session {
    /// One that looks once, and keeps nothing of the files.
    fn for_one_look() -> Self {
        Self { guide: guide::KeptGuide::for_one_look(), once: true, ..Self::default() }
    }

    /// Checks the guide as it is now.
    ///
    /// # Errors
    /// When the guide's folder can't be read at all; everything else is a finding.
    pub fn check(&mut self, door: &dyn Door) -> io::Result<Checked> {
        let Resolved { mut guide, mut files, guide_file, letters, mut found } = self.resolve(door)?;
        let (pictures, looking) = picture::survey(door, &guide.linked_files, &mut files, &mut self.pictures);
        found.extend(looking);
        let (theme, dressing) = theme::load(door, &guide, &letters, &mut files, &mut self.theme)?;
        found.extend(dressing);
        let (meshes, measuring) = mesh::survey(door, &guide, &mut self.meshes);
        meshes.fill(&mut guide);
        found.extend(measuring);
        let (plates, reading) = plate::survey(door, &guide, &mut self.plates);
        found.extend(reading);
        let (worked, working) =
            work::work_again(guide, Sitters { meshes: &meshes, plates: &plates }, REGISTRY, &mut self.work);
        found.extend(working);
        let (fonts, reading) = self.letters.fonts(&theme, &worked.guide);
        found.extend(reading);
        found.extend(card::check(&worked, &fonts, &theme, &mut self.letters));
        found.extend(page::taken(&worked, theme.assets.keys().map(String::as_str), &mut files));
        self.source.files = files.clone();
        let findings = Findings::gather(found, &files);
        Ok(Checked { files, worked, pictures, theme, fonts, findings, guide_file })
    }

    /// Reads the guide and looks up its names. What was read is gone on return, unless there is another look.
    fn resolve(&mut self, door: &dyn Door) -> io::Result<Resolved> {
        // One thread alone gathers the names of files; an idle one can make meanwhile what the first paint would wait for.
        rayon::spawn(|| _ = colour::Library::whole());
        let mut source = source::read_again(door, &mut self.source)?;
        if self.once {
            self.source = source::KeptSource::default();
        }
        let (guide, resolving) = guide::resolve_again(&mut source, &mut self.guide);
        if self.once {
            self.guide = guide::KeptGuide::default();
        }
        let source::Source { files, guide_file, letters, findings: mut found, .. } = source;
        found.extend(resolving);
        Ok(Resolved { guide, files, guide_file, letters, found })
    }
}

/// A guide whose names were looked up, and what the stages after that need beside it.
struct Resolved {
    guide: guide::Guide,
    files: Files,
    guide_file: FileId,
    letters: BTreeSet<char>,
    found: Vec<Finding>,
}

/// Reads what is in a cupboard from the bytes of a file of its own, of the shape of `have` in an army's file. What is
/// wrong with it joins the findings of the guide.
pub fn cupboard(checked: &mut Checked, path: &str, bytes: &[u8]) -> Cupboard {
    let (table, mut found) = source::read_cupboard(path, bytes, &mut checked.files);
    let (entries, unknown) = guide::cupboard(&checked.worked.guide, &table);
    found.extend(unknown);
    found.extend(checked.findings.iter().cloned());
    checked.findings = Findings::gather(found, &checked.files);
    Cupboard::of(&entries, &checked.worked.conditions.bench)
}

/// The paints of a guide, and what was found while they were read.
#[derive(Debug)]
pub struct Shelved {
    /// The guide, its names resolved.
    pub guide: guide::Guide,
    /// The text files that findings point into.
    pub files: Files,
    /// What was found on the way; the schemes are not worked out.
    pub findings: Findings,
}

/// Reads a guide and resolves its names, and no more: for questions about its paints alone.
///
/// # Errors
/// When the guide's folder can't be read at all; everything else is a finding.
pub fn shelve(door: &dyn Door) -> io::Result<Shelved> {
    let mut source = source::read(door)?;
    let (guide, resolving) = guide::resolve(&mut source);
    let source::Source { files, findings: mut found, .. } = source;
    found.extend(resolving);
    let findings = Findings::gather(found, &files);
    Ok(Shelved { guide, files, findings })
}

/// What came of asking for a card.
#[derive(Debug)]
pub struct Carded<'a> {
    /// What was found, in the files of the guide.
    pub findings: Findings,
    /// The card as a PDF; `None`: errors stand in the way.
    pub pdf: Option<Vec<u8>>,
    /// What it is the card of.
    pub scheme: &'a guide::Scheme,
}

/// The printed recipe of one scheme of a checked guide, named by its folder or its title; the guide's own paper where
/// none is named.
///
/// # Errors
/// Where no scheme is called so, or several are.
pub fn card<'a>(
    door: &dyn Door,
    checked: &'a Checked,
    name: &str,
    paper: Option<Paper>,
) -> Result<Carded<'a>, Unclear> {
    let scheme = checked.worked.called(name)?;
    let kit = Kit { fonts: &checked.fonts, words: &checked.theme.words };
    let pass = checked.is_sound(&scheme.scheme);
    let photo = scheme.scheme.photo.as_ref().filter(|_| pass);
    let photo = photo.map(|photo| press::photo_to_draw(door, &checked.pictures, &photo.path)).transpose();
    let photo = match photo {
        Ok(photo) => Ok(photo.flatten()),
        Err(Hitch::Told(finding)) => Err(finding),
        // That a file is not there has been found before; what went away since is left out.
        Err(Hitch::Disk(_)) => Ok(None),
    };
    let paper = paper.unwrap_or(checked.worked.guide.paper);
    let made = pass.then(|| {
        let portrait = page::portrait(&Studio::default(), scheme, kit.words, photo?);
        card::pdf(kit, &checked.worked, scheme, paper, portrait.as_ref())
    });
    let (pdf, failed) = match made.transpose() {
        Ok(pdf) => (pdf, None),
        Err(finding) => (None, Some(*finding)),
    };
    let all = checked.findings.iter().cloned().chain(failed).collect();
    let findings = Findings::gather(all, &checked.files);
    Ok(Carded { findings, pdf, scheme: &scheme.scheme })
}

/// What is asked for when a guide is published.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Wanted {
    /// Warnings count as errors.
    pub strict: bool,
    /// One file a scheme with everything inside is written beside the site.
    pub single: bool,
}

/// What came of publishing.
#[derive(Debug)]
pub struct Published {
    /// The text files that findings point into.
    pub files: Files,
    /// What was found.
    pub findings: Findings,
    /// The guide and all that was worked out about it.
    pub worked: Worked,
    /// How many files the new site has; `None`: nothing was changed.
    pub written: Option<usize>,
}

/// Checks a guide and, where nothing is in the way, puts its site in the place of the old one.
///
/// # Errors
/// When the guide can't be read, or the site can't be written; then the old site is as it was.
pub fn publish(door: &dyn Door, target: &Path, asked: Wanted, progress: &dyn Progress) -> io::Result<Published> {
    let checked = check(door)?;
    if !checked.findings.pass(asked.strict) {
        let Checked { files, findings, worked, .. } = checked;
        return Ok(Published { files, findings, worked, written: None });
    }
    let (engine, (ledger, brush_outs)) = rayon::join(
        || Engine::new(&checked.theme, checked.guide_file),
        || (Ledger::of(&checked.worked), brush_outs(&checked.worked)),
    );
    let pressed = match engine {
        Ok(engine) => {
            let studio = Studio::default();
            let desk = checked.desk(&ledger, &brush_outs, &studio);
            press::press(door, target, &Site { desk, engine: &engine, held: &Held::default() }, asked.single, progress)?
        }
        Err(finding) => Pressed::Stopped(vec![*finding]),
    };
    let Checked { files, findings, worked, .. } = checked;
    match pressed {
        Pressed::Published(count) => Ok(Published { files, findings, worked, written: Some(count) }),
        Pressed::Stopped(more) => {
            let findings = Findings::gather(findings.iter().cloned().chain(more).collect(), &files);
            Ok(Published { files, findings, worked, written: None })
        }
    }
}
