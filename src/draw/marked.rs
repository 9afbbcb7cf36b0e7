//! Source text in the making as HTML: escaped, its parts in elements with classes.

use crate::report::wording;

/// Marked text; neighbours of the same class share one element.
#[derive(Default)]
pub(super) struct Marked {
    html: String,
    open: Option<&'static str>,
}

impl Marked {
    /// Adds a piece of the source.
    pub(super) fn put(&mut self, text: &str, class: Option<&'static str>) {
        if text.is_empty() {
            return;
        }
        if self.open != class {
            self.close();
            if let Some(class) = class {
                self.html.push_str("<span class=\"");
                self.html.push_str(class);
                self.html.push_str("\">");
            }
            self.open = class;
        }
        self.html.push_str(&escaped(text));
    }

    fn close(&mut self) {
        if self.open.take().is_some() {
            self.html.push_str("</span>");
        }
    }

    /// The whole as HTML.
    pub(super) fn finish(mut self) -> String {
        self.close();
        self.html
    }
}

/// A text with nothing in it that HTML would take for its own, nor what is hidden.
pub(super) fn escaped(text: &str) -> String {
    wording::shown(text).replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}
