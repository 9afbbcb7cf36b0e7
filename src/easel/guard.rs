//! Which requests are answered at all. The easel stands on this machine alone, but any page in any browser here can ask
//! it something: under another name that leads to this machine, or from another site.

use std::net::SocketAddr;

use axum::http::{HeaderMap, Method, StatusCode, header};

/// The port that an address without one means.
const HTTP: u16 = 80;

/// The methods that are answered: what is asked for, or only what there is to say about it.
const ANSWERED: [Method; 2] = [Method::GET, Method::HEAD];

/// The same as the header of a refusal names them.
pub(super) const ALLOW: &str = "GET, HEAD";

/// Why a request is refused, if it is.
pub(super) fn objection(
    address: SocketAddr,
    method: &Method,
    headers: &HeaderMap,
) -> Option<(StatusCode, &'static str)> {
    let text = |name: &str| headers.get(name).map(|value| value.to_str().unwrap_or("?"));
    let port = address.port();
    let mut names = vec![format!("127.0.0.1:{port}"), format!("localhost:{port}")];
    if port == HTTP {
        // Browsers leave out the port that they take anyhow.
        names.extend(["127.0.0.1".to_owned(), "localhost".to_owned()]);
    }
    // A name that somebody else can lead to this machine would make their pages ours to the browser (DNS rebinding).
    let host = text(header::HOST.as_str());
    if headers.get_all(header::HOST).iter().count() != 1
        || !host.is_some_and(|host| names.iter().any(|name| name.eq_ignore_ascii_case(host)))
    {
        return Some((StatusCode::MISDIRECTED_REQUEST, "the easel answers to 127.0.0.1 and localhost alone\n"));
    }
    if !ANSWERED.contains(method) {
        return Some((StatusCode::METHOD_NOT_ALLOWED, "the easel only shows\n"));
    }
    let own = |origin: &str| names.iter().any(|name| origin.eq_ignore_ascii_case(&format!("http://{name}")));
    let from_elsewhere = text(header::ORIGIN.as_str()).is_some_and(|origin| !own(origin));
    // A link that somebody follows is fine; a script, picture or frame of another site is not (W3C Fetch Metadata).
    let site = text("sec-fetch-site").is_some_and(|site| !matches!(site, "same-origin" | "none"));
    let opened = text("sec-fetch-mode") == Some("navigate") && text("sec-fetch-dest") == Some("document");
    (from_elsewhere || (site && !opened)).then_some((StatusCode::FORBIDDEN, "the easel does not answer other sites\n"))
}

/// The path in the site that a request asks for; `None` where it can't be one.
pub(super) fn path(asked: &str) -> Option<String> {
    let path = percent_encoding::percent_decode_str(asked.strip_prefix('/')?).decode_utf8().ok()?;
    let strange = |part: &str| matches!(part, "." | "..") || part.contains('\\') || part.chars().any(char::is_control);
    if path.split('/').any(strange) {
        return None;
    }
    Some(if path.is_empty() || path.ends_with('/') { format!("{path}index.html") } else { path.into_owned() })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn status(method: &Method, headers: &[(&'static str, &str)]) -> Option<u16> {
        let mut map = HeaderMap::new();
        for (name, value) in headers {
            map.append(*name, value.parse().unwrap());
        }
        objection(([127, 0, 0, 1], 4710).into(), method, &map).map(|(status, _)| status.as_u16())
    }

    #[test]
    fn only_its_own_names_are_answered() {
        let get = |host: &str| status(&Method::GET, &[("host", host)]);
        for host in ["127.0.0.1:4710", "localhost:4710", "LocalHost:4710"] {
            assert_eq!(get(host), None, "{host}");
        }
        for host in ["fen.example", "fen.example:4710", "localhost", "127.0.0.1:80", "127.0.0.1.fen.example:4710", ""] {
            assert_eq!(get(host), Some(421), "{host}");
        }
        assert_eq!(status(&Method::GET, &[]), Some(421));
        assert_eq!(status(&Method::GET, &[("host", "localhost:4710"), ("host", "fen.example")]), Some(421));
    }

    #[test]
    fn on_the_port_that_browsers_take_anyhow_its_names_stand_without_one() {
        let get = |host: &str, origin: &str| {
            let mut map = HeaderMap::new();
            map.insert("host", host.parse().unwrap());
            map.insert("origin", origin.parse().unwrap());
            objection(([127, 0, 0, 1], 80).into(), &Method::GET, &map).map(|(status, _)| status.as_u16())
        };
        assert_eq!(get("localhost", "http://localhost"), None);
        assert_eq!(get("127.0.0.1:80", "http://127.0.0.1"), None);
        assert_eq!(get("fen.example", "http://localhost"), Some(421));
        assert_eq!(get("localhost", "http://fen.example"), Some(403));
    }

    #[test]
    fn nothing_but_showing_is_done() {
        for method in [Method::POST, Method::PUT, Method::DELETE, Method::OPTIONS] {
            assert_eq!(status(&method, &[("host", "localhost:4710")]), Some(405), "{method}");
        }
        for method in ANSWERED {
            assert_eq!(status(&method, &[("host", "localhost:4710")]), None, "{method}");
            assert!(ALLOW.split(", ").any(|allowed| allowed == method.as_str()), "{method}");
        }
    }

    #[test]
    fn other_sites_are_not_answered() {
        let get = |more: &[(&'static str, &str)]| status(&Method::GET, &[&[("host", "localhost:4710")], more].concat());
        assert_eq!(get(&[("origin", "http://localhost:4710")]), None);
        assert_eq!(get(&[("origin", "https://fen.example")]), Some(403));
        assert_eq!(get(&[("origin", "null")]), Some(403));
        assert_eq!(get(&[("sec-fetch-site", "same-origin")]), None);
        assert_eq!(get(&[("sec-fetch-site", "cross-site"), ("sec-fetch-mode", "no-cors")]), Some(403));
        let followed = ("sec-fetch-mode", "navigate");
        assert_eq!(get(&[("sec-fetch-site", "cross-site"), followed, ("sec-fetch-dest", "document")]), None);
        assert_eq!(get(&[("sec-fetch-site", "cross-site"), followed, ("sec-fetch-dest", "iframe")]), Some(403));
    }

    #[test]
    fn a_path_stays_in_the_site() {
        assert_eq!(path("/").as_deref(), Some("index.html"));
        assert_eq!(path("/paints/").as_deref(), Some("paints/index.html"));
        assert_eq!(path("/pages/a%20b.html").as_deref(), Some("pages/a b.html"));
        for out in ["/../guide.yaml", "/a/%2e%2e/b", "/%2e%2e%5cb", "/a%00", "/%ff", "x"] {
            assert_eq!(path(out), None, "{out}");
        }
    }
}
