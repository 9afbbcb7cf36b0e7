//! Loose triangles, as they are in a file, each with the name that it is under.

/// The most triangles of all files of a model.
pub(super) const MOST_TRIANGLES: usize = 5_000_000;

/// The longest line of a text file, in bytes.
pub(super) const LONGEST_LINE: usize = 10_000;

/// Triangles as they are in a file.
#[derive(Debug, Default)]
pub(super) struct Soup {
    /// Their corners.
    pub(super) triangles: Vec<[[f32; 3]; 3]>,
    /// The names under which they stand, by their number in `names`; empty where the file has none.
    pub(super) owners: Vec<u32>,
    /// Other names for the same triangles, for where the first one is no area's; empty where the file has none.
    pub(super) others: Vec<u32>,
    /// The colours of their corners, mixed; empty where the file has none.
    pub(super) colours: Vec<[u8; 3]>,
    /// Every group and material.
    pub(super) names: Vec<String>,
    area: f64,
}

impl Soup {
    /// Adds a triangle, with its colour where it has one.
    pub(super) fn add(&mut self, corners: [[f32; 3]; 3], colour: Option<[u8; 3]>) -> Result<(), String> {
        if self.triangles.len() >= MOST_TRIANGLES {
            return Err(format!("it has more than {MOST_TRIANGLES} triangles"));
        }
        self.area += area(corners);
        if !self.area.is_finite() {
            return Err("a corner of it lies nowhere: it is no number".to_owned());
        }
        self.triangles.push(corners);
        self.colours.extend(colour);
        Ok(())
    }

    /// The number of a name.
    pub(super) fn name(&mut self, name: &str) -> Result<u32, String> {
        const MOST_NAMES: usize = 1000;
        let known = self.names.iter().position(|known| known == name);
        if known.is_none() && self.names.len() >= MOST_NAMES {
            return Err(format!("it has more than {MOST_NAMES} groups and materials"));
        }
        let at = known.unwrap_or_else(|| {
            self.names.push(name.to_owned());
            self.names.len() - 1
        });
        Ok(u32::try_from(at).unwrap_or(u32::MAX))
    }

    /// Itself, if there is any surface in it.
    pub(super) fn finish(self) -> Result<Self, String> {
        if self.area > 0.0 { Ok(self) } else { Err("there is no surface in it".to_owned()) }
    }

    /// The area of all its triangles.
    pub(super) fn area(&self) -> f64 {
        self.area
    }

    /// The lowest and the highest place of its corners along each axis.
    pub(super) fn ends(&self) -> [(f64, f64); 3] {
        let mut ends = [(f64::INFINITY, f64::NEG_INFINITY); 3];
        for corner in self.triangles.iter().flatten() {
            for ((low, high), at) in ends.iter_mut().zip(corner) {
                *low = low.min(f64::from(*at));
                *high = high.max(f64::from(*at));
            }
        }
        ends
    }
}

/// Half the length of the cross product of two sides; 0 for a triangle that is a line or a point.
pub(super) fn area(corners: [[f32; 3]; 3]) -> f64 {
    let [from, to, third] = corners.map(|corner| corner.map(f64::from));
    let side = |end: [f64; 3]| [end[0] - from[0], end[1] - from[1], end[2] - from[2]];
    let (one, two) = (side(to), side(third));
    let cross = |next: usize, after: usize| one[next] * two[after] - one[after] * two[next];
    [cross(1, 2), cross(2, 0), cross(0, 1)].iter().map(|part| part * part).sum::<f64>().sqrt() / 2.0
}

/// What some editors put before a text to tell that it is UTF-8.
pub(super) const MARK: &[u8] = b"\xef\xbb\xbf";

/// Refuses text that no program would write.
pub(super) fn lines_are_short(bytes: &[u8]) -> Result<(), String> {
    let short = bytes.split(|byte| *byte == b'\n').all(|line| line.len() <= LONGEST_LINE);
    if short { Ok(()) } else { Err(too_long()) }
}

/// Why text with such a line is not read.
pub(super) fn too_long() -> String {
    format!("it has a line of more than {LONGEST_LINE} bytes")
}
