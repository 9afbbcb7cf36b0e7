//! What must hold for every colour, class, ratio and thickness.

use maulstick::colour::{
    Depths, Evidence, Ground, Inner, Mixture, Outer, Pigment, Shelf, Stack, Sureness, Surface, bands, coats, contrast,
    difference, film, lab_difference, space, upsample,
};
use maulstick::guide::{Paint, Swatch};
use maulstick::measure::{Colour, Fraction};
use maulstick::trade::{Hiding, Kind, Sheen};
use proptest::prelude::*;

use super::paints::paint;

const SKIN: Surface = Surface { outer_mirror: 0.02, inner_mirror: 0.6 };

/// Optical depths from clear to far beyond any coat.
fn depths() -> impl Strategy<Value = Depths> {
    let depth = || proptest::collection::vec(prop_oneof![Just(0.0), -12.0..6.0_f64], bands::COUNT);
    let ready = |logs: Vec<f64>| std::array::from_fn(|band| if logs[band] == 0.0 { 0.0 } else { logs[band].exp() });
    (depth(), depth()).prop_map(move |(k, s)| Depths { absorbed: ready(k), scattered: ready(s) })
}

fn colour() -> impl Strategy<Value = [u8; 3]> {
    let channel = || prop_oneof![Just(0_u8), Just(255), any::<u8>()];
    [channel(), channel(), channel()]
}

fn hiding() -> impl Strategy<Value = Hiding> {
    proptest::sample::select(Hiding::ALL)
}

fn swatch() -> impl Strategy<Value = Swatch> {
    let colour = || colour().prop_map(Colour);
    let parts = || (0_u64..12).prop_map(|parts| Fraction::new(parts, 2));
    prop_oneof![
        (0_u32..9, colour()).prop_map(|(coats, colour)| Swatch::OverWhite(coats, colour)),
        (0_u32..9, colour()).prop_map(|(coats, colour)| Swatch::OverBlack(coats, colour)),
        (parts(), parts(), colour()).prop_map(|(parts, to, colour)| Swatch::Tint {
            white: "chalk".to_owned(),
            parts,
            to,
            colour
        }),
    ]
}

/// Any paint that an author may write down, sensible or not.
fn any_paint() -> impl Strategy<Value = Paint> {
    let kind = proptest::sample::select(Kind::ALL);
    let swatches = proptest::collection::vec(swatch(), 0..4);
    (proptest::option::of(colour()), hiding(), swatches, kind)
        .prop_map(|(colour, hiding, swatches, kind)| Paint { kind, ..paint("any", colour, hiding, swatches) })
}

fn chalk() -> Pigment {
    Pigment::of(&paint("chalk", Some([244, 243, 238]), Hiding::Opaque, Vec::new()), SKIN, |_| None).unwrap()
}

fn pigment(depths: &Depths) -> Pigment {
    Pigment { depths: *depths, evidence: Some(Evidence::Class), ..Pigment::COLOURLESS }
}

fn mixture(depths: &Depths) -> Mixture {
    Mixture::of(&[(&pigment(depths), 1.0)]).unwrap()
}

fn inside(reflectance: &bands::Bands) -> bool {
    reflectance.iter().all(|value| (0.0..=1.0).contains(value))
}

fn near(a: &Inner, b: &Inner, tolerance: f64) -> bool {
    a.0.iter().zip(&b.0).all(|(a, b)| (a - b).abs() <= tolerance)
}

/// A stack's colour must be a number, and its reflectance one that can be.
fn is_sound(stack: &Stack) -> bool {
    let lab = stack.lab();
    inside(&stack.outer().0) && [lab.l, lab.a, lab.b].iter().all(|number| number.is_finite())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 96, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn reflectances_stay_between_nothing_and_all(film in depths(), ground in 0.0..=1.0_f64, mirror in 0.0..=0.03_f64) {
        let skin = Surface { outer_mirror: mirror, ..Surface::CHART };
        let below = film.over(&skin.inner(&Outer::grey(ground)));
        prop_assert!(inside(&below.0) && inside(&film.opaque().0) && inside(&skin.outer(&below).0));
        let ratio = contrast::contrast_ratio(&film);
        prop_assert!((0.0..=1.0 + 1e-9).contains(&ratio), "{ratio}");
    }

    #[test]
    fn a_lighter_ground_never_makes_a_film_darker(film in depths(), low in 0.0..=1.0_f64, high in 0.0..=1.0_f64) {
        let (low, high) = (low.min(high), low.max(high));
        for band in 0..bands::COUNT {
            let one = film.film(band);
            prop_assert!(one.over(low) <= one.over(high) + 1e-12);
        }
    }

    #[test]
    fn two_coats_are_one_of_double_depth(film in depths(), ground in 0.0..0.999_f64, n in 0.1..3.0_f64) {
        let ground = Inner([ground; bands::COUNT]);
        let coat = film.times(n);
        prop_assert!(near(&coat.over(&coat.over(&ground)), &coat.times(2.0).over(&ground), 1e-7));
    }

    #[test]
    fn no_coat_changes_nothing(film in depths(), ground in colour(), coats in prop_oneof![Just(0.0), Just(-1.0), Just(f64::NAN)]) {
        let bare = Stack::on(&Ground::of(Colour(ground)), SKIN);
        prop_assert_eq!(bare.lay(&mixture(&film), coats), bare.clone());
        prop_assert_eq!(bare.drybrush(&mixture(&film), coats, 0.3), bare.clone());
        prop_assert_eq!(bare.drybrush(&mixture(&film), 1.0, 0.0), bare.clone());
        let film = bare.lay(&mixture(&Depths::NONE), 1.0);
        prop_assert!(lab_difference(film.lab(), bare.lab()) < 1e-6);
    }

    #[test]
    fn order_within_a_mix_does_not_matter(a in depths(), b in depths(), parts in (0.1..9.0_f64, 0.1..9.0_f64, 0.0..9.0_f64)) {
        let (a, b) = (pigment(&a), pigment(&b));
        let one = Mixture::of(&[(&a, parts.0), (&b, parts.1), (&Pigment::COLOURLESS, parts.2)]).unwrap();
        let other = Mixture::of(&[(&Pigment::COLOURLESS, parts.2), (&b, parts.1), (&a, parts.0)]).unwrap();
        for band in 0..bands::COUNT {
            let (one, other) = (one.depths.absorbed[band], other.depths.absorbed[band]);
            prop_assert!((one - other).abs() <= 1e-12 * one.max(1.0));
        }
        prop_assert_eq!((one.evidence, one.metallic), (other.evidence, other.metallic));
    }

    #[test]
    fn every_colour_has_a_reflectance_that_shows_it(colour in colour()) {
        let found = upsample::reflectance(space::linear(Colour(colour)));
        prop_assert!(inside(&found.0));
        prop_assert_eq!(space::shown(found.linear_rgb()), Colour(colour));
    }

    #[test]
    fn difference_is_a_distance(a in colour(), b in colour()) {
        let (a, b) = (Colour(a), Colour(b));
        prop_assert!(difference(a, a) < 1e-12);
        prop_assert!((difference(a, b) - difference(b, a)).abs() < 1e-9);
        prop_assert!(a == b || difference(a, b) > 0.0);
    }
}

proptest! {
    // Each of these fits paints, which takes its time in a debug build.
    #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn coats_of_an_opaque_paint_end_at_its_own_colour(colour in colour(), ground in colour(), mirror in 0.0..0.03_f64) {
        let own = Colour(colour);
        let paint = paint("own", Some(colour), Hiding::Opaque, Vec::new());
        let skin = Surface { outer_mirror: mirror, ..Surface::CHART };
        let pigment = Pigment::of(&paint, skin, |_| None).unwrap();
        let mixture = Mixture::of(&[(&pigment, 1.0)]).unwrap();
        let mut stack = Stack::on(&Ground::of(Colour(ground)), skin);
        // A coat is some 8 µm dry, and a pure light colour hides slowly.
        for _ in 0..40 {
            stack = stack.lay(&mixture, 4.0);
        }
        let full = space::lab(mixture.opaque(skin));
        prop_assert!(lab_difference(stack.lab(), full) < 0.5, "{:?} ends at {:?}", own, stack.colour());
        // On grids of 9 and 12 steps a channel, with no mirror, with its own and with 0.02, it ends 0.5 off at most.
        prop_assert!(difference(stack.colour(), own) < 1.0, "{:?} ends at {:?}", own, stack.colour());
    }

    #[test]
    fn nothing_that_an_author_writes_gives_a_number_that_is_none(
        paint in any_paint(),
        other in any_paint(),
        ratio in prop_oneof![Just(0.0), Just(1e-9), 0.0..50.0_f64, Just(1e9)],
        n in prop_oneof![Just(1e-9), 0.0..50.0_f64, Just(1e30), Just(f64::INFINITY)],
        ground in colour(),
    ) {
        let surface = Surface::of([&paint, &other].into_iter());
        let pigment = |paint: &Paint| Pigment::of(paint, surface, |id| (id == "chalk").then(chalk));
        prop_assert_eq!(
            pigment(&paint).is_none(),
            paint.kind.has_colour() && paint.colour.is_none() && pigment(&Paint { colour: None, ..paint.clone() }).is_none()
        );
        let (Some(one), Some(two)) = (pigment(&paint), pigment(&other)) else { return Ok(()) };
        prop_assert!(one.depths.absorbed.iter().chain(&one.depths.scattered).all(|depth| depth.is_finite() && *depth >= 0.0));
        let mixture = Mixture::of(&[(&one, 1.0), (&two, ratio)]).unwrap();
        for ground in [Ground::of(Colour(ground)), Ground::metal(Colour(ground)), Ground::grey(0.0), Ground::grey(1.0)] {
            let stack = Stack::on(&ground, surface).lay(&mixture, n);
            prop_assert!(is_sound(&stack), "{stack:?}");
            let brushed = stack.drybrush(&mixture, n, 0.3).varnish(Sheen::Satin).lay(&mixture, 0.5).varnish(Sheen::Gloss);
            prop_assert!(is_sound(&brushed), "{brushed:?}");
            prop_assert_eq!(stack.uncertainty().is_some(), stack.evidence().is_some());
        }
        if let Some(hiding) = coats::coats_to_hide(&mixture, 1.0) {
            prop_assert!(mixture.contrast_ratio(f64::from(hiding)) >= 0.98);
            prop_assert!(hiding == 1 || mixture.contrast_ratio(f64::from(hiding - 1)) < 0.98);
        }
    }
}

#[test]
fn order_of_layers_matters() {
    let fit = |colour, hiding| {
        let pigment = Pigment::of(&paint("one", Some(colour), hiding, Vec::new()), SKIN, |_| None).unwrap();
        Mixture::of(&[(&pigment, 1.0)]).unwrap()
    };
    let (red, blue) = (fit([170, 40, 35], Hiding::SemiOpaque), fit([35, 60, 140], Hiding::SemiOpaque));
    let ground = Stack::on(&Ground::grey(0.85), SKIN);
    let (red_first, blue_first) = (ground.lay(&red, 1.0).lay(&blue, 1.0), ground.lay(&blue, 1.0).lay(&red, 1.0));
    assert!(difference(red_first.colour(), blue_first.colour()) > 5.0);
    assert!(blue_first.lab().a > red_first.lab().a, "the red one lies on top");
}

#[test]
fn yellow_and_blue_make_green_and_their_averages_do_not() {
    let fit = |colour| {
        Pigment::of(&paint("one", Some(colour), Hiding::SemiOpaque, Vec::new()), Surface::CHART, |_| None).unwrap()
    };
    let (yellow, blue) = (fit([235, 200, 40]), fit([40, 80, 170]));
    let mixed = space::lab(Mixture::of(&[(&yellow, 3.0), (&blue, 1.0)]).unwrap().opaque(Surface::CHART));
    assert!(mixed.a < -15.0, "{mixed:?}");
    let mean = space::lab(space::linear(Colour([186, 170, 72])));
    assert!(mean.a > -10.0, "{mean:?}");
}

#[test]
fn thinner_thins_the_film_and_does_not_lighten_the_colour() {
    let umber = Pigment::of(&paint("umber", Some([90, 74, 62]), Hiding::Opaque, Vec::new()), SKIN, |_| None).unwrap();
    let neat = Mixture::of(&[(&umber, 1.0)]).unwrap();
    let thinned = Mixture::of(&[(&umber, 1.0), (&Pigment::COLOURLESS, 1.0)]).unwrap();
    assert!(lab_difference(space::lab(neat.opaque(SKIN)), space::lab(thinned.opaque(SKIN))) < 1e-9);
    let ground = Stack::on(&Ground::grey(0.02), SKIN);
    assert!(lab_difference(ground.lay(&neat, 1.0).lab(), ground.lay(&thinned, 2.0).lab()) < 1e-9);
    assert!(coats::coats_to_hide(&thinned, 1.0) > coats::coats_to_hide(&neat, 1.0));
    assert_eq!(thinned.evidence, Some(Evidence::Class));
}

#[test]
fn an_amber_clear_deepens_over_gold_and_lets_it_shine_through() {
    let amber = Paint { kind: Kind::Clear, ..paint("amber", Some([213, 135, 34]), Hiding::Transparent, Vec::new()) };
    let clear = Pigment::of(&amber, Surface::CHART, |_| None).unwrap();
    let clear = Mixture::of(&[(&clear, 1.0)]).unwrap();
    assert!(clear.contrast_ratio(1.0) < 0.1, "a clear hardly hides: {}", clear.contrast_ratio(1.0));
    let gold = Stack::on(&Ground::metal(Colour([216, 193, 132])), Surface::CHART);
    assert!(!gold.is_theory_alone());
    let steps = coats::ladder(&gold, &clear, 1.0, 5);
    assert_eq!(steps.len(), 6);
    for pair in steps.windows(2) {
        assert!(pair[1].lab().l < pair[0].lab().l, "each coat is deeper");
        assert!(difference(pair[0].colour(), pair[1].colour()) > 1.0, "and can be seen");
        assert!(pair[1].is_theory_alone());
    }
    let last = &steps[5];
    let away = space::lab(space::linear(last.colour_off_glint().unwrap()));
    assert!(away.l < last.lab().l, "darker away from the glint");
}

#[test]
fn two_coats_of_a_clear_over_silver_or_gold_look_much_like_two_over_white() {
    let [silver, gold] = [[198, 200, 204], [216, 193, 132]].map(|colour| Ground::metal(Colour(colour)));
    for (colour, grounds) in [
        ([213, 135, 34], &[silver, gold][..]),
        ([170, 20, 40], &[silver, gold]),
        ([111, 143, 46], &[silver, gold]),
        ([40, 80, 170], &[silver]),
    ] {
        let paint = Paint { kind: Kind::Clear, ..paint("clear", Some(colour), Hiding::Transparent, Vec::new()) };
        let clear = Pigment::of(&paint, Surface::CHART, |_| None).unwrap();
        let clear = Mixture::of(&[(&clear, 1.0)]).unwrap();
        for ground in grounds {
            let metal = Stack::on(ground, Surface::CHART);
            let two = metal.lay(&clear, 2.0);
            assert!(difference(two.colour(), Colour(colour)) < 12.0, "{colour:?} looks {:?}", two.colour());
            let one = metal.lay(&clear, 1.0);
            let shade = space::lab(space::linear(one.colour_off_glint().unwrap()));
            assert!(shade.l < one.lab().l && one.lab().l < metal.lab().l, "between shade and glint");
        }
    }
}

#[test]
fn the_first_coat_of_a_ruby_over_silver_is_rose_and_not_hot_pink() {
    let paint = Paint { kind: Kind::Clear, ..paint("ruby", Some([170, 20, 40]), Hiding::Transparent, Vec::new()) };
    let ruby = Pigment::of(&paint, Surface::CHART, |_| None).unwrap();
    let silver = Stack::on(&Ground::metal(Colour([190, 192, 196])), Surface::CHART);
    let rose = silver.lay(&Mixture::of(&[(&ruby, 1.0)]).unwrap(), 1.0).lab();
    assert!((35.0..50.0).contains(&rose.l) && rose.a > 40.0, "{rose:?}");
    assert!(rose.b.atan2(rose.a).to_degrees() > -12.0, "not towards purple: {rose:?}");
}

#[test]
fn paint_over_metal_ends_at_the_paint() {
    let brown = Pigment::of(&paint("brown", Some([90, 74, 62]), Hiding::Opaque, Vec::new()), SKIN, |_| None).unwrap();
    let brown = Mixture::of(&[(&brown, 1.0)]).unwrap();
    let metal = Stack::on(&Ground::metal(Colour([200, 200, 205])), SKIN);
    let covered = metal.lay(&brown, 8.0);
    assert!(lab_difference(covered.lab(), space::lab(brown.opaque(SKIN))) < 0.1);
    assert!(!covered.is_theory_alone() && covered.colour_off_glint().is_none());
    let mut before = metal.lab().l;
    for coats in 1..=400 {
        let l = metal.lay(&brown, f64::from(coats) * 0.02).lab().l;
        assert!((before - l).abs() < 10.0, "no jump on the way: {before} to {l}");
        before = l;
    }
}

#[test]
fn varnish_moves_the_skin_and_paint_brings_it_back() {
    let brown = Pigment::of(&paint("brown", Some([90, 74, 62]), Hiding::Opaque, Vec::new()), SKIN, |_| None).unwrap();
    let brown = Mixture::of(&[(&brown, 1.0)]).unwrap();
    let painted = Stack::on(&Ground::grey(0.5), SKIN).lay(&brown, 6.0);
    let [gloss, satin, matt] = [Sheen::Gloss, Sheen::Satin, Sheen::Matt].map(|sheen| painted.varnish(sheen).lab().l);
    assert!(gloss < satin && satin < matt);
    assert!((matt - painted.lab().l).abs() < 1e-12);
    let again = painted.varnish(Sheen::Gloss).lay(&brown, 6.0);
    assert!((again.lab().l - painted.lab().l).abs() < 0.01);
}

#[test]
fn evidence_is_the_weakest_of_what_shows() {
    let black_and_white =
        || vec![Swatch::OverWhite(1, Colour([40, 90, 150])), Swatch::OverBlack(1, Colour([38, 52, 84]))];
    let tint = Swatch::Tint {
        white: "chalk".to_owned(),
        parts: Fraction::ONE,
        to: Fraction::new(4, 1),
        colour: Colour([130, 165, 205]),
    };
    let of = |paint: &Paint| Pigment::of(paint, SKIN, |id| (id == "chalk").then(chalk)).unwrap();
    let plain = of(&paint("plain", Some([40, 90, 150]), Hiding::Opaque, Vec::new()));
    let both = of(&paint("both", None, Hiding::Opaque, black_and_white()));
    let mut swatches = black_and_white();
    swatches.push(tint);
    let tinted = of(&paint("tinted", None, Hiding::Opaque, swatches));
    assert_eq!(plain.evidence, Some(Evidence::Class));
    assert_eq!(both.evidence, Some(Evidence::BlackAndWhite));
    assert_eq!(tinted.evidence, Some(Evidence::Tint));
    assert!(plain.wants_tint && !tinted.wants_tint);
    let pale = Mixture::of(&[(&tinted, 1.0), (&chalk(), 6.0)]).unwrap();
    assert_eq!(pale.evidence, Some(Evidence::Tint));
    let weak = Mixture::of(&[(&tinted, 1.0), (&plain, 1.0)]).unwrap();
    assert_eq!(weak.evidence, Some(Evidence::Class));
    let stack = Stack::on(&Ground::grey(0.5), SKIN).lay(&weak, 1.0);
    assert_eq!(stack.lay(&pale, 0.2).evidence(), Some(Evidence::Class), "the weak coat still shows");
    assert_eq!(stack.lay(&pale, 40.0).evidence(), Some(Evidence::Tint), "now it does not");
    assert_eq!(Mixture::of(&[(&chalk(), 1.0)]).unwrap().evidence, Some(Evidence::Class));
}

#[test]
fn what_has_no_colour_is_unknown_and_what_is_clear_is_not() {
    let silent = paint("silent", None, Hiding::Opaque, Vec::new());
    assert_eq!(Pigment::of(&silent, SKIN, |_| None), None);
    let lost =
        Swatch::Tint { white: "lost".to_owned(), parts: Fraction::ONE, to: Fraction::ONE, colour: Colour([9, 9, 9]) };
    assert_eq!(Pigment::of(&paint("lost", None, Hiding::Opaque, vec![lost]), SKIN, |_| None), None);
    let thinner = Paint { kind: Kind::Thinner, ..silent };
    assert_eq!(Pigment::of(&thinner, SKIN, |_| None), Some(Pigment::COLOURLESS));
    assert_eq!(Mixture::of(&[]), None);
    assert_eq!(Mixture::of(&[(&Pigment::COLOURLESS, 0.0)]), None);
    assert_eq!(Mixture::of(&[(&Pigment::COLOURLESS, f64::NAN)]), None);
}

#[test]
fn a_shelf_works_out_paints_that_are_tinted_with_each_other() {
    let tint = |white: &str, colour| Swatch::Tint {
        white: white.to_owned(),
        parts: Fraction::ONE,
        to: Fraction::new(4, 1),
        colour: Colour(colour),
    };
    let paints = [
        paint("chalk", Some([244, 243, 238]), Hiding::Opaque, vec![tint("bone", [240, 238, 230])]),
        paint("bone", Some([230, 224, 205]), Hiding::SemiOpaque, vec![tint("chalk", [240, 238, 230])]),
        paint("silent", None, Hiding::Opaque, Vec::new()),
    ]
    .map(std::sync::Arc::new);
    let shelf = Shelf::of(&paints);
    assert_eq!(shelf.pigment("bone").unwrap().evidence, Some(Evidence::Tint));
    assert!(shelf.pigment("chalk").unwrap().white);
    assert_eq!(shelf.pigment("silent"), None);
    assert_eq!(shelf.pigment("nobody"), None);
    let again = Shelf::of(&[paints[2].clone(), paints[1].clone(), paints[0].clone()]);
    assert_eq!(shelf.pigment("bone"), again.pigment("bone"), "whatever the order");
}

#[test]
fn a_known_film_is_found_again_from_its_cards() {
    for (absorbed, scattered) in [(0.4, 0.3), (2.0, 0.05), (0.05, 3.0)] {
        let film = film::Film::new(absorbed, scattered);
        let (k, s) = maulstick::colour::invert::depths(film.over(0.02), film.over(0.85), 0.02, 0.85);
        assert!((k - absorbed).abs() < 1e-6 && (s - scattered).abs() < 1e-6, "{k} {s}");
    }
}

#[test]
fn pigments_that_are_named_decide_what_a_tint_looks_like() {
    let skin = Surface { outer_mirror: 0.005, ..Surface::CHART };
    let chalk =
        Pigment::of(&paint("chalk", Some([244, 243, 238]), Hiding::Opaque, Vec::new()), skin, |_| None).unwrap();
    let tint = |colour: [u8; 3], pigments: &[&str]| {
        let plain = paint("own", Some(colour), Hiding::SemiOpaque, Vec::new());
        let own = Paint { pigments: pigments.iter().map(|name| (*name).to_owned()).collect(), ..plain };
        let own = Pigment::of(&own, skin, |_| None).unwrap();
        assert!(difference(space::shown(Mixture::of(&[(&own, 1.0)]).unwrap().opaque(skin)), Colour(colour)) < 1.0);
        space::lab(Mixture::of(&[(&own, 1.0), (&chalk, 4.0)]).unwrap().opaque(skin))
    };
    let navy = |pigments: &[&str]| tint([27, 42, 74], pigments);
    let (cyan, ultramarine) = (navy(&["PB15:3", "PBk7"]), navy(&["PB29", "PBk7"]));
    assert!(cyan.a < ultramarine.a - 15.0, "phthalocyanine tints greener: {cyan:?} {ultramarine:?}");
    assert!(cyan.a < navy(&["PB15:1"]).a - 3.0, "than its red shade too");
    assert_eq!(navy(&["PB99"]), navy(&[]), "of a pigment that nobody knows nothing follows");
    let (oxide, pyrrole) = (tint([120, 40, 35], &["PR101"]), tint([120, 40, 35], &["PR254", "PBk7"]));
    assert!(oxide.b > pyrrole.b + 6.0, "an oxide tints to salmon, a pyrrole to rose: {oxide:?} {pyrrole:?}");
}

#[test]
fn what_is_known_of_a_paint_decides_how_sure_its_colours_are() {
    let tint = Swatch::Tint {
        white: "chalk".to_owned(),
        parts: Fraction::ONE,
        to: Fraction::new(4, 1),
        colour: Colour([130, 165, 205]),
    };
    let both = vec![Swatch::OverWhite(1, Colour([40, 90, 150])), Swatch::OverBlack(1, Colour([38, 52, 84]))];
    let tinted = [both.clone(), vec![tint]].concat();
    let of = |swatches: &[Swatch]| {
        let paint = paint("blue", Some([38, 86, 146]), Hiding::SemiOpaque, swatches.to_vec());
        Pigment::of(&paint, SKIN, |id| (id == "chalk").then(chalk)).unwrap()
    };
    let off = |blue: &Pigment, white: f64| {
        let pale = Mixture::of(&[(blue, 1.0), (&chalk(), white)]).unwrap();
        pale.uncertainty(SKIN).unwrap()
    };
    let [class, cards, tint] = [&[][..], &both, &tinted].map(of);
    assert!(off(&class, 8.0).nine_in_ten > off(&tint, 8.0).nine_in_ten + 4.0, "a tint tells how strong it is");
    assert!(off(&cards, 8.0).nine_in_ten < off(&class, 8.0).nine_in_ten, "cards tell a little of it");
    assert_eq!(off(&class, 0.0).sureness(), Sureness::Surely, "its own colour is known");
    assert_eq!(off(&class, 8.0).sureness(), Sureness::Guess);
    let own = Mixture::of(&[(&class, 1.0)]).unwrap();
    let thin = Stack::on(&Ground::grey(0.85), SKIN).lay(&own, 0.5);
    let thick = thin.lay(&own, 30.0);
    assert!(thin.uncertainty().unwrap().nine_in_ten > thick.uncertainty().unwrap().nine_in_ten + 4.0);
    let [dark, light] = thin.bounds().unwrap().map(|colour| space::lab(space::linear(colour)).l);
    assert!(dark < thin.lab().l && thin.lab().l < light, "{dark} {light}");
    let (least, most) = coats::coats_to_hide_between(&own, 1.0);
    let likely = coats::coats_to_hide(&own, 1.0).unwrap();
    assert!(least <= likely && most.is_none_or(|most| likely <= most && least < most));
    assert_eq!(Stack::on(&Ground::grey(0.5), SKIN).uncertainty(), None, "a bare ground is what it is");
}
