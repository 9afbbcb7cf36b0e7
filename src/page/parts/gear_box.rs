//! The safety gear on a shopping list, finished: a template shows it as it is and can't leave any of it out.

use super::caution_box::{self, TRIANGLE, in_language};
use super::prose::escaped;
use crate::caution::{self, CautionTexts, Gear};
use crate::shop::{List, Use};
use crate::tell::shopping::Voice;

/// What the cautions of the steps ask for: what to do first with what has to lie ready; and, for the end of the list, the texts
/// in full with the sentence that defers to data sheets and rules. Empty where there is nothing to say. `links` gives the steps
/// as links.
pub(in crate::page) fn html(list: &List<'_>, voice: Voice<'_>, links: impl Fn(&[Use<'_>]) -> String) -> [String; 2] {
    let guide = &list.order.worked.guide;
    let texts = CautionTexts::of(&guide.language);
    let items: String =
        list.gear.iter().map(|line| item(texts, line.gear, &voice.gear_note(line), &links(&line.uses))).collect();
    let language = in_language(guide, texts);
    let ready = if items.is_empty() { items } else { format!("<div{language}><ul>{items}</ul></div>") };
    let line = caution_box::line(guide, list.cautions.iter().map(|(_, said)| *said));
    let gathered = caution::together(list.cautions.iter().enumerate().map(|(at, (_, said))| (at, *said)));
    let full = caution_box::texts(guide, &gathered, None, |steps| {
        if steps.len() == list.cautions.len() {
            return String::new();
        }
        let uses: Vec<Use<'_>> = steps.iter().filter_map(|at| Some(list.cautions.get(*at)?.0)).collect();
        format!(" <span class=\"caution-steps\">{}</span>", links(&uses))
    });
    [line + &ready, full]
}

fn item(texts: &CautionTexts, gear: Gear, note: &str, steps: &str) -> String {
    let said = texts.gear(gear);
    let (id, title, text) = (gear.name(), escaped(&said.title), escaped(note));
    format!(
        "<li class=\"slip-line\"><input class=\"tick\" type=\"checkbox\" data-box=\"gear {id}\" aria-labelledby=\"g-{id}\">\
         <span class=\"slip-chip\">{TRIANGLE}</span><span class=\"slip-name\"><span class=\"slip-thing\" id=\"g-{id}\">\
         {title}</span> <span class=\"slip-note\">{text}</span> <span class=\"slip-uses\">{steps}</span></span></li>"
    )
}
