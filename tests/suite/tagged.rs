//! What makes a card readable for those who hear it: a PDF that is tagged from end to end (PDF/UA-1, ISO 14289-1).

use std::collections::BTreeMap;
use std::path::Path;
use std::process::Command;

use serde_json::Value;

use crate::bench::Bench;

/// A PDF as its parts by number.
struct Parts(BTreeMap<String, Value>);

impl Parts {
    fn of(pdf: &Path) -> Self {
        let output = Command::new("qpdf").args(["--json=2", "--json-stream-data=none"]).arg(pdf).output();
        let output = output.unwrap_or_else(|error| panic!("qpdf: {error}; tests/run.sh brings it"));
        assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
        let all: Value = serde_json::from_slice(&output.stdout).unwrap();
        Self(serde_json::from_value(all["qpdf"][1].clone()).unwrap())
    }

    /// The part that a reference names, or what stands in its place.
    fn at<'a>(&'a self, value: &'a Value) -> &'a Value {
        let part =
            value.as_str().filter(|text| text.ends_with(" R")).and_then(|name| self.0.get(&format!("obj:{name}")));
        part.map_or(value, |part| if part["value"].is_null() { &part["stream"]["dict"] } else { &part["value"] })
    }

    fn of_type(&self, name: &str) -> Vec<(&str, &Value)> {
        let named = self.0.iter().filter(|(_, part)| part["value"]["/Type"] == name);
        named.map(|(key, part)| (key.trim_start_matches("obj:"), &part["value"])).collect()
    }
}

/// The words of the sheets, as the PDF draws them.
fn drawn(pdf: &Path) -> Vec<String> {
    let output = Command::new("qpdf").args(["--qdf", "--object-streams=disable"]).arg(pdf).arg("-").output().unwrap();
    let text = String::from_utf8_lossy(&output.stdout).into_owned();
    let sheets = text.split("%% Contents for page").skip(1);
    sheets.map(|sheet| sheet.split("endstream").next().unwrap().to_owned()).collect()
}

fn cards() -> (Bench, Vec<std::path::PathBuf>) {
    let bench = Bench::demo();
    let cards = ["fen-warden", "marsh-levy", "lantern-pier"].map(|scheme| {
        let file = format!("{scheme}.pdf");
        let run = bench.run(&["card", ".", scheme, "--out", &file]);
        assert_eq!(run.status, 0, "{}", run.err);
        bench.path(&file)
    });
    (bench, cards.into())
}

#[test]
#[ignore = "needs qpdf; tests/run.sh brings it"]
fn all_that_is_drawn_has_a_place_in_the_tree_or_is_decoration() {
    let (_bench, cards) = cards();
    for pdf in cards {
        let parts = Parts::of(&pdf);
        let [(_, root)] = parts.of_type("/StructTreeRoot")[..] else { panic!("one tree") };
        let lists = parts.at(&root["/ParentTree"])["/Nums"].as_array().unwrap();
        for (at, sheet) in drawn(&pdf).iter().enumerate() {
            let numbers: Vec<i64> = sheet
                .split("/MCID ")
                .skip(1)
                .map(|rest| rest.split(|letter: char| !letter.is_ascii_digit()).next().unwrap().parse().unwrap())
                .collect();
            assert_eq!(numbers, (0..).take(numbers.len()).collect::<Vec<i64>>(), "each number once, in reading order");
            let owners = parts.at(&lists[at * 2 + 1]).as_array().unwrap();
            assert_eq!(owners.len(), numbers.len(), "an owner for each");
            for (number, owner) in owners.iter().enumerate() {
                let children = parts.at(owner)["/K"].as_array().unwrap();
                let own = |child: &Value| child.get("/MCID").unwrap_or(child).as_i64();
                assert!(children.iter().any(|child| own(child) == i64::try_from(number).ok()), "{number}: {owner}");
            }
            let mut depth = 0;
            for word in sheet.replace([']', '>'], " ").replace('/', " /").split_ascii_whitespace() {
                match word {
                    "BDC" | "BMC" => depth += 1,
                    "EMC" => depth -= 1,
                    "TJ" | "Tj" | "f" | "f*" | "S" | "s" | "Do" => assert!(depth > 0, "something is drawn outside"),
                    _ => {}
                }
            }
            assert_eq!(depth, 0);
        }
    }
}

#[test]
#[ignore = "needs qpdf; tests/run.sh brings it"]
fn each_piece_is_inside_its_parent_and_a_picture_says_what_it_shows() {
    let (_bench, cards) = cards();
    for pdf in cards {
        let parts = Parts::of(&pdf);
        let elements = parts.of_type("/StructElem");
        let kinds: Vec<&str> = elements.iter().map(|(_, element)| element["/S"].as_str().unwrap()).collect();
        for kind in ["/Document", "/H1", "/H2", "/Sect", "/L", "/LI", "/LBody", "/P", "/Figure"] {
            assert!(kinds.contains(&kind), "{}: no {kind}", pdf.display());
        }
        assert_eq!(kinds.iter().filter(|kind| **kind == "/H1").count(), 1);
        for (own, element) in &elements {
            let outer = parts.at(&element["/P"]);
            let inside = outer["/K"].as_array().cloned().unwrap_or_else(|| vec![outer["/K"].clone()]);
            assert!(inside.iter().any(|child| child == own), "{own} is not among its parent's");
            let alt = element["/Alt"].as_str().unwrap_or_default();
            assert_eq!(element["/S"] == "/Figure", alt.len() > 3, "{own}: {alt}");
        }
    }
}

#[test]
#[ignore = "needs qpdf; tests/run.sh brings it"]
fn its_fonts_are_inside_with_what_each_letter_says_and_its_title_stands_at_the_top() {
    let (_bench, cards) = cards();
    for pdf in cards {
        let parts = Parts::of(&pdf);
        let fonts = parts.of_type("/Font");
        let (whole, cut): (Vec<_>, Vec<_>) = fonts.iter().partition(|(_, font)| font["/Subtype"] == "/Type0");
        assert!(!whole.is_empty() && whole.len() == cut.len());
        for (own, font) in whole {
            assert!(parts.at(&font["/ToUnicode"]).is_object(), "{own} does not say what its letters are");
        }
        for (own, font) in cut {
            let about = parts.at(&font["/FontDescriptor"]);
            assert!(parts.at(&about["/FontFile2"]).is_object(), "{own} is not inside");
            assert_eq!(about["/FontName"], font["/BaseFont"]);
        }
        let [(_, catalog)] = parts.of_type("/Catalog")[..] else { panic!("one catalogue") };
        assert_eq!(catalog["/ViewerPreferences"]["/DisplayDocTitle"], true);
        assert_eq!(catalog["/MarkInfo"]["/Marked"], true);
        assert_eq!(catalog["/Lang"], "u:en");
    }
}
