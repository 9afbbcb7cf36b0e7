//! What looking at files gave, kept with the stamps of their bytes.

use std::collections::BTreeMap;

use rayon::prelude::*;

use super::Door;

/// What looking at some files of the content folder gave.
#[derive(Debug)]
pub struct Looks<T> {
    looks: BTreeMap<String, Look<T>>,
}

/// What a look at a file gave, and the stamp of the bytes that were looked at.
#[derive(Debug)]
struct Look<T> {
    stamp: Option<u64>,
    found: T,
}

impl<T> Default for Looks<T> {
    fn default() -> Self {
        Self { looks: BTreeMap::new() }
    }
}

impl<T: Clone + Send + Sync> Looks<T> {
    /// Looks at files by their paths from the content folder, in parallel, and forgets all others. A file whose stamp is that
    /// of the last time is not looked at again.
    pub fn look_at<'p>(
        &mut self,
        door: &dyn Door,
        paths: impl IntoIterator<Item = &'p str>,
        look: impl Fn(&str) -> T + Sync,
    ) {
        let paths: Vec<&str> = paths.into_iter().collect();
        let again = |path: &str| {
            let stamp = door.stamp(&format!("content/{path}"));
            let known = self.looks.get(path).filter(|known| stamp.is_some() && known.stamp == stamp);
            Look { stamp, found: known.map_or_else(|| look(path), |known| known.found.clone()) }
        };
        self.looks = paths.into_par_iter().map(|path| (path.to_owned(), again(path))).collect();
    }

    /// What a look at a file gave.
    pub fn get(&self, path: &str) -> Option<&T> {
        self.looks.get(path).map(|look| &look.found)
    }

    /// All that was found, by path.
    pub fn iter(&self) -> impl Iterator<Item = (&str, &T)> {
        self.looks.iter().map(|(path, look)| (path.as_str(), &look.found))
    }
}
