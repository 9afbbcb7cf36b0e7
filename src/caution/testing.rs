//! Small builders, so that a test names only what it is about.

use std::collections::BTreeSet;
use std::sync::Arc;

use crate::guide::{Bottle, Mix, MixPart, Model, Paint, Prose, Scheme, Step, StepPlaces, Suits, Tool, Zones};
use crate::measure::{Fraction, Millilitres};
use crate::report::{FileId, Place};
use crate::source::HazardCode;
use crate::trade::{Family, Hiding, Kind, Reach, Sheen, Stage, Technique, ToolKind};

/// A product in a large bottle, without hazard codes, named after its kind and family.
pub(super) fn paint(kind: Kind, family: Family) -> Paint {
    Paint {
        id: format!("{kind}-{family}"),
        name: format!("{kind} {family}"),
        maker: String::new(),
        range: String::new(),
        kind,
        family,
        colour: None,
        hiding: Hiding::Opaque,
        sheen: Sheen::Matt,
        code: None,
        drop: None,
        bottles: vec![Bottle { size: Millilitres(250.0), price: None }],
        swatches: Vec::new(),
        pigments: Vec::new(),
        thin_with: Vec::new(),
        suits: Vec::new(),
        hazards: Vec::new(),
        touch_dry: None,
        recoat: None,
        cure: None,
        discontinued: false,
        not_for_spraying: false,
        note: None,
        place: Place::default(),
    }
}

impl Paint {
    /// The same product under another name.
    pub(super) fn named(self, name: &str) -> Self {
        Self { name: name.to_owned(), ..self }
    }

    /// The same product with these codes, written with spaces between them.
    pub(super) fn hazards(self, codes: &str) -> Self {
        Self { hazards: codes.split_whitespace().map(|code| HazardCode(code.to_owned())).collect(), ..self }
    }

    /// The same product in one bottle of so many millilitres, or in none that is known.
    pub(super) fn bottle(self, size: Option<f64>) -> Self {
        let bottle = |ml| Bottle { size: Millilitres(ml), price: None };
        Self { bottles: size.map(bottle).into_iter().collect(), ..self }
    }

    /// The same product, said to suit a family.
    pub(super) fn suiting(self, family: Family) -> Self {
        Self { suits: vec![Suits::Family(family)], ..self }
    }
}

/// A tool of this name that `tools.yaml` does not list.
pub(super) fn tool(name: &str) -> Tool {
    let kind = ToolKind::Tool;
    Tool {
        id: String::new(),
        name: name.to_owned(),
        kind,
        per_model: None,
        pack: None,
        price: None,
        note: None,
        place: Place::default(),
        listed: false,
    }
}

/// A step with these products in the cup.
pub(super) fn step(stage: Stage, technique: Technique, paints: &[Paint]) -> Step {
    Step {
        stem: "10-test".to_owned(),
        via: None,
        number: 1,
        title: "Test".to_owned(),
        stage,
        areas: vec![0],
        all_over: true,
        hides: Vec::new(),
        covers: None,
        reach: Reach::All,
        from: None,
        deep: None,
        technique,
        mix: Mix { parts: paints.iter().map(part).collect(), ..Mix::default() },
        coats: 1,
        wait: None,
        dry: None,
        tools: Vec::new(),
        safety: Vec::new(),
        minutes: None,
        together: false,
        after: Vec::new(),
        optional: None,
        other_way_for: Vec::new(),
        photo: None,
        photos: Vec::new(),
        before: None,
        card: None,
        video: None,
        changed: Vec::new(),
        waivers: Vec::new(),
        body: prose(),
        file: FileId::default(),
        places: StepPlaces::default(),
        source: Arc::from(""),
    }
}

/// A scheme for a model of this material.
pub(super) fn scheme(material: Option<&str>, steps: Vec<Step>) -> Scheme {
    Scheme {
        slug: "test".to_owned(),
        version: None,
        left_out: Vec::new(),
        finished: false,
        title: "Test".to_owned(),
        summary: None,
        model: Model { material: material.map(ToOwned::to_owned), ..Model::default() },
        areas: Vec::new(),
        pots: Vec::new(),
        zones: Zones::default(),
        zones_place: None,
        photo: None,
        before: None,
        video: None,
        tags: Vec::new(),
        level: None,
        credits: Vec::new(),
        written: None,
        group: None,
        order: None,
        intro: prose(),
        steps: steps.into_iter().enumerate().map(|(at, step)| Step { number: at + 1, ..step }).collect(),
        linked_files: BTreeSet::new(),
        whole: true,
        file: FileId::default(),
        place: Place::default(),
        source: Arc::from(""),
    }
}

fn part(paint: &Paint) -> MixPart {
    MixPart { paint: Arc::new(paint.clone()), amount: Fraction::ONE, place: Place::default() }
}

fn prose() -> Prose {
    Prose { file: FileId::default(), text: Arc::from(""), start: 0, targets: Vec::new() }
}
