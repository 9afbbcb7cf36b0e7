//! Variants, other ways, steps left out, pots and masked areas, as page, card and terminal say them.

use std::fs;
use std::process::Command;

use crate::bench::{Bench, Run};

/// A guide with one scheme of three areas, whose steps are given.
fn guide(keys: &str, steps: &[(&str, &str)]) -> Bench {
    let bench = Bench::empty();
    assert_eq!(bench.run(&["start", "mine"]).status, 0);
    fs::rename(bench.path("mine/content"), bench.path("content")).unwrap();
    bench.write("content/paints/more.yaml", PAINTS).write("content/schemes/scout/scheme.md", scheme(keys));
    for (name, step) in steps {
        bench.write(
            &format!("content/schemes/scout/{name}.md"),
            format!("---\ntitle: {name}\n{step}\n---\n\nAs ever.\n"),
        );
    }
    bench
}

const PAINTS: &str = "maker: Osier\nrange: Osier\nfamily: water\nbottle: 17 ml\npaints:\n  osier-red: {name: Osier Red, kind: paint, \
                      colour: \"#a02018\", hiding: opaque}\n  osier-blue: {name: Osier Blue, kind: paint, colour: \"#2a3f80\", \
                      hiding: opaque}\n  osier-glue: {name: Osier Glue, kind: glue, recoat: 3 h}\n";

fn scheme(keys: &str) -> String {
    format!(
        "---\ntitle: Scout\nmodel: {{name: Scout, scale: 28 mm, material: plastic, surface: 13 cm2}}\nareas: {{coat: 50%, hood: 20%, \
         strap: 30%}}\n{keys}---\n\nText.\n"
    )
}

const GROUND: (&str, &str) =
    ("10-ground", "stage: undercoat\nareas: [all]\nwith: brush\npaints: [grey-primer]\ncoats: 2");
const COAT: (&str, &str) =
    ("20-coat", "stage: basecoat\nareas: [coat, strap]\nwith: brush\npaints: [moss-green]\ncoats: 2");

/// The text of the card, on one line.
fn card(bench: &Bench) -> String {
    said(&bench.run(&["card", ".", "scout", "--out", "card.pdf"]));
    let output = Command::new("pdftotext").arg("-raw").arg(bench.path("card.pdf")).arg("-").output().unwrap();
    let text = String::from_utf8(output.stdout).unwrap();
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// What a card says between two words.
fn between<'a>(text: &'a str, from: &str, to: &str) -> &'a str {
    let (_, rest) = text.split_once(from).unwrap_or_else(|| panic!("{from}: {text}"));
    rest.split_once(to).unwrap_or_else(|| panic!("{to}: {text}")).0
}

fn said(run: &Run) -> String {
    assert_eq!(run.status, 0, "{}{}", run.out, run.err);
    run.out.clone()
}

/// The titles and addresses of the links to other ways on a scheme's page.
fn ways(bench: &Bench, scheme: &str) -> Vec<String> {
    let page = fs::read_to_string(bench.path(&format!("published/schemes/{scheme}.html"))).unwrap();
    let page = scraper::Html::parse_document(&page);
    let links = scraper::Selector::parse("ul.lines a").unwrap();
    let links = page.select(&links).map(|link| link.attr("href").unwrap().to_owned());
    links.filter(|link| link.starts_with("scout")).collect()
}

#[test]
#[ignore = "needs poppler-utils; tests/run.sh brings them"]
fn the_card_names_no_paint_that_a_mask_kept_off() {
    let bench = guide(
        "",
        &[
            GROUND,
            COAT,
            ("25-hood", "stage: basecoat\nareas: [hood]\nwith: brush\npaints: [osier-blue]\ncoats: 2\ndry: 12 h"),
            ("30-cover", "stage: mask\nareas: [hood]\nwith: hand"),
            ("40-red", "stage: basecoat\nareas: [all]\nwith: airbrush\npaints: [osier-red]\ncoats: 2\ndry: 4 h"),
            ("50-bare", "stage: unmask\nareas: [hood]\nwith: hand"),
        ],
    );
    let text = card(&bench);
    let (coat, hood) = (between(&text, "Coat 50", "Hood 20"), between(&text, "Hood 20", "Strap 30"));
    assert!(coat.contains("Osier Red"), "{coat}");
    assert!(hood.contains("Osier Blue") && !hood.contains("Osier Red"), "{hood}");
}

#[test]
#[ignore = "needs poppler-utils; tests/run.sh brings them"]
fn a_blend_names_both_paints_on_the_line_of_its_area() {
    let blend = "stage: basecoat\nareas: [coat]\nwith: brush\nblend: [osier-red, osier-blue]";
    let text = card(&guide("", &[GROUND, ("20-cloth", blend)]));
    assert!(text.contains("Osier Red to Osier Blue"), "{text}");
}

#[test]
fn a_mix_is_called_the_same_in_plan_and_layers_and_a_pot_keeps_its_name() {
    let pots = "pots: {red: {title: Thin red, paints: [{use: osier-red, parts: 3}, {use: osier-blue, parts: 1}]}}\n";
    let brush = "areas: [coat]\nwith: brush";
    let blend = format!("stage: basecoat\n{brush}\nblend: [osier-red, osier-blue]");
    let lights = format!("stage: layer\n{brush}\npaints: [{{use: red, parts: 2}}, {{use: osier-blue, parts: 1}}]");
    let glow = format!(
        "stage: layer\n{brush}\nfrom: below\nunmixed: true\npaints: [osier-red, osier-blue, moss-green, saddle-brown]"
    );
    let bench = guide(pots, &[GROUND, ("20-cloth", &blend), ("30-lights", &lights), ("40-glow", &glow)]);
    bench.write(
        "content/armies/band.yaml",
        "title: Band\nunits: [{scheme: scout, models: 5}]\n\
         evenings: {days: [tue, thu], from: \"19:00\", length: 2 h, first: 2027-01-12}\n",
    );
    said(&bench.run(&["publish"]));
    let read = |path: &str| fs::read_to_string(bench.path("published").join(path)).unwrap();
    let (plan, army) = (said(&bench.run(&["plan", ".", "band"])), read("armies/band.html"));
    for taken_up in
        ["Osier Red to Osier Blue", "Thin red + Osier Blue", "Osier Red, Osier Blue, Moss Green, Saddle Brown"]
    {
        assert!(plan.contains(&format!("change to: {taken_up} (brush)\n")), "{taken_up}\n{plan}");
        assert!(army.contains(&format!("Change to: {taken_up} <")), "{taken_up}");
    }
    let page = scraper::Html::parse_document(&read("schemes/scout/40-glow.html"));
    let layers = scraper::Selector::parse("p.unseen").unwrap();
    let layers: Vec<String> = page.select(&layers).map(|one| one.text().collect()).collect();
    let layers = layers.iter().find(|text| text.contains("Grey Primer × 2")).unwrap();
    for layer in [
        "; Osier Red to Osier Blue #",
        "; Thin red + Osier Blue #",
        "; Osier Red, Osier Blue, Moss Green and 1 more, from below #",
    ] {
        assert!(layers.contains(layer), "{layer}\n{layers}");
    }
}

#[test]
#[ignore = "needs poppler-utils; tests/run.sh brings them"]
fn the_line_of_an_area_names_a_pot_by_its_title() {
    let pots = "pots: {red: {title: Thin red, paints: [{use: osier-red, parts: 3}, {use: osier-blue, parts: 1}]}}\n";
    let base = "stage: basecoat\nareas: [coat]\nwith: brush\npaints: [red]\ncoats: 2";
    let lights =
        "stage: layer\nareas: [coat]\nwith: brush\npaints: [{use: red, parts: 2}, {use: osier-blue, parts: 1}]";
    let text = card(&guide(pots, &[GROUND, ("20-base", base), ("30-lights", lights)]));
    let coat = between(&text, "Coat 50%", "Hood 20");
    assert_eq!(coat.trim(), "2 × Thin red, Thin red + Osier Blue on faces and edges");
    assert!(text.contains("Thin red (3 Osier Red : 1 Osier Blue)"), "the recipe says what is in it: {text}");
}

#[test]
fn a_pot_holds_what_its_steps_take() {
    let pots = "pots: {red: {title: Thin red, paints: [{use: osier-red, parts: 3}, {use: water-medium, parts: 1}]}}\n";
    let from_pot = |area: &str| format!("stage: basecoat\nareas: [{area}]\nwith: brush\npaints: [red]\ncoats: 2");
    let (coat, strap) = (from_pot("coat"), from_pot("strap"));
    let bench = guide(pots, &[GROUND, ("20-coat", &coat), ("30-strap", &strap)]);
    for models in ["1", "2", "7", "40"] {
        let json = |of: &str| -> serde_json::Value {
            let run = bench.run(&["mix", ".", "scout", of, "--models", models, "--format", "json"]);
            serde_json::from_str(&said(&run)).unwrap()
        };
        let step = |of: &str| json(of)["amounts"]["lot_ml"]["likely"].as_f64().unwrap();
        let (pot, steps) = (json("red")["ml"].as_f64().unwrap(), step("20-coat") + step("30-strap"));
        assert!(pot >= steps - 0.002, "{models} models: a pot of {pot} ml for {steps} ml");
    }
}

#[test]
fn a_version_is_called_after_the_step_that_it_leaves_out_and_not_after_the_whole_sequence() {
    let bench = guide("", &[GROUND, COAT, ("30-straps", "sequence: straps")]);
    bench.write("content/sequences/straps/sequence.md", "---\ntitle: Worn straps\nareas: [strap]\n---\n\nText.\n");
    let step = |title: &str, more: &str| {
        format!(
            "---\ntitle: {title}\nstage: layer\nareas: [strap]\nwith: brush\npaints: [saddle-brown]\n{more}---\n\nText.\n"
        )
    };
    bench.write("content/sequences/straps/10-brown.md", step("Brown", ""));
    bench.write("content/sequences/straps/20-cracks.md", step("Fine cracks", "optional: for the first rank\n"));
    said(&bench.run(&["publish"]));
    let page = fs::read_to_string(bench.path("published/schemes/scout.html")).unwrap();
    assert!(page.contains("without Fine cracks") && !page.contains("without Worn straps"));
}

#[test]
fn a_variant_leads_to_its_own_ways() {
    let keys = "variants: {ebb: {title: Ebb, instead: {moss-green: osier-blue}}}\n";
    let sprayed = ("20-coat", "stage: basecoat\nareas: [coat, strap]\nwith: airbrush\npaints: [moss-green]\ncoats: 2");
    let brushed =
        "stage: basecoat\nareas: [coat, strap]\nwith: brush\npaints: [moss-green]\ncoats: 2\nother-way-for: [20-coat]";
    let bench = guide(keys, &[GROUND, sprayed, ("21-by-brush", brushed)]);
    said(&bench.run(&["publish"]));
    assert_eq!(ways(&bench, "scout"), ["scout-by-brush.html"]);
    assert_eq!(ways(&bench, "scout-ebb"), ["scout-ebb-by-brush.html"]);
    assert_eq!(ways(&bench, "scout-ebb-by-brush"), ["scout-ebb.html"]);
    let step = fs::read_to_string(bench.path("published/schemes/scout-ebb/20-coat.html")).unwrap();
    assert!(step.contains("scout-ebb-by-brush.html") && !step.contains("scout-by-brush.html"));
}

#[test]
fn a_variant_is_shown_and_checked_without_what_may_be_left_out_of_it() {
    let keys = "variants: {ebb: {title: Ebb}}\n";
    let of_base = ("20-coat", "stage: basecoat\nareas: [coat]\nwith: brush\npaints: [moss-green]\nnot-for: [ebb]");
    let of_ebb = (
        "21-coat",
        "stage: basecoat\nareas: [coat]\nwith: brush\npaints: [osier-blue]\nonly-for: [ebb]\noptional: rank and file",
    );
    let strap = ("30-strap", "stage: basecoat\nareas: [strap]\nwith: brush\npaints: [moss-green]");
    let bench = guide(keys, &[GROUND, of_base, of_ebb, strap]);
    said(&bench.run(&["publish"]));
    assert_eq!(ways(&bench, "scout-ebb"), ["scout-ebb-without-coat.html"]);
    assert!(ways(&bench, "scout").is_empty());
    let found = bench.run(&["check"]).out;
    assert!(found.contains("[area-unpainted]") && found.contains("never gets a colour"), "{found}");
}

#[test]
fn a_pour_says_everywhere_how_deep_it_is() {
    let pour = "stage: basing\nareas: [strap]\nwith: pipette\npaints: [water-medium]\ndeep: 1.5 mm\ncoats: 2";
    let bench = guide("", &[GROUND, COAT, ("60-pour", pour)]);
    said(&bench.run(&["publish"]));
    for file in ["scout.html", "scout/60-pour.html", "scout/recipe.txt"] {
        let text = fs::read_to_string(bench.path(&format!("published/schemes/{file}"))).unwrap();
        assert!(text.replace('\u{a0}', " ").contains("each 1.5 mm deep"), "{file}");
    }
    let text = said(&bench.run(&["mix", ".", "scout", "60-pour"]));
    assert!(text.contains("2 coats · each 1.5 mm deep"), "{text}");
}

#[test]
fn what_is_glued_dries_as_long_as_its_label_says() {
    let glue = "stage: assemble\nareas: [strap]\nwith: hand\npaints: [osier-glue]";
    let bench = guide("", &[("05-glue", glue), GROUND, COAT]);
    let text = said(&bench.run(&["mix", ".", "scout", "05-glue"]));
    assert!(text.contains("then let it dry 3 h"), "{text}");
}

#[test]
fn a_detail_over_a_whole_area_is_its_colour() {
    let detail = |place: &str| {
        format!("stage: detail\nareas: [coat]\nwhere: {place}\nwith: brush\npaints: [osier-red]\ncoats: 2")
    };
    let colour = |place: &str| {
        let detail = detail(place);
        let bench = guide("", &[GROUND, COAT, ("30-detail", &detail)]);
        let checked = maulstick::story::check(&maulstick::door::Disk::new(bench.path(""))).unwrap();
        checked.worked.schemes.iter().find(|worked| worked.scheme.slug == "scout").unwrap().tones[0].faces.unwrap()
    };
    assert_eq!(colour("spots"), colour("recesses"), "flecks leave the colour of the face");
    assert!(colour("all").to_string().as_str() > "#80", "red all over: {}", colour("all"));
}

#[test]
fn a_number_that_means_two_steps_is_asked_about() {
    let layer = "stage: layer\nareas: [coat]\nwith: brush\npaints: [pale-moss]";
    let bench = guide("", &[("2-ground", GROUND.1), ("3-coat", COAT.1), ("7-light", layer)]);
    assert!(said(&bench.run(&["mix", ".", "scout", "7"])).contains("step 3"));
    let run = bench.run(&["mix", ".", "scout", "2"]);
    assert!(run.err.contains("'3-coat' or '2-ground'"), "{}{}", run.out, run.err);
}

#[test]
fn a_calendar_says_the_drops_of_a_mix() {
    let bench = Bench::demo();
    let calendar = said(&bench.run(&["plan", ".", "marsh-levy", "--format", "ics"])).replace("\r\n ", "");
    assert!(calendar.contains("4 Mist Matt (") && calendar.contains(" drops"), "{calendar:.400}");
}

#[test]
fn a_pot_for_all_has_one_reserve_and_is_bought_as_it_is_mixed() {
    let pots = "pots: {red: {title: Thin red, paints: [{use: osier-red, parts: 3}, {use: water-medium, parts: 1}], \
                together: true}}\n";
    let from_pot = |area: &str| format!("stage: basecoat\nareas: [{area}]\nwith: brush\npaints: [red]\ncoats: 2");
    let (coat, strap) = (from_pot("coat"), from_pot("strap"));
    let bench = guide(pots, &[GROUND, ("20-coat", &coat), ("30-strap", &strap)]);
    let json = |args: &[&str]| -> serde_json::Value {
        let run = bench.run(&[args, &["--models", "40", "--format", "json"]].concat());
        serde_json::from_str(&said(&run)).unwrap()
    };
    let (pot, shop) = (json(&["mix", ".", "scout", "red"]), json(&["shop", ".", "scout"]));
    assert!(pot["reserve_ml"].as_f64().unwrap() >= 1.0, "{pot}");
    for step in ["20-coat", "30-strap"] {
        assert_eq!(json(&["mix", ".", "scout", step])["amounts"]["reserve_ml"], 0.0, "{step}");
    }
    let lines = shop["lines"].as_array().unwrap();
    let need = lines.iter().find(|line| line["id"] == "osier-red").unwrap()["ml_needed"].as_f64().unwrap();
    let mixed = pot["parts"][0]["ml"].as_f64().unwrap();
    assert!((need - mixed).abs() < 0.005, "{need} ml are bought for {mixed} ml");
}

#[test]
fn a_step_of_a_sequence_has_a_line_to_link_to_and_its_own_sentence_on_the_card() {
    let bench = guide("", &[GROUND, COAT, ("30-straps", "sequence: straps")]);
    bench.write("content/sequences/straps/sequence.md", "---\ntitle: Worn straps\nareas: [strap]\n---\n\nText.\n");
    let step = "---\ntitle: Brown\nstage: layer\nareas: [strap]\nwith: brush\npaints: [saddle-brown]\n---\n\nDraw it out thin.\n";
    bench.write("content/sequences/straps/10-brown.md", step);
    let page = "---\ntitle: Notes\n---\n\nSee [the brown](../sequences/straps/10-brown.md).\n";
    bench.write("content/pages/notes.md", page);
    said(&bench.run(&["publish"]));
    let read = |path: &str| fs::read_to_string(bench.path("published").join(path)).unwrap();
    assert!(read("pages/notes.html").contains("../sequences/straps.html#step_10-brown"));
    assert!(read("sequences/straps.html").contains("id=\"step_10-brown\""));
    let recipe = read("schemes/scout/recipe.txt");
    assert!(recipe.contains("Draw it out thin.") && !recipe.contains("3. Brown\n   As ever."), "{recipe}");
}

/// A guide whose variants alone use a pot, each with its own paints in it.
fn pot_of_variants() -> Bench {
    let keys = "pots: {night: {title: Night pot, paints: [{use: osier-red, parts: 1}, {use: osier-blue, parts: 3}]}}\n\
                variants:\n  moss: {title: Moss, instead: {osier-blue: moss-green}}\n  dark: {title: Dark}\n  plain: {title: Plain}\n";
    let folds = "stage: layer\nareas: [coat]\nwith: brush\npaints: [night]\nonly-for: [moss, dark]";
    guide(keys, &[GROUND, COAT, ("35-night", folds)])
}

#[test]
fn a_pot_that_only_variants_use_is_found_in_the_first_and_the_others_are_named() {
    let bench = pot_of_variants();
    let text = said(&bench.run(&["mix", ".", "scout", "night"]));
    let mut lines = text.lines();
    assert_eq!(lines.next(), Some("Scout: Moss, pot 'Night pot'"), "{text}");
    assert_eq!(lines.next(), Some("a step is called so too: 'maulstick mix . scout-moss 35-night'"), "{text}");
    assert_eq!(lines.next(), Some("'Dark' has other paints in it: 'maulstick mix . scout-dark night'"), "{text}");
    assert!(text.contains("3 × Moss Green") && !text.contains("Osier Blue"), "{text}");
    let run = bench.run(&["mix", ".", "scout", "night", "--format", "json"]);
    let pot: serde_json::Value = serde_json::from_str(&said(&run)).unwrap();
    assert_eq!(pot["pot"], "night");
    assert!(run.err.contains("'maulstick mix . scout-dark night'"), "{}", run.err);
}

#[test]
fn a_variant_is_not_answered_with_the_colours_of_another() {
    let bench = pot_of_variants();
    for (step, kind) in [("35-night", "step"), ("Night pot", "pot")] {
        let run = bench.run(&["mix", ".", "scout-plain", step]);
        assert_eq!((run.status, run.out.as_str()), (2, ""), "{step}");
        assert!(run.err.contains(&format!("'Plain' has no {kind} '{step}'")), "{}", run.err);
        assert!(run.err.contains("mend: 'Scout: Moss' has it: 'maulstick mix . scout-moss "), "{}", run.err);
    }
    let of_base = ("40-light", "stage: layer\nareas: [coat]\nwith: brush\npaints: [pale-moss]\nnot-for: [ebb]");
    let bench = guide("variants: {ebb: {title: Ebb}}\n", &[GROUND, COAT, of_base]);
    let run = bench.run(&["mix", ".", "scout-ebb", "40-light"]);
    assert_eq!((run.status, run.out.as_str()), (2, ""));
    assert!(run.err.contains("'Ebb' has no step '40-light'"), "{}", run.err);
    assert!(run.err.contains("mend: 'Scout' has it: 'maulstick mix . scout 40-light'"), "{}", run.err);
}

#[test]
fn the_id_of_a_pot_goes_before_a_part_of_a_file_s_name_and_the_step_is_named() {
    let bench = pot_of_variants();
    let text = said(&bench.run(&["mix", ".", "scout-moss", "night"]));
    let also = "Scout: Moss, pot 'Night pot'\na step is called so too: 'maulstick mix . scout-moss 35-night'\n";
    assert!(text.starts_with(also), "{text}");
    let text = said(&bench.run(&["mix", ".", "scout-moss", "35-night"]));
    assert!(text.starts_with("Scout: Moss, step 3: 35-night\n1 model\n"), "{text}");
    bench.replace("content/schemes/scout/35-night.md", "title: 35-night", "title: Night pot");
    let text = said(&bench.run(&["mix", ".", "scout-moss", "Night pot"]));
    let also = "Scout: Moss, step 3: Night pot\na pot is called so too: 'maulstick mix . scout-moss night'\n";
    assert!(text.starts_with(also), "{text}");
}

#[test]
fn the_file_of_a_sequence_means_all_of_its_steps_that_have_a_mix() {
    let bench = guide("", &[GROUND, COAT]);
    bench.write("content/schemes/scout/30-straps.md", "---\nsequence: straps\n---\n");
    bench.write("content/sequences/straps/sequence.md", "---\ntitle: Worn straps\nareas: [strap]\n---\n\nText.\n");
    let step = |title: &str, rest: &str| format!("---\ntitle: {title}\nstage: {rest}\nareas: [strap]\n---\n\nText.\n");
    bench.write("content/sequences/straps/10-brown.md", step("Brown", "layer\nwith: brush\npaints: [saddle-brown]"));
    bench.write("content/sequences/straps/20-rub.md", step("Rub it", "prepare\nwith: hand"));
    bench.write("content/sequences/straps/30-red.md", step("Red", "layer\nwith: brush\npaints: [osier-red]"));
    for name in ["30-straps", "straps", "Worn straps", "30"] {
        let text = said(&bench.run(&["mix", ".", "scout", name]));
        let heads: Vec<&str> = text.lines().filter(|line| line.starts_with("Scout, step ")).collect();
        assert_eq!(heads, ["Scout, step 3: Brown", "Scout, step 5: Red"], "{name}");
    }
    let run = bench.run(&["mix", ".", "scout", "30-straps", "--format", "json"]);
    let sheets: serde_json::Value = serde_json::from_str(&said(&run)).unwrap();
    assert_eq!((&sheets[0]["step"], &sheets[1]["step"]), (&"Brown".into(), &"Red".into()));
}

#[test]
fn a_fault_that_several_versions_share_is_told_once_with_how_many_they_are() {
    let matt =
        |with: &str, more: &str| format!("stage: varnish\nareas: [all]\nwith: {with}\npaints: [matt-varnish]{more}");
    let (sprayed, brushed) = (matt("airbrush", ""), matt("brush", "\nother-way-for: [80-matt]"));
    let keys = "variants: {ebb: {title: Ebb}, flow: {title: Flow}}\n";
    let bench = guide(keys, &[GROUND, COAT, ("80-matt", &sprayed), ("81-brush", &brushed)]);
    bench.write("content/schemes/scout/30-straps.md", "---\nsequence: straps\n---\n");
    bench.write("content/sequences/straps/sequence.md", "---\ntitle: Worn straps\nareas: [strap]\n---\n\nText.\n");
    let brown = "stage: layer\nareas: [strap]\nwith: brush\npaints: [saddle-brown]\ncoats: 2\ndry: 1 h";
    bench.write("content/sequences/straps/10-brown.md", format!("---\ntitle: Brown\n{brown}\n---\n\nText.\n"));
    let text = bench.run(&["check"]).out;
    let fault = text.find("'81-brush' varnishes 'Strap' 1 h after 'Brown'").map(|at| &text[at..]).unwrap();
    let fault = fault.split("\n\n").next().unwrap();
    assert!(fault.contains("used here by 'Scout: 81-brush' and in 2 more versions of it"), "{fault}");
    assert!(fault.contains("in the versions '81-brush', 'Ebb · 81-brush' and 1 more"), "{fault}");
    assert_eq!(fault.matches("30-straps.md:2:11").count(), 1, "{fault}");
    let json: serde_json::Value = serde_json::from_str(&bench.run(&["check", "--format", "json"]).out).unwrap();
    let findings = json["findings"].as_array().unwrap();
    let same = findings.iter().filter(|one| one["message"].as_str().unwrap().starts_with("'81-brush' varnishes"));
    let related: Vec<usize> = same.map(|one| one["related"].as_array().unwrap().len()).collect();
    assert_eq!(related, [7], "what editors get is whole");
}

/// A scheme of so many variants and other ways of its coat.
fn many(variants: usize, ways: usize) -> Bench {
    let table: String = (0..variants).map(|at| format!("  v{at}: {{title: Look {at}}}\n")).collect();
    let steps: Vec<(String, String)> = (0..ways)
        .map(|at| {
            let step =
                "stage: basecoat\nareas: [coat, strap]\nwith: sponge\npaints: [moss-green]\nother-way-for: [20-coat]";
            (format!("2{}-other", at + 1), step.to_owned())
        })
        .collect();
    let mut all = vec![GROUND, COAT];
    all.extend(steps.iter().map(|(name, step)| (name.as_str(), step.as_str())));
    guide(&format!("variants:\n{table}"), &all)
}

#[test]
fn what_an_army_asks_for_is_made_before_what_nobody_named() {
    let bench = many(8, 4);
    bench.write(
        "content/armies/band.yaml",
        "title: Band\nunits:\n  - {scheme: scout, models: 5}\n  - {scheme: scout, variant: v3, ways: [22-other], models: 50}\n\
         evenings: {days: [tue], from: \"19:15\", length: 3 h, first: 2027-01-19}\n",
    );
    let check = bench.run(&["check"]);
    assert!(check.status == 0 && check.out.contains("note[scheme-too-large]"), "{}", check.out);
    assert!(check.out.contains("40 have pages of their own"), "{}", check.out);
    let list: serde_json::Value =
        serde_json::from_str(&said(&bench.run(&["shop", ".", "band", "--format", "json"]))).unwrap();
    assert_eq!(list["models"], 55, "{list}");

    let bench = many(45, 0);
    bench.write("content/armies/band.yaml", "title: Band\nunits:\n  - {scheme: scout, variant: v44, models: 5}\n");
    let check = bench.run(&["check"]);
    assert!(check.status == 1 && check.out.contains("error[scheme-too-large]"), "{}", check.out);
    assert!(check.out.contains("has 45 variants"), "{}", check.out);
    assert!(!check.out.contains("unknown-variant"), "{}", check.out);

    assert!(!many(8, 3).run(&["check"]).out.contains("scheme-too-large"));
}
