//! Pages about the whole guide.

pub(super) mod checks_page;
pub(super) mod colours_page;
pub(super) mod feed;
pub(super) mod index;
pub(super) mod pages_page;
pub(super) mod search;
pub(super) mod sequence_page;
pub(super) mod sitemap;
pub(super) mod text_page;
pub(super) mod uses;
