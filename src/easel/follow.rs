//! Watch, look again, tell.

use std::io;
use std::path::Path;
use std::sync::Arc;
use std::thread;

use super::Word;
use super::state::{Shown, View};
use crate::door::{Disk, News, Snapshot, Watch, mendable};
use crate::story::{Checked, Proof, Session};

/// A guide under watch.
pub(super) struct Easel {
    watch: Watch,
    desk: LiveDesk,
    shown: Arc<Shown>,
}

/// What a look at the guide needs.
struct LiveDesk {
    snapshot: Snapshot,
    session: Session,
    /// Whether the last look failed; then the next one looks at everything, whatever the news.
    failed: bool,
}

/// Looks at a guide for the first time. The watch begins before that, so that no change falls between the two.
pub(super) fn begin(guide: &Path) -> io::Result<Easel> {
    let watch = Watch::begin(guide)?;
    let snapshot = Snapshot::of(Disk::new(guide))?;
    let mut session = Session::default();
    let proof = Proof::of(session.check(&snapshot)?, None);
    let desk = LiveDesk { snapshot, session, failed: false };
    Ok(Easel { watch, desk, shown: Arc::new(Shown::new(View::first(proof))) })
}

impl Easel {
    /// What is shown now.
    pub(super) fn shown(&self) -> Arc<View> {
        self.shown.view()
    }

    /// Follows the guide from now on, on a thread of its own that ends with the program.
    ///
    /// # Errors
    /// When the system gives no thread.
    pub(super) fn follow(self, tell: impl Fn(Word<'_>) + Send + 'static) -> io::Result<Arc<Shown>> {
        let Self { mut watch, mut desk, shown } = self;
        let following = Arc::clone(&shown);
        let follow = move || {
            while let Some(news) = watch.wait() {
                let before = following.view();
                match desk.look(&news) {
                    Ok(None) => {}
                    Ok(Some(checked)) => {
                        following.set(before.next(Proof::of(checked, Some(&before.proof))));
                        tell(Word::Changed(&following.view().proof));
                    }
                    Err(error) => {
                        following.set(before.in_trouble(error.to_string()));
                        tell(Word::Trouble(&error));
                    }
                }
            }
        };
        thread::Builder::new().spawn(follow).map_err(|error| {
            let message = format!("no thread can be made that follows the guide: {error}");
            mendable(error.kind(), message, "end other programs, and run it again")
        })?;
        Ok(shown)
    }
}

impl LiveDesk {
    /// The guide as it is now, if it is another than before.
    fn look(&mut self, news: &News) -> io::Result<Option<Checked>> {
        let again = std::mem::replace(&mut self.failed, true);
        let changed = self.snapshot.refresh(&if again { News::anything() } else { news.clone() })?;
        let checked = if changed || again { Some(self.session.check(&self.snapshot)?) } else { None };
        self.failed = false;
        Ok(checked)
    }
}
