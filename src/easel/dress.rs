//! What the live view adds to a page that it shows, and the page for what can't be shown.

use crate::report::{Files, Finding};

/// Where the live view's own files stand; no name of a guide begins with a dot.
pub(super) const OWN: &str = ".easel/";

/// The script that takes a new page into the open one.
pub(super) const SCRIPT: &str = include_str!("live.js");

/// The style of the bar with the findings.
pub(super) const STYLE: &str = include_str!("bar.css");

/// A page with the live view's script in front of all others. The policy of the page goes: it would not let the script
/// ask for news, and the live view sends one of its own.
pub(super) fn dressed(html: &str, revision: u64) -> String {
    let own = format!(
        "<script src=\"/{OWN}live.js\" data-revision=\"{revision}\" defer></script><link rel=\"stylesheet\" href=\"/{OWN}bar.css\">"
    );
    let (head, rest) = html.split_once("<head>").map_or(("", html), |(before, after)| (before, after));
    let (before, after) = match rest.split_once("<meta http-equiv=\"Content-Security-Policy\"") {
        Some((before, policy)) => (before, policy.split_once('>').map_or("", |(_, after)| after)),
        None => (rest, ""),
    };
    format!("{head}<head>{own}{before}{after}")
}

/// The page in place of one that a finding keeps from being shown.
pub(super) fn instead(finding: &Finding, files: &Files) -> String {
    let (line, column) = files.line_and_column(finding.place);
    let place = format!("{}:{line}:{column}", files.path(finding.place.file));
    let mut safe = [&finding.message, &place, &finding.mend, finding.check.why]
        .map(|text| text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;"));
    let [message, place, mend, why] = &mut safe;
    format!(
        "<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\"><title>This page can't be shown</title></head>\
         <body class=\"easel-instead\"><main><h1>This page can't be shown</h1><p><strong>{message}</strong></p>\
         <p><code>{place}</code></p><p>{mend}</p><p>{why}</p></main></body></html>\n"
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_page_gets_the_script_first_and_loses_its_policy() {
        let page = "<!DOCTYPE html><html><head><meta charset=\"utf-8\">\n<meta http-equiv=\"Content-Security-Policy\" \
                    content=\"default-src 'none'\">\n<script src=\"a.js\" defer></script></head><body></body></html>";
        let shown = dressed(page, 7);
        assert!(!shown.contains("Content-Security-Policy"), "{shown}");
        assert!(shown.find("live.js").unwrap() < shown.find("a.js").unwrap(), "{shown}");
        assert!(shown.contains("data-revision=\"7\"") && shown.ends_with("</html>"), "{shown}");
        assert_eq!(shown.matches("<head>").count(), 1);
    }
}
