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
    /// The titles of the armies whose models are added up, where nobody says how many and several have the scheme.
    pub added_up: Vec<String>,
    /// What need not be bought.
    pub cupboard: Cupboard,
}

impl<'a> Order<'a> {
    /// One scheme for so many models; left out, for as many as are [usual](usual_models).
    pub fn of_scheme(worked: &'a Worked, scheme: &'a WorkedScheme, models: Option<u32>) -> Self {
        Self {
            worked,
            target: scheme.scheme.slug.clone(),
            armies: Vec::new(),
            title: scheme.scheme.title.clone(),
            units: vec![(scheme, models.unwrap_or_else(|| usual_models(worked, scheme)))],
            added_up: if models.is_none() { added_up(worked, scheme) } else { Vec::new() },
            cupboard: Cupboard::default(),
        }
    }

    /// A whole army, less what it says is in the cupboard.
    pub fn of_army(worked: &'a Worked, army: &Army) -> Self {
        let mut order = Self {
            worked,
            target: army.slug.clone(),
            armies: vec![army.slug.clone()],
            title: army.title.clone(),
            units: Vec::new(),
            added_up: Vec::new(),
            cupboard: Cupboard::of(&army.have, &worked.conditions.bench),
        };
        for unit in &army.units {
            if let Some(scheme) = worked.schemes.iter().find(|known| known.scheme.slug == unit.scheme.slug) {
                order.add(scheme, unit.models);
            }
        }
        order
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
        other.units.iter().for_each(|(scheme, models)| self.add(scheme, *models));
        for army in &other.added_up {
            if !self.added_up.contains(army) {
                self.added_up.push(army.clone());
            }
        }
        self.cupboard.take_over(&other.cupboard);
    }

    /// A scheme that is named twice is painted in one go.
    fn add(&mut self, scheme: &'a WorkedScheme, models: u32) {
        match self.units.iter_mut().find(|(known, _)| known.scheme.slug == scheme.scheme.slug) {
            Some((_, before)) => *before = before.saturating_add(models),
            None => self.units.push((scheme, models)),
        }
    }

    /// How many models it is for.
    pub fn models(&self) -> u64 {
        self.units.iter().map(|(_, models)| u64::from(*models)).sum()
    }
}

/// How many models a list is for where nobody says: as many as all of the guide's armies with this scheme have;
/// otherwise as many as are on the desk at a time, or one where the model is as large as a vehicle, or a bust.
pub fn usual_models(worked: &Worked, scheme: &WorkedScheme) -> u32 {
    let bench = &worked.conditions.bench;
    let is_bust = scheme.scheme.model.kind == Some(ModelKind::Bust);
    let alone = is_bust || scheme.surface.is_some_and(|surface| surface.area.0 >= bench.get(Figure::VehicleFrom));
    let in_armies = with_scheme(worked, scheme).fold(0_u32, |sum, (_, models)| sum.saturating_add(models));
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to 1 ..= 1000")]
    let batch = bench.get(Figure::Batch).round().clamp(1.0, 1000.0) as u32;
    match in_armies {
        0 if alone => 1,
        0 => batch,
        models => models,
    }
}

/// The armies that have a scheme, and how many models of it each has.
fn with_scheme<'a>(worked: &'a Worked, scheme: &'a WorkedScheme) -> impl Iterator<Item = (&'a Army, u32)> {
    let own = |army: &'a Army| {
        let units = army.units.iter().filter(|unit| unit.scheme.slug == scheme.scheme.slug);
        (army, units.fold(0_u32, |sum, unit| sum.saturating_add(unit.models)))
    };
    worked.guide.armies.iter().map(own).filter(|(_, models)| *models > 0)
}

/// The armies whose models are added up for a scheme; none where there are not several.
fn added_up(worked: &Worked, scheme: &WorkedScheme) -> Vec<String> {
    let titles: Vec<String> = with_scheme(worked, scheme).map(|(army, _)| army.title.clone()).collect();
    if titles.len() > 1 { titles } else { Vec::new() }
}
