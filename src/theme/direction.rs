//! Which way a language is written.

/// Languages whose usual letters run from right to left (CLDR 48, script metadata and likely subtags).
const FROM_RIGHT: [&str; 23] = [
    "ar", "arc", "azb", "bal", "ckb", "dv", "fa", "glk", "he", "iw", "ks", "lrc", "mzn", "nqo", "pnb", "ps", "sd",
    "sdh", "syr", "ug", "ur", "yi", "rhg",
];

/// Scripts that run from right to left, as a tag names them (`az-arab`).
const SCRIPTS: [&str; 10] = ["adlm", "arab", "aran", "hebr", "mand", "nkoo", "rohg", "samr", "syrc", "thaa"];

/// Whether a language, by its tag, is written from right to left: by the script that the tag names, otherwise by the one
/// that is usual.
pub fn is_from_right(language: &str) -> bool {
    let tag = language.to_ascii_lowercase();
    let mut parts = tag.split(['-', '_']);
    let main = parts.next().unwrap_or_default();
    match parts.find(|part| part.len() == 4 && part.bytes().all(|byte| byte.is_ascii_alphabetic())) {
        Some(script) => SCRIPTS.contains(&script),
        None => FROM_RIGHT.contains(&main),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_script_of_a_tag_decides_and_then_the_language() {
        for tag in ["ar", "he", "fa-ir", "AR-eg", "az-Arab", "ur_PK"] {
            assert!(is_from_right(tag), "{tag}");
        }
        for tag in ["en", "el", "ja", "ru", "ku-latn", "ar-Latn", "", "arn"] {
            assert!(!is_from_right(tag), "{tag}");
        }
    }
}
