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

use crate::door::mendable;

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
    let shown = easel.follow(tell)?;
    serve::until_interrupted(listener, address, options.guide.clone(), shown)
}

/// The first free port from the one that is asked for, on this machine's own address; and that port if it was taken.
fn listen(asked: u16) -> io::Result<(TcpListener, Option<u16>)> {
    let tried = if asked == 0 { asked..=asked } else { asked..=asked.saturating_add(PORTS - 1) };
    for port in tried.clone() {
        match TcpListener::bind(SocketAddr::from((Ipv4Addr::LOCALHOST, port))) {
            Ok(listener) => return Ok((listener, (port != asked).then_some(asked))),
            Err(error) if error.kind() == io::ErrorKind::AddrInUse => {}
            Err(error) => {
                let mend = "name another with --port, from 1024 on, or 0 for any that is free";
                return Err(mendable(error.kind(), format!("port {port} can't be used: {error}"), mend));
            }
        }
    }
    let message = format!("all ports from {} to {} are taken by other programs", tried.start(), tried.end());
    Err(mendable(io::ErrorKind::AddrInUse, message, "name another with --port, or 0 for any that is free"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::door::mend_of;

    #[test]
    fn taken_ports_are_told_with_what_helps() {
        // The last port there is, so that no other is tried.
        let first = listen(u16::MAX);
        let refused = listen(u16::MAX).unwrap_err();
        assert_eq!(refused.kind(), io::ErrorKind::AddrInUse);
        assert!(mend_of(&refused).unwrap().contains("--port"), "{refused}");
        drop(first);
    }
}
