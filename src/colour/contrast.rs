//! How well a film hides: the contrast ratio of ISO 6504-3, luminance over black by luminance over white.

use super::bands;
use super::constants::{
    BLACK_CARD, BLACK_RATIO, BLACK_SPREAD, CLASS_SCATTER, CLASS_SPREAD, CLEAR_RATIO, CLEAR_SPREAD, DARKER_SCATTER,
    DARKEST_OF_CLASS, FLAKE_RATIO, FLAKE_SPREAD, LIGHT_PAINTS, LIGHT_SCATTER, MOST_COATS, STAIN_LEAST, STAIN_SCATTER,
    STAIN_SPREAD, WHITE_CARD, WHITE_RATIO, WHITE_SPREAD,
};
use super::depths::Depths;
use super::space;
use super::surface::{Inner, Outer, Surface};
use crate::trade::Hiding;

/// The black card under this skin.
pub fn black_card(surface: Surface) -> Inner {
    surface.inner(&Outer::grey(BLACK_CARD))
}

/// The white card under this skin.
pub fn white_card(surface: Surface) -> Inner {
    surface.inner(&Outer::grey(WHITE_CARD))
}

/// The contrast ratio of a film, from 0.02 for nothing to 1 for one that hides everything.
///
/// A matter of the film alone: nothing is mirrored off the surface.
pub fn contrast_ratio(film: &Depths) -> f64 {
    let cards = [black_card(Surface::CHART), white_card(Surface::CHART)];
    let [black, white] = film.over_each(&cards).map(|below| Surface::CHART.outer(&below).luminance());
    black / white.max(1e-9)
}

/// The first count of coats that hides. Every coat hides a little more, so halving the range finds it.
pub(crate) fn first(hides: impl Fn(u32) -> bool) -> Option<u32> {
    if !hides(MOST_COATS) {
        return None;
    }
    let (mut shows, mut hidden) = (0, MOST_COATS);
    while hidden - shows > 1 {
        let middle = u32::midpoint(shows, hidden);
        if hides(middle) { hidden = middle } else { shows = middle }
    }
    Some(hidden)
}

/// What is held of the contrast ratio of one nominal coat before it is measured.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cover {
    /// The contrast ratio.
    pub ratio: f64,
    /// The standard deviation of its logit.
    pub spread: f64,
}

impl Cover {
    /// A tinted clear hardly scatters: an estimate.
    pub const CLEAR: Self = Self { ratio: CLEAR_RATIO, spread: CLEAR_SPREAD };

    /// What a hiding class says of metal flakes.
    pub fn of_flakes(hiding: Hiding) -> Self {
        Self { ratio: FLAKE_RATIO[hiding as usize], spread: FLAKE_SPREAD }
    }

    /// What a hiding class says of a black, which hides by what it absorbs.
    pub fn of_black(hiding: Hiding) -> Self {
        Self { ratio: BLACK_RATIO[hiding as usize], spread: BLACK_SPREAD }
    }

    /// What a hiding class says of a white.
    pub fn of_white(hiding: Hiding) -> Self {
        Self { ratio: WHITE_RATIO[hiding as usize], spread: WHITE_SPREAD }
    }
}

/// What is held of how an ordinary coat scatters before it is measured: the mean of ln S over all bands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Scatter {
    /// The mean of ln S.
    pub level: f64,
    /// Its standard deviation.
    pub spread: f64,
}

impl Scatter {
    /// What a hiding class says of a paint of this CIE lightness; of one whose lightness is not known, what it says of a middling one.
    pub fn of_class(hiding: Hiding, lightness: Option<f64>) -> Self {
        let (from, to) = LIGHT_PAINTS;
        let (level, of_light) = (CLASS_SCATTER[hiding as usize], LIGHT_SCATTER[hiding as usize]);
        let above = lightness.unwrap_or(from).max(DARKEST_OF_CLASS) - from;
        let more =
            if above < 0.0 { above * DARKER_SCATTER } else { (above / (to - from)).min(1.0) * (of_light - level) };
        Self { level: level + more, spread: CLASS_SPREAD }
    }

    /// The same of what is sold to tint and to run, whose colour over white has this luminance: washes, inks, one-coat
    /// paints. What is dark in deep layers hardly scatters.
    pub fn of_stain(hiding: Hiding, luminance: f64) -> Self {
        let scattered = STAIN_SCATTER[hiding as usize] * luminance.max(STAIN_LEAST);
        Self { level: scattered.ln(), spread: STAIN_SPREAD }
    }

    /// The mean ln S of a film.
    pub fn level_of(film: &Depths) -> f64 {
        film.scattered.iter().map(|depth| depth.max(1e-6).ln()).sum::<f64>() / bands::COUNT as f64
    }
}

/// The hiding class that a maker would print on a paint of which one nominal coat is this film.
///
/// By what it scatters for its lightness; a white, and whatever else absorbs hardly anything, by its contrast ratio.
pub fn class_of(film: &Depths, white: bool) -> Hiding {
    let (seen, held): (f64, [f64; 4]) = if white {
        (logit(contrast_ratio(film)), WHITE_RATIO.map(logit))
    } else {
        let lightness = space::lab(Surface::CHART.outer(&film.opaque()).linear_rgb()).l;
        let level = |class: &Hiding| Scatter::of_class(*class, Some(lightness)).level;
        let mut held = [0.0; 4];
        held.iter_mut().zip(Hiding::ALL).for_each(|(held, class)| *held = level(class));
        (Scatter::level_of(film), held)
    };
    let off = |class: Hiding| (held[class as usize] - seen).abs();
    let nearer = |near: Hiding, class: &Hiding| if off(*class) < off(near) { *class } else { near };
    Hiding::ALL.iter().fold(Hiding::Opaque, nearer)
}

fn logit(ratio: f64) -> f64 {
    let ratio = ratio.clamp(1e-6, 1.0 - 1e-6);
    (ratio / (1.0 - ratio)).ln()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_class_means_more_of_a_light_paint_and_less_of_a_dark_one() {
        for hiding in Hiding::ALL {
            let level = |lightness: f64| Scatter::of_class(*hiding, Some(lightness)).level;
            let all = [20.0, 45.0, 60.0, 80.0, 95.0].map(level);
            assert!(all.is_sorted() && level(20.0) < level(45.0), "{hiding}: {all:?}");
            assert!((level(80.0) - level(95.0)).abs() < 1e-12);
            let of_class = Scatter::of_class(*hiding, None).level;
            assert!((of_class - CLASS_SCATTER[*hiding as usize]).abs() < 1e-12);
        }
    }

    #[test]
    fn the_class_of_a_film_is_the_one_that_says_what_it_scatters() {
        for (absorbed, hiding) in [(0.02, Hiding::SemiOpaque), (0.5, Hiding::SemiTransparent), (4.0, Hiding::Opaque)] {
            let film = |level: f64| Depths { absorbed: [absorbed * level.exp(); 36], scattered: [level.exp(); 36] };
            let lightness = space::lab(Surface::CHART.outer(&film(0.0).opaque()).linear_rgb()).l;
            assert_eq!(class_of(&film(Scatter::of_class(hiding, Some(lightness)).level), false), hiding);
        }
    }
}
