//! A recipe as plain text, to paste into a chat or below a video. It says what the printed card says.

use super::lines::{PartLine, Recipe, StepLine};
use crate::report::wording;
use crate::tell::cautions::CautionLine;
use crate::theme::Words;
use crate::work::{Worked, WorkedScheme};

/// The recipe of a scheme as plain text, cautions in full.
pub(crate) fn text(all: &Worked, worked: &WorkedScheme, words: &Words) -> String {
    write(&Recipe::of(all, worked, words), words)
}

/// Writes a recipe as text with lines that end in `\n`.
fn write(recipe: &Recipe<'_>, words: &Words) -> String {
    let mut text = Text::default();
    text.line(recipe.title);
    text.line(&"=".repeat(recipe.title.chars().count().min(72)));
    text.line(recipe.summary.unwrap_or_default());
    text.gap();
    for (name, value) in &recipe.glance {
        text.line(&format!("{name}: {value}"));
    }
    cautions(&mut text, recipe);
    if !recipe.steps.is_empty() {
        text.heading(&words.filled("glance.steps", &[]));
    }
    for step in &recipe.steps {
        self::step(&mut text, step);
    }
    needs(&mut text, recipe, words);
    text.gap();
    text.line(&words.filled("foot.by", &[("guide", recipe.guide), ("author", recipe.author)]));
    text.line(recipe.address.as_deref().unwrap_or_default());
    text.written
}

fn cautions(text: &mut Text, recipe: &Recipe<'_>) {
    let cautions = &recipe.cautions;
    let groups = [
        ("", &cautions.entries),
        (cautions.by_author.as_str(), &cautions.notes),
        (cautions.on_products.as_str(), &cautions.statements),
    ];
    if groups.iter().all(|(_, group)| group.is_empty()) {
        return;
    }
    text.heading(&cautions.heading);
    text.line(&recipe.to_do);
    for (heading, group) in groups.into_iter().filter(|(_, group)| !group.is_empty()) {
        text.line(heading);
        for CautionLine { title, steps, text: says, .. } in group {
            let title = if title.is_empty() { String::new() } else { format!("{title} ") };
            text.line(&format!("- {title}({steps}): {says}"));
        }
    }
    text.line(&cautions.closing);
}

fn step(text: &mut Text, step: &StepLine) {
    text.line(&format!("{}. {}", step.number, step.title));
    if !step.to_do.is_empty() {
        text.line(&format!("   ! {}", step.to_do));
    }
    let facts: Vec<&str> = step.facts.iter().map(|fact| fact.words.as_str()).collect();
    text.line(&format!("   {}", facts.join(" · ")));
    if !step.mix.is_empty() {
        let parts: Vec<String> = step.mix.iter().map(part).collect();
        let load = step.load.as_ref().map(|load| format!(", {load}")).unwrap_or_default();
        text.line(&format!("   {}: {}{load}", step.label, parts.join(step.between())));
    }
    if let Some(sentence) = &step.sentence {
        text.line(&format!("   {sentence}"));
    }
    for change in &step.changed {
        text.line(&format!("   {change}"));
    }
    text.gap();
}

fn part(part: &PartLine) -> String {
    let amount = if part.amount.is_empty() { String::new() } else { format!("{} ", part.amount) };
    let load = part.load.as_ref().map(|drops| format!(" ({drops})")).unwrap_or_default();
    let unit = part.unit.as_ref().map(|unit| format!("{unit} ")).unwrap_or_default();
    format!("{amount}{unit}{}{load}", part.name)
}

fn needs(text: &mut Text, recipe: &Recipe<'_>, words: &Words) {
    if recipe.bought.is_empty() && recipe.tools.is_empty() {
        return;
    }
    text.heading(&format!("{}, {}", words.filled("shopping.title", &[]), recipe.models));
    for line in &recipe.bought {
        let about = [line.count.as_str(), &line.maker].into_iter().filter(|part| !part.is_empty());
        let about = about.collect::<Vec<_>>().join(" · ");
        let behind = if about.is_empty() { about } else { format!(" ({about})") };
        text.line(&format!("- {}{behind}", line.name));
    }
    if !recipe.tools.is_empty() {
        text.line(&format!("{}: {}", words.filled("step.tools", &[]), recipe.tools.join(", ")));
    }
}

/// Text in the making.
#[derive(Default)]
struct Text {
    written: String,
}

impl Text {
    /// One line; nothing for an empty one. What is not seen becomes visible, and line breaks become spaces.
    fn line(&mut self, text: &str) {
        if text.trim().is_empty() {
            return;
        }
        let stand_in = |letter: char| match letter {
            '\n' | '\r' | '\t' => ' ',
            _ if wording::is_hidden(letter) => char::REPLACEMENT_CHARACTER,
            _ => letter,
        };
        self.written.extend(text.trim_end().chars().map(stand_in));
        self.written.push('\n');
    }

    /// An empty line, if there is none yet.
    fn gap(&mut self) {
        if !self.written.ends_with("\n\n") {
            self.written.push('\n');
        }
    }

    fn heading(&mut self, text: &str) {
        self.gap();
        self.line(text);
        self.line(&"-".repeat(text.chars().count()));
    }
}
