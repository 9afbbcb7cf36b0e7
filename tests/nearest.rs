//! The nearest paints and mixes, held against looking at every single one.

use std::fmt::Write as _;
use std::sync::Arc;
use std::time::Instant;

use maulstick::colour::{Mixture, Shelf, difference, space};
use maulstick::door::Memory;
use maulstick::guide::{Guide, Paint};
use maulstick::nearest::{Alike, FARTHEST, Rack, Wanted, substitutes};
use maulstick::story;

/// A guide with these lines of paints.
fn guide(paints: &str) -> Guide {
    let door = Memory::default()
        .with("content/guide.yaml", "title: Fen\nauthor: Quill Hollis\n")
        .with("content/paints/mere.yaml", format!("maker: Tarn\nrange: Mere\nfamily: water\npaints:\n{paints}"));
    story::check(&door).unwrap().worked.guide
}

/// So many paints of all colours, by a fixed sequence.
fn many(count: usize) -> String {
    let mut state = 0x2545_f491_4f6c_dd1d_u64;
    let mut next = |below: u64| {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (state >> 33) % below
    };
    let mut text = String::new();
    for at in 0..count {
        let colour = format!("#{:02x}{:02x}{:02x}", 20 + next(220), 20 + next(220), 20 + next(220));
        let hiding = ["opaque", "semi-opaque", "semi-transparent", "transparent"][usize::try_from(next(4)).unwrap()];
        let kind = ["paint", "paint", "paint", "metal", "clear"][usize::try_from(next(5)).unwrap()];
        let gone = next(10) == 0;
        writeln!(
            text,
            "  p{at}: {{name: P {at}, kind: {kind}, colour: \"{colour}\", hiding: {hiding}, discontinued: {gone}}}"
        )
        .unwrap();
    }
    text
}

fn paint<'a>(guide: &'a Guide, id: &str) -> &'a Arc<Paint> {
    guide.paints.iter().find(|paint| paint.id == id).unwrap()
}

fn wanted<'a>(rack: &Rack, paint: &'a Paint) -> Wanted<'a> {
    Wanted::in_place_of(paint, rack.look(paint))
}

fn ids(found: &[maulstick::nearest::Near]) -> Vec<&str> {
    found.iter().map(|near| near.paint.id.as_str()).collect()
}

#[test]
fn the_rack_finds_what_looking_at_all_of_them_finds() {
    let guide = guide(&many(400));
    let rack = Rack::of(&guide.paints);
    for own in &guide.paints {
        let mut all: Vec<f64> = guide
            .paints
            .iter()
            .filter(|other| {
                other.kind == own.kind
                    && !other.discontinued
                    && (other.hiding as i32 - own.hiding as i32).abs() <= 1
                    && other.id != own.id
            })
            .map(|other| difference(own.colour.unwrap(), other.colour.unwrap()))
            .filter(|apart| *apart <= FARTHEST)
            .collect();
        all.sort_by(f64::total_cmp);
        let found: Vec<f64> = rack.nearest(&wanted(&rack, own), 4).iter().map(|near| near.delta_e().unwrap()).collect();
        for (found, wanted) in found.iter().zip(&all) {
            assert!((found - wanted).abs() < 0.06, "{}: {found} and {wanted}", own.id);
        }
        assert_eq!(found.len(), 4.min(all.len()));
    }
}

#[test]
fn metals_go_with_metals_and_what_is_gone_is_never_proposed() {
    let guide = guide(
        "  gold: {name: Gold, kind: metal, colour: \"#a2823f\"}\n  \
         brass: {name: Brass, kind: metal, colour: \"#b08a40\"}\n  \
         foil: {name: Foil, kind: paint, sheen: metallic, hiding: semi-opaque, colour: \"#a4843f\"}\n  \
         ochre: {name: Ochre, kind: paint, colour: \"#a2823f\"}\n  \
         old-gold: {name: Old Gold, kind: metal, colour: \"#a2823f\", discontinued: true}\n",
    );
    assert_eq!(ids(&substitutes(paint(&guide, "gold"), &guide.paints, 5)), ["foil", "brass"]);
    assert_eq!(ids(&substitutes(paint(&guide, "old-gold"), &guide.paints, 1)), ["gold"]);
    assert!(substitutes(paint(&guide, "ochre"), &guide.paints, 5).is_empty());
}

#[test]
fn a_spray_can_takes_no_bottles_place_and_what_is_far_off_is_not_near() {
    let guide = guide(
        "  black: {name: Black, kind: primer, colour: \"#202020\"}\n  \
         can: {name: Can, kind: primer, colour: \"#202020\", hazards: [H222, H229]}\n  \
         big-can: {name: Big Can, kind: primer, colour: \"#222222\", hazards: [H222, H229]}\n  \
         grey: {name: Grey, kind: primer, colour: \"#303030\"}\n  \
         white: {name: White, kind: primer, colour: \"#f0f0f0\"}\n",
    );
    assert_eq!(ids(&substitutes(paint(&guide, "black"), &guide.paints, 5)), ["grey"]);
    assert_eq!(ids(&substitutes(paint(&guide, "can"), &guide.paints, 5)), ["big-can"]);
    assert!(substitutes(paint(&guide, "white"), &guide.paints, 5).is_empty());
}

#[test]
fn inks_and_clears_tint_what_is_painted() {
    let guide = guide(
        "  wanted: {name: Wanted, kind: paint, colour: \"#8a2a2e\", discontinued: true}\n  \
         rose: {name: Rose, kind: paint, colour: \"#c85a5c\"}\n  \
         blood: {name: Blood, kind: ink, hiding: transparent, colour: \"#7a0c14\"}\n  \
         ruby: {name: Ruby, kind: clear, hiding: transparent, colour: \"#b01020\"}\n  \
         gold: {name: Gold, kind: metal, colour: \"#a2823f\"}\n",
    );
    let rack = Rack::of(&guide.paints);
    let blends = rack.blends(&wanted(&rack, paint(&guide, "wanted")), 5);
    assert!(!blends.is_empty());
    for blend in &blends {
        let ids = blend.parts.each_ref().map(|(paint, _)| paint.id.as_str());
        assert!(ids.contains(&"rose") && (ids.contains(&"blood") || ids.contains(&"ruby")), "{ids:?}");
        assert_eq!(blend.is_theory_alone(), ids.contains(&"ruby"));
        assert!(blend.apart.off.nine_in_ten >= blend.uncertainty.unwrap().nine_in_ten);
    }
}

#[test]
fn what_has_no_colour_is_replaced_by_what_does_the_same_work() {
    let guide = guide(
        "  gloss: {name: Gloss, kind: varnish, sheen: gloss, discontinued: true}\n  \
         dull: {name: Dull, kind: varnish, sheen: matt}\n  \
         shiny: {name: Shiny, kind: varnish, sheen: gloss}\n  \
         hot: {name: Hot, kind: varnish, sheen: gloss, family: lacquer}\n  \
         spirit: {name: Spirit, kind: thinner, suits: [enamel, oil], discontinued: true}\n  \
         oil-only: {name: Oil Only, kind: thinner, suits: [oil]}\n  \
         both: {name: Both, kind: thinner, suits: [oil, enamel, lacquer]}\n  \
         quick: {name: Instant Glue, kind: glue}\n  \
         pva: {name: White Glue, kind: glue}\n  \
         other-ca: {name: Thin CA, kind: glue}\n",
    );
    assert_eq!(ids(&substitutes(paint(&guide, "gloss"), &guide.paints, 5)), ["shiny", "dull"]);
    assert_eq!(ids(&substitutes(paint(&guide, "spirit"), &guide.paints, 5)), ["both"]);
    assert_eq!(ids(&substitutes(paint(&guide, "quick"), &guide.paints, 5)), ["other-ca"]);
    assert_eq!(ids(&substitutes(paint(&guide, "pva"), &guide.paints, 5)), [""; 0]);
}

#[test]
fn a_paint_known_by_swatches_alone_has_neighbours_and_one_without_any_has_none() {
    let guide = guide(
        "  brushed: {name: Brushed, kind: paint, swatches: [{over: white, coats: 3, colour: \"#804030\"}, \
         {over: black, coats: 3, colour: \"#7e3f2f\"}]}\n  \
         brick: {name: Brick, kind: paint, colour: \"#80402f\"}\n  \
         unsaid: {name: Unsaid, kind: paint}\n",
    );
    let near = &substitutes(paint(&guide, "brushed"), &guide.paints, 1)[0];
    assert_eq!(near.paint.id, "brick");
    assert!(near.delta_e().unwrap() < 2.0, "{near:?}");
    assert!(near.apart.unwrap().off.nine_in_ten > 2.0, "one of the two is predicted: {near:?}");
    assert!(substitutes(paint(&guide, "unsaid"), &guide.paints, 1).is_empty());
}

#[test]
fn words_follow_the_number() {
    assert_eq!([0.99, 1.0, 4.99, 5.0].map(Alike::of), [Alike::Same, Alike::Close, Alike::Close, Alike::Different]);
}

/// The nearest mix by predicting every ratio of every pair.
fn best_of_all(guide: &Guide, own: &Paint) -> f64 {
    let shelf = Shelf::of(&guide.paints);
    let wanted = space::lab(space::linear(own.colour.unwrap()));
    let fit = guide.paints.iter().filter(|other| {
        other.kind == own.kind
            && !other.discontinued
            && other.id != own.id
            && (other.hiding as i32 - own.hiding as i32).abs() <= 1
    });
    let fit: Vec<&Arc<Paint>> = fit.collect();
    let mut best = f64::INFINITY;
    for (at, one) in fit.iter().enumerate() {
        for other in &fit[at + 1..] {
            for (parts, others) in (1..=6).flat_map(|one| (1..=6).map(move |other| (f64::from(one), f64::from(other))))
            {
                let pigments = [shelf.pigment(&one.id).unwrap(), shelf.pigment(&other.id).unwrap()];
                let mix = Mixture::of(&[(pigments[0], parts), (pigments[1], others)]).unwrap();
                let linear = if own.kind.name() == "clear" {
                    mix.over_white(2.0, shelf.surface())
                } else {
                    mix.opaque(shelf.surface())
                };
                best = best.min(space::lab_difference(wanted, space::lab(linear)));
            }
        }
    }
    best
}

#[test]
fn a_pruned_search_for_mixes_misses_little() {
    let guide = guide(&many(60).replace("kind: metal", "kind: paint").replace("kind: clear", "kind: paint"));
    let rack = Rack::of(&guide.paints);
    let mut missed = Vec::new();
    for own in guide.paints.iter().take(12) {
        let found = rack.blends(&wanted(&rack, own), 1);
        let all = best_of_all(&guide, own);
        if all <= FARTHEST {
            missed.push(found[0].apart.delta_e - all);
        }
    }
    missed.sort_by(f64::total_cmp);
    println!("farther off than the best of all mixes by {missed:.2?}");
    assert!(missed.len() >= 8 && missed[0] > -1e-9, "{missed:?}");
    assert!(missed[missed.len() / 2] < 0.3 && missed[missed.len() - 1] < 2.0, "{missed:?}");
}

/// A ratio within one run, because no machine is as quick as another.
#[test]
fn a_long_shelf_is_not_gone_through_for_every_paint() {
    let guide = guide(&many(3000));
    let rack = Rack::of(&guide.paints);
    let asked: Vec<&Arc<Paint>> = guide.paints.iter().step_by(20).collect();
    let start = Instant::now();
    let found: usize = asked.iter().map(|own| rack.nearest(&wanted(&rack, own), 3).len()).sum();
    let by_rack = start.elapsed();
    let start = Instant::now();
    let off = |own: &Paint, other: &Paint| difference(own.colour.unwrap(), other.colour.unwrap());
    let sum: f64 = asked.iter().flat_map(|own| guide.paints.iter().map(move |other| off(own, other))).sum();
    let by_all = start.elapsed();
    let start = Instant::now();
    let blends = rack.blends(&wanted(&rack, &guide.paints[0]), 3);
    let (count, mix) = (asked.len(), start.elapsed());
    println!(
        "3000 paints, {count} asked: {by_rack:.0?} by the rack, {by_all:.0?} one by one; a mix for one in {mix:.0?}"
    );
    assert!(found > 2 * count && blends.len() == 3, "{found} for {count}");
    assert!(sum.is_finite() && by_rack * 3 < by_all, "{by_rack:?} {by_all:?}");
}
