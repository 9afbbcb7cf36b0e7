//! One evening as a row: bars for what is done, a dotted line for what dries meanwhile.

use super::hand::figure;
use crate::colour::space;
use crate::measure::Colour;

/// What an evening's row shows; all times in seconds since the evening began.
#[derive(Debug, Clone, Default)]
pub(crate) struct EveningRow {
    /// When the evening begins, in seconds of the day.
    pub from: u32,
    /// How long the evening is.
    pub length: u32,
    /// What is done, in order.
    pub bars: Vec<Bar>,
    /// When something dries; what lies beyond the evening is drawn as an arrow.
    pub drying: Vec<(u32, u32)>,
    /// The same in words.
    pub label: String,
}

/// One stretch of work.
#[derive(Debug, Clone, Default)]
pub(crate) struct Bar {
    /// When it begins.
    pub start: u32,
    /// When it ends.
    pub end: u32,
    /// What the plan calls the step, and which coat; empty where tools are made ready or cleaned.
    pub code: String,
    /// What may be said beside that, the fullest first.
    pub more: Vec<String>,
    /// The same in full, for whoever points at it.
    pub title: String,
    /// The colour of what is laid, if it has one.
    pub colour: Option<Colour>,
}

/// The row is drawn so wide, and stretched to its place.
const WIDTH: f64 = 720.0;

/// From this luminance on a colour takes dark words: where black and white give the same contrast (WCAG 2.2).
const DARK_WORDS_FROM: f64 = 0.179;

/// The row of an evening. Bars with a colour are filled, those without are framed, changes of tools are hatched; what
/// dries is a dotted line below, so that hands-on time and drying differ in more than colour. Lines are stretched to the
/// place of the row; bars are placed in shares of it, so that their letters keep their shape at every width.
pub(crate) fn evening_row(row: &EveningRow) -> String {
    let scale = WIDTH / f64::from(row.length.max(1));
    let at = |seconds: u32| f64::from(seconds.min(row.length)) * scale;
    let mut lines = hours(row, scale);
    let mut bars = String::new();
    for bar in &row.bars {
        let (from, width) = (at(bar.start), (at(bar.end) - at(bar.start)).max(1.0));
        match bar.code.as_str() {
            "" => lines.push_str(&hatched(from, width)),
            _ => bars.push_str(&drawn(bar, from, width)),
        }
    }
    for (from, to) in together(&row.drying) {
        lines.push_str(&dotted(at(from), at(to), to > row.length));
    }
    format!(
        "<svg class=\"evening\" role=\"img\" aria-label=\"{}\"><svg viewBox=\"0 0 720 52\" preserveAspectRatio=\"none\">\
         {lines}</svg>{bars}</svg>",
        escaped(&row.label)
    )
}

/// A fine line for every half hour of the clock.
fn hours(row: &EveningRow, scale: f64) -> String {
    let first = row.from.next_multiple_of(1800) - row.from;
    let marks = (first..=row.length).step_by(1800).take(49).map(|at| f64::from(at) * scale);
    let lines: String = marks.map(|x| format!("M{} 0V52", figure(x))).collect();
    format!("<path class=\"evening-mark\" fill=\"none\" d=\"{lines}\" vector-effect=\"non-scaling-stroke\"/>")
}

/// A bar with its name: along it where that goes in, else upright; and no thinner than its upright letters.
fn drawn(bar: &Bar, from: f64, width: f64) -> String {
    let (fill, ink) = match bar.colour {
        None => (" fill=\"none\"".to_owned(), "evening-clear"),
        Some(colour) => {
            let dark = space::luminance(space::linear(colour)) >= DARK_WORDS_FROM;
            (format!(" fill=\"{colour}\""), if dark { "evening-dark" } else { "evening-light" })
        }
    };
    let code = wide(&bar.code);
    let mut class = format!("evening-bar {ink}");
    for room in &ROOMS {
        let there = width * room.row / WIDTH;
        if code > there {
            class.push_str(room.upright);
        }
        if there < THINNEST {
            class.push_str(room.thin);
        }
    }
    let widest = width * ROOMS[0].row / WIDTH;
    let more = bar.more.iter().find(|more| wide(&format!("{} {more}", bar.code)) <= widest);
    let more = more.map(|more| format!("<tspan class=\"evening-more\"> {}</tspan>", escaped(more)));
    format!(
        "<svg class=\"{class}\" x=\"{}%\" width=\"{}%\"><title>{}</title>\
         <rect{fill} y=\"8%\" width=\"100%\" height=\"65%\"/><text>{}{}</text></svg>",
        share(from),
        share(width),
        escaped(&bar.title),
        escaped(&bar.code),
        more.unwrap_or_default()
    )
}

/// A part of a row in hundredths of it.
fn share(part: f64) -> String {
    figure(part / WIDTH * 100.0)
}

/// How much a name takes with some air around it, in pixels of a screen.
fn wide(words: &str) -> f64 {
    words.chars().count() as f64 * LETTER + 6.0
}

/// How wide a letter of a bar is at most.
const LETTER: f64 = 6.2;

/// What upright letters take.
const THINNEST: f64 = 14.0;

/// How wide a row is at least where there is so much room, and what a bar is marked with whose name does not go in.
struct Room {
    row: f64,
    upright: &'static str,
    thin: &'static str,
}

/// A wide window; a tablet, or paper with smaller letters; a telephone.
const ROOMS: [Room; 3] = [
    Room { row: 700.0, upright: " up-wide", thin: " thin-wide" },
    Room { row: 500.0, upright: " up-middle", thin: " thin-middle" },
    Room { row: 290.0, upright: " up-narrow", thin: " thin-narrow" },
];

/// The hours that are above the rows, from one moment of the day to another.
pub(crate) fn evening_hours(from: u32, to: u32) -> String {
    let scale = WIDTH / f64::from(to.saturating_sub(from).max(1));
    let first = from.next_multiple_of(3600);
    let hours = (first..to).step_by(3600).take(48).map(|hour| {
        let x = share(f64::from(hour - from) * scale);
        format!(
            "<line class=\"evening-mark\" x1=\"{x}%\" x2=\"{x}%\" y1=\"70%\" y2=\"100%\"/>\
             <text x=\"{x}%\" dx=\"3\" y=\"70%\">{}:00</text>",
            hour / 3600 % 24,
        )
    });
    let hours: String = hours.collect();
    format!("<svg class=\"evening-hours\" aria-hidden=\"true\">{hours}</svg>")
}

fn hatched(from: f64, width: f64) -> String {
    let places = (0_u32..).map(|at| from + 3.0 + 4.0 * f64::from(at)).take_while(|x| *x < from + width);
    let lines: String = places.map(|x| format!("M{} 4V38", figure(x))).collect();
    format!("<path class=\"evening-hatch\" fill=\"none\" d=\"{lines}\" vector-effect=\"non-scaling-stroke\"/>")
}

fn dotted(from: f64, to: f64, goes_on: bool) -> String {
    let line = format!("M{} 46H{}", figure(from), figure(to));
    let mut drawn =
        format!("<path class=\"evening-dries\" fill=\"none\" d=\"{line}\" vector-effect=\"non-scaling-stroke\"/>");
    if goes_on {
        drawn.push_str(
            "<path class=\"evening-on\" fill=\"none\" d=\"M712 42l7 4-7 4\" vector-effect=\"non-scaling-stroke\"/>",
        );
    }
    drawn
}

/// Stretches of time that meet become one.
fn together(stretches: &[(u32, u32)]) -> Vec<(u32, u32)> {
    let mut sorted: Vec<(u32, u32)> = stretches.iter().copied().filter(|(from, to)| to > from).collect();
    sorted.sort_unstable();
    let mut merged: Vec<(u32, u32)> = Vec::new();
    for (from, to) in sorted {
        match merged.last_mut() {
            Some((_, last)) if from <= *last => *last = (*last).max(to),
            _ => merged.push((from, to)),
        }
    }
    merged
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn work_and_drying_differ_in_more_than_colour() {
        let row =
            |bar, drying| EveningRow { from: 0, length: 7200, bars: vec![bar], drying, label: "a <b>".to_owned() };
        let filled = evening_row(&row(bar(3600, "A1", Some(Colour([20, 40, 30]))), vec![(3600, 9000)]));
        assert!(filled.contains("fill=\"#14281e\"") && filled.contains("evening-light"));
        assert!(filled.contains("evening-dries") && filled.contains("evening-on") && filled.contains("a &lt;b&gt;"));
        assert!(evening_row(&row(bar(3600, "A1", None), Vec::new())).contains("evening-clear"));
        assert!(evening_row(&row(bar(3600, "", None), Vec::new())).contains("evening-hatch"));
    }

    fn bar(end: u32, code: &str, colour: Option<Colour>) -> Bar {
        let more = vec!["Moss & rust on all the plates and straps – Levy".to_owned(), "Moss & rust".to_owned()];
        Bar { start: 0, end, code: code.to_owned(), more, title: "A1 Moss & rust".to_owned(), colour }
    }

    #[test]
    fn every_bar_has_its_name_however_short_it_is() {
        let row = |end| EveningRow { length: 7200, bars: vec![bar(end, "A1·2", None)], ..EveningRow::default() };
        let half = evening_row(&row(3600));
        assert!(half.contains("<text>A1·2<tspan class=\"evening-more\"> Moss &amp; rust") && half.contains("Levy"));
        assert!(!half.contains(" up-") && half.contains("<title>A1 Moss &amp; rust</title>"), "{half}");
        let third = evening_row(&row(1200));
        assert!(third.contains(">A1·2<tspan") && !third.contains("Levy") && !third.contains(" up-"), "{third}");
        let short = evening_row(&row(400));
        assert!(
            short.contains("<text>A1·2</text>") && short.contains("evening-clear up-middle up-narrow\""),
            "{short}"
        );
        let least = evening_row(&row(60));
        assert!(least.contains("<text>A1·2</text>") && least.contains("up-wide thin-wide"), "{least}");
    }

    #[test]
    fn stretches_that_meet_become_one() {
        assert_eq!(together(&[(5, 9), (0, 6), (20, 30), (7, 7)]), [(0, 9), (20, 30)]);
    }
}
