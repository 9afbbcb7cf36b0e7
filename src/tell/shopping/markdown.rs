//! The list as Markdown: task lists, to paste where friends talk.

use std::fmt::Write as _;

use super::voice::{Voice, name, origin};
use crate::shop::{Line, List, Role};
use crate::trade::ToolKind;

/// The list as Markdown.
pub(crate) fn markdown(list: &List<'_>, voice: Voice<'_>) -> String {
    let mut text = format!("# {}\n\n{}\n", plain(&voice.say("shopping.title", &[])), plain(&voice.heading(list)));
    let first = voice.first(list);
    if !first.is_empty() {
        let _ = write!(text, "\n**{}**\n", plain(&first));
    }
    for role in Role::ALL {
        let lines: Vec<String> =
            list.lines.iter().filter(|line| line.role == *role).map(|line| product(line, list, voice)).collect();
        chapter(&mut text, &voice.say(&format!("role.{role}"), &[]), &lines);
    }
    let gear = list.gear.iter().map(|line| {
        let said = voice.cautions.gear(line.gear);
        task(false, &said.title, &format!("{} {}", voice.gear_note(line), voice.uses(&line.uses, list)))
    });
    let gear: Vec<String> = gear.collect();
    chapter(&mut text, &voice.say("tool-kind.protection", &[]), &gear);
    let own = voice.things_of(ToolKind::Protection, list);
    let own: Vec<String> = own.iter().map(|(name, about)| task(false, name, about)).collect();
    if !own.is_empty() {
        let _ = write!(text, "\n{}:\n\n{}", plain(&voice.cautions.labels().author_note), own.concat());
    }
    for (kind, things) in voice.things(list) {
        let lines: Vec<String> = things.iter().map(|(name, about)| task(false, name, about)).collect();
        chapter(&mut text, &kind, &lines);
    }
    let cautions: Vec<String> = voice.in_full(list).iter().map(|caution| format!("- {}\n", plain(caution))).collect();
    chapter(&mut text, &voice.cautions.labels().cautions, &cautions);
    let sum = format!("{}: {}", voice.to_buy(list), voice.money(list.total, list));
    let _ = write!(text, "\n**{}**\n\n{}\n", plain(&sum), plain(&voice.notes(list).join(" ")));
    text
}

fn chapter(text: &mut String, title: &str, lines: &[String]) {
    if !lines.is_empty() {
        let _ = write!(text, "\n## {}\n\n{}", plain(title), lines.concat());
    }
}

fn product(line: &Line<'_>, list: &List<'_>, voice: Voice<'_>) -> String {
    let price = line.price.filter(|_| !line.picks.is_empty()).map(|price| voice.money(Some(price), list));
    let parts = [
        voice.bought(line),
        price.unwrap_or_default(),
        origin(line),
        voice.need(line, list),
        voice.uses(&line.uses, list),
    ];
    let about: Vec<String> = parts.into_iter().filter(|part| !part.is_empty()).chain(voice.more(line, list)).collect();
    task(line.is_there(), &name(&line.paint.name), &about.join(" · "))
}

fn task(done: bool, name: &str, about: &str) -> String {
    let mark = if done { "x" } else { " " };
    format!("- [{mark}] **{}** · {}\n", plain(name), plain(about))
}

/// A text that Markdown, and the chat it is pasted into, takes for nothing but text.
fn plain(text: &str) -> String {
    let mut shown = String::with_capacity(text.len());
    for c in text.split_whitespace().collect::<Vec<_>>().join(" ").chars() {
        if matches!(c, '\\' | '`' | '*' | '_' | '[' | ']' | '<' | '>' | '~' | '|' | '&' | '#' | '!' | '$' | '@' | '^') {
            shown.push('\\');
        }
        shown.push(c);
    }
    // What looks like an address must not become a link.
    shown.replace("://", "\\://").replace("www.", "www\\.")
}

#[cfg(test)]
mod tests {
    use super::plain;

    #[test]
    fn a_name_stays_a_name() {
        let hostile = "*bold* [x](http://a.example) <b>& `c`\n# head @all www.a.example";
        let shown = plain(hostile);
        assert_eq!(shown, r"\*bold\* \[x\](http\://a.example) \<b\>\& \`c\` \# head \@all www\.a.example");
        let mut html = String::new();
        pulldown_cmark::html::push_html(&mut html, pulldown_cmark::Parser::new(&shown));
        assert!(!html.contains("<em>") && !html.contains("<a ") && !html.contains("<b>"), "{html}");
    }
}
