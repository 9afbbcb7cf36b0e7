//! stub
use super::*;
use std::io;
use std::path::{Path, PathBuf};
/// stub
#[derive(Debug)]
pub struct Disk {
    root: PathBuf,
}
impl Disk {
    /// stub
    pub fn new(p: impl Into<PathBuf>) -> Self {
        Self { root: p.into() }
    }
}
impl Door for Disk {
    fn list(&self, folder: &str) -> io::Result<Listing> {
        let mut l = Listing::default();
        let base = self.root.join(folder);
        if !base.is_dir() {
            return Err(io::ErrorKind::NotFound.into());
        }
        for e in walkdir::WalkDir::new(&base).sort_by_file_name() {
            let e = e?;
            if e.file_type().is_file() {
                let p = e.path().strip_prefix(&self.root).unwrap().to_str().unwrap().to_owned();
                l.files.push(Entry { path: p, size: 0 });
            }
        }
        l.files.sort();
        Ok(l)
    }
    fn read(&self, path: &str, _: u64) -> io::Result<Vec<u8>> {
        std::fs::read(self.root.join(path))
    }
    fn stage(&self, target: &Path, _: Purpose) -> io::Result<Box<dyn Staging>> {
        let _ = std::fs::remove_dir_all(target);
        Ok(Box::new(S { root: target.into() }))
    }
}
struct S {
    root: PathBuf,
}
impl Staging for S {
    fn write(&self, path: &str, bytes: &[u8]) -> io::Result<()> {
        let p = self.root.join(path);
        std::fs::create_dir_all(p.parent().unwrap())?;
        std::fs::write(p, bytes)
    }
    fn swap(self: Box<Self>) -> io::Result<()> {
        Ok(())
    }
}
