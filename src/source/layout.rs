//! Which file of the content folder is what.

/// What a file of the content folder is, by its path from that folder.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Part {
    /// `guide.yaml`.
    Guide,
    /// `tools.yaml`.
    Tools,
    /// `paints/*.yaml`.
    Paints,
    /// `schemes/<slug>/scheme.md`.
    Scheme(String),
    /// `schemes/<slug>/NN-name.md`: slug and stem.
    Step(String, String),
    /// `sequences/<slug>/sequence.md`.
    Sequence(String),
    /// `sequences/<slug>/NN-name.md`: slug and stem.
    SequenceStep(String, String),
    /// `armies/<slug>.yaml`.
    Army(String),
    /// `pages/<slug>.md`.
    Page(String),
    /// The own file of a scheme or a sequence in other capitals: its folder, its slug, and how it is called.
    Misnamed(&'static str, String, &'static str),
    /// A text file in a place where nothing looks for it; the hint says where it may belong.
    Stray(&'static str),
    /// Anything else: a picture, a mesh, a file to link to.
    Other,
}

impl Part {
    /// What the file at `path` is.
    pub(crate) fn of(path: &str) -> Self {
        let parts: Vec<&str> = path.split('/').collect();
        match parts.as_slice() {
            ["guide.yaml"] => Self::Guide,
            ["tools.yaml"] => Self::Tools,
            ["paints", name] if ends(name, "yaml") => Self::Paints,
            ["schemes", slug, "scheme.md"] => Self::Scheme((*slug).to_owned()),
            ["schemes", slug, name] if name.eq_ignore_ascii_case("scheme.md") => {
                Self::Misnamed("schemes", (*slug).to_owned(), "scheme.md")
            }
            ["schemes", slug, name] if ends(name, "md") => Self::Step((*slug).to_owned(), stem(name)),
            ["sequences", slug, "sequence.md"] => Self::Sequence((*slug).to_owned()),
            ["sequences", slug, name] if name.eq_ignore_ascii_case("sequence.md") => {
                Self::Misnamed("sequences", (*slug).to_owned(), "sequence.md")
            }
            ["sequences", slug, name] if ends(name, "md") => Self::SequenceStep((*slug).to_owned(), stem(name)),
            ["armies", name] if ends(name, "yaml") => Self::Army(stem(name)),
            ["pages", name] if ends(name, "md") => Self::Page(stem(name)),
            [.., name] => Self::stray_or_other(&parts, name),
            [] => Self::Other,
        }
    }

    fn stray_or_other(parts: &[&str], name: &str) -> Self {
        let lower = name.to_lowercase();
        if lower.starts_with("readme") {
            return Self::Other;
        }
        // What a text editor or a system adds to a name, where the name is not shown whole.
        let is_called =
            |endings: &[&str]| endings.iter().any(|ending| lower.ends_with(ending) && lower.len() > ending.len());
        let in_capitals = |ending: &str| ends(&lower, ending) && !ends(name, ending);
        if is_called(&[".yml", ".yml.txt", ".yaml.txt"]) || in_capitals("yaml") {
            return Self::Stray("end its name with '.yaml'");
        }
        if is_called(&[".markdown", ".md.txt", ".markdown.txt"]) || in_capitals("md") {
            return Self::Stray("end its name with '.md'");
        }
        if !ends(&lower, "md") && !ends(&lower, "yaml") {
            return Self::Other;
        }
        Self::Stray(match parts {
            ["schemes", _] => "a scheme has its own folder: schemes/<name>/scheme.md and one file a step",
            ["schemes", ..] => "put a step straight into its scheme's folder, named like 30-pale-gold.md",
            ["sequences", ..] => "a sequence has its own folder: sequences/<name>/sequence.md and one file a step",
            ["armies", ..] => "an army is in armies/<name>.yaml",
            ["paints", ..] => "a range of paints is in paints/<name>.yaml",
            ["pages", ..] => "a free page is in pages/<name>.md",
            [_] if ends(&lower, "md") => "a free page is in pages/<name>.md",
            _ => {
                "the folders are paints, schemes, sequences, armies and pages; beside them are guide.yaml and tools.yaml"
            }
        })
    }

    /// Whether the file is read as text.
    pub(crate) fn is_read(&self) -> bool {
        !matches!(self, Self::Misnamed(..) | Self::Stray(_) | Self::Other)
    }
}

fn ends(name: &str, ending: &str) -> bool {
    name.rsplit_once('.').is_some_and(|(stem, found)| !stem.is_empty() && found == ending)
}

fn stem(name: &str) -> String {
    name.rsplit_once('.').map_or(name, |(stem, _)| stem).to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_file_has_its_part() {
        assert_eq!(Part::of("guide.yaml"), Part::Guide);
        assert_eq!(Part::of("paints/mere.yaml"), Part::Paints);
        assert_eq!(Part::of("schemes/warden/scheme.md"), Part::Scheme("warden".to_owned()));
        assert_eq!(Part::of("schemes/warden/10-wash.md"), Part::Step("warden".to_owned(), "10-wash".to_owned()));
        assert_eq!(Part::of("schemes/warden/photos/a.jpg"), Part::Other);
        for stray in ["tools.yml", "schemes/warden.md", "paint/mere.yaml", "schemes/a/steps/10-a.md", "hello.md"] {
            assert!(matches!(Part::of(stray), Part::Stray(_)), "{stray}");
        }
        for (stray, hint) in [
            ("schemes/a/10-a.md.txt", "'.md'"),
            ("schemes/a/10-a.markdown", "'.md'"),
            ("schemes/a/10-a.MD", "'.md'"),
            ("paints/mere.yaml.txt", "'.yaml'"),
            ("armies/watch.YML", "'.yaml'"),
        ] {
            assert!(matches!(Part::of(stray), Part::Stray(told) if told.contains(hint)), "{stray}");
        }
        assert!(matches!(Part::of("schemes/a/Scheme.md"), Part::Misnamed("schemes", slug, "scheme.md") if slug == "a"));
        assert_eq!(Part::of("schemes/a/notes.txt"), Part::Other);
        assert_eq!(Part::of("README.md"), Part::Other);
    }
}
