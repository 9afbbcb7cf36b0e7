//! The outlines that the program draws for pages, as lines on a card.

use super::sheet::At;

/// The parts that a curve is cut into; finer than any printer shows at the size of a letter.
const CUTS: u8 = 6;

/// The lines of a path that holds nothing but `M`, `L`, `C` and `Z` in absolute places, scaled from a square of 24 to one
/// of `side`. What can't be read is left out.
pub(super) fn strokes(path: &str, side: f32) -> Vec<Vec<At>> {
    let mut lines: Vec<Vec<At>> = Vec::new();
    for (at, command) in path.match_indices(['M', 'L', 'C', 'Z']) {
        let rest = &path[at + 1..];
        let end = rest.find(['M', 'L', 'C', 'Z']).unwrap_or(rest.len());
        let figures: Vec<f32> = rest[..end].split(' ').filter_map(|figure| figure.parse().ok()).collect();
        let points = figures.chunks_exact(2).map(|pair| (pair[0] * side / 24.0, pair[1] * side / 24.0));
        let points: Vec<At> = points.collect();
        if command == "M" {
            lines.push(points);
            continue;
        }
        let Some(line) = lines.last_mut() else { continue };
        match command {
            "L" => line.extend(points),
            "C" => points.chunks_exact(3).for_each(|curve| bend(line, curve)),
            _ => line.extend(line.first().copied()),
        }
    }
    lines
}

/// A cubic curve from where the line ends.
fn bend(line: &mut Vec<At>, curve: &[At]) {
    let (Some(&from), &[one, other, to]) = (line.last(), curve) else { return };
    for cut in 1..=CUTS {
        let part = f32::from(cut) / f32::from(CUTS);
        let rest = 1.0 - part;
        let (a, b, c, d) = (rest * rest * rest, 3.0 * rest * rest * part, 3.0 * rest * part * part, part * part * part);
        line.push((a * from.0 + b * one.0 + c * other.0 + d * to.0, a * from.1 + b * one.1 + c * other.1 + d * to.1));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_and_curves_come_out_where_they_were_drawn() {
        let lines = strokes("M0 0L12 0ZM24 0C24 12 12 24 0 24", 12.0);
        assert_eq!(lines[0], [(0.0, 0.0), (6.0, 0.0), (0.0, 0.0)]);
        assert_eq!(lines[1].len(), 7);
        assert!(lines[1].last().is_some_and(|at| at.0.abs() < 1e-5 && (at.1 - 12.0).abs() < 1e-5));
    }

    #[test]
    fn every_outline_of_the_program_can_be_read() {
        let actions = crate::caution::Action::ALL.iter().map(|action| crate::draw::action_outline(*action));
        let kinds = crate::trade::Kind::ALL.iter().filter_map(|kind| crate::draw::kind_outline(*kind));
        for outline in actions.chain(kinds) {
            let lines = strokes(outline, 24.0);
            assert!(!lines.is_empty() && lines.iter().all(|line| line.len() > 1), "{outline}");
        }
    }
}
