//! A page as one file with everything inside: style, letters and pictures stand in it, nothing is loaded, and what
//! leads elsewhere leads to the published site or nowhere. It opens from the download folder of a phone.
//!
//! The page is read as browsers read it and written again tag by tag, so that any theme's pages can be taken.

use std::cell::{Cell, RefCell};
use std::collections::BTreeMap;

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use html5ever::tendril::StrTendril;
use html5ever::tokenizer::states::RawKind;
use html5ever::tokenizer::{BufferQueue, StartTag, Tag, Token, TokenSink, TokenSinkResult, Tokenizer, TokenizerOpts};

use super::link;
use super::media::media_type;

/// Nothing may be loaded; style is in the page, letters and pictures in its addresses.
const POLICY: &str = "default-src 'none'; style-src 'unsafe-inline'; font-src data:; img-src data:; base-uri 'none'; \
                      form-action 'none'";

/// Marks a picture that is in the page already.
const AGAIN: &str = "data-again";

/// What a page is taken from.
pub(super) struct Surroundings<'a> {
    /// The path of the page in the published folder.
    pub(super) path: &'a str,
    /// Where the site is published, with a slash at its end, if the guide says so.
    pub(super) site: Option<&'a str>,
    /// The files of the theme by their published paths.
    pub(super) assets: &'a BTreeMap<String, Vec<u8>>,
    /// The address with a picture inside, by its published path.
    pub(super) picture: &'a dyn Fn(&str) -> Option<String>,
}

/// The page with everything inside.
pub(super) fn inlined(html: &str, around: &Surroundings<'_>) -> String {
    let sink = Writer {
        around,
        out: RefCell::default(),
        left_out: Cell::new(None),
        raw: Cell::new(false),
        pictures: RefCell::default(),
    };
    let tokenizer = Tokenizer::new(sink, TokenizerOpts::default());
    let input = BufferQueue::default();
    input.push_back(StrTendril::from(html));
    let _ = tokenizer.feed(&input);
    tokenizer.end();
    tokenizer.sink.out.into_inner()
}

/// Bytes as an address that has them inside.
pub(super) fn data_address(path: &str, bytes: &[u8]) -> String {
    // An address has no spaces.
    let kind = media_type(path).replace(' ', "");
    format!("data:{kind};base64,{}", STANDARD.encode(bytes))
}

struct Writer<'a> {
    around: &'a Surroundings<'a>,
    out: RefCell<String>,
    /// An element that is left out with all that is in it, and how many of its name are open.
    left_out: Cell<Option<(&'static str, usize)>>,
    /// Whether text is written as it is.
    raw: Cell<bool>,
    /// The pictures that are in the page, by their published paths: their number, and whether they are shown again.
    pictures: RefCell<BTreeMap<String, (usize, bool)>>,
}

impl TokenSink for Writer<'_> {
    type Handle = ();

    fn process_token(&self, token: Token, _line: u64) -> TokenSinkResult<()> {
        match token {
            Token::DoctypeToken(_) => self.put("<!DOCTYPE html>"),
            Token::CharacterTokens(text) if self.left_out.get().is_none() => {
                if self.raw.get() {
                    self.put(&text);
                } else {
                    self.put(&escaped(&text));
                }
            }
            Token::TagToken(tag) => return self.tag(tag),
            _ => {}
        }
        TokenSinkResult::Continue
    }
}

impl Writer<'_> {
    fn put(&self, text: &str) {
        self.out.borrow_mut().push_str(text);
    }

    fn tag(&self, tag: Tag) -> TokenSinkResult<()> {
        let name = tag.name.to_string();
        let raw = match name.as_str() {
            "script" => Some(RawKind::ScriptData),
            "style" => Some(RawKind::Rawtext),
            "title" | "textarea" => Some(RawKind::Rcdata),
            _ => None,
        };
        let opens = tag.kind == StartTag;
        self.raw.set(opens && matches!(name.as_str(), "script" | "style"));
        if !self.is_left_out(&name, &tag) {
            self.write(&name, tag);
        }
        match raw.filter(|_| opens) {
            Some(kind) => TokenSinkResult::RawData(kind),
            None => TokenSinkResult::Continue,
        }
    }

    /// Scripts, styles of the page's own, and where nothing is published the ways to other pages, are left out whole.
    fn is_left_out(&self, name: &str, tag: &Tag) -> bool {
        if let Some((open, depth)) = self.left_out.get() {
            if name == open {
                let depth = if tag.kind == StartTag { depth + 1 } else { depth - 1 };
                self.left_out.set((depth > 0).then_some((open, depth)));
            }
            return true;
        }
        let open = match name {
            "script" => "script",
            // The policy of the site stops a style of the page's own; that of one file, which has its style inside, would not.
            "style" => "style",
            "nav" if self.around.site.is_none() => "nav",
            _ => return false,
        };
        if tag.kind == StartTag {
            self.left_out.set(Some((open, 1)));
        }
        true
    }

    fn write(&self, name: &str, tag: Tag) {
        if tag.kind != StartTag {
            if name == "body" {
                self.put(&self.pictures_again());
            }
            return self.put(&format!("</{name}>"));
        }
        let end = if tag.self_closing { "/" } else { "" };
        let mut attributes: Vec<(String, String)> =
            tag.attrs.into_iter().map(|one| (one.name.local.to_string(), one.value.to_string())).collect();
        match name {
            "link" => return self.link(&attributes),
            "meta" => policy(&mut attributes),
            "img" => self.picture(&mut attributes),
            "source" => return,
            "a" => self.anchor(&mut attributes),
            _ => {}
        }
        self.put(&format!("<{name}{}{end}>", written(&attributes)));
    }

    /// A style sheet or the sign of the guide is in the page; an address that names the page stays.
    fn link(&self, attributes: &[(String, String)]) {
        let value = |wanted: &str| attributes.iter().find(|(name, _)| name == wanted).map(|(_, value)| value.as_str());
        let (rel, href) = (value("rel").unwrap_or_default(), value("href").unwrap_or_default());
        let file = link::file(self.around.path, href).and_then(|path| self.around.assets.get_key_value(&path));
        match (rel, file) {
            ("stylesheet", Some((path, bytes))) => {
                self.put(&format!("<style>\n{}</style>", style(path, bytes, self.around.assets)));
            }
            ("icon", Some((path, bytes))) => {
                self.put(&format!("<link rel=\"icon\" href=\"{}\">", data_address(path, bytes)));
            }
            ("canonical", _) => self.put(&format!("<link{}>", written(attributes))),
            _ => {}
        }
    }

    /// A picture has its bytes inside; where there are none, its words remain. Where it is shown again, a rule at the
    /// page's end has its bytes for all these places: a page may show one picture a thousand times.
    fn picture(&self, attributes: &mut Vec<(String, String)>) {
        attributes.retain(|(name, _)| !matches!(name.as_str(), "srcset" | "sizes" | "loading" | "fetchpriority"));
        let Some(at) = attributes.iter().position(|(name, _)| name == "src") else { return };
        let path = attributes.get(at).and_then(|(_, src)| link::file(self.around.path, src)).unwrap_or_default();
        let mut pictures = self.pictures.borrow_mut();
        if let Some((number, again)) = pictures.get_mut(&path) {
            *again = true;
            attributes[at] = (AGAIN.to_owned(), number.to_string());
            return;
        }
        let inside = (self.around.picture)(&path);
        if inside.is_some() {
            let number = pictures.len() + 1;
            pictures.insert(path, (number, false));
        }
        match (inside, attributes.get_mut(at)) {
            (Some(inside), Some((_, src))) => *src = inside,
            _ => drop(attributes.remove(at)),
        }
    }

    /// The rules that show pictures again.
    fn pictures_again(&self) -> String {
        let pictures = self.pictures.borrow();
        let rules: String = pictures
            .iter()
            .filter(|(_, (_, again))| *again)
            .filter_map(|(path, (number, _))| {
                Some(format!("[{AGAIN}=\"{number}\"]{{content:url(\"{}\")}}\n", (self.around.picture)(path)?))
            })
            .collect();
        if rules.is_empty() { rules } else { format!("<style>\n{rules}</style>") }
    }

    /// A link within the page stays, one to the site leads to where that is published, and otherwise it is none.
    fn anchor(&self, attributes: &mut Vec<(String, String)>) {
        let Some(at) = attributes.iter().position(|(name, _)| name == "href") else { return };
        let href = attributes.get(at).map(|(_, href)| href.clone()).unwrap_or_default();
        let leads = if href.starts_with('#') || link::is_elsewhere(&href) { Some(href) } else { self.on_site(&href) };
        match (leads, attributes.get_mut(at)) {
            (Some(leads), Some((_, href))) => *href = leads,
            _ => drop(attributes.remove(at)),
        }
    }

    fn on_site(&self, href: &str) -> Option<String> {
        Some(format!("{}{}", self.around.site?, link::from_top(self.around.path, href)?))
    }
}

/// A style sheet with the files inside that it names.
fn style(path: &str, bytes: &[u8], assets: &BTreeMap<String, Vec<u8>>) -> String {
    let text = String::from_utf8_lossy(bytes);
    let mut pieces = text.split("url(");
    let mut out = pieces.next().unwrap_or_default().to_owned();
    for piece in pieces {
        let (address, rest) = piece.split_once(')').unwrap_or((piece, ""));
        let name = address.trim().trim_matches(['"', '\'']);
        if name.starts_with('#') {
            // What is in the page itself stays there.
            out.extend(["url(", address, ")", rest]);
            continue;
        }
        let file = link::file(path, name).and_then(|path| assets.get_key_value(&path));
        let inside = file.map_or_else(|| "data:,".to_owned(), |(path, bytes)| data_address(path, bytes));
        out.extend(["url(\"", &inside, "\")", rest]);
    }
    // Nothing in a style sheet may end the element that it is in.
    out.replace("</", "<\\/")
}

fn policy(attributes: &mut [(String, String)]) {
    let is_policy = attributes
        .iter()
        .any(|(name, value)| name == "http-equiv" && value.eq_ignore_ascii_case("content-security-policy"));
    for (_, value) in attributes.iter_mut().filter(|(name, _)| is_policy && name == "content") {
        POLICY.clone_into(value);
    }
}

fn written(attributes: &[(String, String)]) -> String {
    let kept = attributes.iter().filter(|(name, _)| name != "style");
    let pairs = kept.map(|(name, value)| match value.as_str() {
        "" => format!(" {name}"),
        value => format!(" {name}=\"{}\"", escaped(value).replace('"', "&quot;")),
    });
    pairs.collect()
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn inside(html: &str, site: Option<&str>) -> String {
        let assets = BTreeMap::from([
            (
                "theme/style/a.css".to_owned(),
                b"b{src:url('../f.woff2')} i{background:url(https://x.example/y)}".to_vec(),
            ),
            ("theme/f.woff2".to_owned(), b"font".to_vec()),
        ]);
        let picture = |path: &str| (path == "schemes/a/p 1.jpg").then(|| "data:image/jpeg;base64,AA".to_owned());
        inlined(html, &Surroundings { path: "schemes/a.html", site, assets: &assets, picture: &picture })
    }

    #[test]
    fn what_a_style_names_in_the_page_itself_stays_there() {
        let assets = BTreeMap::from([("theme/a.svg".to_owned(), b"<svg/>".to_vec())]);
        let shown = style("theme/chart.css", b".x{filter:url(#blur)}.y{background:url('a.svg')}", &assets);
        assert!(shown.contains("url(#blur)") && shown.contains("url(\"data:image/svg+xml"), "{shown}");
        assert_eq!(shown.matches("data:").count(), 1, "{shown}");
    }

    #[test]
    fn style_letters_and_pictures_stand_inside() {
        let page = "<link rel=stylesheet href=\"../theme/style/a.css\"><img src=\"a/p%201.jpg\" srcset=\"a/q.jpg 2x\" alt=\"x\">";
        let expected = "<style>\nb{src:url(\"data:font/woff2;base64,Zm9udA==\")} i{background:url(\"data:,\")}</style>\
            <img src=\"data:image/jpeg;base64,AA\" alt=\"x\">";
        assert_eq!(inside(page, None), expected);
        assert_eq!(inside("<img src=\"https://x.example/a.jpg\" alt=\"gone\">", None), "<img alt=\"gone\">");
    }

    #[test]
    fn a_picture_that_is_shown_a_hundred_times_stands_inside_twice() {
        let page = format!("<body>{}</body>", "<img src=\"a/p%201.jpg\" alt=\"x\">".repeat(100));
        let whole = inside(&page, None);
        assert_eq!(whole.matches("data:image").count(), 2);
        assert_eq!(whole.matches("<img data-again=\"1\" alt=\"x\">").count(), 99);
        assert!(
            whole.ends_with("<style>\n[data-again=\"1\"]{content:url(\"data:image/jpeg;base64,AA\")}\n</style></body>")
        );
    }

    #[test]
    fn links_stay_within_the_page_or_lead_to_the_published_site() {
        let page = "<a href=\"#s\">s</a> <a href=\"../paints/x.html#y\">x</a> <a href=\"https://o.example/\">o</a>";
        let there = "<a href=\"#s\">s</a> <a href=\"https://g.example/paints/x.html#y\">x</a> \
            <a href=\"https://o.example/\">o</a>";
        assert_eq!(inside(page, Some("https://g.example/")), there);
        let nowhere = "<a href=\"#s\">s</a> <a>x</a> <a href=\"https://o.example/\">o</a>";
        assert_eq!(inside(page, None), nowhere);
    }

    #[test]
    fn what_leads_to_the_root_of_a_host_is_no_link_to_the_site() {
        let page = "<a href=\"/x.html\">x</a><img src=\"/schemes/a/p%201.jpg\" alt=\"gone\">";
        assert_eq!(inside(page, Some("https://g.example/fen/")), "<a>x</a><img alt=\"gone\">");
    }

    #[test]
    fn nothing_runs_and_nothing_is_hidden() {
        let page = "<p style=\"display:none\">1 &lt; 2 &amp; 3</p><script>let a = \"<p>\";</script><style>p{color:red}</style>\
            <nav><nav>in</nav></nav><p>x</p><!-- c -->";
        assert_eq!(inside(page, None), "<p>1 &lt; 2 &amp; 3</p><p>x</p>");
    }

    #[test]
    fn the_policy_allows_nothing_from_outside() {
        let page = "<meta http-equiv=\"Content-Security-Policy\" content=\"img-src *\">";
        assert!(inside(page, None).contains("img-src data:;") && !inside(page, None).contains('*'));
    }
}
