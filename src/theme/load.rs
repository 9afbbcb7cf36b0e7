//! Loading a theme: the built-in files, and over them the guide's own.

use std::collections::BTreeMap;
use std::io;
use std::path::Path;
use std::sync::Arc;

use super::words::placeholders;
use super::{Letters, Template, Theme, Words, built_in, checks, hiding, slim};
use crate::door::Door;
use crate::guide::Guide;
use crate::report::{FileId, Files, Finding, Place, Placed, wording};

/// The largest file of a theme, in bytes; a font has some hundred thousand.
const LARGEST: u64 = 8_000_000;

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
}

impl Key {
    /// Whether the same key stands for the same bytes.
    fn is_sure(&self) -> bool {
        self.own.iter().flatten().all(|(_, stamp)| stamp.is_some())
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
        match (door.read(own, LARGEST), meant) {
            (Ok(_), Some(meant)) => {
                let why = format!("the built-in file is called {}, and capitals count", wording::quoted(meant));
                findings.push(refused(own, &why, files));
            }
            (Ok(bytes), None) => drop(all.insert(path, ThemeFile { bytes, own: Some(own.clone()) })),
            (Err(error), _) => findings.push(refused(own, &error.to_string(), files)),
        }
    }
    if key.own.is_none() && guide.theme != built_in::NAME {
        findings.push(missing_theme(&guide.theme, guide.theme_place));
    }
    findings.extend(hidden_cautions(&all, files));
    let theme = Theme {
        templates: templates(&all, files),
        words: words(&all, guide, files, &mut findings),
        letters: letters(&all),
        assets: assets(all),
    };
    (theme, findings)
}

/// Sheets were in another folder before; a theme that was made then still shows them.
fn current_name(path: &str) -> String {
    path.strip_prefix("templates/").map_or_else(|| path.to_owned(), |name| format!("sheets/{name}"))
}

/// The finding for a file that is left out.
fn refused(path: &str, why: &str, files: &mut Files) -> Finding {
    let place = Place::top_of(files.add(path, ""));
    let mend = "put an ordinary file in its place, of a name in small letters and at most 8 MB";
    Finding::new(&checks::THEME_FILE, place, format!("this file of the theme is not used: {why}"), mend)
}

/// What the guide's own styles hide.
fn hidden_cautions(all: &BTreeMap<String, ThemeFile>, files: &mut Files) -> Vec<Finding> {
    let styles = all.iter().filter(|(path, _)| path.to_lowercase().ends_with(".css"));
    let own = styles.filter_map(|(_, file)| Some((file.own.as_ref()?, String::from_utf8_lossy(&file.bytes))));
    own.flat_map(|(path, css)| hiding::hidden_cautions(&css, files.add(path.clone(), css.to_string()))).collect()
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

/// The letters to print with: the guide's own first, and after them all built-in ones, so that none is ever missed.
fn letters(all: &BTreeMap<String, ThemeFile>) -> Vec<Letters> {
    let named = all.iter().filter(|(path, _)| path.starts_with("print/") && is_font(path));
    let own = named.filter(|(_, file)| file.own.is_some());
    let own = own.map(|(path, file)| Letters { path: path.clone(), bytes: file.bytes.clone().into(), own: true });
    let built_in = built_in::files().into_iter().filter(|(path, _)| path.starts_with("print/") && is_font(path));
    own.chain(built_in.map(|(path, bytes)| Letters { path, bytes: bytes.into(), own: false })).collect()
}

fn is_font(path: &str) -> bool {
    [".ttf", ".otf"].iter().any(|ending| path.ends_with(ending))
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

/// The words of a language: what the file lacks comes from the built-in file of that language, then from English.
fn words(all: &BTreeMap<String, ThemeFile>, guide: &Guide, files: &mut Files, findings: &mut Vec<Finding>) -> Words {
    let built_in_words = |language: &str| {
        let path = format!("words/{language}.yaml");
        let bytes = built_in::files().into_iter().find(|(known, _)| *known == path).map(|(_, bytes)| bytes);
        bytes.and_then(|bytes| std::str::from_utf8(bytes).ok()).map(|text| flat(text, FileId::default()).0)
    };
    let language = guide.language.as_str();
    let mut entries = built_in_words("en").unwrap_or_default();
    let known = entries.clone();
    let path = format!("words/{language}.yaml");
    let Some(file) = all.get(&path) else {
        let message = format!("the theme has no words for the language {}", wording::quoted(language));
        let there: Vec<&str> =
            all.keys().filter_map(|path| path.strip_prefix("words/")?.strip_suffix(".yaml")).collect();
        let mend = format!("write one of {}, or add {path} to the theme", wording::either(&there));
        findings.push(Finding::new(&checks::WORDS_MISSING, guide.language_place, message, mend));
        return Words::new(plain(entries));
    };
    entries.extend(built_in_words(language).unwrap_or_default());
    if let Some(own) = &file.own {
        let text = String::from_utf8_lossy(&file.bytes).into_owned();
        let id = files.add(own.clone(), text.clone());
        let (own_entries, problems) = flat(&text, id);
        findings.extend(problems);
        findings.extend(own_entries.iter().filter_map(|(key, text)| wrong_words(key, text, &known)));
        entries.extend(own_entries);
    }
    Words::new(plain(entries))
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
