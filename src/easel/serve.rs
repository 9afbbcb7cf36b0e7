//! Answers to a browser, on this machine alone.

use std::convert::Infallible;
use std::hash::{DefaultHasher, Hasher};
use std::io;
use std::net::{SocketAddr, TcpListener};
use std::path::PathBuf;
use std::sync::Arc;

use axum::Router;
use axum::body::Body;
use axum::extract::{Request, State};
use axum::http::{HeaderMap, Response, StatusCode, Uri, header};
use axum::middleware::{self, Next};
use axum::response::IntoResponse;
use axum::response::sse::{Event, KeepAlive, Sse};
use axum::routing::get;
use tokio_stream::StreamExt;
use tokio_stream::wrappers::WatchStream;

use super::dress::{self, OWN};
use super::guard;
use super::state::{Shown, View};
use super::visitors;
use crate::door::{Disk, mendable};
use crate::press::{Hitch, media_type};
use crate::report::{Finding, Group, Level};

/// What a page may load: the site's own files and nothing else. No worker: it would keep old pages.
const POLICY: &str = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; font-src 'self'; \
     media-src 'self'; connect-src 'self'; manifest-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

/// What every answer is made from.
#[derive(Clone)]
struct Stand {
    shown: Arc<Shown>,
    door: Disk,
}

/// Serves what is shown until the program is interrupted, then ends at once, whoever still listens.
pub(super) fn until_interrupted(
    listener: TcpListener,
    address: SocketAddr,
    guide: PathBuf,
    shown: Arc<Shown>,
) -> io::Result<()> {
    let runtime = tokio::runtime::Builder::new_multi_thread()
        .worker_threads(2)
        .enable_all()
        .build()
        .map_err(|error| no_desk(&error))?;
    let stand = Stand { shown, door: Disk::new(guide) };
    let router = Router::new()
        .route(&format!("/{OWN}live.js"), get(|| async { own("text/javascript; charset=utf-8", dress::SCRIPT) }))
        .route(&format!("/{OWN}bar.css"), get(|| async { own("text/css; charset=utf-8", dress::STYLE) }))
        .route(&format!("/{OWN}news"), get(news))
        .fallback(file)
        .with_state(stand)
        .layer(middleware::from_fn(move |request: Request, next: Next| guarded(address, request, next)));
    let outcome = runtime.block_on(async {
        listener.set_nonblocking(true)?;
        let listener = tokio::net::TcpListener::from_std(listener)?;
        tokio::select! {
            served = visitors::receive(listener, router) => served,
            interrupted = tokio::signal::ctrl_c() => interrupted,
        }
    });
    runtime.shutdown_background();
    outcome
}

/// The error where the system gives nothing to answer with.
fn no_desk(error: &io::Error) -> io::Error {
    let mend = "end other programs, or let one have more files open (ulimit -n), and run it again";
    mendable(error.kind(), format!("no browser can be answered: {error}"), mend)
}

/// Refuses what must not be answered, and says on every answer what a browser may do with it.
async fn guarded(address: SocketAddr, request: Request, next: Next) -> Response<Body> {
    let mut answer = match guard::objection(address, request.method(), request.headers()) {
        Some(refusal) => refusal.into_response(),
        None => next.run(request).await,
    };
    let rules = [
        (header::CONTENT_SECURITY_POLICY, POLICY),
        (header::X_CONTENT_TYPE_OPTIONS, "nosniff"),
        (header::REFERRER_POLICY, "no-referrer"),
        (header::CACHE_CONTROL, "no-cache"),
        (header::HeaderName::from_static("cross-origin-resource-policy"), "same-origin"),
    ];
    for (name, rule) in rules {
        answer.headers_mut().insert(name, header::HeaderValue::from_static(rule));
    }
    if answer.status() == StatusCode::METHOD_NOT_ALLOWED {
        answer.headers_mut().insert(header::ALLOW, header::HeaderValue::from_static(guard::ALLOW));
    }
    answer
}

fn own(kind: &'static str, text: &'static str) -> impl IntoResponse {
    ([(header::CONTENT_TYPE, kind)], text)
}

/// What changed and what was found, now and whenever it changes.
async fn news(State(stand): State<Stand>) -> impl IntoResponse {
    let told = WatchStream::new(stand.shown.listen());
    let events = told.map(|message| Ok::<Event, Infallible>(Event::default().data(&*message)));
    Sse::new(events).keep_alive(KeepAlive::default())
}

/// One file of the site, made now. The work is done beside the threads that talk to browsers.
async fn file(State(stand): State<Stand>, uri: Uri, headers: HeaderMap) -> Response<Body> {
    let Some(path) = guard::path(uri.path()) else {
        return (StatusCode::BAD_REQUEST, "this is no path in a site\n").into_response();
    };
    let known = headers.get(header::IF_NONE_MATCH).cloned();
    let made = tokio::task::spawn_blocking(move || answer(&stand.shown.view(), &stand.door, &path)).await;
    let answer =
        made.unwrap_or_else(|_| (StatusCode::INTERNAL_SERVER_ERROR, "this file can't be made\n").into_response());
    if known.is_some() && answer.headers().get(header::ETAG) == known.as_ref() {
        return StatusCode::NOT_MODIFIED.into_response();
    }
    answer
}

fn answer(view: &View, door: &Disk, path: &str) -> Response<Body> {
    match view.proof.file(door, path) {
        Ok(Some(bytes)) if is_page(path) => page(StatusCode::OK, &String::from_utf8_lossy(&bytes), view),
        Ok(Some(bytes)) => tagged(StatusCode::OK, media_type(path), bytes.into_owned()),
        Ok(None) => match in_the_way(view, path) {
            Some(finding) => instead(finding, view),
            None => nowhere(view),
        },
        Err(Hitch::Told(finding)) => instead(&finding, view),
        Err(Hitch::Disk(error)) => {
            (StatusCode::INTERNAL_SERVER_ERROR, format!("{path} can't be read: {error}\n")).into_response()
        }
    }
}

fn page(status: StatusCode, html: &str, view: &View) -> Response<Body> {
    tagged(status, "text/html; charset=utf-8", dress::dressed(html, view.revision).into_bytes())
}

/// The page that says what keeps a page from being shown.
fn instead(finding: &Finding, view: &View) -> Response<Body> {
    page(StatusCode::INTERNAL_SERVER_ERROR, &dress::instead(finding, view.proof.files()), view)
}

/// The error for which there is no page at an address: a file is there that the page would be made from, and can't be read
/// now, as when it is half saved.
fn in_the_way<'a>(view: &'a View, path: &str) -> Option<&'a Finding> {
    view.proof.findings().iter().find(|finding| {
        let of_files = finding.level() == Level::Error && finding.check.group == Group::Files;
        of_files && is_made_from(path, view.proof.files().path(finding.place.file))
    })
}

/// Whether the page at an address of the site is made from a file of the guide.
fn is_made_from(page: &str, file: &str) -> bool {
    // A file whose name is merely in other letters stands in the way as well.
    let (page, file) = (page.to_lowercase(), file.to_lowercase());
    let Some(path) = file.strip_prefix("content/") else { return false };
    let own = path.rsplit_once('.').map_or(path, |(stem, _)| stem);
    // The own file of a scheme or a sequence stands for its folder.
    let base = match own.rsplit_once('/') {
        Some((folder, "scheme" | "sequence")) => folder,
        _ => own,
    };
    page.strip_prefix(base).is_some_and(|rest| rest == ".html" || rest.starts_with('/'))
}

/// The page for an address that leads nowhere. It may do so only now, so it listens for news too.
fn nowhere(view: &View) -> Response<Body> {
    let html = "<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\"><title>Nothing is here</title></head>\
                <body class=\"easel-instead\"><main><h1>Nothing is here</h1><p>The guide has no page at this address. \
                <a href=\"/index.html\">To the index</a></p></main></body></html>\n";
    page(StatusCode::NOT_FOUND, html, view)
}

/// An answer with a mark of its bytes, by which a browser asks whether they are still the same.
fn tagged(status: StatusCode, kind: &'static str, bytes: Vec<u8>) -> Response<Body> {
    let mut hasher = DefaultHasher::new();
    hasher.write(&bytes);
    let mark = format!("\"{:016x}\"", hasher.finish());
    (status, [(header::CONTENT_TYPE, kind.to_owned()), (header::ETAG, mark)], bytes).into_response()
}

fn is_page(path: &str) -> bool {
    media_type(path).starts_with("text/html")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_page_is_known_by_the_file_that_it_is_made_from() {
        for (page, file, made) in [
            ("schemes/warden.html", "content/schemes/warden/scheme.md", true),
            ("schemes/warden/10-wash.html", "content/schemes/warden/scheme.md", true),
            ("schemes/warden/10-wash.html", "content/schemes/warden/10-wash.md", true),
            ("schemes/wardens.html", "content/schemes/warden/scheme.md", false),
            ("armies/watch.html", "content/armies/watch.yaml", true),
            ("pages/about.html", "content/pages/other.md", false),
            ("index.html", "content/guide.yaml", false),
        ] {
            assert_eq!(is_made_from(page, file), made, "{page} of {file}");
        }
    }
}
