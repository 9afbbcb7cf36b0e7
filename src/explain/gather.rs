//! All words that can be explained, each taken from where it is defined.

use super::entry::{Entry, Topic};
use super::fields::JSON_FIELDS;
use super::files;
use super::keys::keys;
use crate::bench::Bench;
use crate::caution::{CautionKind, CautionTexts};
use crate::guide::SPOT_PERCENT;
use crate::report::Check;
use crate::rules;
use crate::story::REGISTRY;
use crate::trade::{
    Direction, Family, Hiding, Kind, Material, ModelKind, Reach, Sheen, Skill, Stage, Technique, ToolKind,
};

/// Every word, topic by topic.
pub fn entries() -> Vec<Entry> {
    let mut all: Vec<Entry> = files::entries().collect();
    all.extend(of_keys());
    all.extend(REGISTRY.iter().map(of_check));
    all.extend(Stage::ALL.iter().map(|stage| of_stage(*stage)));
    all.extend(Technique::ALL.iter().map(|word| Entry::new(Topic::Technique, word.name(), word.about())));
    all.extend(Reach::ALL.iter().map(|word| Entry::new(Topic::Where, word.name(), word.about())));
    all.extend(Direction::ALL.iter().map(|word| Entry::new(Topic::From, word.name(), word.about())));
    all.extend(Kind::ALL.iter().map(|word| Entry::new(Topic::Kind, word.name(), word.about())));
    all.extend(Family::ALL.iter().map(|word| Entry::new(Topic::Family, word.name(), word.about())));
    all.extend(Hiding::ALL.iter().map(|word| Entry::new(Topic::Finish, word.name(), word.about())));
    all.extend(Sheen::ALL.iter().map(|word| Entry::new(Topic::Finish, word.name(), word.about())));
    all.extend(ModelKind::ALL.iter().map(|word| Entry::new(Topic::Model, word.name(), word.about())));
    let materials = Material::ALL.iter().filter(|word| word.is_one());
    all.extend(materials.map(|word| Entry::new(Topic::Material, word.name(), word.about())));
    all.extend(ToolKind::ALL.iter().map(|word| Entry::new(Topic::Tool, word.name(), word.about())));
    all.extend(Skill::ALL.iter().map(|word| Entry::new(Topic::Level, word.name(), word.about())));
    all.extend(of_bench());
    all.extend(CautionKind::ALL.iter().map(|kind| of_caution(*kind)));
    all.extend(JSON_FIELDS.iter().map(|field| {
        let mut entry = Entry::new(Topic::Field, field.path, field.about);
        entry.of = Some(field.command);
        entry
    }));
    all
}

fn of_keys() -> impl Iterator<Item = Entry> {
    keys().into_iter().map(|key| {
        let mut entry = Entry::new(Topic::Key, key.path, key.about);
        entry.of = Some(key.file);
        if key.needed {
            entry.more.push(("needed", "yes".to_owned()));
        }
        if !key.choices.is_empty() {
            entry.more.push(("one of", key.choices.join(", ")));
        }
        entry.more.push(("example", key.example));
        entry
    })
}

fn of_check(check: &'static Check) -> Entry {
    let mut entry = Entry::new(Topic::Check, check.id, sentence(check.about));
    entry.more.push(("level", check.level.word().to_owned()));
    entry.more.push(("why", sentence(check.why)));
    if let Some(example) = rules::example(check.id) {
        entry.more.push(("says", example.to_owned()));
    }
    if check.safety {
        entry.more.push(("on purpose", "a safety rule can't be broken on purpose".to_owned()));
    } else if rules::example(check.id).is_some() {
        let waiver = format!("a step that breaks it on purpose says 'waive: {{{}: the reason}}'", check.id);
        entry.more.push(("on purpose", waiver));
    }
    entry
}

fn of_stage(stage: Stage) -> Entry {
    let mut entry = Entry::new(Topic::Stage, stage.name(), stage.about());
    entry.more.push(("reaches", format!("{}, unless the step says 'where'", stage.reach())));
    if stage == Stage::Detail {
        let small =
            format!("all of an area that has at most {SPOT_PERCENT} % of the model, where it is its first colour");
        entry.more.push(("reaches too", small));
    }
    if stage == Stage::Prepare {
        let known = "that the model gets wet is known from the step's title, file name, tools and text ('wash', 'rinse', \
                     'soap', also in German, French and Spanish), or from a product of kind 'cleaner'; then it dries \
                     before paint. Filling and sanding are known from the title, the file name and the tools";
        entry.more.push(("washing", known.to_owned()));
    }
    entry
}

fn of_bench() -> impl Iterator<Item = Entry> {
    Bench::entries().map(|figure| {
        let mut entry = Entry::new(Topic::Bench, figure.key.clone(), figure.about);
        entry.more.push(("default", format!("{} {}", figure.value, figure.unit.words())));
        entry.more.push(("trust", figure.trust.words().to_owned()));
        entry.more.push(("replace", format!("in guide.yaml, 'bench: {{{}: {}}}'", figure.key, figure.value)));
        entry
    })
}

fn of_caution(kind: CautionKind) -> Entry {
    let mut entry = Entry::new(Topic::Caution, kind.name(), kind.about());
    entry.more.push(("says", CautionTexts::of("en").caution(kind).text.clone()));
    entry
}

/// A check's words as a sentence.
fn sentence(words: &str) -> String {
    let mut letters = words.chars();
    let first: String = letters.next().into_iter().flat_map(char::to_uppercase).collect();
    format!("{first}{}.", letters.as_str())
}
