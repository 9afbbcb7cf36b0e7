//! A site that can be made piece by piece: the same bytes whether all of it is published or one page is looked at.

use std::borrow::Cow;
use std::io;

use super::engine::Engine;
use super::shown;
use crate::door::Door;
use crate::page::{self, Desk, Leaf, View};
use crate::picture;
use crate::report::Finding;

/// Largest file that a text links to, in bytes.
const LARGEST_LINKED: u64 = 200_000_000;

/// A whole site of which nothing is made yet.
#[derive(Debug, Clone, Copy)]
pub struct Site<'a> {
    /// What pages are made from.
    pub desk: Desk<'a>,
    /// The templates that show them.
    pub engine: &'a Engine,
}

/// One file of a site.
#[derive(Debug, Clone, Copy)]
pub enum Piece<'a> {
    /// A page, or other text that the guide makes.
    Page(Leaf<'a>),
    /// A file of the theme, published as it is.
    Asset(&'a str, &'a [u8]),
    /// A file of the content folder that something links to or shows, by its path from there.
    Linked(&'a str),
}

impl Piece<'_> {
    /// The path in the published folder.
    pub fn path(&self) -> Cow<'_, str> {
        match self {
            Self::Page(leaf) => Cow::Owned(leaf.path()),
            Self::Asset(path, _) | Self::Linked(path) => Cow::Borrowed(path),
        }
    }
}

/// Why a piece can't be made.
#[derive(Debug)]
pub enum Hitch {
    /// The guide's author can mend it.
    Told(Box<Finding>),
    /// A file can't be read.
    Disk(io::Error),
}

impl From<Box<Finding>> for Hitch {
    fn from(finding: Box<Finding>) -> Self {
        Self::Told(finding)
    }
}

impl<'a> Site<'a> {
    /// Every file of the site.
    pub fn pieces(&self) -> Vec<Piece<'a>> {
        let pages = page::outline(self.desk).into_iter().map(Piece::Page);
        let linked = self.desk.worked.guide.linked_files.iter().map(|path| Piece::Linked(path));
        pages.chain(linked).chain(self.assets()).collect()
    }

    fn assets(&self) -> impl Iterator<Item = Piece<'a>> {
        self.engine.theme().assets.iter().map(|(path, bytes)| Piece::Asset(path, bytes))
    }

    /// The file at a path of the published folder, if the site has it.
    pub fn piece(&self, path: &str) -> Option<Piece<'a>> {
        if let Some(linked) = self.desk.worked.guide.linked_files.get(path) {
            return Some(Piece::Linked(linked));
        }
        if let Some((path, bytes)) = self.engine.theme().assets.get_key_value(path) {
            return Some(Piece::Asset(path, bytes));
        }
        page::outline(self.desk).into_iter().find(|leaf| leaf.path() == path).map(Piece::Page)
    }

    /// The bytes of a file.
    ///
    /// # Errors
    /// Where its template can't show it or leaves out a caution, or a file of the guide can't be read.
    pub fn bytes(&self, door: &dyn Door, piece: Piece<'a>) -> Result<Cow<'a, [u8]>, Hitch> {
        match piece {
            Piece::Page(leaf) => Ok(Cow::Owned(self.page(leaf)?)),
            Piece::Asset(_, bytes) => Ok(Cow::Borrowed(bytes)),
            Piece::Linked(path) => Ok(Cow::Owned(self.linked(door, path)?)),
        }
    }

    fn page(&self, leaf: Leaf<'a>) -> Result<Vec<u8>, Box<Finding>> {
        let page = page::make(self.desk, leaf);
        let Some(template) = page.view.template() else {
            return Ok(if let View::Finished(bytes) = page.view { bytes } else { Vec::new() });
        };
        let html = self.engine.render(template, &page.view)?;
        match shown::lost_caution(&page, template, &html, self.engine.guide_file()) {
            Some(finding) => Err(Box::new(finding)),
            None => Ok(html.into_bytes()),
        }
    }

    fn linked(&self, door: &dyn Door, path: &str) -> Result<Vec<u8>, Hitch> {
        let bytes = door.read(&format!("content/{path}"), LARGEST_LINKED).map_err(Hitch::Disk)?;
        match self.desk.pictures.get(path) {
            Some(known) => Ok(picture::ready(&bytes, known)?),
            None => Ok(bytes),
        }
    }
}
