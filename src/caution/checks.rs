//! What is checked so that nobody is hurt by a guide.

use super::weak_notes::{self, WEAK_CAUTION};
use super::{CautionKind, product, statements};
use crate::guide::{Guide, Paint};
use crate::report::{Check, Finding, Group, Level, wording};

/// Every check of this layer, in the order of the page "What is checked".
pub const CHECKS: &[&Check] = &[&ISOCYANATE, &WAIVED_SAFETY, &UNKNOWN_STATEMENT, &WEAK_CAUTION];

/// No isocyanates in a home guide.
pub(crate) static ISOCYANATE: Check = Check {
    id: "isocyanate",
    level: Level::Error,
    about: "no product contains isocyanates, or may contain them for all that its hazard codes say",
    why: "isocyanates can cause asthma for life, no filter mask is accepted against them, and readers paint at home",
    group: Group::Safety,
    safety: true,
};

/// What keeps people safe stays.
pub(crate) static WAIVED_SAFETY: Check = Check {
    id: "waived-safety",
    level: Level::Error,
    about: "no step waives a rule that keeps people safe, or a caution",
    why: "the reader who is hurt did not agree to the reason",
    group: Group::Safety,
    safety: true,
};

/// Codes have an official text.
pub(crate) static UNKNOWN_STATEMENT: Check = Check {
    id: "unknown-statement",
    level: Level::Warning,
    about: "every code under 'hazards' is a statement of the GHS or of the CLP regulation",
    why: "readers would see a code without its text, and a caution that hangs on it may be missing",
    group: Group::Safety,
    safety: false,
};

/// Looks through the products of a guide, whether a step uses them or not: readers see all of them.
pub fn check(guide: &Guide) -> Vec<Finding> {
    let mut findings = weak_notes::check(guide);
    for paint in &guide.paints {
        findings.extend(isocyanate(guide, paint));
        findings.extend(unknown_statements(paint));
    }
    findings
}

/// Looks for steps that waive what can't be waived: one of the rules whose ids are given, or a caution.
pub fn check_waivers(guide: &Guide, safety_rules: &[&str]) -> Vec<Finding> {
    let steps = guide.schemes.iter().flat_map(|scheme| &scheme.steps);
    let waivers = steps.flat_map(|step| &step.waivers);
    let kept = waivers.filter_map(|waiver| {
        let what = if safety_rules.contains(&waiver.rule.as_str()) {
            "a rule that keeps people safe"
        } else if CautionKind::NAMES.contains(&waiver.rule.as_str()) {
            "a caution"
        } else {
            return None;
        };
        let message = format!("{} is {what} and can't be waived", wording::quoted(&waiver.rule));
        Some(Finding::new(&WAIVED_SAFETY, waiver.place, message, "take the waiver out"))
    });
    kept.collect()
}

/// The finding for a product that has or may have isocyanates, with every step that uses it.
fn isocyanate(guide: &Guide, paint: &Paint) -> Option<Finding> {
    let reason = product::isocyanate_reason(paint)?;
    let message = format!("{} {reason}", wording::quoted(&paint.name));
    let mend = if paint.hazards.is_empty() {
        "list the codes of its safety data sheet under 'hazards', or use a one-part product in its place"
    } else {
        "use a one-part product in its place"
    };
    let mut finding = Finding::new(&ISOCYANATE, paint.place, message, mend);
    for scheme in &guide.schemes {
        for step in &scheme.steps {
            if let Some(part) = step.mix.parts.iter().find(|part| part.paint.id == paint.id) {
                let used = format!("used in step {} of {}", step.number, wording::quoted(&scheme.title));
                finding = finding.see(part.place, used);
            }
        }
    }
    Some(finding)
}

fn unknown_statements(paint: &Paint) -> impl Iterator<Item = Finding> {
    let unknown = paint.hazards.iter().filter(|code| statements::statement_text(&code.0).is_none());
    unknown.map(|code| {
        let message =
            format!("{} of {} is not a known statement", wording::quoted(&code.0), wording::quoted(&paint.name));
        let mend = statements::nearest(&code.0).map_or_else(
            || "copy the code from the product's safety data sheet".to_owned(),
            |near| format!("did you mean {}? compare it with the product's safety data sheet", wording::quoted(near)),
        );
        Finding::new(&UNKNOWN_STATEMENT, paint.place, message, mend)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::door::Memory;
    use crate::report::Files;

    /// A guide with one range, the entries of which are given, and one step that uses its first paint `x`.
    fn guide(entries: &str, waive: &str) -> (Guide, Files) {
        let paints = format!("maker: Tarn & Daughter\nrange: Shell\nfamily: two-pack\npaints:\n{entries}");
        let step = format!(
            "---\ntitle: Clear\nstage: varnish\nareas: [all]\nwith: brush\npaints: [{{use: x}}]\n{waive}---\nBrush it on.\n"
        );
        let door = Memory::default()
            .with("content/guide.yaml", "title: Test\nauthor: Quill Hollis\n")
            .with("content/paints/shell.yaml", paints)
            .with("content/schemes/warden/scheme.md", "---\ntitle: Fen warden\nareas: {all-of-it: 100%}\n---\n")
            .with("content/schemes/warden/10-clear.md", step);
        let mut source = crate::source::read(&door).unwrap();
        assert_eq!(source.findings, []);
        let (guide, findings) = crate::guide::resolve(&mut source);
        assert_eq!(findings, []);
        (guide, source.files)
    }

    fn found(entries: &str) -> Vec<(&'static str, String)> {
        let (guide, _) = guide(entries, "");
        check(&guide).into_iter().map(|finding| (finding.check.id, finding.message)).collect()
    }

    #[test]
    fn isocyanates_are_refused() {
        for (entry, message) in [
            ("family: lacquer, hazards: [H226, EUH204]", "'Rock' contains isocyanates (EUH204)"),
            ("family: two-pack, hazards: [EUH204]", "'Rock' contains isocyanates (EUH204)"),
            ("hazards: [H317, H334]", "'Rock' is a two-pack product that can cause asthma (H334), as isocyanates do"),
            ("note: Shake.", "'Rock' is a two-pack product without hazard codes, so isocyanates can't be ruled out"),
            ("hazards: [P280]", "'Rock' is a two-pack product without hazard codes, so isocyanates can't be ruled out"),
        ] {
            let entries = format!("  x: {{name: Rock, kind: varnish, {entry}}}\n");
            assert_eq!(found(&entries), [("isocyanate", message.to_owned())], "{entry}");
        }
    }

    #[test]
    fn other_products_are_not_refused() {
        for entry in ["hazards: [EUH205, H317]", "hazards: [EUH210]", "family: water, hazards: [H334]", "family: water"]
        {
            assert_eq!(found(&format!("  x: {{name: Rock, kind: varnish, {entry}}}\n")), [], "{entry}");
        }
    }

    #[test]
    fn a_refused_product_is_told_once_with_the_steps_that_use_it() {
        let (guide, files) = guide(
            "  x: {name: Rock, kind: varnish}\n  y: {name: Unused, kind: varnish, family: lacquer, hazards: [EUH204]}\n",
            "",
        );
        let findings = check(&guide);
        assert_eq!(findings.len(), 2);
        assert_eq!(files.path(findings[0].place.file), "content/paints/shell.yaml");
        assert_eq!(findings[0].related.len(), 1);
        assert_eq!(files.path(findings[0].related[0].place.file), "content/schemes/warden/10-clear.md");
        assert_eq!(findings[0].related[0].message, "used in step 1 of 'Fen warden'");
        assert_eq!(findings[1].related, []);
    }

    #[test]
    fn unknown_codes_are_told_with_the_nearest() {
        let (guide, _) =
            guide("  x: {name: Rock, kind: varnish, family: water, hazards: [H361FD, P999, P301+P310+P331]}\n", "");
        let findings = check(&guide);
        let told: Vec<(&str, &str)> =
            findings.iter().map(|finding| (finding.message.as_str(), finding.mend.as_str())).collect();
        let expected = [
            (
                "'H361FD' of 'Rock' is not a known statement",
                "did you mean 'H361fd'? compare it with the product's safety data sheet",
            ),
            ("'P999' of 'Rock' is not a known statement", "copy the code from the product's safety data sheet"),
        ];
        assert_eq!(told, expected);
        assert!(findings.iter().all(|finding| finding.check.id == "unknown-statement"));
    }

    #[test]
    fn safety_rules_and_cautions_can_not_be_waived() {
        let waive = "waive: {isocyanate: We like it., varnish: We know., decal-needs-gloss: It is satin.}\n";
        let (guide, _) = guide("  x: {name: Rock, kind: varnish, family: water}\n", waive);
        let findings = check_waivers(&guide, &["isocyanate"]);
        let told: Vec<&str> = findings.iter().map(|finding| finding.message.as_str()).collect();
        let expected = [
            "'isocyanate' is a rule that keeps people safe and can't be waived",
            "'varnish' is a caution and can't be waived",
        ];
        assert_eq!(told, expected);
        assert!(findings.iter().all(|finding| finding.level() == Level::Error));
    }

    #[test]
    fn an_ordinary_waiver_passes() {
        let waive = "waive: {decal-needs-gloss: It is satin.}\n";
        let (guide, _) = guide("  x: {name: Rock, kind: varnish, family: water}\n", waive);
        assert_eq!(check_waivers(&guide, &["isocyanate"]), []);
    }

    #[test]
    fn safety_checks_are_marked_as_such() {
        let marked: Vec<&str> = CHECKS.iter().filter(|check| check.safety).map(|check| check.id).collect();
        assert_eq!(marked, ["isocyanate", "waived-safety"]);
        assert!(CHECKS.iter().all(|check| check.group == Group::Safety));
    }
}
