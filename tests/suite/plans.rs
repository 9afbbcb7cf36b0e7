//! Plans as painters meet them: in the terminal, on the army's page, in their calendar, on paper.

use std::fs;
use std::process::Command;

use scraper::{Html, Selector};
use serde_json::Value;

use crate::bench::{self, Bench};
use crate::site::{published_demo, select, site};

/// A guide with one scheme of two steps, and an army; `{steps}` and `{army}` are what a test is about.
fn guide(step: &str, army: &str) -> Bench {
    let bench = Bench::empty();
    bench.write("content/guide.yaml", "title: Fen\nauthor: Quill Hollis\n");
    bench.write("content/tools.yaml", "tools:\n  soap: {name: Soap}\n");
    bench.write(
        "content/paints/mere.yaml",
        "maker: Tarn & Daughter\nrange: Mere\nfamily: water\npaints:\n  start: {name: Start, kind: primer, thin-with: []}\n\
         \x20 moss: {name: Moss, kind: paint, hiding: opaque}\n  mist: {name: Mist, kind: varnish, sheen: matt}\n",
    );
    let scheme = "content/schemes/warden";
    bench.write(
        &format!("{scheme}/scheme.md"),
        "---\ntitle: Warden\nareas: {cloth: 100%}\nmodel: {surface: 20 cm2}\n---\n",
    );
    let file = |head: &str| format!("---\n{head}\n---\nPaint.\n");
    bench.write(
        &format!("{scheme}/10-wash.md"),
        file("title: Wash\nstage: prepare\nwith: hand\ntools: [soap]\nminutes: 2"),
    );
    bench.write(
        &format!("{scheme}/20-ground.md"),
        file(
            "title: Ground\nstage: undercoat\nareas: [all]\nwith: brush\npaints: [{use: start}]\ndry: 24 h\nminutes: 2",
        ),
    );
    bench.write(
        &format!("{scheme}/30-cloth.md"),
        file(&format!(
            "title: Cloth\nstage: basecoat\nareas: [cloth]\nwith: brush\npaints: [{{use: moss}}]\ndry: 24 h\n{step}"
        )),
    );
    bench.write(
        &format!("{scheme}/40-matt.md"),
        file("title: Matt\nstage: varnish\nareas: [all]\nwith: brush\npaints: [{use: mist}]\ndry: 24 h\nminutes: 1"),
    );
    bench.write(
        "content/armies/watch.yaml",
        format!("title: The Watch\nunits: [{{scheme: warden, models: 12}}]\n{army}"),
    );
    bench
}

const EVENINGS: &str = "evenings: {days: [tue, thu], from: \"19:00\", length: 1 h, first: 2027-01-12}\n";

#[test]
fn a_small_army_is_planned_as_one_would_by_hand() {
    // Twelve models: on Tuesday the wash, 12 times 2 min, is 24 min. How long washed models dry is not written, so they
    // have a night. On Thursday the ground: 1 min 30 s for brush and palette and 12 times 2 min, 25 min 30 s. It dries for
    // a day, so the cloth is for Tuesday: 1 min 30 s and twice 12 models by 1 min, the second coat half an hour after the
    // first: it begins at 19:32:30, when the first model has been dry for that long, and ends at 19:44:30. On Thursday the
    // varnish: 1 min 30 s and 12 min. Work: 24 + 24 + 24 + 12 = 84 min; three brushes are taken up: 4 min 30 s.
    let bench = guide("coats: 2\nwait: 30 min\nminutes: 1", EVENINGS);
    let run = bench.run(&["plan", ".", "watch"]);
    assert_eq!((run.status, run.err.as_str()), (0, ""), "{}", run.out);
    for line in [
        "12 models in 4 evenings, Tue 12 Jan 2027 to Thu 21 Jan 2027.",
        "1 h 24 min of work, 5 min of setting up and cleaning.",
        "With this work and these drying times no plan can end earlier.",
        "Tue 12 Jan 2027, 19:00 to 19:24  (evening 1, 24 min of 1 h)",
        "  19:00  Warden · Wash, models 1–12",
        "  dries  Warden, Wash 1–12: 12 h more, before the paint",
        "Thu 14 Jan 2027, 19:00 to 19:26  (evening 2, 26 min of 1 h)",
        "  19:00  change to: Start (brush)",
        "  19:02  Warden · Ground, models 1–12",
        "  dries  Warden, Ground 1–12: 24 h more, before the next coat",
        "  19:02  Warden · Cloth, coat 1 of 2, models 1–12",
        "  19:33  Warden · Cloth, coat 2 of 2, models 1–12",
        "Tue 19 Jan 2027, 19:00 to 19:45  (evening 3, 26 min of 1 h)",
        "Thu 21 Jan 2027, 19:00 to 19:14  (evening 4, 14 min of 1 h)",
        "  dries  Warden, Matt 1–12: 24 h more, before you touch it",
    ] {
        assert!(run.out.contains(line), "{line}\n{}", run.out);
    }
}

#[test]
fn washed_models_are_grounded_on_the_same_evening_where_the_author_says_when_they_are_dry() {
    // The first model is washed at 19:02 and dry two hours later; the brush is taken up 1 min 30 s before. The ground
    // follows the wash model by model and ends 24 min later, at 21:26. Then cloth on Thursday and varnish on Tuesday.
    let bench = guide("minutes: 1", &EVENINGS.replace("1 h", "3 h"));
    bench.replace("content/schemes/warden/10-wash.md", "minutes: 2", "minutes: 2\ndry: 2 h");
    let run = bench.run(&["plan", ".", "watch"]);
    for line in [
        "12 models in 3 evenings, Tue 12 Jan 2027 to Tue 19 Jan 2027.",
        "Tue 12 Jan 2027, 19:00 to 21:26  (evening 1, 50 min of 3 h)",
        "  21:02  Warden · Ground, models 1–12",
    ] {
        assert!(run.out.contains(line), "{line}\n{}", run.out);
    }
}

#[test]
fn every_bar_of_a_plan_has_its_step_its_coat_and_its_words_in_letters_that_are_not_stretched() {
    let page = Html::parse_document(std::str::from_utf8(&site()["armies/fen-watch.html"]).unwrap());
    let painted = select(&page, ".plan-task-paint");
    let bars = select(&page, ".evening > .evening-bar");
    assert!(bars.len() > 80 && bars.len() == painted.len(), "{} bars for {} tasks", bars.len(), painted.len());
    let part = |bar: &scraper::ElementRef<'_>, name: &str| {
        let found = bar.children().filter_map(scraper::ElementRef::wrap).find(|child| child.value().name() == name);
        found.unwrap_or_else(|| panic!("no {name} in {}", bar.html())).text().collect::<String>()
    };
    for (bar, task) in bars.iter().zip(&painted) {
        let (title, text) = (part(bar, "title"), part(bar, "text"));
        let code = text.split(' ').next().unwrap();
        let (step, coat) = code.split_once('·').unwrap_or((code, "1"));
        assert!(step.starts_with(['A', 'B', 'C']) && step[1..].parse::<u8>().is_ok(), "{text}");
        let said = task.text().collect::<String>();
        let wanted = said.split(", coat ").nth(1).map_or("1", |coat| &coat[..1]);
        assert_eq!(coat, wanted, "{text}: {said}");
        assert!(title.contains(code) && said.contains(title.split(' ').next().unwrap()), "{title}: {said}");
        assert!(bar.attr("viewBox").is_none() && bar.attr("x").unwrap().ends_with('%'), "{}", bar.html());
    }
    assert!(select(&page, ".plan-bars [viewBox] text").is_empty(), "letters are stretched");
}

#[test]
fn a_guessed_evening_takes_about_so_many_whole_minutes_on_the_page_and_in_the_terminal() {
    let bench = guide("minutes: 1", EVENINGS);
    bench.replace("content/schemes/warden/40-matt.md", "minutes: 1", "minutes: 0.6");
    let run = bench.run(&["plan", ".", "watch"]);
    assert!(run.out.contains("(evening 4, 9 min of 1 h)"), "12 times 36 s and a brush: {}", run.out);
    bench.run(&["publish"]);
    let page = fs::read_to_string(bench.path("published/armies/watch.html")).unwrap();
    assert!(page.contains("\">9\u{a0}min of 1\u{a0}h<"), "{page}");
    assert!(page.contains("Change to: Start <span class=\"plan-which\">(Brush)</span>"), "{page}");
    bench.replace("content/schemes/warden/40-matt.md", "minutes: 0.6", "");
    let run = bench.run(&["plan", ".", "watch"]);
    let said =
        run.out.lines().find(|line| line.contains("(evening 4, about ")).unwrap_or_else(|| panic!("{}", run.out));
    let about = said.split("(evening 4, ").nth(1).unwrap().trim_end_matches(')');
    bench.run(&["publish"]);
    let page = fs::read_to_string(bench.path("published/armies/watch.html")).unwrap().replace('\u{a0}', " ");
    assert!(page.contains(&format!(">{about}<")), "{about}: {page}");
}

#[test]
fn an_airbrush_that_stands_with_paint_in_it_is_to_be_sprayed_clean() {
    let bench = guide("coats: 2\nwait: 40 min\nminutes: 1", &EVENINGS.replace("1 h", "2 h"));
    bench.replace("content/schemes/warden/30-cloth.md", "with: brush", "with: airbrush");
    let run = bench.run(&["plan", ".", "watch"]);
    assert_eq!(run.out.matches("rinse the airbrush; you use it again at").count(), 1, "{}", run.out);
    bench.run(&["publish"]);
    let page = fs::read_to_string(bench.path("published/armies/watch.html")).unwrap();
    assert_eq!(page.matches("Then rinse the airbrush").count(), 1);
    // A second coat that follows at once leaves no time for it to dry.
    bench.replace("content/schemes/warden/30-cloth.md", "wait: 40 min", "wait: 15 min");
    let run = bench.run(&["plan", ".", "watch"]);
    assert!(!run.out.contains("you use it again at"), "{}", run.out);
}

#[test]
fn no_water_follows_lacquer_into_an_airbrush_that_was_not_stripped() {
    let bench = guide("minutes: 1", &EVENINGS.replace("1 h", "3 h"));
    bench.replace(
        "content/paints/mere.yaml",
        "kind: primer, thin-with: []",
        "kind: primer, family: lacquer, thin-with: []",
    );
    bench.replace("content/schemes/warden/30-cloth.md", "with: brush", "with: airbrush");
    bench.replace("content/schemes/warden/20-ground.md", "with: brush", "with: airbrush");
    bench.replace("content/schemes/warden/20-ground.md", "dry: 24 h", "dry: 1 h");
    let said = "strip and clean the airbrush: the next product needs another cleaner";
    let run = bench.run(&["plan", ".", "watch"]);
    assert_eq!(run.out.matches(said).count(), 1, "{}{}", run.out, run.err);
    let json: Value = serde_json::from_str(&bench.run(&["plan", ".", "watch", "--format", "json"]).out).unwrap();
    let blocks = json["evenings"].as_array().unwrap().iter().flat_map(|evening| evening["blocks"].as_array().unwrap());
    let strips: Vec<&Value> = blocks.filter(|block| block["do"] == "clean" && !block["next"].is_null()).collect();
    assert_eq!(strips.len(), 1);
    let takes = strips[0]["end"].as_u64().unwrap() - strips[0]["start"].as_u64().unwrap();
    assert_eq!((&strips[0]["next"][0], takes), (&Value::from("moss"), 900));
    let calendar = bench.run(&["plan", ".", "watch", "--format", "ics"]).out.replace("\r\n ", "");
    assert!(calendar.contains("needs another cleaner"), "{calendar}");
    // Two colours of one family are a matter of a rinse.
    bench.replace("content/paints/mere.yaml", ", family: lacquer", "");
    let run = bench.run(&["plan", ".", "watch"]);
    assert!(!run.out.contains(said) && run.out.contains("change the colour in the airbrush: Moss"), "{}", run.out);
}

#[test]
fn a_wait_in_which_nothing_can_be_done_is_said() {
    let bench = guide("coats: 2\nwait: 40 min\nminutes: 1\ntogether: true", &EVENINGS.replace("1 h", "2 h"));
    let run = bench.run(&["plan", ".", "watch"]);
    // Twelve models by a minute from 19:01:30 on; the second coat follows the first model's first by forty minutes.
    for line in ["  19:14  nothing to do until 19:43: drying", "  19:43  Warden · Cloth, coat 2 of 2, models 1–12"] {
        assert!(run.out.contains(line), "{line}\n{}", run.out);
    }
    assert!(bench.run(&["plan", ".", "watch", "--format", "json"]).out.contains("\"do\": \"wait\""));
    bench.run(&["publish"]);
    assert!(
        fs::read_to_string(bench.path("published/armies/watch.html"))
            .unwrap()
            .contains("Nothing to do until 19:43: drying")
    );
}

#[test]
fn a_plan_says_what_is_done_by_hand_and_counts_one_drop_as_one() {
    let bench = guide(
        "minutes: 1\npaints: [{use: moss, drops: 1}, {use: water, drops: 9}]",
        "evenings: {days: [tue, thu], from: \"19:00\", length: 3 h, first: 2027-01-12}\n",
    );
    bench.replace("content/schemes/warden/30-cloth.md", "paints: [{use: moss}]\n", "");
    bench.replace(
        "content/paints/mere.yaml",
        "  mist:",
        "  water: {name: Water, kind: thinner, suits: [water]}\n  sand: {name: Shore Paste, kind: texture, colour: \"#806040\"}\n  mist:",
    );
    bench.replace("content/armies/watch.yaml", "models: 12", "models: 1");
    bench.replace("content/schemes/warden/scheme.md", "surface: 20 cm2", "surface: 8 cm2");
    bench.write(
        "content/schemes/warden/50-base.md",
        "---\ntitle: Base\nstage: basing\nwith: hand\npaints: [sand]\ndry: 24 h\nminutes: 4\n---\nPress it on.\n",
    );
    let run = bench.run(&["plan", ".", "watch"]);
    assert_eq!(run.status, 0, "{}", run.err);
    assert!(run.out.contains("  lay out: Shore Paste\n") && !run.out.contains("the hand"), "{}", run.out);
    assert!(run.out.contains("(1 drop, ") && !run.out.contains("1 drops"), "{}", run.out);
}

#[test]
fn an_army_is_found_by_its_title_too() {
    let bench = guide("minutes: 1", EVENINGS);
    let by_file = bench.run(&["plan", ".", "watch"]);
    assert_eq!(by_file.status, 0, "{}", by_file.err);
    assert_eq!(bench.run(&["plan", ".", "the watch"]).out, by_file.out);
    for (asked, near) in
        [("the wacth", "did you mean 'watch'?"), ("wacth", "did you mean 'watch'?"), ("fleet", "write 'watch'")]
    {
        let run = bench.run(&["plan", ".", asked]);
        assert_eq!(run.status, 2, "{asked}");
        assert!(run.err.contains(near), "{asked}: {}", run.err);
    }
}

#[test]
fn a_plan_says_every_caution_in_full() {
    let run = Bench::demo().run(&["plan", ".", "fen-watch"]);
    assert_eq!(run.status, 0, "{}", run.err);
    for said in [
        "Spray mist.",
        "Aerosol can.",
        "Oily rags.",
        "Let nobody stand downwind of you",
        "H222",
        "follow them, not this guide",
    ] {
        assert!(run.out.contains(said), "{said}");
    }
}

#[test]
fn without_evenings_the_work_is_told_and_what_is_missing() {
    let bench = guide("minutes: 1", "");
    let run = bench.run(&["plan", ".", "watch"]);
    assert_eq!(run.status, 0, "{}", run.err);
    assert!(run.out.contains("Warden, 12 models: 1 h 12 min of work"), "{}", run.out);
    assert!(run.out.contains("evenings: {days: [tue, thu]"), "{}", run.out);
    assert_eq!(bench.run(&["publish"]).status, 0);
    let page = fs::read_to_string(bench.path("published/armies/watch.html")).unwrap();
    assert!(page.contains("No evenings are named for this army"), "{page}");
    assert!(!bench.path("published/armies/watch.ics").exists());
    let json: Value = serde_json::from_str(&bench.run(&["plan", ".", "watch", "--format", "json"]).out).unwrap();
    assert!(json["evenings"].is_null() && json["hands_on"] == 72 * 60, "{json}");
}

#[test]
fn a_step_without_minutes_is_planned_with_the_usual_ones_and_says_so() {
    let bench = guide("coats: 1", EVENINGS);
    let run = bench.run(&["plan", ".", "watch"]);
    assert!(run.out.contains("The minutes of 'Cloth' are the usual ones of their stage."), "{}", run.out);
    // A basecoat takes 2 minutes on a quarter of a figure and 4 on all of it, if the author says nothing else under `bench`.
    assert!(run.out.contains("1 h 48 min of work"), "{}", run.out);
    bench.write("content/guide.yaml", "title: Fen\nauthor: Quill Hollis\nbench: {minutes-basecoat: 5}\n");
    assert!(bench.run(&["plan", ".", "watch"]).out.contains("3 h of work"));
}

/// Two schemes that end with the same matt varnish, all models of each in one go; the second has more to dry before it.
fn two_that_share_a_varnish() -> Bench {
    let bench = guide("minutes: 1", EVENINGS);
    let read = |file: &str| fs::read_to_string(bench.path(&format!("content/schemes/warden/{file}.md"))).unwrap();
    let texts = ["scheme", "10-wash", "20-ground", "30-cloth", "40-matt"].map(|file| (file, read(file)));
    for (file, text) in &texts {
        let text = text.replace("title: Warden", "title: Levy").replace("title: Matt", "title: Matt\ntogether: true");
        bench.write(&format!("content/schemes/levy/{file}.md"), &text);
        bench.write(&format!("content/schemes/warden/{file}.md"), text.replace("title: Levy", "title: Warden"));
    }
    let trim = texts[3].1.replace("title: Cloth", "title: Trim").replace("stage: basecoat", "stage: glaze");
    bench.write("content/schemes/levy/35-trim.md", trim);
    let units = "units: [{scheme: warden, models: 6}, {scheme: levy, models: 6}]";
    let army = fs::read_to_string(bench.path("content/armies/watch.yaml")).unwrap();
    bench.write("content/armies/watch.yaml", army.replace("units: [{scheme: warden, models: 12}]", units));
    bench
}

/// The evenings on which the models of each unit are varnished.
fn varnished(bench: &Bench) -> Vec<(usize, u64)> {
    let run = bench.run(&["plan", ".", "watch", "--format", "json"]);
    assert_eq!(run.status, 0, "{}", run.err);
    let plan: Value = serde_json::from_str(&run.out).unwrap();
    let mut found = Vec::new();
    for (evening, told) in plan["evenings"].as_array().unwrap().iter().enumerate() {
        for step in told["steps"].as_array().unwrap() {
            if step["step"] == "40-matt" {
                found.push((evening, step["unit"].as_u64().unwrap()));
            }
        }
    }
    found
}

#[test]
fn what_two_schemes_get_from_one_lot_they_get_on_one_evening() {
    let bench = two_that_share_a_varnish();
    let found = varnished(&bench);
    let [(first, one), (second, other)] = found.as_slice() else { panic!("{found:?}") };
    assert_eq!(first, second, "the wardens wait for the levy: {found:?}");
    assert_ne!(one, other);
}

#[test]
fn wishes_that_no_evening_holds_are_told_with_their_numbers() {
    for (step, army, message, mend) in [
        (
            "minutes: 6\ntogether: true",
            EVENINGS,
            "'Cloth' for 12 models together takes 1 h 14 min; an evening has 1 h",
            "make the evenings at least 1 h 15 min long, or do it in lots: 9 models go into one evening",
        ),
        (
            "minutes: 70",
            EVENINGS,
            "one coat of 'Cloth' on one model takes 1 h 12 min with setting up and cleaning; an evening has 1 h, so there is no plan",
            "make the evenings at least 1 h 15 min long, or the step shorter",
        ),
        (
            "minutes: 6",
            "evenings: {days: [], from: \"19:00\", length: 1 h, first: 2027-01-12}\n",
            "the evenings have no days",
            "name at least one, such as 'days: [tue, thu]'",
        ),
        (
            "minutes: 6",
            "evenings: {days: [mon, tue], from: \"19:00\", length: 30 h, first: 2027-01-12}\n",
            "the evening of mon, 30 h long, runs into the next one; it is planned as 24 h",
            "write 'length: 24 h' or less",
        ),
        (
            "minutes: 1000\ncoats: 9000",
            EVENINGS,
            "'The Watch' has more than 4000 coats to lay, so no plan is made",
            "split the army into several files",
        ),
    ] {
        let bench = guide(step, army);
        let said = bench.run(&["check", "--format", "json"]).out;
        let findings: Value = serde_json::from_str(&said).unwrap();
        let all = findings["findings"].as_array().unwrap();
        let told = all.iter().find(|finding| finding["message"] == message);
        let told = told.unwrap_or_else(|| panic!("'{message}' is not told:\n{said}"));
        assert_eq!((told["mend"].as_str(), told["file"].as_str()), (Some(mend), Some("content/armies/watch.yaml")));
        assert_eq!(told["level"], "warning");
    }
}

#[test]
fn a_first_day_without_an_evening_is_told() {
    for (first, told) in [("2027-01-13", true), ("2027-01-14", false)] {
        let bench = guide("minutes: 6", &EVENINGS.replace("2027-01-12", first));
        let run = bench.run(&["check", "--strict"]);
        let said = "note[first-day-without-evening]: no evening is on the first day, Wed 13 Jan 2027: the plan begins on Thu 14 Jan 2027";
        assert_eq!(run.out.contains(said), told, "{}", run.out);
        assert_eq!(run.out.contains("write 'first: 2027-01-14'"), told, "{}", run.out);
    }
}

/// What the checks of one name say about an army's evenings, each with its level and mend.
fn told(bench: &Bench, check: &str) -> Vec<[String; 3]> {
    let said = bench.run(&["check", "--strict", "--format", "json"]).out;
    let findings: Value = serde_json::from_str(&said).unwrap();
    let of_check = findings["findings"].as_array().unwrap().iter().filter(|finding| finding["rule"] == check);
    let text = |finding: &Value, key: &str| finding[key].as_str().unwrap_or_default().to_owned();
    of_check.map(|finding| ["level", "message", "mend"].map(|key| text(finding, key))).collect()
}

#[test]
fn every_day_may_have_its_own_hours_and_days_off_have_none() {
    let evenings = "evenings: {days: {tue: {from: \"19:00\", length: 1 h}, sun: {from: \"10:00\"}}, length: 3 h, first: 2027-01-12, not: [2027-01-17]}\n";
    // Wash on Tuesday, 12 times 2 min. The Sunday is off, so the ground is for the next Tuesday: 1 min 30 s for the brush
    // and 12 times 2 min. The cloth, with its second coat half an hour after the first, is for the Sunday morning from ten
    // on, to 10:44:30; the varnish for the Tuesday after it.
    let bench = guide("coats: 2\nwait: 30 min\nminutes: 1", evenings);
    let run = bench.run(&["plan", ".", "watch"]);
    assert_eq!((run.status, run.err.as_str()), (0, ""), "{}", run.out);
    for line in [
        "Tue 12 Jan 2027, 19:00 to 19:24  (evening 1, 24 min of 1 h)",
        "Tue 19 Jan 2027, 19:00 to 19:26  (evening 2, 26 min of 1 h)",
        "Sun 24 Jan 2027, 10:00 to 10:45  (evening 3, 26 min of 3 h)",
        "Tue 26 Jan 2027, 19:00 to 19:14  (evening 4, 14 min of 1 h)",
    ] {
        assert!(run.out.contains(line), "{line}\n{}", run.out);
    }
    assert!(!run.out.contains("Sun 17 Jan"), "{}", run.out);
    bench.run(&["publish"]);
    let page = fs::read_to_string(bench.path("published/armies/watch.html")).unwrap();
    assert!(page.contains("<dt>Sunday</dt><dd>from 10:00, 3") && page.contains("<dt>Days off</dt>"));
}

#[test]
fn hours_that_no_line_says_are_told_once() {
    for (days, says) in [
        ("{tue: {from: \"19:00\"}, sun: {length: 2 h}}", vec!["'tue' needs 'length', and it is not here"]),
        (
            "[tue]",
            vec!["the evenings need 'from', and it is not here", "the evenings need 'length', and it is not here"],
        ),
        ("{tue: {from: \"19:00\", length: 1 h}}", vec![]),
    ] {
        let bench = guide("minutes: 1", &format!("evenings: {{days: {days}, first: 2027-01-12}}\n"));
        let messages: Vec<String> = told(&bench, "missing-key").into_iter().map(|[_, message, _]| message).collect();
        assert_eq!(messages, says, "{days}");
        assert_eq!(told(&bench, "no-evenings"), Vec::<[String; 3]>::new(), "{days}");
    }
}

#[test]
fn a_day_off_that_takes_no_evening_away_is_told() {
    for (not, says) in [
        ("[2027-01-19]", None),
        ("[2027-01-20]", Some("the day off Wed 20 Jan 2027 changes nothing: no evening is on that day of the week")),
        ("[2027-01-05]", Some("the day off Tue 5 Jan 2027 changes nothing: the first day is Tue 12 Jan 2027")),
        ("[2027-01-19, 2027-01-19]", Some("the day off Tue 19 Jan 2027 changes nothing: it is named twice")),
    ] {
        let bench = guide("minutes: 1", &EVENINGS.replace('}', &format!(", not: {not}}}")));
        let found = told(&bench, "day-off-without-evening");
        assert_eq!(
            found.iter().map(|[_, message, _]| message.as_str()).collect::<Vec<_>>(),
            Vec::from_iter(says),
            "{not}"
        );
        assert!(found.iter().all(|[level, _, _]| level == "note"), "{found:?}");
    }
}

#[test]
fn a_date_that_no_plan_keeps_is_told_with_the_earliest_end() {
    for (by, says) in [
        // The varnish is for the second Thursday, the fourth evening: the washed models dry for a night, ground and cloth
        // for a day each, and every evening is followed by a day or more without one.
        // The coat of varnish dries for a day more.
        ("2027-01-22", None),
        (
            "2027-01-21",
            Some((
                "note",
                "'The Watch' is painted by Thu 21 Jan 2027, and its last coat is dry on Fri 22 Jan 2027, 1 day late",
                "write 'by: 2027-01-22', or begin earlier",
            )),
        ),
        // Only the night after the wash, which nobody wrote, stands against the Tuesday before.
        (
            "2027-01-20",
            Some((
                "note",
                "'The Watch' is painted by Thu 21 Jan 2027 and dry on Fri 22 Jan 2027, 2 days after Wed 20 Jan 2027; \
                 shorter rests than the careful ones that are planned where no 'dry' is written would keep it",
                "write 'by: 2027-01-22', begin earlier, or name more days or longer evenings, \
                 or write your own 'dry' where you wait less",
            )),
        ),
        (
            "2027-01-18",
            Some((
                "warning",
                "'The Watch' is painted by Thu 21 Jan 2027 and dry on Fri 22 Jan 2027, 4 days after Mon 18 Jan 2027; \
                 no plan can end before Tue 19 Jan 2027",
                "write 'by: 2027-01-22', begin earlier, or name more days or longer evenings",
            )),
        ),
        (
            "2027-01-02",
            Some((
                "warning",
                "all is to be ready by Sat 2 Jan 2027, before the first day, Tue 12 Jan 2027",
                "write a later date after 'by', or an earlier one after 'first'",
            )),
        ),
    ] {
        let bench = guide("coats: 2\nwait: 30 min\nminutes: 1", &EVENINGS.replace('}', &format!(", by: {by}}}")));
        let found = told(&bench, "ready-by");
        let wanted = Vec::from_iter(says.map(|(level, message, mend)| [level, message, mend].map(str::to_owned)));
        assert_eq!(found, wanted, "{by}");
        let said = bench.run(&["plan", ".", "watch"]).out;
        let ready = match by {
            "2027-01-22" => "It is to be ready by Fri 22 Jan 2027, and is on that day.",
            "2027-01-21" => "It is to be ready by Thu 21 Jan 2027: it is 1 day late.",
            "2027-01-20" => "It is to be ready by Wed 20 Jan 2027: it is 2 days late.",
            "2027-01-18" => "It is to be ready by Mon 18 Jan 2027: it is 4 days late.",
            _ => "It is to be ready by Sat 2 Jan 2027: it is 20 days late.",
        };
        assert!(said.contains(ready), "{said}");
    }
}

#[test]
fn an_army_without_end_is_told_and_not_planned() {
    let bench = guide("minutes: 30", EVENINGS);
    bench.replace("content/armies/watch.yaml", "models: 12", "models: 100000");
    let run = bench.run(&["plan", ".", "watch"]);
    assert!(run.err.contains("'The Watch' takes more than 520 evenings"), "{}", run.err);
    assert!(run.out.contains("There is no plan"), "{}", run.out);
}

#[test]
fn a_name_that_is_no_army_is_wrong_usage() {
    let run = Bench::demo().run(&["plan", ".", "fen-wach"]);
    assert_eq!(run.status, 2);
    assert!(run.err.contains("there is no army 'fen-wach'") && run.err.contains("'fen-watch'"), "{}", run.err);
}

#[test]
fn the_page_the_calendar_and_the_data_tell_the_same_evenings() {
    let bench = published_demo();
    let page = Html::parse_document(&fs::read_to_string(bench.path("published/armies/fen-watch.html")).unwrap());
    let count = |selector: &str| page.select(&Selector::parse(selector).unwrap()).count();
    let json: Value = serde_json::from_str(&bench.run(&["plan", ".", "fen-watch", "--format", "json"]).out).unwrap();
    let evenings = json["evenings"].as_array().unwrap();
    assert!(evenings.len() > 10);
    assert_eq!(count(".plan-row"), evenings.len());
    assert_eq!(count(".plan-evening"), evenings.len());
    assert_eq!(count(".plan-evening > .caution-line"), evenings.len(), "every demo evening needs care");
    assert_eq!(count(".caution"), 1, "the texts stand once");
    let blocks: usize = evenings.iter().map(|evening| evening["blocks"].as_array().unwrap().len()).sum();
    assert_eq!(count(".plan-task"), blocks);
    let calendar = fs::read_to_string(bench.path("published/armies/fen-watch.ics")).unwrap();
    assert_eq!(calendar, bench.run(&["plan", ".", "fen-watch", "--format", "ics"]).out);
    assert_eq!(calendar.matches("BEGIN:VEVENT").count(), evenings.len());
    assert!(calendar.split("\r\n").all(|line| line.len() <= 75), "a line is too long");
    assert!(calendar.contains("DTSTART:20270119T191500\r\n") && !calendar.contains("TZID"), "times are local");
}

#[test]
fn page_and_calendar_say_for_which_unit_a_mix_is_and_what_lies_on_the_desk() {
    let bench = guide("minutes: 1", EVENINGS);
    let tufts = "tools:\n  tufts: {name: Tufts, kind: consumable, per-model: 3, pack: 40}\n";
    bench.replace("content/tools.yaml", "tools:\n", tufts);
    bench.replace("content/schemes/warden/40-matt.md", "minutes: 1", "minutes: 1\ntools: [tufts]");
    let pots =
        "title: Warden\npots: {fold: {title: Fold mix, paints: [{use: moss, parts: 2}, {use: start, parts: 1}]}}";
    bench.replace("content/schemes/warden/scheme.md", "title: Warden", pots);
    bench.replace("content/schemes/warden/30-cloth.md", "{use: moss}", "fold");
    let units = "{scheme: warden, models: 6}, {scheme: warden, models: 4}";
    bench.replace("content/armies/watch.yaml", "{scheme: warden, models: 12}", units);
    let run = bench.run(&["publish"]);
    assert_eq!(run.status, 0, "{}", run.err);
    let page = Html::parse_document(&fs::read_to_string(bench.path("published/armies/watch.html")).unwrap());
    let texts = |selector: &str| -> Vec<String> {
        let selector = Selector::parse(selector).unwrap();
        page.select(&selector).map(|one| one.text().collect()).collect()
    };
    assert_eq!(texts(".plan-mixes > li > b"), ["A2", "B2", "A3, B3", "A3", "B3", "A4", "B4"]);
    let lies = ["On the desk: Soap", "On the desk: Tufts (3 each)"];
    assert_eq!(texts(".plan-desk"), [format!("A1, B1 {}", lies[0]), format!("A4, B4 {}", lies[1])]);
    let plan = bench.run(&["plan", ".", "watch"]).out;
    for line in ["  use    B2 Ground: ", "  pot    Fold mix: ", lies[0], lies[1]] {
        assert!(plan.contains(line), "{line}\n{plan}");
    }
    let calendar = bench.run(&["plan", ".", "watch", "--format", "ics"]).out.replace("\r\n ", "");
    assert!(calendar.contains(&format!("Wash · {}\\n", lies[0])), "{calendar}");
    // What to do first stands before all else.
    let (first, tufts) = (calendar.find("Window open"), calendar.find(&format!("Matt · {}\\n", lies[1])));
    assert!(first.is_some() && first < tufts, "{calendar}");
}

#[test]
fn the_amber_is_mixed_in_one_lot_and_sprayed_on_one_evening() {
    let json: Value =
        serde_json::from_str(&Bench::demo().run(&["plan", ".", "fen-watch", "--format", "json"]).out).unwrap();
    let evenings = json["evenings"].as_array().unwrap();
    let with = |key: &str| -> Vec<&Value> {
        let of_step =
            |evening: &&Value| evening[key].as_array().unwrap().iter().any(|one| one["step"] == "50-amber-shell");
        evenings.iter().filter(of_step).collect()
    };
    assert_eq!(with("blocks").len(), 1);
    let mixes = with("mixes")[0]["mixes"].as_array().unwrap();
    let amber = mixes.iter().find(|mix| mix["step"] == "50-amber-shell").unwrap();
    assert_eq!(amber["one_lot"], true);
    // 32 cm² × 45 % × 20 µm × 5 coats ÷ 25 % is 0.576 ml on a model, 13.8 ml on 24; with 0.3 ml left in cup and needle and a
    // quarter as a reserve 17.65 ml. So much is poured by half millilitres and not counted in drops: 18 of each.
    for part in amber["parts"].as_array().unwrap() {
        assert_eq!((&part["drops"], &part["ml"], &part["ratio"]), (&Value::Null, &Value::from(9.0), &Value::from("1")));
    }
    assert_eq!(amber["ml"], 18.0);
}

#[test]
fn the_grid_has_a_box_for_every_coat_of_every_model() {
    let bench = guide("coats: 3\nminutes: 1", EVENINGS);
    assert_eq!(bench.run(&["publish"]).status, 0);
    let text = fs::read_to_string(bench.path("published/armies/watch/tick-grid.html")).unwrap();
    let page = Html::parse_document(&text);
    let count = |selector: &str| page.select(&Selector::parse(selector).unwrap()).count();
    assert_eq!(count(".boxes-table tbody tr"), 12);
    // Wash, ground and varnish have one coat, the cloth three.
    assert_eq!(count(".boxes-box"), 12 * 6);
}

#[test]
#[ignore = "needs npm's ical.js, which tests/run.sh brings"]
fn another_library_reads_the_calendar() {
    let bench = Bench::demo();
    bench.replace("content/armies/fen-watch.yaml", "The Fen Watch", "\"Watch, the; \\\\ Fen\"");
    let text = bench.run(&["plan", ".", "fen-watch", "--format", "ics"]).out;
    bench.write("watch.ics", &text);
    let script = bench::demo_folder().join("tests/tools/read-calendar.mjs");
    let output = Command::new("node").arg(script).arg(bench.path("watch.ics")).output().unwrap();
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    let events: Value = serde_json::from_slice(&output.stdout).unwrap();
    let first = &events[0];
    assert_eq!(events.as_array().unwrap().len(), text.matches("BEGIN:VEVENT").count());
    assert_eq!(first["start"], "2027-01-19T19:15:00");
    assert_eq!(first["floating"], true);
    assert!(first["summary"].as_str().unwrap().starts_with("Watch, the; \\ Fen 1/"), "{first}");
    assert!(first["description"].as_str().unwrap().contains("Cut on a mat, away from fingers"), "{first}");
}

#[test]
fn a_mask_that_no_evening_takes_off_is_told_by_its_own_reason() {
    let bench = guide("minutes: 6", &EVENINGS.replace("length: 1 h", "length: 2 h"));
    bench.write("content/tools.yaml", "tools:\n  soap: {name: Soap}\n  tape: {name: Masking tape}\n");
    let scheme = "content/schemes/warden";
    bench.replace(&format!("{scheme}/scheme.md"), "{cloth: 100%}", "{cloth: 60%, belt: 40%}");
    bench.replace(&format!("{scheme}/30-cloth.md"), "with: brush", "with: airbrush");
    bench.replace(&format!("{scheme}/30-cloth.md"), "dry: 24 h", "dry: 2 h");
    let file = |head: &str| format!("---\n{head}\nareas: [belt]\nwith: hand\nminutes: 2\n---\nTape.\n");
    bench.write(&format!("{scheme}/25-mask.md"), file("title: Mask\nstage: mask\ntools: [tape]"));
    bench.write(&format!("{scheme}/35-off.md"), file("title: Off\nstage: unmask"));
    let found = told(&bench, "too-long-for-an-evening");
    let [one] = found.as_slice() else { panic!("{found:?}") };
    let all = one.join("\n");
    assert!(
        all.contains("'Cloth' and 'Off' on one evening takes 2 h 16 min for one model, because tape tears"),
        "{all}"
    );
    assert!(
        all.contains("make the evenings at least 2 h 20 min long, or write 'dry: 1 h 40 min' for 'Cloth'"),
        "{all}"
    );
}
