//! What was asked for: points that are points, and a label that a file of paints may have.

use super::super::arguments::SwatchArguments;
use super::super::terminal::Trouble;
use crate::brushout::{Bands, Bare, Card, Label, PatchSize};
use crate::measure::{FromText, Share, hyphenated};
use crate::report::{visible_line, wording};
use crate::source::Id;
use crate::trade::Kind;

/// A question that can be answered.
#[derive(Debug)]
pub(super) struct SwatchAsked {
    /// Where things lie.
    pub(super) card: Card,
    /// What the paint is called.
    pub(super) label: Label,
}

impl SwatchAsked {
    /// Checks what was typed.
    pub(super) fn of(arguments: &SwatchArguments) -> Result<Self, Trouble> {
        let patch = arguments.patch.as_deref().map(|text| read::<PatchSize>("--patch", text)).transpose()?;
        let bands = bands(arguments)?;
        let card = Card {
            white: read("--white", &arguments.white)?,
            black: read("--black", &arguments.black)?,
            bare: bare(arguments, bands)?,
            dark: dark(arguments, bands)?,
            bands,
            patch: patch.unwrap_or(PatchSize::USUAL),
        };
        Ok(Self { card, label: label(arguments)? })
    }
}

/// What the bands of the card reflect.
fn bands(arguments: &SwatchArguments) -> Result<Bands, Trouble> {
    let white = share("--paper-value", &arguments.paper_value)?;
    if !(0.4..=1.0).contains(&white) {
        let message = "a white card reflects from 40% to 100%".to_owned();
        return Err(Trouble::new(message, "write what it reflects; white card has 80% to 92%, usual paper 85%"));
    }
    let black = share("--black-value", &arguments.black_value)?;
    if black > 0.15 {
        let message = "a black card of more than 15% is a grey one".to_owned();
        return Err(Trouble::new(message, "write what it reflects; matt black card has 2% to 5%"));
    }
    Ok(Bands { white, black })
}

fn dark(arguments: &SwatchArguments, bands: Bands) -> Result<Vec<Bare>, Trouble> {
    let dark =
        |text: &String| Ok(Bare { name: "bare black card", at: read("--black-card", text)?, reflects: bands.black });
    arguments.black_card.iter().map(dark).collect()
}

fn share(option: &str, text: &str) -> Result<f64, Trouble> {
    Ok(read::<Share>(option, text)?.as_fraction().as_f64())
}

fn bare(arguments: &SwatchArguments, bands: Bands) -> Result<Vec<Bare>, Trouble> {
    let grey = share("--grey-value", &arguments.grey_value)?;
    if grey < 0.02 {
        let message = "a grey card of less than 2% is nearly black".to_owned();
        return Err(Trouble::new(message, "read on the card what it reflects; usual ones have 18%"));
    }
    let paper = arguments.paper.iter().map(|text| ("--paper", "bare white card", text, bands.white));
    let grey = arguments.grey.iter().map(|text| ("--grey", "bare grey card", text, grey));
    let bare = |(option, name, text, reflects): (&str, &'static str, &String, f64)| {
        Ok(Bare { name, at: read(option, text)?, reflects })
    };
    paper.chain(grey).map(bare).collect()
}

fn label(arguments: &SwatchArguments) -> Result<Label, Trouble> {
    let kind: Kind = read("--kind", &arguments.kind)?;
    if !kind.has_colour() {
        let coloured = Kind::ALL.iter().filter(|kind| kind.has_colour()).map(|kind| kind.name());
        let mend = format!("write {}", wording::either(coloured));
        return Err(Trouble::new(format!("a {kind} has no colour to read"), &mend));
    }
    let id = match (&arguments.id, &arguments.name) {
        (Some(id), _) => read::<Id>("--id", id)?.0,
        (None, Some(name)) => read::<Id>("--id", &hyphenated(name))?.0,
        (None, None) => "new-paint".to_owned(),
    };
    let name = arguments.name.clone().unwrap_or_else(|| words_of(&id));
    if name.trim().is_empty() || name.chars().count() > 200 || name.chars().any(|c| wording::is_hidden(c) || c == '\n')
    {
        let message = format!("can't use the name {}", wording::quoted(&visible_line(&name, 80)));
        return Err(Trouble::new(message, "write a name of one line, as it is on the label"));
    }
    Ok(Label { id, name, kind, coats: arguments.coats.into() })
}

/// `marsh-gold` as `Marsh Gold`.
fn words_of(id: &str) -> String {
    let capital = |word: &str| word.chars().take(1).flat_map(char::to_uppercase).chain(word.chars().skip(1)).collect();
    id.split('-').map(capital).collect::<Vec<String>>().join(" ")
}

/// Reads what follows an option.
fn read<T: FromText>(option: &str, text: &str) -> Result<T, Trouble> {
    T::from_text(text).map_err(|why| {
        let shown = wording::quoted(&visible_line(text, 80));
        Trouble::new(format!("can't read {option} {shown}: {why}"), &format!("write {}", T::EXPECTED))
    })
}
