//! Templates in which the words are said that need nothing filled in: `{{ say(key="nav.label") }}` is the same on every page,
//! so it is looked up once, before the templates are compiled. Words in a piece of a page are written for HTML then, also where a
//! theme's own file of another kind calls that piece.

use std::borrow::Cow;

use crate::theme::Words;

/// How a template asks for such words.
const BEGIN: &str = "{{ say(key=\"";
const END: &str = "\") }}";

/// A template of HTML with those words in their places, as the engine itself would have written them there. What is not to be
/// found, or would mean something in a template, is left to the engine.
pub(super) fn spoken<'a>(name: &str, template: &'a str, words: &Words) -> Cow<'a, str> {
    // In other files nothing is escaped.
    if name.rsplit_once('.').is_none_or(|(_, ending)| ending != "html") {
        return Cow::Borrowed(template);
    }
    let mut pieces = template.split(BEGIN);
    let mut spoken = pieces.next().unwrap_or_default().to_owned();
    for piece in pieces {
        let said = piece.split_once(END).and_then(|(key, rest)| Some((written(words.get(key)?)?, rest)));
        match said {
            Some((said, rest)) => spoken.extend([&said, rest]),
            None => spoken.extend([BEGIN, piece]),
        }
    }
    Cow::Owned(spoken)
}

/// Words as the engine writes them; none where a brace or the white space around them could be taken for its own.
fn written(words: &str) -> Option<String> {
    let plain = !words.is_empty() && words.trim() == words && !words.contains(['{', '}']);
    let mut written = Vec::new();
    tera::escape_html(words, &mut written).ok().filter(|()| plain)?;
    String::from_utf8(written).ok()
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;

    use super::*;

    #[test]
    fn only_words_that_need_nothing_else_are_said_beforehand() {
        let entries = [("a.b", "More & \"less\""), ("gap", "{n} coats"), ("edge", "so ")];
        let entries: BTreeMap<String, String> =
            entries.iter().map(|(key, text)| ((*key).to_owned(), (*text).to_owned())).collect();
        let words = Words::new(entries);
        let template = "<p a=\"{{ say(key=\"a.b\") }}\">{{ say(key=\"gap\") }}{{ say(key=\"edge\") }}{{ say(key=\"no\") }}\
            {{ say(key=\"a.b\", n=1) }}{{ say(key=\"a.\" ~ x) }}";
        let expected = template.replace("{{ say(key=\"a.b\") }}", "More &amp; &quot;less&quot;");
        assert_eq!(spoken("step.html", template, &words), expected);
        assert_eq!(spoken("words.js", template, &words), template);
    }
}
