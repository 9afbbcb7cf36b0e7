//! Loading a theme: the built-in files, and over them the guide's own.

use std::collections::{BTreeMap, BTreeSet};
use std::io;
use std::path::Path;
use std::sync::Arc;

use super::words::placeholders;
use super::{Letters, Template, Theme, Words, built_in, checks, letters, slim};
use crate::door::Door;
use crate::guide::Guide;
use crate::report::{FileId, Files, Finding, Place, Placed, wording};

/// The largest file of a theme, in bytes; a font for pages has some hundred thousand.
const LARGEST: u64 = 8_000_000;

/// The largest font for printing, in bytes: one with all Chinese or Japanese letters has some twenty million.
const LARGEST_FONT: u64 = 32_000_000;

/// So many missing words are named.
const MOST_NAMED: usize = 5;

/// One file of a theme.
struct ThemeFile {
    bytes: Vec<u8>,
    own: Option<String>,
}

/// The theme of the last loading, and what it was loaded from.
#[derive(Debug, Default)]
pub struct KeptTheme {
    key: Option<Key>,
    theme: Option<Arc<Theme>>,
    findings: Vec<Finding>,
}

/// All that a theme is loaded from: what the guide asks for, and its own files with their stamps.
#[derive(Debug, PartialEq, Eq)]
struct Key {
    theme: (String, Place),
    language: (String, Place),
    own: Option<Vec<(String, Option<u64>)>>,
    /// What can't be taken in, and why.
    refused: Vec<(String, String)>,
    /// The fonts that the guide names, with their stamps.
    fonts: Vec<(Placed<String>, Option<u64>)>,
    /// The letters of the guide beyond Latin ones.
    used: BTreeSet<char>,
}

impl Key {
    /// Whether the same key stands for the same bytes.
    fn is_sure(&self) -> bool {
        let theme = self.own.iter().flatten().map(|(_, stamp)| stamp);
        theme.chain(self.fonts.iter().map(|(_, stamp)| stamp)).all(Option::is_some)
    }
}

/// Loads the guide's theme, unless it was loaded before and nothing changed since. Files of its own stand over the
/// built-in ones of the same name. A theme that comes out as it was is the same one.
///
/// # Errors
/// When the guide's own theme can't be listed or read.
pub fn load(
    door: &dyn Door,
    guide: &Guide,
    used: &BTreeSet<char>,
    files: &mut Files,
    kept: &mut KeptTheme,
) -> io::Result<(Arc<Theme>, Vec<Finding>)> {
    let folder = format!("themes/{}", guide.theme);
    let listing = match door.list(&folder) {
        Ok(listing) => Some(listing),
        Err(error) if error.kind() == io::ErrorKind::NotFound => None,
        Err(error) => return Err(error),
    };
    let key = Key {
        theme: (guide.theme.clone(), guide.theme_place),
        language: (guide.language.clone(), guide.language_place),
        refused: listing.as_ref().map(|listing| listing.refused.clone()).unwrap_or_default(),
        fonts: guide.fonts.iter().map(|font| (font.clone(), door.stamp(&in_content(font)))).collect(),
        used: used.clone(),
        own: listing
            .map(|own| own.files.into_iter().map(|entry| (entry.path.clone(), door.stamp(&entry.path))).collect()),
    };
    if let Some(theme) = kept.theme.as_ref().filter(|_| key.is_sure() && kept.key.as_ref() == Some(&key)) {
        return Ok((Arc::clone(theme), kept.findings.clone()));
    }
    let (theme, findings) = load_anew(door, guide, files, &folder, &key);
    let theme = kept.theme.take().filter(|known| **known == theme).unwrap_or_else(|| Arc::new(theme));
    *kept = KeptTheme { key: Some(key), theme: Some(Arc::clone(&theme)), findings: findings.clone() };
    Ok((theme, findings))
}

fn load_anew(door: &dyn Door, guide: &Guide, files: &mut Files, folder: &str, key: &Key) -> (Theme, Vec<Finding>) {
    let mut all: BTreeMap<String, ThemeFile> = BTreeMap::new();
    for (path, bytes) in built_in::files() {
        all.insert(path, ThemeFile { bytes: bytes.to_vec(), own: None });
    }
    let built_in: BTreeMap<String, String> = all.keys().map(|path| (path.to_lowercase(), path.clone())).collect();
    let mut findings: Vec<Finding> = key.refused.iter().map(|(path, why)| refused(path, why, files)).collect();
    for (own, _) in key.own.iter().flatten() {
        let path = current_name(own.strip_prefix(&format!("{folder}/")).unwrap_or(own));
        let meant = built_in.get(&path.to_lowercase()).filter(|meant| **meant != path);
        let largest = if letters::is_for_print(&path) { LARGEST_FONT } else { LARGEST };
        match (door.read(own, largest), meant) {
            (Ok(_), Some(meant)) => {
                let why = format!("the built-in file is called {}, and capitals count", wording::quoted(meant));
                findings.push(refused(own, &why, files));
            }
            (Ok(bytes), None) => drop(all.insert(path, ThemeFile { bytes, own: Some(own.clone()) })),
            (Err(error), _) => findings.push(refused(own, &error.to_string(), files)),
        }
    }
    findings.extend(idle(&all, &built_in, files));
    findings.extend(guide.fonts.iter().filter_map(|font| bring(door, font, &mut all)));
    if key.own.is_none() && guide.theme != built_in::NAME {
        findings.push(missing_theme(&guide.theme, guide.theme_place));
    }
    let own: BTreeMap<String, String> =
        all.iter().filter_map(|(path, file)| Some((path.clone(), file.own.clone()?))).collect();
    let mut theme = Theme {
        templates: templates(&all, files),
        words: words(&all, guide, files, &mut findings),
        letters: fonts(&all, guide),
        assets: assets(all),
    };
    let said = theme.words.entries().values().flat_map(|text| text.chars());
    let used: BTreeSet<char> = said.filter(|letter| !letter.is_ascii()).chain(key.used.iter().copied()).collect();
    for (path, size) in letters::dress(&mut theme.assets, &theme.letters, &used) {
        let file = own.get(&path).map_or_else(|| format!("{folder}/{path}"), Clone::clone);
        findings.push(heavy_font(&path, size, files.add(file, "")));
    }
    (theme, findings)
}

/// The findings for sheets, styles and scripts of the guide's own that no page comes to use: they have the name of no built-in
/// file, and no text of the theme names them. A sheet in its folder may be one that others extend; papers, and what lies with
/// fonts, go along with what they are about.
fn idle(all: &BTreeMap<String, ThemeFile>, built_in: &BTreeMap<String, String>, files: &mut Files) -> Vec<Finding> {
    let own = all.iter().filter_map(|(path, file)| Some((path, file.own.as_ref()?)));
    let own = own.filter(|(path, _)| has_ending(path, USED_BY_NAME) && !built_in.contains_key(&path.to_lowercase()));
    let own = own.filter(|(path, _)| !path.starts_with("sheets/") && !is_paper(path) && !lies_with_fonts(path));
    let own: Vec<(&String, &String)> = own.collect();
    if own.is_empty() {
        return Vec::new();
    }
    let is_text = |(path, file): &(&String, &ThemeFile)| !is_paper(path) && std::str::from_utf8(&file.bytes).is_ok();
    let texts: Vec<(&String, &ThemeFile)> = all.iter().filter(is_text).collect();
    let mut findings = Vec::new();
    for (path, written) in own {
        let name = path.rsplit('/').next().unwrap_or(path);
        let stem = name.rsplit_once('.').map_or(name, |(stem, _)| stem);
        // A script may put a name together: the author's own script, as no other knows of this file.
        let names = |(other, file): &(&String, &ThemeFile)| {
            let may_put_together = file.own.is_some() && has_ending(other, SCRIPTS);
            *other != path && (is_named(name, &file.bytes) || may_put_together && is_named(stem, &file.bytes))
        };
        if texts.iter().any(names) {
            continue;
        }
        let same = all.iter().find(|(other, file)| file.own.is_none() && other.rsplit('/').next() == Some(name));
        let mend = match same {
            Some((other, _)) => format!("to take the place of the built-in one, move it to {}", wording::quoted(other)),
            None => "name it in a sheet of the theme, or take it out".to_owned(),
        };
        let message = format!("nothing in the theme asks for {}", wording::quoted(path));
        findings.push(Finding::new(&checks::THEME_IDLE, Place::top_of(files.add(written.as_str(), "")), message, mend));
    }
    findings
}

/// The endings of files that something has to ask for by name.
const USED_BY_NAME: &[&str] = &["html", "css", "js"];

/// The endings of scripts.
const SCRIPTS: &[&str] = &["js", "mjs"];

/// What the names of papers begin with: they are there to be read.
const PAPERS: &[&str] = &["readme", "licen", "copying", "notice", "change"];

/// Folders whose files belong to fonts.
const OF_FONTS: &[&str] = &["font", "fonts", "print"];

fn has_ending(path: &str, endings: &[&str]) -> bool {
    path.rsplit_once('.').is_some_and(|(_, ending)| endings.contains(&ending))
}

/// Whether a file tells of the theme and is no part of it; a style or a script of such a name is one.
fn is_paper(path: &str) -> bool {
    let name = path.rsplit('/').next().unwrap_or(path).to_lowercase();
    let begins = PAPERS.iter().any(|paper| name.starts_with(paper));
    begins && !path.starts_with("sheets/") && !has_ending(path, &["css", "js", "mjs"])
}

fn lies_with_fonts(path: &str) -> bool {
    path.rsplit('/').skip(1).any(|folder| OF_FONTS.contains(&folder))
}

/// Whether a text has a name, and not only a part of a longer one.
fn is_named(name: &str, text: &[u8]) -> bool {
    let is_of_longer = |byte: &u8| byte.is_ascii_alphanumeric() || matches!(byte, b'-' | b'_');
    let begins = |at: usize| !at.checked_sub(1).and_then(|before| text.get(before)).is_some_and(is_of_longer);
    let ends = |at: usize| !text.get(at + name.len()).is_some_and(is_of_longer);
    memchr::memmem::find_iter(text, name).any(|at| begins(at) && ends(at))
}

/// Where a font that the guide names lies.
fn in_content(font: &Placed<String>) -> String {
    format!("content/{}", font.value)
}

/// Puts a font that the guide names among those of the theme; the theme's own of that name stays.
fn bring(door: &dyn Door, font: &Placed<String>, all: &mut BTreeMap<String, ThemeFile>) -> Option<Finding> {
    let own = in_content(font);
    match door.read(&own, LARGEST_FONT) {
        Ok(bytes) => {
            all.entry(letters::of_guide(&font.value)).or_insert(ThemeFile { bytes, own: Some(own) });
            None
        }
        Err(error) => {
            let message = format!("the font {} is not used: {error}", wording::quoted(&font.value));
            Some(Finding::new(&checks::THEME_FILE, font.place, message, "put a font of at most 32 MB there"))
        }
    }
}

/// Sheets were in another folder before; a theme that was made then still shows them.
fn current_name(path: &str) -> String {
    path.strip_prefix("templates/").map_or_else(|| path.to_owned(), |name| format!("sheets/{name}"))
}

/// The finding for a file that is left out.
fn refused(path: &str, why: &str, files: &mut Files) -> Finding {
    let place = Place::top_of(files.add(path, ""));
    // A theme is a folder of this one: what has no more to its path is that, and a link.
    if !path.contains('/') {
        let message = format!("no theme is taken from this folder: {why}");
        return Finding::new(&checks::THEME_FILE, place, message, "put the folder itself in place of the link");
    }
    let mend =
        "put an ordinary file in its place, of a name in small letters and at most 8 MB, a font in print at most 32 MB";
    Finding::new(&checks::THEME_FILE, place, format!("this file of the theme is not used: {why}"), mend)
}

/// The finding for a font that is printed with and not shown on pages.
fn heavy_font(path: &str, size: usize, file: FileId) -> Finding {
    let message = format!(
        "pages do not load this font of {} MB; browsers show its letters in fonts of their own",
        size.div_ceil(1_000_000)
    );
    let mend = format!("put the letters that the guide needs into {} of the theme, for pages", letters::packed(path));
    Finding::new(&checks::FONT_HEAVY, Place::top_of(file), message, mend)
}

fn missing_theme(name: &str, place: Place) -> Finding {
    let message = format!("there is no theme {}", wording::quoted(name));
    let mend = format!("make the folder themes/{name}, or write 'theme: {}'", built_in::NAME);
    Finding::new(&checks::THEME_MISSING, place, message, mend)
}

fn templates(all: &BTreeMap<String, ThemeFile>, files: &mut Files) -> BTreeMap<String, Template> {
    let named = all.iter().filter_map(|(path, file)| path.strip_prefix("sheets/").map(|name| (name, file)));
    named
        .map(|(name, file)| {
            let text = String::from_utf8_lossy(&file.bytes).into_owned();
            let own = file.own.as_ref().map(|path| files.add(path.clone(), text.clone()));
            (name.to_owned(), Template { text, file: own })
        })
        .collect()
}

/// The letters to print with: the theme's own first, then those that the guide names in their order, and after them all
/// built-in ones, so that none is ever missed.
fn fonts(all: &BTreeMap<String, ThemeFile>, guide: &Guide) -> Vec<Letters> {
    let own = all.iter().filter(|(path, file)| letters::is_for_print(path) && file.own.is_some());
    let own = own.map(|(path, file)| Letters::new(path.clone(), file.bytes.clone().into(), true));
    let mut own: Vec<Letters> = own.collect();
    own.sort_by_key(|letters| guide.fonts.iter().position(|font| letters.is_of_guide(&font.value)));
    own.into_iter().chain(letters::built_in_letters()).collect()
}

/// Everything that is neither a template, a file of words nor for printing is published in the folder `theme`.
fn assets(all: BTreeMap<String, ThemeFile>) -> BTreeMap<String, Vec<u8>> {
    let kept = ["sheets/", "words/", "print/"];
    let published = all.into_iter().filter(|(path, _)| !kept.iter().any(|folder| path.starts_with(folder)));
    published.map(|(path, file)| (format!("theme/{path}"), slimmed(&path, file))).collect()
}

/// Whether a file of the built-in theme is a script that was written for it: those of others keep their licences.
pub(super) fn is_our_script(path: &str) -> bool {
    path.strip_prefix("script/").is_some_and(|name| !name.contains('/') && name.split('.').next_back() == Some("js"))
}

fn slimmed(path: &str, ThemeFile { bytes, own }: ThemeFile) -> Vec<u8> {
    match std::str::from_utf8(&bytes) {
        Ok(js) if own.is_none() && is_our_script(path) => slim::script(js).into_bytes(),
        Ok(css) if Path::new(path).extension().is_some_and(|ending| ending.eq_ignore_ascii_case("css")) => {
            slim::slim(css).into_bytes()
        }
        _ => bytes,
    }
}

/// The built-in words of a language.
fn built_in_words(path: &str) -> Option<BTreeMap<String, Placed<String>>> {
    let bytes = built_in::files().into_iter().find(|(known, _)| *known == path).map(|(_, bytes)| bytes);
    bytes.and_then(|bytes| std::str::from_utf8(bytes).ok()).map(|text| flat(text, FileId::default()).0)
}

/// The words of a language: what the guide's own file lacks comes from the built-in file of that language, then from the
/// language without its country, then from English.
fn words(all: &BTreeMap<String, ThemeFile>, guide: &Guide, files: &mut Files, findings: &mut Vec<Finding>) -> Words {
    let language = guide.language.as_str();
    let known = built_in_words("words/en.yaml").unwrap_or_default();
    let mut entries = BTreeMap::new();
    let mut brought = None;
    let main = language.split('-').next().filter(|main| *main != language);
    for path in main.into_iter().chain([language]).map(|name| format!("words/{name}.yaml")) {
        entries.extend(built_in_words(&path).unwrap_or_default());
        if let Some((file, own)) = all.get(&path).and_then(|file| Some((file, file.own.as_ref()?))) {
            let text = String::from_utf8_lossy(&file.bytes).into_owned();
            let id = files.add(own.clone(), text.clone());
            let (own_entries, problems) = flat(&text, id);
            findings.extend(problems);
            findings.extend(own_entries.iter().filter_map(|(key, text)| wrong_words(key, text, &known)));
            entries.extend(own_entries);
            brought = Some(id);
        }
    }
    match brought {
        Some(file) => findings.extend(english_words(&entries, &known, file)),
        None if entries.is_empty() => findings.push(no_words(all, guide)),
        None => {}
    }
    let mut whole = known;
    whole.extend(entries);
    Words::new(plain(whole))
}

/// The finding for a language that has no words at all.
fn no_words(all: &BTreeMap<String, ThemeFile>, guide: &Guide) -> Finding {
    let language = &guide.language;
    let message = format!("the theme has no words for the language {}", wording::quoted(language));
    let there: Vec<&str> = all.keys().filter_map(|path| path.strip_prefix("words/")?.strip_suffix(".yaml")).collect();
    let mend = format!(
        "write one of {}, or add themes/{}/words/{language}.yaml with the keys of {}",
        wording::either(&there),
        guide.theme,
        "the file of another language",
    );
    Finding::new(&checks::WORDS_MISSING, guide.language_place, message, mend)
}

/// The finding for words of a language that are still the English ones.
fn english_words(
    entries: &BTreeMap<String, Placed<String>>,
    known: &BTreeMap<String, Placed<String>>,
    file: FileId,
) -> Option<Finding> {
    let lacking: Vec<&str> = known.keys().filter(|key| !entries.contains_key(*key)).map(String::as_str).collect();
    let first = lacking.iter().take(MOST_NAMED).map(|key| wording::quoted(key)).collect::<Vec<_>>();
    let more = if lacking.len() > first.len() { ", and more" } else { "" };
    let message =
        format!("{} of {} words are missing and stay English: {}{more}", lacking.len(), known.len(), first.join(", "));
    let finding = || Finding::new(&checks::WORDS_ENGLISH, Place::top_of(file), message, "add these keys to the file");
    (!lacking.is_empty()).then(finding)
}

fn plain(entries: BTreeMap<String, Placed<String>>) -> BTreeMap<String, String> {
    entries.into_iter().map(|(key, text)| (key, text.value)).collect()
}

/// A file of words as keys such as `nav.paints`.
fn flat(text: &str, file: FileId) -> (BTreeMap<String, Placed<String>>, Vec<Finding>) {
    match crate::source::flat_texts(text, file) {
        Ok(entries) => (entries, Vec::new()),
        Err(finding) => (BTreeMap::new(), vec![*finding]),
    }
}

/// A key that English does not have, or a placeholder that its English words do not have.
fn wrong_words(key: &str, text: &Placed<String>, known: &BTreeMap<String, Placed<String>>) -> Option<Finding> {
    let Some(english) = known.get(key) else {
        let message = format!("{} is not a key of the interface's words", wording::quoted(key));
        let names: Vec<&str> = known.keys().map(String::as_str).collect();
        return Some(Finding::new(
            &checks::WORDS_KEY,
            text.place,
            message,
            wording::did_you_mean(key, "a key", &names),
        ));
    };
    let allowed = placeholders(english);
    let strange: Vec<&str> = placeholders(text).into_iter().filter(|name| !allowed.contains(name)).collect();
    let first = strange.first()?;
    let message = format!("the words {} know no {{{first}}}", wording::quoted(key));
    let mend = if allowed.is_empty() {
        "take it out".to_owned()
    } else {
        format!("they know {}", wording::listed(allowed.iter().map(|name| format!("{{{name}}}"))))
    };
    Some(Finding::new(&checks::WORDS_KEY, text.place, message, mend))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The paths of those of a theme's own files that nothing asks for, beside a sheet and a script of the program.
    fn idle_of(own: &[(&str, &str)]) -> Vec<String> {
        let file = |text: &str, own: Option<&str>| ThemeFile {
            bytes: text.as_bytes().to_vec(),
            own: own.map(|path| format!("themes/own/{path}")),
        };
        let mut all = BTreeMap::from([
            ("sheets/page.html".to_owned(), file("<script src=\"script/ticks.js\">", None)),
            ("script/ticks.js".to_owned(), file("const parts = 1;", None)),
        ]);
        let built_in = all.keys().map(|path| (path.clone(), path.clone())).collect();
        all.extend(own.iter().map(|(path, text)| ((*path).to_owned(), file(text, Some(path)))));
        let mut files = Files::default();
        let found = idle(&all, &built_in, &mut files);
        let paths = found.iter().map(|finding| files.path(finding.place.file).trim_start_matches("themes/own/"));
        paths.map(ToOwned::to_owned).collect()
    }

    #[test]
    fn a_file_that_nothing_of_the_theme_names_is_idle() {
        for (own, idle) in [
            (&[("script/parts.js", "1")][..], &["script/parts.js"][..]),
            (&[("style/my.css", "a{}"), ("README.md", "my.css")], &["style/my.css"]),
            (&[("style/my.css", "a{}"), ("words/en.yaml", "a: my.css.map, not-my.css")], &[]),
            (&[("style/my.css", "a{}"), ("words/en.yaml", "a: my.cssx, not-my.css")], &["style/my.css"]),
            (&[("style/my.css", "a{}"), ("style/b.css", "/* my */")], &["style/b.css", "style/my.css"]),
            (&[("script/self.js", "self.js")], &["script/self.js"]),
            (&[("style/readme.css", "a{}")], &["style/readme.css"]),
        ] {
            assert_eq!(idle_of(own), idle, "{own:?}");
        }
    }

    #[test]
    fn a_file_that_a_text_of_the_theme_names_is_not() {
        for own in [
            &[("script/a.mjs", "import \"./helper.js\""), ("script/helper.js", "1")][..],
            &[
                ("sheets/x.html", "main.js"),
                ("script/main.js", "const n = \"parts\"; import(`./${n}.js`)"),
                ("script/parts.js", "1"),
            ],
            &[("script/ticks.js", "for (const n of [\"a\"]) add(`style/${n}.css`)"), ("style/a.css", "a{}")],
            &[("mark.svg", "<?xml-stylesheet href=\"mark.css\"?>"), ("mark.css", "a{}")],
            &[("README.html", "a"), ("font/licence.html", "a"), ("fonts/own/about.html", "a"), ("CHANGES.html", "a")],
            &[("sheets/other.html", "a"), ("style/readme.css", "a{}"), ("sheets/page.html", "readme.css")],
        ] {
            assert_eq!(idle_of(own), Vec::<String>::new(), "{own:?}");
        }
    }
}
