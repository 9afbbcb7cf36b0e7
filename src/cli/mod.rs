//! The command line: what can be asked for, and who answers.

mod arguments;
mod card;
mod check;
mod compare;
mod easel;
mod explain;
mod gate;
mod matching;
mod mix;
mod named;
mod plan;
mod progress;
mod publish;
mod schema;
mod settings;
mod shop;
mod sought;
mod start;
mod status;
mod swatch;
mod terminal;
mod threads;
mod wrap;

use std::process::ExitCode;

use clap::{CommandFactory, Parser};

use arguments::{Arguments, Command};
use status::{FINE, FOUND, USAGE};
use terminal::Trouble;

/// All that can be typed, for manual pages and the completions of shells.
pub fn definition() -> clap::Command {
    Arguments::command()
}

/// Reads the command line, does what it says, and gives the exit status.
pub fn run() -> ExitCode {
    let arguments = match Arguments::try_parse() {
        Ok(arguments) => arguments,
        Err(error) => return terminal::show_usage(&error, if error.use_stderr() { USAGE } else { FINE }),
    };
    let outcome = threads::make().and_then(|()| carry_out(arguments.command));
    match outcome.and_then(|code| terminal::output_trouble().map_or(Ok(code), Err)) {
        Ok(code) => ExitCode::from(code),
        Err(trouble) => {
            terminal::complain(&trouble);
            ExitCode::from(USAGE)
        }
    }
}

/// Does what was asked for; the exit status.
fn carry_out(command: Command) -> Result<u8, Trouble> {
    match command {
        Command::Start(asked) => start::run(&asked),
        Command::Check(asked) => check::run(&asked),
        Command::Mix(asked) => mix::run(&asked),
        Command::Publish(asked) => publish::run(&asked),
        Command::Easel(asked) => easel::run(&asked),
        Command::Card(asked) => card::run(&asked),
        Command::Shop(asked) => shop::run(&asked),
        Command::Match(asked) => matching::run(&asked),
        Command::Compare(asked) => compare::run(&asked),
        Command::Swatch(asked) => swatch::run(&asked),
        Command::Plan(asked) => plan::run(&asked),
        Command::Explain(asked) => explain::run(&asked),
        Command::Schema(asked) => Ok(schema::run(asked.of)),
    }
}
