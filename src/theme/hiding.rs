//! What in a theme's own style would keep a reader from seeing a caution, as far as the style alone can tell.
//!
//! Looked at are rules whose selector ends in a class of the caution boxes, or in everything, the page or its main part.
//! A style can hide a caution in ways that only a browser could tell: through other selectors, by what lies over it, by
//! colours that are nearly the same. Those are not found here.

use crate::report::{FileId, Finding, Place, wording};

use super::checks::CAUTION_HIDDEN;

/// Every rule of a style that would hide a caution.
pub(super) fn hidden_cautions(css: &str, file: FileId) -> Vec<Finding> {
    let css = without_comments(css);
    let mut findings = Vec::new();
    let mut start = 0;
    for (at, _) in css.match_indices(['{', '}', ';']) {
        let text = &css[start..at];
        if css[at..].starts_with('{') && is_of_caution(text) {
            // Where a bracket is missing, a rule ends before the next one.
            let end = css[at + 1..].find(['{', '}']).map_or(css.len(), |length| at + 1 + length);
            findings.extend(css.get(at + 1..end).and_then(hiding).map(|told| finding(&css, (start, at), &told, file)));
        }
        start = at + 1;
    }
    findings
}

fn finding(css: &str, (start, end): (usize, usize), told: &str, file: FileId) -> Finding {
    let selector = css[start..end].trim();
    let start = end - css[start..end].trim_start().len();
    let place = Place::new(file, start, start + selector.len());
    let message = format!("{} hides cautions from readers by {}", wording::quoted(selector), wording::quoted(told));
    Finding::new(&CAUTION_HIDDEN, place, message, "take it out, or write it for something else")
}

/// The style with every comment as spaces, so that places stay.
fn without_comments(css: &str) -> String {
    let mut plain = String::with_capacity(css.len());
    let mut rest = css;
    while let Some((before, behind)) = rest.split_once("/*") {
        let (comment, after) = behind.split_once("*/").unwrap_or((behind, ""));
        plain.push_str(before);
        plain.extend(std::iter::repeat_n(' ', (rest.len() - before.len() - after.len()).min(comment.len() + 4)));
        rest = after;
    }
    plain + rest
}

/// Whether a selector means a caution box, a part of it that holds words, or all that is on a page.
fn is_of_caution(selectors: &str) -> bool {
    let plain = unescaped(selectors).to_lowercase();
    plain.split(',').any(|selector| {
        let last =
            selector.split([' ', '>', '+', '~']).rfind(|part| !part.trim().is_empty()).unwrap_or_default().trim();
        let words = last.replace(".caution-sign", "").replace("[hidden]", "");
        let whole = ["*", "html", "body", "main", ":root", "#content", "div"].contains(&words.as_str());
        !last.contains("::")
            && (words.contains("caution") || (selector.contains("caution") && !last.contains('.')) || whole)
            && !last.starts_with('@')
    })
}

/// A selector whose letters may be written by their numbers (`\63 aution`).
fn unescaped(text: &str) -> String {
    let mut plain = String::new();
    let mut rest = text;
    while let Some((before, behind)) = rest.split_once('\\') {
        plain.push_str(before);
        let digits = behind.bytes().take(6).take_while(u8::is_ascii_hexdigit).count();
        let (number, after) = behind.split_at(digits);
        let letter = u32::from_str_radix(number, 16).ok().and_then(char::from_u32);
        plain.extend(letter);
        rest = if letter.is_some() { after.strip_prefix([' ', '\n', '\t']).unwrap_or(after) } else { after };
    }
    plain + rest
}

/// The first declaration that hides.
fn hiding(declarations: &str) -> Option<String> {
    let pairs: Vec<(String, String)> = declarations
        .split(';')
        .filter_map(|one| one.split_once(':'))
        .map(|(name, value)| {
            let value = unescaped(value).to_lowercase().replace("!important", "");
            (unescaped(name).trim().to_lowercase(), value.split_whitespace().collect::<Vec<_>>().join(" "))
        })
        .collect();
    let of = |wanted: &[&str]| pairs.iter().find(|(name, _)| wanted.contains(&name.as_str())).map(|(_, value)| value);
    let same = of(&["color"]).is_some_and(|ink| of(&["background", "background-color"]) == Some(ink));
    let found = pairs.iter().find(|(name, value)| hides(name, value) || (same && name == "color"));
    found.map(|(name, value)| format!("{name}: {value}"))
}

fn hides(name: &str, value: &str) -> bool {
    let small =
        |least: &[(&str, f64)]| least.iter().any(|(unit, least)| number(value, unit).is_some_and(|n| n < *least));
    let away = |text: &str| {
        ["px", "em", "rem", "vw", "vh", "%", "cm", "pt"].iter().any(|unit| {
            number(text, unit).is_some_and(|n| n <= if matches!(*unit, "px" | "pt") { -100.0 } else { -10.0 })
        })
    };
    match name {
        "display" => value == "none",
        "visibility" => matches!(value, "hidden" | "collapse"),
        "content-visibility" => value == "hidden",
        "opacity" => small(&[("%", 60.0), ("", 0.6)]),
        "font-size" => small(&[("px", 9.0), ("pt", 7.0), ("em", 0.6), ("rem", 0.6), ("%", 60.0), ("", 1.0)]),
        "line-height" | "zoom" => small(&[("px", 9.0), ("%", 60.0), ("", 0.6)]),
        "width" | "height" | "max-width" | "max-height" | "block-size" | "inline-size" | "max-block-size"
        | "max-inline-size" => small(&[("px", 16.0), ("em", 1.0), ("rem", 1.0), ("%", 5.0), ("", 1.0)]),
        "color" => value == "transparent" || value.ends_with(" / 0)") || value.ends_with(", 0)"),
        "clip" => value != "auto",
        "clip-path" | "mask" | "mask-image" => value != "none",
        "filter" => value.contains("opacity(") || value.contains("blur("),
        "transform" | "scale" => value.starts_with("scale") || value.contains("translate") || value == "0",
        "left" | "right" | "top" | "bottom" | "inset" | "text-indent" | "translate" | "margin" => {
            value.split(' ').any(away)
        }
        _ if name.starts_with("margin-") || name.starts_with("inset-") => away(value),
        _ => false,
    }
}

/// The number of a value in a unit.
fn number(value: &str, unit: &str) -> Option<f64> {
    value.strip_suffix(unit)?.parse().ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn found(css: &str) -> usize {
        hidden_cautions(css, FileId::default()).len()
    }

    #[test]
    fn the_usual_ways_to_hide_are_found() {
        for hides in [
            "display:none",
            "display : NONE !important",
            "visibility:hidden",
            "opacity:0",
            "opacity: .1",
            "opacity:10%",
            "font-size:0",
            "font-size: 1px",
            "clip: rect(0,0,0,0)",
            "clip-path: inset(50%)",
            "position:absolute;left:-9999px",
            "text-indent:-100em",
            "transform:scale(0)",
            "translate: -200vw",
            "height:0;overflow:hidden",
            "color:transparent",
            "color:#fff;background:#fff",
            "color: rgb(0 0 0 / 0)",
            "filter:opacity(0)",
            "content-visibility:hidden",
            "d\\69splay:none",
            "display:/**/none",
        ] {
            for selector in [
                ".caution",
                "aside .caution-body",
                ".prose, .caution p",
                "*",
                "main",
                ".\\63 aution",
                "[class^=caution]",
            ] {
                assert_eq!(found(&format!("p {{color:red}} {selector} {{ {hides} }}")), 1, "{selector} {hides}");
                assert_eq!(found(&format!("@media print {{ {selector} {{ {hides} }} }}")), 1, "{selector} {hides}");
            }
        }
    }

    #[test]
    fn an_honest_style_is_left_alone() {
        for (path, bytes) in super::super::built_in::files() {
            if path.starts_with("style/") {
                assert_eq!(found(std::str::from_utf8(bytes).unwrap()), 0, "{path}");
            }
        }
        assert_eq!(
            found(
                ".caution-sign {display:none} .caution::before {opacity:0} .chip {display:none} /* .caution {display:none} */"
            ),
            0
        );
    }

    #[test]
    fn any_text_is_read_to_its_end() {
        for text in [
            "{",
            "}",
            "/*",
            "a{b:",
            "\\",
            "\\110000{",
            ".caution{",
            "ä{ö:ü}",
            ".caution{\\",
            "/* ä */ .caution{display:none",
        ] {
            let _ = hidden_cautions(text, FileId::default());
        }
    }
}
