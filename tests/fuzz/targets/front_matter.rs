//! Bytes as every kind of file that has keys: read, and its names looked up.

use maulstick::{guide, source};

use super::guide::{placed, small};

/// Reads the bytes as each kind of file, alone and between two lines `---`.
///
/// # Panics
/// Where the program breaks a promise.
pub fn run(data: &[u8]) {
    let framed = [b"---\n", data, b"\n---\nText.\n"].concat();
    let door = small()
        .with("content/guide.yaml", data)
        .with("content/paints/more.yaml", data)
        .with("content/tools.yaml", data)
        .with("content/armies/more.yaml", data)
        .with("content/pages/more.md", &framed)
        .with("content/pages/bare.md", data)
        .with("content/schemes/more/scheme.md", &framed)
        .with("content/schemes/warden/20-more.md", &framed);
    let mut source = source::read(&door).expect("a guide in memory can be read");
    placed(source.findings.iter(), &source.files);
    let (_, findings) = guide::resolve(&mut source);
    placed(findings.iter(), &source.files);
}
