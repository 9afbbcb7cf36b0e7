//! The list as plain text: a till slip for a terminal, a printer or a chat.

use unicode_width::UnicodeWidthStr;

use super::voice::{Voice, name, origin};
use crate::guide::Tool;
use crate::shop::{Line, List, Role, Use};
use crate::trade::ToolKind;

/// Narrower than this, a name and its price do not stand beside each other.
const NARROWEST: usize = 40;

/// Wider than this, the eye loses the line.
const WIDEST: usize = 76;

/// Columns that the price takes.
const PRICE: usize = 10;

/// What comes before the name of a thing to buy.
const OPEN: &str = "[ ] ";

/// What comes before the name of a thing that is there.
const DONE: &str = "[x] ";

/// The list in so many columns.
pub(crate) fn text(list: &List<'_>, voice: Voice<'_>, columns: usize) -> String {
    let mut slip = Slip { text: String::new(), width: columns.clamp(NARROWEST, WIDEST) };
    slip.line(&voice.say("shopping.title", &[]).to_uppercase());
    slip.wrapped("", &voice.heading(list));
    slip.columns(&voice.to_buy(list), "", &voice.money(list.total, list));
    slip.wrapped("", &voice.first(list));
    products(&mut slip, list, voice);
    gear(&mut slip, list, voice);
    things(&mut slip, list, voice);
    let cautions = voice.in_full(list);
    if !cautions.is_empty() {
        slip.head(&voice.cautions.labels().cautions, "");
        for caution in cautions {
            slip.wrapped("    ", &caution);
        }
    }
    slip.line("");
    slip.rule('=');
    slip.columns(&voice.to_buy(list), "", &voice.money(list.total, list));
    for note in voice.notes(list) {
        slip.wrapped("", &note);
    }
    slip.text
}

fn products(slip: &mut Slip, list: &List<'_>, voice: Voice<'_>) {
    let mut unit = list.currency().unwrap_or_default().to_owned();
    for role in Role::ALL {
        let mut lines = list.lines.iter().filter(|line| line.role == *role).peekable();
        if lines.peek().is_some() {
            slip.head(&voice.say(&format!("role.{role}"), &[]), &std::mem::take(&mut unit));
        }
        lines.for_each(|line| product(slip, line, list, voice));
    }
}

fn product(slip: &mut Slip, line: &Line<'_>, list: &List<'_>, voice: Voice<'_>) {
    let mark = if line.is_there() { DONE } else { OPEN };
    let name = format!("{mark}{}", name(&line.paint.name));
    let price = if line.picks.is_empty() { String::new() } else { voice.price(line.price, list) };
    slip.columns(&name, &voice.bought(line), &price);
    slip.wrapped("    ", &origin(line));
    slip.wrapped("    ", &[voice.need(line, list), voice.uses(&line.uses, list)].join(" · "));
    for more in voice.more(line, list) {
        slip.wrapped("    ", &more);
    }
}

fn gear(slip: &mut Slip, list: &List<'_>, voice: Voice<'_>) {
    let own = voice.things_of(ToolKind::Protection, list);
    if list.gear.is_empty() && own.is_empty() {
        return;
    }
    slip.head(&voice.say("tool-kind.protection", &[]), "");
    for line in &list.gear {
        slip.wrapped(OPEN, &voice.cautions.gear(line.gear).title);
        slip.wrapped("    ", &format!("{} · {}", voice.gear_note(line), voice.uses(&line.uses, list)));
    }
    if !own.is_empty() {
        slip.wrapped("    ", &format!("{}:", voice.cautions.labels().author_note));
    }
    for (name, about) in &own {
        slip.thing(name, about);
    }
}

fn things(slip: &mut Slip, list: &List<'_>, voice: Voice<'_>) {
    for (kind, things) in voice.things(list) {
        slip.head(&kind, "");
        for (name, about) in &things {
            slip.thing(name, about);
        }
    }
}

/// The slip while it is written.
struct Slip {
    text: String,
    width: usize,
}

impl Slip {
    fn line(&mut self, line: &str) {
        self.text.push_str(line.trim_end());
        self.text.push('\n');
    }

    fn rule(&mut self, of: char) {
        let rule: String = std::iter::repeat_n(of, self.width).collect();
        self.line(&rule);
    }

    /// The heading of a group, with what its last column counts.
    fn head(&mut self, title: &str, unit: &str) {
        self.line("");
        self.columns(title, "", unit);
        self.rule('-');
    }

    /// A name on the left and a figure or two on the right; a name that is too long has lines of its own above them.
    fn columns(&mut self, left: &str, middle: &str, right: &str) {
        let right = if right.is_empty() && !middle.is_empty() {
            format!("{middle}{}", " ".repeat(PRICE))
        } else if right.width() < PRICE && !middle.is_empty() {
            format!("{middle}{}{right}", " ".repeat(PRICE - right.width()))
        } else {
            format!("{middle} {right}").trim_start().to_owned()
        };
        let room = self.width.saturating_sub(right.width() + 1);
        let lines = wrapped(left, self.width, room, "    ");
        let (last, above) = lines.split_last().map_or(("", &[][..]), |(last, above)| (last.as_str(), above));
        for line in above {
            self.line(line);
        }
        if last.width() > room {
            self.line(last);
            self.line(&format!("{}{right}", " ".repeat(self.width.saturating_sub(right.width()))));
        } else {
            self.line(&format!("{last}{}{right}", " ".repeat(self.width.saturating_sub(last.width() + right.width()))));
        }
    }

    /// Words in as many lines as they take, behind a mark or as far in as one.
    fn wrapped(&mut self, mark: &str, words: &str) {
        if words.is_empty() {
            return;
        }
        let indent: String = mark.chars().map(|_| ' ').collect();
        for line in wrapped(&format!("{mark}{words}"), self.width, self.width, &indent) {
            self.line(&line);
        }
    }

    /// A thing that is no product.
    fn thing(&mut self, name: &str, about: &str) {
        self.wrapped(OPEN, name);
        self.wrapped("    ", about);
    }
}

/// A text in lines of at most `width` columns, broken between words; the first line has only `first` columns.
///
/// What is longer than a line by itself stands in a line by itself.
fn wrapped(text: &str, width: usize, first: usize, indent: &str) -> Vec<String> {
    let start = &text[..text.len() - text.trim_start().len()];
    let mut lines = vec![start.to_owned()];
    let mut begun = false;
    for word in text.trim_start().split(' ').filter(|word| !word.is_empty()) {
        let room = if lines.len() == 1 { first } else { width };
        let line = lines.last_mut().map(|line| (line.width(), line));
        match line {
            Some((used, line)) if !begun || used + 1 + word.width() <= room => {
                if begun {
                    line.push(' ');
                }
                line.push_str(word);
            }
            _ => lines.push(format!("{indent}{word}")),
        }
        begun = true;
    }
    lines
}

/// A kind of thing, and each thing with what there is to say about it.
type Things = (String, Vec<(String, String)>);

impl Voice<'_> {
    /// What was asked for, and for how many models.
    pub(crate) fn heading(self, list: &List<'_>) -> String {
        let models = self.count("slip.for-models", list.order.models());
        format!("{}, {models}", name(&list.order.title))
    }

    /// What else is worth saying about a line.
    pub(crate) fn more(self, line: &Line<'_>, list: &List<'_>) -> Vec<String> {
        let gone = line.paint.discontinued.then(|| self.say("paint.discontinued", &[]));
        let have = if line.is_there() { None } else { self.partly_there(line) };
        let instead =
            [self.still_sold(line), self.any_will_do(line, list), self.would_do(line), self.substitutes(line)];
        [gone, have].into_iter().chain(instead).flatten().collect()
    }

    /// The tools under their kinds, without those that keep people safe.
    pub(crate) fn things(self, list: &List<'_>) -> Vec<Things> {
        let kinds = ToolKind::ALL.iter().filter(|kind| **kind != ToolKind::Protection);
        let things = kinds.map(|kind| (self.say(&format!("tool-kind.{kind}"), &[]), self.things_of(*kind, list)));
        things.filter(|(_, things)| !things.is_empty()).collect()
    }

    /// The tools of a kind; what the guide has no product for stands with what is used up.
    pub(crate) fn things_of(self, kind: ToolKind, list: &List<'_>) -> Vec<(String, String)> {
        let about = |tool: &Tool, uses: &[Use<'_>]| {
            let note = tool.note.as_ref().map(|note| name(note));
            self.pieces(tool, list)
                .into_iter()
                .chain(note)
                .chain([self.uses(uses, list)])
                .collect::<Vec<_>>()
                .join(" · ")
        };
        let own = list.tools.iter().filter(|(tool, _)| tool.kind == kind);
        let own = own.map(|(tool, uses)| (name(&tool.name), about(tool, uses)));
        let unlisted = list.unlisted.iter().filter(|_| kind == ToolKind::Consumable);
        let unlisted = unlisted.map(|(purpose, need, uses)| {
            (self.purpose(*purpose), format!("{} · {}", self.unlisted(*need, list), self.uses(uses, list)))
        });
        own.chain(unlisted).collect()
    }
}
