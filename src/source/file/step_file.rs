//! `schemes/<slug>/NN-name.md`: one step.

use super::super::node::Node;
use super::super::reading::{Reading, Table, Tried, Value};
use super::super::shape::Shape;
use crate::measure::{Count, Date, Fraction, FromText, Millimetres, Share, Time};
use crate::report::{Finding, Placed};
use crate::source::checks;
use crate::source::node::NodeValue;
use crate::source::record::record;
use crate::source::scalar::{Flag, Id, Mention, VideoTime, When};
use crate::trade::{Direction, Reach, Stage, Technique};

record! {
    /// One step.
    pub StepFile, "a step" {
        /// What the step is called.
        needed title: String = "Amber shell, five thin coats",
        /// What it does to the model.
        needed stage: Stage = "glaze",
        /// The areas it is about; `all` is every area. Needed unless the stage is prepare or basing.
        optional areas: Tried<Vec<Placed<Mention>>> = "[shell]",
        /// Of a step that assembles: the areas that can't be reached any more once it is done.
        optional hides: Vec<Placed<Mention>> = "[cockpit]",
        /// Of a step that masks: how much of its areas the mask covers, where that is a part of them, as for a pattern; what
        /// is laid while it lies there gets the rest.
        optional covers: Share = "60%",
        /// Where on the areas it puts paint; each stage has a default.
        optional r#where: Reach,
        /// From where it comes, for a spray, a dry brush, dust or a glow: what looks that way gets it, the rest does not.
        optional from: Direction,
        /// What puts the paint on.
        needed with: Technique,
        /// The mix: ratios in parts, or all in drops.
        optional paints: Vec<Placed<MixLine>> = "[{use: clear-amber, parts: 1}, {use: mere-clear-thinner, parts: 4}]",
        /// Two paints or pots that are blended on the model while both are wet, from the first, which lies in the recesses, to
        /// the second, which lies on the edges; in place of `paints`.
        optional blend: Vec<Placed<Mention>> = "[otter-strap, bog-iron]",
        /// Whether the products are used one beside or after the other and not mixed; then they have no parts.
        optional unmixed: Flag,
        /// How deep one coat of a pour, a gel or a paste is, in place of a film.
        optional deep: Millimetres,
        /// How many coats; 1 if left out.
        optional coats: Count,
        /// How long to wait between coats; left out: as long as the paint needs. `0 min`: into the wet one.
        optional wait: Time = "15 min",
        /// How long it dries before the next step on these areas; left out: as long as that step needs. `0 min`: wet in wet.
        optional dry: Time = "12 h",
        /// What is needed beside the paints.
        optional tools: Vec<Placed<Id>> = "[fine-airbrush]",
        /// The author's own cautions, beside those that the step has anyway.
        optional safety: Vec<String> = "[Keep the extractor running until the last coat is touch dry.]",
        /// Hands-on minutes per model and coat.
        optional minutes: Fraction,
        /// Whether every model is done in one go, from one lot of the mix.
        optional together: Flag,
        /// Steps that must come before; the order of the numbers is the default.
        optional after: Vec<Placed<Mention>> = "[20-ground]",
        /// The variants of the scheme that have this step, and no others.
        optional only_for: Vec<Placed<Mention>> = "[night-watch]",
        /// The variants of the scheme that do without this step.
        optional not_for: Vec<Placed<Mention>> = "[night-watch]",
        /// When it may be left out, as a sentence; the scheme is checked without it too.
        optional optional: When,
        /// The steps whose work this one does by other means; it comes after them, and they are the default.
        optional other_way_for: Vec<Placed<Mention>> = "[30-pale-gold]",
        /// A picture of the model after the step.
        optional photo: String = "photos/amber.jpg",
        /// What the picture shows; needed with a photo.
        optional alt: Tried<String> = "The shell after the third coat.",
        /// More pictures, shown one after the other with what is below them; the first is the step's, where it has no
        /// `photo`.
        optional photos: Vec<Placed<PhotoEntry>> = "[{photo: photos/wet.jpg, alt: The wet wash in the folds., caption: Still wet}]",
        /// A picture from before the step, shown beside the one from after it.
        optional before: String = "photos/gold.jpg",
        /// What that picture shows; needed with it.
        optional before_alt: Tried<String> = "The shell in plain gold.",
        /// The sentence for the printed card and the recipe; left out: the first of the instruction.
        optional card: String = "Chase the puddle off the nose.",
        /// Where in the scheme's video it is shown.
        optional video: VideoTime,
        /// What changed, by day; shown to readers and in the feed.
        optional changed: Table<Date, String> = "{2026-11-02: Four coats became five.}",
        /// Rules that this step breaks on purpose, each with the reason, which the guide prints.
        optional waive: Table<Id, String> = "{glaze-without-ground: We want the dark look.}",
    }
}

record! {
    /// One of several pictures.
    pub PhotoEntry, "a picture" {
        /// The picture.
        needed photo: String = "photos/wet.jpg",
        /// What can be seen on it.
        optional alt: Tried<String> = "The wet wash in the folds.",
        /// What is below it.
        optional caption: String = "Still wet",
    }
}

record! {
    /// A mix that is made once and used in several steps.
    pub PotEntry, "a pot" {
        /// What the pot is called.
        optional title: String = "Lantern brown",
        /// What is mixed in it.
        needed paints: Vec<Placed<MixLine>> = "[{use: bog-iron, parts: 2}, {use: mere-thinner, parts: 1}]",
        /// Whether it is one lot for all models and all steps that use it.
        optional together: Flag,
    }
}

record! {
    /// The long form of a line of a mix.
    MixRecord, "a line of a mix" {
        /// The paint or the pot, by its id.
        needed r#use: Mention = "clear-amber",
        /// How many parts.
        optional parts: Tried<Fraction> = "1",
        /// How many drops.
        optional drops: Tried<Fraction> = "8",
    }
}

/// One line of a mix: a paint's id alone, or with parts or drops.
#[derive(Debug, Clone, Default)]
pub struct MixLine {
    /// The paint, by its id.
    pub paint: Option<Placed<Mention>>,
    /// How many parts.
    pub parts: Option<Placed<Fraction>>,
    /// How many drops.
    pub drops: Option<Placed<Fraction>>,
    /// Whether parts or drops were written that can't be read.
    pub unread: bool,
}

/// A line such as `moss-green: 3`, which names its paint as a key.
fn as_key_and_amount(node: &Node, reading: &mut Reading) -> Option<MixLine> {
    let NodeValue::Map(pairs) = &node.value else { return None };
    let [(key, amount)] = pairs.as_slice() else { return None };
    let known = ["use", "parts", "drops"].contains(&key.value.as_str());
    let NodeValue::Text(text) = &amount.value else { return None };
    let parts = Fraction::from_text(text).ok().filter(|_| !known)?;
    let message = "a line of a mix names its paint after 'use'";
    let mend = format!("write '{{use: {}, parts: {parts}}}'", key.value);
    reading.tell(Finding::new(&checks::VALUE_SHAPE, key.place, message, mend));
    let paint = Mention::from_text(&key.value).ok().map(|id| Placed::new(id, key.place));
    Some(MixLine { paint, parts: Some(Placed::new(parts, amount.place)), ..MixLine::default() })
}

/// The mend of a text such as `moss-green 3:1 water-medium`, which has a ratio in it; in a list it becomes two entries of that.
fn mend_of_ratio(text: &str, in_list: bool) -> Option<String> {
    let ratio = |word: &str| {
        let (one, other) = word.split_once(':')?;
        Some((Fraction::from_text(one).ok()?, Fraction::from_text(other).ok()?))
    };
    let words = || text.split([' ', ',', '+']).filter(|word| !matches!(*word, "" | "and" | "to" | "with"));
    let (one, other) = words().find_map(ratio)?;
    let names: Vec<&str> = words().filter(|word| ratio(word).is_none()).collect();
    Some(match names.as_slice() {
        [first, second] if in_list => format!(
            "write two entries of the list in place of this one: {{use: {first}, parts: {one}}} and {{use: {second}, parts: {other}}}"
        ),
        [first, second] => format!("write [{{use: {first}, parts: {one}}}, {{use: {second}, parts: {other}}}]"),
        _ => "write an entry for each paint, such as '- {use: clear-amber, parts: 1}'".to_owned(),
    })
}

/// The mend of `moss-green, water-medium`: a list whose brackets were forgotten.
fn mend_of_commas(text: &str) -> Option<String> {
    let names: Vec<&str> = text.split(',').map(str::trim).collect();
    let are_ids = names.len() > 1 && names.iter().all(|name| Id::from_text(name).is_ok());
    are_ids.then(|| format!("write [{}]", names.join(", ")))
}

impl Value for MixLine {
    fn read(node: &Node, reading: &mut Reading) -> Option<Self> {
        if let NodeValue::Text(text) = &node.value {
            if let Some(mend) = mend_of_ratio(text, !reading.is_whole_value(node)) {
                let message = "a mix names each of its paints with its parts";
                reading.tell(Finding::new(&checks::VALUE_SHAPE, node.place, message, mend));
                return None;
            }
            if let Some(mend) = mend_of_commas(text).filter(|_| reading.is_whole_value(node)) {
                let message = "expected a list, found one text with commas in it";
                reading.tell(Finding::new(&checks::VALUE_SHAPE, node.place, message, mend));
                return None;
            }
            return Some(Self { paint: Placed::<Mention>::read(node, reading), ..Self::default() });
        }
        if let Some(line) = as_key_and_amount(node, reading) {
            return Some(line);
        }
        let MixRecord { r#use, parts, drops, .. } = MixRecord::read(node, reading)?;
        let unread = [&parts, &drops].into_iter().flatten().any(|amount| amount.value.0.is_none());
        let read = |amount: Option<Placed<Tried<Fraction>>>| {
            amount.and_then(|placed| Some(Placed::new(placed.value.0?, placed.place)))
        };
        Some(Self { paint: r#use, parts: read(parts), drops: read(drops), unread })
    }

    fn shape() -> Shape {
        Shape::Either(Box::new(MixRecord::shape()), Box::new(Mention::shape()))
    }
}
