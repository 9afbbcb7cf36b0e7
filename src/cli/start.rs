//! `maulstick start`: a new guide with one small worked scheme.

use std::io;
use std::path::Path;

use include_dir::{Dir, include_dir};

use super::FINE;
use super::arguments::StartArguments;
use super::terminal::{Stream, Trouble, shell_word, shown};
use crate::door::{Disk, Door, Purpose};

/// The files of a first guide.
static FIRST_GUIDE: Dir<'_> = include_dir!("$CARGO_MANIFEST_DIR/src/cli/first_guide");

/// Lays out a new guide.
pub(super) fn run(asked: &StartArguments) -> Result<u8, Trouble> {
    lay_out(&asked.folder).map_err(|error| match error.kind() {
        io::ErrorKind::AlreadyExists | io::ErrorKind::DirectoryNotEmpty => {
            let message = format!("{} is not empty", asked.folder.display());
            Trouble::new(message, "name a folder that does not exist yet; nothing was changed")
        }
        _ => Trouble::with_disk("the guide was not laid out", &error),
    })?;
    let folder = shown(&asked.folder);
    // Put together piece by piece, as each system separates them.
    let inside = |parts: &[&str]| parts.iter().fold(asked.folder.clone(), |path, part| path.join(part));
    let typed = shell_word(&asked.folder);
    Stream::Out.write(&format!(
        "A guide with one small scheme is now in {folder}.\n\
         Look through it:  {}\n\
         Check it:         maulstick check {typed}\n\
         Publish it:       maulstick publish {typed}, then open {}\n\
         What can be said: maulstick explain files, and maulstick explain with any key, stage or check\n",
        shown(&inside(&["content", "schemes", "first-figure"])),
        shown(&inside(&["published", "index.html"]))
    ));
    Ok(FINE)
}

fn lay_out(folder: &Path) -> io::Result<()> {
    let staging = Disk::new(folder).stage(folder, Purpose::Guide)?;
    let mut folders = vec![&FIRST_GUIDE];
    while let Some(dir) = folders.pop() {
        folders.extend(dir.dirs());
        for file in dir.files() {
            let parts: Vec<String> = file.path().iter().map(|part| part.to_string_lossy().into_owned()).collect();
            staging.write(&parts.join("/"), file.contents())?;
        }
    }
    staging.swap()
}
