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
#[derive(Debug, Clone)]
pub(crate) struct Bar {
    /// When it begins.
    pub start: u32,
    /// When it ends.
    pub end: u32,
    /// What it may say, the fullest first; empty where tools are made ready or cleaned.
    pub words: Vec<String>,
    /// The colour of what is laid, if it has one.
    pub colour: Option<Colour>,
}

/// The row is drawn so wide, and stretched to its place.
const WIDTH: f64 = 720.0;

/// From this luminance on a colour takes dark words: where black and white give the same contrast (WCAG 2.2).
const DARK_WORDS_FROM: f64 = 0.179;

/// The row of an evening. Bars with a colour are filled, those without are framed, changes of tools are hatched; what
/// dries is a dotted line below, so that hands-on time and drying differ in more than colour.
pub(crate) fn evening_row(row: &EveningRow) -> String {
    let scale = WIDTH / f64::from(row.length.max(1));
    let at = |seconds: u32| f64::from(seconds.min(row.length)) * scale;
    let mut svg = format!(
        "<svg class=\"evening\" viewBox=\"0 0 720 52\" preserveAspectRatio=\"none\" role=\"img\" aria-label=\"{}\">",
        escaped(&row.label)
    );
    svg.push_str(&hours(row, scale));
    for bar in &row.bars {
        svg.push_str(&drawn(bar, at(bar.start), at(bar.end)));
    }
    for (from, to) in together(&row.drying) {
        svg.push_str(&dotted(at(from), at(to), to > row.length));
    }
    svg + "</svg>"
}

/// A fine line for every half hour of the clock.
fn hours(row: &EveningRow, scale: f64) -> String {
    let first = row.from.next_multiple_of(1800) - row.from;
    let marks = (first..=row.length).step_by(1800).take(49).map(|at| f64::from(at) * scale);
    let lines: String = marks.map(|x| format!("M{} 0V52", figure(x))).collect();
    format!("<path class=\"evening-mark\" fill=\"none\" d=\"{lines}\" vector-effect=\"non-scaling-stroke\"/>")
}

fn drawn(bar: &Bar, from: f64, to: f64) -> String {
    let (x, width) = (figure(from), (to - from).max(1.0));
    let shape = |class: &str, fill: &str| {
        let class = format!("evening-bar {class}");
        format!(
            "<rect class=\"{}\"{fill} x=\"{x}\" y=\"4\" width=\"{}\" height=\"34\"/>",
            class.trim_end(),
            figure(width)
        )
    };
    if bar.words.is_empty() {
        return shape("evening-tools", "") + &hatched(from, width);
    }
    let (rect, ink) = match bar.colour {
        None => (shape("evening-clear", " fill=\"none\""), "evening-words"),
        Some(colour) => {
            let dark = space::luminance(space::linear(colour)) >= DARK_WORDS_FROM;
            let ink = if dark { "evening-words evening-dark" } else { "evening-words evening-light" };
            (shape("", &format!(" fill=\"{colour}\"")), ink)
        }
    };
    rect + &named(&bar.words, from, width, ink).unwrap_or_default()
}

/// The words in a bar: the fullest that go in whole. The shortest of them is marked where it still goes in on a narrow
/// screen, where it is what stays.
fn named(words: &[String], from: f64, width: f64, ink: &str) -> Option<String> {
    let wide = |words: &str| words.chars().count() as f64 * LETTER;
    let shown = words.iter().find(|words| wide(words) + 10.0 <= width)?;
    let shortest = words.last()?;
    let brief = if NARROW * wide(shortest) + 8.0 <= width { " evening-brief" } else { "" };
    let text = match shown.strip_prefix(shortest.as_str()).filter(|rest| !rest.is_empty()) {
        Some(rest) => format!("{}<tspan class=\"evening-more\">{}</tspan>", escaped(shortest), escaped(rest)),
        None => escaped(shown),
    };
    Some(format!("<text class=\"{ink}{brief}\" x=\"{}\" y=\"26\">{text}</text>", figure(from + 5.0)))
}

/// How wide a letter of a bar is at most.
const LETTER: f64 = 5.8;

/// How many times as much of a row a letter takes on a narrow screen.
const NARROW: f64 = 1.9;

/// The hours that are above the rows, from one moment of the day to another.
pub(crate) fn evening_hours(from: u32, to: u32) -> String {
    let length = to.saturating_sub(from).max(1);
    let scale = WIDTH / f64::from(length);
    let first = from.next_multiple_of(3600);
    let hours = (first..to).step_by(3600).take(48).map(|hour| {
        let x = f64::from(hour - from) * scale;
        format!(
            "<path class=\"evening-mark\" fill=\"none\" d=\"M{0} 14V20\" vector-effect=\"non-scaling-stroke\"/><text class=\"evening-words\" x=\"{1}\" y=\"14\">{2}:00</text>",
            figure(x),
            figure(x + 3.0),
            hour / 3600 % 24,
        )
    });
    let hours: String = hours.collect();
    format!(
        "<svg class=\"evening-hours\" viewBox=\"0 0 720 20\" preserveAspectRatio=\"none\" aria-hidden=\"true\">{hours}</svg>"
    )
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
        let bar = |words: Option<&str>, colour| Bar {
            start: 0,
            end: 3600,
            words: words.map(str::to_owned).into_iter().collect(),
            colour,
        };
        let row =
            |bar, drying| EveningRow { from: 0, length: 7200, bars: vec![bar], drying, label: "a <b>".to_owned() };
        let filled = evening_row(&row(bar(Some("Moss & rust"), Some(Colour([20, 40, 30]))), vec![(3600, 9000)]));
        assert!(
            filled.contains("fill=\"#14281e\"")
                && filled.contains("evening-light")
                && filled.contains("Moss &amp; rust")
        );
        assert!(filled.contains("evening-dries") && filled.contains("evening-on") && filled.contains("a &lt;b&gt;"));
        assert!(evening_row(&row(bar(Some("Gloss"), None), Vec::new())).contains("evening-clear"));
        assert!(evening_row(&row(bar(None, None), Vec::new())).contains("evening-hatch"));
    }

    #[test]
    fn stretches_that_meet_become_one() {
        assert_eq!(together(&[(5, 9), (0, 6), (20, 30), (7, 7)]), [(0, 9), (20, 30)]);
    }
}
