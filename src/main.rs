//! The program: it reads the command line, runs, and sets the exit status.

use std::process::ExitCode;

#[cfg(target_os = "linux")]
#[global_allocator]
static MEMORY: mimalloc::MiMalloc = mimalloc::MiMalloc;

fn main() -> ExitCode {
    maulstick::cli::run()
}
