//! Connections to the live view: how many there may be at the same time, and how long one may take to ask. Another
//! program on this machine could open thousands and say nothing.

use std::io;
use std::sync::Arc;
use std::time::Duration;

use axum::Router;
use hyper::server::conn::http1;
use hyper_util::rt::{TokioIo, TokioTimer};
use hyper_util::service::TowerToHyperService;
use tokio::net::TcpListener;
use tokio::sync::Semaphore;

/// The most connections at the same time; a browser opens six.
const MOST: usize = 128;

/// How long the head of a question may take, and a connection may wait for the next one.
const PATIENCE: Duration = Duration::from_secs(10);

/// How long to wait where the system gives out no more connections.
const PAUSE: Duration = Duration::from_millis(100);

/// Answers whoever comes, for ever.
pub(super) async fn receive(listener: TcpListener, router: Router) -> io::Result<()> {
    let places = Arc::new(Semaphore::new(MOST));
    loop {
        let place = Arc::clone(&places).acquire_owned().await.map_err(io::Error::other)?;
        // One who left before being let in is no trouble; a system out of handles gets some back.
        let Ok((stream, _)) = listener.accept().await else {
            tokio::time::sleep(PAUSE).await;
            continue;
        };
        let service = TowerToHyperService::new(router.clone());
        tokio::spawn(async move {
            let mut rules = http1::Builder::new();
            rules.timer(TokioTimer::new()).header_read_timeout(PATIENCE);
            // Who breaks off hears no more.
            let _ = rules.serve_connection(TokioIo::new(stream), service).await;
            drop(place);
        });
    }
}
