//! The safety gear on a shopping list, finished: a template shows it as it is and can't leave any of it out.

use super::caution_box::TRIANGLE;
use super::prose::escaped;
use crate::caution::{CautionTexts, Gear};
use crate::shop::{List, Use};

/// What the cautions of the steps ask for, with the sentence that defers to data sheets and rules; empty where nothing
/// is asked for. `links` gives the steps as links.
pub(in crate::page) fn html(list: &List<'_>, links: impl Fn(&[Use<'_>]) -> String) -> String {
    if list.gear.is_empty() {
        return String::new();
    }
    let language = &list.order.worked.guide.language;
    let texts = CautionTexts::of(language);
    let items: String = list.gear.iter().map(|(gear, uses)| item(texts, *gear, &links(uses))).collect();
    // Where there are no texts in the guide's language they are in English, and say so.
    let other = texts.language() != *language;
    let language = if other { format!(" lang=\"{}\"", texts.language()) } else { String::new() };
    format!("<div{language}><ul>{items}</ul><p class=\"slip-closing\">{}</p></div>", escaped(texts.closing()))
}

fn item(texts: &CautionTexts, gear: Gear, steps: &str) -> String {
    let said = texts.gear(gear);
    let (id, title, text) = (gear.name(), escaped(&said.title), escaped(&said.text));
    format!(
        "<li class=\"slip-line\"><input class=\"tick\" type=\"checkbox\" data-box=\"gear {id}\" aria-labelledby=\"g-{id}\">\
         <span class=\"slip-chip\">{TRIANGLE}</span><span class=\"slip-name\"><span class=\"slip-thing\" id=\"g-{id}\">\
         {title}</span> <span class=\"slip-note\">{text}</span> <span class=\"slip-uses\">{steps}</span></span></li>"
    )
}
