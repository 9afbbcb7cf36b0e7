//! The studio: bakes views and draws pictures, each once.

use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, OnceLock, PoisonError};

use booth::{AreaLook, Baked};
use image::RgbImage;
use sha2::{Digest, Sha256};

use super::sitter::Sitter;

/// Baked views of so many bytes are kept together; beyond that all are let go.
const MOST_BAKED: usize = 400_000_000;

/// Pictures of so many bytes are kept together.
const MOST_DRAWN: usize = 100_000_000;

/// Counts up whenever the same guide gives other pictures.
const MAKING: &str = "5";

/// One of the sizes of a picture.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Cut {
    /// For the strip of steps: what the step changed is a little brighter, the rest paler.
    Tiny,
    /// For a phone and for lists.
    Small,
    /// For wide and fine screens.
    Large,
}

impl Cut {
    /// All of them, the smallest first.
    pub const ALL: [Self; 3] = [Self::Tiny, Self::Small, Self::Large];

    /// Those that a page chooses from.
    pub const FOR_PAGES: [Self; 2] = [Self::Small, Self::Large];

    /// How many pixels of the largest picture are one of it, across and down.
    fn part(self) -> usize {
        match self {
            Self::Tiny => 6,
            Self::Small => 2,
            Self::Large => 1,
        }
    }
}

/// A picture in all sizes.
#[derive(Debug)]
pub struct Drawn {
    sizes: [Vec<u8>; 3],
}

impl Drawn {
    /// The bytes of one size.
    pub fn bytes(&self, cut: Cut) -> &[u8] {
        match cut {
            Cut::Tiny => &self.sizes[0],
            Cut::Small => &self.sizes[1],
            Cut::Large => &self.sizes[2],
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
    /// Width and height of the pictures of a sitter, in one size; `None` where nothing of it can be drawn.
    pub fn size(sitter: Sitter<'_>, cut: Cut) -> Option<(u32, u32)> {
        let (width, height) = sitter.size()?;
        let part = cut.part();
        Some((u32::try_from((width / part).max(1)).ok()?, u32::try_from((height / part).max(1)).ok()?))
    }

    /// What the pictures of a sitter in some looks are known by: the same for the same picture, in this and in later runs.
    pub fn mark(sitter: Sitter<'_>, looks: &[AreaLook], rest: &AreaLook) -> String {
        let shown = shown(&seen(sitter), looks, rest);
        shown.iter().map(|byte| format!("{byte:02x}")).collect()
    }

    /// The picture of a sitter in the looks of its areas; `rest` is how what belongs to none of them looks.
    pub fn picture(&self, sitter: Sitter<'_>, looks: &[AreaLook], rest: &AreaLook) -> Option<Arc<Drawn>> {
        let seen = seen(sitter);
        let weight =
            |drawn: &Option<Arc<Drawn>>| drawn.as_ref().map_or(0, |drawn| drawn.sizes.iter().map(Vec::len).sum());
        let slot = once(&self.drawn, shown(&seen, looks, rest), weight, MOST_DRAWN);
        slot.get_or_init(|| self.draw(sitter, seen, looks, rest).map(Arc::new)).clone()
    }

    /// The picture as paper wants it: on white, and with a line around every area, so that it is read in grey too.
    pub fn on_paper(&self, sitter: Sitter<'_>, looks: &[AreaLook], rest: &AreaLook) -> Option<RgbImage> {
        let slot = self.baked(seen(sitter));
        let baked = slot.get_or_init(|| sitter.bake()).as_ref()?;
        let pixels = baked.lined(&baked.shade(looks, rest));
        let [width, height] = [pixels.width, pixels.height].map(u32::try_from);
        RgbImage::from_raw(width.ok()?, height.ok()?, pixels.bytes)
    }

    fn draw(&self, sitter: Sitter<'_>, seen: Mark, looks: &[AreaLook], rest: &AreaLook) -> Option<Drawn> {
        let slot = self.baked(seen);
        let baked = slot.get_or_init(|| sitter.bake()).as_ref()?;
        let [tiny, small, large] = baked.develop(&baked.shade(looks, rest));
        Some(Drawn { sizes: [tiny.jpeg()?, small.jpeg()?, large.jpeg()?] })
    }

    /// The place of a baked view.
    fn baked(&self, seen: Mark) -> Once<Option<Baked>> {
        let weight = |baked: &Option<Baked>| baked.as_ref().map_or(0, Baked::weight);
        once(&self.baked, seen, weight, MOST_BAKED)
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

/// What a view of a sitter is known by.
fn seen(sitter: Sitter<'_>) -> Mark {
    mark(&[sitter.mark(), format!("{MAKING} {} {}", env!("CARGO_PKG_VERSION"), sitter.seen_from()).as_bytes()])
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

#[cfg(test)]
mod tests {
    use booth::{Mesh, Shine, Tone, View};

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
            let [.., picture] = baked.develop(&baked.shade(&[look(colour)], &AreaLook::default()));
            let middle = (picture.height / 2 * picture.width + picture.width / 2) * 3;
            let seen = Colour([0, 1, 2].map(|at| picture.bytes[middle + at]));
            assert!(space::difference(seen, colour) < 1.5, "{seen:?} for {colour:?}");
            let packed = image::load_from_memory(&picture.jpeg().unwrap()).unwrap().to_rgb8().into_raw();
            let packed = Colour([0, 1, 2].map(|at| packed[middle + at]));
            assert!(space::difference(packed, colour) < 1.5, "{packed:?} for {colour:?}, packed");
        }
    }

    /// A large square and a small one before it, which are areas of their own.
    fn large_and_small() -> Mesh {
        let corner = |x: f32, y: f32, z: f32| [x, y, z];
        let square = |from: f32, to: f32, z: f32| {
            [corner(from, from, z), corner(to, from, z), corner(to, to, z), corner(from, to, z)]
        };
        let corners = [square(0.0, 10.0, 0.0), square(4.6, 5.4, 0.2)].concat();
        Mesh { corners, faces: vec![[0, 1, 2], [0, 2, 3], [4, 5, 6], [4, 6, 7]], areas: vec![0, 0, 1, 1] }
    }

    #[test]
    fn what_is_new_and_small_is_shown_near_in_a_corner() {
        let view = View { turn: 0.0, height: 0.0, near: None, width: 480 };
        let [grey, red] = [look(Colour([120, 120, 120])), look(Colour([180, 30, 30]))];
        let new = |look: &AreaLook| AreaLook { lifted: true, ..look.clone() };
        let reds = |mesh: &Mesh, looks: &[AreaLook]| {
            let baked = Baked::of(mesh, &view).unwrap();
            let [.., picture] = baked.develop(&baked.shade(looks, &AreaLook::default()));
            picture.bytes.chunks_exact(3).filter(|pixel| pixel[0] > 100 && pixel[1] < 60).count()
        };
        let (old, small, large) = ([grey.clone(), red.clone()], [grey.clone(), new(&red)], [new(&grey), red.clone()]);
        // Of the large square half is left, so that a corner of the picture is free.
        let mut halved = large_and_small();
        halved.faces.remove(1);
        halved.areas.remove(1);
        let plain = reds(&halved, &old);
        assert!(plain > 300 && reds(&halved, &small) > 2 * plain, "{plain}, then {}", reds(&halved, &small));
        assert_eq!(reds(&halved, &large), plain, "what is large needs no near view");
        let full = large_and_small();
        assert_eq!(reds(&full, &small), reds(&full, &old), "no corner is free, and nothing of the model is hidden");
    }

    #[test]
    fn on_paper_an_area_ends_at_a_line_even_where_both_are_alike_in_grey() {
        let view = View { turn: 0.0, height: 0.0, near: None, width: 240 };
        let baked = Baked::of(&large_and_small(), &view).unwrap();
        let looks = [look(Colour([120, 120, 120])), look(Colour([120, 120, 120]))];
        let picture = baked.lined(&baked.shade(&looks, &AreaLook::default()));
        assert_eq!((picture.width, picture.bytes.len()), (120, 120 * picture.height * 3));
        let row = picture.height / 2 * picture.width;
        let line: Vec<u8> = (0..picture.width).map(|x| picture.bytes[(row + x) * 3]).collect();
        assert!(line[0] > 235, "white around the model: {line:?}");
        let dark = |part: &[u8]| part.windows(2).filter(|pair| pair[0] >= 80 && pair[1] < 80).count();
        assert_eq!(dark(&line), 2, "the two sides of the small square: {line:?}");
    }

    #[test]
    fn the_same_is_drawn_alike() {
        let view = View { turn: 30.0, height: 20.0, near: None, width: 64 };
        let draw = || {
            let baked = Baked::of(&squares(), &view).unwrap();
            baked.develop(&baked.shade(&[look(Colour([90, 60, 30]))], &AreaLook::default()))
        };
        assert_eq!(draw(), draw());
        assert_eq!(Baked::size(&squares(), &view), Some((64, draw()[2].height)));
        assert!(Baked::of(&Mesh::default(), &view).is_none());
    }
}
