//! Which file of the content folder is what.

/// The folder of a guide that holds its files.
pub(crate) const CONTENT: &str = "content";

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
    /// A text file in a place where nothing looks for it.
    Stray(Stray),
    /// Anything else: a picture, a mesh, a file to link to.
    Other,
}

/// A text file in a place where nothing looks for it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Stray {
    /// Where it may belong, in words.
    pub(crate) hint: &'static str,
    /// The path at which it would be read, where one is near.
    pub(crate) path: Option<String>,
    /// The folder that it is meant to be in, where its own is merely called otherwise.
    pub(crate) folder: Option<&'static str>,
}

/// The folders of the content folder, each with what it is called for one thing.
const FOLDERS: [(&str, &str); 5] =
    [("paints", "paint"), ("schemes", "scheme"), ("sequences", "sequence"), ("armies", "army"), ("pages", "page")];

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
        if name.to_lowercase().starts_with("readme") {
            return Self::Other;
        }
        let Some((right, of_ending)) = right_name(name).or_else(|| right_name_of_step(parts)) else {
            return Self::Other;
        };
        let hint = of_ending.unwrap_or(match parts {
            ["schemes", _] => "a scheme has its own folder: schemes/<name>/scheme.md and one file a step",
            ["schemes", ..] => "put a step straight into its scheme's folder, named like 30-pale-gold.md",
            ["sequences", ..] => "a sequence has its own folder: sequences/<name>/sequence.md and one file a step",
            ["armies", ..] => "an army is in armies/<name>.yaml",
            ["paints", ..] => "a range of paints is in paints/<name>.yaml",
            ["pages", ..] => "a free page is in pages/<name>.md",
            [_] if ends(&right, "md") => "a free page is in pages/<name>.md",
            _ => {
                "the folders are paints, schemes, sequences, armies and pages; beside them are guide.yaml and tools.yaml"
            }
        });
        let own = parts.split_first().filter(|(_, rest)| !rest.is_empty()).map(|(first, _)| *first);
        let is_meant = |(folder, one): &&(&str, &str)| {
            own.is_some_and(|own| own.eq_ignore_ascii_case(folder) || own.eq_ignore_ascii_case(one))
        };
        let known = FOLDERS.iter().find(is_meant).map(|(folder, _)| *folder);
        let path = near_path(parts, known, &right).filter(|path| *path != parts.join("/"));
        Self::Stray(Stray {
            hint,
            path: path.filter(|path| Self::of(path).is_read()),
            folder: known.filter(|known| own != Some(*known)),
        })
    }

    /// Whether the file is read as text.
    pub(crate) fn is_read(&self) -> bool {
        !matches!(self, Self::Misnamed(..) | Self::Stray(_) | Self::Other)
    }

    /// Whether the file is looked into: besides what is read, what may hold paints or tools that the guide misses.
    pub(crate) fn is_opened(&self) -> bool {
        match self {
            Self::Stray(stray) => stray.holds().is_some(),
            _ => self.is_read(),
        }
    }
}

impl Stray {
    /// What it would be where it is meant to be.
    pub(crate) fn meant(&self) -> Part {
        self.path.as_deref().map_or(Part::Other, Part::of)
    }

    /// The key under which it would hold what others name.
    pub(crate) fn holds(&self) -> Option<&'static str> {
        match self.meant() {
            Part::Paints => Some("paints"),
            Part::Tools => Some("tools"),
            _ => None,
        }
    }
}

/// The name of a text file with its right ending, and where it has another one, what to do; none where it is no text file.
fn right_name(name: &str) -> Option<(String, Option<&'static str>)> {
    // Such letters are as long as capitals.
    let lower = name.to_ascii_lowercase();
    // What a text editor or a system adds to a name, where the name is not shown whole.
    let stem = |endings: &[&str]| {
        let stem = endings.iter().find_map(|ending| lower.strip_suffix(ending)).filter(|stem| !stem.is_empty())?;
        name.get(..stem.len())
    };
    if ends(name, "yaml") || ends(name, "md") {
        return Some((name.to_owned(), None));
    }
    if let Some(stem) = stem(&[".yaml", ".yml", ".yml.txt", ".yaml.txt"]) {
        return Some((format!("{stem}.yaml"), Some("end its name with '.yaml'")));
    }
    let stem = stem(&[".md", ".markdown", ".md.txt", ".markdown.txt"])?;
    Some((format!("{stem}.md"), Some("end its name with '.md'")))
}

/// The same of a file in the folder of a scheme or a sequence that begins like a step, with the ending of plain text or
/// with none: what a rename or a text editor left behind.
fn right_name_of_step(parts: &[&str]) -> Option<(String, Option<&'static str>)> {
    let [folder, _, name] = parts else { return None };
    let (stem, ending) = name.rsplit_once('.').unwrap_or((name, ""));
    let is_text = ["", "txt", "text", "mkd", "mdown", "mdtxt"].iter().any(|one| ending.eq_ignore_ascii_case(one));
    let digits = stem.bytes().take_while(u8::is_ascii_digit).count();
    let named = (1..=LONGEST_NUMBER).contains(&digits)
        && stem.get(digits..).is_some_and(|rest| rest.starts_with(['-', '_', ' ']) && rest.len() > 1);
    let mut of_steps = FOLDERS.iter().filter(|(known, _)| matches!(*known, "schemes" | "sequences"));
    let is_there = of_steps.any(|(known, one)| folder.eq_ignore_ascii_case(known) || folder.eq_ignore_ascii_case(one));
    (is_text && named && is_there).then(|| (format!("{stem}.md"), Some("end its name with '.md'")))
}

/// The most digits of a number that a step's name begins with: what has more is a date or a photograph's number.
const LONGEST_NUMBER: usize = 4;

/// The path that a file is most likely meant to have, by the folder that its own is meant for and by its right name. What
/// stands in no folder that is known may hold paints.
fn near_path(parts: &[&str], known: Option<&str>, right: &str) -> Option<String> {
    let is_yaml = ends(right, "yaml");
    match (known, parts) {
        (Some(folder), [_, inner @ .., _]) if folder != "paints" => {
            Some([folder].iter().chain(inner).chain([&right]).copied().collect::<Vec<_>>().join("/"))
        }
        (None, [_]) if ["guide.yaml", "tools.yaml"].iter().any(|own| right.eq_ignore_ascii_case(own)) => {
            Some(right.to_ascii_lowercase())
        }
        _ => is_yaml.then(|| format!("paints/{right}")),
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
            ("schemes/a/70-matt-varnish.txt", "'.md'"),
            ("sequences/leather/20 light.text", "'.md'"),
            ("schemes/a/70-matt-varnish", "'.md'"),
            ("paints/mere.yaml.txt", "'.yaml'"),
            ("armies/watch.YML", "'.yaml'"),
        ] {
            assert!(matches!(Part::of(stray), Part::Stray(told) if told.hint.contains(hint)), "{stray}");
        }
        for (stray, path, folder) in [
            ("paints/mere.YAML", Some("paints/mere.yaml"), None),
            ("paints/old/mere.yaml", Some("paints/mere.yaml"), None),
            ("paint/mere.yaml", Some("paints/mere.yaml"), Some("paints")),
            ("mere.yaml", Some("paints/mere.yaml"), None),
            ("colours/mere.yml", Some("paints/mere.yaml"), None),
            ("Guide.yaml", Some("guide.yaml"), None),
            ("tools.yml", Some("tools.yaml"), None),
            ("Schemes/a/10-b.md", Some("schemes/a/10-b.md"), Some("schemes")),
            ("army/watch.yaml", Some("armies/watch.yaml"), Some("armies")),
            ("schemes/a/scheme.md.txt", Some("schemes/a/scheme.md"), None),
            ("schemes/a/steps/10-b.md", None, None),
            ("schemes/a/paints.yaml", None, None),
            ("hello.md", None, None),
        ] {
            let Part::Stray(told) = Part::of(stray) else { panic!("{stray}") };
            assert_eq!((told.path.as_deref(), told.folder), (path, folder), "{stray}");
        }
        assert!(matches!(Part::of("schemes/a/Scheme.md"), Part::Misnamed("schemes", slug, "scheme.md") if slug == "a"));
        for other in ["schemes/a/notes.txt", "schemes/a/20261130-list.txt", "pages/10-a.txt", "schemes/a/10-a.jpg"] {
            assert_eq!(Part::of(other), Part::Other, "{other}");
        }
        assert_eq!(Part::of("README.md"), Part::Other);
    }
}
