//! `maulstick explain`: what a word means.

use super::FINE;
use super::arguments::ExplainArguments;
use super::terminal::{Stream, Trouble};
use crate::explain::{Answer, ask, overview};
use crate::report::visible_line;

/// Prints what a word means, or without one what can be asked for.
pub(super) fn run(asked: &ExplainArguments) -> Result<u8, Trouble> {
    let text = match asked.word.as_deref() {
        None => overview(),
        Some(word) => match ask(word) {
            Answer::Known(text) => text,
            Answer::Unknown(mend) => {
                return Err(Trouble::new(format!("nothing here is called '{}'", visible_line(word, 60)), &mend));
            }
        },
    };
    Stream::Out.tell(&text);
    Ok(FINE)
}
