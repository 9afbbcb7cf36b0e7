//! Findings as JSON, for editors and scripts.

use std::fmt::Write as _;

use serde::Serialize;

use super::wording::is_hidden;
use super::{Counts, Files, Finding, Findings, Level, Place};

#[derive(Serialize)]
struct Document<'a> {
    findings: Vec<Entry<'a>>,
    counts: Counts,
}

#[derive(Serialize)]
struct Entry<'a> {
    rule: &'a str,
    level: Level,
    message: &'a str,
    file: &'a str,
    line: usize,
    column: usize,
    why: &'a str,
    mend: &'a str,
    related: Vec<Nearby<'a>>,
}

#[derive(Serialize)]
struct Nearby<'a> {
    file: &'a str,
    line: usize,
    column: usize,
    message: &'a str,
}

/// All findings as one JSON document with a line break at its end; lines and columns count from 1.
pub fn json(findings: &Findings, files: &Files) -> String {
    let document = Document {
        findings: findings.iter().map(|finding| entry(finding, files)).collect(),
        counts: findings.counts(),
    };
    shown(&document)
}

/// JSON text with a line break at its end. Characters that a terminal might obey are written as escapes.
pub fn shown(document: &impl Serialize) -> String {
    let text = serde_json::to_string_pretty(document).unwrap_or_default();
    let mut shown = String::with_capacity(text.len() + 1);
    for c in text.chars() {
        if (is_hidden(c) && c != '\n') || matches!(c, '\u{2028}' | '\u{2029}') {
            let mut units = [0; 2];
            for unit in c.encode_utf16(&mut units) {
                let _ = write!(shown, "\\u{unit:04x}");
            }
        } else {
            shown.push(c);
        }
    }
    shown.push('\n');
    shown
}

fn entry<'a>(finding: &'a Finding, files: &'a Files) -> Entry<'a> {
    let (file, line, column) = position(finding.place, files);
    Entry {
        rule: finding.check.id,
        level: finding.level(),
        message: &finding.message,
        file,
        line,
        column,
        why: finding.check.why,
        mend: &finding.mend,
        related: finding.related.iter().map(|related| nearby(related.place, &related.message, files)).collect(),
    }
}

fn nearby<'a>(place: Place, message: &'a str, files: &'a Files) -> Nearby<'a> {
    let (file, line, column) = position(place, files);
    Nearby { file, line, column, message }
}

fn position(place: Place, files: &Files) -> (&str, usize, usize) {
    let (line, column) = files.line_and_column(place);
    (files.path(place.file), line, column)
}

#[cfg(test)]
mod tests {
    use super::super::sample;
    use super::*;

    #[test]
    fn a_finding_says_all_that_an_editor_needs() {
        let (findings, files) = sample::paint_in_two_ranges();
        assert_eq!(
            json(&findings, &files),
            r#"{
  "findings": [
    {
      "rule": "paint-twice",
      "level": "error",
      "message": "'marsh-gold' is in two ranges",
      "file": "content/paints/mere.yaml",
      "line": 12,
      "column": 9,
      "why": "a step that names it could mean either",
      "mend": "give one of them another id",
      "related": [
        {
          "file": "content/paints/größe 2.yaml",
          "line": 3,
          "column": 9,
          "message": "first used here"
        }
      ]
    }
  ],
  "counts": {
    "error": 1,
    "warning": 0,
    "note": 0
  }
}
"#
        );
    }

    #[test]
    fn a_run_without_findings_is_a_document_too() {
        let document: serde_json::Value = serde_json::from_str(&json(&Findings::default(), &Files::default())).unwrap();
        assert_eq!(document, serde_json::json!({ "findings": [], "counts": { "error": 0, "warning": 0, "note": 0 } }));
    }
}
