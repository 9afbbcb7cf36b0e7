//! What the files of a site are made from, as hashes: while such a hash is the same, so are the bytes.
//!
//! There are three kinds. The files of a scheme are made from that scheme and its versions, and from what all schemes share:
//! the program, the theme, the guide's settings and its paints. A page that shows some schemes, such as a paint's, is made
//! from those and from what the guide has beside schemes, armies and pictures. All others are made from the whole guide.
//! The hashes are of what was resolved and not of texts, so that a scheme which is added, or a comment in a list of paints,
//! leaves the rest.

use std::collections::BTreeMap;
use std::hash::{Hash, Hasher};

use include_dir::{Dir, include_dir};
use rayon::prelude::*;
use sha2::{Digest as _, Sha256};

use super::site::{Piece, Site};
use crate::door::{Digest, MACHINE};
use crate::guide::{Army, Guide};
use crate::page::{Desk, Excerpt};
use crate::work::WorkedScheme;

/// The sources of the program: another line in them is another program.
static PROGRAM: Dir<'_> = include_dir!("$CARGO_MANIFEST_DIR/src");

/// The libraries that it is built with.
const LIBRARIES: &str = include_str!("../../Cargo.lock");

/// What the copies of pictures are made from, by the paths of the pictures.
type OfPictures = BTreeMap<String, Digest>;

/// The hashes of what the files of a site are made from.
pub(super) struct Makings {
    whole: Digest,
    /// What there is beside schemes, armies and pictures.
    rest: Digest,
    /// By the slugs of the schemes that are no versions.
    schemes: BTreeMap<String, Digest>,
}

impl Makings {
    /// Looks at all that a site is made from; `shared` is what [`shared`] gives for it.
    pub(super) fn of(site: &Site<'_>, shared: Digest, pictures: &OfPictures) -> Self {
        let guide = &site.desk.worked.guide;
        let mut families: BTreeMap<&str, Vec<&WorkedScheme>> = BTreeMap::new();
        for worked in &site.desk.worked.schemes {
            families.entry(worked.scheme.base()).or_default().push(worked);
        }
        let families: Vec<(&str, Vec<&WorkedScheme>)> = families.into_iter().collect();
        let of_family = |(base, family): &(&str, Vec<&WorkedScheme>)| {
            let mut hash = Hashed::after(shared);
            for worked in family {
                scheme(&mut hash, site, worked, pictures);
            }
            ((*base).to_owned(), hash.digest())
        };
        let schemes: BTreeMap<String, Digest> = families.par_iter().map(of_family).collect();
        let mut rest = Hashed::after(shared);
        beside(&mut rest, guide);
        let rest = rest.digest();
        let mut whole = Hashed::after(rest);
        // An army has its schemes with it.
        (&schemes, &guide.armies).hash(&mut whole);
        for path in &guide.linked_files {
            (path, site.desk.pictures.get(path), pictures.get(path)).hash(&mut whole);
        }
        Self { whole: whole.digest(), rest, schemes }
    }

    /// What a file is made from; none where it is there already, and nothing has to be made.
    pub(super) fn of_piece(&self, piece: &Piece<'_>, desk: Desk<'_>) -> Option<Digest> {
        let Piece::Page(leaf) = piece else { return None };
        let of_leaf = || match leaf.scheme() {
            Some(worked) => self.of_scheme(worked),
            None => leaf.excerpt(desk).map_or(self.whole, |excerpt| self.of_excerpt(&excerpt)),
        };
        // A mark is a hash already.
        let of_mark = |mark: String| Digest::read(&mark).unwrap_or_else(|| Digest::of([mark.as_bytes()]));
        Some(leaf.mark().map_or_else(of_leaf, of_mark))
    }

    /// What a page is made from that shows some schemes.
    fn of_excerpt(&self, excerpt: &Excerpt<'_>) -> Digest {
        let mut hash = Hashed::after(self.rest);
        for worked in &excerpt.schemes {
            self.of_scheme(worked).hash(&mut hash);
        }
        excerpt.ends.hash(&mut hash);
        hash.digest()
    }

    /// What the files of a scheme are made from.
    pub(super) fn of_scheme(&self, worked: &WorkedScheme) -> Digest {
        self.schemes.get(worked.scheme.base()).copied().unwrap_or(self.whole)
    }
}

/// What all files are made from.
pub(super) fn shared(site: &Site<'_>) -> Digest {
    let mut hash = Hashed::default();
    LIBRARIES.hash(&mut hash);
    // Two systems need not agree on the last digit of a root.
    MACHINE.hash(&mut hash);
    program(&PROGRAM, &mut hash);
    site.engine.theme().hash(&mut hash);
    // Whoever adds something to the guide decides here, or in `beside`, whether the pages of schemes show it.
    let Guide {
        title,
        author,
        summary,
        address,
        language,
        language_place: _,
        theme_place: _,
        currency,
        paper,
        licence,
        theme,
        // The theme has them.
        fonts: _,
        drop,
        room,
        bench,
        raw_html,
        welcome: _,
        groups: _,
        house_order,
        paints,
        tools: _,
        schemes: _,
        sequences: _,
        armies,
        pages,
        linked_files: _,
    } = &site.desk.worked.guide;
    (title, author, summary, address, language, currency, paper, licence, theme).hash(&mut hash);
    (drop, room, bench, raw_html, house_order, paints).hash(&mut hash);
    // The way to them is on every page.
    armies.len().hash(&mut hash);
    armies.first().map(|army| &army.slug).hash(&mut hash);
    for page in pages {
        (&page.slug, &page.title).hash(&mut hash);
    }
    hash.digest()
}

/// The files of a folder of the program.
fn program(folder: &Dir<'_>, hash: &mut Hashed) {
    for file in folder.files() {
        (file.path(), file.contents()).hash(hash);
    }
    for inner in folder.dirs() {
        program(inner, hash);
    }
}

/// What only files beside those of schemes are made from, apart from the schemes themselves and the armies.
fn beside(hash: &mut Hashed, guide: &Guide) {
    (&guide.welcome, &guide.groups, &guide.tools, &guide.sequences, &guide.pages).hash(hash);
}

/// What the files of a scheme are made from, beside what all share: what it was worked out from, the armies that are painted
/// by it, and the pictures that it shows.
fn scheme(hash: &mut Hashed, site: &Site<'_>, worked: &WorkedScheme, pictures: &OfPictures) {
    let scheme = &worked.scheme;
    scheme.hash(hash);
    let models = |army: &Army| {
        let units = army.units.iter().filter(|unit| unit.scheme.slug == scheme.slug);
        units.map(|unit| unit.models).collect::<Vec<_>>()
    };
    for army in &site.desk.worked.guide.armies {
        let models = models(army);
        if !models.is_empty() {
            (&army.slug, &army.title, models).hash(hash);
        }
    }
    // Which of them are painted at one time goes by all that these armies are.
    for (army, models) in site.desk.worked.largest_round(&scheme.slug) {
        (&army.slug, models).hash(hash);
    }
    if let Some(shape) = &worked.shape {
        let bits = |figures: &[f64]| figures.iter().map(|figure| figure.to_bits()).collect::<Vec<_>>();
        (shape.mark, shape.surface.to_bits(), bits(&shape.areas), bits(shape.zones.as_flattened())).hash(hash);
    }
    if let Some(plate) = &worked.plate {
        (plate.mark, plate.zones.map(f32::to_bits)).hash(hash);
    }
    for path in &scheme.linked_files {
        (path, site.desk.pictures.get(path), pictures.get(path)).hash(hash);
    }
}

/// So many bytes are gathered before they are hashed, for most of what comes is a few.
const GATHERED: usize = 4_096;

/// A hash in the making.
#[derive(Default)]
struct Hashed {
    hash: Sha256,
    gathered: Vec<u8>,
}

impl Hashed {
    /// One of what has this hash already, and whatever follows.
    fn after(start: Digest) -> Self {
        let mut hash = Self::default();
        start.hash(&mut hash);
        hash
    }

    fn digest(mut self) -> Digest {
        self.hash.update(&self.gathered);
        self.hash.into()
    }
}

impl Hasher for Hashed {
    fn write(&mut self, bytes: &[u8]) {
        if self.gathered.len() + bytes.len() > GATHERED {
            self.hash.update(&self.gathered);
            self.gathered.clear();
        }
        if bytes.len() > GATHERED {
            self.hash.update(bytes);
        } else {
            self.gathered.extend_from_slice(bytes);
        }
    }

    /// Nobody asks for this end of it.
    fn finish(&self) -> u64 {
        let whole = self.hash.clone().chain_update(&self.gathered).finalize();
        whole.iter().take(8).fold(0, |sum, byte| sum << 8 | u64::from(*byte))
    }
}
