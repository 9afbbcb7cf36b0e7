//! Bytes as the Markdown of a page and of a step, with and without HTML of the author's.

use super::guide::{look, small};

/// Makes the pages.
///
/// # Panics
/// Where the program breaks a promise.
pub fn run(data: &[u8]) {
    let Some((first, text)) = data.split_first() else { return };
    let guide = format!("title: Fen\nauthor: Quill Hollis\nraw-html: {}\n", first % 2 == 1);
    let page = [b"---\ntitle: More\n---\n", text].concat();
    let step = [b"---\ntitle: Base\nstage: basing\nwith: brush\n---\n".as_slice(), text].concat();
    let door = small()
        .with("content/guide.yaml", guide)
        .with("content/pages/more.md", page)
        .with("content/schemes/warden/20-base.md", step);
    look(&door, |path| path == "pages/more.html" || path == "schemes/warden/20-base.html");
}
