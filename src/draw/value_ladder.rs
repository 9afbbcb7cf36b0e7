//! The value ladder: how light an area is after each step that changes it, so that one sees how far a highlight jumps.
//!
//! Faces are bars, recesses wedges that point down, edges wedges that point up; a line leads from faces to faces.

use std::fmt::Write as _;

use super::hand::figure;
use crate::work::Rise;

/// The width of one step.
const COLUMN: f64 = 42.0;

/// How high the ladder is from black to white.
const TALL: f64 = 90.0;

/// Figures nearer than this would touch.
const APART: f64 = 11.0;

/// The ladder of one area; the number of a step is its place in the list and one. Hidden from screen readers: the page
/// says the same in words around it.
pub(crate) fn value_ladder(rises: &[Rise]) -> String {
    let mut columns: Vec<&[Rise]> = rises.chunk_by(|a, b| a.step == b.step).collect();
    columns.retain(|column| !column.is_empty());
    let wide = figure(COLUMN * columns.len() as f64 + 4.0);
    let mut svg = format!(
        "<svg class=\"values-picture\" viewBox=\"0 0 {wide} 116\" width=\"{wide}\" height=\"116\" aria-hidden=\"true\"><path fill=\"none\" stroke=\"currentColor\" stroke-opacity=\".3\" d=\"M0 98H{wide}M0 8H{wide}\"/>"
    );
    svg.push_str(&way(&columns));
    let (mut values, mut numbers) = (String::new(), String::new());
    for (at, column) in (0_u32..).zip(&columns) {
        let left = COLUMN * f64::from(at) + 4.0;
        column.iter().for_each(|rise| mark(&mut svg, rise, left));
        figures(&mut values, column, left);
        if let Some(rise) = column.first() {
            let _ = write!(numbers, "<tspan x=\"{}\">{}</tspan>", figure(left + 9.0), rise.step + 1);
        }
    }
    let _ = write!(svg, "<g>{values}</g><text class=\"values-step\" y=\"112\">{numbers}</text></svg>");
    svg
}

fn height(lightness: f64) -> f64 {
    98.0 - lightness.clamp(0.0, 100.0) / 100.0 * TALL
}

/// The line from faces to faces.
fn way(columns: &[&[Rise]]) -> String {
    let faces = (0_u32..).zip(columns).filter_map(|(at, column)| {
        let rise = column.iter().find(|rise| rise.zone == crate::trade::Zone::Faces)?;
        Some(format!("{} {}", figure(COLUMN * f64::from(at) + 13.0), figure(height(rise.lightness))))
    });
    let points: Vec<String> = faces.collect();
    if points.len() < 2 {
        return String::new();
    }
    format!("<path fill=\"none\" stroke=\"currentColor\" stroke-opacity=\".45\" d=\"M{}\"/>", points.join("L"))
}

fn mark(svg: &mut String, rise: &Rise, left: f64) {
    use crate::trade::Zone;
    let (x, y) = (figure(left), height(rise.lightness));
    let shape = match rise.zone {
        Zone::Faces => format!("M{x} {}h18v9h-18z", figure(y - 4.5)),
        Zone::Recesses => format!("M{x} {}h18l-9 9z", figure(y - 3.5)),
        Zone::Edges => format!("M{x} {}h18l-9 -9z", figure(y + 3.5)),
    };
    let _ = write!(svg, "<path fill=\"{}\" stroke=\"currentColor\" stroke-width=\".7\" d=\"{shape}\"/>", rise.colour);
}

/// The lightness beside each mark, moved apart where two would touch.
fn figures(values: &mut String, column: &[Rise], left: f64) {
    let mut sorted: Vec<&Rise> = column.iter().collect();
    sorted.sort_by(|a, b| b.lightness.total_cmp(&a.lightness));
    let mut lowest = f64::NEG_INFINITY;
    for rise in sorted {
        let y = (height(rise.lightness) + 4.0).max(lowest + APART);
        lowest = y;
        let _ = write!(values, "<text x=\"{}\" y=\"{}\">{:.0}</text>", figure(left + 21.0), figure(y), rise.lightness);
    }
}
