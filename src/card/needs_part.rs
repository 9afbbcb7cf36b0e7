//! The end of a card: the shopping list in short, what lies on the desk, and room for notes.

use super::composer::Composer;
use super::flow::Strip;
use super::fonts::Voice;
use super::ink;
use super::measures::CAUTION;
use super::running::Running;
use super::sheet::{Mark, Role};
use crate::tell::recipe::Recipe;

/// From one line for notes to the next: 7 mm, as in a school book.
const NOTE: f32 = 20.0;
/// The last line keeps so far off the rule of the foot, or one could not write on it.
const ABOVE_FOOT: f32 = 10.0;
/// The heading of the notes with the space around it.
const ABOVE_NOTES: f32 = 28.0;
/// Fewer lines for notes are none.
const FEWEST_NOTES: u8 = 2;

/// The shopping list in short: what has to be bought, to tick off, then tools.
pub(super) fn compose(composer: &mut Composer<'_>, recipe: &Recipe<'_>) {
    if recipe.bought.is_empty() && recipe.tools.is_empty() {
        return;
    }
    let title = format!("{}, {}", composer.say("shopping.title"), recipe.models);
    let (part, heading) = composer.heading(&title, None);
    let mut strips = Vec::new();
    for (maker, lines) in by_maker(recipe) {
        let list = composer.outline.add(Role::List, Some(part));
        let mut rows = Running::new(composer.width());
        let bold = composer.measures.look(Voice::Bold, CAUTION, ink::INK);
        let label = composer.measures.look(Voice::Label, CAUTION + 0.5, ink::INK);
        if !maker.is_empty() {
            let piece = composer.outline.add(Role::Entry, Some(list));
            rows.words(&mut composer.setter, &format!("{maker}:"), bold, piece);
        }
        for (name, count) in lines {
            let entry = composer.outline.add(Role::Entry, Some(list));
            let piece = composer.outline.add(Role::Body, Some(entry));
            let said = if count.is_empty() { name.to_owned() } else { format!("{name}, {count}") };
            rows.ticked(&mut composer.setter, &said, label, piece);
        }
        strips.extend([rows.strip(), Strip::gap(1.5)]);
    }
    strips.extend(tools(composer, recipe, part));
    let least = composer.flow.first(&strips, 0.0);
    composer.begin(&title, heading, least);
    composer.flow.stack(strips);
}

/// What is of each maker, in the order of the list; what is of nobody, such as tufts, stands together too.
fn by_maker<'a>(recipe: &'a Recipe<'_>) -> Vec<(&'a str, Vec<(&'a str, &'a str)>)> {
    let mut makers: Vec<(&str, Vec<(&str, &str)>)> = Vec::new();
    for line in &recipe.bought {
        let own = (line.name.as_str(), line.count.as_str());
        match makers.iter_mut().find(|(maker, _)| *maker == line.maker) {
            Some((_, lines)) => lines.push(own),
            None => makers.push((&line.maker, vec![own])),
        }
    }
    makers
}

fn tools(composer: &mut Composer<'_>, recipe: &Recipe<'_>, part: usize) -> Vec<Strip> {
    if recipe.tools.is_empty() {
        return Vec::new();
    }
    let bold = composer.measures.look(Voice::Bold, CAUTION, ink::INK);
    let text = composer.measures.look(Voice::Label, CAUTION + 0.5, ink::INK);
    let piece = composer.outline.add(Role::Paragraph, Some(part));
    let on_desk = format!("{}: ", composer.say("step.tools"));
    let joined = recipe.tools.join(" · ");
    let width = composer.width();
    composer.paragraph(&[(&on_desk, bold), (&joined, text)], width, piece)
}

/// Whether there is room for some lines to write on.
pub(super) fn has_room_for_notes(composer: &Composer<'_>) -> bool {
    composer.flow.room() >= ABOVE_NOTES + f32::from(FEWEST_NOTES) * NOTE + ABOVE_FOOT
}

/// Lines to write on, down to the end of the last sheet, where there is room for some.
pub(super) fn notes(composer: &mut Composer<'_>) {
    if !has_room_for_notes(composer) {
        return;
    }
    let title = composer.say("card.notes");
    let (_, heading) = composer.heading(&title, None);
    composer.begin(&title, heading, NOTE);
    let width = composer.width();
    while composer.flow.room() >= NOTE + ABOVE_FOOT {
        let marks = vec![Mark::line((0.0, NOTE - 1.0), (width, NOTE - 1.0), ink::HAIR, 0.5)];
        composer.flow.stack(vec![Strip { height: NOTE, marks, keep: false }]);
    }
}
