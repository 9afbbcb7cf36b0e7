//! What the live view says to whoever started it.

use std::io;

use crate::story::Proof;

/// What the easel has to say to whoever started it.
#[derive(Debug)]
pub(crate) enum Word<'a> {
    /// The guide can be looked at at this address; the port that was asked for was taken, if one is named.
    Stands {
        /// The address of the index.
        address: &'a str,
        /// The port that another program has.
        taken: Option<u16>,
    },
    /// The guide has changed, and this is what it is now.
    Changed(&'a Proof),
    /// The guide can't be read at the moment; the last state is still shown.
    Trouble(&'a io::Error),
}
