//! The method against measured paint: 84 oil drawdowns over black and white card, with their recipes.
//!
//! F. T. Proaño Gaibor and others' reconstructed paints, measured for Geldof, Proaño Gaibor, Kirchner and Ligterink,
//! Heritage Science 6:17 (2018). The data stays outside the project: the test reads the folder that the environment
//! variable `MAULSTICK_MEASURED` names.

use std::collections::BTreeMap;
use std::path::Path;
use std::sync::LazyLock;

use maulstick::colour::space::{self, EncodedRgb, LinearRgb};
use maulstick::colour::{Library, Mixture, Outer, Pigment, Stack, Surface, Uncertainty, bands, contrast, difference};
use maulstick::guide::{Paint, Swatch};
use maulstick::measure::{Colour, Fraction};
use maulstick::trade::Hiding;

use super::paints::paint;

/// What is known without these oils: the method is tried on paints that it has not learnt from.
static ACRYLICS: LazyLock<Library> = LazyLock::new(|| Library::without(|known| known.source == "oils"));

/// Ordinary brushed coats in a drawdown: some 50 µm. How thick these were is not published; the three whites, which nothing
/// is judged by, tell it. Taken without a source that was looked up: zinc and lead white scatter 0.14 and 0.12 of what
/// rutile does (their tinting strengths on the scale of Reynolds are as far apart). An oil paint holds some twice as much
/// of them, and an ordinary coat of a strong titanium white measures ln S 1.3: that makes 0.04 and −0.1 for an ordinary coat, and measured are 1.84 and 1.54 for a
/// drawdown, so six and five coats.
const COATS: u32 = 6;

/// A drawdown: what is in it by weight, and its colour over either card.
pub(crate) struct Drawdown {
    parts: Vec<(String, f64)>,
    over_black: Colour,
    over_white: Colour,
}

impl Drawdown {
    /// Whether it is a tint with zinc or lead white.
    fn has_white(&self) -> bool {
        self.parts.iter().any(|(name, part)| *part > 0.0 && (name == "ZincWhite" || name == "LeadWhite"))
    }

    /// The only paint in it.
    fn alone(&self) -> Option<&str> {
        let present: Vec<_> = self.parts.iter().filter(|(_, part)| *part > 0.0).collect();
        if let [(name, _)] = present[..] { Some(name) } else { None }
    }
}

pub(crate) fn read(folder: &Path) -> Vec<Drawdown> {
    let spectra = std::fs::read_to_string(folder.join("revigo_spectra_400_700_10nm.tsv")).unwrap();
    let colours: BTreeMap<&str, Colour> = spectra.lines().skip(1).map(spectrum).collect();
    let recipes = std::fs::read_to_string(folder.join("revigo_mixtures.tsv")).unwrap();
    recipes.lines().filter_map(|line| drawdown(line, &colours)).collect()
}

/// The colour of a line of percentages from 400 to 700 nm; beyond, the last ones hold.
fn spectrum(line: &str) -> (&str, Colour) {
    let (name, numbers) = line.split_once('\t').unwrap();
    let measured: Vec<f64> = numbers.split('\t').map(|number| number.trim().parse::<f64>().unwrap() / 100.0).collect();
    let first = 2;
    let outer = Outer(std::array::from_fn(|band| measured[band.saturating_sub(first).min(measured.len() - 1)]));
    assert_eq!((measured.len(), bands::wavelength(first)), (31, 400.0));
    (name, space::shown(outer.linear_rgb()))
}

/// One recipe stands in the list that was never measured.
fn drawdown(line: &str, colours: &BTreeMap<&str, Colour>) -> Option<Drawdown> {
    let (id, recipe) = line.split_once('\t')?;
    let (names, parts) = recipe.split_once('|').unwrap();
    let parts = names.split('-').map(str::to_owned).zip(parts.split('-').map(|part| part.trim().parse().unwrap()));
    let over = |card: &str| colours.get(format!("{id}_{card}").as_str()).copied();
    Some(Drawdown { parts: parts.collect(), over_black: over("ob")?, over_white: over("ow")? })
}

/// What the author is taken to give.
#[derive(Clone, Copy, PartialEq)]
enum Given {
    /// The colour over white, and the hiding class that fits best.
    Class,
    /// Brush-outs over black and white.
    BothCards,
    /// Those, and the palest tint of a tenth or so.
    WithTint,
}

/// The pigments, and the drawdowns that were given away with them.
struct Palette<'a> {
    pigments: BTreeMap<&'a str, Pigment>,
    surface: Surface,
    given: Vec<&'a Drawdown>,
}

fn palette(drawdowns: &[Drawdown], given: Given) -> Palette<'_> {
    let mut tints = Vec::new();
    let mut paints: Vec<(&str, Paint)> = Vec::new();
    for (name, pure) in drawdowns.iter().filter_map(|drawdown| Some((drawdown.alone()?, drawdown))) {
        let both = vec![Swatch::OverWhite(COATS, pure.over_white), Swatch::OverBlack(COATS, pure.over_black)];
        let mut paint = match given {
            Given::Class => paint(name, Some(pure.over_white.0), class_of(pure), Vec::new()),
            _ => paint(name, None, class_of(pure), both),
        };
        if let (Given::WithTint, Some((tint, swatch))) = (given, tint_of(name, drawdowns)) {
            paint.swatches.push(swatch);
            tints.push(tint);
        }
        paints.push((name, paint));
    }
    let surface = Surface::of(paints.iter().map(|(_, paint)| paint));
    let plain = |id: &str| {
        let (_, paint) = paints.iter().find(|(name, _)| *name == id)?;
        Pigment::with(&ACRYLICS, paint, surface, |_| None)
    };
    let pigments =
        paints.iter().map(|(name, paint)| (*name, Pigment::with(&ACRYLICS, paint, surface, plain).unwrap())).collect();
    Palette { pigments, surface, given: tints }
}

/// The drawdown of one part, about, to nine of zinc or lead white, as a swatch.
fn tint_of<'a>(name: &str, drawdowns: &'a [Drawdown]) -> Option<(&'a Drawdown, Swatch)> {
    drawdowns.iter().find_map(|drawdown| {
        let present: Vec<_> = drawdown.parts.iter().filter(|(_, part)| *part > 0.0).collect();
        let own = present.iter().find(|(own, _)| own == name)?.1;
        let (white, to) = present.iter().find(|(white, _)| white == "ZincWhite" || white == "LeadWhite")?;
        let hundredths = |part: f64| Fraction::new(format!("{:.0}", part * 100.0).parse().unwrap(), 100);
        let colour = drawdown.over_white;
        let swatch = Swatch::Tint { white: white.clone(), parts: hundredths(own), to: hundredths(*to), colour };
        (present.len() == 2 && white != name && (5.0..20.0).contains(&own)).then_some((drawdown, swatch))
    })
}

/// The class that a maker would print: by what the drawdown scatters, as both cards tell it.
fn class_of(pure: &Drawdown) -> Hiding {
    let both = vec![Swatch::OverWhite(COATS, pure.over_white), Swatch::OverBlack(COATS, pure.over_black)];
    let paint = paint("own", None, Hiding::Opaque, both);
    let pigment = Pigment::with(&ACRYLICS, &paint, Surface::of(std::iter::once(&paint)), |_| None).unwrap();
    contrast::class_of(&pigment.depths, pigment.white)
}

/// Everything that can be predicted: the mixes of paints that are known alone.
fn mixes<'a>(drawdowns: &'a [Drawdown], palette: &Palette) -> Vec<&'a Drawdown> {
    let known = |drawdown: &&Drawdown| {
        drawdown.alone().is_none()
            && drawdown.parts.iter().all(|(name, part)| *part == 0.0 || palette.pigments.contains_key(name.as_str()))
    };
    drawdowns.iter().filter(known).collect()
}

impl Palette<'_> {
    fn stack(&self, parts: &[(String, f64)], card: f64) -> Stack {
        let parts: Vec<(&Pigment, f64)> = parts
            .iter()
            .filter(|(_, part)| *part > 0.0)
            .map(|(name, part)| (&self.pigments[name.as_str()], *part))
            .collect();
        let mixture = Mixture::of(&parts).unwrap();
        Stack::on(&maulstick::colour::Ground::grey(card), self.surface).lay(&mixture, f64::from(COATS))
    }
}

/// The pure paints' colours averaged by their parts.
fn averaged(drawdown: &Drawdown, all: &[Drawdown], over: fn(&Drawdown) -> Colour, in_linear: bool) -> Colour {
    let own = drawdown.parts.iter().filter(|(_, part)| *part > 0.0);
    let of = |name: &str| over(all.iter().find(|other| other.alone() == Some(name)).unwrap());
    mean(own.map(|(name, part)| (of(name), *part)), in_linear)
}

/// Colours averaged by their parts, in encoded or in linear light.
pub(crate) fn mean(parts: impl Iterator<Item = (Colour, f64)>, in_linear: bool) -> Colour {
    let (mut sum, mut whole) = ([0.0; 3], 0.0);
    for (colour, part) in parts {
        let (encoded, linear) = (space::encoded(colour), space::linear(colour));
        let channels = if in_linear { linear.into() } else { <[f64; 3]>::from(encoded) };
        sum.iter_mut().zip(channels).for_each(|(sum, channel)| *sum += channel * part);
        whole += part;
    }
    let mean = sum.map(|sum| sum / whole);
    let linear = if in_linear { LinearRgb::from(mean) } else { EncodedRgb::from(mean).into_linear() };
    space::shown(linear)
}

/// The ordinary picture editor's way: the opacity that the class stands for, laid over the card in encoded light.
///
/// Over white the film showed `seen`; the same opacity takes the card's part out and lays the rest over black.
fn alpha_over_black(seen: Colour, hiding: Hiding) -> Colour {
    let card = |grey: f64| space::shown(LinearRgb::new(grey, grey, grey)).0[0];
    let (white, black) = (f64::from(card(0.85)), f64::from(card(0.02)));
    let opacity = match hiding {
        Hiding::Opaque => 0.80,
        Hiding::SemiOpaque => 0.65,
        Hiding::SemiTransparent => 0.45,
        Hiding::Transparent => 0.25,
    };
    Colour(seen.0.map(|channel| {
        let own = ((f64::from(channel) - (1.0 - opacity) * white) / opacity).clamp(0.0, 255.0);
        format!("{:.0}", opacity * own + (1.0 - opacity) * black).parse().unwrap()
    }))
}

/// Median and nine in ten.
pub(crate) fn figures(mut differences: Vec<f64>) -> (f64, f64) {
    differences.sort_by(f64::total_cmp);
    let at = |tenths: usize| {
        let place = tenths * (differences.len() - 1);
        let (below, above) = (differences[place / 10], differences[place.div_ceil(10)]);
        below + (above - below) * (place % 10) as f64 / 10.0
    };
    (at(5), at(9))
}

/// What is predicted, how often, and how far off averaging is (in encoded and in linear light), and what is found from a
/// colour and a class, from cards, and with a tint.
pub(crate) struct Row {
    pub(crate) what: String,
    pub(crate) count: usize,
    pub(crate) averaged: [(f64, f64); 2],
    pub(crate) found: [Option<(f64, f64)>; 3],
}

/// A name, its reflectance, and what is seen over it.
type Card = (&'static str, f64, fn(&Drawdown) -> Colour);

pub(crate) fn mix_rows(drawdowns: &[Drawdown], rows: &mut Vec<Row>) {
    let [class, cards, tinted] =
        [Given::Class, Given::BothCards, Given::WithTint].map(|given| palette(drawdowns, given));
    let all = mixes(drawdowns, &tinted);
    let (tints, extended): (Vec<&Drawdown>, Vec<&Drawdown>) = all.into_iter().partition(|one| one.has_white());
    let is_given = |one: &&Drawdown| tinted.given.iter().any(|given| std::ptr::eq(*given, *one));
    let rest: Vec<&Drawdown> = tints.iter().copied().filter(|one| !is_given(one)).collect();
    let over: [Card; 2] = [("white", 0.85, |one| one.over_white), ("black", 0.02, |one| one.over_black)];
    let sets = [
        ("tints with white", &tints, false),
        ("those without the tint that is given", &rest, true),
        ("mixes with an extender", &extended, true),
    ];
    for ((card, grey, over), (which, set, tint)) in over.iter().flat_map(|card| sets.iter().map(move |set| (card, set)))
    {
        let off = |predict: &dyn Fn(&Drawdown) -> Colour| {
            figures(set.iter().map(|one| difference(predict(one), over(one))).collect())
        };
        let by = |palette: &Palette| off(&|one| palette.stack(&one.parts, *grey).colour());
        rows.push(Row {
            what: format!("oils: {which}, over {card}"),
            count: set.len(),
            averaged: [false, true].map(|linear| off(&|one| averaged(one, drawdowns, *over, linear))),
            found: [Some(by(&class)), Some(by(&cards)), tint.then(|| by(&tinted))],
        });
    }
}

/// The film over black from what is seen over white: laid over with the opacity of its class, and predicted.
pub(crate) fn layers(drawdowns: &[Drawdown]) -> [(f64, f64); 2] {
    let pure: Vec<(&str, &Drawdown)> = drawdowns.iter().filter_map(|one| Some((one.alone()?, one))).collect();
    let off = |predict: &dyn Fn(&str, &Drawdown) -> Colour| {
        figures(pure.iter().map(|(name, one)| difference(predict(name, one), one.over_black)).collect())
    };
    [off(&|_, one| alpha_over_black(one.over_white, class_of(one))), off(&|name, one| over_black(name, one).colour())]
}

/// One coat over black of a paint of which the colour over white and the class are known.
fn over_black(name: &str, one: &Drawdown) -> Stack {
    let paint = paint(name, None, class_of(one), vec![Swatch::OverWhite(COATS, one.over_white)]);
    let surface = Surface::of(std::iter::once(&paint));
    let pigment = Pigment::with(&ACRYLICS, &paint, surface, |_| None).unwrap();
    let mixture = Mixture::of(&[(&pigment, 1.0)]).unwrap();
    Stack::on(&maulstick::colour::Ground::grey(0.02), surface).lay(&mixture, f64::from(COATS))
}

/// A prediction that is measured: what it rests on, how far it was off, and how far it was said to be.
pub(crate) type Told = (&'static str, f64, Uncertainty);

pub(crate) fn told_of_mixes(drawdowns: &[Drawdown], all: &mut Vec<Told>) {
    let tinted = palette(drawdowns, Given::WithTint);
    for (given, name) in [(Given::Class, "class"), (Given::BothCards, "cards"), (Given::WithTint, "tint")] {
        let palette = palette(drawdowns, given);
        let is_given = |one: &Drawdown| tinted.given.iter().any(|given| std::ptr::eq(*given, one));
        for one in mixes(drawdowns, &tinted).into_iter().filter(|one| given != Given::WithTint || !is_given(one)) {
            for (grey, seen) in [(0.85, one.over_white), (0.02, one.over_black)] {
                let stack = palette.stack(&one.parts, grey);
                all.push((name, difference(stack.colour(), seen), stack.uncertainty().unwrap()));
            }
        }
    }
}

pub(crate) fn told_of_coats(drawdowns: &[Drawdown], all: &mut Vec<Told>) {
    for (name, one) in drawdowns.iter().filter_map(|one| Some((one.alone()?, one))) {
        let stack = over_black(name, one);
        all.push(("layer", difference(stack.colour(), one.over_black), stack.uncertainty().unwrap()));
    }
}
