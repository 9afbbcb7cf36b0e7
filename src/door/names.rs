//! What a file may be called, so that a guide can be copied to any system and its site served by any host.

use std::io;

use unicode_normalization::UnicodeNormalization;

use super::failure::failure;

/// The longest name in bytes: room below the usual limit of 255 for what a host or a copy adds to it.
const LONGEST: usize = 200;

/// Characters that one system or another does not allow in a name.
const UNPORTABLE: &[char] = &['<', '>', ':', '"', '|', '?', '*', '\\'];

/// Whether a name is what systems and editors leave lying about: hidden files, backups, thumbnail stores.
pub(super) fn is_litter(name: &str) -> bool {
    let store = ["thumbs.db", "ehthumbs.db", "desktop.ini"].contains(&name.to_ascii_lowercase().as_str());
    store || name.starts_with('.') || name.starts_with("~$") || name.ends_with('~')
}

/// Why a file of a guide can't go by this name, if so, in words that follow its path.
pub(super) fn objection(name: &str) -> Option<String> {
    let reason = if name.chars().any(char::is_control) {
        "its name has a control character in it"
    } else if name.contains(UNPORTABLE) {
        r#"its name has one of < > : " | ? * \ in it, which some systems do not allow"#
    } else if name.ends_with(['.', ' ']) {
        "its name ends in a dot or a space, which some systems drop"
    } else if is_device(name) {
        "its name belongs to a device on some systems, whatever its ending"
    } else if name.len() > LONGEST {
        return Some(format!("its name is longer than {LONGEST} bytes"));
    } else {
        return None;
    };
    Some(reason.to_owned())
}

/// Whether some systems keep a name for a device, whatever its ending and its capitals: `con`, `aux.html`, `com1`.
pub fn is_device(name: &str) -> bool {
    let stem = name.split('.').next().unwrap_or(name).trim_end().to_lowercase();
    let numbered = || {
        let mark = stem.strip_prefix("com").or_else(|| stem.strip_prefix("lpt")).unwrap_or_default();
        mark.chars().count() == 1 && mark.contains(['1', '2', '3', '4', '5', '6', '7', '8', '9', '¹', '²', '³'])
    };
    matches!(stem.as_str(), "con" | "prn" | "aux" | "nul") || numbered()
}

/// A path as a system sees it for which neither case nor the Unicode form of a letter counts.
pub(super) fn folded(path: &str) -> String {
    if path.is_ascii() { path.to_ascii_lowercase() } else { path.nfc().flat_map(char::to_lowercase).nfc().collect() }
}

/// A path as a message shows it: a control character would upset the terminal.
pub(super) fn shown(path: &str) -> String {
    path.replace(char::is_control, "\u{fffd}")
}

/// Checks that a path stays in its folder: relative, forward slashes, no empty part, no `.` or `..`.
///
/// Control characters are refused too: a manifest has a path a line.
pub(super) fn check_path(path: &str) -> io::Result<()> {
    let reason = if path.contains('\\') {
        "has a backslash in it"
    } else if path.chars().any(char::is_control) {
        "has a control character in it"
    } else if path.starts_with('/') {
        "does not start in the folder"
    } else if path.split('/').any(|part| matches!(part, "" | "." | "..")) {
        "has an empty part, a '.' or a '..' in it"
    } else {
        return Ok(());
    };
    Err(failure(io::ErrorKind::InvalidInput, format!("the path '{}' {reason}", shown(path))))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_that_travel_are_let_through() {
        for name in ["warden.jpg", "Größe 2.png", "console.md", "com.txt", "com10.md", "lpt.yaml", "a'b,c&d.md"] {
            assert_eq!(objection(name), None, "{name}");
        }
        assert_eq!(objection(&"a".repeat(LONGEST)), None);
    }

    #[test]
    fn names_that_do_not_travel_are_refused_with_a_reason() {
        let cases = [
            ("a\nb", "control"),
            ("a:b", "do not allow"),
            ("a\\b", "do not allow"),
            ("what?", "do not allow"),
            ("end.", "dot"),
            ("end ", "dot"),
            ("con", "device"),
            ("Nul.md", "device"),
            ("AUX .txt", "device"),
            ("COM1.tar.gz", "device"),
            ("lpt9", "device"),
            ("com²", "device"),
        ];
        for (name, reason) in cases {
            let found = objection(name).unwrap_or_default();
            assert!(found.contains(reason), "{name:?}: {found:?}");
        }
        assert!(objection(&"a".repeat(LONGEST + 1)).unwrap().contains("200"));
        assert!(objection(&"ö".repeat(LONGEST / 2 + 1)).is_some(), "bytes count, not letters");
    }

    #[test]
    fn litter_is_known_by_its_name() {
        for name in [".git", ".DS_Store", "scheme.md~", "~$notes.odt", "Thumbs.db", "Desktop.ini"] {
            assert!(is_litter(name), "{name}");
        }
        for name in ["a~b.md", "thumbs.db.md", "scheme.md"] {
            assert!(!is_litter(name), "{name}");
        }
    }

    #[test]
    fn case_and_unicode_form_do_not_count_when_folded() {
        assert_eq!(folded("Pale/GOLD.md"), folded("pale/gold.md"));
        assert_eq!(folded("\u{c4}rmel"), folded("a\u{308}RMEL"));
        assert_ne!(folded("gold"), folded("gold2"));
    }

    #[test]
    fn a_path_stays_in_its_folder() {
        for path in ["a", "a/b.md", "..a/b..", ".well-known/x"] {
            assert!(check_path(path).is_ok(), "{path}");
        }
        for path in ["", "/a", "a/", "a//b", "..", "a/../b", "./a", "a\\b", "a\nb", "a\0"] {
            let kind = check_path(path).map_err(|error| error.kind());
            assert_eq!(kind, Err(io::ErrorKind::InvalidInput), "{path:?}");
        }
    }
}
