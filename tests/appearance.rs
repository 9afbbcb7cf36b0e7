//! What one sees on a model, predicted: clears deepen, washes gather, what is unknown stays unknown until it is hidden.

use maulstick::colour::difference;
use maulstick::colour::space::{Lab, lab_difference};
use maulstick::door::Memory;
use maulstick::film::{Conditions, Film, Shown};
use maulstick::guide::{Guide, resolve};
use maulstick::measure::Colour;
use maulstick::source;
use maulstick::trade::Zone;

const GROUND: &str = "stage: undercoat\nareas: [all]\npaints: [grey-ground]\ncoats: 2";
const GOLD: &str = "stage: basecoat\nareas: [all]\npaints: [gold]\ncoats: 3";

fn guide_of(steps: &[&str]) -> Guide {
    let odd = "maker: C\nrange: Odd\nfamily: water\npaints:\n  odd: {name: Odd, kind: paint}\n";
    let mut door = Memory::default()
        .with("content/guide.yaml", "title: T\nauthor: A\n")
        .with("content/paints/shelf.yaml", include_str!("cases/shelves/fen.yaml"))
        .with("content/paints/odd.yaml", odd)
        .with("content/schemes/s/scheme.md", "---\ntitle: S\nareas: {shell: 100%}\n---\n");
    for (at, step) in steps.iter().enumerate() {
        let with = if step.contains("with:") { "" } else { "\nwith: brush" };
        let text = format!("---\ntitle: Step {at}\n{step}{with}\n---\n");
        door = door.with(&format!("content/schemes/s/{:02}-step.md", at + 10), text);
    }
    let (guide, findings) = resolve(&mut source::read(&door).unwrap());
    assert_eq!(findings, []);
    guide
}

/// What recesses, faces and edges show after each step.
fn shown(steps: &[&str]) -> Vec<[Shown; 3]> {
    let guide = guide_of(steps);
    let conditions = Conditions::of(&guide);
    let film = Film::walk(&guide.schemes[0], &(0..steps.len()).collect::<Vec<_>>(), &conditions);
    let appearance = film.appearance(&conditions);
    let zones = [Zone::Recesses, Zone::Faces, Zone::Edges];
    (0..steps.len()).map(|position| zones.map(|zone| appearance.after(position, 0, zone).clone())).collect()
}

fn faces(steps: &[&str]) -> Lab {
    let [_, faces, _] = shown(steps).pop().unwrap();
    faces.lab().unwrap()
}

#[test]
fn amber_deepens_over_gold_with_each_coat() {
    let amber = |coats: u32| {
        let step = format!("stage: glaze\nareas: [all]\nwith: airbrush\npaints: [amber]\ncoats: {coats}");
        let [_, faces, _] = shown(&[GROUND, GOLD, &step]).pop().unwrap();
        let stack = faces.stack().unwrap();
        assert!(stack.is_theory_alone(), "nobody has measured clears over metal");
        (stack.lab(), stack.colour())
    };
    let ladder: Vec<(Lab, Colour)> = (1..=6).map(amber).collect();
    for pair in ladder.windows(2) {
        let [(before, light), (after, deep)] = [pair[0], pair[1]];
        assert!(after.l < before.l, "{before:?} {after:?}");
        assert!(after.b.atan2(after.a) < before.b.atan2(before.a), "from yellow towards orange");
        assert!(deep.0[2] < light.0[2], "less blue with every coat: {light} {deep}");
    }
    let gold = faces(&[GROUND, GOLD]);
    assert!(lab_difference(gold, ladder[5].0) > 10.0);
}

#[test]
fn clear_coats_chipping_medium_and_fixer_change_no_colour() {
    let red = faces(&[GROUND, "stage: basecoat\nareas: [all]\npaints: [red]\ncoats: 2"]);
    for clear in [
        "stage: basecoat\nareas: [all]\npaints: [let-go]",
        "stage: pigment\nareas: [all]\npaints: [fixer]",
        "stage: decal\nareas: [all]\npaints: [settle]",
    ] {
        let under = faces(&[GROUND, "stage: basecoat\nareas: [all]\npaints: [red]\ncoats: 2", clear]);
        assert!(lab_difference(red, under) < 1e-9, "{clear}");
    }
    let under = faces(&[
        GROUND,
        "stage: basecoat\nareas: [all]\npaints: [red]\ncoats: 2",
        "stage: glaze\nareas: [all]\npaints: [medium]",
    ]);
    assert!(under.l <= red.l && lab_difference(red, under) < 3.0, "a medium only shines");
}

#[test]
fn a_black_is_as_deep_as_its_surface_shines() {
    let sheen = |varnish: &str| {
        let step = format!("stage: varnish\nareas: [all]\npaints: [{varnish}]\ncoats: 2");
        faces(&[GROUND, "stage: basecoat\nareas: [all]\npaints: [black]\ncoats: 6", &step]).l
    };
    let [matt, satin, gloss] = ["matt", "satin", "gloss"].map(sheen);
    println!("black: matt {matt:.1}, satin {satin:.1}, gloss {gloss:.1}");
    assert!(matt > satin + 0.5 && satin > gloss + 0.5, "{matt} {satin} {gloss}");
}

#[test]
fn thinner_thins_the_coat_and_counts_once() {
    let coats = |mix: &str, coats: u32| {
        faces(&[GROUND, &format!("stage: basecoat\nareas: [all]\npaints: [{mix}]\ncoats: {coats}")])
    };
    let half = coats("{use: straw, parts: 1}, {use: water, parts: 1}", 2);
    let with_medium = coats("{use: straw, parts: 1}, {use: medium, parts: 1}", 2);
    let whole = coats("straw", 1);
    assert!(lab_difference(half, whole) < 1e-9 && lab_difference(with_medium, whole) < 1e-9);
    assert!(lab_difference(coats("straw", 3), whole) > 1.0);
}

#[test]
fn a_wash_darkens_recesses_most_and_a_dry_brush_lights_edges_most() {
    let after = shown(&[
        GROUND,
        "stage: shade\nareas: [all]\nwhere: all\npaints: [peat]",
        "stage: highlight\nareas: [all]\nwhere: raised\nwith: drybrush\npaints: [straw]",
    ]);
    let light = |step: usize| after[step].each_ref().map(|shown| shown.lab().unwrap().l);
    let (ground, washed, brushed) = (light(0), light(1), light(2));
    assert!(washed[0] < washed[1] && washed[1] < ground[1] && washed[1].to_bits() == washed[2].to_bits());
    assert!(brushed[2] > brushed[1] && brushed[1] > washed[1] && brushed[0].to_bits() == washed[0].to_bits());
}

#[test]
fn unknown_stays_unknown_until_nothing_of_it_shows() {
    let odd = "stage: basecoat\nareas: [all]\npaints: [odd]";
    let thin = "stage: layer\nareas: [all]\nwhere: all\npaints: [{use: straw, parts: 1}, {use: water, parts: 2}]";
    let thick = "stage: layer\nareas: [all]\nwhere: all\npaints: [black]\ncoats: 12";
    let after = shown(&[GROUND, odd, thin, "stage: varnish\nareas: [all]\npaints: [matt]", thick]);
    let [_, faces, _] = &after[0];
    assert!(faces.lab().is_some());
    for step in [1, 2, 3] {
        assert!(after[step].iter().all(|shown| matches!(shown, Shown::Unknown(_))), "step {step}");
    }
    let [_, hidden, _] = &after[4];
    let straight = self::faces(&[GROUND, thick]);
    assert!(lab_difference(hidden.lab().unwrap(), straight) < 1.0, "black hides what nobody knew");
}

#[test]
fn chipping_bares_what_lay_under_the_medium() {
    let steps = [
        GROUND,
        "stage: basecoat\nareas: [all]\npaints: [red]\ncoats: 3",
        "stage: basecoat\nareas: [all]\npaints: [let-go]",
        "stage: basecoat\nareas: [all]\npaints: [straw]\ncoats: 3",
        "stage: chip\nareas: [all]\nwhere: edges",
    ];
    let after = shown(&steps);
    let lab = |step: usize, zone: usize| after[step][zone].lab().unwrap();
    assert!(lab_difference(lab(4, 1), lab(3, 1)) < 1e-9, "the faces stay");
    let (red, straw, chipped) = (lab(1, 2), lab(3, 2), lab(4, 2));
    assert!(lab_difference(chipped, straw) > 2.0);
    assert!(lab_difference(chipped, red) < lab_difference(straw, red));
}

#[test]
fn the_bare_model_shows_nothing_and_the_same_steps_show_the_same() {
    let steps = [GROUND, GOLD, "stage: glaze\nareas: [all]\npaints: [amber]\ncoats: 4"];
    assert_eq!(shown(&steps), shown(&steps));
    let after = shown(&["stage: highlight\nareas: [all]\npaints: [straw]"]);
    assert!(after[0][0] == Shown::Bare && after[0][1] == Shown::Bare && after[0][2].lab().is_some());
}

#[test]
fn streaks_and_details_lie_on_a_colour_and_do_not_recolour_it() {
    let base = "stage: basecoat\nareas: [all]\npaints: [red]\ncoats: 3";
    let red = faces(&[GROUND, base]);
    for fleck in [
        "stage: weather\nareas: [all]\nwhere: faces\npaints: [rust]",
        "stage: detail\nareas: [all]\nwhere: faces\npaints: [straw]",
        "stage: pigment\nareas: [all]\nwhere: faces\npaints: [dust]",
        "stage: chip\nareas: [all]\nwhere: faces\nwith: sponge\npaints: [iron]",
    ] {
        assert!(lab_difference(red, faces(&[GROUND, base, fleck])) < 1e-9, "{fleck}");
    }
    let whole = "stage: detail\nareas: [all]\nwhere: all\npaints: [straw]\ncoats: 3";
    assert!(lab_difference(red, faces(&[GROUND, base, whole])) > 20.0, "what goes over all of an area is its colour");
    let alone = faces(&[GROUND, "stage: detail\nareas: [all]\nwhere: faces\npaints: [straw]\ncoats: 2"]);
    assert!(lab_difference(faces(&[GROUND]), alone) > 5.0, "where nothing else lies, a detail is the colour");
}

#[test]
fn a_brown_wash_leaves_a_face_a_little_darker_and_fills_the_recess() {
    let after = shown(&[
        GROUND,
        "stage: basecoat\nareas: [all]\npaints: [straw]\ncoats: 4",
        "stage: shade\nareas: [all]\nwhere: all\npaints: [peat]",
    ]);
    let light = |step: usize, zone: usize| after[step][zone].lab().unwrap().l;
    let (face, recess) = (light(1, 1) - light(2, 1), light(1, 0) - light(2, 0));
    println!("a brown wash takes {face:.1} of lightness from a face, {recess:.1} from a recess");
    assert!((1.0..16.0).contains(&face) && recess > 2.0 * face, "{face} {recess}");
}

/// Two colours and a third on one area, each beside the masks on the ones before.
fn camouflage(first: &str, second: &str) -> Vec<String> {
    let spray = |paint: &str| format!("stage: basecoat\nareas: [shell]\nwith: airbrush\npaints: [{paint}]\ncoats: 4");
    let mask = |covers: &str| format!("stage: mask\nareas: [shell]\nwith: hand\n{covers}");
    let off = "stage: unmask\nareas: [shell]\nwith: hand".to_owned();
    vec![GROUND.to_owned(), spray("straw"), mask(first), spray("green"), mask(second), spray("night"), off]
}

fn texts(steps: &[String]) -> Vec<&str> {
    steps.iter().map(String::as_str).collect()
}

#[test]
fn an_area_shows_the_largest_part_of_a_pattern() {
    let face_after =
        |steps: &[&str]| shown(steps).into_iter().map(|[_, face, _]| face.lab().unwrap()).collect::<Vec<_>>();
    let colour = |paint: &str| {
        let step = format!("stage: basecoat\nareas: [shell]\nwith: airbrush\npaints: [{paint}]\ncoats: 4");
        faces(&[GROUND, &step])
    };
    let (straw, green) = (colour("straw"), colour("green"));
    let large_first = camouflage("covers: 50%", "covers: 30%");
    let all = face_after(&texts(&large_first));
    assert!(lab_difference(*all.last().unwrap(), straw) < 1.0, "half of it kept the first colour: {all:?}");
    let small_first = camouflage("covers: 20%", "covers: 70%");
    let all = face_after(&texts(&small_first));
    assert!(lab_difference(all[3], *all.last().unwrap()) < 0.1, "the third colour lies on a tenth: {all:?}");
    assert!(lab_difference(*all.last().unwrap(), green) < 6.0, "most of it shows the second: {all:?} {green:?}");
}

#[test]
fn what_lies_over_a_pattern_later_lies_on_every_part_of_it() {
    let mut steps = camouflage("covers: 50%", "covers: 30%");
    steps.push("stage: basecoat\nareas: [shell]\npaints: [night]\ncoats: 8".to_owned());
    let all = shown(&texts(&steps));
    let [_, face, _] = all.last().unwrap();
    let night = faces(&[GROUND, "stage: basecoat\nareas: [shell]\npaints: [night]\ncoats: 8"]);
    assert!(lab_difference(face.lab().unwrap(), night) < 1.0);
}

/// How much of an area shows each of some lightnesses in the end, the largest first.
fn parts(steps: &[String]) -> Vec<(f64, f64)> {
    let guide = guide_of(&texts(steps));
    let conditions = Conditions::of(&guide);
    let film = Film::walk(&guide.schemes[0], &(0..steps.len()).collect::<Vec<_>>(), &conditions);
    let parts = film.appearance(&conditions).parts(0, Zone::Faces);
    parts.into_iter().map(|(share, shown)| ((share * 100.0).round(), shown.lab().unwrap().l.round())).collect()
}

#[test]
fn masks_one_after_the_other_lie_over_each_other_and_masks_together_do_not() {
    let together = parts(&camouflage("covers: 50%", "covers: 30%"));
    assert_eq!(together.iter().map(|part| part.0).collect::<Vec<_>>(), [50.0, 30.0, 20.0]);
    // The first mask comes off before the second goes on, over a tenth less of what both colours left.
    let mut apart = camouflage("covers: 80%", "covers: 90%");
    apart.insert(4, "stage: unmask\nareas: [shell]\nwith: hand".to_owned());
    let apart = parts(&apart);
    // The third colour differs a little over the first and over the second.
    assert_eq!(apart.iter().map(|part| part.0).collect::<Vec<_>>(), [72.0, 18.0, 8.0, 2.0], "{apart:?}");
    assert!(apart[0].1 > 60.0, "most of it is straw: {apart:?}");
}

#[test]
fn what_hides_a_pattern_leaves_none() {
    let mut steps = camouflage("covers: 50%", "covers: 30%");
    steps.push("stage: basecoat\nareas: [shell]\npaints: [night]\ncoats: 8".to_owned());
    assert_eq!(parts(&steps).len(), 1);
}

#[test]
fn a_mask_of_which_nobody_says_more_changes_nothing_of_what_is_sprayed_on_its_area() {
    let mask = ["stage: mask\nareas: [shell]\nwith: hand", "stage: unmask\nareas: [shell]\nwith: hand"];
    let straw = "stage: basecoat\nareas: [shell]\npaints: [straw]\ncoats: 3";
    let night = "stage: basecoat\nareas: [shell]\nwith: airbrush\npaints: [night]\ncoats: 4";
    assert_eq!(faces(&[GROUND, straw, mask[0], night, mask[1]]), faces(&[GROUND, straw, night]));
}

/// What each step lays by itself.
fn own(steps: &[&str]) -> Vec<Option<Colour>> {
    let guide = guide_of(steps);
    let conditions = Conditions::of(&guide);
    let film = Film::walk(&guide.schemes[0], &(0..steps.len()).collect::<Vec<_>>(), &conditions);
    (0..steps.len()).map(|position| film.appearance(&conditions).own_colour(position)).collect()
}

#[test]
fn one_mix_has_one_colour_however_it_is_laid() {
    let mix = "paints: [{use: red, parts: 1}, {use: straw, parts: 1}]";
    let film = format!("stage: basecoat\nareas: [all]\n{mix}\ncoats: 12");
    let [_, covered, _] = shown(&[GROUND, &film]).pop().unwrap();
    let covered = covered.stack().unwrap().colour();
    let kinds = [
        "weather\nareas: [all]\nwhere: faces",
        "detail\nareas: [all]\nwhere: faces",
        "chip\nareas: [all]\nwhere: faces",
    ];
    for kind in kinds {
        let flecks = own(&[GROUND, &film, &format!("stage: {kind}\nwith: sponge\n{mix}")])[2].unwrap();
        assert!(difference(flecks, covered) < 1.0, "{kind}: {flecks}, and covering {covered}");
    }
    let [red, straw] =
        ["red", "straw"].map(|paint| own(&[&film.replace(mix, &format!("paints: [{paint}]"))])[0].unwrap());
    let mean = Colour([0, 1, 2].map(|at| red.0[at].midpoint(straw.0[at])));
    assert!(difference(mean, covered) > 3.0, "no mean of two hex codes: {mean} and {covered}");
}

#[test]
fn a_paint_alone_has_the_colour_that_its_author_gives() {
    let alone = |paint: &str| own(&[&format!("stage: weather\nareas: [all]\npaints: [{paint}]")])[0];
    for paint in ["red", "peat", "amber", "gold"] {
        let guide = guide_of(&[GROUND]);
        let given = guide.paints.iter().find(|one| one.id == paint).unwrap().colour;
        assert_eq!(
            (alone(paint), alone(&format!("{{use: {paint}, parts: 1}}, {{use: medium, parts: 3}}"))),
            (given, given),
            "{paint}"
        );
    }
    assert_eq!(alone("odd"), None, "nobody knows its colour");
    assert_eq!(alone("{use: odd, parts: 1}, {use: red, parts: 9}"), None);
}
