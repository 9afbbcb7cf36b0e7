//! The method against films that are calculated from measured paint: 19 artists' acrylics, whose K and S are known in every
//! band, and their mixes.
//!
//! R. S. Berns, "Artist paint spectral database", Color and Imaging Conference 24 (2016). The theory cannot fail here, for
//! the films are made with it; what is tried is how well a paint is found from what an author says of it. Each is left out
//! of the known pigments with all its shades. The data stays outside the project, as in [`super::measured`].

use std::collections::BTreeMap;
use std::path::Path;

use maulstick::colour::{
    Depths, Ground, Library, Mixture, Outer, Pigment, Stack, Surface, bands, contrast, difference, space,
};
use maulstick::guide::{Paint, Swatch};
use maulstick::measure::{Colour, Fraction};

use super::measured::{Row, Told, figures};
use super::paints::paint;

/// The paints in the order of the file, each with its colour index name.
const PAINTS: [&str; 19] = [
    "PBk9", "PY74", "PY83", "PO20", "PO73", "PR108", "PR254", "PV19", "PR122", "PV23", "PB29", "PB28", "PB36",
    "PB15:1", "PB15:3", "PG7", "PG36", "PY184", "PW6",
];

/// The white among them.
pub(crate) const WHITE: usize = 18;

/// An ordinary coat holds so much of them, as a logarithm: a titanium white then measures ln S 1.3, as strong ones do.
const ORDINARY: f64 = 1.35;

/// The skin of all.
const SKIN: Surface = Surface { outer_mirror: 0.0095, inner_mirror: 0.6 };

/// How the films are made: their name, how strong the paints are (as a logarithm), how many coats, and whether over white
/// alone, as watercolours are.
const SETS: [(&str, f64, u32, bool); 2] = [("acrylic", 0.0, 2, false), ("watery", -1.0, 1, true)];

/// The parts of a mix, by the paints' places.
type Parts = Vec<(usize, f64)>;

pub(crate) fn read(folder: &Path) -> Vec<Depths> {
    let text = std::fs::read_to_string(folder.join("artist_pigments_KS_380_750_10nm.tsv")).unwrap();
    let lines: Vec<&str> = text.lines().skip(1).collect();
    let row = |line: &str| -> bands::Bands {
        let numbers: Vec<f64> = line.split('\t').skip(2).map(|number| number.parse().unwrap()).collect();
        std::array::from_fn(|band| numbers[band].max(1e-6) * ORDINARY.exp())
    };
    lines.chunks_exact(2).map(|pair| Depths { absorbed: row(pair[0]), scattered: row(pair[1]) }).collect()
}

/// The paints at a strength, with the way their films are made.
struct Studio {
    paints: Vec<Depths>,
    coats: u32,
    on_white_alone: bool,
}

impl Studio {
    fn film(&self, parts: &Parts, card: f64, coats: f64) -> Colour {
        let mix = parts.iter().fold(Depths::NONE, |sum, (at, share)| sum.plus(&self.paints[*at].times(*share)));
        let ground = SKIN.inner(&Outer::grey(card));
        space::shown(SKIN.outer(&mix.times(coats).over(&ground)).linear_rgb())
    }

    fn swatches(&self, at: usize, given: usize) -> Vec<Swatch> {
        let alone = vec![(at, 1.0)];
        let over = |card: f64, times: u32| self.film(&alone, card, f64::from(times * self.coats));
        let mut all = vec![Swatch::OverWhite(self.coats, over(0.85, 1))];
        match (given, self.on_white_alone) {
            (1, true) => all.push(Swatch::OverWhite(3 * self.coats, over(0.85, 3))),
            (1.., false) => all.push(Swatch::OverBlack(self.coats, over(0.02, 1))),
            _ => {}
        }
        if given == 2 && at != WHITE {
            let colour = self.film(&vec![(at, 0.2), (WHITE, 0.8)], 0.85, 1000.0);
            let white = PAINTS[WHITE].to_owned();
            all.push(Swatch::Tint { white, parts: Fraction::ONE, to: Fraction::new(4, 1), colour });
        }
        all
    }

    /// What is found of all of them from a colour and a class, from cards, and with a tint.
    fn found(&self, given: usize, libraries: &BTreeMap<&str, Library>) -> (Vec<Pigment>, Surface) {
        let of = |at: usize| -> Paint {
            let class = contrast::class_of(&self.paints[at], at == WHITE);
            let swatches = self.swatches(at, given);
            match (given, self.on_white_alone, &swatches[..]) {
                (0, false, [Swatch::OverWhite(_, Colour(seen))]) => paint(PAINTS[at], Some(*seen), class, Vec::new()),
                _ => paint(PAINTS[at], None, class, swatches),
            }
        };
        let all: Vec<Paint> = (0..PAINTS.len()).map(of).collect();
        let surface = Surface::of(all.iter());
        let white = Pigment::with(&libraries[PAINTS[WHITE]], &all[WHITE], surface, |_| None).unwrap();
        let find =
            |paint: &Paint| Pigment::with(&libraries[&paint.id[..]], paint, surface, |_| Some(white.clone())).unwrap();
        (all.iter().map(find).collect(), surface)
    }
}

/// What is mixed: two without white, one with nine of white, two with eight of white.
fn mixes() -> [(&'static str, Vec<Parts>); 3] {
    let pairs = || (0..WHITE).flat_map(|one| (0..one).map(move |other| (one, other)));
    [
        ("1 : 1 mixes", pairs().map(|(one, other)| vec![(one, 0.5), (other, 0.5)]).collect()),
        ("tints, 1 to 9", (0..WHITE).map(|one| vec![(one, 0.1), (WHITE, 0.9)]).collect()),
        (
            "two with white, 1 : 1 : 8",
            pairs().map(|(one, other)| vec![(one, 0.1), (other, 0.1), (WHITE, 0.8)]).collect(),
        ),
    ]
}

/// How well all mixes are predicted, and how well it is told how well.
pub(crate) fn rows(folder: &Path, rows: &mut Vec<Row>, all: &mut Vec<Told>) {
    let measured = read(folder);
    let shade = |index: &str, of: &str| index.split(':').next() == of.split(':').next();
    let library =
        |own: &'static str| (own, Library::without(|known| known.source == "acrylics" && shade(&known.index, own)));
    let libraries: BTreeMap<&str, Library> = PAINTS.iter().map(|own| library(own)).collect();
    for (set, strength, coats, on_white_alone) in SETS {
        let paints = measured.iter().map(|paint| paint.times(strength.exp())).collect();
        let studio = Studio { paints, coats, on_white_alone };
        let found: Vec<(Vec<Pigment>, Surface)> = (0..3).map(|given| studio.found(given, &libraries)).collect();
        for ((what, mixes), card) in mixes().iter().flat_map(|mix| [0.85, 0.02].map(|card| (mix, card))) {
            if on_white_alone && card < 0.5 {
                continue;
            }
            let coats = f64::from(coats);
            let truth = |parts: &Parts| studio.film(parts, card, coats);
            let averaged = |in_linear: bool| {
                let off = |parts: &Parts| {
                    let own = parts.iter().map(|(at, share)| (studio.film(&vec![(*at, 1.0)], card, coats), *share));
                    difference(super::measured::mean(own, in_linear), truth(parts))
                };
                figures(mixes.iter().map(off).collect())
            };
            let mut own = Vec::new();
            for ((pigments, surface), group) in found.iter().zip(["class", "cards", "tint"]) {
                let mut off = Vec::new();
                for parts in mixes {
                    let mixture = parts.iter().map(|(at, share)| (&pigments[*at], *share)).collect::<Vec<_>>();
                    let stack = Stack::on(&Ground::grey(card), *surface).lay(&Mixture::of(&mixture).unwrap(), coats);
                    off.push(difference(stack.colour(), truth(parts)));
                    all.push((group, off[off.len() - 1], stack.uncertainty().unwrap()));
                }
                own.push(Some(figures(off)));
            }
            let card = if card > 0.5 { "white" } else { "black" };
            rows.push(Row {
                what: format!("{set} films: {what}, over {card}"),
                count: mixes.len(),
                averaged: [averaged(false), averaged(true)],
                found: [own[0], own[1], own[2]],
            });
        }
    }
}
