//! `guide.yaml`: what holds for the whole guide.

use super::step_file::PotEntry;
use crate::measure::{Celsius, Humidity, Millilitres, Number};
use crate::report::Placed;
use crate::source::reading::Table;
use crate::source::record::record;
use crate::source::scalar::{Currency, Flag, Id, Language, SiteAddress};
use crate::trade::{Paper, Stage};

record! {
    /// The whole guide.
    pub GuideFile, "guide.yaml" {
        /// What the guide is called.
        needed title: String = "The Lantern Fen Painting Book",
        /// Who wrote it.
        needed author: String = "Quill Hollis",
        /// One sentence on what it holds.
        optional summary: String = "How we paint the fen wardens.",
        /// Where it will be published; the feed and links from elsewhere need it.
        optional address: SiteAddress,
        /// The language of its texts; the theme must have words for it.
        optional language: Language = "en",
        /// The currency of its prices, by ISO 4217.
        optional currency: Currency,
        /// The paper its printed recipes are laid out for.
        optional paper: Paper,
        /// The licence of its texts and pictures, by its SPDX name.
        optional licence: String = "CC-BY-4.0",
        /// The theme it is shown in.
        optional theme: Id = "chart",
        /// The author's own fonts (TrueType or OpenType) for letters that the program's have not: cards, link pictures and
        /// pages take from them what is missing, the first first.
        optional fonts: Vec<Placed<String>> = "[fonts/reed-kana.otf]",
        /// How much a drop is, where a paint does not say; without it, what is usual for a kind.
        optional drop: Millilitres = "0.04 ml",
        /// The air where it is painted; drying times and frosting follow it.
        optional room: RoomEntry = "{temperature: 20 C, humidity: 50%}",
        /// The author's own figures in place of the program's constants.
        optional bench: Table<Id, Number> = "{}",
        /// Mixes that are made once and used in several schemes, by the ids under which steps use them.
        optional pots: Table<Id, PotEntry> = "{}",
        /// Whether HTML inside Markdown passes, cleaned; otherwise it is shown as text.
        optional raw_html: Flag = "false",
        /// What the index says above the schemes, in Markdown.
        optional welcome: String = "Pick a scheme, and take its card to the desk.",
        /// The groups of schemes, in their order on the index.
        optional groups: Vec<Placed<String>> = "[Wardens, Boats]",
        /// The author's own ordering rules, on top of the trade's.
        optional house_order: Vec<HouseOrderEntry>,
    }
}

record! {
    /// The air of the room.
    pub RoomEntry, "a room" {
        /// How warm it is.
        optional temperature: Celsius,
        /// How damp it is.
        optional humidity: Humidity,
    }
}

record! {
    /// One of the author's own ordering rules.
    pub HouseOrderEntry, "an ordering rule" {
        /// The stage that comes first.
        needed first: Stage = "glaze",
        /// The stage that comes later.
        needed then: Stage = "highlight",
        /// The reason, which a finding repeats.
        needed why: String = "We draw the edges before the colour.",
    }
}
