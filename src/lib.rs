//! Maulstick compiles painting schemes, written once in Markdown, into everything a painter hands on.
//!
//! A guide travels one way:
//!
//! ```text
//! files ──read──▶ Source ──resolve──▶ Guide ──work──▶ Worked ──page──▶ views ──press──▶ published/
//!                   │                   │                │
//!                   └──── findings ◀────┴────────────────┘
//! ```
//!
//! - **read**: [`source::read`] walks the content folder through the [`door`] and gives a [`source::Source`]: typed
//!   records in which every value keeps its place.
//! - **resolve**: [`guide::resolve`] looks up every name and fills in what is left out. The [`guide::Guide`] that
//!   comes out can't name a paint which does not exist.
//! - **work**: [`work::work`] computes what follows for each scheme alone, in parallel: [`work::Worked`], with the
//!   cautions of [`caution`], the [`film`] that grows on the model, how much it takes of everything ([`quantity`], on
//!   surfaces that [`mesh`] may have measured), and what the [`rules`] say about it.
//! - **plan**: [`plan::plan`] lays an army's passes out over its evenings, when somebody first asks for it.
//! - **shop**: [`shop`] adds up what schemes and armies take, and chooses what has to be bought.
//! - **tell**: `tell` says each result as text, JSON, CSV, Markdown or calendar, for the terminal and for the site.
//! - **page**: [`page::outline`] names every file of the site, and [`page::make`] makes one: a plain view, one type a
//!   page, which a template shows without computing; `draw` draws the pictures in it, and [`card`] prints a scheme.
//! - **press**: [`press::press`] renders the views with a [`theme`], makes the [`picture`]s ready, and puts the new
//!   site in the place of the old one as one change.
//!
//! What stays the same is not made twice: a [`story::Session`] keeps what was worked out between two looks at a guide, and
//! the `easel` shows a [`story::Proof`] of it in the browser while it is written.
//!
//! What a coat of paint will look like is calculated by [`colour`], for all of them; [`nearest`] finds the paints and mixes
//! that come nearest to one, and [`brushout`] reads a paint's colours from a photograph.
//!
//! [`story`] has the functions that name these stages one after the other. Imports run one way, from the end of this
//! story to its beginning; [`report`], [`measure`] and [`trade`] are known by all.
//!
//! # Example
//!
//! A guide in memory, checked. One paint is misspelt, and the finding names the nearest one.
//!
//! ```
//! use maulstick::door::Memory;
//! use maulstick::story;
//!
//! let door = Memory::default()
//!     .with("content/guide.yaml", "title: Fen colours\nauthor: Quill Hollis\n")
//!     .with("content/paints/mere.yaml", "maker: Tarn & Daughter\nrange: Mere\nfamily: water\n\
//!         paints:\n  bog-iron: {name: Bog Iron, kind: paint}\n")
//!     .with("content/schemes/warden/scheme.md", "---\ntitle: Warden\nareas: {cloth: 100%}\n---\n")
//!     .with("content/schemes/warden/10-cloth.md", "---\ntitle: Cloth\nstage: basecoat\nareas: [cloth]\n\
//!         with: brush\npaints: [{use: bog-irn}]\n---\nTwo thin coats.\n");
//! let checked = story::check(&door)?;
//! let finding = checked.findings.iter().find(|finding| finding.check.id == "unknown-paint").unwrap();
//! assert_eq!(finding.mend, "did you mean 'bog-iron'?");
//! assert_eq!(checked.files.line_and_column(finding.place), (6, 16));
//! # Ok::<(), std::io::Error>(())
//! ```

pub mod bench;
pub mod brushout;
pub mod card;
pub mod caution;
pub mod cli;
pub mod colour;
pub mod compare;
pub mod door;
pub(crate) mod draw;
pub(crate) mod easel;
pub mod explain;
pub mod film;
pub mod guide;
pub mod measure;
pub mod mesh;
pub mod nearest;
pub mod page;
pub mod picture;
pub mod plan;
pub(crate) mod plate;
pub mod press;
pub mod quantity;
pub mod render;
pub mod report;
pub mod rules;
pub mod shop;
pub mod source;
pub mod story;
pub(crate) mod tell;
pub mod theme;
pub mod trade;
pub mod work;
