//! The template engine with the words and figures that templates may ask for.

use std::borrow::Cow;
use std::sync::Arc;

use tera::{Context, ErrorKind, Kwargs, State, Tera, TeraResult, Value};

use super::spoken::spoken;
use crate::page::View;
use crate::report::{FileId, Finding, Place, wording};
use crate::theme::{TEMPLATE, Template, Theme, Words};

/// The template that is around every page.
const FRAME: &str = "sheet.html";

/// The templates of a theme, compiled once.
#[derive(Debug)]
pub struct Engine {
    tera: Tera,
    theme: Arc<Theme>,
    guide_file: FileId,
}

impl Engine {
    /// Compiles the templates.
    ///
    /// # Errors
    /// A finding where a template can't be read.
    pub fn new<'t>(theme: &'t Arc<Theme>, guide_file: FileId) -> Result<Self, Box<Finding>> {
        let mut tera = Tera::new();
        let words = Arc::new(theme.words.clone());
        register(&mut tera, &words);
        // A place in a template of the guide's own must stay where its author sees it.
        let text = |name: &str, template: &'t Template| match template.file {
            None => spoken(name, &template.text, &theme.words),
            Some(_) => Cow::Borrowed(template.text.as_str()),
        };
        let texts = theme.templates.iter().map(|(name, template)| (name.as_str(), text(name, template)));
        let texts: Vec<(&str, Cow<'_, str>)> = texts.collect();
        tera.add_raw_templates(texts).map_err(|error| Box::new(template_finding(&error, theme, guide_file)))?;
        Ok(Self { tera, theme: Arc::clone(theme), guide_file })
    }

    /// The theme that the templates are of.
    pub fn theme(&self) -> &Arc<Theme> {
        &self.theme
    }

    /// The file in which a guide's own theme says how a template looks: that template, else the frame around all pages, else
    /// whichever it has; `guide.yaml`, which names the theme, where nothing is the guide's own.
    pub(super) fn file_of(&self, template: &str) -> FileId {
        let own = |name: &str| self.theme.templates.get(name).and_then(|template| template.file);
        let any = || self.theme.templates.values().find_map(|template| template.file);
        own(template).or_else(|| own(FRAME)).or_else(any).unwrap_or(self.guide_file)
    }

    /// Shows a view in the template of a name.
    ///
    /// # Errors
    /// A finding where the template can't show it.
    pub(super) fn render(&self, template: &str, view: &View) -> Result<String, Box<Finding>> {
        let rendered = Context::from_serialize(view).and_then(|context| self.tera.render(template, &context));
        rendered.map_err(|error| Box::new(template_finding(&error, &self.theme, self.guide_file)))
    }
}

/// The finding for a template that can't be read or rendered, at the guide's own file where it is one.
fn template_finding(error: &tera::Error, theme: &Theme, guide_file: FileId) -> Finding {
    let report = match error.kind() {
        ErrorKind::SyntaxError(report) | ErrorKind::RenderingError(report) => Some(report),
        _ => None,
    };
    let template = report.and_then(|report| theme.templates.get(report.filename()));
    let place = match (report, template.and_then(|template| template.file)) {
        (Some(report), Some(file)) => Place::new(file, report.span().range.start, report.span().range.end),
        _ => Place::top_of(guide_file),
    };
    let message = match report {
        Some(report) => {
            format!("the template {} can't be used: {}", wording::quoted(report.filename()), report.message())
        }
        None => format!("the templates can't be used: {error}"),
    };
    Finding::new(&TEMPLATE, place, message, "compare it with the built-in template of the same name")
}

/// What templates may ask for.
///
/// - `say(key="nav.paints")`: words; `say(key="coats", n=3)` chooses one or many by `n`; every other argument
///   fills the placeholder of its name.
/// - `5400 | duration`: a length of time in seconds as words.
/// - `180000 | work`: the same of work, which is never told in days.
/// - `"0.5" | figure`: a number with the language's decimal sign.
/// - `"2027-01-12" | day`: a date in the language's order.
/// - `"a text" | json`: the text in quotes, for a file of data or script.
fn register(tera: &mut Tera, words: &Arc<Words>) {
    let own = Arc::clone(words);
    tera.register_function("say", move |arguments: Kwargs, _: &State| say(&own, &arguments));
    let own = Arc::clone(words);
    tera.register_filter("duration", move |seconds: u64, _: Kwargs, _: &State| own.duration(seconds));
    let own = Arc::clone(words);
    tera.register_filter("work", move |seconds: u64, _: Kwargs, _: &State| own.work(seconds));
    let own = Arc::clone(words);
    tera.register_filter("figure", move |figure: &str, _: Kwargs, _: &State| own.number(figure));
    let own = Arc::clone(words);
    tera.register_filter("day", move |day: &str, _: Kwargs, _: &State| own.day(day));
    tera.register_filter("json", |text: &str, _: Kwargs, _: &State| serde_json::Value::from(text).to_string());
}

fn say(words: &Words, arguments: &Kwargs) -> TeraResult<Value> {
    let key: &str = arguments.must_get("key")?;
    let count: Option<u64> = arguments.get("n")?;
    let found = match count {
        Some(count) => words.get_counted(key, count),
        None => words.get(key),
    };
    let text = found.ok_or_else(|| tera::Error::message(format!("there are no words {key}")))?;
    Ok(Value::from(filled(text, arguments)))
}

/// The words with what stands for their placeholders. Each is filled once: a title in which `{n}` is written stays as it is.
fn filled(words: &str, arguments: &Kwargs) -> String {
    let mut pieces = words.split('{');
    let mut filled = pieces.next().unwrap_or_default().to_owned();
    for piece in pieces {
        let named = piece.split_once('}').filter(|(name, _)| *name != "key");
        let value = named.and_then(|(name, _)| arguments.iter().find(|(known, _)| known.as_str() == Some(name)));
        match (named, value) {
            (Some((_, after)), Some((_, value))) => filled.extend([&value.to_string(), after]),
            _ => filled.extend(["{", piece]),
        }
    }
    filled
}
