//! The columns of a table in a text: a class says where their words stand, for a page's policy lets no element have a
//! style of its own.

use pulldown_cmark::{Alignment, CowStr, Event, Tag, TagEnd};

/// The columns of the table that is being written.
#[derive(Debug, Default)]
pub(super) struct Columns {
    alignments: Vec<Alignment>,
    column: usize,
    in_head: bool,
}

impl Columns {
    /// What is written in place of an event of a table; all others stay as they are.
    pub(super) fn event<'e>(&mut self, event: Event<'e>) -> Event<'e> {
        match event {
            Event::Start(Tag::Table(alignments)) => {
                let plain = vec![Alignment::None; alignments.len()];
                self.alignments = alignments;
                return Event::Start(Tag::Table(plain));
            }
            Event::Start(Tag::TableHead) => (self.column, self.in_head) = (0, true),
            Event::Start(Tag::TableRow) => self.column = 0,
            Event::End(TagEnd::TableHead) => self.in_head = false,
            Event::Start(Tag::TableCell) => {
                let class = self.alignments.get(self.column).copied().and_then(class_of);
                self.column += 1;
                if let Some(class) = class {
                    let name = if self.in_head { "th" } else { "td" };
                    return Event::InlineHtml(CowStr::from(format!("<{name} class=\"{class}\">")));
                }
            }
            _ => {}
        }
        event
    }
}

fn class_of(alignment: Alignment) -> Option<&'static str> {
    match alignment {
        Alignment::None => None,
        Alignment::Left => Some("to-left"),
        Alignment::Center => Some("to-middle"),
        Alignment::Right => Some("to-right"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::guide::markdown::parser;

    fn html(markdown: &str) -> String {
        let (mut out, mut columns) = (String::new(), Columns::default());
        pulldown_cmark::html::push_html(&mut out, parser(markdown).map(|event| columns.event(event)));
        out.replace('\n', "")
    }

    #[test]
    fn columns_have_classes_and_no_style() {
        assert_eq!(
            html("| a | b | c | d |\n| --- | :-- | :-: | --: |\n| 1 | 2 | 3 | 4 |\n| 5 |\n"),
            "<table><thead><tr><th>a</th><th class=\"to-left\">b</th><th class=\"to-middle\">c</th>\
             <th class=\"to-right\">d</th></tr></thead><tbody><tr><td>1</td><td class=\"to-left\">2</td>\
             <td class=\"to-middle\">3</td><td class=\"to-right\">4</td></tr><tr><td>5</td><td class=\"to-left\"></td>\
             <td class=\"to-middle\"></td><td class=\"to-right\"></td></tr></tbody></table>"
        );
    }

    #[test]
    fn a_table_without_alignment_stays_as_it_is() {
        let table = "| a |\n| --- |\n| 1 |\n";
        let mut plain = String::new();
        pulldown_cmark::html::push_html(&mut plain, parser(table));
        assert_eq!(html(table), plain.replace('\n', ""));
    }
}
