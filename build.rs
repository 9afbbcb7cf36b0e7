//! One hash over all that the program is made from, so that a site that another program made is told from one that this one
//! would make.

use std::hash::{DefaultHasher, Hash, Hasher};
use std::path::{Path, PathBuf};
use std::{env, fs, io};

/// What decides what the program writes.
const SOURCES: [&str; 4] = ["src", "themes/chart", "Cargo.lock", "Cargo.toml"];

fn main() -> io::Result<()> {
    let mut hasher = DefaultHasher::new();
    for source in SOURCES {
        println!("cargo::rerun-if-changed={source}");
        add(Path::new(source), &mut hasher)?;
    }
    // Two systems need not agree on the last digit of a root.
    env::var("TARGET").unwrap_or_default().hash(&mut hasher);
    println!("cargo::rustc-env=MAULSTICK_SOURCES={:016x}", hasher.finish());
    Ok(())
}

fn add(path: &Path, hasher: &mut impl Hasher) -> io::Result<()> {
    if path.is_dir() {
        let entries = fs::read_dir(path)?.map(|entry| entry.map(|entry| entry.path()));
        let mut inside = entries.collect::<io::Result<Vec<PathBuf>>>()?;
        inside.sort();
        return inside.iter().try_for_each(|path| add(path, hasher));
    }
    path.to_string_lossy().hash(hasher);
    fs::read(path)?.hash(hasher);
    Ok(())
}
