//! **Easel**: the live view. It watches a guide, works again on what changed, and tells the open pages.
//!
//! A thin loop over what publishes: a [`Session`](crate::story::Session) checks the guide, a
//! [`Proof`](crate::story::Proof) makes the files that are asked for, and the [watch](crate::door::Watch) says when to look again. No page is
//! made before somebody opens it, and none is kept, so none can be stale.
//!
//! - `follow`: watch, look again, tell,
//! - `state`: what is shown at this moment,
//! - `serve`: answers to a browser, on this machine alone,
//! - `visitors`: how many are answered at a time, and how long one may take to ask,
//! - `guard`: which requests are answered at all,
//! - `dress`: what the live view adds to a page that it shows,
//! - `live.js`: takes a new page into the open one; `bar.css`: the bar with the findings.

mod dress;
mod follow;
mod guard;
mod serve;
mod state;
mod visitors;
mod word;

use std::io;
use std::net::{Ipv4Addr, SocketAddr, TcpListener};
use std::path::PathBuf;

pub(crate) use word::Word;

/// What is to be shown, and where.
#[derive(Debug, Clone)]
pub(crate) struct Options {
    /// The folder of the guide.
    pub guide: PathBuf,
    /// The port that is asked for; 0 for any that is free.
    pub port: u16,
}

/// How many ports are tried, from the one that is asked for.
const PORTS: u16 = 50;

/// Shows a guide until the program is interrupted.
///
/// # Errors
/// When the guide can't be read at first, can't be watched, or no port is free.
pub(crate) fn run(options: &Options, tell: impl Fn(Word<'_>) + Send + Sync + 'static) -> io::Result<()> {
    let (listener, taken) = listen(options.port)?;
    let address = listener.local_addr()?;
    let easel = follow::begin(&options.guide)?;
    tell(Word::Stands { address: &format!("http://{address}/"), taken });
    tell(Word::Changed(&easel.shown().proof));
    let shown = easel.follow(tell);
    serve::until_interrupted(listener, address, options.guide.clone(), shown)
}

/// The first free port from the one that is asked for, on this machine's own address; and that port if it was taken.
fn listen(asked: u16) -> io::Result<(TcpListener, Option<u16>)> {
    let mut last = None;
    for port in (asked..=asked.saturating_add(PORTS)).take(if asked == 0 { 1 } else { usize::from(PORTS) }) {
        match TcpListener::bind(SocketAddr::from((Ipv4Addr::LOCALHOST, port))) {
            Ok(listener) => return Ok((listener, (port != asked).then_some(asked))),
            Err(error) if error.kind() == io::ErrorKind::AddrInUse => last = Some(error),
            Err(error) => return Err(error),
        }
    }
    Err(last.unwrap_or_else(|| io::ErrorKind::AddrInUse.into()))
}
