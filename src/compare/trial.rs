//! What explains a colour best: each step that coloured the area, tried with one thing changed.

use super::photo::Measured;
use crate::colour::{Stack, Uncertainty, space};
use crate::film::{Conditions, Film};
use crate::guide::{Mix, Scheme, Step};
use crate::measure::{Colour, Fraction};
use crate::trade::{Kind, Zone};

/// A trial is told only where it comes nearer by this much (CIEDE2000), and by this part of the difference.
const NEARER: (f64, f64) = (1.0, 0.25);

/// It explains a difference where it comes to within what the prediction may be off, or takes this part of it away: what is
/// about as far off as before explains nothing.
const EXPLAINED: f64 = 0.5;

/// One thing that may have been done otherwise than written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Change {
    /// One coat less.
    CoatLess,
    /// One coat more.
    CoatMore,
    /// Left out on this area.
    LeftOut,
    /// Twice as much thinner or medium.
    Thinner,
    /// Half as much thinner or medium.
    Thicker,
    /// Twice as much of the first colour.
    MoreOfFirst,
    /// Half as much of the first colour.
    LessOfFirst,
}

impl Change {
    /// All of them.
    pub const ALL: [Self; 7] = [
        Self::CoatLess,
        Self::CoatMore,
        Self::LeftOut,
        Self::Thinner,
        Self::Thicker,
        Self::MoreOfFirst,
        Self::LessOfFirst,
    ];

    /// Its name in JSON.
    pub fn name(self) -> &'static str {
        match self {
            Self::CoatLess => "coat-less",
            Self::CoatMore => "coat-more",
            Self::LeftOut => "left-out",
            Self::Thinner => "thinner",
            Self::Thicker => "thicker",
            Self::MoreOfFirst => "more-of-first",
            Self::LessOfFirst => "less-of-first",
        }
    }

    /// The step with this change on an area; `None` where it can't be made.
    fn of(self, step: &Step, area: usize) -> Option<Step> {
        let mut changed = step.clone();
        match self {
            Self::CoatLess if step.coats > 1 => changed.coats -= 1,
            Self::CoatMore => changed.coats = step.coats.checked_add(1)?,
            Self::LeftOut if step.areas.len() > 1 => changed.areas.retain(|other| *other != area),
            Self::LeftOut => changed.mix = Mix::default(),
            Self::Thinner => amounts(&mut changed, is_thinner, 2, 1)?,
            Self::Thicker => amounts(&mut changed, is_thinner, 1, 2)?,
            Self::MoreOfFirst => first_colour(&mut changed, 2, 1)?,
            Self::LessOfFirst => first_colour(&mut changed, 1, 2)?,
            Self::CoatLess => return None,
        }
        Some(changed)
    }
}

fn is_thinner(kind: Kind) -> bool {
    matches!(kind, Kind::Thinner | Kind::Medium)
}

/// Changes the amounts of all that is of some kind; `None` where nothing is.
fn amounts(step: &mut Step, which: fn(Kind) -> bool, times: u64, by: u64) -> Option<()> {
    let mut any = false;
    for part in step.mix.parts.iter_mut().filter(|part| which(part.paint.kind)) {
        part.amount = scaled(part.amount, times, by);
        any = true;
    }
    any.then_some(())
}

/// Changes the amount of the first colour of a mix of several.
fn first_colour(step: &mut Step, times: u64, by: u64) -> Option<()> {
    let coloured = step.mix.parts.iter().filter(|part| part.paint.kind.has_colour()).count();
    let first = step.mix.parts.iter_mut().find(|part| part.paint.kind.has_colour()).filter(|_| coloured > 1)?;
    first.amount = scaled(first.amount, times, by);
    Some(())
}

fn scaled(amount: Fraction, times: u64, by: u64) -> Fraction {
    let (numerator, denominator) = amount.terms();
    Fraction::new(numerator.saturating_mul(times), denominator.saturating_mul(by).max(1))
}

/// One step with one change, and how far the area then is from what was measured.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Trial {
    /// The step, by its place in the scheme's list.
    pub step: usize,
    /// What is changed.
    pub change: Change,
    /// What the area would look like.
    pub colour: Colour,
    /// How far that is from the model (CIEDE2000).
    pub apart: f64,
}

/// An area compared with its prediction.
#[derive(Debug, Clone, PartialEq)]
pub struct Compared {
    /// The area, by its position in the scheme's list.
    pub area: usize,
    /// What was predicted for its faces; `None`: a paint has no colour on file.
    pub predicted: Option<Colour>,
    /// What the model shows.
    pub measured: Colour,
    /// How far they are apart (CIEDE2000).
    pub apart: Option<f64>,
    /// How far such predictions may be off: half of them are within this.
    pub give_or_take: Option<f64>,
    /// Nine in ten models that are painted as written are within this, by what the prediction and the reading of the photo
    /// may be off.
    pub nine_in_ten: Option<f64>,
    /// What explains the difference best, the best first; empty where nothing comes clearly nearer and near enough.
    pub explained: Vec<Trial>,
}

/// Compares measured areas with the finished film.
pub fn compare(scheme: &Scheme, conditions: &Conditions, measured: &[Measured]) -> Vec<Compared> {
    let order: Vec<usize> = (0..scheme.steps.len()).collect();
    let film = Film::walk(scheme, &order, conditions);
    measured.iter().map(|one| area(scheme, &film, conditions, *one)).collect()
}

fn area(scheme: &Scheme, film: &Film<'_>, conditions: &Conditions, measured: Measured) -> Compared {
    let appearance = film.appearance(conditions);
    let predicted = appearance.colour_after(usize::MAX - 1, measured.area, Zone::Faces);
    let apart = predicted.map(|predicted| space::difference(predicted, measured.colour));
    let stack = appearance.after(usize::MAX - 1, measured.area, Zone::Faces).stack();
    let uncertainty = stack.and_then(Stack::uncertainty);
    let give_or_take = uncertainty.map(|uncertainty| uncertainty.median);
    let nine_in_ten = uncertainty.map(|uncertainty| uncertainty.between(Uncertainty::STATED).nine_in_ten);
    let changes: Vec<usize> = appearance.changes(measured.area, Zone::Faces).collect();
    let explained = apart.map_or_else(Vec::new, |apart| {
        let trials = changes.into_iter().flat_map(|step| Change::ALL.map(|change| (step, change)));
        let trials = trials.filter_map(|(step, change)| trial(scheme, conditions, measured, step, change));
        let explains = |trial: &Trial| {
            let may_be_off = nine_in_ten.unwrap_or_default().max(apart * (1.0 - EXPLAINED));
            trial.apart < apart - NEARER.0.max(apart * NEARER.1) && trial.apart <= may_be_off
        };
        let mut nearer: Vec<Trial> = trials.filter(explains).collect();
        nearer.sort_by(|one, other| one.apart.total_cmp(&other.apart));
        nearer.truncate(3);
        nearer
    });
    Compared { area: measured.area, predicted, measured: measured.colour, apart, give_or_take, nine_in_ten, explained }
}

fn trial(scheme: &Scheme, conditions: &Conditions, measured: Measured, step: usize, change: Change) -> Option<Trial> {
    let mut tried = scheme.clone();
    let changed = change.of(scheme.steps.get(step)?, measured.area)?;
    *tried.steps.get_mut(step)? = changed;
    let order: Vec<usize> = (0..tried.steps.len()).collect();
    let film = Film::walk(&tried, &order, conditions);
    let colour = film.appearance(conditions).colour_after(usize::MAX - 1, measured.area, Zone::Faces)?;
    Some(Trial { step, change, colour, apart: space::difference(colour, measured.colour) })
}
