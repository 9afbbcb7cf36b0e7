//! The triangles of an OBJ file: corners, faces, and the groups, objects and materials that faces stand under.

use std::borrow::Cow;
use std::mem;

use super::polygon;
use super::soup::{LONGEST_LINE, MARK, Soup, lines_are_short, too_long};

/// The most bytes that an OBJ file may have.
pub(super) const MOST_BYTES: u64 = 100_000_000;

/// The most corners.
const MOST_CORNERS: usize = 8_000_000;

/// The triangles of an OBJ file. A face stands under the last group or object before it, and under its material where
/// groups say nothing.
///
/// # Errors
/// Why it can't be read.
pub(super) fn obj(bytes: &[u8]) -> Result<Soup, String> {
    lines_are_short(bytes)?;
    let bytes = bytes.strip_prefix(MARK).unwrap_or(bytes);
    let mut reading = Reading::default();
    let mut begun = String::new();
    for line in bytes.split(|byte| *byte == b'\n') {
        let line = String::from_utf8_lossy(line.trim_ascii());
        let Some(line) = whole(&mut begun, line)? else { continue };
        let (key, rest) = line.split_once(char::is_whitespace).unwrap_or((&line, ""));
        match key {
            "v" => reading.corner(rest)?,
            "f" => reading.face(rest)?,
            "g" | "o" => reading.group = Some(reading.soup.name(rest.trim())?),
            "usemtl" => reading.material = Some(reading.soup.name(rest.trim())?),
            _ => {}
        }
    }
    reading.finish()
}

/// A line with what lines before it began of it, or nothing where it goes on in the next one: corners and faces do behind
/// a backslash. In other lines it belongs to a name or a path.
fn whole<'a>(begun: &mut String, line: Cow<'a, str>) -> Result<Option<Cow<'a, str>>, String> {
    let goes_on = line.strip_suffix('\\').filter(|_| !begun.is_empty() || line.starts_with(['v', 'f']));
    if goes_on.is_none() && begun.is_empty() {
        return Ok(Some(line));
    }
    begun.push_str(goes_on.unwrap_or(&line));
    begun.push(' ');
    if begun.len() > LONGEST_LINE {
        return Err(too_long());
    }
    Ok(goes_on.is_none().then(|| Cow::Owned(mem::take(begun))))
}

#[derive(Default)]
struct Reading {
    soup: Soup,
    corners: Vec<[f32; 3]>,
    /// The colours of corners, where all so far have one.
    colours: Vec<[u8; 3]>,
    group: Option<u32>,
    material: Option<u32>,
    /// Group and material of each triangle.
    owners: Vec<Owner>,
}

/// The group and the material of a triangle.
type Owner = (Option<u32>, Option<u32>);

impl Reading {
    fn corner(&mut self, text: &str) -> Result<(), String> {
        if self.corners.len() >= MOST_CORNERS {
            return Err(format!("it has more than {MOST_CORNERS} corners"));
        }
        let numbers: Result<Vec<f32>, _> = text.split_whitespace().take(7).map(str::parse).collect();
        let numbers = numbers.map_err(|_| "a corner has something that is no number".to_owned())?;
        let [x, y, z, rest @ ..] = numbers.as_slice() else {
            return Err("a corner has fewer than three numbers".to_owned());
        };
        self.corners.push([*x, *y, *z]);
        // Some programs write a colour behind the place, and some a weight before that.
        let colour = match rest {
            [_, red, green, blue] | [red, green, blue] => [*red, *green, *blue],
            _ => return Ok(()),
        };
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "held within a byte")]
        self.colours.push(colour.map(|part| (part.clamp(0.0, 1.0) * 255.0).round() as u8));
        Ok(())
    }

    fn face(&mut self, text: &str) -> Result<(), String> {
        let ends: Result<Vec<usize>, String> = text.split_whitespace().map(|word| self.index(word)).collect();
        let ends = ends?;
        let corners: Vec<[f32; 3]> = ends.iter().map(|at| self.corners[*at]).collect();
        let coloured = self.colours.len() == self.corners.len();
        for triangle in polygon::triangles(&corners) {
            let colour = coloured.then(|| mean(triangle.map(|at| self.colours[ends[at]])));
            self.soup.add(triangle.map(|at| corners[at]), colour)?;
            self.owners.push((self.group, self.material));
        }
        Ok(())
    }

    /// The place of a corner that a face names: from the first on, or back from the last.
    fn index(&self, word: &str) -> Result<usize, String> {
        let number: i64 = word.split('/').next().unwrap_or_default().parse().map_err(|_| "a face names no corner")?;
        let count = i64::try_from(self.corners.len()).unwrap_or(i64::MAX);
        let at = if number < 0 { count.checked_add(number) } else { number.checked_sub(1) };
        let at = at.and_then(|at| usize::try_from(at).ok()).filter(|at| *at < self.corners.len());
        at.ok_or_else(|| "a face names a corner that is not there: it is out of bounds".to_owned())
    }

    fn finish(mut self) -> Result<Soup, String> {
        // Groups tell areas apart only where there are several; one group with several materials is told by these.
        let several = |of: fn(&Owner) -> Option<u32>| {
            self.owners.iter().any(|owner| of(owner) != self.owners.first().and_then(of))
        };
        let by_material = !several(|owner| owner.0) && several(|owner| owner.1);
        let any = self.owners.iter().any(|(group, material)| group.is_some() || material.is_some());
        let own = |(group, material): &Owner| if by_material { *material } else { group.or(*material) };
        let other = |(group, material): &Owner| if by_material { *group } else { *material };
        let names = |of: &dyn Fn(&Owner) -> Option<u32>| {
            self.owners.iter().map(|owner| of(owner).unwrap_or(u32::MAX)).collect()
        };
        if any {
            (self.soup.owners, self.soup.others) = (names(&own), names(&other));
        }
        if self.soup.colours.len() != self.soup.triangles.len() {
            self.soup.colours.clear();
        }
        self.soup.finish()
    }
}

/// The middle of three colours.
pub(super) fn mean(colours: [[u8; 3]; 3]) -> [u8; 3] {
    [0, 1, 2].map(|channel: usize| {
        let sum: u16 = colours.iter().map(|colour| u16::from(colour[channel])).sum();
        u8::try_from(sum / 3).unwrap_or(u8::MAX)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn surface(text: &str) -> f64 {
        obj(text.as_bytes()).unwrap().triangles.iter().map(surface_of).sum()
    }

    fn surface_of(triangle: &[[f32; 3]; 3]) -> f64 {
        let [from, left, right] = triangle.map(|corner| corner.map(f64::from));
        let [left, right] = [left, right].map(|end| [0, 1, 2].map(|axis: usize| end[axis] - from[axis]));
        let part = |one: usize, two: usize| (left[one] * right[two] - left[two] * right[one]).powi(2);
        (part(0, 1) + part(1, 2) + part(2, 0)).sqrt() / 2.0
    }

    #[test]
    fn a_hollow_face_has_its_own_surface_and_no_web_between_its_arms() {
        let l = "v 0 0 0\nv 10 0 0\nv 10 2 0\nv 2 2 0\nv 2 10 0\nv 0 10 0\n";
        for face in ["f 1 2 3 4 5 6", "f 6 5 4 3 2 1", "f 2 3 4 5 6 1", "f 4 5 6 1 2 3", "f 5 6 1 2 3 4"] {
            let found = surface(&format!("{l}{face}\n"));
            assert!((found - 36.0).abs() < 1e-4, "{face}: {found}");
        }
        let standing = "v 0 0 0\nv 0 10 0\nv 0 10 2\nv 0 2 2\nv 0 2 10\nv 0 0 10\nf 3 4 5 6 1 2\n";
        assert!((surface(standing) - 36.0).abs() < 1e-4);
        assert!((surface("v 0 0 0\nv 3 0 0\nv 3 3 0\nv 0 3 0\nf 1 2 3 4\n") - 9.0).abs() < 1e-6);
    }
}
