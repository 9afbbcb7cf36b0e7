//! Source text with its parts marked by classes, so that the theme colours them in light, dark and print.

use std::sync::OnceLock;

use syntect::parsing::{ParseState, Scope, ScopeStack, SyntaxReference, SyntaxSet};
use syntect::util::LinesWithEndings;

use super::marked::{Marked, escaped};
use super::{markdown, yaml};

/// The grammars, loaded when a page first needs one.
fn grammars() -> &'static SyntaxSet {
    static GRAMMARS: OnceLock<SyntaxSet> = OnceLock::new();
    GRAMMARS.get_or_init(SyntaxSet::load_defaults_newlines)
}

/// The classes, by the beginning of the scope that a grammar gives; the first that fits holds.
const CLASSES: &[(&str, &str)] = &[
    ("comment", "code-comment"),
    ("entity.name.tag", "code-key"),
    ("markup.heading", "code-heading"),
    ("entity.name.section", "code-heading"),
    ("markup.underline.link", "code-link"),
    ("markup.bold", "code-strong"),
    ("markup.italic", "code-strong"),
    ("markup.raw", "code-string"),
    ("constant", "code-number"),
    ("keyword", "code-word"),
    ("storage", "code-word"),
    ("entity.name", "code-key"),
    ("string", "code-string"),
];

fn scopes() -> &'static [(Scope, &'static str)] {
    static SCOPES: OnceLock<Vec<(Scope, &'static str)>> = OnceLock::new();
    SCOPES.get_or_init(|| {
        let known = CLASSES.iter().filter_map(|(name, class)| Scope::new(name).ok().map(|scope| (scope, *class)));
        known.collect()
    })
}

/// A block of code in a text.
pub(crate) fn code(language: &str, text: &str) -> String {
    let word = language.split([' ', ',']).next().unwrap_or_default();
    let inner = match word {
        "" | "text" => escaped(text),
        "yaml" | "yml" => yaml::marked(text),
        "markdown" | "md" => markdown::marked(text),
        word => {
            let grammar = grammars().find_syntax_by_token(word);
            grammar.map_or_else(|| escaped(text), |grammar| marked(text, grammar))
        }
    };
    format!("<pre class=\"code\" tabindex=\"0\"><code>{inner}</code></pre>\n")
}

/// A whole Markdown file with its front matter: the front matter as YAML, the rest as Markdown.
///
/// The page is the same whichever way an author's editor ends its lines.
pub(crate) fn markdown_source(text: &str) -> String {
    let text = text.replace("\r\n", "\n");
    let (front, body) = text.split_at(body_start(&text));
    let (front, body) = (yaml::marked(front), markdown::marked(body));
    format!("<pre class=\"code\" tabindex=\"0\"><code>{front}{body}</code></pre>\n")
}

/// The byte after the line that ends the front matter; 0 without one.
fn body_start(text: &str) -> usize {
    let mut at = 0;
    for (number, line) in text.split_inclusive('\n').enumerate() {
        at += line.len();
        if number > 0 && line.trim_end() == "---" {
            return at;
        }
    }
    0
}

/// A line longer than this is not worth a grammar's time, which grows with the square of the line.
const LONGEST_LINE: usize = 200;

/// So many bytes of one block are coloured; what is beyond is shown plain.
const MOST_COLOURED: usize = 50_000;

fn marked(text: &str, grammar: &SyntaxReference) -> String {
    let mut state = ParseState::new(grammar);
    let mut stack = ScopeStack::new();
    let mut out = Marked::default();
    let mut coloured = 0;
    for line in LinesWithEndings::from(text) {
        coloured += line.len();
        if line.len() > LONGEST_LINE || coloured > MOST_COLOURED {
            out.put(line, None);
            continue;
        }
        let Ok(changes) = state.parse_line(line, grammars()) else {
            out.put(line, None);
            continue;
        };
        let mut from = 0;
        for (at, change) in changes {
            out.put(&line[from..at], class_of(&stack));
            from = at;
            if stack.apply(&change).is_err() {
                stack = ScopeStack::new();
            }
        }
        out.put(&line[from..], class_of(&stack));
    }
    out.finish()
}

/// The class of the innermost scope that has one.
fn class_of(stack: &ScopeStack) -> Option<&'static str> {
    let inward = stack.scopes.iter().rev();
    inward
        .filter_map(|scope| scopes().iter().find(|(known, _)| known.is_prefix_of(*scope)))
        .map(|(_, class)| *class)
        .next()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_steps_file_is_marked_and_escaped() {
        let html = markdown_source("---\ntitle: A <b> # note\n---\n# Head\n\nText & more\n");
        assert!(html.contains("<span class=\"code-key\">title</span>"), "{html}");
        assert!(html.contains("code-comment"), "{html}");
        assert!(html.contains("code-heading"), "{html}");
        assert!(html.contains("&lt;b&gt;") && html.contains("Text &amp; more"), "{html}");
    }

    #[test]
    fn the_ends_of_lines_in_a_file_do_not_show() {
        let text = "---\ntitle: A\n---\n\n# Head\n\nText\n";
        assert_eq!(markdown_source(&text.replace('\n', "\r\n")), markdown_source(text));
    }

    #[test]
    fn an_unknown_language_is_plain() {
        let html = code("nosuch", "1 < 2");
        assert_eq!(html, "<pre class=\"code\" tabindex=\"0\"><code>1 &lt; 2</code></pre>\n");
    }
}
