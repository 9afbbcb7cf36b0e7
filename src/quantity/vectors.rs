//! Sums that were done by hand, and what must hold for any step: the tests of this layer.

use proptest::prelude::*;

use super::*;
use crate::bench::Figure;
use crate::door::Memory;
use crate::guide::{Stock, resolve};
use crate::measure::{Millilitres, SquareCentimetres};
use crate::source;

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
    fn need(&self) -> StepNeed {
        let door = Memory::default()
            .with("content/guide.yaml", format!("title: T\nauthor: A\nbench: {}\n", self.bench))
            .with("content/paints/mere.yaml", PAINTS)
            .with(
                "content/schemes/s/scheme.md",
                format!("---\ntitle: S\nmodel: {}\nareas: {{cloth: 60%, rest: 40%}}\n---\n", self.model),
            )
            .with("content/schemes/s/10-step.md", format!("---\ntitle: Step\n{}\n---\n", self.step));
        let (guide, findings) = resolve(&source::read(&door).unwrap());
        assert!(findings.is_empty(), "{findings:?}");
        let conditions = Conditions::of(&guide);
        let scheme = &guide.schemes[0];
        let film = Film::walk(scheme, &[0], &conditions);
        let surface = ModelSurface::of(&scheme.model, None, &conditions.bench).unwrap();
        step_need(&Stock::of(&guide), &film, 0, &surface, &conditions).unwrap()
    }
}

fn near(found: Millilitres, wanted: f64) {
    assert!((found.0 - wanted).abs() < 5e-4 * wanted.max(1.0), "{} is not {wanted}", found.0);
}

/// 10 × 13 cm² × 60 % × 2 coats × 30 µm × 1e-4 = 0.468 ml on the models; ÷ 0.6 = 0.78 ml mixed;
/// 2 : 1 with water, so 0.78 × 2/3 = 0.52 ml of paint: 13 drops of 0.04 ml.
#[test]
fn ten_figures_by_brush() {
    let step = "stage: basecoat\nareas: [cloth]\nwith: brush\ncoats: 2\n\
        paints: [{use: red, parts: 2}, {use: water, parts: 1}]";
    let need = Case { bench: "{brush-efficiency: 0.6}", ..case("{surface: 13 cm2}", step) }.need();
    let amounts = need.for_models(10);
    near(need.sum.on_model(), 0.0468);
    near(amounts.lot.likely, 0.78);
    near(amounts.parts[0].likely, 0.52);
    assert_eq!(drops(&need.portions, amounts.lot.likely).unwrap().counts, [13, 7]);
}

/// 10 × 20 cm² × 2 coats × 20 µm × 1e-4 = 0.80 ml; ÷ 0.20 = 4.0 ml; and 0.3 ml stay in cup, needle and mixing cup.
/// 4.3 ml are three cups of 2 ml. The flush afterwards takes 5 ml of the cleaner that suits water.
#[test]
fn ten_figures_undercoated_by_airbrush() {
    let step = "stage: undercoat\nareas: [all]\nwith: airbrush\ncoats: 2\npaints: [{use: ground}]";
    let need = Case { bench: "{airbrush-row: 0.20}", ..case("{surface: 20 cm2}", step) }.need();
    let amounts = need.for_models(10);
    near(amounts.lot.likely, 4.3);
    assert_eq!(amounts.loads, 3);
    near(amounts.extras[0].likely, 5.0);
    assert_eq!(need.extras[0].product.as_ref().map(|paint| paint.id.as_str()), Some("rinse"));
}

/// 780 cm² × 2 coats × 20 µm × 1e-4 = 3.12 ml; ÷ 0.40 = 7.8 ml; + 0.3 ml = 8.1 ml; 1 : 1, so 4.05 ml of paint.
#[test]
fn one_tank_by_airbrush() {
    let step = "stage: basecoat\nareas: [all]\nwith: airbrush\ncoats: 2\n\
        paints: [{use: red, parts: 1}, {use: water, parts: 1}]";
    let need = Case { bench: "{airbrush-vehicle: 0.40}", ..case("{surface: 780 cm2}", step) }.need();
    let amounts = need.for_models(1);
    near(amounts.lot.likely, 8.1);
    near(amounts.parts[0].likely, 4.05);
}

/// 30 × 20 cm² × 50 µm × 1e-4 = 3.0 ml; ÷ 0.8 = 3.75 ml.
#[test]
fn thirty_figures_washed() {
    let step = "stage: shade\nareas: [all]\nwhere: all\nwith: brush\npaints: [{use: wash}]";
    near(case("{surface: 20 cm2}", step).need().for_models(30).lot.likely, 3.75);
}

/// 4 ml at 0.04 ml a drop are 100 drops; 3 : 2 : 1 makes 50, 33.3 and 16.7 of them.
#[test]
fn a_hundred_drops_in_three_parts() {
    let step = "stage: basecoat\nareas: [all]\nwith: brush\n\
        paints: [{use: red, parts: 3}, {use: white, parts: 2}, {use: water, parts: 1}]";
    let dropped = drops(&case("{surface: 20 cm2}", step).need().portions, Millilitres(4.0)).unwrap();
    assert_eq!(dropped.counts, [50, 33, 17]);
    assert!(!dropped.too_few());
    let few = drops(&case("{surface: 20 cm2}", step).need().portions, Millilitres(0.2)).unwrap();
    assert!(few.too_few() && few.total() == 5);
}

/// A tenth of a millilitre is two drops of six: whole recipes of 3 : 2 : 1 are counted out instead.
#[test]
fn next_to_nothing_is_mixed_in_whole_recipes() {
    let step = "stage: basecoat\nareas: [all]\nwith: brush\n\
        paints: [{use: red, parts: 3}, {use: white, parts: 2}, {use: water, parts: 1}]";
    let need = case("{surface: 20 cm2}", step).need();
    let counts = |ml: f64| workable(&need.portions, Millilitres(ml)).unwrap().counts;
    assert_eq!(counts(0.1), [3, 2, 1]);
    assert_eq!(counts(0.3), [6, 4, 2]);
    assert_eq!(counts(4.0), drops(&need.portions, Millilitres(4.0)).unwrap().counts);
    let step = "stage: basecoat\nareas: [all]\nwith: brush\npaints: [{use: red, parts: 50}, {use: white, parts: 1}]";
    let need = case("{surface: 20 cm2}", step).need();
    assert_eq!(workable(&need.portions, Millilitres(0.1)).unwrap().counts, [50, 1]);
}

/// ×/÷ 1.4 surface, 1.5 film, 1.45 spray, 1.2 drop: √(0.336² + 0.405² + 0.372² + 0.182²) = 0.670, e^0.670 = 1.95.
#[test]
fn errors_pool_to_about_a_factor_of_two() {
    let step = "stage: basecoat\nareas: [all]\nwith: airbrush\npaints: [{use: red}]";
    let need = case("{scale: 28 mm}", step).need();
    assert_eq!(need.sum.source, SurfaceSource::Guessed(crate::trade::ModelKind::Foot));
    assert!((need.scaling.spread_drops - 1.95).abs() < 0.01, "{}", need.scaling.spread_drops);
    let lot = need.for_models(10).lot;
    near(lot.high, lot.likely.0 * need.scaling.spread);
}

/// A lot for several models holds a quarter more, at least 1 ml more; a single model needs none.
#[test]
fn a_lot_for_all_has_a_reserve() {
    let step = "stage: basecoat\nareas: [all]\nwith: airbrush\ntogether: true\npaints: [{use: red}]";
    let need = case("{surface: 30 cm2}", step).need();
    near(need.for_models(1).reserve, 0.0);
    near(need.for_models(2).reserve, 1.0);
    // 100 × 30 cm² × 20 µm × 1e-4 ÷ 0.3 + 0.3 = 20.3 ml; a quarter of it is 5.075 ml.
    near(need.for_models(100).reserve, 5.075);
    near(need.for_models(100).lot.likely, 25.375);
}

/// A can's content: 400 ml leave 70 ml on a flat panel, and a row of figures catches 15 % of that: 10.5 ml. A coat of
/// 35 µm on 20 cm² is 0.07 ml, so a can is good for 150 such coats: 75 figures with two coats each.
#[test]
fn a_can_is_good_for_seventy_five_figures() {
    let step = "stage: undercoat\nareas: [all]\nwith: spray-can\ncoats: 2\npaints: [{use: can}]";
    let need = case("{surface: 20 cm2}", step).need();
    near(need.for_models(75).lot.likely, 400.0);
    assert!(drops(&need.portions, Millilitres(400.0)).is_none());
}

/// 20 cm² × 60 % × 5 % × 60 µm × 1e-4 ÷ 0.8 = 0.0045 ml of softener a model, whether the step names it or not.
#[test]
fn decals_take_softener() {
    let named = case("{surface: 20 cm2}", "stage: decal\nareas: [cloth]\nwith: hand\npaints: [{use: settle}]").need();
    near(named.for_models(100).parts[0].likely, 0.45);
    let unnamed = case("{surface: 20 cm2}", "stage: decal\nareas: [cloth]\nwith: hand").need();
    near(unnamed.for_models(100).extras[0].likely, 0.45);
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
        ("{scale: 28 mm, kind: beast}", 80.0, 300.0),
        ("{scale: 1/35, kind: vehicle}", 624.0, 1131.0),
        ("{scale: 1/72, kind: vehicle}", 148.0, 268.0),
        ("{scale: 1/48, kind: aircraft}", 225.0, 375.0),
        ("{scale: 28 mm, kind: building}", 1500.0, 2800.0),
    ];
    for (model, least, most) in cases {
        let area = case(model, "stage: basecoat\nareas: [all]\nwith: brush\npaints: [{use: red}]").need().sum.area.0;
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
        assert_eq!(amounts.loads, u32::MAX);
    }
    let none = case("{surface: 20 cm2}", step).need().for_models(0);
    assert_eq!((none.lot, none.loads, none.extras[0]), (Estimate::NONE, 0, Estimate::NONE));
}

/// Four parts with coprime denominators near a million: their common denominator fits into no machine word.
#[test]
fn ratios_that_are_no_ratios_are_shared_out_all_the_same() {
    let lines = ["999983", "999979", "999961", "999959"].map(|under| format!("1/{under}"));
    let paints = ["red", "white", "water", "wash"].iter().zip(lines);
    let paints: Vec<String> = paints.map(|(id, parts)| format!("{{use: {id}, parts: {parts}}}")).collect();
    let step = format!("stage: basecoat\nareas: [all]\nwith: brush\npaints: [{}]", paints.join(", "));
    let need = case("{surface: 20 cm2}", step).need();
    assert_eq!(drops(&need.portions, Millilitres(4.0)).unwrap().total(), 108);
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
        let lot = |need: &StepNeed, models: u32| need.for_models(models).lot.likely.0;
        prop_assert!(lot(&one, models) < lot(&one, models + 1));
        prop_assert!(lot(&one, models + 1) < lot(&need(coats + 1, surface), models + 1));
        let amounts = one.for_models(models);
        let parts: Estimate = amounts.parts.iter().copied().sum();
        prop_assert!((parts.likely.0 - amounts.lot.likely.0).abs() <= 1e-9 * amounts.lot.likely.0);
        prop_assert!(amounts.lot.low <= amounts.lot.likely && amounts.lot.likely <= amounts.lot.high);
        // A larger model of the same class takes more; a larger class is easier to hit.
        let larger = need(coats, surface + 1);
        if larger.sum.laying == one.sum.laying {
            prop_assert!(lot(&one, models + 1) < lot(&larger, models + 1));
        }
    }

    #[test]
    fn drops_keep_the_total_and_lie_within_one(total in 0_u32..100_000, weights in proptest::collection::vec(1_u128..1_000_000_000, 1..9)) {
        let shares = share_out(total, &weights);
        prop_assert_eq!(shares.iter().map(|share| u64::from(*share)).sum::<u64>(), u64::from(total));
        let sum: u128 = weights.iter().sum();
        for (share, weight) in shares.iter().zip(&weights) {
            let exact = f64::from(total) * (*weight as f64) / (sum as f64);
            prop_assert!((f64::from(*share) - exact).abs() < 1.0 + 1e-6);
        }
    }
}

#[test]
fn the_size_of_a_target_follows_its_surface() {
    let bench = crate::bench::Bench::default();
    let size = |area| ModelSize::of(SquareCentimetres(area), &bench);
    assert_eq!([size(30.0), size(300.0), size(2000.0)], [ModelSize::Figure, ModelSize::Vehicle, ModelSize::Terrain]);
    assert!(bench.get(Figure::VehicleFrom) < bench.get(Figure::TerrainFrom));
}
