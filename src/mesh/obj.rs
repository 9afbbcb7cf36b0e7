//! The triangles of an OBJ file: corners, faces, and the groups, objects and materials that faces stand under.

use super::soup::{MARK, Soup, lines_are_short};

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
    for line in bytes.split(|byte| *byte == b'\n') {
        let line = String::from_utf8_lossy(line.trim_ascii());
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
        let mut ends = text.split_whitespace().map(|word| self.index(word));
        let (Some(first), Some(second)) = (ends.next(), ends.next()) else { return Ok(()) };
        let (first, mut before) = (first?, second?);
        let others: Result<Vec<usize>, String> = ends.collect();
        let coloured = self.colours.len() == self.corners.len();
        for at in others? {
            let face = [first, before, at];
            let colour = coloured.then(|| mean(face.map(|at| self.colours[at])));
            self.soup.add(face.map(|at| self.corners[at]), colour)?;
            self.owners.push((self.group, self.material));
            before = at;
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
        let own =
            |(group, material): &Owner| if by_material { *material } else { group.or(*material) }.unwrap_or(u32::MAX);
        if any {
            self.soup.owners = self.owners.iter().map(own).collect();
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
