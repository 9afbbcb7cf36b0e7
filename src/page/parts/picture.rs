//! A picture on a page, with the copies that a browser may choose from.

use std::fmt::Write as _;

use serde::Serialize;

use super::address::relative;
use crate::guide::Photo;
use crate::page::Desk;

/// A picture.
#[derive(Debug, Clone, Serialize)]
pub struct PictureView {
    /// Where its widest copy is.
    pub src: String,
    /// All its copies with their widths, for the attribute `srcset`; empty where there is only one.
    pub srcset: String,
    /// What it shows.
    pub alt: String,
    /// What stands below it.
    pub caption: Option<String>,
    /// Pixels across.
    pub width: u32,
    /// Pixels down.
    pub height: u32,
}

impl PictureView {
    /// A picture on the page at `from`, if it could be read.
    pub(in crate::page) fn of(desk: Desk<'_>, from: &str, photo: Option<&Photo>) -> Option<Self> {
        let photo = photo?;
        let picture = Self::at(desk, from, &photo.path, &photo.alt)?;
        Some(Self { caption: photo.caption.clone(), ..picture })
    }

    /// The picture at a path from the content folder, on the page at `from`, if it could be read.
    pub(in crate::page) fn at(desk: Desk<'_>, from: &str, path: &str, alt: &str) -> Option<Self> {
        let copies = desk.pictures.copies(path);
        let widest = copies.last()?;
        let mut srcset = String::new();
        for copy in copies.iter().filter(|_| copies.len() > 1) {
            let comma = if srcset.is_empty() { "" } else { ", " };
            let _ = write!(srcset, "{comma}{} {}w", relative(from, &copy.path), copy.size.width);
        }
        Some(Self {
            src: relative(from, &widest.path),
            srcset,
            alt: alt.to_owned(),
            caption: None,
            width: widest.size.width,
            height: widest.size.height,
        })
    }
}
