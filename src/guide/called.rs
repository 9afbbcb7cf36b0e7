//! What somebody who types a name means by it: the name of a folder or file, or a title, however it is capitalised.

use crate::measure::hyphenated;
use crate::report::wording;

/// Whether a name means the thing of that folder or file and that title.
pub fn is_called(name: &str, (slug, title): (&str, &str)) -> bool {
    name == slug || has_title(name, title)
}

/// Whether a name is that title.
pub fn has_title(name: &str, title: &str) -> bool {
    name.trim().to_lowercase() == title.to_lowercase()
}

/// The folder or file of the thing that a misspelt name comes nearest to, by that or else by its title.
pub fn nearest_called<'a>(name: &str, known: &[(&'a str, &'a str)]) -> Option<&'a str> {
    let by_slug = wording::nearest(name, known.iter().map(|(slug, _)| *slug));
    by_slug.or_else(|| {
        let titles: Vec<String> = known.iter().map(|(_, title)| hyphenated(title)).collect();
        let near = wording::nearest(name, titles.iter().map(String::as_str))?;
        titles.iter().zip(known).find(|(title, _)| *title == near).map(|(_, (slug, _))| *slug)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_thing_is_found_by_its_file_or_its_title() {
        let watch = ("fen-watch", "The Fen Watch");
        for (name, means) in
            [("fen-watch", true), ("the fen watch", true), (" The Fen Watch ", true), ("Fen-Watch", false)]
        {
            assert_eq!(is_called(name, watch), means, "{name}");
        }
        let known = [watch, ("levy", "Salt Runners of the Dike")];
        assert_eq!(nearest_called("fen-wach", &known), Some("fen-watch"));
        assert_eq!(nearest_called("Salt Runers of the Dike", &known), Some("levy"));
        assert_eq!(nearest_called("herons", &known), None);
    }
}
