//! Running the real program on guides that tests lay out.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use tempfile::TempDir;

/// A folder with a guide in it, gone when dropped.
pub(crate) struct Bench {
    folder: TempDir,
}

/// What a run of the program said.
pub(crate) struct Run {
    pub(crate) status: i32,
    pub(crate) out: String,
    pub(crate) err: String,
}

impl Bench {
    /// An empty folder.
    pub(crate) fn empty() -> Self {
        Self { folder: tempfile::tempdir().unwrap() }
    }

    /// A copy of the demo guide, but for its meshes: most tests need no pictures of steps, which take their time.
    pub(crate) fn demo() -> Self {
        let bench = Self::demo_drawn();
        for scheme in ["fen-warden", "heron-rider", "lantern-pier", "marsh-levy", "reed-boat"] {
            bench.replace(&format!("content/schemes/{scheme}/scheme.md"), ", mesh: model.obj", "");
        }
        bench
    }

    /// A whole copy of the demo guide.
    pub(crate) fn demo_drawn() -> Self {
        let bench = Self::empty();
        copy(&demo_folder().join("content"), &bench.path("content"));
        bench
    }

    /// A path in the folder.
    pub(crate) fn path(&self, inside: &str) -> PathBuf {
        self.folder.path().join(inside)
    }

    /// Writes a file, with the folders above it.
    pub(crate) fn write(&self, inside: &str, text: impl AsRef<[u8]>) -> &Self {
        let path = self.path(inside);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, text).unwrap();
        self
    }

    /// Replaces one text in a file; it must be there.
    pub(crate) fn replace(&self, inside: &str, old: &str, new: &str) -> &Self {
        let text = fs::read_to_string(self.path(inside)).unwrap();
        assert!(text.contains(old), "{inside} does not hold {old}");
        self.write(inside, text.replacen(old, new, 1))
    }

    /// The line, from 1, on which a text first stands in a file.
    pub(crate) fn line_of(&self, inside: &str, wanted: &str) -> usize {
        let text = fs::read_to_string(self.path(inside)).unwrap();
        text.lines().position(|line| line.contains(wanted)).unwrap_or_else(|| panic!("{inside} does not hold {wanted}"))
            + 1
    }

    /// Runs the program in the folder.
    pub(crate) fn run(&self, arguments: &[&str]) -> Run {
        let Output { status, stdout, stderr } = self.command(arguments).output().unwrap();
        let text = |bytes: Vec<u8>| String::from_utf8(bytes).unwrap();
        Run { status: status.code().unwrap_or(-1), out: text(stdout), err: text(stderr) }
    }

    /// The program, to be started in the folder.
    pub(crate) fn command(&self, arguments: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_maulstick"));
        command.args(arguments).current_dir(self.folder.path()).env("NO_COLOR", "1");
        command
    }
}

/// The folder of the project, whose demo guide is in `content/`.
pub(crate) fn demo_folder() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

/// Copies a folder.
pub(crate) fn copy(from: &Path, to: &Path) {
    fs::create_dir_all(to).unwrap();
    for entry in fs::read_dir(from).unwrap() {
        let entry = entry.unwrap();
        let target = to.join(entry.file_name());
        if entry.file_type().unwrap().is_dir() {
            copy(&entry.path(), &target);
        } else {
            fs::copy(entry.path(), target).unwrap();
        }
    }
}

/// All files below a folder, by their paths from it with forward slashes.
pub(crate) fn files_below(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let mut files = BTreeMap::new();
    let mut folders = vec![folder.to_owned()];
    while let Some(next) = folders.pop() {
        for entry in fs::read_dir(next).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                folders.push(path);
            } else {
                let inside: Vec<String> =
                    path.strip_prefix(folder).unwrap().iter().map(|part| part.to_string_lossy().into_owned()).collect();
                files.insert(inside.join("/"), fs::read(&path).unwrap());
            }
        }
    }
    files
}

/// A small picture, as PNG.
pub(crate) fn pixel() -> Vec<u8> {
    let mut bytes = std::io::Cursor::new(Vec::new());
    image::RgbImage::from_pixel(8, 8, image::Rgb([90, 120, 60])).write_to(&mut bytes, image::ImageFormat::Png).unwrap();
    bytes.into_inner()
}
