//! What a published file is made of besides its words: the same guide with other words must have the same.

use std::collections::BTreeSet;

use scraper::{Html, Node, Selector};
use serde_json::Value;

/// The parts of a file that words must not change; `None` where a file has no such parts.
///
/// What stands in an element of the class `without` is left out.
pub(crate) fn of(path: &str, bytes: &[u8], without: Option<&str>) -> Option<Vec<String>> {
    let text = || String::from_utf8(bytes.to_vec()).unwrap_or_else(|_| panic!("{path} is no UTF-8"));
    match path.rsplit_once('.').map(|(_, ending)| ending)? {
        "html" => Some(html(path, &text(), without)),
        "json" | "webmanifest" => Some(json(path, &text())),
        "js" if path.starts_with("data/") => Some(script(path, &text())),
        "xml" => Some(xml(path, &text())),
        "ics" => Some(calendar(path, &text())),
        "vtt" => Some(track(path, &text())),
        "csv" => Some(table(path, &text())),
        // The worker of a site says which version it is, in sixteen digits.
        "js" if path == "worker.js" => {
            Some(vec![regex::Regex::new("[0-9a-f]{16}").unwrap().replace(&text(), "").into()])
        }
        "css" | "svg" | "js" => Some(vec![text()]),
        "txt" => Some(plain(path, &text())),
        "pdf" => Some(pdf(bytes)),
        _ => None,
    }
}

/// Elements with the names of their attributes, in order, and the shapes of the data that stand among them.
fn html(path: &str, text: &str, without: Option<&str>) -> Vec<String> {
    let page = Html::parse_document(text);
    let mut parts = Vec::new();
    let skipped: BTreeSet<_> = without
        .into_iter()
        .flat_map(|selector| page.select(&Selector::parse(selector).unwrap()).collect::<Vec<_>>())
        .flat_map(|element| element.descendants().map(|node| node.id()).collect::<Vec<_>>())
        .collect();
    for node in page.tree.root().descendants().filter(|node| !skipped.contains(&node.id())) {
        match node.value() {
            Node::Element(element) => {
                let mut names: Vec<&str> = element.attrs().map(|(name, _)| name).collect();
                names.sort_unstable();
                parts.push(format!("{} {}", element.name(), names.join(" ")));
                if element.name() == "script" && element.attr("src").is_none() {
                    let inside: String =
                        node.children().filter_map(|child| child.value().as_text()).map(|t| &**t).collect();
                    parts.extend(json(path, &inside));
                }
            }
            Node::Comment(_) => parts.push("comment".to_owned()),
            Node::ProcessingInstruction(_) => parts.push("instruction".to_owned()),
            _ => {}
        }
    }
    harmless(path, &page);
    parts
}

/// The attributes that hold an address.
const ADDRESSES: &[&str] =
    &["href", "src", "srcset", "action", "formaction", "poster", "data", "background", "xlink:href", "ping", "cite"];

/// No script in the page itself, no event, no style of its own, nothing that is loaded from elsewhere.
fn harmless(path: &str, page: &Html) {
    let single = path.starts_with("single/");
    for element in page.tree.nodes().filter_map(|node| node.value().as_element()) {
        let name = element.name();
        assert!(!matches!(name, "iframe" | "object" | "embed" | "base" | "form" | "frame"), "<{name}> in {path}");
        // The page for a lost address has its style in it, whatever folder it is served from.
        assert!(single || path == "404.html" || name != "style", "<style> in {path}");
        if name == "script" && element.attr("src").is_none() {
            let kind = element.attr("type").unwrap_or_default();
            assert!(matches!(kind, "application/ld+json" | "application/json"), "a script in {path}");
        }
        if name == "meta" {
            let told = element.attr("http-equiv").unwrap_or("Content-Security-Policy");
            assert_eq!(told, "Content-Security-Policy", "{path}");
        }
        for (attribute, value) in element.attrs() {
            assert!(!attribute.starts_with("on") && attribute != "srcdoc", "{attribute} on <{name}> in {path}");
            if ADDRESSES.contains(&attribute) {
                check_address(path, name, attribute, value);
            }
        }
    }
}

/// Links lead to the web, to a mail address or into the site; all else is loaded from the site.
fn check_address(path: &str, name: &str, attribute: &str, value: &str) {
    let seen: String = value.chars().filter(|c| !c.is_whitespace() && !c.is_control()).collect();
    let kind =
        seen.split(['/', '?', '#']).next().unwrap_or_default().split_once(':').map(|(kind, _)| kind.to_lowercase());
    let leads = name == "a" || element_only_tells(name);
    let fine = match kind.as_deref() {
        None => !seen.starts_with("//") && !seen.starts_with('\\'),
        Some("http" | "https" | "mailto") => leads,
        // A page in one file has its pictures inside.
        Some("data") => path.starts_with("single/") && name != "a" && seen.starts_with("data:image/"),
        Some(_) => false,
    };
    assert!(fine, "{attribute}={value:?} on <{name}> in {path}");
}

/// `<link rel=canonical>` leads and loads nothing; that the other kinds stay in the site is held by the policy.
fn element_only_tells(name: &str) -> bool {
    name == "link"
}

/// The kinds of all values, and the keys.
fn json(path: &str, text: &str) -> Vec<String> {
    let value: Value = serde_json::from_str(text).unwrap_or_else(|why| panic!("{path}: {why}\n{text}"));
    let mut parts = Vec::new();
    shape(&value, "", &mut parts);
    parts
}

/// The kinds of all values below a way, and the keys.
pub(crate) fn shape(value: &Value, way: &str, parts: &mut Vec<String>) {
    match value {
        Value::Array(items) => {
            items.iter().enumerate().for_each(|(at, item)| shape(item, &format!("{way}/{at}"), parts));
        }
        Value::Object(entries) => entries.iter().for_each(|(key, entry)| shape(entry, &format!("{way}/{key}"), parts)),
        Value::String(_) => parts.push(format!("{way} text")),
        Value::Number(_) => parts.push(format!("{way} number")),
        Value::Bool(_) | Value::Null => parts.push(format!("{way} {value}")),
    }
}

/// A file of data in a script: what stands around the data as it is, and the shape of the data.
fn script(path: &str, text: &str) -> Vec<String> {
    let list = text.find("(...[").map(|at| (at + 4, text.rfind(']')));
    let (start, end) = list.unwrap_or_else(|| (text.find('{').unwrap(), text.rfind('}')));
    let end = end.unwrap();
    let mut parts = vec![text[..start].to_owned(), text[end + 1..].to_owned()];
    // A list in a script may end in a comma.
    let (inside, bracket) = (text[start..end].trim_end().trim_end_matches(','), &text[end..=end]);
    parts.extend(json(path, &format!("{inside}{bracket}")));
    parts
}

/// Tags with the names of their attributes.
fn xml(path: &str, text: &str) -> Vec<String> {
    if path.ends_with("feed.xml") {
        atom_syndication::Feed::read_from(text.as_bytes()).unwrap_or_else(|why| panic!("{path}: {why}"));
    }
    let tag = regex::Regex::new(r#"<([?!/]?[\w:.-]*)((?:\s+[\w:.-]+\s*=\s*"[^"<]*")*)\s*[/?]?>"#).unwrap();
    let name = regex::Regex::new(r"([\w:.-]+)\s*=").unwrap();
    let found: Vec<regex::Captures<'_>> = tag.captures_iter(text).collect();
    assert_eq!(text.matches('<').count(), found.len(), "{path} has a bracket that opens no tag");
    let of = |found: &regex::Captures<'_>| {
        let names: Vec<String> = name.captures_iter(&found[2]).map(|name| name[1].to_owned()).collect();
        format!("{} {}", &found[1], names.join(" "))
    };
    found.iter().map(of).collect()
}

/// The names of all properties; lines are unfolded first (RFC 5545, 3.1).
fn calendar(path: &str, text: &str) -> Vec<String> {
    assert!(!text.replace("\r\n", "").contains(['\r', '\n']), "{path} has a bare line break");
    let lines = text.replace("\r\n ", "");
    lines.split("\r\n").map(|line| line.split([':', ';']).next().unwrap_or_default().to_owned()).collect()
}

/// Times as they are, any other line as one.
fn track(path: &str, text: &str) -> Vec<String> {
    assert!(!text.contains(['\r', '\u{2028}', '\u{2029}']), "{path} has another kind of line break");
    let kind = |line: &str| match line {
        "" => String::new(),
        line if line.contains("-->") => line.to_owned(),
        _ => "words".to_owned(),
    };
    text.split('\n').map(kind).collect()
}

/// How many cells each row has (RFC 4180); no cell begins like a formula.
fn table(path: &str, text: &str) -> Vec<String> {
    let rows = crate::shop::rows(text);
    let runs = |cell: &&String| cell.trim_start_matches(' ').starts_with(['=', '+', '-', '@', '\t', '\r', '\n', '＝']);
    assert_eq!(rows.iter().flatten().find(runs), None, "a formula in {path}");
    rows.iter().map(|row| row.len().to_string()).collect()
}

/// Nothing: lines are broken by the length of words. But no letter may be one that turns or breaks the writing.
fn plain(path: &str, text: &str) -> Vec<String> {
    assert_eq!(text.chars().find(|c| obeyed(*c)), None, "a hidden character in {path}:\n{text:?}");
    Vec::new()
}

/// Whether a terminal or a reader would obey a character instead of showing it.
pub(crate) fn obeyed(c: char) -> bool {
    let turns = matches!(c, '\u{61c}' | '\u{200e}' | '\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
    (c.is_control() && !matches!(c, '\n' | '\t')) || turns || matches!(c, '\u{fffe}')
}

/// The first character of what a terminal is given that it would obey, or that nobody sees.
pub(crate) fn hidden(text: &str) -> Option<char> {
    text.chars().find(|c| obeyed(*c) || matches!(c, '\u{200b}' | '\u{feff}' | '\u{e0000}'..='\u{e007f}'))
}

/// What a PDF could do: actions, scripts and files inside. Shorter names would turn up in compressed data by chance.
fn pdf(bytes: &[u8]) -> Vec<String> {
    let text = String::from_utf8_lossy(bytes);
    let can = ["/JavaScript", "/OpenAction", "/Launch", "/EmbeddedFile", "/SubmitForm", "/S /URI", "/S/URI"];
    can.iter().map(|name| format!("{name} {}", usize::from(text.contains(name)))).collect()
}
