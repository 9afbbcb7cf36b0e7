//! How each paint looks when it is brushed out on card: the chip that a reader knows it by.

use std::collections::BTreeMap;

use rayon::prelude::*;

use super::Worked;
use crate::bench::Figure;
use crate::colour::{
    BLACK_CARD, Evidence, Ground, Mixture, Pigment, Shelf, Stack, Surface, Uncertainty, WHITE_CARD, coats,
};
use crate::guide::{Paint, Pot};
use crate::measure::Colour;
use crate::trade::{Kind, Sheen};

/// How many coats are brushed out.
const COATS: f64 = 2.0;

/// The most coats that a paint's own page shows.
const MOST_COATS: u8 = 5;

/// Two ordinary coats of a paint over white and black card, predicted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BrushOut {
    /// Over the white card.
    pub over_white: Colour,
    /// Over the black card.
    pub over_black: Colour,
    /// Of a one-coat paint, flooded over white: where it pools, and where it draws back.
    pub pooled: Option<[Colour; 2]>,
    /// How the paint shines.
    pub sheen: Sheen,
    /// How many coats hide black and white, at least and at most; `None`: more than anybody lays.
    pub hides_after: (u32, Option<u32>),
    /// What the prediction rests on.
    pub evidence: Evidence,
    /// How far it may be off.
    pub uncertainty: Uncertainty,
    /// Whether its strength can't be seen in what is given, so that a tint would tell much.
    pub wants_tint: bool,
}

/// The brush-outs of all paints whose colour is known, by their ids.
pub type BrushOuts = BTreeMap<String, BrushOut>;

/// Brushes out every paint of a guide, in parallel. A check has no need of it, so it is done for the pages alone.
pub fn brush_outs(worked: &Worked) -> BrushOuts {
    let shelf = &worked.conditions.shelf;
    let brushed = |paint: &Paint| {
        let pigment = shelf.pigment(&paint.id)?;
        let brush_out = BrushOut::of(paint, pigment, shelf.surface())?;
        let pooled = pooled(paint, pigment, worked);
        Some((paint.id.clone(), BrushOut { pooled, ..brush_out }))
    };
    worked.guide.paints.par_iter().filter_map(|paint| brushed(paint)).collect()
}

/// How a one-coat paint lies that was flooded over white: deep in recesses, thin on edges.
fn pooled(paint: &Paint, pigment: &Pigment, worked: &Worked) -> Option<[Colour; 2]> {
    if paint.kind != Kind::OneCoat {
        return None;
    }
    let mixture = Mixture::of(&[(pigment, 1.0)])?;
    let bench = &worked.conditions.bench;
    let flooded = bench.get(Figure::WetOneCoat) / bench.get(Figure::HidingCoat).max(f64::MIN_POSITIVE);
    let card = Stack::on(&Ground::grey(WHITE_CARD), worked.conditions.shelf.surface());
    let lies = |figure: Figure| card.lay(&mixture, flooded * bench.get(figure)).colour();
    Some([lies(Figure::OneCoatInRecesses), lies(Figure::OneCoatOnEdges)])
}

/// One to five coats of a paint over white and over black card, predicted; `None` for what has no colour that is known.
pub fn coats_on_card(worked: &Worked, paint: &str) -> Option<Vec<[Colour; 2]>> {
    let shelf = &worked.conditions.shelf;
    let mixture = Mixture::of(&[(shelf.pigment(paint)?, 1.0)])?;
    let cards = [WHITE_CARD, BLACK_CARD].map(|card| Stack::on(&Ground::grey(card), shelf.surface()));
    let laid = |coats: u8| cards.each_ref().map(|card| card.lay(&mixture, f64::from(coats)).colour());
    Some((1..=MOST_COATS).map(laid).collect())
}

impl BrushOut {
    /// `None` for what is clear and colourless.
    fn of(paint: &Paint, pigment: &Pigment, surface: Surface) -> Option<Self> {
        let mixture = Mixture::of(&[(pigment, 1.0)])?;
        Self::of_mixture(&mixture, paint.sheen, surface).map(|known| Self { wants_tint: pigment.wants_tint, ..known })
    }

    /// A pot, brushed out as if nothing thinned it; `None` where a colour in it is not known.
    pub fn of_pot(pot: &Pot, shelf: &Shelf) -> Option<Self> {
        let coloured: Vec<_> = pot.mix.parts.iter().filter(|part| part.paint.kind.has_colour()).collect();
        let parts = coloured.iter().map(|part| Some((shelf.pigment(&part.paint.id)?, part.amount.as_f64())));
        let mixture = Mixture::of(&parts.collect::<Option<Vec<_>>>()?)?;
        Self::of_mixture(&mixture, coloured.first()?.paint.sheen, shelf.surface())
    }

    fn of_mixture(mixture: &Mixture, sheen: Sheen, surface: Surface) -> Option<Self> {
        let evidence = mixture.evidence?;
        let over = |card: f64| Stack::on(&Ground::grey(card), surface).lay(mixture, COATS);
        let (white, black) = (over(WHITE_CARD), over(BLACK_CARD));
        Some(Self {
            over_white: white.colour(),
            over_black: black.colour(),
            pooled: None,
            sheen,
            hides_after: coats::coats_to_hide_between(mixture, 1.0),
            evidence,
            uncertainty: white.uncertainty()?.or_more(black.uncertainty()?),
            wants_tint: false,
        })
    }
}
