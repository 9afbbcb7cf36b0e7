//! The studio: bakes views and draws pictures, each once.

use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, OnceLock, PoisonError};

use booth::{AreaLook, Baked, View};
use sha2::{Digest, Sha256};

use super::pack;
use crate::guide::Viewpoint;
use crate::mesh::Shape;
use crate::trade::Side;

/// Pixels across the larger of the two sizes; the smaller one is half of it.
const WIDE: usize = 960;

/// Baked views of so many bytes are kept together; beyond that all are let go.
const MOST_BAKED: usize = 400_000_000;

/// Pictures of so many bytes are kept together.
const MOST_DRAWN: usize = 100_000_000;

/// Counts up whenever the same guide gives other pictures.
const MAKING: &str = "1";

/// One of the sizes of a picture.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Cut {
    /// For a phone and for lists.
    Small,
    /// For wide and fine screens.
    Large,
}

impl Cut {
    /// Both, the smaller first.
    pub const ALL: [Self; 2] = [Self::Small, Self::Large];
}

/// A picture in both sizes.
#[derive(Debug)]
pub struct Drawn {
    sizes: [Vec<u8>; 2],
}

impl Drawn {
    /// The bytes of one size.
    pub fn bytes(&self, cut: Cut) -> &[u8] {
        match cut {
            Cut::Small => &self.sizes[0],
            Cut::Large => &self.sizes[1],
        }
    }
}

type Mark = [u8; 32];

/// Something that is made by the first who asks for it, while others wait.
type Once<T> = Arc<OnceLock<T>>;

/// Views and pictures that were made before.
#[derive(Debug, Default)]
pub struct Studio {
    baked: Mutex<BTreeMap<Mark, Once<Option<Baked>>>>,
    drawn: Mutex<BTreeMap<Mark, Once<Option<Arc<Drawn>>>>>,
}

impl Studio {
    /// Width and height of the pictures of a shape, in one size; `None` where it has no surface.
    pub fn size(shape: &Shape, viewpoint: Viewpoint, cut: Cut) -> Option<(u32, u32)> {
        let (width, height) = Baked::size(&shape.drawn, &view(viewpoint))?;
        let part = if cut == Cut::Small { 2 } else { 1 };
        Some((u32::try_from(width / part).ok()?, u32::try_from(height / part).ok()?))
    }

    /// The picture of a shape in the looks of its areas; `rest` is how what belongs to none of them looks.
    pub fn picture(
        &self,
        shape: &Shape,
        viewpoint: Viewpoint,
        looks: &[AreaLook],
        rest: &AreaLook,
    ) -> Option<Arc<Drawn>> {
        let seen = mark(&[&shape.mark, format!("{MAKING} {viewpoint:?}").as_bytes()]);
        let shown = mark(&[&seen, format!("{looks:?} {rest:?}").as_bytes()]);
        let slot = once(&self.drawn, shown, |drawn| {
            drawn.as_ref().map_or(0, |drawn| drawn.sizes.iter().map(Vec::len).sum())
        }, MOST_DRAWN);
        slot.get_or_init(|| self.draw(shape, viewpoint, seen, looks, rest).map(Arc::new)).clone()
    }

    fn draw(
        &self,
        shape: &Shape,
        viewpoint: Viewpoint,
        seen: Mark,
        looks: &[AreaLook],
        rest: &AreaLook,
    ) -> Option<Drawn> {
        let weight = |baked: &Option<Baked>| baked.as_ref().map_or(0, Baked::weight);
        let slot = once(&self.baked, seen, weight, MOST_BAKED);
        let baked = slot.get_or_init(|| Baked::of(&shape.drawn, &view(viewpoint))).as_ref()?;
        let [small, large] = baked.develop(&baked.shade(looks, rest));
        Some(Drawn { sizes: [pack::jpeg(&small)?, pack::jpeg(&large)?] })
    }
}

/// The place of something that is made once. Where all together weighs too much, what is there is let go.
fn once<T>(kept: &Mutex<BTreeMap<Mark, Once<T>>>, mark: Mark, weight: impl Fn(&T) -> usize, most: usize) -> Once<T> {
    let mut kept = kept.lock().unwrap_or_else(PoisonError::into_inner);
    if !kept.contains_key(&mark) {
        let all: usize = kept.values().filter_map(|slot| slot.get()).map(weight).sum();
        if all > most {
            kept.clear();
        }
    }
    Arc::clone(kept.entry(mark).or_default())
}

fn mark(parts: &[&[u8]]) -> Mark {
    let mut hash = Sha256::new();
    parts.iter().for_each(|part| hash.update(part));
    hash.finalize().into()
}

/// The camera of a viewpoint: without one, from the front, a little to the left and a little above.
fn view(viewpoint: Viewpoint) -> View {
    View {
        turn: viewpoint.side.unwrap_or(Side::FrontLeft).turn(),
        height: f32::from(viewpoint.height.unwrap_or(14)),
        near: viewpoint.near.and_then(|area| u16::try_from(area).ok()),
        width: WIDE,
    }
}
