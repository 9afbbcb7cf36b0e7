//! `pages/*.md`: a free page.

use crate::source::reading::Tried;
use crate::source::record::record;

record! {
    /// One free page.
    pub PageFile, "a page" {
        /// What the page is called.
        needed title: String = "Holding a brush",
        /// One sentence on it.
        optional summary: String = "Three grips, and what each is for.",
        /// A picture at its head.
        optional photo: String = "photos/grip.jpg",
        /// What the picture shows; needed with a photo.
        optional alt: Tried<String> = "A hand that holds a brush near its ferrule.",
    }
}
