//! The watch on a guide's folders: tells what changed once writing has come to rest.
//!
//! Editors write in many ways: in place, in pieces, by a new file that takes the old one's name. All of it comes as a
//! burst of small events; the watch waits for the end of the burst and names the files, or says that anything may
//! have changed: when files came, went or moved, and when the system lost count. It waits without waking up in between.

use std::io;
use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, RecvTimeoutError, channel};
use std::time::{Duration, Instant};

use notify::event::{AccessKind, AccessMode, MetadataKind, ModifyKind};
use notify::{Config, Event, EventKind, RecommendedWatcher, RecursiveMode, Watcher};

use super::failure::mendable;
use super::names::is_litter;
use super::snapshot::{FOLDERS, News};
use super::system;

/// When nothing was heard for so long, a burst is over. An editor's writes for one save lie well below a millisecond apart.
const QUIET: Duration = Duration::from_millis(12);

/// Whoever writes without end is not waited for longer than this.
const LONGEST: Duration = Duration::from_millis(250);

/// A folder that has just come is watched a moment later than it is filled, so it is looked at a second time.
const SECOND_LOOK: Duration = Duration::from_millis(150);

/// A watch on one guide.
#[derive(Debug)]
pub struct Watch {
    guide: PathBuf,
    watcher: RecommendedWatcher,
    events: Receiver<notify::Result<Event>>,
    look_again: bool,
}

impl Watch {
    /// Begins to watch the guide in a folder.
    ///
    /// # Errors
    /// When the system can't watch it.
    pub fn begin(guide: &Path) -> io::Result<Self> {
        let guide = system::whole(guide)?;
        let (tell, events) = channel();
        // Nobody listens any more when the watch has been dropped.
        let tell = move |event| drop(tell.send(event));
        // A link in the content is no part of the guide, and what it leads to may be the whole disk.
        let watcher = RecommendedWatcher::new(tell, Config::default().with_follow_symlinks(false)).map_err(failed)?;
        let mut watch = Self { guide, watcher, events, look_again: false };
        watch.watcher.watch(&watch.guide, RecursiveMode::NonRecursive).map_err(failed)?;
        // Through its parent it is heard when another folder takes the guide's place; not every parent may be watched.
        if let Some(parent) = watch.guide.parent() {
            let _ = watch.watcher.watch(parent, RecursiveMode::NonRecursive);
        }
        watch.watch_folders().map_err(failed)?;
        Ok(watch)
    }

    /// Watches the folder that has the guide's name by now.
    fn watch_anew(&mut self) {
        // What is gone can't be let go of either.
        for folder in FOLDERS.map(|folder| self.guide.join(folder)).iter().chain([&self.guide]) {
            let _ = self.watcher.unwatch(folder);
        }
        let _ = self.watcher.watch(&self.guide, RecursiveMode::NonRecursive);
    }

    fn watch_folders(&mut self) -> notify::Result<()> {
        for folder in FOLDERS {
            let path = self.guide.join(folder);
            if path.is_dir() {
                self.watcher.watch(&path, RecursiveMode::Recursive)?;
            }
        }
        Ok(())
    }

    /// Waits for the next change; `None` when there is nothing to wait for any more.
    pub fn wait(&mut self) -> Option<News> {
        loop {
            let first = if self.look_again {
                match self.events.recv_timeout(SECOND_LOOK) {
                    Ok(first) => first,
                    Err(RecvTimeoutError::Timeout) => {
                        self.look_again = false;
                        return Some(News::anything());
                    }
                    Err(RecvTimeoutError::Disconnected) => return None,
                }
            } else {
                self.events.recv().ok()?
            };
            let mut burst = Burst::default();
            burst.hear(&self.guide, first);
            let begun = Instant::now();
            while begun.elapsed() < LONGEST {
                match self.events.recv_timeout(QUIET) {
                    Ok(event) => burst.hear(&self.guide, event),
                    Err(_) => break,
                }
            }
            if burst.of_guide {
                self.watch_anew();
            }
            if burst.of_folders {
                self.look_again = true;
                // A folder that is gone again by now is reported by its own event.
                let _ = self.watch_folders();
            }
            if burst.news != News::default() {
                return Some(burst.news);
            }
        }
    }
}

fn failed(error: notify::Error) -> io::Error {
    match error.kind {
        notify::ErrorKind::Io(error) if system::has_too_many_open(&error) => {
            let mend = "end other programs that watch folders, or raise fs.inotify.max_user_instances (Linux) or what one \
                        program may have open (ulimit -n)";
            mendable(error.kind(), format!("the guide can't be watched: {error}"), mend)
        }
        notify::ErrorKind::Io(error) => error,
        notify::ErrorKind::MaxFilesWatch => {
            let mend = "end other programs that watch folders, or raise fs.inotify.max_user_watches";
            mendable(io::ErrorKind::QuotaExceeded, "the system watches no more folders", mend)
        }
        _ => io::Error::other(error.to_string()),
    }
}

/// What a burst of events says, taken together.
#[derive(Debug, Default)]
struct Burst {
    news: News,
    of_folders: bool,
    /// Whether the guide's own folder came or went.
    of_guide: bool,
}

impl Burst {
    fn hear(&mut self, guide: &Path, event: notify::Result<Event>) {
        let Ok(event) = event else {
            self.news.anything = true;
            return;
        };
        if event.need_rescan() {
            (self.news.anything, self.of_folders) = (true, true);
        }
        // Reading, here and elsewhere, changes nothing; nor does an access time.
        let idle = match event.kind {
            EventKind::Access(AccessKind::Close(AccessMode::Write)) => false,
            EventKind::Access(_) => true,
            EventKind::Modify(ModifyKind::Metadata(kind)) => matches!(kind, MetadataKind::AccessTime),
            _ => false,
        };
        if idle {
            return;
        }
        let in_place = matches!(event.kind, EventKind::Access(_) | EventKind::Modify(ModifyKind::Data(_)));
        let exchanged = !in_place && !matches!(event.kind, EventKind::Modify(ModifyKind::Metadata(_)));
        if exchanged && event.paths.iter().any(|path| path == guide) {
            (self.of_guide, self.of_folders, self.news.anything) = (true, true, true);
        }
        for path in event.paths.iter().filter_map(|path| inside(guide, path)) {
            // What came, went or got another name is told apart by looking, whichever way the system words it.
            self.of_folders |= !in_place && Path::new(&path).extension().is_none();
            self.news.anything |= self.of_folders;
            self.news.files.insert(path);
        }
    }
}

/// The path from the guide's folder, if it is one of its content or its theme.
fn inside(guide: &Path, path: &Path) -> Option<String> {
    let parts: Vec<&str> = path.strip_prefix(guide).ok()?.iter().map(|part| part.to_str()).collect::<Option<_>>()?;
    let ours = parts.first().is_some_and(|first| FOLDERS.contains(first)) && !parts.iter().any(|part| is_litter(part));
    ours.then(|| parts.join("/"))
}

#[cfg(test)]
mod tests {
    use std::fs;
    use std::sync::mpsc;
    use std::thread;

    use super::*;

    /// A guide and what its watch tells.
    fn watched() -> (tempfile::TempDir, mpsc::Receiver<News>) {
        let folder = tempfile::tempdir().unwrap();
        fs::create_dir_all(folder.path().join("content/schemes/boat")).unwrap();
        fs::write(folder.path().join("content/guide.yaml"), "title: A\n").unwrap();
        let news = watch(folder.path());
        (folder, news)
    }

    fn watch(guide: &Path) -> mpsc::Receiver<News> {
        let mut watch = Watch::begin(guide).unwrap();
        let (tell, news) = mpsc::channel();
        thread::spawn(move || {
            while let Some(one) = watch.wait() {
                if tell.send(one).is_err() {
                    return;
                }
            }
        });
        news
    }

    fn next(news: &mpsc::Receiver<News>) -> News {
        news.recv_timeout(Duration::from_secs(10)).unwrap()
    }

    fn file(path: &str) -> News {
        News { files: [path.to_owned()].into(), anything: false }
    }

    #[test]
    fn a_save_in_pieces_is_told_once() {
        let (folder, news) = watched();
        let path = folder.path().join("content/guide.yaml");
        fs::write(&path, "").unwrap();
        fs::write(&path, "title: B\n").unwrap();
        assert_eq!(next(&news), file("content/guide.yaml"));
        assert!(news.recv_timeout(QUIET * 5).is_err());
    }

    #[test]
    fn a_save_by_another_name_is_told() {
        let (folder, news) = watched();
        fs::write(folder.path().join("content/.guide.yaml.swp"), "title: B\n").unwrap();
        fs::rename(folder.path().join("content/.guide.yaml.swp"), folder.path().join("content/guide.yaml")).unwrap();
        assert_eq!(next(&news), file("content/guide.yaml"));
    }

    #[test]
    fn a_folder_that_moves_is_told() {
        let (folder, news) = watched();
        fs::rename(folder.path().join("content/schemes/boat"), folder.path().join("content/schemes/barge")).unwrap();
        assert!(next(&news).anything);
    }

    #[test]
    fn a_theme_that_comes_later_is_watched_too() {
        let (folder, news) = watched();
        fs::create_dir_all(folder.path().join("themes/own")).unwrap();
        assert!(next(&news).anything);
        assert!(next(&news).anything, "and looked at a second time");
        fs::write(folder.path().join("themes/own/style.css"), "p {}").unwrap();
        assert_eq!(next(&news), file("themes/own/style.css"));
    }

    #[test]
    fn a_folder_that_takes_the_guide_s_place_is_told_and_watched() {
        let parent = tempfile::tempdir().unwrap();
        let guide = parent.path().join("guide");
        let lay = |title: &str| {
            let folder = parent.path().join(title);
            fs::create_dir_all(folder.join("content")).unwrap();
            fs::write(folder.join("content/guide.yaml"), format!("title: {title}\n")).unwrap();
            fs::rename(folder, &guide).unwrap();
        };
        lay("A");
        let news = watch(&guide);
        fs::rename(&guide, parent.path().join("old")).unwrap();
        lay("B");
        assert!(next(&news).anything);
        while news.recv_timeout(SECOND_LOOK * 4).is_ok() {}
        fs::write(guide.join("content/guide.yaml"), "title: C\n").unwrap();
        assert!(next(&news).files.contains("content/guide.yaml"));
    }

    #[cfg(unix)]
    #[test]
    fn a_link_leads_no_watch_out_of_the_guide() {
        let outside = tempfile::tempdir().unwrap();
        let (folder, news) = watched();
        std::os::unix::fs::symlink(outside.path(), folder.path().join("content/out")).unwrap();
        while news.recv_timeout(SECOND_LOOK * 4).is_ok() {}
        let news = watch(folder.path());
        fs::write(outside.path().join("a.md"), "").unwrap();
        assert!(news.recv_timeout(QUIET * 10).is_err());
    }

    #[test]
    fn reading_and_what_lies_beside_the_guide_is_not_told() {
        let (folder, news) = watched();
        fs::read(folder.path().join("content/guide.yaml")).unwrap();
        fs::create_dir(folder.path().join("published")).unwrap();
        fs::write(folder.path().join("published/index.html"), "").unwrap();
        fs::write(folder.path().join("content/guide.yaml~"), "").unwrap();
        assert!(news.recv_timeout(QUIET * 10).is_err());
    }
}
