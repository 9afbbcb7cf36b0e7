//! Lists to tick off in a text: every box has its words as its label, and can be ticked.

use pulldown_cmark::{CowStr, Event, Tag, TagEnd};

/// Puts the words of each box into a label with it, up to where the line or the list goes on in another way.
pub(in crate::page) fn labelled<'e>(events: impl Iterator<Item = Event<'e>>) -> impl Iterator<Item = Event<'e>> {
    let mut open = false;
    events.flat_map(move |event| {
        if let Event::TaskListMarker(done) = event {
            open = true;
            let checked = if done { " checked" } else { "" };
            let html = format!("<label><input type=\"checkbox\"{checked}> ");
            return [None, Some(Event::InlineHtml(CowStr::from(html)))].into_iter().flatten();
        }
        let end = (open && ends(&event)).then(|| Event::InlineHtml(CowStr::from("</label>")));
        open &= end.is_none();
        [end, Some(event)].into_iter().flatten()
    })
}

/// Whether what comes now is no longer part of a box's words.
fn ends(event: &Event<'_>) -> bool {
    match event {
        Event::Start(tag) => {
            !matches!(tag, Tag::Emphasis | Tag::Strong | Tag::Strikethrough | Tag::Link { .. } | Tag::Image { .. })
        }
        Event::End(TagEnd::Item | TagEnd::Paragraph) | Event::Html(_) | Event::Rule => true,
        _ => false,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::guide::markdown::parser;

    fn html(markdown: &str) -> String {
        let mut out = String::new();
        pulldown_cmark::html::push_html(&mut out, labelled(parser(markdown)));
        out.replace('\n', "")
    }

    #[test]
    fn the_words_of_a_box_are_its_label() {
        assert_eq!(
            html("- [ ] wash *it*\n- [x] dry\n"),
            "<ul><li><label><input type=\"checkbox\"> wash <em>it</em></label></li>\
             <li><label><input type=\"checkbox\" checked> dry</label></li></ul>"
        );
    }

    #[test]
    fn a_list_or_a_paragraph_below_is_not_part_of_them() {
        let inner = html("- [ ] wash\n  - soap\n");
        assert!(inner.contains("> wash</label><ul><li>soap</li></ul>"), "{inner}");
        let loose = html("- [ ] wash\n\n  twice\n\n- [ ] dry\n");
        assert!(loose.contains("<p><label><input type=\"checkbox\"> wash</label></p><p>twice</p>"), "{loose}");
    }
}
