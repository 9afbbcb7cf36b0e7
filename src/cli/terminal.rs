//! The only place that prints: text to standard output, findings and trouble to standard error.

use std::io::{self, ErrorKind, IsTerminal, Write};
use std::path::Path;
use std::process::ExitCode;
use std::sync::OnceLock;

use terminal_size::{Width, terminal_size_of};
#[cfg(windows)]
use winapi_util::console::Console;

use super::status::USAGE;
use super::wrap::wrapped;
use crate::door::mend_of;
use crate::guide::Unclear;
use crate::report::{TextStyle, visible};

/// Why a command can't be carried out, and what helps.
#[derive(Debug)]
pub(super) struct Trouble {
    message: String,
    mend: String,
}

impl Trouble {
    /// What is wrong and what helps, both in lower case and without a full stop.
    pub(super) fn new(message: impl Into<String>, mend: &str) -> Self {
        // Names of files and folders are in it, and may have come out of somebody's archive.
        Self { message: visible(&message.into()), mend: visible(mend) }
    }

    /// Trouble with the disk.
    pub(super) fn with_disk(what: &str, error: &io::Error) -> Self {
        if let Some(mend) = mend_of(error) {
            return Self::new(format!("{what}: {error}"), mend);
        }
        let mend = match error.kind() {
            ErrorKind::InvalidInput
            | ErrorKind::InvalidFilename
            | ErrorKind::AlreadyExists
            | ErrorKind::NotADirectory => "name another folder; nothing was changed",
            ErrorKind::NotFound => "name a folder that is there, or make it first; nothing was changed",
            ErrorKind::StorageFull | ErrorKind::QuotaExceeded => "make room on the disk; nothing was changed",
            _ => "see that you may read and write there; nothing was changed",
        };
        Self::new(format!("{what}: {error}"), mend)
    }
}

impl From<Unclear> for Trouble {
    fn from(unclear: Unclear) -> Self {
        Self::new(unclear.message, &unclear.mend)
    }
}

/// Where text goes.
#[derive(Debug, Clone, Copy)]
pub(super) enum Stream {
    /// Standard output.
    Out,
    /// Standard error.
    Err,
}

impl Stream {
    /// Colour follows the terminal and `NO_COLOR` (no-color.org).
    pub(super) fn style(self) -> TextStyle {
        let refused = std::env::var_os("NO_COLOR").is_some_and(|value| !value.is_empty());
        if self.is_terminal() && !refused && takes_colours(self) { TextStyle::Coloured } else { TextStyle::Plain }
    }

    /// How many columns there are to write in: those of the terminal, otherwise as many as a letter has.
    pub(super) fn columns(self) -> usize {
        const LETTER: usize = 76;
        let size = match self {
            Self::Out => terminal_size_of(io::stdout()),
            Self::Err => terminal_size_of(io::stderr()),
        };
        size.map(|(Width(columns), _)| usize::from(columns)).filter(|columns| *columns > 0).unwrap_or(LETTER)
    }

    /// Writes text for somebody to read: on a terminal no line is longer than that is wide. What a pipe or a file gets is as
    /// long as it is.
    pub(super) fn tell(self, text: &str) {
        if self.is_terminal() { self.write(&wrapped(text, self.columns())) } else { self.write(text) }
    }

    fn is_terminal(self) -> bool {
        match self {
            Self::Out => io::stdout().is_terminal(),
            Self::Err => io::stderr().is_terminal(),
        }
    }

    /// Writes text. A reader that has gone away, as `head` does, is no error; that the output can't be written otherwise,
    /// as on a full disk, is kept until the end of the run ([`output_trouble`]).
    pub(super) fn write(self, text: &str) {
        match self {
            Self::Out => {
                let mut out = io::stdout().lock();
                if let Err(error) = out.write_all(text.as_bytes()).and_then(|()| out.flush()) {
                    // The first trouble says what is wrong; those after it follow from it.
                    let _ = OUTPUT_TROUBLE.set(error);
                }
            }
            // Nobody is left to report that to.
            Self::Err => drop(io::stderr().lock().write_all(text.as_bytes())),
        }
    }
}

/// Whether a terminal reads marks for colours; an older one of Windows has to be asked, and may not know them.
#[cfg(windows)]
fn takes_colours(stream: Stream) -> bool {
    let console = match stream {
        Stream::Out => Console::stdout(),
        Stream::Err => Console::stderr(),
    };
    // What a terminal of another system passes on, as over a network, is no console and reads them.
    console.map_or(true, |mut console| console.set_virtual_terminal_processing(true).is_ok())
}

/// Whether a terminal reads marks for colours, which all do here.
#[cfg(not(windows))]
fn takes_colours(_stream: Stream) -> bool {
    true
}

/// What came of a question.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Reply {
    /// The answer was yes.
    Yes,
    /// The answer was anything else.
    No,
    /// Nobody sits there, as in a script or behind a pipe.
    Nobody,
}

/// Asks a question on the terminal.
pub(super) fn ask(question: &str) -> Reply {
    if !io::stdin().is_terminal() || !io::stdout().is_terminal() {
        return Reply::Nobody;
    }
    Stream::Out.write(&format!("{question} [y/N] "));
    let mut answer = String::new();
    let read = io::stdin().read_line(&mut answer);
    let agreed = read.is_ok() && matches!(answer.trim().to_lowercase().as_str(), "y" | "yes");
    if agreed { Reply::Yes } else { Reply::No }
}

/// Why standard output could not be written, where it could not.
static OUTPUT_TROUBLE: OnceLock<io::Error> = OnceLock::new();

/// What was asked for and can't have reached anybody, if so: a list that is cut off must not look like a whole one.
pub(super) fn output_trouble() -> Option<Trouble> {
    let error = OUTPUT_TROUBLE.get().filter(|error| error.kind() != ErrorKind::BrokenPipe)?;
    let mend = "make room on the disk or write elsewhere, and run it again; what was shown is not whole";
    Some(Trouble::new(format!("the output can't be written: {error}"), mend))
}

/// A path as a terminal may show it.
pub(super) fn shown(path: &Path) -> String {
    visible(&path.display().to_string())
}

/// A path as a shell takes it for one word.
pub(super) fn shell_word(path: &Path) -> String {
    let shown = shown(path);
    let is_plain = |c: char| {
        c.is_alphanumeric()
            || matches!(c, '/' | '.' | '_' | '-' | ':' | '~' | '+' | '@')
            || (c == '\\' && cfg!(windows))
    };
    if !shown.is_empty() && shown.chars().all(is_plain) {
        shown
    } else if shown.contains(['"', '$', '`', '\\', '!']) && cfg!(not(windows)) {
        // Within double quotes the shell would still read these signs as its own.
        format!("'{}'", shown.replace('\'', "'\\''"))
    } else {
        format!("\"{shown}\"")
    }
}

/// Tells why a command can't be carried out.
pub(super) fn complain(trouble: &Trouble) {
    Stream::Err.tell(&format!("maulstick: {}\n  mend: {}\n", trouble.message, trouble.mend));
}

/// Shows what the argument parser has to say. Where something is missing, the guide may be what was left out.
pub(super) fn show_usage(error: &clap::Error, code: u8) -> ExitCode {
    let unprinted = error.print().and_then(|()| io::stdout().flush()).err();
    if let Some(error) = unprinted {
        let _ = OUTPUT_TROUBLE.set(error);
    }
    if let Some(trouble) = output_trouble() {
        complain(&trouble);
        return ExitCode::from(USAGE);
    }
    if error.kind() == clap::error::ErrorKind::MissingRequiredArgument && error.to_string().contains("<GUIDE>") {
        Stream::Err.tell(&format!("  mend: {}\n", mend_of_missing(&error.to_string())));
    }
    ExitCode::from(code)
}

/// What is to be written where an argument is missing: mostly the guide was left out; where the first word is a folder, it
/// is there, and something behind it is missing.
fn mend_of_missing(said: &str) -> &'static str {
    let is_there = std::env::args_os().nth(2).is_some_and(|first| Path::new(&first).is_dir());
    let missing = |argument: &str| is_there && said.lines().any(|line| line.trim() == argument);
    if missing("<SCHEME>") {
        "name the scheme behind the guide's folder, as its own folder below content/schemes is called"
    } else if missing("<STEP>") {
        "name the step last, by its number or as its file is called"
    } else if missing("<ARMY>") {
        "name the army behind the guide's folder, as its file in content/armies is called"
    } else if missing("<PAINT>") {
        "name the paint behind the guide's folder, by its id or its name"
    } else {
        "GUIDE, the guide's folder, comes first: write '.' for the folder you are in"
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_path_is_one_word_of_a_shell() {
        for (path, word) in [("my-guide", "my-guide"), ("a b", "\"a b\""), ("../Ä", "../Ä"), ("x;y", "\"x;y\"")] {
            assert_eq!(shell_word(Path::new(path)), word);
        }
    }

    #[cfg(not(windows))]
    #[test]
    fn a_path_with_signs_of_the_shell_is_one_word_too() {
        for (path, word) in [("x$y", "'x$y'"), ("q 'a $b\"", "'q '\\''a $b\"'"), ("it's", "\"it's\"")] {
            assert_eq!(shell_word(Path::new(path)), word);
        }
    }
}
