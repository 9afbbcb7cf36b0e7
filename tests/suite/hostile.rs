//! What a hostile or careless file must not do to the guide's readers.

use std::fmt::Write as _;
use std::fs;

use crate::bench::Bench;

/// A first guide in `mine`.
fn first() -> Bench {
    let bench = Bench::empty();
    assert_eq!(bench.run(&["start", "mine"]).status, 0);
    bench
}

fn page(bench: &Bench, body: &str) {
    bench.write("mine/content/pages/about.md", format!("---\ntitle: About\n---\n\n{body}\n"));
}

#[test]
fn files_that_could_run_are_not_handed_on() {
    for name in ["evil.html", "evil.svg", "evil.js", "evil.XHTML"] {
        let bench = first();
        bench.write(&format!("mine/content/pages/{name}"), "<script>alert(1)</script>");
        page(&bench, &format!("[pattern]({name})"));
        let run = bench.run(&["publish", "mine"]);
        assert_eq!(run.status, 1, "{name}");
        assert!(run.err.contains("[unsafe-link]"), "{}", run.err);
    }
    let bench = first();
    bench.write("mine/content/pages/pattern.pdf", "%PDF-1.4");
    page(&bench, "[pattern](pattern.pdf)");
    assert_eq!(bench.run(&["publish", "mine"]).status, 0);
    assert!(bench.path("mine/published/pages/pattern.pdf").is_file());
}

/// A first guide in which HTML inside Markdown passes.
fn raw(body: &str) -> Bench {
    let bench = first();
    bench.replace("mine/content/guide.yaml", "language: en", "language: en\nraw-html: true");
    page(&bench, body);
    bench
}

#[test]
fn html_of_an_author_takes_no_hook_of_the_theme_or_the_scripts() {
    let bench =
        raw("<div class=\"caution\" id=\"content\" style=\"position:fixed\" onclick=\"a()\" data-step=\"1\" hidden>\n\
        <input type=\"file\"><label for=\"x\">a</label>\n<p title=\"kept\" lang=\"de\">Wörter &lt;b&gt;</p>\n</div>\n\n\
        Words <kbd class=\"tick\">K</kbd><script>a()</script> and <!-- nothing --> more.\n\n\
        # Heading\n\n- [x] done\n\n```yaml\na: b\n```\n\n</main></article><p>after</p>\n");
    let run = bench.run(&["publish", "mine"]);
    assert_eq!(run.status, 0, "{}", run.err);
    let html = fs::read_to_string(bench.path("mine/published/pages/about.html")).unwrap();
    let main = &html[html.find("<main").unwrap()..html.find("</main>").unwrap()];
    for gone in [
        "class=\"caution\"",
        "id=\"content\" ",
        "style=",
        "onclick",
        "data-step",
        "hidden",
        "type=\"file\"",
        "tick\"",
        "<script",
        "<!--",
    ] {
        assert!(!main.replacen("<main id=\"content\" ", "", 1).contains(gone), "{gone}: {main}");
    }
    for kept in [
        "<p title=\"kept\" lang=\"de\">Wörter &lt;b&gt;</p>",
        "<kbd>K</kbd>",
        "id=\"heading\"",
        "type=\"checkbox\"",
        "class=\"code\" tabindex",
        "<p>after</p>",
    ] {
        assert!(main.contains(kept), "{kept}: {main}");
    }
    assert_eq!(html.matches("</main>").count(), 1);
}

#[test]
fn links_in_html_are_checked_like_those_in_markdown() {
    for (html, rule, at) in [
        ("<a href=\"javascript:a()\">x</a>", "unsafe-link", "javascript:a()"),
        ("<A HREF='JaVaScRiPt:a()'>x</A>", "unsafe-link", "JaVaScRiPt:a()"),
        ("<a href=\"java&#115;cript:a()\">x</a>", "unsafe-link", "<a href"),
        ("<a href=\"java&Tab;script:a()\">x</a>", "dead-link", "<a href"),
        ("<a href=data:text/html,a>x</a>", "unsafe-link", "data:text/html,a"),
        ("<a href=\" vbscript:a\">x</a>", "unsafe-link", " vbscript:a"),
        ("<a href=\"//evil.example/\">x</a>", "dead-link", "//evil.example/"),
        ("<a href=\"nowhere.md\">x</a>", "dead-link", "nowhere.md"),
        ("<a href=\"#nothing\">x</a>", "dead-anchor", "#nothing"),
        ("<a href=\"https://a@evil.example/\">x</a>", "dead-link", "https://a@"),
        ("<img src=\"https://evil.example/a.png\" alt=\"a\">", "picture-missing", "https://evil"),
        ("<img src=\"data:image/png;base64,AA\" alt=\"a\">", "picture-missing", "data:image"),
        ("![words <a href=\"javascript:b()\">x</a>](a.png)", "unsafe-link", "javascript:b()"),
    ] {
        for body in
            [html.to_owned(), format!("Some words {html} and more."), format!("<div>\n<p>one</p>\n{html}\n</div>")]
        {
            let bench = raw(&body);
            let run = bench.run(&["check", "mine", "--format", "json"]);
            let told: serde_json::Value = serde_json::from_str(&run.out).unwrap();
            let text = fs::read_to_string(bench.path("mine/content/pages/about.md")).unwrap();
            // One that is written with entities is told where its HTML begins.
            let at = text.find(at).filter(|_| !at.starts_with('<') || !body.starts_with("<div>"));
            let at = at.unwrap_or_else(|| text.find("<div>").unwrap());
            let line = text[..at].matches('\n').count() + 1;
            let column = at - text[..at].rfind('\n').unwrap();
            let found = told["findings"].as_array().unwrap().iter().find(|finding| finding["rule"] == rule);
            let found = found.unwrap_or_else(|| panic!("{body} gives no {rule}: {}", run.out));
            assert_eq!((&found["line"], &found["column"]), (&line.into(), &column.into()), "{body}");
        }
    }
}

#[test]
fn links_and_pictures_in_html_lead_where_those_in_markdown_do() {
    let bench = raw(
        "<p>\n<a href=\"../schemes/first-figure/scheme.md\">scheme</a>\n<a title=\"t\" href=\"paint:moss-green\">moss</a></p>\n\n\
        A [first](paint:moss-green), <a href=\"https://a.example/?b&amp;c\">second</a>, ![third <a href=\"paint:dark-wash\">x</a>](p.png) <img src=\"p.png\" alt=\"A &quot;fourth&quot;\" width=\"9999\"> [fifth](paint:dark-wash).\n",
    );
    let mut png = Vec::new();
    let picture = image::RgbImage::from_pixel(40, 30, image::Rgb([128, 96, 64]));
    picture.write_to(&mut std::io::Cursor::new(&mut png), image::ImageFormat::Png).unwrap();
    bench.write("mine/content/pages/p.png", png);
    let run = bench.run(&["publish", "mine"]);
    assert_eq!(run.status, 0, "{}", run.err);
    let html = fs::read_to_string(bench.path("mine/published/pages/about.html")).unwrap();
    for kept in [
        "<a href=\"../schemes/first-figure.html\">scheme</a>",
        "href=\"../paints/moss-green.html\">moss</a>",
        "<a href=\"../paints/moss-green.html\">first</a>",
        "<a href=\"https://a.example/?b&amp;c\">second</a>",
        "alt=\"third x\"",
        "alt=\"A &quot;fourth&quot;\"",
        "width=\"40\"",
        "<a href=\"../paints/dark-wash.html\">fifth</a>",
    ] {
        assert!(html.contains(kept), "{kept}: {}", &html[html.find("<main").unwrap()..]);
    }
    assert!(!html.contains("9999"));
}

#[test]
fn the_address_of_a_guide_is_a_folder_of_the_web() {
    for wrong in
        ["https://a.example/?b", "https://a.example/#b", "https://a@b.example/", "javascript:a()", "//a.example/"]
    {
        let bench = first();
        bench.replace("mine/content/guide.yaml", "language: en", &format!("language: en\naddress: \"{wrong}\""));
        let run = bench.run(&["check", "mine"]);
        assert!(run.status == 1 && run.out.contains("[value-unreadable]"), "{wrong}: {}", run.out);
    }
}

#[test]
fn mail_addresses_are_links() {
    let bench = first();
    page(&bench, "Write to <quill@fen.example>.");
    assert_eq!(bench.run(&["publish", "mine"]).status, 0);
    let html = fs::read_to_string(bench.path("mine/published/pages/about.html")).unwrap();
    assert!(html.contains("href=\"mailto:quill@fen.example\""), "{html}");
}

#[test]
fn characters_that_cannot_be_seen_are_told_and_never_published() {
    let bench = first();
    bench.replace("mine/content/guide.yaml", "title: My painting guide", "title: \"My \\x07 \\u202e guide\"");
    let run = bench.run(&["check", "mine", "--format", "json"]);
    assert!(run.out.contains("value-unreadable"), "{}", run.out);
    assert!(!run.out.contains(['\u{7}', '\u{202e}', '\u{9b}']), "{}", run.out);
    let bench = first();
    page(&bench, "A turn &#x202e; and a bell &#7; here.");
    assert_eq!(bench.run(&["publish", "mine"]).status, 0);
    let html = fs::read_to_string(bench.path("mine/published/pages/about.html")).unwrap();
    assert!(!html.contains(['\u{7}', '\u{202e}']), "{html}");
}

#[test]
fn what_cannot_be_seen_is_shown_as_missing_wherever_a_text_goes() {
    let bench = first();
    bench.replace("mine/content/guide.yaml", "language: en", "language: en\nraw-html: true");
    bench.write("mine/content/photos/p.png", crate::bench::pixel());
    let unseen = "u\u{202e}v\u{2066}w\u{2069}x &#27;&#7;&#x202e;y";
    let text = format!(
        "## {unseen} `{unseen}`\n\n{unseen} `{unseen}` [a](https://fen.example/ \"{unseen}\") \
         ![{unseen} `{unseen}`](/photos/p.png \"{unseen}\") b[^\u{202e}n].\n\n\
         <p title=\"{unseen}\">{unseen}<img src=\"/photos/p.png\" alt=\"{unseen}\"></p>\n\n\
         ```{unseen}\n{unseen}\n```\n\n    {unseen}\n\n[^\u{202e}n]: {unseen}\n"
    );
    page(&bench, &text);
    for file in ["scheme.md", "30-green-coat.md"] {
        let path = format!("mine/content/schemes/first-figure/{file}");
        let whole = fs::read_to_string(bench.path(&path)).unwrap();
        let (front, body) = whole.split_at(whole.rfind("---\n").unwrap() + 4);
        bench.write(&path, format!("{front}\n{unseen} and `{unseen}`.\n\n{text}{body}"));
    }
    bench.replace("mine/content/guide.yaml", "raw-html: true", "raw-html: true\naddress: https://fen.example/");
    for raw in [true, false] {
        if !raw {
            bench.replace("mine/content/guide.yaml", "raw-html: true", "raw-html: false");
        }
        let run = bench.run(&["publish", "mine", "--single"]);
        assert_eq!(run.status, 0, "{}{}", run.out, run.err);
        let mut shown = 0;
        for (path, bytes) in crate::bench::files_below(&bench.path("mine/published")) {
            let Ok(text) = String::from_utf8(bytes) else { continue };
            let found = text
                .find(|c: char| matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' | '\u{1b}' | '\u{7}'));
            assert_eq!(found.map(|at| text[at..].chars().take(40).collect::<String>()), None, "{path}");
            shown += usize::from(text.contains("u\u{fffd}v\u{fffd}w\u{fffd}x"));
        }
        assert!(shown >= 5, "only {shown} files show it");
    }
}

/// Headings that are called like what the program's own pages have.
const TAKEN: &str = "# Content\n\n## Steps\n\n## News\n\n## Versions\n\n## Pots\n\n## Turned left\n\n## Do gloves\n\n## Do\n\n\
    ## Note x\n\n## Note 1\n\n## 30 green coat\n\n## 30 green coat wet\n\n## Step 10 base\n\n## Pot ink\n\n## Armies\n\n\
    ## Sequences\n\n## Brush only\n\n## Timer 1\n\n## Text content\n\nA[^x] b[^x].\n\n[^x]: One.\n\n[^x]: Two.\n\n";

#[test]
fn an_author_s_headings_take_no_name_of_the_program() {
    let bench = first();
    let scheme = "mine/content/schemes/first-figure/scheme.md";
    let own = fs::read_to_string(bench.path(scheme)).unwrap();
    let linked =
        "[a](#content) [b](#30-green-coat) [c](#30-green-coat-wet) [d](30-green-coat.md#wet) [e](scheme.md#steps)\n";
    bench.write(scheme, format!("{own}\n{TAKEN}{linked}"));
    let step = "mine/content/schemes/first-figure/30-green-coat.md";
    let own = fs::read_to_string(bench.path(step)).unwrap();
    bench.write(step, format!("{own}\n{TAKEN}## Wet\n\n[a](#wet) [b](#content) [c](scheme.md#30-green-coat)\n"));
    bench.replace("mine/content/schemes/first-figure/40-brown-leather.md", "---\n\n", "safety: Gloves on.\n---\n\n");
    page(
        &bench,
        &format!(
            "{TAKEN}[a](#content) [b](page:about#content) [c](scheme:first-figure#steps) \
             [d](../schemes/first-figure/scheme.md#30-green-coat-wet) [e](scheme:first-figure#40-brown-leather) \
             [f](../schemes/first-figure/30-green-coat.md#content)"
        ),
    );
    let welcome = TAKEN.replace('\n', "\n  ");
    bench.replace("mine/content/guide.yaml", "language: en", &format!("language: en\nwelcome: |\n  {welcome}"));
    let run = bench.run(&["publish", "mine", "--single"]);
    assert_eq!(run.status, 0, "{}{}", run.out, run.err);
    let site = crate::bench::files_below(&bench.path("mine/published"));
    for (path, page) in crate::site::pages(&site) {
        let mut ids = std::collections::BTreeMap::new();
        for element in crate::site::select(&page, "[id]") {
            let id = element.attr("id").unwrap().to_owned();
            assert!(ids.insert(id, element.value().name()).is_none(), "{} twice on {path}", element.html());
        }
        for element in crate::site::select(&page, "[href^='#']") {
            let found = ids.get(percent_decoded(&element.attr("href").unwrap()[1..]).as_str());
            let is_drawing = element.value().name() == "use";
            assert!(found.is_some_and(|name| (*name == "path") == is_drawing), "{} on {path}", element.html());
        }
    }
    let html = |path: &str| String::from_utf8(site[path].clone()).unwrap();
    for (path, parts) in [
        (
            "schemes/first-figure.html",
            &[
                "<a href=\"#text_content\">a</a> <a href=\"#text_30-green-coat\">b</a> <a href=\"#text_30-green-coat-wet\">c</a> \
                 <a href=\"#30-green-coat-wet\">d</a>",
                "<a href=\"#30-green-coat-wet\">a</a> <a href=\"#30-green-coat-content\">b</a>",
                "<h3 id=\"do-gloves\">",
            ] as &[&str],
        ),
        (
            "schemes/first-figure/30-green-coat.html",
            &["<a href=\"#wet\">a</a> <a href=\"#text_content\">b</a>", "id=\"steps\""],
        ),
        (
            "pages/about.html",
            &[
                "<a href=\"#text_content\">a</a> <a href=\"about.html#text_content\">b</a> \
                 <a href=\"../schemes/first-figure.html#text_steps\">c</a> \
                 <a href=\"../schemes/first-figure.html#text_30-green-coat-wet\">d</a> \
                 <a href=\"../schemes/first-figure.html#40-brown-leather\">e</a> \
                 <a href=\"../schemes/first-figure/30-green-coat.html#text_content\">f</a>",
                "id=\"30-green-coat\"",
            ],
        ),
    ] {
        for part in parts {
            assert!(html(path).contains(part), "{path} lacks {part}: {}", html(path));
        }
    }
}

fn percent_decoded(text: &str) -> String {
    percent_encoding::percent_decode_str(text).decode_utf8().unwrap().into_owned()
}

#[test]
fn thousands_of_equal_headings_are_no_trouble() {
    let bench = first();
    let mut body = String::new();
    for _ in 0..20_000 {
        writeln!(body, "# a\n").unwrap();
    }
    page(&bench, &body);
    assert_eq!(bench.run(&["check", "mine"]).out, "no findings\n");
}

#[test]
fn a_template_that_cannot_be_read_is_told_and_nothing_is_published() {
    let bench = first();
    bench.write("mine/themes/plain/templates/step.html", "{% if %}");
    bench.replace("mine/content/guide.yaml", "language: en", "language: en\ntheme: plain");
    let run = bench.run(&["publish", "mine"]);
    assert!(run.status == 1 && run.err.contains("[template]"), "{}", run.err);
    assert!(!bench.path("mine/published").exists());
}

#[test]
fn a_theme_cannot_lose_a_caution() {
    let built_in = fs::read_to_string(crate::bench::demo_folder().join("themes/chart/sheets/step.html")).unwrap();
    for caution in ["{{ step.to_do | safe }}", "{{ step.cautions | safe }}"] {
        assert!(built_in.contains(caution));
        for instead in ways_to_lose(caution) {
            let bench = first();
            bench.write("mine/themes/plain/sheets/step.html", built_in.replacen(caution, &instead, 1));
            bench.replace("mine/content/guide.yaml", "language: en", "language: en\ntheme: plain");
            let run = bench.run(&["publish", "mine"]);
            assert_eq!(run.status, 1, "{instead}: {}", run.err);
            assert!(run.err.contains("[caution-lost]"), "{}", run.err);
            assert!(!bench.path("mine/published").exists());
        }
    }
}

fn ways_to_lose(caution: &str) -> [String; 9] {
    [
        "",
        "<!-- @ -->",
        "<template>@</template>",
        "#",
        "<div hidden>@</div>",
        "<div class=\"a\" style=\"display:none\"><p>x</p>@</div>",
        "<section inert><br>@</section>",
        "<div aria-hidden=\"true\">@</div>",
        "<dialog>@</dialog>",
    ]
    .map(|way| way.replace('@', caution).replace('#', &caution.replace(" | safe", "")))
}

#[test]
fn names_of_the_programs_own_pages_are_not_taken() {
    let bench = first();
    bench.replace("mine/content/schemes/first-figure/scheme.md", "tags: [brush, first]", "tags: [index, first]");
    assert_eq!(bench.run(&["publish", "mine"]).status, 0);
    bench.replace("mine/content/paints/my-paints.yaml", "paints:\n", "paints:\n  index: {name: Index, kind: paint}\n");
    let run = bench.run(&["check", "mine"]);
    assert!(run.out.contains("[duplicate-id]"), "{}", run.out);
}

#[test]
fn a_theme_cannot_lose_the_policy() {
    let built_in = fs::read_to_string(crate::bench::demo_folder().join("themes/chart/sheets/sheet.html")).unwrap();
    let start = built_in.find("<meta http-equiv").unwrap();
    let line = built_in[start..].lines().next().unwrap();
    for instead in [
        String::new(),
        format!("<!-- {line} -->"),
        line.replace("script-src 'self'", "script-src 'self' 'unsafe-inline'"),
        line.replace("default-src 'none'", "default-src *"),
        format!("<script>a()</script>{line}"),
        format!("<link rel=\"stylesheet\" href=\"https://evil.example/a.css\">{line}"),
    ] {
        let bench = first();
        bench.write("mine/themes/plain/sheets/sheet.html", built_in.replacen(line, &instead, 1));
        bench.replace("mine/content/guide.yaml", "language: en", "language: en\ntheme: plain");
        let run = bench.run(&["publish", "mine"]);
        assert_eq!(run.status, 1, "{instead}: {}", run.err);
        assert!(run.err.contains("[policy-lost]") && run.err.contains("plain/sheets/sheet.html:1:1"), "{}", run.err);
    }
}
