//! `maulstick easel`: shows a guide in the browser while it is written.

use std::sync::Mutex;

use super::FINE;
use super::arguments::EaselArguments;
use super::settings::GuideFolder;
use super::terminal::{Stream, Trouble};
use crate::easel::{self, Options, Word};
use crate::report;

/// Shows a guide until it is interrupted; findings go to standard error whenever they change.
pub(super) fn run(asked: &EaselArguments) -> Result<u8, Trouble> {
    let guide = GuideFolder::open(&asked.guide)?;
    let options = Options { guide: guide.path().to_owned(), port: asked.port };
    let open = asked.open;
    let printed = Mutex::new(String::new());
    let tell = move |word: Word<'_>| match word {
        Word::Stands { address, taken } => stands(address, taken, open),
        Word::Changed(proof) => {
            let found = report::text(proof.findings(), proof.files(), Stream::Err.style());
            print_changed(&printed, found);
        }
        Word::Trouble(error) => {
            print_changed(&printed, format!("the guide can't be read: {error}; what was read last is shown\n"));
        }
    };
    easel::run(&options, tell).map_err(|error| Trouble::with_disk("the preview can't start", &error))?;
    Ok(FINE)
}

fn stands(address: &str, taken: Option<u16>, open: bool) {
    if let Some(port) = taken {
        Stream::Out.write(&format!("Port {port} is taken by another program; the next free one is used.\n"));
    }
    Stream::Out.write(&format!("Preview: {address}\nIt updates when you save; Ctrl-C stops it.\n"));
    if open && open::that_detached(address).is_err() {
        Stream::Err.tell("no browser could be opened; open the address yourself\n");
    }
}

/// Prints what was found, if it is something else than the last time.
fn print_changed(printed: &Mutex<String>, text: String) {
    let mut printed = printed.lock().unwrap_or_else(std::sync::PoisonError::into_inner);
    if *printed != text {
        Stream::Err.tell(&text);
        *printed = text;
    }
}
