//! The studio: bakes views and draws pictures, each once.

use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, OnceLock, PoisonError};

use booth::{AreaLook, Baked, View};
use sha2::{Digest, Sha256};

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

    /// What the pictures of a shape in some looks are known by: the same for the same picture, in this and in later runs.
    pub fn mark(shape: &Shape, viewpoint: Viewpoint, looks: &[AreaLook], rest: &AreaLook) -> String {
        let shown = shown(&seen(shape, viewpoint), looks, rest);
        shown.iter().map(|byte| format!("{byte:02x}")).collect()
    }

    /// The picture of a shape in the looks of its areas; `rest` is how what belongs to none of them looks.
    pub fn picture(
        &self,
        shape: &Shape,
        viewpoint: Viewpoint,
        looks: &[AreaLook],
        rest: &AreaLook,
    ) -> Option<Arc<Drawn>> {
        let seen = seen(shape, viewpoint);
        let weight =
            |drawn: &Option<Arc<Drawn>>| drawn.as_ref().map_or(0, |drawn| drawn.sizes.iter().map(Vec::len).sum());
        let slot = once(&self.drawn, shown(&seen, looks, rest), weight, MOST_DRAWN);
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
        Some(Drawn { sizes: [small.jpeg()?, large.jpeg()?] })
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

/// What a view of a shape is known by.
fn seen(shape: &Shape, viewpoint: Viewpoint) -> Mark {
    mark(&[&shape.mark, format!("{MAKING} {} {viewpoint:?}", env!("CARGO_PKG_VERSION")).as_bytes()])
}

/// What a picture is known by: the view, and the looks in it.
fn shown(seen: &Mark, looks: &[AreaLook], rest: &AreaLook) -> Mark {
    mark(&[seen, format!("{looks:?} {rest:?}").as_bytes()])
}

fn mark(parts: &[&[u8]]) -> Mark {
    let mut hash = Sha256::new();
    for part in parts {
        hash.update(part);
    }
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

#[cfg(test)]
mod tests {
    use booth::{Mesh, Shine, Tone};

    use super::*;
    use crate::colour::space;
    use crate::measure::Colour;

    /// A square that looks into the light, and one that lies in its shadow.
    fn squares() -> Mesh {
        let (right, up) = ([4.0, 0.0, 1.2], [-0.4, 3.4, -2.6]);
        let corner = |x: f32, y: f32| [0, 1, 2].map(|at: usize| right[at] * x + up[at] * y);
        let corners = vec![corner(0.0, 0.0), corner(1.0, 0.0), corner(1.0, 1.0), corner(0.0, 1.0)];
        Mesh { corners, faces: vec![[0, 1, 2], [0, 2, 3]], areas: vec![0, 0] }
    }

    fn look(colour: Colour) -> AreaLook {
        let linear = space::linear(colour);
        #[expect(clippy::cast_possible_truncation, reason = "light from 0 to 1")]
        let colour = [linear.red, linear.green, linear.blue].map(|channel| channel as f32);
        AreaLook { zones: [Tone { colour, off_glint: None, shine: Shine::Matt }; 3], ..AreaLook::default() }
    }

    #[test]
    fn what_looks_into_the_light_has_the_colour_that_was_predicted() {
        let view = View { turn: 0.0, height: 20.0, near: None, width: 96 };
        let baked = Baked::of(&squares(), &view).unwrap();
        for colour in [[0xb5, 0x65, 0x0f], [0x2f, 0x67, 0x69], [0xe9, 0xdc, 0xb8], [0x30, 0x20, 0x18]].map(Colour) {
            let [_, picture] = baked.develop(&baked.shade(&[look(colour)], &AreaLook::default()));
            let middle = (picture.height / 2 * picture.width + picture.width / 2) * 3;
            let seen = Colour([0, 1, 2].map(|at| picture.bytes[middle + at]));
            assert!(space::difference(seen, colour) < 1.5, "{seen:?} for {colour:?}");
        }
    }

    #[test]
    fn the_same_is_drawn_alike() {
        let view = View { turn: 30.0, height: 20.0, near: None, width: 64 };
        let draw = || {
            let baked = Baked::of(&squares(), &view).unwrap();
            baked.develop(&baked.shade(&[look(Colour([90, 60, 30]))], &AreaLook::default()))
        };
        assert_eq!(draw(), draw());
        assert_eq!(Baked::size(&squares(), &view), Some((64, draw()[1].height)));
        assert!(Baked::of(&Mesh::default(), &view).is_none());
    }
}
