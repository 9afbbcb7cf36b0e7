//! Where the files of a guide are put.

use super::entry::{Entry, Topic};

/// One kind of file of a guide.
struct GuideFile {
    /// The word that asks for it.
    word: &'static str,
    /// Where it is, from the guide's folder.
    path: &'static str,
    /// What is in it, in a few words.
    holds: &'static str,
    /// More about it.
    about: &'static str,
}

const FILES: &[GuideFile] = &[
    of("guide.yaml", "content/guide.yaml", "the title, the author, the language", "What holds for the whole guide."),
    of(
        "tools.yaml",
        "content/tools.yaml",
        "what lies on the desk beside the paints",
        "Each tool has an id, and a step names it under 'tools'.",
    ),
    of(
        "paints",
        "content/paints/NAME.yaml",
        "your paints",
        "Each paint has an id, and a step names it under 'paints'. There may be as many of these files as you like, such as \
         one for each range.",
    ),
    of(
        "schemes",
        "content/schemes/NAME/scheme.md",
        "a scheme: its model and its areas",
        "Each scheme has its own folder; the folder's name is its name on the command line. Below the keys is its \
         introduction. Its variants, if it has any, are in this file; the one of id VARIANT is called NAME-VARIANT on the \
         command line.",
    ),
    of(
        "steps",
        "content/schemes/NAME/10-STEP.md",
        "its steps, one file each",
        "The number at the front is the order of work. Below the keys is the instruction.",
    ),
    of(
        "photos",
        "content/schemes/NAME/photos/",
        "pictures, and meshes of the model",
        "Any folder will do: 'photo', 'before' and 'mesh' give the path from the file that names it.",
    ),
    of(
        "sequences",
        "content/sequences/NAME/sequence.md",
        "steps that several schemes share",
        "A sequence has its own folder. A file among the steps of a scheme uses it with 'sequence: NAME'. That file may \
         have a title of its own, and say which areas are meant, which steps are left out, which paints take the place \
         of others, when they may be left out and for which variants they are: 'maulstick explain sequence'.",
    ),
    of(
        "steps of a sequence",
        "content/sequences/NAME/10-STEP.md",
        "its steps, one file each",
        "They are written like the steps of a scheme, about the areas in sequence.md.",
    ),
    of(
        "armies",
        "content/armies/NAME.yaml",
        "an army: its units, its evenings",
        "The file's name without '.yaml' is the army's name on the command line. A unit names its scheme by the name of \
         that folder, and its variant by the variant's id.",
    ),
    of("pages", "content/pages/NAME.md", "a page of text", "A free page: its title at the top, Markdown below."),
    of(
        "themes",
        "themes/NAME/",
        "your own look, if you want one",
        "Every file in it takes the place of the built-in one of the same name; 'theme: NAME' in guide.yaml chooses it.",
    ),
    of(
        "published",
        "published/",
        "the site",
        "What 'maulstick publish' writes. Change nothing there: it is written again every time.",
    ),
];

const fn of(word: &'static str, path: &'static str, holds: &'static str, about: &'static str) -> GuideFile {
    GuideFile { word, path, holds, about }
}

/// Each kind of file with its explanation.
pub(super) fn entries() -> impl Iterator<Item = Entry> {
    FILES.iter().map(|file| {
        let mut entry = Entry::new(Topic::File, file.word, file.about);
        entry.more.push(("path", file.path.to_owned()));
        entry.more.push(("holds", file.holds.to_owned()));
        entry
    })
}

/// All of them, as they are in a guide's folder.
pub(super) fn tree() -> String {
    let width = FILES.iter().map(|file| file.path.len()).max().unwrap_or_default();
    let lines = FILES.iter().map(|file| format!("  {:width$}  {}\n", file.path, file.holds));
    format!("the files of a guide, from its folder:\n{}", lines.collect::<String>())
}

#[cfg(test)]
mod tests {
    use super::FILES;
    use crate::source::is_read_there;

    #[test]
    fn every_file_is_read_where_it_is_said_to_be() {
        for file in FILES.iter().filter(|file| file.path.ends_with("md") || file.path.ends_with("yaml")) {
            let path = file.path.replace("NAME", "a").replace("STEP", "b");
            assert!(path.strip_prefix("content/").is_some_and(is_read_there), "{path}");
        }
    }
}
