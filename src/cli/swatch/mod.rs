//! `maulstick swatch`: from a photographed brush-out card to an entry for a file of paints.

mod asked;

use super::FINE;
use super::arguments::{Plain, SwatchArguments};
use super::settings::read_file;
use super::terminal::{Stream, Trouble};
use crate::brushout::{self, Refusal};
use crate::picture::MOST_BYTES;
use crate::tell::swatch;
use asked::SwatchAsked;

/// Prints the entry on standard output and what was read on standard error; with JSON all of it on standard output.
pub(super) fn run(arguments: &SwatchArguments) -> Result<u8, Trouble> {
    let asked = SwatchAsked::of(arguments)?;
    let bytes = read_file(&arguments.photo, MOST_BYTES, "name a photograph of a brush-out card")?;
    let reading = brushout::read(&bytes, &asked.card).map_err(|refusal| refused(&refusal))?;
    let entry = brushout::entry(asked.label, &reading)
        .ok_or_else(|| Trouble::new("no paint can be read from these patches", "give another --id or --name"))?;
    match arguments.format {
        Plain::Text => {
            Stream::Err.tell(&swatch::report(&reading, &entry));
            Stream::Out.write(&swatch::text(&entry));
        }
        Plain::Json => Stream::Out.write(&swatch::json(&reading, &entry)),
    }
    Ok(FINE)
}

fn refused(refusal: &Refusal) -> Trouble {
    Trouble::new(format!("{}: {}", refusal.what, refusal.why), &refusal.mend)
}
