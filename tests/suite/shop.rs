//! Shopping lists as somebody prints them, and as they stand on the site.

use std::fs;

use maulstick::door::Memory;
use maulstick::shop::{List, Order};
use maulstick::story;
use proptest::prelude::*;
use serde_json::Value;

use crate::bench::{Bench, files_below};
use crate::site::published_demo;

/// A guide with one scheme of three steps, on a shelf of five products.
fn small() -> Bench {
    let bench = Bench::empty();
    bench.write("content/guide.yaml", "title: Fen colours\nauthor: Quill Hollis\ncurrency: EUR\n");
    bench.write("content/paints/mere.yaml", PAINTS);
    bench.write(
        "content/tools.yaml",
        "tools:\n  fine-airbrush: Airbrush\n  goggles: {name: Goggles, kind: protection}\n",
    );
    bench.write("content/schemes/warden/scheme.md", SCHEME);
    bench.write(
        "content/schemes/warden/10-ground.md",
        step("Grey ground", "undercoat", "airbrush", "{use: grey}", "tools: [fine-airbrush, goggles]\n"),
    );
    bench.write(
        "content/schemes/warden/20-cloth.md",
        step("Cloth", "basecoat", "brush", "{use: bog-iron}", "coats: 2\nwait: 1 h\n"),
    );
    bench.write("content/schemes/warden/30-clear.md", step("Clear", "varnish", "brush", "{use: clear}", ""));
    bench
}

const PAINTS: &str = "\
maker: Tarn & Daughter
range: Mere
family: water
bottle: 17 ml
price: 2.80
paints:
  grey: {name: Grey Start, kind: primer, bottles: [{size: 60 ml, price: 8.90}]}
  bog-iron: {name: Bog Iron, kind: paint, colour: \"#5a4a3e\", code: M-41}
  peat: {name: Peat, kind: paint, colour: \"#5b4b3f\"}
  clear: {name: Mist Matt, kind: varnish, bottle: 30 ml}
  cleaner: {name: Cup Cleaner, kind: cleaner, bottle: 200 ml, price: 8.70}
";

const SCHEME: &str =
    "---\ntitle: Fen warden\nmodel: {material: plastic, surface: 20 cm2}\nareas: {body: 100%}\n---\nHello.\n";

fn step(title: &str, stage: &str, with: &str, paint: &str, more: &str) -> String {
    format!(
        "---\ntitle: {title}\nstage: {stage}\nareas: [all]\nwith: {with}\npaints: [{paint}]\ndry: 24 h\nminutes: 1\n\
         {more}---\nPaint.\n"
    )
}

fn listed(bench: &Bench, arguments: &[&str]) -> String {
    let all: Vec<&str> = ["shop", "."].iter().chain(arguments).copied().collect();
    let run = bench.run(&all);
    assert_eq!((run.status, run.err.as_str()), (0, ""), "{}", run.out);
    run.out
}

fn json(bench: &Bench, arguments: &[&str]) -> Value {
    let all: Vec<&str> = arguments.iter().chain(&["--format", "json"]).copied().collect();
    serde_json::from_str(&listed(bench, &all)).unwrap()
}

fn line<'v>(list: &'v Value, id: &str) -> &'v Value {
    let lines = list["lines"].as_array().unwrap();
    lines.iter().find(|line| line["id"] == id).unwrap_or_else(|| panic!("{id} is not on the list"))
}

fn near(found: &Value, wanted: f64) {
    let found = found.as_f64().unwrap();
    assert!((found - wanted).abs() < 0.002 * wanted.max(1.0), "{found} and not {wanted}");
}

#[test]
fn a_name_of_a_scheme_and_of_an_army_says_which_was_taken() {
    let bench = small();
    bench.write("content/armies/warden.yaml", "title: Fen warden\nunits: [{scheme: warden, models: 7}]\n");
    for (name, target, models, told) in [
        ("warden", "schemes/warden", 7, true),
        ("schemes/warden", "schemes/warden", 7, false),
        ("armies/warden", "armies/warden", 7, false),
    ] {
        let run = bench.run(&["shop", ".", name, "--format", "json"]);
        let list: Value = serde_json::from_str(&run.out).unwrap();
        assert_eq!((list["target"].as_str(), list["models"].as_u64()), (Some(target), Some(models)), "{name}");
        assert_eq!(run.err.contains("'armies/warden' is the army"), told, "{}", run.err);
    }
    let run = bench.run(&["shop", ".", "schemes/warden", "--models", "2", "--format", "json"]);
    assert!(run.out.contains("\"models\": 2"), "{}", run.err);
    assert_eq!(bench.run(&["shop", ".", "armies/warden", "--models", "2"]).status, 2);
    assert!(bench.run(&["plan", ".", "armies/nobody"]).err.contains("there is no army 'nobody'"));
}

#[test]
fn the_till_slip_reads_like_one() {
    assert_eq!(listed(&small(), &["warden", "--models", "2"]), SLIP);
}

const SLIP: &str = "\
SHOPPING LIST
Fen warden, for 2 models
4 bottles to buy                                                      €23.20
Do first: Mask FFP2 or N95 · Outside or extraction · Others out

Primer                                                                   EUR
----------------------------------------------------------------------------
[ ] Grey Start                                           1 × 60 ml      8.90
    Tarn & Daughter · Mere
    about 0.65 ml (0.35–1.1) · step 1

Paints
----------------------------------------------------------------------------
[ ] Bog Iron                                             1 × 17 ml      2.80
    Tarn & Daughter · Mere · M-41
    about 0.4 ml (0.22–0.61) · step 2

Thinners, cleaners and mediums
----------------------------------------------------------------------------
[ ] Cup Cleaner                                         1 × 200 ml      8.70
    Tarn & Daughter · Mere
    about 5 ml (3–8.2) · step 1

Varnish
----------------------------------------------------------------------------
[ ] Mist Matt                                            1 × 30 ml      2.80
    Tarn & Daughter · Mere
    about 0.3 ml (0.16–0.43) · step 3

Protective gear
----------------------------------------------------------------------------
[ ] Particle mask FFP2, N95 or better
    Against spray mist and powder; it does not hold back vapour. · step 1
[ ] Extraction to outside
    Or a place outdoors; filters alone do not hold back vapour. · step 1
    The author adds:
[ ] Goggles
    step 1

Tools
----------------------------------------------------------------------------
[ ] Airbrush
    step 1

Cautions
----------------------------------------------------------------------------
    Spray mist. Even water-based mist reaches the lungs: spray outside or
    with extraction to outside. Keep mask and fan on for several minutes
    after; keep others out.
    Particle mask. Wear a particle mask (FFP2/N95 or better): it seals on a
    shaved face only and holds back no vapour. Change it when breathing gets
    hard.
    Varnish. A clear coat gives off vapour: let it dry in moving air where
    nobody sleeps or eats. Keep even varnished models away from small
    children, food and drink.
    Children and animals. For adults only: keep children and animals away
    until all is dry; take cage birds out first. Afterwards lock up
    products, tools and waste.
    The safety data sheets of your products, your local rules and qualified
    people come first: where they differ from this guide, follow them, not
    this guide.

============================================================================
4 bottles to buy                                                      €23.20
Amounts are predictions: the likely figure, and in brackets the possible
range. Bottles are rounded up from the top of the range; 7% of each is
assumed to stay in it. What is in the cupboard is taken off.
";

#[test]
fn the_table_has_one_row_a_thing() {
    assert_eq!(listed(&small(), &["warden", "--models", "2", "--format", "csv"]), TABLE);
}

const TABLE: &str = "\
group,id,name,maker,range,code,kind,uses,models,ml_per_model,ml_per_batch,ml_needed,ml_low,ml_high,ml_have,bottle_ml,bottles,price_each,price_total,currency,substitutes,still_sold,discontinued\r\n\
ground,grey,Grey Start,Tarn & Daughter,Mere,,primer,warden 1,2,0.16,0.33,0.65,0.351522,1.093529,0,60,1,8.90,8.90,EUR,,,\r\n\
paints,bog-iron,Bog Iron,Tarn & Daughter,Mere,M-41,paint,warden 2,2,0.184615,0.030769,0.4,0.223332,0.610443,0,17,1,2.80,2.80,EUR,,,\r\n\
thinners,cleaner,Cup Cleaner,Tarn & Daughter,Mere,,cleaner,warden 1,2,0,5,5,3.030303,8.25,0,200,1,8.70,8.70,EUR,,,\r\n\
varnishes,clear,Mist Matt,Tarn & Daughter,Mere,,varnish,warden 3,2,0.128571,0.042857,0.3,0.155535,0.42513,0,30,1,2.80,2.80,EUR,,,\r\n\
safety,mist-mask,\"Particle mask FFP2, N95 or better\",,,,,warden 1,2,,,,,,,,,,,,,,\r\n\
safety,extraction,Extraction to outside,,,,,warden 1,2,,,,,,,,,,,,,,\r\n\
tool,fine-airbrush,Airbrush,,,,,warden 1,2,,,,,,,,,,,,,,\r\n\
protection,goggles,Goggles,,,,,warden 1,2,,,,,,,,,,,,,,\r\n\
caution,first,Do first: Mask FFP2 or N95 · Outside or extraction · Others out,,,,,,2,,,,,,,,,,,,,,\r\n\
caution,closing,\"The safety data sheets of your products, your local rules and qualified people come first: where they differ from this guide, follow them, not this guide.\",,,,,,2,,,,,,,,,,,,,,\r\n";

#[test]
fn the_task_list_can_be_pasted() {
    assert_eq!(listed(&small(), &["Fen Warden", "--models", "1", "--format", "md"]), TASKS);
}

const TASKS: &str = "\
# Shopping list

Fen warden, for 1 model

**Do first: Mask FFP2 or N95 · Outside or extraction · Others out**

## Primer

- [ ] **Grey Start** · 1 × 60 ml · €8.90 · Tarn \\& Daughter · Mere · about 0.55 ml (0.3–0.92) · step 1

## Paints

- [ ] **Bog Iron** · 1 × 17 ml · €2.80 · Tarn \\& Daughter · Mere · M-41 · about 0.2 ml (0.11–0.31) · step 2

## Thinners, cleaners and mediums

- [ ] **Cup Cleaner** · 1 × 200 ml · €8.70 · Tarn \\& Daughter · Mere · about 5 ml (3–8.2) · step 1

## Varnish

- [ ] **Mist Matt** · 1 × 30 ml · €2.80 · Tarn \\& Daughter · Mere · about 0.15 ml (0.078–0.21) · step 3

## Protective gear

- [ ] **Particle mask FFP2, N95 or better** · Against spray mist and powder; it does not hold back vapour. step 1
- [ ] **Extraction to outside** · Or a place outdoors; filters alone do not hold back vapour. step 1

The author adds:

- [ ] **Goggles** · step 1

## Tools

- [ ] **Airbrush** · step 1

## Cautions

- Spray mist. Even water-based mist reaches the lungs: spray outside or with extraction to outside. Keep mask and fan on for several minutes after; keep others out.
- Particle mask. Wear a particle mask (FFP2/N95 or better): it seals on a shaved face only and holds back no vapour. Change it when breathing gets hard.
- Varnish. A clear coat gives off vapour: let it dry in moving air where nobody sleeps or eats. Keep even varnished models away from small children, food and drink.
- Children and animals. For adults only: keep children and animals away until all is dry; take cage birds out first. Afterwards lock up products, tools and waste.
- The safety data sheets of your products, your local rules and qualified people come first: where they differ from this guide, follow them, not this guide.

**4 bottles to buy: €23.20**

Amounts are predictions: the likely figure, and in brackets the possible range. Bottles are rounded up from the top of the range; 7% of each is assumed to stay in it. What is in the cupboard is taken off.
";

#[test]
fn scripts_find_what_was_agreed() {
    let list = json(&small(), &["warden", "--models", "2"]);
    let keys = |value: &Value| value.as_object().unwrap().keys().cloned().collect::<Vec<_>>();
    for key in ["target", "models", "currency", "lines", "tools", "total"] {
        assert!(keys(&list).iter().any(|known| known == key), "{key} is not in {list:#}");
    }
    let grey = line(&list, "grey");
    for key in [
        "id",
        "name",
        "maker",
        "range",
        "kind",
        "uses",
        "ml_per_model",
        "ml_per_batch",
        "ml_needed",
        "ml_have",
        "bottle_ml",
        "bottles",
        "price_each",
        "price_total",
        "substitutes",
    ] {
        assert!(keys(grey).iter().any(|known| known == key), "{key} is not in {grey:#}");
    }
    assert_eq!((list["target"].as_str(), list["models"].as_u64()), (Some("warden"), Some(2)));
    assert_eq!((grey["bottle_ml"].as_f64(), grey["price_total"].as_f64()), (Some(60.0), Some(8.9)));
    assert_eq!(grey["uses"][0]["step"], "10-ground");
    assert_eq!(list["safety"][0]["id"], "mist-mask");
}

/// The sums are done by hand from the figures in `bench/figures.rs` and the demo's files.
#[test]
fn two_steps_of_the_demo_come_out_as_on_paper() {
    let bench = Bench::demo();
    let list = json(&bench, &["fen-warden"]);
    // Step 6, clear amber, for the 24 wardens of the army: 32 cm² × 45 % = 14.4 cm². Five coats of 20 µm are 100 µm, and
    // 14.4 cm² × 100 µm × 0.0001 = 0.144 ml lie on a model; of an airbrush on a row of figures 25 % arrive: 0.576 ml
    // a model, 13.824 ml for 24. Cup and needle keep 0.1 ml, the mixing cup 0.2 ml: 14.124 ml. All models together
    // have a reserve of 25 %: 17.655 ml of mix, poured as 18 ml. Of 1 part amber to 1 part thinner half is amber: 9 ml.
    near(&line(&list, "clear-amber")["ml_needed"], 9.0);
    // It may be off by the surface (1.15), the film (1.5) and the spraying (1.45): √(0.1398² + 0.4055² + 0.3716²) =
    // 0.5675, and e to that is 1.764: up to 15.57 ml, which two bottles of 15 ml cover (0.93 × 15 = 13.95 ml).
    near(&line(&list, "clear-amber")["ml_high"], 15.57);
    assert_eq!(line(&list, "clear-amber")["bottles"], 2);
    // Step 9, straps: 32 cm² × 15 % = 4.8 cm². Two coats of 30 µm: 4.8 × 60 × 0.0001 = 0.0288 ml; of a brush with a wet
    // palette 65 % arrive: 0.04431 ml a model, 1.0634 ml for 24. 4 : 1 in drops of 0.042 and
    // 0.045 ml, which are about alike, is 0.213 ml, and five of them are 20 drops of paint: four fifths, 0.852 ml.
    near(&line(&list, "otter-strap")["ml_needed"], 0.852);
    // For 1000 wardens the amber is (0.576 × 1000 + 0.3) × 1.25 = 720.375 ml of mix, poured as 721: 360.5 ml of amber, at most
    // 635.3 ml; ÷ 0.93 that is 683.1 ml of bottles: 16 × 40 + 3 × 15 = 685 ml for 150.40 + 12.60 = 163.00.
    let list = json(&bench, &["fen-warden", "--models", "1000"]);
    let amber = line(&list, "clear-amber");
    near(&amber["ml_needed"], 360.5);
    assert_eq!((amber["price_total"].as_f64(), amber["bottles"].as_u64()), (Some(163.0), Some(19)));
    let sizes: Vec<f64> =
        amber["buy"].as_array().unwrap().iter().map(|one| one["bottle_ml"].as_f64().unwrap()).collect();
    assert_eq!(sizes, [40.0, 15.0]);
}

#[test]
fn a_cupboard_takes_off_what_is_there_and_offers_what_comes_near() {
    let bench = small();
    bench.write("cupboard.yaml", "bog-iron: 0.2 ml\npeat: 1 bottle\nclear: 50 drops\n");
    let list = json(&bench, &["warden", "--models", "30", "--have", "cupboard.yaml"]);
    assert_eq!(line(&list, "clear")["ml_have"].as_f64(), Some(2.5), "50 drops of 0.05 ml");
    assert_eq!(line(&list, "bog-iron")["substitutes"][0]["id"], "peat");
    assert!(line(&list, "bog-iron")["substitutes"][0]["delta_e"].as_f64().unwrap() < 1.0);
    assert_eq!(line(&list, "bog-iron")["substitutes"][0]["ml_have"].as_f64(), Some(15.81), "0.93 of 17 ml");
    let text = listed(&bench, &["warden", "--models", "30", "--have", "cupboard.yaml"]);
    assert!(text.contains("or from the cupboard: Peat (16 ml, colour difference 0."), "{text}");
    bench.write("cupboard.yaml", "have: {bog-iron: 3 bottles, grey: 1 l}\n");
    let text = listed(&bench, &["warden", "--models", "2", "--have", "cupboard.yaml"]);
    assert!(text.contains("[x] Bog Iron") && text.contains("in the cupboard\n"), "{text}");
}

#[test]
fn what_has_no_size_has_no_price_and_is_told() {
    let bench = small();
    bench.write("content/paints/mere.yaml", PAINTS.replace("bottle: 17 ml\nprice: 2.80\n", ""));
    let list = json(&bench, &["warden", "--models", "2"]);
    let iron = line(&list, "bog-iron");
    assert!(iron["price_total"].is_null() && iron["buy"].as_array().unwrap().is_empty(), "{iron}");
    assert_eq!(list["unpriced"], 2, "{list}");
    let slip = listed(&bench, &["warden", "--models", "2"]);
    assert!(slip.contains("2 of the things to buy have no price"), "{slip}");
    let table = listed(&bench, &["warden", "--models", "2", "--format", "csv"]);
    assert!(table.lines().all(|row| !row.contains("Bog Iron") || !row.contains("0.00")), "{table}");
}

#[test]
fn what_is_no_longer_sold_stands_there_with_what_is() {
    let bench = small();
    let sold = json(&bench, &["warden", "--models", "2"]);
    bench.write("content/paints/mere.yaml", PAINTS.replace("name: Bog Iron,", "name: Bog Iron, discontinued: true,"));
    // The rule says so too, on the other stream.
    let listed = |more: &[&str]| bench.run(&[&["shop", ".", "warden", "--models", "2"], more].concat()).out;
    let list: Value = serde_json::from_str(&listed(&["--format", "json"])).unwrap();
    assert_eq!(line(&list, "bog-iron")["still_sold"]["id"], "peat");
    assert!(line(&list, "grey")["still_sold"].is_null(), "it is sold");
    let gone = line(&list, "bog-iron");
    assert!(gone["price_total"].is_null() && gone["price_each"].is_null(), "nobody can buy it: {gone}");
    assert_eq!((&gone["bottles"], &gone["bottles_likely"]), (&0.into(), &0.into()), "none of it can be bought");
    assert!(gone["buy"].as_array().unwrap().is_empty(), "{gone}");
    assert_eq!(gone["ml_high"], line(&sold, "bog-iron")["ml_high"], "so much of it has to be found");
    let less = sold["total"].as_f64().unwrap() - list["total"].as_f64().unwrap();
    assert!((less - line(&sold, "bog-iron")["price_total"].as_f64().unwrap()).abs() < 1e-9, "{list}");
    assert_eq!((&list["unpriced"], &list["gone"], &sold["gone"]), (&sold["unpriced"], &1.into(), &0.into()));
    let bottles = |list: &Value| list["bottles"].as_u64().unwrap();
    let of_it = line(&sold, "bog-iron")["bottles"].as_u64().unwrap();
    assert_eq!(bottles(&list) + of_it, bottles(&sold), "none of it can be bought");
    let lines = list["lines"].as_array().unwrap();
    let added: u64 = lines.iter().map(|line| line["bottles"].as_u64().unwrap()).sum();
    assert_eq!(added, bottles(&list), "the lines add up");
    for (format, said) in [("text", "No longer sold: 1."), ("md", "No longer sold: 1."), ("csv", ",yes\r\n")] {
        let text = listed(&["--format", format]);
        assert!(text.contains(said), "{format}: {text}");
        assert!(!text.contains("has no price"), "{format}: {text}");
    }
    let text = listed(&[]);
    assert!(text.contains("no longer sold") && text.contains("still sold and nearest: Peat (colour"), "{text}");
    bench.write("cupboard.yaml", "bog-iron: 3 bottles\n");
    let text = listed(&["--have", "cupboard.yaml"]);
    assert!(!text.contains("still sold"), "what is there need not be bought: {text}");
}

#[test]
fn a_gloss_varnish_is_nothing_in_the_place_of_a_matt_one() {
    let bench = Bench::demo();
    bench.write("cupboard.yaml", "rain-gloss: 1 bottle\n");
    let list = json(&bench, &["fen-warden", "--models", "10", "--have", "cupboard.yaml"]);
    assert_eq!(line(&list, "mist-matt")["substitutes"], serde_json::json!([]));
}

#[test]
fn a_cupboard_with_mistakes_is_told_line_by_line() {
    let bench = small();
    bench.write("mine.yaml", "bog-irn: 3 ml\ngrey: 2 spoons\nclear: 1 ml\nclear: 2 ml\n");
    let run = bench.run(&["shop", ".", "warden", "--have", "mine.yaml"]);
    assert_eq!((run.status, run.out.as_str()), (1, ""));
    for said in ["mine.yaml:1:1", "did you mean 'bog-iron'?", "mine.yaml:2:7", "[duplicate-key]", "there is no list"] {
        assert!(run.err.contains(said), "{said} is not in {}", run.err);
    }
    for (text, said) in
        [("- a\n- b\n", "found a list"), ("a: [\n", "this is not YAML"), ("a: \u{7}", "control character")]
    {
        bench.write("mine.yaml", text);
        let run = bench.run(&["shop", ".", "warden", "--have", "mine.yaml"]);
        assert!(run.status == 1 && run.err.contains(said), "{text:?}: {}", run.err);
    }
}

#[test]
fn a_drop_or_two_is_told_by_the_drop_of_the_paint() {
    let bench = small();
    let need = || {
        let text = listed(&bench, &["warden", "--models", "1"]);
        let bog_iron = text.split("Bog Iron").nth(1).unwrap().to_owned();
        bog_iron.lines().nth(2).unwrap().trim().to_owned()
    };
    assert!(need().starts_with("about "), "{}", need());
    let high = line(&json(&bench, &["warden", "--models", "1"]), "bog-iron")["ml_high"].as_f64().unwrap();
    // Two and a half drops are just more than the most that may be needed.
    bench.replace("content/paints/mere.yaml", "code: M-41", &format!("code: M-41, drop: {:.3} ml", high / 2.4));
    assert!(need().starts_with("a drop or two · "), "{}", need());
}

#[test]
fn a_cupboard_that_can_not_be_read_is_said_as_of_every_file_on_the_command_line() {
    let bench = Bench::demo();
    bench.write("large.yaml", "#".repeat(1_000_001));
    for (file, said) in [
        ("nowhere.yaml", "there is no file nowhere.yaml"),
        ("content", "content is no file"),
        ("large.yaml", "large.yaml is larger than 1 MB"),
    ] {
        let run = bench.run(&["shop", ".", "fen-warden", "--have", file]);
        assert_eq!((run.status, run.out.as_str()), (2, ""), "{file}");
        assert!(run.err.contains(said) && run.err.contains("name a file of YAML"), "{}", run.err);
    }
}

#[test]
fn what_is_asked_for_must_be_there() {
    let bench = Bench::demo();
    for (arguments, said) in [
        (&["fen-wardn"][..], "did you mean 'fen-warden'?"),
        (&["fen-warden", "the fen wacth"], "did you mean 'fen-watch'?"),
        (&["fen-watch", "--models", "3"], "an army has its own"),
        (&["fen-warden", "--models", "0"], "it must be 1 or more"),
        (&["fen-warden", "--models", "2000000000"], "typing mistake"),
        (&[], "required"),
    ] {
        let all: Vec<&str> = ["shop", "."].iter().chain(arguments).copied().collect();
        let run = bench.run(&all);
        assert_eq!((run.status, run.out.as_str()), (2, ""), "{arguments:?}");
        assert!(run.err.contains(said), "{arguments:?}: {}", run.err);
    }
    let both = json(&bench, &["fen-watch", "lantern-pier"]);
    assert_eq!(both["target"], "fen-watch, lantern-pier");
    assert_eq!((both["models"].as_u64(), both["units"].as_array().map(Vec::len)), (Some(33), Some(4)));
    assert_eq!(line(&both, "black-can")["ml_have"].as_f64(), Some(150.0), "the army's own cupboard");
    let most = json(&bench, &["fen-warden", "--models", "100000"]);
    assert!(most["total"].as_f64().unwrap() > 1e4);
}

#[test]
fn a_guide_with_errors_gives_no_list() {
    let bench = small();
    bench.replace("content/schemes/warden/20-cloth.md", "bog-iron", "bog-irn");
    let run = bench.run(&["shop", ".", "warden"]);
    assert_eq!((run.status, run.out.as_str()), (1, ""));
    assert!(run.err.contains("[unknown-paint]") && run.err.contains("there is no list"), "{}", run.err);
}

/// A version has its steps from the scheme that it is a version of, and their errors with them; an army is no scheme of the
/// same name.
#[test]
fn a_version_has_the_errors_of_its_scheme_and_a_scheme_not_those_of_an_army() {
    let bench = Bench::demo();
    bench.replace("content/armies/marsh-levy.yaml", "units:", "unitz: 3\nunits:");
    let scheme = bench.run(&["shop", ".", "Reed-marsh levies", "--models", "3"]);
    assert_eq!(scheme.status, 0, "{}", scheme.err);
    let bench = Bench::demo();
    bench.replace("content/schemes/marsh-levy/40-coat.md", "stage: ", "colour-of-the-day: red\nstage: ");
    for arguments in [["shop", ".", "marsh-levy-far-bank"], ["card", ".", "marsh-levy-far-bank"]] {
        let run = bench.run(&arguments);
        assert_eq!((run.status, run.out.as_str()), (1, ""), "{arguments:?}: {}", run.err);
    }
    let plan = bench.run(&["plan", ".", "marsh-levy"]);
    assert!(plan.status == 1 && plan.err.contains("because of the errors"), "{}", plan.err);
}

/// How large a bottle is nobody knows, but that a hundredth of a millilitre is not enough.
#[test]
fn a_drop_is_not_enough_where_no_size_is_known() {
    let bench = small();
    bench.replace("content/paints/mere.yaml", "bottle: 17 ml\nprice: 2.80\n", "");
    bench.write("cupboard.yaml", "bog-iron: 0.01 ml\n");
    let list = listed(&bench, &["warden", "--models", "50", "--have", "cupboard.yaml"]);
    let line = |list: &str| list.lines().find(|line| line.contains("Bog Iron")).unwrap().to_owned();
    assert!(line(&list).starts_with("[ ]") && line(&list).ends_with("size not known"), "{list}");
    bench.write("cupboard.yaml", "bog-iron: 400 ml\n");
    let list = listed(&bench, &["warden", "--models", "50", "--have", "cupboard.yaml"]);
    assert!(line(&list).starts_with("[x]") && line(&list).ends_with("in the cupboard"), "{list}");
}

#[test]
fn money_follows_the_language() {
    let bench = small();
    bench.replace("content/guide.yaml", "currency: EUR", "currency: EUR\nlanguage: de");
    let text = listed(&bench, &["warden"]);
    assert!(text.contains("2,80\n") && text.contains("\u{a0}€\n") && text.contains("für 10 Modelle"), "{text}");
    bench.replace("content/guide.yaml", "currency: EUR\nlanguage: de", "currency: CHF\nlanguage: fr");
    let text = listed(&bench, &["warden"]);
    assert!(text.contains("\u{a0}CHF\n") && text.contains("pour 10 figurines"), "{text}");
}

/// A name that tries to be a formula, a second line, a link and markup.
const EVIL: &str = "\"=cmd|' /C calc'!A0 \\\"x\\\", [a](http://a.example)\\n\\n# <script>alert(1)</script> </script>\"";

#[test]
fn no_name_gets_out_of_its_place() {
    let bench = small();
    bench.replace("content/paints/mere.yaml", "name: Bog Iron", &format!("name: {EVIL}"));
    bench.replace("content/paints/mere.yaml", "code: M-41", "code: \"@SUM(A1:A9)\"");
    bench.replace("content/paints/mere.yaml", "maker: Tarn & Daughter", "maker: \"+1\"");
    bench.replace("content/tools.yaml", "fine-airbrush: Airbrush", "fine-airbrush: \"-2+3\"");
    bench.replace("content/schemes/warden/scheme.md", "title: Fen warden", &format!("title: {EVIL}"));
    let table = listed(&bench, &["warden", "--format", "csv"]);
    let cells = rows(&table);
    assert!(cells.iter().all(|row| row.len() == 23), "{cells:?}");
    assert_eq!(cells.len(), table_lines(&small()));
    for cell in cells.iter().flatten() {
        assert!(!cell.starts_with(['=', '+', '-', '@', '\t', '\r', '\n']), "{cell}");
    }
    let text = listed(&bench, &["warden"]);
    assert!(!text.lines().any(|line| line.starts_with('#')), "{text}");
    let tasks = listed(&bench, &["warden", "--format", "md"]);
    assert_eq!(tasks.lines().filter(|line| line.starts_with("# ")).count(), 1, "{tasks}");
    assert!(!tasks.contains("<script>") && !tasks.contains("[a](http://"), "{tasks}");
    let list = json(&bench, &["warden"]);
    assert!(line(&list, "bog-iron")["name"].as_str().unwrap().starts_with("=cmd"));
    assert_eq!(bench.run(&["publish"]).status, 0);
    let page = fs::read_to_string(bench.path("published/schemes/warden/shopping.html")).unwrap();
    assert!(!page.contains("<script>alert"), "{page}");
    assert_eq!(page.matches("</script>").count(), page.matches("<script").count());
    bench.replace("content/paints/mere.yaml", "name: Peat", "name: \"Peat \\u202e gnp\"");
    assert!(bench.run(&["shop", ".", "warden"]).err.contains("[value-unreadable]"));
}

fn table_lines(bench: &Bench) -> usize {
    rows(&listed(bench, &["warden", "--format", "csv"])).len()
}

/// The rows of a table by RFC 4180.
pub(crate) fn rows(table: &str) -> Vec<Vec<String>> {
    let (mut rows, mut row, mut cell, mut quoted) = (Vec::new(), Vec::new(), String::new(), false);
    let mut letters = table.chars().peekable();
    while let Some(letter) = letters.next() {
        match letter {
            '"' if quoted && letters.peek() == Some(&'"') => cell.extend(letters.next()),
            '"' => quoted = !quoted,
            ',' if !quoted => row.push(std::mem::take(&mut cell)),
            '\r' if !quoted => {
                assert_eq!(letters.next(), Some('\n'));
                row.push(std::mem::take(&mut cell));
                rows.push(std::mem::take(&mut row));
            }
            letter => cell.push(letter),
        }
    }
    assert!(cell.is_empty() && row.is_empty());
    rows
}

#[test]
fn the_site_has_the_same_lists() {
    let bench = published_demo();
    let site = files_below(&bench.path("published"));
    for (path, of) in [("schemes/fen-warden", "fen-warden"), ("armies/fen-watch", "fen-watch")] {
        for (ending, format) in [("txt", "text"), ("csv", "csv"), ("json", "json")] {
            let file = std::str::from_utf8(&site[&format!("{path}/shopping.{ending}")]).unwrap();
            assert_eq!(file, listed(&bench, &[of, "--format", format]), "{path} {ending}");
        }
        let page = scraper::Html::parse_document(std::str::from_utf8(&site[&format!("{path}/shopping.html")]).unwrap());
        let select = |selector: &str| page.select(&scraper::Selector::parse(selector).unwrap()).collect::<Vec<_>>();
        let list = json(&bench, &[of]);
        assert_eq!(select(".slip-line [data-have]").len(), list["lines"].as_array().unwrap().len());
        assert_eq!(select("[data-box^='gear ']").len(), list["safety"].as_array().unwrap().len());
        let data: Value = serde_json::from_str(&select("#slip-data")[0].text().collect::<String>()).unwrap();
        assert_eq!(data["lines"].as_array().unwrap().len(), list["lines"].as_array().unwrap().len());
        reckoned_anew(&data, &list);
    }
}

/// What a script makes of the data block is what the program made.
fn reckoned_anew(data: &Value, list: &Value) {
    for line in list["lines"].as_array().unwrap() {
        let mut high = 0.0;
        for step in data["steps"].as_array().unwrap() {
            let models =
                data["units"][usize::try_from(step["unit"].as_u64().unwrap()).unwrap()]["models"].as_f64().unwrap();
            let scaling = |key: &str| step["scaling"][key].as_f64().unwrap();
            let need = scaling("first").max(scaling("per_model") * models) + scaling("fixed");
            let lot = scaling("reserve") > 0.0 && models >= 2.0;
            let reserve = if lot { (scaling("reserve") * need).max(scaling("reserve_least")) } else { 0.0 };
            for (at, part) in step["parts"].as_array().unwrap().iter().enumerate() {
                if *part == line["id"] {
                    let out = measured(&step["scaling"], need + reserve);
                    let lot: f64 = out.iter().sum();
                    high += ((need + reserve) * scaling("spread")).max(lot) * out[at] / lot;
                }
            }
            for extra in step["extras"].as_array().unwrap().iter().filter(|extra| extra["id"] == line["id"]) {
                high +=
                    extra["fixed"]["high"].as_f64().unwrap() + models * extra["per_model"]["high"].as_f64().unwrap();
            }
        }
        near(&line["ml_high"], high);
    }
}

/// Whole recipes of each line in ml: in drops, or poured by marks.
fn measured(scaling: &Value, need: f64) -> Vec<f64> {
    let list = |key: &str| -> Option<Vec<f64>> {
        Some(scaling[key].as_array()?.iter().map(|one| one.as_f64().unwrap_or_default()).collect())
    };
    let number = |key: &str| scaling[key].as_f64().unwrap();
    let (Some(drops), Some(marks)) = (list("in_drops"), list("in_marks")) else {
        return list("shares").unwrap().iter().map(|share| share * need).collect();
    };
    let wholes = |one: Vec<f64>, missing: f64| {
        let times = (need / one.iter().sum::<f64>() - missing).ceil().max(1.0);
        one.iter().map(|volume| volume * times).collect::<Vec<f64>>()
    };
    let units = list("marks").unwrap();
    for (at, mark) in units.iter().enumerate() {
        let poured = wholes(marks.iter().map(|parts| parts * mark).collect(), 1e-9);
        let limit = if at + 1 < units.len() { 1.1 } else { 1.33 };
        if need >= number("pour_from") && poured.iter().sum::<f64>() <= need * limit {
            return poured;
        }
    }
    wholes(drops.iter().zip(list("drops").unwrap()).map(|(parts, drop)| parts * drop).collect(), 0.1)
}

#[test]
fn a_theme_cannot_leave_the_safety_gear_out() {
    let bench = Bench::demo();
    let built_in = fs::read_to_string(crate::bench::demo_folder().join("themes/chart/sheets/shopping.html")).unwrap();
    bench.write("themes/chart/sheets/shopping.html", built_in.replace("{{ gear | safe }}", ""));
    let run = bench.run(&["publish"]);
    assert_eq!(run.status, 1);
    assert!(run.err.contains("[caution-lost]"), "{}", run.err);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn bottles_cover_the_upper_figure_and_a_fuller_cupboard_costs_less(
        models in 1_u32..5000,
        have in 0_u32..400,
        more in 0_u32..400,
    ) {
        let bench = small();
        let mut door = Memory::default();
        for (path, bytes) in files_below(&bench.path("")) {
            door = door.with(&path, bytes);
        }
        let mut checked = story::check(&door).unwrap();
        let [less, more] = [have, have + more].map(|ml| {
            let text = format!("bog-iron: {}.5 ml\ngrey: {}.5 ml\n", ml, ml / 2);
            story::cupboard(&mut checked, "cupboard.yaml", text.as_bytes())
        });
        let order = Order::find(&checked.worked, &["warden".to_owned()], Some(models)).unwrap();
        let [bare, some, much] = [None, Some(less), Some(more)].map(|cupboard| {
            let mut order = order.clone();
            order.cupboard = cupboard.unwrap_or_default();
            List::of(order)
        });
        for list in [&bare, &some, &much] {
            for line in &list.lines {
                let bought: f64 = line.picks.iter().map(|pick| pick.bottle.size.0 * pick.count as f64).sum();
                prop_assert!(bought * list.usable + line.have.0 >= line.need.unwrap().high.0 - 1e-4);
            }
        }
        prop_assert!(much.total <= some.total && some.total <= bare.total);
    }
}

/// Whoever takes the recipe or the card to the shop reads on it what the page of the list says.
#[test]
fn the_recipe_counts_pieces_as_the_list_does() {
    let bench = small();
    let tufts = "tools:\n  tufts: {name: Tufts, kind: consumable, per-model: 3, pack: 40, price: 4.50}\n";
    bench.replace("content/tools.yaml", "tools:\n", tufts);
    bench.replace("content/schemes/warden/30-clear.md", "stage: varnish\n", "stage: varnish\ntools: [tufts]\n");
    let run = bench.run(&["publish"]);
    assert_eq!(run.status, 0, "{}", run.err);
    let read = |path: &str| fs::read_to_string(bench.path("published/schemes/warden").join(path)).unwrap();
    let (recipe, says) = (read("recipe.txt"), "30 needed: 1 × pack of 40, €4.50");
    assert!(recipe.contains(&format!("\n- Tufts ({says})\n")), "{recipe}");
    assert!(read("shopping.html").contains(says));
    // What is bought is not named once more among what lies on the desk.
    assert!(recipe.contains("On the desk: Airbrush, Goggles\n"), "{recipe}");
}

/// Three tufts for each of thirty: ninety, in three packs of forty. What they cost is in the sum.
#[test]
fn what_is_used_up_piece_by_piece_is_bought_in_packs() {
    let bench = small();
    let total = |bench: &Bench| {
        let said: Value =
            serde_json::from_str(&bench.run(&["shop", ".", "warden", "--models", "30", "--format", "json"]).out)
                .unwrap();
        (said["total"].as_f64().unwrap(), said)
    };
    let (without, _) = total(&bench);
    bench.replace(
        "content/tools.yaml",
        "tools:\n",
        "tools:\n  tufts: {name: Tufts, kind: consumable, per-model: 3, pack: 40, price: 4.50}\n",
    );
    bench.replace("content/schemes/warden/30-clear.md", "stage: varnish\n", "stage: varnish\ntools: [tufts]\n");
    let (with, said) = total(&bench);
    assert!((with - without - 13.5).abs() < 1e-9, "{without} {with}");
    let tufts = said["tools"].as_array().unwrap().iter().find(|tool| tool["id"] == "tufts").unwrap();
    assert_eq!((tufts["pieces"]["needed"].as_u64(), tufts["pieces"]["packs"].as_u64()), (Some(90), Some(3)));
    let text = bench.run(&["shop", ".", "warden", "--models", "30"]).out;
    assert!(text.contains("90 needed: 3 × pack of 40"), "{text}");
    // Bottles and packs are counted apart: nobody looks for tufts among the bottles.
    assert_eq!(said["packs"], 3);
    assert!(text.contains(&format!("{} bottles and 3 packs", said["bottles"])), "{text}");
    // Gloves are protection, and counted like the rest: the page's script gets all that the total is of.
    bench.replace(
        "content/tools.yaml",
        "tools:\n",
        "tools:\n  pairs: {name: Gloves, kind: protection, per-model: 1, pack: 10, price: 2}\n",
    );
    bench.replace("content/schemes/warden/30-clear.md", "tools: [tufts]", "tools: [tufts, pairs]");
    let (gloved, said) = total(&bench);
    assert!((gloved - with - 6.0).abs() < 1e-9, "{with} {gloved}");
    assert_eq!(said["packs"], 6);
    let mix = bench.run(&["mix", ".", "warden", "30-clear"]).out;
    assert!(mix.contains("Tufts (3 each)"), "{mix}");
}

/// Ten wardens in January and five a year later are two rounds of work: each has losses, cleaning and least lots of its own, and
/// nobody keeps a lot for a year. Where the evenings overlap, or nobody says when, all are painted at one time.
#[test]
fn armies_a_year_apart_are_rounds_of_their_own() {
    let bench = small();
    let army = |name: &str, models: u32, evenings: &str| {
        bench.write(
            &format!("content/armies/{name}.yaml"),
            format!("title: {name}\nunits: [{{scheme: warden, models: {models}}}]\n{evenings}"),
        );
    };
    let from =
        |first: &str| format!("evenings: {{days: [mon, tue, wed], from: \"19:00\", length: 2 h, first: {first}}}\n");
    let needed = |asked: &[&str], id: &str| line(&json(&bench, asked), id)["ml_needed"].as_f64().unwrap();
    army("host", 10, &from("2027-01-04"));
    army("more", 5, &from("2028-01-03"));
    for id in ["grey", "bog-iron", "clear", "cleaner"] {
        let both = needed(&["host"], id) + needed(&["more"], id);
        assert!((needed(&["host", "more"], id) - both).abs() < 0.002, "{id}");
    }
    assert_eq!(json(&bench, &["warden"])["models"], 10, "the largest round");
    assert!(!listed(&bench, &["warden"]).contains("For as many models as these armies have together"));
    for evenings in [from("2027-01-05"), String::new()] {
        army("more", 5, &evenings);
        assert_eq!(json(&bench, &["warden"])["models"], 15);
        assert!(listed(&bench, &["warden"]).contains("For as many models as these armies have together: "));
        let apart = needed(&["host"], "cleaner") + needed(&["more"], "cleaner");
        assert!(needed(&["host", "more"], "cleaner") < apart, "the airbrush is cleaned once for both");
    }
}
