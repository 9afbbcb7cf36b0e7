//! Manual pages and completions, made from the definition of the command line.

use std::fs;
use std::io;
use std::path::Path;

use clap_complete::{Shell, generate_to};

/// The shells that come with one of the systems that the program runs on.
const SHELLS: [Shell; 4] = [Shell::Bash, Shell::Zsh, Shell::Fish, Shell::PowerShell];

/// Writes both into folders of their own.
pub(crate) fn write(folder: &Path) -> io::Result<()> {
    let (manual, completions) = (folder.join("man"), folder.join("completions"));
    for made in [&manual, &completions] {
        fs::create_dir_all(made)?;
    }
    let mut command = maulstick::cli::definition().disable_help_subcommand(true);
    for shell in SHELLS {
        generate_to(shell, &mut command, "maulstick", &completions)?;
    }
    clap_mangen::generate_to(command, manual)
}
