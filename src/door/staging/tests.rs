//! What a folder in the making promises: the old site whole or the new one whole, and nothing of the author's lost.

#[cfg(unix)]
use std::os::unix::fs::{PermissionsExt, symlink};

use walkdir::WalkDir;

use super::*;
use crate::door::{Disk, Door};

/// A folder with a guide in it, and room beside that for what is made from it.
struct Place {
    folder: tempfile::TempDir,
    disk: Disk,
}

impl Place {
    fn new() -> Self {
        let folder = tempfile::tempdir().unwrap();
        fs::create_dir_all(folder.path().join("guide/content")).unwrap();
        let disk = Disk::new(folder.path().join("guide"));
        Self { folder, disk }
    }

    fn at(&self, path: &str) -> PathBuf {
        self.folder.path().join(path)
    }

    fn put(&self, path: &str, text: &str) {
        fs::create_dir_all(self.at(path).parent().unwrap()).unwrap();
        fs::write(self.at(path), text).unwrap();
    }

    fn stage(&self, purpose: Purpose) -> io::Result<Box<dyn Staging>> {
        self.disk.stage(&self.at("site"), purpose)
    }

    fn publish(&self, files: &[(&str, &str)]) -> io::Result<()> {
        let staging = self.stage(Purpose::Site)?;
        for (path, text) in files {
            staging.write(path, text.as_bytes())?;
        }
        staging.swap()
    }

    /// Everything below a folder: paths with what they hold, or where they lead.
    fn all(&self, folder: &str) -> BTreeMap<String, String> {
        let root = self.at(folder);
        let entries = WalkDir::new(&root).min_depth(1).into_iter().map(Result::unwrap);
        entries
            .map(|entry| {
                let path = manifest::listed(entry.path().strip_prefix(&root).unwrap()).unwrap().into_owned();
                let kind = entry.file_type();
                let holds = if kind.is_dir() {
                    "folder".to_owned()
                } else if kind.is_symlink() {
                    format!("to {}", fs::read_link(entry.path()).unwrap().display())
                } else {
                    fs::read_to_string(entry.path()).unwrap()
                };
                (path, holds)
            })
            .collect()
    }

    fn site(&self) -> BTreeMap<String, String> {
        self.all("site")
    }

    /// The names beside the site, in order.
    fn names(&self) -> Vec<String> {
        let entries = fs::read_dir(self.folder.path()).unwrap();
        let mut names: Vec<String> = entries.map(|entry| entry.unwrap().file_name().into_string().unwrap()).collect();
        names.sort();
        names
    }
}

fn map(entries: &[(&str, &str)]) -> BTreeMap<String, String> {
    entries.iter().map(|&(path, text)| (path.to_owned(), text.to_owned())).collect()
}

fn list(paths: &[&str]) -> String {
    Manifest::new(paths.iter().map(|&path| (path.into(), None))).text()
}

#[test]
fn a_site_is_published_with_its_list_and_nothing_else_is_left() {
    let place = Place::new();
    place.publish(&[("b/page.html", "page"), ("a.html", "start")]).unwrap();
    let manifest = list(&["a.html", "b/page.html"]);
    let expected = [(".maulstick", manifest.as_str()), ("a.html", "start"), ("b", "folder"), ("b/page.html", "page")];
    assert_eq!(place.site(), map(&expected));
    assert_eq!(place.names(), ["guide", "site"]);
}

#[test]
fn nothing_is_seen_of_a_new_site_before_the_swap_and_nothing_of_the_old_one_after() {
    let place = Place::new();
    place.publish(&[("a.html", "old"), ("gone/b.html", "old")]).unwrap();
    let old = place.site();
    let staging = place.stage(Purpose::Site).unwrap();
    staging.write("a.html", b"new").unwrap();
    assert_eq!(place.site(), old);
    staging.swap().unwrap();
    assert_eq!(place.site(), map(&[(".maulstick", &list(&["a.html"])), ("a.html", "new")]));
    assert_eq!(place.names(), ["guide", "site"]);
}

#[cfg(unix)]
#[test]
fn an_empty_folder_becomes_a_site_and_keeps_its_permissions() {
    let place = Place::new();
    fs::create_dir(place.at("site")).unwrap();
    fs::set_permissions(place.at("site"), fs::Permissions::from_mode(0o750)).unwrap();
    for text in ["first", "second"] {
        place.publish(&[("a.html", text)]).unwrap();
        assert_eq!(place.site()["a.html"], text);
        assert_eq!(fs::metadata(place.at("site")).unwrap().permissions().mode() & 0o777, 0o750);
    }
}

#[cfg(unix)]
#[test]
fn a_new_folder_has_ordinary_permissions() {
    let place = Place::new();
    place.publish(&[]).unwrap();
    let mode = |path: &str| fs::metadata(place.at(path)).unwrap().permissions().mode();
    assert_eq!(mode("site"), mode("guide"));
}

#[test]
fn a_staging_that_is_dropped_leaves_nothing_and_changes_nothing() {
    let place = Place::new();
    drop(place.stage(Purpose::Site).unwrap());
    assert_eq!(place.names(), ["guide"]);
    place.publish(&[("a.html", "old")]).unwrap();
    let old = place.site();
    let staging = place.stage(Purpose::Site).unwrap();
    staging.write("a/b/c.html", b"new").unwrap();
    drop(staging);
    assert_eq!((place.site(), place.names()), (old, vec!["guide".to_owned(), "site".to_owned()]));
}

#[test]
fn a_write_that_fails_leaves_the_old_site_as_it_was() {
    let place = Place::new();
    place.publish(&[("a.html", "old")]).unwrap();
    let old = place.site();
    let error = place.publish(&[("a.html", "new"), ("a.html/b", "below a file")]).unwrap_err();
    assert!(error.to_string().contains("a.html"), "{error}");
    assert!(place.publish(&[("x/y", "new"), ("x", "a folder")]).is_err());
    assert_eq!((place.site(), place.names()), (old, vec!["guide".to_owned(), "site".to_owned()]));
}

#[test]
fn a_path_that_leads_out_or_was_written_is_refused() {
    let place = Place::new();
    let staging = place.stage(Purpose::Site).unwrap();
    staging.write("a/page.html", b"1").unwrap();
    let kind = |path: &str| staging.write(path, b"2").unwrap_err().kind();
    for path in ["../x", "/x", "a/../../x", "", "a//x", "a\\x", "a\nx", ".maulstick", ".Maulstick"] {
        assert_eq!(kind(path), io::ErrorKind::InvalidInput, "{path:?}");
    }
    for path in ["a/page.html", "A/Page.html"] {
        assert_eq!(kind(path), io::ErrorKind::AlreadyExists, "{path}");
    }
    staging.swap().unwrap();
    assert_eq!(place.site()["a/page.html"], "1");
    assert_eq!(place.names(), ["guide", "site"]);
}

#[test]
fn files_are_written_from_many_threads() {
    let place = Place::new();
    let staging = place.stage(Purpose::Site).unwrap();
    std::thread::scope(|scope| {
        for thread in 0..8 {
            let staging = &staging;
            scope.spawn(move || {
                for page in 0..20 {
                    staging.write(&format!("{page}/{thread}.html"), b"x").unwrap();
                }
            });
        }
    });
    staging.swap().unwrap();
    assert_eq!(place.site().values().filter(|text| *text == "x").count(), 160);
}

#[test]
fn what_was_not_published_is_not_replaced() {
    let place = Place::new();
    place.put("site/diary.txt", "mine");
    assert_eq!(place.stage(Purpose::Site).err().unwrap().kind(), io::ErrorKind::AlreadyExists);
    assert_eq!(place.disk.stage(&place.at("guide"), Purpose::Site).err().unwrap().kind(), io::ErrorKind::InvalidInput);
    assert_eq!(place.site(), map(&[("diary.txt", "mine")]));
    assert_eq!(place.names(), ["guide", "site"]);
}

#[test]
fn what_comes_into_the_place_while_the_site_is_made_is_not_replaced() {
    let place = Place::new();
    let staging = place.stage(Purpose::Site).unwrap();
    staging.write("a.html", b"new").unwrap();
    place.put("site/diary.txt", "mine");
    assert_eq!(staging.swap().unwrap_err().kind(), io::ErrorKind::AlreadyExists);
    assert_eq!(place.site(), map(&[("diary.txt", "mine")]));
    assert_eq!(place.names(), ["guide", "site"]);
}

#[cfg(unix)]
#[test]
fn what_the_author_put_into_the_site_is_kept() {
    let place = Place::new();
    place.publish(&[("a.html", "old"), ("pages/b.html", "old")]).unwrap();
    place.put("site/CNAME", "fen.example");
    place.put("site/.git/refs/head", "1");
    place.put("site/pages/mine.html", "mine");
    symlink("CNAME", place.at("site/link")).unwrap();
    for text in ["new", "newer"] {
        place.publish(&[("a.html", text)]).unwrap();
        let expected = [
            (".git", "folder"),
            (".git/refs", "folder"),
            (".git/refs/head", "1"),
            (".maulstick", &list(&["a.html"])),
            ("CNAME", "fen.example"),
            ("a.html", text),
            ("link", "to CNAME"),
            ("pages", "folder"),
            ("pages/mine.html", "mine"),
        ];
        assert_eq!(place.site(), map(&expected));
        assert_eq!(place.names(), ["guide", "site"]);
    }
}

#[test]
fn an_author_s_file_in_the_way_stops_the_publishing_and_is_named() {
    let place = Place::new();
    place.publish(&[("a.html", "old")]).unwrap();
    place.put("site/pages/mine.html", "mine");
    let old = place.site();
    let error = place.publish(&[("pages/mine.html", "new")]).unwrap_err();
    assert_eq!(error.kind(), io::ErrorKind::AlreadyExists);
    assert!(error.to_string().contains("'pages/mine.html'"), "{error}");
    assert_eq!((place.site(), place.names()), (old, vec!["guide".to_owned(), "site".to_owned()]));
}

#[test]
fn two_runs_at_once_both_succeed_and_the_last_swap_wins() {
    let place = Place::new();
    place.publish(&[("a.html", "old")]).unwrap();
    place.put("site/CNAME", "fen.example");
    let first = place.stage(Purpose::Site).unwrap();
    let second = place.stage(Purpose::Site).unwrap();
    first.write("first.html", b"1").unwrap();
    second.write("second.html", b"2").unwrap();
    second.swap().unwrap();
    assert_eq!(place.site()["second.html"], "2");
    first.swap().unwrap();
    let manifest = list(&["first.html"]);
    assert_eq!(place.site(), map(&[(".maulstick", &manifest), ("CNAME", "fen.example"), ("first.html", "1")]));
    assert_eq!(place.names(), ["guide", "site"]);
}

#[test]
fn many_runs_at_once_never_mix() {
    for before in ["nothing", "an empty folder", "a site"] {
        let place = Place::new();
        match before {
            "nothing" => {}
            "a site" => place.publish(&[("old.html", "old")]).unwrap(),
            _ => fs::create_dir(place.at("site")).unwrap(),
        }
        std::thread::scope(|scope| {
            for run in 0..6 {
                let place = &place;
                scope.spawn(move || {
                    for round in 0..5 {
                        let text = format!("{run}-{round}");
                        let published = place.publish(&[("index.html", &text), (&format!("own/{text}.html"), &text)]);
                        // Windows refuses to move a folder in which another run reads: that run says so and changes nothing.
                        if let Err(refused) = published {
                            let said = refused.to_string();
                            assert!(cfg!(windows) && said.contains("another program holds it"), "{said}");
                        }
                    }
                });
            }
        });
        let site = place.site();
        let text = site["index.html"].clone();
        let own = format!("own/{text}.html");
        let manifest = list(&["index.html", &own]);
        let whole = [(".maulstick", manifest.as_str()), ("index.html", &text), ("own", "folder"), (&own, &text)];
        assert_eq!(site, map(&whole), "{before}");
        assert_eq!(place.names(), ["guide", "site"], "{before}");
    }
}

#[test]
fn a_run_that_was_killed_is_cleared_up_after_and_a_living_one_is_not() {
    let place = Place::new();
    place.publish(&[("a.html", "old")]).unwrap();
    place.put(".site-abc123.staging/.maulstick", "");
    place.put(".site-abc123.staging/half/a.html", "ne");
    fs::create_dir(place.at(".site-abc124.staging")).unwrap();
    place.put(".site-abc125.staging/.maulstick", &list(&["a.html", "b.html"]));
    place.put(".site-abc125.staging/b.html", "from before");
    let living = place.stage(Purpose::Site).unwrap();
    // On Windows a file beside the living folder holds it.
    let names: Vec<String> = place.names().into_iter().filter(|name| name.rsplit('.').next() != Some("held")).collect();
    assert_eq!(names.len(), 3, "the guide, the site and the living folder: {names:?}");
    assert_eq!(place.site()["a.html"], "old");
    place.publish(&[("a.html", "newer")]).unwrap();
    living.write("a.html", b"newest").unwrap();
    living.swap().unwrap();
    assert_eq!(place.site()["a.html"], "newest");
    assert_eq!(place.names(), ["guide", "site"]);
}

#[test]
fn a_site_that_was_left_aside_comes_back_before_anything_else() {
    let place = Place::new();
    place.publish(&[("a.html", "old")]).unwrap();
    let old = place.site();
    fs::rename(place.at("site"), place.at(".site.aside")).unwrap();
    drop(place.stage(Purpose::Site).unwrap());
    assert_eq!((place.site(), place.names()), (old, vec!["guide".to_owned(), "site".to_owned()]));
}

#[test]
fn a_site_that_can_not_be_put_back_is_named_and_none_moves_in_instead() {
    let place = Place::new();
    place.publish(&[("a.html", "old")]).unwrap();
    place.put("site/CNAME", "fen.example");
    fs::rename(place.at("site"), place.at(".site.aside")).unwrap();
    let held = Claim::on(&place.at(".site.aside")).unwrap();
    let error = place.publish(&[("a.html", "new")]).unwrap_err();
    assert!(error.to_string().contains(".site.aside"), "{error}");
    drop(held);
    place.publish(&[("a.html", "new")]).unwrap();
    assert_eq!((&*place.site()["a.html"], &*place.site()["CNAME"]), ("new", "fen.example"));
    assert_eq!(place.names(), ["guide", "site"]);
}

#[test]
fn a_new_guide_has_no_list_in_it_and_needs_room() {
    let place = Place::new();
    for before in ["nothing", "an empty folder"] {
        if before != "nothing" {
            fs::remove_dir_all(place.at("site")).unwrap();
            fs::create_dir(place.at("site")).unwrap();
        }
        let staging = place.stage(Purpose::Guide).unwrap();
        staging.write("content/guide.yaml", b"title: Fen").unwrap();
        // The list never is in what goes into the place, so that it need not be taken out before: whenever the run is killed,
        // what it leaves lying is known by its list.
        let made = place.names().into_iter().find(|name| name.starts_with(".site-")).unwrap();
        assert!(place.all(&made).contains_key(MANIFEST) && !place.all(&format!("{made}/guide")).contains_key(MANIFEST));
        staging.swap().unwrap();
        assert_eq!(place.site(), map(&[("content", "folder"), ("content/guide.yaml", "title: Fen")]), "{before}");
        assert_eq!(place.names(), ["guide", "site"], "{before}");
    }
    assert_eq!(place.stage(Purpose::Guide).err().unwrap().kind(), io::ErrorKind::AlreadyExists);
}

#[test]
fn a_new_guide_never_replaces_what_came_meanwhile() {
    let place = Place::new();
    let staging = place.stage(Purpose::Guide).unwrap();
    staging.write("content/guide.yaml", b"title: Fen").unwrap();
    place.put("site/diary.txt", "mine");
    assert_eq!(staging.swap().unwrap_err().kind(), io::ErrorKind::AlreadyExists);
    assert_eq!(place.site(), map(&[("diary.txt", "mine")]));
    assert_eq!(place.names(), ["guide", "site"]);
}

#[test]
fn the_same_site_has_the_same_list_in_whatever_order_it_was_written() {
    let (one, other) = (Place::new(), Place::new());
    one.publish(&[("a.html", "a"), ("b.html", "b")]).unwrap();
    other.publish(&[("b.html", "b"), ("a.html", "a")]).unwrap();
    assert_eq!(one.site(), other.site());
}
