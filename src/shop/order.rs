//! What a list is made for: schemes and armies by name, and for how many models.

use super::Cupboard;
use crate::bench::Figure;
use crate::guide::{self, Army, Unclear};
use crate::trade::ModelKind;
use crate::work::{Worked, WorkedScheme};

/// Schemes for so many models each, less what is in the cupboard.
#[derive(Debug, Clone)]
pub struct Order<'a> {
    /// The guide.
    pub worked: &'a Worked,
    /// The slugs of what was asked for.
    pub target: String,
    /// The slugs of the armies among them.
    pub armies: Vec<String>,
    /// What a reader calls it.
    pub title: String,
    /// Each scheme once, and for how many models.
    pub units: Vec<(&'a WorkedScheme, u32)>,
    /// The rounds of work that they are painted in: armies whose evenings overlap are in one.
    pub rounds: Vec<Round<'a>>,
    /// The titles of the armies whose models are added up, where nobody says how many and several have the scheme.
    pub added_up: Vec<String>,
    /// What need not be bought.
    pub cupboard: Cupboard,
}

/// What is painted at one time, from mixes of its own.
#[derive(Debug, Clone)]
pub struct Round<'a> {
    /// The armies in it; schemes that are asked for by name go with whatever there is.
    armies: Vec<&'a Army>,
    /// Each scheme once, and for how many models.
    pub units: Vec<(&'a WorkedScheme, u32)>,
}

impl<'a> Order<'a> {
    /// One scheme for so many models; left out, for as many as are [usual](usual_models).
    pub fn of_scheme(worked: &'a Worked, scheme: &'a WorkedScheme, models: Option<u32>) -> Self {
        let units = vec![(scheme, models.unwrap_or_else(|| usual_models(worked, scheme)))];
        Self {
            worked,
            target: scheme.scheme.slug.clone(),
            armies: Vec::new(),
            title: scheme.scheme.title.clone(),
            rounds: vec![Round { armies: Vec::new(), units: units.clone() }],
            units,
            added_up: if models.is_none() { added_up(worked, scheme) } else { Vec::new() },
            cupboard: Cupboard::default(),
        }
    }

    /// A whole army, less what it says is in the cupboard.
    pub fn of_army(worked: &'a Worked, army: &'a Army) -> Self {
        let mut units = Vec::new();
        for unit in &army.units {
            if let Some(scheme) = worked.schemes.iter().find(|known| known.scheme.slug == unit.scheme.slug) {
                add(&mut units, scheme, unit.models);
            }
        }
        Self {
            worked,
            target: army.slug.clone(),
            armies: vec![army.slug.clone()],
            title: army.title.clone(),
            rounds: vec![Round { armies: vec![army], units: units.clone() }],
            units,
            added_up: Vec::new(),
            cupboard: Cupboard::of(&army.have, &worked.conditions.bench),
        }
    }

    /// The schemes and armies of these names, by slug or title; `models` is for the schemes among them.
    ///
    /// # Errors
    /// Where a name is not known, or a number of models is given and there is no scheme that it is for.
    pub fn find(worked: &'a Worked, names: &[String], models: Option<u32>) -> Result<Self, Unclear> {
        let mut whole: Option<Self> = None;
        let mut schemes = 0;
        let known = worked.schemes.iter().map(|known| known.scheme.names());
        let armies = worked.guide.armies.iter().map(|army| [army.slug.as_str(), &army.title, &army.title]);
        let known: Vec<[&str; 3]> = known.chain(armies).collect();
        for name in names {
            let at = guide::find(name, "a scheme or army", &known)?;
            let one = match worked.schemes.get(at) {
                Some(scheme) => {
                    schemes += 1;
                    Self::of_scheme(worked, scheme, models)
                }
                None => Self::of_army(worked, &worked.guide.armies[at - worked.schemes.len()]),
            };
            match &mut whole {
                Some(whole) => whole.join(&one),
                None => whole = Some(one),
            }
        }
        let message = "a number of models is given, and an army has its own";
        let mend = "leave out --models, or name a scheme; an army's numbers are in its file";
        let unclear = |message: &str, mend: &str| Unclear { message: message.to_owned(), mend: mend.to_owned() };
        match whole {
            Some(_) if models.is_some() && schemes == 0 => Err(unclear(message, mend)),
            Some(whole) => Ok(whole),
            None => Err(unclear("nothing is named to shop for", "name a scheme or an army")),
        }
    }

    fn join(&mut self, other: &Self) {
        self.target = format!("{}, {}", self.target, other.target);
        self.title = format!("{}, {}", self.title, other.title);
        self.armies.extend_from_slice(&other.armies);
        other.units.iter().for_each(|(scheme, models)| add(&mut self.units, scheme, *models));
        other.rounds.iter().for_each(|round| self.paint(round));
        for army in &other.added_up {
            if !self.added_up.contains(army) {
                self.added_up.push(army.clone());
            }
        }
        self.cupboard.take_over(&other.cupboard);
    }

    /// Adds a round: to one that is painted at the same time, or to itself.
    fn paint(&mut self, round: &Round<'a>) {
        let worked = self.worked;
        let overlap = |known: &Round<'a>| {
            let mut both = known.armies.iter().flat_map(|one| round.armies.iter().map(move |other| (*one, *other)));
            known.armies.is_empty() || round.armies.is_empty() || both.any(|(one, other)| worked.overlap(one, other))
        };
        match self.rounds.iter_mut().find(|known| overlap(known)) {
            Some(known) => {
                round.units.iter().for_each(|(scheme, models)| add(&mut known.units, scheme, *models));
                known.armies.extend_from_slice(&round.armies);
            }
            None => self.rounds.push(round.clone()),
        }
    }

    /// Leaves out schemes.
    pub fn retain(&mut self, keep: impl Fn(&WorkedScheme) -> bool) {
        self.units.retain(|(worked, _)| keep(worked));
        for round in &mut self.rounds {
            round.units.retain(|(worked, _)| keep(worked));
        }
    }

    /// How many models it is for.
    pub fn models(&self) -> u64 {
        self.units.iter().map(|(_, models)| u64::from(*models)).sum()
    }
}

/// A scheme that is named twice is painted in one go.
fn add<'a>(units: &mut Vec<(&'a WorkedScheme, u32)>, scheme: &'a WorkedScheme, models: u32) {
    match units.iter_mut().find(|(known, _)| known.scheme.slug == scheme.scheme.slug) {
        Some((_, before)) => *before = before.saturating_add(models),
        None => units.push((scheme, models)),
    }
}

/// How many models a list is for where nobody says: as many as the armies with this scheme have that are painted at one time;
/// otherwise as many as are on the desk at a time, or one where the model is as large as a vehicle, or a bust.
pub fn usual_models(worked: &Worked, scheme: &WorkedScheme) -> u32 {
    let bench = &worked.conditions.bench;
    let is_bust = scheme.scheme.model.kind == Some(ModelKind::Bust);
    let alone = is_bust || scheme.surface.is_some_and(|surface| surface.area.0 >= bench.get(Figure::VehicleFrom));
    let round = worked.largest_round(&scheme.scheme.slug);
    let in_armies = round.iter().fold(0_u32, |sum, (_, models)| sum.saturating_add(*models));
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to 1 ..= 1000")]
    let batch = bench.get(Figure::Batch).round().clamp(1.0, 1000.0) as u32;
    match in_armies {
        0 if alone => 1,
        0 => batch,
        models => models,
    }
}

/// The armies whose models are added up for a scheme; none where there are not several.
fn added_up(worked: &Worked, scheme: &WorkedScheme) -> Vec<String> {
    let round = worked.largest_round(&scheme.scheme.slug);
    let titles: Vec<String> = round.iter().map(|(army, _)| army.title.clone()).collect();
    if titles.len() > 1 { titles } else { Vec::new() }
}
