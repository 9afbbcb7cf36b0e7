//! A site that can be made piece by piece: the same bytes whether all of it is published or one page is looked at.

use std::borrow::Cow;
use std::io;

use image::RgbImage;

use super::engine::Engine;
use super::held::Held;
use super::shown;
use crate::door::Door;
use crate::page::{self, Desk, Leaf, Page, View};
use crate::picture::{self, Picture, Pictures};
use crate::report::Finding;

/// Largest file that a text links to, in bytes.
pub(super) const LARGEST_LINKED: u64 = 200_000_000;

/// A photo that is drawn into a picture is a copy at least so many pixels wide, if there is one.
const LEAST_DRAWN: u32 = 500;
/// What shows where such a photo is clear: the paper.
const PAPER: [u8; 3] = [0xfa, 0xf6, 0xee];

/// Gives the bytes of one of the copies of a picture, by its path from the content folder.
pub(super) type CopyBytes<'f> = dyn Fn(&str, &Picture, &picture::Copy) -> Option<Vec<u8>> + 'f;

/// A whole site of which nothing is made yet.
#[derive(Debug, Clone, Copy)]
pub struct Site<'a> {
    /// What pages are made from.
    pub desk: Desk<'a>,
    /// The templates that show them.
    pub engine: &'a Engine,
    /// Copies of pictures that were made before.
    pub held: &'a Held,
}

/// One file of a site.
#[derive(Debug, Clone, Copy)]
pub enum Piece<'a> {
    /// A page, or other text that the guide makes.
    Page(Leaf<'a>),
    /// A file of the theme, published as it is.
    Asset(&'a str, &'a [u8]),
    /// A file of the content folder that something links to, by its path from there, published as it is.
    Linked(&'a str),
    /// One of the copies of a picture, with the picture and its path from the content folder.
    Copy(&'a str, &'a Picture, &'a picture::Copy),
}

impl Piece<'_> {
    /// The path in the published folder.
    pub fn path(&self) -> Cow<'_, str> {
        match self {
            Self::Page(leaf) => Cow::Owned(leaf.path()),
            Self::Asset(path, _) | Self::Linked(path) => Cow::Borrowed(path),
            Self::Copy(_, _, copy) => Cow::Borrowed(&copy.path),
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
        pages.chain(self.linked()).chain(self.assets()).collect()
    }

    /// The files that something links to: pictures as their copies, all others as they are.
    fn linked(&self) -> impl Iterator<Item = Piece<'a>> {
        let Desk { worked, pictures, .. } = self.desk;
        let others = worked.guide.linked_files.iter().filter(|path| pictures.get(path).is_none());
        let copies = self
            .pictures()
            .flat_map(|(path, picture)| picture.copies.iter().map(move |copy| Piece::Copy(path, picture, copy)));
        others.map(|path| Piece::Linked(path)).chain(copies)
    }

    /// The pictures with their paths from the content folder.
    pub(super) fn pictures(&self) -> impl Iterator<Item = (&'a str, &'a Picture)> + use<'a> {
        let Desk { worked, pictures, .. } = self.desk;
        worked.guide.linked_files.iter().filter_map(|path| Some((path.as_str(), pictures.get(path)?)))
    }

    fn assets(&self) -> impl Iterator<Item = Piece<'a>> {
        self.engine.theme().assets.iter().map(|(path, bytes)| Piece::Asset(path, bytes))
    }

    /// The file at a path of the published folder, if the site has it.
    pub fn piece(&self, path: &str) -> Option<Piece<'a>> {
        if let Some(linked) = self.linked().find(|linked| linked.path() == path) {
            return Some(linked);
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
        self.bytes_with(door, piece, &|path, picture, copy| made_copy(door, self.held, path, picture, copy))
    }

    /// The bytes of a file; `copied` gives those of a picture's copy.
    ///
    /// # Errors
    /// As of [`Site::bytes`].
    pub(super) fn bytes_with(
        &self,
        door: &dyn Door,
        piece: Piece<'a>,
        copied: &CopyBytes<'_>,
    ) -> Result<Cow<'a, [u8]>, Hitch> {
        match piece {
            Piece::Page(leaf) => Ok(Cow::Owned(self.page(leaf, copied)?)),
            Piece::Asset(_, bytes) => Ok(Cow::Borrowed(bytes)),
            Piece::Linked(path) => Ok(Cow::Owned(read(door, path)?)),
            Piece::Copy(path, picture, copy) => {
                let all_sizes = self.held.of(&read(door, path)?, picture)?;
                let made = all_sizes.iter().find(|(made, _)| made.size == copy.size);
                Ok(Cow::Owned(made.map(|(_, bytes)| bytes.clone()).unwrap_or_default()))
            }
        }
    }

    fn page(&self, leaf: Leaf<'a>, copied: &CopyBytes<'_>) -> Result<Vec<u8>, Box<Finding>> {
        let photo = leaf.photo().and_then(|path| self.photo(path, copied));
        let page = page::make(self.desk, leaf, photo.as_ref());
        match page.view {
            View::Finished(bytes) => Ok(bytes),
            View::Failed(finding) => Err(finding),
            _ => self.shown(&page).map(String::into_bytes),
        }
    }

    /// A photo that a page draws in, small: one that can't be read is told of elsewhere, and left out here.
    fn photo(&self, path: &str, copied: &CopyBytes<'_>) -> Option<RgbImage> {
        drawn_in(self.desk.pictures, path, copied)
    }

    /// A page as its template shows it.
    ///
    /// # Errors
    /// A finding where its template can't show it, leaves out a caution, or lacks the policy.
    pub(super) fn shown(&self, page: &Page) -> Result<String, Box<Finding>> {
        let template = page.view.template().unwrap_or_default();
        let html = self.engine.render(template, &page.view)?;
        let policy =
            || shown::lost_policy(template, &html, self.engine.file_of(template)).filter(|_| is_html(&page.path));
        match self.lost_caution(page, &html).or_else(|| policy().map(Box::new)) {
            Some(finding) => Err(finding),
            None => Ok(html),
        }
    }

    /// What is to be said of a finished page, if a caution is lost in it.
    pub(super) fn lost_caution(&self, page: &Page, html: &str) -> Option<Box<Finding>> {
        let template = page.view.template().unwrap_or_default();
        shown::lost_caution(page, template, html, self.engine.file_of(template)).map(Box::new)
    }
}

/// A photo as it is drawn into a card or a picture, small; `None` where it is no picture.
///
/// It is the same whether a whole site is made or one card alone.
///
/// # Errors
/// Where it can't be read, or is broken after its header.
pub fn photo_to_draw(door: &dyn Door, pictures: &Pictures, path: &str) -> Result<Option<RgbImage>, Hitch> {
    let held = Held::default();
    if let Some(picture) = pictures.get(path) {
        held.of(&read(door, path)?, picture)?;
    }
    Ok(drawn_in(pictures, path, &|path, picture, copy| made_copy(door, &held, path, picture, copy)))
}

fn drawn_in(pictures: &Pictures, path: &str, copied: &CopyBytes<'_>) -> Option<RgbImage> {
    let picture = pictures.get(path)?;
    let copy = picture.copies.iter().find(|copy| copy.size.width >= LEAST_DRAWN).or(picture.copies.last())?;
    picture::opaque(&copied(path, picture, copy)?, PAPER)
}

fn made_copy(door: &dyn Door, held: &Held, path: &str, picture: &Picture, copy: &picture::Copy) -> Option<Vec<u8>> {
    let all_sizes = held.of(&read(door, path).ok()?, picture).ok()?;
    all_sizes.iter().find(|(made, _)| made.size == copy.size).map(|(_, bytes)| bytes.clone())
}

fn is_html(path: &str) -> bool {
    path.rsplit_once('.').is_some_and(|(_, ending)| ending == "html")
}

fn read(door: &dyn Door, path: &str) -> Result<Vec<u8>, Hitch> {
    door.read(&format!("content/{path}"), LARGEST_LINKED).map_err(Hitch::Disk)
}
