//! Writes what lies beside the program in an archive: manual pages, completions for shells, the licences of all that is
//! in the program, and the list of its parts.
//!
//! `papers TARGET FOLDER`: TARGET as rustc names it, since every system has libraries of its own.

mod help;
mod libraries;
mod licences;
mod parts;

use std::fs;
use std::io::{self, Error};
use std::path::Path;

fn main() -> io::Result<()> {
    let mut arguments = std::env::args().skip(1);
    let (Some(target), Some(folder)) = (arguments.next(), arguments.next()) else {
        return Err(Error::other("papers TARGET FOLDER"));
    };
    let folder = Path::new(&folder);
    fs::create_dir_all(folder)?;
    let libraries = libraries::of(&target)?;
    help::write(folder)?;
    fs::write(folder.join("LICENCES-of-libraries.txt"), licences::text(&libraries)?)?;
    fs::write(folder.join("parts.cdx.json"), parts::text(&libraries)?)
}
