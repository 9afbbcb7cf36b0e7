//! The program: it reads the command line, runs, and sets the exit status.

use std::process::ExitCode;

fn main() -> ExitCode {
    maulstick::cli::run()
}
