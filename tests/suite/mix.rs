//! `maulstick mix`: one step for so many models, as somebody at the bench reads it.

use crate::bench::Bench;
use crate::site::published_demo;

/// The airbrushed amber: 24 × 32 cm² × 45 % × 5 coats × 20 µm × 1e-4 = 3.456 ml on the models; ÷ 0.25 = 13.824 ml;
/// and 0.3 ml left in cup and needle make 14.124 ml; with a quarter for the lot = 17.655 ml. So much is poured: 1 : 1 in half
/// millilitres is 1 ml, and 18 of them fill 9 cups.
#[test]
fn a_lot_for_two_dozen_is_told_in_drops_millilitres_grams_and_cups() {
    let run = Bench::demo().run(&["mix", ".", "fen-warden", "amber-shell", "--models", "24", "--cup", "2ml"]);
    assert_eq!(run.status, 0, "{}", run.err);
    for line in [
        "24 models, from one lot",
        "Airbrush · Beetle shell · 5 coats",
        "Clear Amber (Osk Works)            1 part  18 marks · 9 ml (5 to 16)",
        "together 18 ml (10 to 31)",
        "9 cups of 2 ml",
        "poured and not counted in drops, by the same parts: a mark is 0.5 ml",
        "3.5 ml of it are a reserve",
        "÷ 25 % that reach the model, by airbrush, figures in a row",
    ] {
        assert!(run.out.contains(line), "{line}\n{}", run.out);
    }
}

/// 6 × 55 cm² × 25 % × 3 coats × 30 µm × 1e-4 = 0.7425 ml; ÷ 0.65 = 1.14 ml. 3 : 1 in drops of 0.042 and 0.045 ml, which are
/// about alike, is 0.171 ml, and seven of them are 1.2 ml, of which three quarters are 0.9 ml.
#[test]
fn a_brushed_cloak_for_six() {
    let run = Bench::demo().run(&["mix", ".", "heron-rider", "Rowanberry cloak", "--models", "6"]);
    assert!(run.out.contains("3 parts  21 drops · 0.9 ml"), "{}", run.out);
    assert!(run.out.contains("together 1.2 ml"), "{}", run.out);
    assert!(run.out.contains("× 30 µm wet × 3 coats = 0.12 ml on one model"), "{}", run.out);
    assert!(!run.out.contains("cups of"), "{}", run.out);
}

/// A script that counts the drops out gets the volume that it is told: a drop of this mix counts as the mean of both.
#[test]
fn drops_times_their_size_are_the_volume() {
    let run = Bench::demo().run(&["mix", ".", "heron-rider", "Rowanberry cloak", "--models", "6", "--format", "json"]);
    let sheet: serde_json::Value = serde_json::from_str(&run.out).unwrap();
    let parts = sheet["parts"].as_array().unwrap();
    assert_eq!((parts[0]["drops"].as_u64(), parts[0]["drop_ml"].as_f64()), (Some(21), Some(0.04275)));
    for part in parts {
        let counted = part["drops"].as_f64().unwrap() * part["drop_ml"].as_f64().unwrap();
        assert!((counted - part["ml"]["likely"].as_f64().unwrap()).abs() < 1e-3, "{part}");
    }
    let [size, shared] = [&parts[0]["drop_ml"], &sheet["amounts"]["scaling"]["drops"][0]];
    assert_eq!(size, shared, "the page's script counts with the same");
}

/// Every word of the caution box on the step's page stands in the text too.
#[test]
fn the_cautions_of_a_step_are_printed_in_full() {
    let bench = published_demo();
    for (scheme, step) in
        [("fen-warden", "50-amber-shell"), ("lantern-pier", "20-black-mist"), ("reed-boat", "65-rust-streaks")]
    {
        let page = std::fs::read_to_string(bench.path(&format!("published/schemes/{scheme}/{step}.html"))).unwrap();
        let page = scraper::Html::parse_document(&page);
        let body = scraper::Selector::parse(".caution p, .caution li").unwrap();
        let plain = |text: &str| text.chars().filter(|c| c.is_alphanumeric()).collect::<String>();
        let out = plain(&bench.run(&["mix", ".", scheme, step]).out);
        let mut told = 0;
        for block in page.select(&body) {
            // Statements on the same products share a line of the page; the text has each with its products.
            for text in block.text().flat_map(|text| text.split(", ")).map(plain) {
                assert!(out.contains(&text), "{scheme} {step}: {text}");
            }
            told += 1;
        }
        assert!(told > 3, "{scheme} {step}: {told}");
    }
}

#[test]
fn a_wrong_thinner_is_said() {
    let bench = Bench::demo();
    bench.replace("content/schemes/heron-rider/25-red-cloak.md", "mere-thinner", "osk-thinner");
    let run = bench.run(&["mix", ".", "heron-rider", "red-cloak"]);
    let status = i32::from(run.out.contains("error[wrong-thinner]"));
    assert_eq!(run.status, status, "{}", run.err);
    assert!(run.out.contains("error[wrong-thinner]") || run.out.contains("warning[doubtful-thinner]"), "{}", run.out);
}

/// A rule that is broken stands on the sheet and in the status; what was not understood leaves nothing to mix.
#[test]
fn an_error_is_told_by_the_status() {
    let bench = Bench::demo();
    let step = "content/schemes/marsh-levy/50-shield.md";
    bench.replace(step, "stage: ", "colour-of-the-day: red\nstage: ");
    let run = bench.run(&["mix", ".", "marsh-levy", "40-coat"]);
    assert_eq!((run.status, run.out.as_str()), (1, ""), "{}", run.err);
    assert!(
        run.err.contains("unknown-key") && run.err.contains("nothing is mixed, because of the errors"),
        "{}",
        run.err
    );
    let version = bench.run(&["mix", ".", "marsh-levy-far-bank", "40-coat"]);
    assert_eq!((version.status, version.out.as_str()), (1, ""), "{}", version.err);
    let other = bench.run(&["mix", ".", "heron-rider", "red-cloak"]);
    assert_eq!(other.status, 0, "{}", other.err);
}

/// The amber is one lot, which no cup of 2 ml holds. Of the light from above, 3 : 1 in drops of 0.03 and 0.045 ml is 9 to 2, and
/// a cup holds five times that. The army has 24 wardens, and nobody has said another number.
#[test]
fn a_step_page_says_the_drops_for_a_cup_and_what_all_models_take() {
    let bench = published_demo();
    let page = |path: &str| std::fs::read_to_string(bench.path(&format!("published/schemes/{path}"))).unwrap();
    for path in ["fen-warden.html", "fen-warden/50-amber-shell.html"] {
        assert!(page(path).contains("one lot: mix it once, and fill the cup from it"), "{path}");
        assert!(page(path).contains("Predicted for 24 models: 18 ml (10 to 31 ml)"), "{path}");
    }
    let light = page("fen-warden/20-light-from-above.html");
    assert!(light.contains("45 + 10 drops for a 2 ml cup, counted by drop size"), "{light}");
    assert!(page("lantern-pier/20-black-mist.html").contains("of all that is in the can"));
    assert!(page("fen-warden/75-wing-marks.html").contains("Predicted for 24 models: 0.15 ml (0.074 to 0.29 ml)"));
    bench.replace("content/guide.yaml", "language: en", "language: de");
    assert_eq!(bench.run(&["publish"]).status, 0);
    assert!(page("fen-warden/75-wing-marks.html").contains("0,15 ml (0,074 bis 0,29 ml)"));
}

#[test]
fn scripts_get_the_same_figures() {
    let run = Bench::demo().run(&["mix", ".", "fen-warden", "6", "--models", "24", "--format", "json"]);
    let sheet: serde_json::Value = serde_json::from_str(&run.out).unwrap();
    assert_eq!(sheet["amounts"]["need_ml"]["likely"], 17.655);
    assert_eq!(sheet["amounts"]["lot_ml"]["likely"], 18.0);
    assert_eq!((&sheet["parts"][0]["marks"], &sheet["parts"][0]["drops"]), (&18.into(), &serde_json::Value::Null));
    assert_eq!(sheet["amounts"]["loads"]["count"], 9);
    assert_eq!(sheet["amounts"]["sum"]["surface_from"], "given");
    assert!(!sheet["cautions"]["closing"].as_str().unwrap().is_empty());
    let scaling = &sheet["amounts"]["scaling"];
    let number = |key: &str| scaling[key].as_f64().unwrap();
    // The formula that a page's script uses, in the order that the module docs of `quantity` write it down.
    let need = number("first").max(number("per_model") * 24.0) + number("fixed");
    let lot = need + (number("reserve") * need).max(number("reserve_least"));
    assert!((lot - 17.655).abs() < 1e-9, "{lot}");
}

#[test]
fn what_is_unknown_is_answered_with_the_nearest_name() {
    let bench = Bench::demo();
    let cases: [(&[&str], &str); 7] = [
        (&["mix", ".", "fen-wardn", "6"], "did you mean 'fen-warden'?"),
        (&["mix", ".", "fen-warden", "ambr-shell"], "did you mean '50-amber-shell'?"),
        (&["mix", ".", "fen-warden", "amber"], "did you mean '50-amber-shell'?"),
        (&["mix", ".", "fen-warden", "99"], "there is no step '99'\n  mend: write '10-clean-and-wash'"),
        (&["mix", ".", "fen-warden", "6", "--models", "1000000000"], "typing mistake"),
        (&["mix", ".", "fen-warden", "6", "--cup", "0.0001 ml"], "no drop fits into a cup"),
        (&["mix", ".", "fen-warden", "6", "--cup", "2,5ml"], "write a point, not a comma: 2.5"),
    ];
    for (arguments, answer) in cases {
        let run = bench.run(arguments);
        assert_eq!((run.status, run.out.as_str()), (2, ""), "{arguments:?}");
        assert!(run.err.contains(answer), "{arguments:?}: {}", run.err);
    }
}

#[test]
fn a_surface_is_measured_from_a_mesh_or_guessed_and_said_so() {
    let bench = Bench::demo();
    let scheme = "content/schemes/heron-rider/scheme.md";
    // A tetrahedron with three right angles at one corner: 3 · ½ · 20² + √3/4 · (20√2)² = 946.4 mm², of which 90 % are reached.
    bench.write(
        "content/schemes/heron-rider/heron.obj",
        "v 0 0 0\nv 20 0 0\nv 0 20 0\nv 0 0 20\nf 1 2 3\nf 1 2 4\nf 1 3 4\nf 2 3 4\n",
    );
    bench.replace(scheme, "surface: 55 cm2", "mesh: heron.obj");
    assert!(bench.run(&["mix", ".", "heron-rider", "4"]).out.contains("8.5 cm² of surface, from the mesh"));
    bench.replace(scheme, "mesh: heron.obj", "mesh: heron.obj, mesh-scale: 10");
    assert!(bench.run(&["mix", ".", "heron-rider", "4"]).out.contains("851.8 cm² of surface, from the mesh"));
    bench.replace(scheme, "mesh: heron.obj, mesh-scale: 10", "kind: rider");
    assert!(bench.run(&["mix", ".", "heron-rider", "4"]).out.contains("cm² of surface, a guess from scale and kind"));
    assert!(bench.run(&["mix", ".", "heron-rider", "4"]).out.contains("note[surface-guessed]"));
    assert!(bench.run(&["check"]).out.contains("note[surface-guessed]"));
    bench.replace(scheme, "kind: rider", "kind: rider, surface: 55 cm");
    let unread = bench.run(&["check"]).out;
    assert!(unread.contains("can't read '55 cm'") && !unread.contains("surface-guessed"), "{unread}");
    bench.replace(scheme, "kind: rider, surface: 55 cm", "kind: rider");
    bench.replace(scheme, "scale: 28 mm, material: plastic, kind: rider", "material: plastic");
    let run = bench.run(&["mix", ".", "heron-rider", "4"]);
    assert!(run.out.contains("how much can't be worked out") && run.out.contains("3 parts"), "{}", run.out);
    assert!(run.out.contains("CAUTIONS"), "{}", run.out);
}

#[test]
fn a_mesh_that_cannot_be_measured_is_a_finding_at_its_name() {
    let bench = Bench::demo();
    let scheme = "content/schemes/heron-rider/scheme.md";
    bench.replace(scheme, "surface: 55 cm2", "mesh: heron.stl");
    let missing = bench.run(&["check"]);
    assert!(missing.out.contains("error[mesh-missing]: there is no mesh 'heron.stl'"), "{}", missing.out);
    bench.write("content/schemes/heron-rider/heron.stl", [0_u8; 200]);
    let broken = bench.run(&["check"]);
    assert!(broken.out.contains("error[mesh-unreadable]"), "{}", broken.out);
    assert!(broken.out.contains(&format!("scheme.md:{}:", bench.line_of(scheme, "heron.stl"))), "{}", broken.out);
    bench.write("content/schemes/heron-rider/heron.stl", "solid x\nfacet normal 0 0 1\nouter loop\nvertex 0 0 0\nvertex 0.1 0 0\nvertex 0 0.1 0\nendloop\nendfacet\nendsolid x\n");
    let tiny = bench.run(&["check"]);
    assert!(tiny.out.contains("warning[mesh-size-unlikely]") && tiny.out.contains("mesh-scale: 10"), "{}", tiny.out);
}

#[test]
fn names_that_a_terminal_would_obey_are_shown_by_stand_ins() {
    let bench = Bench::demo();
    bench.replace(
        "content/schemes/heron-rider/25-red-cloak.md",
        "title: Rowanberry cloak",
        "title: \"Red\\e[31m cloak\"",
    );
    for format in ["text", "json"] {
        let run = bench.run(&["mix", ".", "heron-rider", "4", "--format", format]);
        assert!(!run.out.contains('\u{1b}'), "{}", run.out);
    }
}

/// A step that only another way of a scheme has is found by its name, and the sheet says whose it is.
#[test]
fn a_step_of_one_version_alone_is_found() {
    let run = Bench::demo().run(&["mix", ".", "marsh-levy", "21-grey-by-brush", "--models", "3"]);
    assert_eq!(run.status, 0, "{}", run.err);
    let head = run.out.lines().next().unwrap_or_default();
    assert!(head.starts_with("Reed-marsh levies") && head.contains("Grey by brush") && head.len() > 45, "{head}");
    assert!(run.out.contains("3 models"), "{}", run.out);
}

#[test]
fn a_brush_beside_a_mask_takes_paint_for_what_that_leaves_free() {
    let bench = Bench::empty();
    bench.write("content/guide.yaml", "title: Fen\nauthor: Quill Hollis\n");
    bench.write(
        "content/paints/mere.yaml",
        "maker: Tarn & Daughter\nrange: Mere\nfamily: water\npaints:\n  start: {name: Start, kind: primer}\n\
         \x20 moss: {name: Moss, kind: paint, hiding: opaque}\n",
    );
    let file = |name: &str, head: &str| {
        bench.write(&format!("content/schemes/hull/{name}.md"), format!("---\n{head}\n---\nPaint.\n"));
    };
    file("scheme", "title: Hull\nareas: {hull: 100%}\nmodel: {surface: 20 cm2}");
    file("10-ground", "title: Ground\nstage: undercoat\nareas: [all]\nwith: brush\npaints: [start]\ndry: 24 h");
    file("20-tape", "title: Tape\nstage: mask\nareas: [hull]\nwith: hand\ncovers: 75%");
    for (name, with, share) in
        [("30-brush", "brush", "× 25 %"), ("40-air", "airbrush", "× 62.5 %"), ("50-can", "spray-can", "× 100 %")]
    {
        file(name, &format!("title: {name}\nstage: basecoat\nareas: [all]\nwith: {with}\npaints: [moss]"));
        let run = bench.run(&["mix", ".", "hull", name]);
        assert!(run.out.contains(&format!("{share} for the areas")), "{name}: {}{}", run.out, run.err);
    }
}

/// 3 × 0.576 ml and 0.3 ml are 2.03 ml, and 1 ml is its reserve: 85 times two drops of 0.018 ml. A cup of 2 ml does not hold it.
#[test]
fn one_lot_is_mixed_once_and_the_cup_is_filled_from_it() {
    let bench = published_demo();
    let run = bench.run(&["mix", ".", "fen-warden", "amber-shell", "--models", "3"]);
    assert!(run.out.contains("85 drops · 1.53 ml"), "{}", run.out);
    assert!(run.out.contains("2 cups of 1.53 ml in a cup that holds 2 ml: mix the lot once, and fill"), "{}", run.out);
    let json = bench.run(&["mix", ".", "fen-warden", "amber-shell", "--models", "3", "--format", "json"]).out;
    let sheet: serde_json::Value = serde_json::from_str(&json).unwrap();
    let loads = &sheet["amounts"]["loads"];
    assert_eq!((&loads["count"], &loads["fuller"]), (&2.into(), &2.into()));
    assert!(loads["each_drops"].is_null() && loads["last_drops"].is_null(), "{loads}");
    // The card of the two dozen pours it, and says the same.
    let recipe = std::fs::read_to_string(bench.path("published/schemes/fen-warden/recipe.txt")).unwrap();
    assert!(recipe.contains("(9 ml), for 18 ml, for 24 models"), "{recipe}");
    assert!(recipe.contains("one lot: mix it once, and fill the cup from it"), "{recipe}");
}

/// A recipe in drops is the author's; one in parts has one ratio by volume, however many models it is for.
#[test]
fn an_army_painted_in_two_lots_gets_one_colour() {
    let bench = Bench::demo();
    for models in ["1", "12", "20", "60", "400"] {
        let run = bench.run(&["mix", ".", "fen-warden", "light-from-above", "--models", models, "--format", "json"]);
        let sheet: serde_json::Value = serde_json::from_str(&run.out).unwrap();
        let ml = |at: usize| sheet["parts"][at]["ml"]["likely"].as_f64().unwrap();
        assert!((ml(0) / ml(1) / 3.0 - 1.0).abs() < 0.05, "{models} models: {} to {}", ml(0), ml(1));
    }
}

/// Two waits before "the next coat" contradict each other where they are for different areas: the later one names its step.
#[test]
fn the_longer_of_two_waits_of_one_kind_names_what_it_is_before() {
    let bench = Bench::empty();
    bench.write("content/guide.yaml", "title: Fen\nauthor: Quill Hollis\n");
    bench.write(
        "content/paints/mere.yaml",
        "maker: Tarn & Daughter\nrange: Mere\nfamily: water\npaints:\n  moss: {name: Moss, kind: paint}\n",
    );
    let scheme = "content/schemes/warden";
    bench.write(
        &format!("{scheme}/scheme.md"),
        "---\ntitle: Warden\nareas: {cloth: 60%, belt: 40%}\nmodel: {surface: 20 cm2}\n---\n",
    );
    for (file, head) in [
        ("10-light", "title: Light\nstage: preshade\nareas: [all]\nwith: airbrush"),
        ("20-cloth", "title: Cloth\nstage: layer\nareas: [cloth]\nwith: airbrush"),
        ("30-belt", "title: Belt in the folds\nstage: shade\nareas: [belt]\nwith: brush"),
    ] {
        bench.write(&format!("{scheme}/{file}.md"), format!("---\n{head}\npaints: [moss]\n---\nPaint.\n"));
    }
    let run = bench.run(&["mix", ".", "warden", "10-light"]);
    assert!(run.out.contains("3 min before the next coat · but 20 min before “Belt in the folds”"), "{}", run.out);
}

/// What is one lot for all models is mixed as a whole; a palette holds no more than all of them take, and says for how many. A
/// colour that tints a mix stands beside it, for the colour is that of both.
#[test]
fn a_card_gives_a_lot_as_a_whole_and_no_palette_of_more_than_all_take() {
    let bench = Bench::empty();
    bench.write("content/guide.yaml", "title: Fen\nauthor: Quill Hollis\n");
    bench.write(
        "content/paints/mere.yaml",
        "maker: Tarn & Daughter\nrange: Mere\nfamily: water\npaints:\n  moss: {name: Moss, kind: paint, colour: \"#4a5a3e\"}\n\
         \x20 loam: {name: Loam, kind: paint, colour: \"#5a3a2e\"}\n  drift: {name: Drift, kind: medium}\n  start: {name: Start, kind: primer}\n",
    );
    let file = |name: &str, head: &str| {
        bench.write(&format!("content/schemes/warden/{name}.md"), format!("---\n{head}\n---\nPaint.\n"));
    };
    file("scheme", "title: Warden\nareas: {cloth: 98%, belt: 2%}\nmodel: {surface: 20 cm2}");
    let of = |area: &str, parts: &str, more: &str| {
        format!("title: T {area}\nstage: basecoat\nareas: [{area}]\nwith: brush\nminutes: 1\npaints: [{parts}]\n{more}")
    };
    file("05-ground", "title: Ground\nstage: undercoat\nareas: [all]\nwith: brush\npaints: [start]\ndry: 24 h");
    file("10-cloth", &of("cloth", "{use: moss, parts: 10}, {use: loam, parts: 1}", "coats: 2"));
    file("20-lot", &of("cloth", "{use: moss, parts: 1}, {use: drift, parts: 2}", "together: true\ncoats: 2"));
    file("30-belt", &of("belt", "{use: loam, parts: 2}, {use: drift, parts: 1}", ""));
    bench.write("content/armies/host.yaml", "title: Host\nunits: [{scheme: warden, models: 15}]\n");
    assert_eq!(bench.run(&["publish"]).status, 0);
    let recipe = std::fs::read_to_string(bench.path("published/schemes/warden/recipe.txt")).unwrap();
    let page = std::fs::read_to_string(bench.path("published/schemes/warden.html")).unwrap();
    let line =
        |name: &str| recipe.lines().filter(|line| line.contains("Mix") && line.contains(name)).collect::<Vec<_>>();
    let sheet = |step: &str| {
        let run = bench.run(&["mix", ".", "warden", step, "--models", "15", "--format", "json"]);
        let sheet: serde_json::Value = serde_json::from_str(&run.out).unwrap();
        [0, 1].map(|part| sheet["parts"][part]["drops"].as_u64().unwrap())
    };
    for step in ["20-lot", "30-belt"] {
        let [first, second] = sheet(step);
        let said =
            recipe.lines().filter(|line| line.contains(&format!("({first} drop")) && line.contains("for 15 models"));
        assert_eq!(said.filter(|line| line.contains(&format!("({second} drop"))).count(), 1, "{step}: {recipe}");
        assert!(page.contains(&format!("{first} + {second} drops")), "{step}");
    }
    assert!(line("Loam").iter().any(|line| !line.contains("for 15 models")), "a palette that is refilled: {recipe}");
    assert!(page.contains("Moss with Loam × 2") && !page.contains("Moss with Drift"));
}
