//! What is shown at this moment, for everybody who asks.

use std::sync::{Arc, PoisonError, RwLock};

use serde_json::{Value, json};
use tokio::sync::watch;

use crate::report;
use crate::story::Proof;

/// One state of the guide.
#[derive(Debug, Clone)]
pub(super) struct View {
    /// The site.
    pub(super) proof: Arc<Proof>,
    /// How often anything has changed.
    pub(super) revision: u64,
    /// How often a style sheet has changed.
    style: u64,
    /// How often another file of the theme has changed, after which a page must be loaded again.
    frame: u64,
    /// Why the guide can't be read, where that is so.
    trouble: Option<String>,
}

impl View {
    /// The first state.
    pub(super) fn first(proof: Proof) -> Self {
        Self { proof: Arc::new(proof), revision: 1, style: 1, frame: 1, trouble: None }
    }

    /// The state after this one.
    pub(super) fn next(&self, proof: Proof) -> Self {
        let changed = |is_style: bool| {
            let (before, now) = (&self.proof.theme().assets, &proof.theme().assets);
            let of_kind = |path: &&String| path.rsplit_once('.').is_some_and(|(_, ending)| ending == "css") == is_style;
            let keys = before.keys().chain(now.keys()).filter(of_kind);
            u64::from(keys.into_iter().any(|path| before.get(path) != now.get(path)))
        };
        let (style, frame) = (self.style + changed(true), self.frame + changed(false));
        Self { revision: self.revision + 1, style, frame, trouble: None, proof: Arc::new(proof) }
    }

    /// The same site, which can't be brought up to date.
    pub(super) fn in_trouble(&self, trouble: String) -> Self {
        Self { revision: self.revision + 1, trouble: Some(trouble), ..self.clone() }
    }

    /// What open pages hear.
    pub(super) fn message(&self) -> String {
        let report: Value =
            serde_json::from_str(&report::json(self.proof.findings(), self.proof.files())).unwrap_or_default();
        let Self { revision, style, frame, trouble, .. } = self;
        json!({ "revision": revision, "style": style, "frame": frame, "trouble": trouble, "report": report })
            .to_string()
    }
}

/// The state that everybody looks at, and who waits for the next one.
#[derive(Debug)]
pub(super) struct Shown {
    now: RwLock<Arc<View>>,
    news: watch::Sender<Arc<str>>,
}

impl Shown {
    /// Shows a first state.
    pub(super) fn new(view: View) -> Self {
        let (news, _) = watch::channel(view.message().into());
        Self { now: RwLock::new(Arc::new(view)), news }
    }

    /// The state at this moment.
    pub(super) fn view(&self) -> Arc<View> {
        Arc::clone(&self.now.read().unwrap_or_else(PoisonError::into_inner))
    }

    /// Shows another state from now on, and tells the open pages.
    pub(super) fn set(&self, view: View) {
        let message = view.message().into();
        *self.now.write().unwrap_or_else(PoisonError::into_inner) = Arc::new(view);
        self.news.send_replace(message);
    }

    /// What is told now and later.
    pub(super) fn listen(&self) -> watch::Receiver<Arc<str>> {
        self.news.subscribe()
    }
}
