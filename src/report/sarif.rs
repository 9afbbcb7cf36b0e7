//! Findings as SARIF 2.1.0 (OASIS, Static Analysis Results Interchange Format), which code hosts and editors
//! show beside the lines of a change.

use std::collections::BTreeMap;
use std::fmt::Write;

use serde::Serialize;

use super::{Check, Files, Finding, Findings, Level, Place, Related};

const SCHEMA: &str = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json";

/// The name under which the log speaks of the guide's folder: where that lies is the reader's business.
const BASE: &str = "GUIDE";

#[derive(Serialize)]
struct Log<'a> {
    #[serde(rename = "$schema")]
    schema: &'a str,
    version: &'a str,
    runs: [Run<'a>; 1],
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Run<'a> {
    tool: Tool<'a>,
    original_uri_base_ids: BTreeMap<&'a str, Base<'a>>,
    column_kind: &'a str,
    results: Vec<Entry<'a>>,
}

#[derive(Serialize)]
struct Tool<'a> {
    driver: Driver<'a>,
}

#[derive(Serialize)]
struct Driver<'a> {
    name: &'a str,
    version: &'a str,
    rules: Vec<Rule>,
}

#[derive(Serialize)]
struct Base<'a> {
    description: Text<&'a str>,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Rule {
    id: &'static str,
    short_description: Text<&'static str>,
    full_description: Text<&'static str>,
    help: Text<&'static str>,
    default_configuration: Configuration,
}

#[derive(Serialize)]
struct Configuration {
    level: Level,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Entry<'a> {
    rule_id: &'a str,
    rule_index: usize,
    level: Level,
    message: Text<String>,
    locations: Vec<Location<'a>>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    related_locations: Vec<Location<'a>>,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Location<'a> {
    physical_location: Physical<'a>,
    #[serde(skip_serializing_if = "Option::is_none")]
    message: Option<Text<&'a str>>,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Physical<'a> {
    artifact_location: Artifact<'a>,
    region: Region,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Artifact<'a> {
    uri: String,
    uri_base_id: &'a str,
}

/// Lines and columns count from 1; the last column is the one after the last character.
#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Region {
    start_line: usize,
    start_column: usize,
    end_line: usize,
    end_column: usize,
}

#[derive(Serialize)]
struct Text<T> {
    text: T,
}

/// All findings as one SARIF log with a line break at its end.
pub fn sarif(findings: &Findings, files: &Files) -> String {
    let checks: BTreeMap<&str, &Check> = findings.iter().map(|finding| (finding.check.id, finding.check)).collect();
    let ids: Vec<&str> = checks.keys().copied().collect();
    let results = findings
        .iter()
        .map(|finding| entry(finding, ids.partition_point(|id| *id < finding.check.id), files))
        .collect();
    let run = Run {
        tool: Tool {
            driver: Driver {
                name: "maulstick",
                version: env!("CARGO_PKG_VERSION"),
                rules: checks.into_values().map(rule).collect(),
            },
        },
        original_uri_base_ids: BTreeMap::from([(BASE, Base { description: Text { text: "the guide's folder" } })]),
        // Editors that count in UTF-16 convert; `Files` counts what an author sees as one character.
        column_kind: "unicodeCodePoints",
        results,
    };
    super::json::shown(&Log { schema: SCHEMA, version: "2.1.0", runs: [run] })
}

fn rule(check: &Check) -> Rule {
    Rule {
        id: check.id,
        short_description: Text { text: check.about },
        full_description: Text { text: check.why },
        help: Text { text: check.why },
        default_configuration: Configuration { level: check.level },
    }
}

fn entry<'a>(finding: &'a Finding, rule_index: usize, files: &Files) -> Entry<'a> {
    let related = |related: &'a Related| location(related.place, Some(&related.message), files);
    Entry {
        rule_id: finding.check.id,
        rule_index,
        level: finding.level(),
        message: Text { text: format!("{}; {}", finding.message, finding.mend) },
        locations: vec![location(finding.place, None, files)],
        related_locations: finding.related.iter().map(related).collect(),
    }
}

fn location<'a>(place: Place, message: Option<&'a str>, files: &Files) -> Location<'a> {
    let physical_location = Physical {
        artifact_location: Artifact { uri: relative_uri(files.path(place.file)), uri_base_id: BASE },
        region: region(place, files),
    };
    Location { physical_location, message: message.map(|text| Text { text }) }
}

fn region(place: Place, files: &Files) -> Region {
    let (start_line, start_column) = files.line_and_column(place);
    let (end_line, end_column) = files.line_and_column(Place { start: place.end, ..place });
    Region { start_line, start_column, end_line, end_column }
}

/// A path as a relative URI: of a name's bytes only those stay that a URI never reads as a sign of its own.
fn relative_uri(path: &str) -> String {
    path.bytes().fold(String::with_capacity(path.len()), |mut uri, byte| {
        if byte.is_ascii_alphanumeric() || b"-._~/".contains(&byte) {
            uri.push(char::from(byte));
        } else {
            // Writing to a string can't fail.
            let _ = write!(uri, "%{byte:02X}");
        }
        uri
    })
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use super::super::FileId;
    use super::super::sample::{self, BARE, STRAY, TWICE};
    use super::*;

    /// What the standard's own schema finds wrong. The schema is the one that OASIS publishes, as the crate
    /// serde-sarif 0.8.0 carries it.
    fn faults(log: &Value) -> Vec<String> {
        let schema = include_str!(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/data/sarif-schema-2.1.0.json"));
        let mut schema: Value = serde_json::from_str(schema).unwrap();
        for part in ["run", "toolComponent"] {
            // Two patterns have a bracket too many to be expressions; no log of ours has a language.
            let language = schema["definitions"][part]["properties"]["language"].as_object_mut().unwrap();
            assert!(language.remove("pattern").is_some());
        }
        let validator = jsonschema::options().should_validate_formats(true).build(&schema).unwrap();
        validator.iter_errors(log).map(|error| format!("{}: {error}", error.instance_path())).collect()
    }

    fn log(findings: &Findings, files: &Files) -> Value {
        let text = sarif(findings, files);
        assert!(text.ends_with("}\n"));
        serde_json::from_str(&text).unwrap()
    }

    /// Three findings of two rules in a file with an awkward name, in an empty one and in none.
    fn three_findings() -> (Findings, Files) {
        let mut files = Files::default();
        let fen = files.add("a:b/größe %41?#[1].md", "één 👩 gold\nedge");
        let empty = files.add("tools.yaml", "");
        let found = vec![
            Finding::new(&STRAY, Place::top_of(empty), "this file is empty", "write it"),
            Finding::new(&BARE, sample::place_of(&files, fen, "gold\ned"), "no description", "write one"),
            Finding::new(&STRAY, Place::top_of(FileId::new(9)), "\u{1b}[31m", "\u{202e}"),
        ];
        (Findings::gather(found, &files), files)
    }

    #[test]
    fn every_log_keeps_to_the_schema_of_the_standard() {
        let (findings, files) = sample::paint_in_two_ranges();
        assert_eq!(faults(&log(&findings, &files)), [""; 0]);
        let (findings, files) = three_findings();
        assert_eq!(faults(&log(&findings, &files)), [""; 0]);
        assert_eq!(faults(&log(&Findings::default(), &Files::default())), [""; 0]);
    }

    #[test]
    fn the_schema_refuses_what_the_standard_does_not_allow() {
        let (findings, files) = sample::paint_in_two_ranges();
        let good = log(&findings, &files);
        for (pointer, wrong) in [
            ("/version", json!("2.0.0")),
            ("/runs/0/columnKind", json!("bytes")),
            ("/runs/0/results/0/level", json!("fatal")),
            ("/runs/0/results/0/message", json!("text alone")),
            ("/runs/0/results/0/locations/0/physicalLocation/region/startLine", json!(0)),
            ("/runs/0/results/0/locations/0/physicalLocation/artifactLocation/uri", json!("größe 2.yaml")),
            ("/runs/0/tool/driver/rules/0", json!({})),
        ] {
            let mut bad = good.clone();
            *bad.pointer_mut(pointer).unwrap() = wrong;
            assert!(!faults(&bad).is_empty(), "{pointer}");
        }
    }

    #[test]
    fn a_result_names_its_rule_its_places_and_its_mend() {
        let (findings, files) = sample::paint_in_two_ranges();
        let place = |uri: &str, line: usize| {
            json!({
                "artifactLocation": { "uri": uri, "uriBaseId": "GUIDE" },
                "region": { "startLine": line, "startColumn": 9, "endLine": line, "endColumn": 19 },
            })
        };
        assert_eq!(
            log(&findings, &files)["runs"][0]["results"],
            json!([{
                "ruleId": TWICE.id,
                "ruleIndex": 0,
                "level": "error",
                "message": { "text": "'marsh-gold' is in two ranges; give one of them another id" },
                "locations": [{ "physicalLocation": place("content/paints/mere.yaml", 12) }],
                "relatedLocations": [{
                    "physicalLocation": place("content/paints/gr%C3%B6%C3%9Fe%202.yaml", 3),
                    "message": { "text": "first used here" },
                }],
            }])
        );
    }

    #[test]
    fn the_rules_that_occur_are_listed_once_by_id_and_results_point_at_them() {
        let (findings, files) = three_findings();
        let log = log(&findings, &files);
        let driver = &log["runs"][0]["tool"]["driver"];
        assert_eq!(driver["name"], "maulstick");
        assert_eq!(driver["version"], env!("CARGO_PKG_VERSION"));
        let rules = driver["rules"].as_array().unwrap();
        let stray = json!({
            "id": STRAY.id,
            "shortDescription": { "text": STRAY.about },
            "fullDescription": { "text": STRAY.why },
            "help": { "text": STRAY.why },
            "defaultConfiguration": { "level": "warning" },
        });
        assert_eq!((rules.len(), &rules[0], &rules[1]["id"]), (2, &stray, &json!(BARE.id)));
        let results = log["runs"][0]["results"].as_array().unwrap();
        assert_eq!(results.len(), 3);
        for result in results {
            let index = usize::try_from(result["ruleIndex"].as_u64().unwrap()).unwrap();
            assert_eq!(rules[index]["id"], result["ruleId"]);
        }
    }

    #[test]
    fn columns_count_characters_and_a_region_may_end_on_another_line() {
        let (findings, files) = three_findings();
        let log = log(&findings, &files);
        let place = &log["runs"][0]["results"][1]["locations"][0]["physicalLocation"];
        assert_eq!(place["region"], json!({ "startLine": 1, "startColumn": 7, "endLine": 2, "endColumn": 3 }));
        assert_eq!(place["artifactLocation"]["uri"], "a%3Ab/gr%C3%B6%C3%9Fe%20%2541%3F%23%5B1%5D.md");
    }
}
