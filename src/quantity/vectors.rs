//! Sums that were done by hand, and what must hold for any step: the tests of this layer.

use proptest::prelude::*;

use super::*;
use crate::door::Memory;
use crate::guide::{Stock, resolve};
use crate::measure::{Millilitres, SquareCentimetres};
use crate::source;
use crate::trade::ModelKind;

const PAINTS: &str = r"
maker: Tarn & Daughter
range: Mere
family: water
paints:
  red: {name: Red, kind: paint, drop: 0.04 ml}
  white: {name: White, kind: paint, drop: 0.04 ml}
  wash: {name: Wash, kind: wash}
  ground: {name: Ground, kind: primer}
  water: {name: Water, kind: thinner, drop: 0.04 ml}
  can: {name: Can, kind: primer, family: lacquer}
  small: {name: Small, kind: paint, drop: 0.018 ml}
  plain: {name: Plain, kind: paint}
  stream: {name: Stream, kind: thinner}
  settle: {name: Settle, kind: decal-softener}
  rinse: {name: Rinse, kind: cleaner, suits: [water]}
";

/// A guide with one scheme of one step; `cloth` is 60 % of the model.
struct Case {
    bench: &'static str,
    model: String,
    step: String,
}

fn case(model: impl Into<String>, step: impl Into<String>) -> Case {
    Case { bench: "{}", model: model.into(), step: step.into() }
}

impl Case {
    fn surface(&self) -> ModelSurface {
        let (guide, conditions) = self.guide();
        ModelSurface::of(&guide.schemes[0], None, &conditions.bench).unwrap()
    }

    fn need(&self) -> StepNeed {
        let (guide, conditions) = self.guide();
        let scheme = &guide.schemes[0];
        let film = Film::walk(scheme, &[0], &conditions);
        let surface = ModelSurface::of(scheme, None, &conditions.bench).unwrap();
        step_need(&Stock::of(&guide), &film, 0, &surface, &conditions).unwrap()
    }

    fn guide(&self) -> (crate::guide::Guide, Conditions) {
        let door = Memory::default()
            .with("content/guide.yaml", format!("title: T\nauthor: A\nbench: {}\n", self.bench))
            .with("content/paints/mere.yaml", PAINTS)
            .with(
                "content/schemes/s/scheme.md",
                format!("---\ntitle: S\nmodel: {}\nareas: {{cloth: 60%, rest: 40%}}\n---\n", self.model),
            )
            .with("content/schemes/s/10-step.md", format!("---\ntitle: Step\n{}\n---\n", self.step));
        let (guide, findings) = resolve(&mut source::read(&door).unwrap());
        assert!(findings.is_empty(), "{findings:?}");
        let conditions = Conditions::of(&guide);
        (guide, conditions)
    }
}

fn near(found: Millilitres, wanted: f64) {
    assert!((found.0 - wanted).abs() < 5e-4 * wanted.max(1.0), "{} is not {wanted}", found.0);
}

/// 10 × 13 cm² × 60 % × 2 coats × 30 µm × 1e-4 = 0.468 ml on the models; ÷ 0.6 = 0.78 ml mixed;
/// 2 : 1 with water is a recipe of 3 drops, 0.12 ml: 6.5 of them, so 7: 14 + 7 drops, 0.56 ml of paint and 0.28 of water.
#[test]
fn ten_figures_by_brush() {
    let step = "stage: basecoat\nareas: [cloth]\nwith: brush\ncoats: 2\n\
        paints: [{use: red, parts: 2}, {use: water, parts: 1}]";
    let need = Case { bench: "{brush-efficiency: 0.6}", ..case("{surface: 13 cm2}", step) }.need();
    let amounts = need.for_models(10);
    near(need.sum.on_model(), 0.0468);
    near(amounts.need.likely, 0.78);
    near(amounts.lot.likely, 0.84);
    near(amounts.parts[0].likely, 0.56);
    assert_eq!((amounts.out.by, amounts.out.counts.as_slice()), (By::Drops, [14, 7].as_slice()));
}

/// 10 × 20 cm² × 2 coats × 20 µm × 1e-4 = 0.80 ml; ÷ 0.20 = 4.0 ml; and 0.3 ml stay in cup, needle and mixing cup.
/// 4.3 ml are 86 drops of 0.05 ml: three cups of 2 ml. The flush afterwards takes 5 ml of the cleaner that suits water.
#[test]
fn ten_figures_undercoated_by_airbrush() {
    let step = "stage: undercoat\nareas: [all]\nwith: airbrush\ncoats: 2\npaints: [{use: ground}]";
    let need = Case { bench: "{airbrush-row: 0.20}", ..case("{surface: 20 cm2}", step) }.need();
    let amounts = need.for_models(10);
    near(amounts.need.likely, 4.3);
    near(amounts.lot.likely, 4.3);
    assert_eq!(amounts.loads, 3);
    near(amounts.extras[0].likely, 5.0);
    assert_eq!(need.extras[0].product.as_ref().map(|paint| paint.id.as_str()), Some("rinse"));
}

/// 780 cm² × 2 coats × 20 µm × 1e-4 = 3.12 ml; ÷ 0.40 = 7.8 ml; + 0.3 ml = 8.1 ml. That is poured: 9 ml in half
/// millilitres would be a ninth too much, so 1 : 1 in tenths of one, 0.2 ml, and 41 of them: 4.1 ml of paint.
#[test]
fn one_tank_by_airbrush() {
    let step = "stage: basecoat\nareas: [all]\nwith: airbrush\ncoats: 2\n\
        paints: [{use: red, parts: 1}, {use: water, parts: 1}]";
    let need = Case { bench: "{airbrush-vehicle: 0.40}", ..case("{surface: 780 cm2}", step) }.need();
    let amounts = need.for_models(1);
    near(amounts.need.likely, 8.1);
    near(amounts.lot.likely, 8.2);
    near(amounts.parts[0].likely, 4.1);
    assert_eq!((amounts.out.by, amounts.out.counts.as_slice()), (By::Marks, [41, 41].as_slice()));
    near(amounts.out.mark().unwrap(), 0.1);
}

/// 30 × 20 cm² × 50 µm × 1e-4 = 3.0 ml; ÷ 0.8 = 3.75 ml.
#[test]
fn thirty_figures_washed() {
    let step = "stage: shade\nareas: [all]\nwhere: all\nwith: brush\npaints: [{use: wash}]";
    let need = Case { bench: "{wash-efficiency: 0.8}", ..case("{surface: 20 cm2}", step) }.need();
    near(need.for_models(30).need.likely, 3.75);
}

/// 3 : 2 : 1 is a recipe of 6 drops, 0.24 ml: 4 ml are 16.7 of them, so 17: 51 + 34 + 17 drops. A tenth of a millilitre is
/// less than one recipe, and one is mixed.
#[test]
fn a_lot_in_drops_is_a_whole_multiple_of_its_parts() {
    let step = "stage: basecoat\nareas: [all]\nwith: brush\n\
        paints: [{use: red, parts: 3}, {use: white, parts: 2}, {use: water, parts: 1}]";
    let need = case("{surface: 20 cm2}", step).need();
    let counts = |ml: f64| need.measured_out(Millilitres(ml)).counts;
    assert_eq!(counts(4.0), [51, 34, 17]);
    assert_eq!(counts(0.1), [3, 2, 1]);
    assert_eq!(counts(0.26), [3, 2, 1]);
    assert_eq!(counts(0.3), [6, 4, 2]);
    // From 5 ml on it is poured: half millilitres by the same parts, 3 ml a recipe.
    let poured = need.measured_out(Millilitres(6.0));
    assert_eq!((poured.by, poured.counts.as_slice()), (By::Marks, [6, 4, 2].as_slice()));
    near(poured.total(), 6.0);
    // A cup of 2 ml takes eight recipes.
    assert_eq!(need.filling(Millilitres(2.0)).unwrap().counts, [24, 16, 8]);
}

/// Parts as authors write them, and the drops of one recipe; a star where they are only near.
#[test]
fn parts_become_small_whole_numbers_of_drops() {
    let cases = [
        ("1", "4", [1, 4], false),
        ("2", "4", [1, 2], false),
        ("0.5", "3", [1, 6], false),
        ("1/3", "1", [1, 3], false),
        ("2.7", "1", [8, 3], true),
        ("50", "1", [50, 1], false),
        ("1", "1.02", [1, 1], true),
        ("999983", "1", [240, 1], true),
    ];
    for (first, second, parts, near) in cases {
        let step = format!(
            "stage: basecoat\nareas: [all]\nwith: brush\n\
            paints: [{{use: red, parts: {first}}}, {{use: water, parts: {second}}}]"
        );
        let recipe = case("{surface: 20 cm2}", step).need().measure.unwrap().drops;
        assert_eq!((recipe.parts.as_slice(), recipe.near), (parts.as_slice(), near), "{first} : {second}");
    }
}

/// Products with different drops: 3 : 1 by volume is 75 drops of 0.04 ml to 33.3 of 0.03 ml, so 7 + 3 of them, and poured it is
/// 3 : 1. Where an author counts drops, 3 + 1 stay that, and a poured lot keeps the volumes that these drops are: 3 · 0.04 to
/// 1 · 0.03 is 4 : 1.
#[test]
fn volumes_follow_from_the_drops_each_product_s_own() {
    let step = |unit: &str| {
        format!(
            "stage: basecoat\nareas: [all]\nwith: brush\n\
            paints: [{{use: red, {unit}: 3}}, {{use: wash, {unit}: 1}}]"
        )
    };
    for unit in ["parts", "drops"] {
        let need = case("{surface: 20 cm2}", step(unit)).need();
        let out = need.measured_out(Millilitres(0.25));
        let (counts, volumes) = if unit == "parts" { ([7, 3], [0.28, 0.09]) } else { ([6, 2], [0.24, 0.06]) };
        assert_eq!(out.counts, counts, "{unit}");
        assert_eq!((out.sized, out.how()), if unit == "parts" { (true, Some("sized")) } else { (false, None) });
        near(out.volumes[0], volumes[0]);
        near(out.volumes[1], volumes[1]);
        let poured = need.measured_out(Millilitres(10.0));
        assert_eq!(poured.parts, if unit == "parts" { [3, 1] } else { [4, 1] }, "{unit}");
    }
}

/// One part has one meaning: 1 : 1 is 1 : 1 by volume, of whatever drops and however much there is of it, to within a twentieth
/// of each share, and the drops that are said are those that make the volumes.
#[test]
fn a_ratio_is_the_same_for_one_model_and_for_sixty() {
    for (first, second, other) in [(1, 1, "small"), (1, 6, "small"), (3, 2, "wash"), (1, 20, "small"), (2, 1, "stream")]
    {
        let step = format!(
            "stage: basecoat\nareas: [all]\nwith: airbrush\n\
            paints: [{{use: red, parts: {first}}}, {{use: {other}, parts: {second}}}]"
        );
        let need = case("{surface: 20 cm2}", step).need();
        let wanted = f64::from(first) / f64::from(first + second);
        for models in [1, 3, 12, 20, 60, 500] {
            let out = need.for_models(models).out;
            let share = out.volumes[0].0 / out.total().0;
            assert!((share / wanted - 1.0).abs() < 0.08, "{first} : {second} {other}, {models}: {share} of {wanted}");
        }
        let filling = need.filling(Millilitres(2.0)).unwrap();
        let share = filling.volumes[0].0 / filling.total().0;
        assert!((share / wanted - 1.0).abs() < 0.08, "{first} : {second} {other} in a cup: {share} of {wanted}");
    }
    let step = "stage: basecoat\nareas: [all]\nwith: brush\npaints: [{use: red, parts: 1}, {use: small, parts: 1}]";
    assert_eq!(case("{surface: 20 cm2}", step).need().measure.unwrap().drops.parts, [3, 7]);
    // Of more lines too, of which few small numbers come near: within a tenth, and where parts are alike and drops too, so are
    // the counts.
    for parts in [[3, 1, 2, 4], [2, 1, 3, 4], [1, 1, 6, 4], [1, 2, 1, 1], [5, 4, 3, 2], [4, 1, 1, 9]] {
        let lines = ["red", "wash", "white", "small"].iter().zip(parts);
        let paints: Vec<String> = lines.map(|(id, part)| format!("{{use: {id}, parts: {part}}}")).collect();
        let step = format!("stage: basecoat\nareas: [all]\nwith: brush\npaints: [{}]", paints.join(", "));
        let need = case("{surface: 20 cm2}", step).need();
        for models in [1, 12, 200] {
            let out = need.for_models(models).out;
            let all: i32 = parts.iter().sum();
            for (part, volume) in parts.iter().zip(&out.volumes) {
                let off = volume.0 / out.total().0 * f64::from(all) / f64::from(*part) - 1.0;
                assert!(off.abs() < 0.16, "{parts:?} for {models}: {:?}, {off}", out.counts);
            }
        }
    }
}

/// Ordinary paint and water drip drops of 0.04 and 0.05 ml where nobody says otherwise: that is within what two drops of one
/// sort may differ by, so 1 : 1 is a drop to a drop, and each of them is their mean, 0.045 ml.
#[test]
fn drops_that_are_about_alike_are_counted_by_their_parts() {
    let step = "stage: basecoat\nareas: [all]\nwith: brush\npaints: [{use: plain, parts: 1}, {use: stream, parts: 1}]";
    let need = case("{surface: 20 cm2}", step).need();
    let out = need.measured_out(Millilitres(0.9));
    assert_eq!((out.counts.as_slice(), out.sized, out.near), ([10, 10].as_slice(), false, false));
    near(out.volumes[0], 0.45);
    near(out.volumes[1], 0.45);
    // Who has counted his drops says how far they differ.
    let exact = Case { bench: "{spread-drop: 1}", ..case("{surface: 20 cm2}", step) }.need();
    assert_eq!(exact.measure.unwrap().drops.parts, [4, 3]);
}

/// 30 : 1 in marks of a cup is 15.5 ml, far more than 11 ml, and in drops some 270: four times 3.1 ml are drawn up in tenths of
/// a millilitre. What little there is of it is dropped: 750 drops of 0.04 ml to 33.3 of 0.03 ml are 22 to 1.
#[test]
fn what_nobody_counts_is_drawn_up_in_tenths_of_a_millilitre() {
    let step = |first: u32| {
        format!(
            "stage: basecoat\nareas: [all]\nwith: brush\npaints: [{{use: red, parts: {first}}}, {{use: wash, parts: 1}}]"
        )
    };
    let need = case("{surface: 20 cm2}", step(30)).need();
    let poured = need.measured_out(Millilitres(11.0));
    assert_eq!((poured.by, poured.counts.as_slice()), (By::Marks, [120, 4].as_slice()));
    near(poured.volumes[0], 12.0);
    near(poured.volumes[1], 0.4);
    assert_eq!(need.scaling.counting.marks.len(), 1, "a page's script counts by the same mark");
    near(poured.mark().unwrap(), 0.1);
    let little = need.measured_out(Millilitres(1.2));
    assert_eq!((little.by, little.counts.as_slice()), (By::Drops, [44, 2].as_slice()));
    // Parts that go into a cup stay half millilitres.
    let few = case("{surface: 20 cm2}", step(3)).need().measured_out(Millilitres(11.0));
    assert_eq!((few.by, few.counts.as_slice()), (By::Marks, [18, 6].as_slice()));
    near(few.total(), 12.0);
}

/// 3 : 1 in half millilitres goes by steps of 2 ml, far too coarse: no lot is less than the need, or a tenth more.
#[test]
fn a_poured_lot_follows_the_need() {
    let step = "stage: basecoat\nareas: [cloth]\nwith: brush\ncoats: 2\n\
        paints: [{use: red, parts: 3}, {use: water, parts: 1}]";
    let need = case("{surface: 29 cm2}", step).need();
    let mut before = 0.0;
    for models in 35..=90 {
        let amounts = need.for_models(models);
        let (lot, times) = (amounts.lot.likely.0, amounts.lot.likely.0 / amounts.need.likely.0);
        assert!((1.0..=1.1).contains(&times) && amounts.out.by == By::Marks, "{models}: {times}");
        assert!((amounts.out.volumes[0].0 / amounts.out.volumes[1].0 - 3.0).abs() < 1e-9);
        assert!(std::mem::replace(&mut before, lot) <= lot, "{models}");
    }
    for (ml, mark) in [(7.9, 0.5), (8.0, 0.5), (7.0, 0.1), (8.1, 0.1)] {
        near(need.measured_out(Millilitres(ml)).mark().unwrap(), mark);
    }
}

/// However little is needed, the least that keeps a ratio is what it is: bounds of the need are none of the lot.
#[test]
fn the_least_lot_has_no_bounds() {
    let step =
        "stage: highlight\nareas: [cloth]\nwith: brush\npaints: [{use: red, parts: 6}, {use: water, parts: 3/2}]";
    let need = case("{surface: 13 cm2}", step).need();
    let (one, many) = (need.for_models(1), need.for_models(40));
    assert_eq!([one.lot.low, one.lot.high], [one.lot.likely; 2]);
    assert!(one.need.high < one.lot.likely && one.parts.iter().all(|part| !part.is_open()), "{one:?}");
    assert!(many.out.times > 1 && many.lot.is_open() && many.lot.low >= many.out.least(), "{many:?}");
}

/// One product is refilled as it is used up: from 5 ml on its volume is all that is told, rounded up to half a millilitre.
#[test]
fn one_product_alone_is_not_counted_once_it_is_poured() {
    let need = case("{surface: 20 cm2}", "stage: basecoat\nareas: [all]\nwith: brush\npaints: [{use: red}]").need();
    let poured = need.measured_out(Millilitres(6.2));
    assert_eq!((poured.by, poured.counts.len()), (By::Volume, 0));
    near(poured.total(), 6.5);
    let little = need.measured_out(Millilitres(1.0));
    assert_eq!((little.by, little.counts.as_slice()), (By::Drops, [25].as_slice()));
}

/// ×/÷ 1.4 surface, 1.5 film, 1.45 spray, 1.2 drop: √(0.336² + 0.405² + 0.372² + 0.182²) = 0.670, e^0.670 = 1.95.
#[test]
fn errors_pool_to_about_a_factor_of_two() {
    let step = "stage: basecoat\nareas: [all]\nwith: airbrush\npaints: [{use: red}]";
    let need = case("{scale: 28 mm}", step).need();
    assert_eq!(need.sum.source, SurfaceSource::Guessed(ModelKind::Foot));
    assert!((need.scaling.spread_drops - 1.95).abs() < 0.01, "{}", need.scaling.spread_drops);
    assert!(need.for_models(10).lot.high.0 >= need.for_models(10).need.likely.0 * need.scaling.spread * 0.999);
}

/// A lot for several models holds a quarter more, at least 1 ml more; a single model and one bottle need none.
#[test]
fn a_lot_for_all_has_a_reserve() {
    let step = "stage: basecoat\nareas: [all]\nwith: airbrush\ntogether: true\npaints: [{use: red, parts: 1}";
    let need = case("{surface: 30 cm2}", format!("{step}, {{use: water, parts: 1}}]")).need();
    near(need.for_models(1).reserve, 0.0);
    near(need.for_models(2).reserve, 1.0);
    // 100 × 30 cm² × 20 µm × 1e-4 ÷ 0.25 + 0.3 = 24.3 ml; a quarter of it is 6.075 ml.
    near(need.for_models(100).reserve, 6.075);
    near(need.for_models(100).need.likely, 30.375);
    let neat = case("{surface: 30 cm2}", format!("{step}]")).need();
    near(neat.for_models(100).reserve, 0.0);
}

/// A can's content: 400 ml leave 70 ml on a flat panel, and a row of figures catches 10 % of that: 7 ml. A coat of
/// 35 µm on 20 cm² is 0.07 ml, so a can is good for 100 such coats: 50 figures with two coats each.
#[test]
fn a_can_is_good_for_a_hundred_coats_on_figures() {
    let step = "stage: undercoat\nareas: [all]\nwith: spray-can\ncoats: 2\npaints: [{use: can}]";
    let need = case("{surface: 20 cm2}", step).need();
    near(need.for_models(50).lot.likely, 400.0);
    assert_eq!(need.for_models(50).out.by, By::Volume);
}

/// 20 cm² × 60 % × 5 % × 60 µm × 1e-4 ÷ 0.7 = 0.00514 ml of softener a model, whether the step names it or not.
#[test]
fn decals_take_softener() {
    let named = case("{surface: 20 cm2}", "stage: decal\nareas: [cloth]\nwith: hand\npaints: [{use: settle}]").need();
    near(named.for_models(100).need.likely, 0.5143);
    let unnamed = case("{surface: 20 cm2}", "stage: decal\nareas: [cloth]\nwith: hand").need();
    near(unnamed.for_models(100).extras[0].likely, 0.5143);
    assert_eq!(unnamed.extras[0].product.as_ref().map(|paint| paint.id.as_str()), Some("settle"));
}

/// Guessed surfaces against the table they were drawn from: cm² by scale and kind.
#[test]
fn surfaces_by_scale_and_kind() {
    let cases = [
        ("{scale: 28 mm}", 10.0, 20.0),
        ("{scale: 15 mm}", 3.0, 5.0),
        ("{scale: 6 mm}", 0.4, 0.8),
        ("{scale: 1/72}", 6.0, 10.0),
        ("{scale: 1/35}", 27.0, 43.0),
        ("{scale: 28 mm, kind: hero}", 18.0, 35.0),
        ("{scale: 28 mm, kind: rider}", 30.0, 55.0),
        ("{scale: 1/72, kind: rider}", 16.0, 28.0),
        ("{scale: 28 mm, kind: mount}", 20.0, 45.0),
        ("{scale: 54 mm, kind: mount}", 70.0, 150.0),
        ("{scale: 28 mm, kind: beast}", 80.0, 300.0),
        ("{scale: 1/35, kind: vehicle}", 624.0, 1131.0),
        ("{scale: 1/72, kind: vehicle}", 148.0, 268.0),
        ("{scale: 1/48, kind: aircraft}", 225.0, 375.0),
        ("{scale: 28 mm, kind: building}", 1500.0, 2800.0),
        ("{scale: 28 mm, kind: terrain}", 1000.0, 1800.0),
        ("{scale: 1/10, kind: bust}", 40.0, 90.0),
    ];
    for (model, least, most) in cases {
        let area = case(model, "stage: basecoat\nareas: [all]\nwith: brush\npaints: [{use: red}]").surface().area.0;
        assert!((least..=most).contains(&area), "{model}: {area}");
    }
}

/// What an author may write and no painter would: every amount stays a number.
#[test]
fn absurd_figures_stay_finite() {
    let step = "stage: glaze\nareas: [all]\nwith: airbrush\ncoats: 100000\npaints: [{use: red}]";
    for bench in ["{airbrush-row: 0, airbrush-single: 0, cup-size: 0, spread-film: 0}", "{wet-airbrush: 999999}"] {
        let amounts = Case { bench, ..case("{surface: 999999 cm2}", step) }.need().for_models(u32::MAX);
        assert!(amounts.lot.high.0.is_finite() && amounts.lot.low.0 > 0.0, "{amounts:?}");
        assert!(amounts.loads > 1_000_000_000, "{}", amounts.loads);
    }
    let none = case("{surface: 20 cm2}", step).need().for_models(0);
    assert_eq!((none.lot, none.loads, none.extras[0]), (Estimate::NONE, 0, Estimate::NONE));
}

/// Four parts with coprime denominators near a million: their common denominator fits into no machine word.
#[test]
fn ratios_that_are_no_ratios_are_counted_out_all_the_same() {
    let lines = ["999983", "999979", "999961", "999959"].map(|under| format!("1/{under}"));
    let paints = ["red", "white", "water", "wash"].iter().zip(lines);
    let paints: Vec<String> = paints.map(|(id, parts)| format!("{{use: {id}, parts: {parts}}}")).collect();
    let step = format!("stage: basecoat\nareas: [all]\nwith: brush\npaints: [{}]", paints.join(", "));
    let alike = Case { bench: "{drop-thin: 0.04}", ..case("{surface: 20 cm2}", step.as_str()) };
    assert_eq!(alike.need().measure.unwrap().drops, Recipe { parts: vec![1, 1, 1, 1], near: true, sized: false });
    // A drop of 0.03 ml is three quarters of the others.
    assert_eq!(case("{surface: 20 cm2}", step).need().measure.unwrap().drops.parts, [3, 3, 3, 4]);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn amounts_grow(models in 0_u32..500, coats in 1_u32..6, surface in 1_u32..2000, airbrush in any::<bool>(), together in any::<bool>()) {
        let with = if airbrush { "airbrush" } else { "brush" };
        let need = |coats: u32, surface: u32| {
            let step = format!(
                "stage: basecoat\nareas: [cloth]\nwith: {with}\ncoats: {coats}\ntogether: {together}\n\
                paints: [{{use: red, parts: 2}}, {{use: water, parts: 1/3}}]"
            );
            case(format!("{{surface: {surface} cm2}}"), step).need()
        };
        let one = need(coats, surface);
        let wanted = |need: &StepNeed, models: u32| need.for_models(models).need.likely.0;
        prop_assert!(wanted(&one, models) < wanted(&one, models + 1));
        prop_assert!(wanted(&one, models + 1) < wanted(&need(coats + 1, surface), models + 1));
        let amounts = one.for_models(models);
        let parts: Estimate = amounts.parts.iter().copied().sum();
        prop_assert!((parts.likely.0 - amounts.lot.likely.0).abs() <= 1e-9 * amounts.lot.likely.0);
        prop_assert!(amounts.lot.low <= amounts.lot.likely && amounts.lot.likely <= amounts.lot.high);
        // A larger model of the same class takes more; a larger class is easier to hit.
        let larger = need(coats, surface + 1);
        if larger.sum.laying == one.sum.laying {
            prop_assert!(wanted(&one, models + 1) < wanted(&larger, models + 1));
        }
        // Whole recipes: in drops never a tenth of one too little, poured nothing; never a whole one too much.
        if models > 0 {
            let out = &amounts.out;
            let recipe = out.total().0 / f64::from(out.times);
            let missing = if out.by == By::Drops { 0.1 } else { 0.0 };
            prop_assert!(out.total().0 > amounts.need.likely.0 - (missing + 1e-4) * recipe);
            prop_assert!(out.times == 1 || out.total().0 < amounts.need.likely.0 + (1.0001 - missing) * recipe);
            prop_assert!(out.counts.iter().zip(&out.parts).all(|(count, part)| *count == part * out.times));
        }
    }
}

#[test]
fn the_size_of_a_target_follows_its_surface_without_a_jump() {
    let bench = crate::bench::Bench::default();
    let size = |kind: Option<ModelKind>, area: f64| {
        let model = crate::guide::Model { kind, ..Default::default() };
        let area = SquareCentimetres(area);
        let surface = ModelSurface { area, base: None, holds_base: false, source: SurfaceSource::Given, spread: 1.0 };
        ModelSize::of(&model, &surface, &bench)
    };
    assert_eq!(
        [30.0, 90.0, 300.0, 2000.0].map(|area| size(None, area)),
        [ModelSize::Figure, ModelSize::Between(50), ModelSize::Vehicle, ModelSize::Terrain]
    );
    // A rider of 520 cm² is met as a vehicle of as much, and one of 5000 is still painted with a figure's brushes.
    for kind in [ModelKind::Rider, ModelKind::Vehicle] {
        let sizes = [30.0, 520.0, 5000.0].map(|area| size(Some(kind), area));
        assert_eq!(sizes, [ModelSize::Figure, ModelSize::Vehicle, ModelSize::Vehicle], "{kind}");
    }
    let sprayed = |area: f64| area / Laying::Airbrush(size(Some(ModelKind::Foot), area)).efficiency(&bench).1;
    let all: Vec<f64> = (20..400).map(|area| sprayed(f64::from(area))).collect();
    assert!(all.windows(2).all(|pair| pair[0] < pair[1]), "more surface takes more: {all:?}");
}

#[test]
fn the_rim_of_a_base_takes_less_than_the_whole_of_it() {
    let need = |reach: &str| {
        let step = format!("stage: basing\nwith: brush\npaints: [{{use: red}}]\nwhere: {reach}");
        case("{surface: 20 cm2, base: 25 mm}", step).need().for_models(20).need.likely.0
    };
    let (rim, top, all) = (need("edges"), need("faces"), need("all"));
    assert!(rim < 0.6 * all && rim + top < 1.1 * all, "{rim} and {top} of {all} ml");
}

#[test]
fn what_is_less_than_a_drop_goes_by_the_smallest_drop_of_the_mix() {
    let need = |bench: &'static str, paints: &str| {
        let step = format!("stage: basecoat\nareas: [cloth]\nwith: brush\npaints: [{paints}]");
        Case { bench, ..case("{surface: 13 cm2}", step) }.need()
    };
    let red = need("{}", "{use: red, parts: 1}");
    near(red.drop, 0.04);
    near(less_than_a_drop(red.drop), 0.02);
    near(a_drop_or_two(red.drop), 0.1);
    let washed = "{use: red, parts: 1}, {use: wash, parts: 1}";
    near(need("{}", washed).drop, 0.03);
    near(need("{drop-thin: 0.02}", washed).drop, 0.02);
    near(ordinary_drop(&crate::bench::Bench::default()), 0.04);
}
