//! `maulstick match`: what it finds, how it says it, and what it refuses.

use serde_json::Value;

use crate::bench::Bench;

const PAINTS: &str = "\
maker: Case
range: Own
family: water
bottle: 17 ml
price: 2.50
paints:
  old-rose: {name: Old Rose, kind: paint, colour: \"#c08090\", recoat: 20 min, discontinued: true}
  tea-rose: {name: Tea Rose, kind: paint, colour: \"#c0828f\", recoat: 30 min}
  hot-rose: {name: Hot Rose, kind: paint, family: lacquer, sheen: gloss, colour: \"#c88c98\", recoat: 20 min, hazards: [H226], price: 3.10}
  madder: {name: Madder, kind: paint, colour: \"#8a2030\", hiding: semi-opaque, recoat: 20 min}
  bone: {name: Bone, kind: paint, colour: \"#e8e4d8\", recoat: 20 min}
  veil: {name: Veil, kind: paint, colour: \"#c08090\", hiding: transparent}
  gold: {name: Gold, kind: metal, colour: \"#c08090\"}
  amber: {name: Amber, kind: clear, colour: \"#d58722\"}
  honey: {name: Honey, kind: clear, colour: \"#d89030\"}
  unsaid: {name: Unsaid, kind: paint}
  gloss: {name: Gloss, kind: varnish, sheen: gloss}
";

fn guide() -> Bench {
    let bench = Bench::empty();
    bench.write("g/content/guide.yaml", "title: Fen\nauthor: Quill Hollis\ncurrency: EUR\n");
    bench.write("g/content/paints/own.yaml", PAINTS);
    bench
}

#[test]
fn the_nearest_stand_on_top_with_what_changes() {
    let run = guide().run(&["match", "g", "Old Rose"]);
    assert_eq!((run.status, run.err.as_str()), (0, ""));
    assert_eq!(
        run.out,
        "\
Old Rose (old-rose), Own by Case
paint, #c08090, opaque, matt, water, no longer sold

  ΔE00      how near, as given      paint
   1.1 ±3   close                   Tea Rose (tea-rose), Own by Case
                                    next coat after 30 min, not 20 min
   3.7 ±3   close                   Hot Rose (hot-rose), Own by Case
                                    carried by lacquer, not water; data sheet adds H226;
                                    gloss, not matt;
                                    sold as 17 ml for 3.10 EUR, not 17 ml for 2.50 EUR

2 of these lie closer together than they are known: which comes nearest can't be told.
"
    );
}

#[test]
fn a_wait_that_only_a_label_knows_is_said_both_ways_round() {
    let bench = guide();
    bench.replace("g/content/paints/own.yaml", "\"#c0828f\", recoat: 30 min", "\"#c0828f\"");
    let said = bench.run(&["match", "g", "old-rose"]).out;
    assert!(said.contains("  next coat after what its label says, not 20 min\n"), "{said}");
    let said = bench.run(&["match", "g", "tea-rose"]).out;
    assert!(said.contains("next coat after 20 min, not what the first one's label says"), "{said}");
}

#[test]
fn a_mix_says_what_it_rests_on_and_how_far_it_may_be_off() {
    let run = guide().run(&["match", "g", "old-rose", "--two", "--most", "1"]);
    assert_eq!(run.status, 0, "{}", run.err);
    let mixes = run.out.split_once("as predicted").unwrap().1;
    assert!(mixes.contains("Bone (bone) and Madder (madder)"), "{mixes}");
    assert!(mixes.contains("rests on colour and hiding class alone"), "{mixes}");
    assert!(mixes.contains("a guess: half of such predictions are off by "), "{mixes}");
    assert!(mixes.contains("four parts of a known white would tell more"), "{mixes}");
    assert!(!mixes.contains("Hot Rose"), "two carriers don't go into one cup: {mixes}");
    assert!(!mixes.contains("Old Rose"), "{mixes}");
}

#[test]
fn a_colour_can_be_asked_for_and_every_distance_has_its_error() {
    let bench = guide();
    let run = bench.run(&["match", "g", "#c0828f", "--two"]);
    assert_eq!((run.status, run.err.as_str()), (0, ""));
    assert!(run.out.starts_with("#c0828f, among paints of kind paint\n\n  ΔE00 "), "{}", run.out);
    assert!(run.out.contains("   0.0 ±2   can't be told apart     Tea Rose (tea-rose)"), "{}", run.out);
    assert!(run.out.contains("#c0828f; opaque; matt; carried by water;\n"), "{}", run.out);
    assert!(run.out.contains("Veil (veil)") && run.out.contains("2 of these lie closer together"));
    assert!(run.out.contains("No mix of two is surely nearer than Tea Rose as it comes."), "{}", run.out);
    assert!(!run.out.contains("Bone (bone), Own"), "it is further off than 15: {}", run.out);
    let run = bench.run(&["match", "g", "#d58722", "--among", "clear", "--format", "json"]);
    let answer: Value = serde_json::from_str(&run.out).unwrap();
    assert_eq!((&answer["paint"], &answer["colour"]), (&Value::Null, &"#d58722".into()));
    assert_eq!(answer["nearest"][0]["paint"]["id"], "amber");
    assert_eq!(bench.run(&["match", "g", "#d58722", "--among", "glue"]).status, 2);
}

#[test]
fn scripts_get_the_same_as_json() {
    let run = guide().run(&["match", "g", "amber", "--format", "json"]);
    let answer: Value = serde_json::from_str(&run.out).unwrap();
    assert_eq!(answer["paint"]["id"], "amber");
    assert_eq!(answer["nearest"].as_array().unwrap().len(), 1);
    let near = &answer["nearest"][0];
    assert_eq!((&near["paint"]["id"], &near["alike"]), (&"honey".into(), &"close".into()));
    assert!(near["delta_e"].as_f64().unwrap() > 1.0);
    assert_eq!(near["changes"], Value::Array(Vec::new()));
    assert!(near["off_by"]["nine_in_ten"].as_f64().unwrap() > 2.0 && near["rank"] == 1, "{near}");
    assert_eq!((&answer["mixes"], &answer["currency"]), (&Value::Array(Vec::new()), &"EUR".into()));
    let run = guide().run(&["match", "g", "old-rose", "--two", "--format", "json"]);
    let answer: Value = serde_json::from_str(&run.out).unwrap();
    let change = &answer["nearest"][0]["changes"][0];
    assert_eq!(*change, serde_json::json!({ "aspect": "recoat", "from": 1200, "to": 1800 }));
    assert_eq!(answer["mixes"][0]["rests_on"], "class");
    let off = &answer["mixes"][0]["off_by"];
    assert!(off["nine_in_ten"].as_f64() > Some(12.0) && off["sure"] == "guess", "{off}");
}

#[test]
fn another_file_of_paints_or_another_guide_can_be_looked_through() {
    let bench = guide();
    let other = "maker: Else\nrange: Far\nfamily: water\npaints:\n  \
                 far-rose: {name: \"Far \\u001b[31mRose\", kind: paint, colour: \"#c08092\"}\n";
    bench.write("far.yaml", other.replace("\\u001b[31m", ""));
    let run = bench.run(&["match", "g", "old-rose", "--from", "far.yaml"]);
    assert_eq!((run.status, run.err.as_str()), (0, ""));
    assert!(run.out.contains("can't be told apart     Far Rose (far-rose), Far by Else"), "{}", run.out);
    let run = bench.run(&["match", "g", "old-rose", "--from", "g"]);
    assert!(run.out.contains("Tea Rose"), "{}", run.out);
    bench.write("broken.yaml", "maker: [");
    for (file, place, says) in
        [("broken.yaml", "broken.yaml:1:", "no sound file of paints"), ("none.yaml", "", "there is no file none.yaml")]
    {
        let run = bench.run(&["match", "g", "old-rose", "--from", file]);
        assert_eq!(run.status, 2, "{file}");
        assert!(run.err.contains(says) && run.err.contains(place) && run.out.is_empty(), "{}", run.err);
        assert!(!run.err.contains("content/paints/paints.yaml"), "{}", run.err);
    }
}

#[test]
fn what_can_not_be_answered_is_said_with_what_helps() {
    let bench = guide();
    for (arguments, says) in [
        (vec!["match", "g", "old rse"], "maulstick: there is no paint 'old rse'\n  mend: did you mean 'old-rose'?\n"),
        (
            vec!["match", "g", "unsaid"],
            "maulstick: the colour of 'Unsaid' is not known\n  mend: give the paint a 'colour' or 'swatches' in its file\n",
        ),
        (
            vec!["match", "g", "#12345"],
            "maulstick: can't read the colour '#12345': six hexadecimal digits follow the '#'\n  mend: write a colour such as \"#5a4a3e\", in quotes\n",
        ),
        (
            vec!["match", "g", "veil", "--among", "ink"],
            "maulstick: a paint is looked for among its own kind\n  mend: ask with --among for a colour alone, such as \"#2f7f7a\"\n",
        ),
        (
            vec!["match", "g", "gloss", "--two"],
            "maulstick: 'Gloss' has no colour that could be mixed: it is a varnish\n  mend: ask without --two\n",
        ),
    ] {
        let run = bench.run(&arguments);
        assert_eq!((run.status, run.out.as_str(), run.err.as_str()), (2, "", says));
    }
    assert_eq!(
        bench.run(&["match", "g", "gold"]).out.lines().last().unwrap(),
        "No other paint that is sold and used like it comes within 15 (CIEDE2000) of it."
    );
    assert_eq!(bench.run(&["match", "nowhere", "gold"]).status, 2);
    let run = bench.run(&["match", "g", "\u{1b}[31mred"]);
    assert!(!run.err.contains('\u{1b}') && run.err.contains("␛[31mred"), "{}", run.err);
}

#[test]
fn a_page_of_a_paint_shows_its_neighbours_and_what_takes_its_place() {
    let bench = guide();
    assert_eq!(bench.run(&["publish", "g"]).status, 0);
    let page = |id: &str| std::fs::read_to_string(bench.path(&format!("g/published/paints/{id}.html"))).unwrap();
    let old = page("old-rose");
    let place = old.find("In its place").unwrap();
    assert!(place < old.find("class=\"figures\"").unwrap());
    assert!(old[place..].contains("Tea Rose") && old.contains("difference 1.1 ± 3"), "{old}");
    assert!(old.contains("Carrier: lacquer instead of water-based acrylic") && old.contains("adds H226"));
    assert!(!page("tea-rose").contains(">Old Rose<"));
    for (language, words) in [("de", "Als Ersatz"), ("fr", "À sa place"), ("es", "En su lugar")] {
        bench.write("g/content/guide.yaml", format!("title: Fen\nauthor: Quill Hollis\nlanguage: {language}\n"));
        assert_eq!(bench.run(&["publish", "g"]).status, 0);
        assert!(page("old-rose").contains(words), "{language}");
    }
}
