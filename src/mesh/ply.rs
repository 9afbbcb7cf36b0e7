//! The triangles of a PLY file, text or binary, with the colours of their corners.

use super::obj::mean;
use super::polygon;
use super::soup::{MARK, Soup, lines_are_short};

/// The most bytes that a PLY file may have.
pub(super) const MOST_BYTES: u64 = 200_000_000;

/// The most corners of one face.
const MOST_ENDS: usize = 100;

/// The triangles of a PLY file.
///
/// # Errors
/// Why it can't be read.
pub(super) fn ply(bytes: &[u8]) -> Result<Soup, String> {
    let (head, body) = split(bytes.strip_prefix(MARK).unwrap_or(bytes))?;
    let head = Head::of(head)?;
    if head.form == Form::Text {
        lines_are_short(body)?;
    }
    let mut numbers = Numbers { form: head.form, rest: body };
    let (mut corners, mut colours): (Vec<[f32; 3]>, Vec<[u8; 3]>) = (Vec::new(), Vec::new());
    let mut soup = Soup::default();
    for element in &head.elements {
        for _ in 0..element.count {
            match element.name.as_str() {
                "vertex" => corner(element, &mut numbers, &mut corners, &mut colours)?,
                "face" => face(element, &mut numbers, &corners, &colours, &mut soup)?,
                _ => skip(element, &mut numbers)?,
            }
        }
    }
    soup.finish()
}

/// The head of a file, and what comes after it.
fn split(bytes: &[u8]) -> Result<(&[u8], &[u8]), String> {
    const END: &[u8] = b"end_header";
    if !bytes.starts_with(b"ply") {
        return Err("it does not begin as a PLY file does".to_owned());
    }
    let head = &bytes[..bytes.len().min(20_000)];
    let end = head.windows(END.len()).position(|window| window == END).ok_or("its head has no end")?;
    let after = bytes[end..].iter().position(|byte| *byte == b'\n').ok_or("nothing stands behind its head")?;
    Ok((&bytes[..end], &bytes[end + after + 1..]))
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Form {
    Text,
    Little,
    Big,
}

struct Head {
    form: Form,
    elements: Vec<Element>,
}

struct Element {
    name: String,
    count: u64,
    properties: Vec<Property>,
}

struct Property {
    name: String,
    kind: Kind,
    /// The kind of its length, where it is a list.
    length: Option<Kind>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Kind {
    Signed(usize),
    Unsigned(usize),
    Float(usize),
}

impl Kind {
    fn of(word: &str) -> Result<Self, String> {
        Ok(match word {
            "char" | "int8" => Self::Signed(1),
            "uchar" | "uint8" => Self::Unsigned(1),
            "short" | "int16" => Self::Signed(2),
            "ushort" | "uint16" => Self::Unsigned(2),
            "int" | "int32" => Self::Signed(4),
            "uint" | "uint32" => Self::Unsigned(4),
            "float" | "float32" => Self::Float(4),
            "double" | "float64" => Self::Float(8),
            _ => return Err(format!("it holds numbers of the unknown kind '{}'", word.escape_debug())),
        })
    }

    fn size(self) -> usize {
        match self {
            Self::Signed(size) | Self::Unsigned(size) | Self::Float(size) => size,
        }
    }
}

impl Head {
    fn of(bytes: &[u8]) -> Result<Self, String> {
        let text = String::from_utf8_lossy(bytes);
        let mut head = Self { form: Form::Text, elements: Vec::new() };
        for line in text.lines() {
            let words: Vec<&str> = line.split_whitespace().collect();
            match words.as_slice() {
                ["format", form, ..] => {
                    head.form = match *form {
                        "ascii" => Form::Text,
                        "binary_little_endian" => Form::Little,
                        "binary_big_endian" => Form::Big,
                        _ => return Err("it has an unknown form".to_owned()),
                    }
                }
                ["element", name, count] => {
                    let count = count.parse().map_err(|_| "an element has no count")?;
                    head.elements.push(Element { name: (*name).to_owned(), count, properties: Vec::new() });
                }
                ["property", "list", length, kind, name] => {
                    let property =
                        Property { name: (*name).to_owned(), kind: Kind::of(kind)?, length: Some(Kind::of(length)?) };
                    head.elements.last_mut().ok_or("a property has no element")?.properties.push(property);
                }
                ["property", kind, name] => {
                    let property = Property { name: (*name).to_owned(), kind: Kind::of(kind)?, length: None };
                    head.elements.last_mut().ok_or("a property has no element")?.properties.push(property);
                }
                _ => {}
            }
        }
        let empty = head.elements.iter().any(|element| element.properties.is_empty() && element.count > 0);
        if empty { Err("an element has no properties".to_owned()) } else { Ok(head) }
    }
}

/// The numbers behind the head, one after the other.
struct Numbers<'a> {
    form: Form,
    rest: &'a [u8],
}

impl Numbers<'_> {
    fn next(&mut self, kind: Kind) -> Result<f64, String> {
        const END: &str = "it ends in the middle";
        if self.form == Form::Text {
            let start = self.rest.iter().position(|byte| !byte.is_ascii_whitespace()).ok_or(END)?;
            let rest = &self.rest[start..];
            let end = rest.iter().position(u8::is_ascii_whitespace).unwrap_or(rest.len());
            self.rest = &rest[end..];
            let word = std::str::from_utf8(&rest[..end]).map_err(|_| "something in it is no number")?;
            return word.parse().map_err(|_| "something in it is no number".to_owned());
        }
        let (own, rest) = self.rest.split_at_checked(kind.size()).ok_or(END)?;
        self.rest = rest;
        let mut bytes = [0_u8; 8];
        bytes[..own.len()].copy_from_slice(own);
        if self.form == Form::Big {
            bytes[..own.len()].reverse();
        }
        let [a, b, c, d, ..] = bytes;
        Ok(match kind {
            Kind::Signed(1) => f64::from(a.cast_signed()),
            Kind::Signed(2) => f64::from(i16::from_le_bytes([a, b])),
            Kind::Signed(_) => f64::from(i32::from_le_bytes([a, b, c, d])),
            Kind::Unsigned(1) => f64::from(a),
            Kind::Unsigned(2) => f64::from(u16::from_le_bytes([a, b])),
            Kind::Unsigned(_) => f64::from(u32::from_le_bytes([a, b, c, d])),
            Kind::Float(4) => f64::from(f32::from_le_bytes([a, b, c, d])),
            Kind::Float(_) => f64::from_le_bytes(bytes),
        })
    }

    /// The entries of a list.
    fn list(&mut self, length: Kind, kind: Kind) -> Result<Vec<f64>, String> {
        let count = self.next(length)?;
        let whole = place(count).filter(|whole| *whole <= MOST_ENDS);
        let whole = whole.ok_or_else(|| format!("a face has {count} corners"))?;
        (0..whole).map(|_| self.next(kind)).collect()
    }
}

fn skip(element: &Element, numbers: &mut Numbers<'_>) -> Result<(), String> {
    for property in &element.properties {
        match property.length {
            Some(length) => drop(numbers.list(length, property.kind)?),
            None => drop(numbers.next(property.kind)?),
        }
    }
    Ok(())
}

fn corner(
    element: &Element,
    numbers: &mut Numbers<'_>,
    corners: &mut Vec<[f32; 3]>,
    colours: &mut Vec<[u8; 3]>,
) -> Result<(), String> {
    let (mut place, mut colour, mut coloured) = ([f32::NAN; 3], [0_u8; 3], 0);
    for property in &element.properties {
        if let Some(length) = property.length {
            numbers.list(length, property.kind)?;
            continue;
        }
        let number = numbers.next(property.kind)?;
        let at = |names: [&str; 3]| names.iter().position(|name| *name == property.name);
        if let Some(axis) = at(["x", "y", "z"]) {
            #[expect(clippy::cast_possible_truncation, reason = "places are kept short")]
            let short = number as f32;
            place[axis] = short;
        } else if let Some(channel) = at(["red", "green", "blue"]) {
            let full = if matches!(property.kind, Kind::Float(_)) { number * 255.0 } else { number };
            #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "held within a byte")]
            let byte = full.round().clamp(0.0, 255.0) as u8;
            colour[channel] = byte;
            coloured += 1;
        }
    }
    corners.push(place);
    if coloured == 3 {
        colours.push(colour);
    }
    Ok(())
}

fn face(
    element: &Element,
    numbers: &mut Numbers<'_>,
    corners: &[[f32; 3]],
    colours: &[[u8; 3]],
    soup: &mut Soup,
) -> Result<(), String> {
    for property in &element.properties {
        let Some(length) = property.length else {
            numbers.next(property.kind)?;
            continue;
        };
        let ends = numbers.list(length, property.kind)?;
        if !property.name.starts_with("vertex_ind") {
            continue;
        }
        let missing = "a face names a corner that is not there";
        let ends = ends.iter().map(|number| place(*number)).collect::<Option<Vec<usize>>>().ok_or(missing)?;
        let face: Option<Vec<[f32; 3]>> = ends.iter().map(|at| corners.get(*at).copied()).collect();
        let face = face.ok_or(missing)?;
        for triangle in polygon::triangles(&face) {
            let colour = (colours.len() == corners.len()).then(|| mean(triangle.map(|at| colours[ends[at]])));
            soup.add(triangle.map(|at| face[at]), colour)?;
        }
    }
    Ok(())
}

/// The place in a list that a number of a file names; none where it is below 0, in between or no number.
fn place(number: f64) -> Option<usize> {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a whole number from 0 on, and one that is too large is looked up in vain"
    )]
    (number >= 0.0 && number.fract() == 0.0).then_some(number as usize)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    const TEXT: &str = "ply\nformat ascii 1.0\nelement vertex 4\nproperty float x\nproperty float y\nproperty float z\n\
        property uchar red\nproperty uchar green\nproperty uchar blue\nelement face 1\n\
        property list uchar int vertex_indices\nend_header\n\
        0 0 0 255 0 0\n2 0 0 255 0 0\n2 3 0 255 0 0\n0 3 0 255 0 0\n4 0 1 2 3\n";

    #[test]
    fn a_sheet_has_its_surface_and_its_colour() {
        let soup = ply(TEXT.as_bytes()).unwrap();
        assert_eq!((soup.area(), soup.colours), (6.0, vec![[255, 0, 0]; 2]));
        assert_eq!(ply([MARK, TEXT.as_bytes()].concat().as_slice()).map(|soup| soup.area()), Ok(6.0));
        let mut bytes = b"ply\nformat binary_big_endian 1.0\nelement vertex 3\nproperty double x\nproperty double y\n\
            property double z\nelement face 1\nproperty list uchar uint vertex_index\nend_header\n"
            .to_vec();
        let places: [f64; 9] = [0.0, 0.0, 0.0, 4.0, 0.0, 0.0, 0.0, 3.0, 0.0];
        bytes.extend(places.into_iter().flat_map(f64::to_be_bytes));
        bytes.push(3);
        bytes.extend([0_u32, 1, 2].into_iter().flat_map(u32::to_be_bytes));
        assert_eq!(ply(&bytes).map(|soup| soup.area()), Ok(6.0));
    }

    #[test]
    fn what_is_broken_is_told() {
        for (broken, why) in [
            (TEXT.replace("0 1 2 3", "0 1 2 9"), "not there"),
            (TEXT.replace("0 1 2 3", "0 1 2 -3"), "not there"),
            (TEXT.replace("0 1 2 3", "0 1 2 nan"), "not there"),
            (TEXT.replace("0 1 2 3", "0 1 2 2.5"), "not there"),
            (TEXT.replace("4 0 1 2 3", "nan 0 1 2 3"), "NaN corners"),
            (TEXT.replace("4 0 1 2 3\n", ""), "in the middle"),
            (TEXT.replace("4 0 1", "999 0 1"), "999 corners"),
            (TEXT.replace("uchar red", "colour red"), "unknown kind"),
            ("plywood".to_owned(), "no end"),
        ] {
            let told = ply(broken.as_bytes()).map(|soup| soup.area());
            assert!(told.as_ref().is_err_and(|told| told.contains(why)), "{told:?} {why}");
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig { cases: 64, ..ProptestConfig::default() })]
        #[test]
        fn no_bytes_stop_the_program(at in 0_usize..280, byte in any::<u8>()) {
            let mut spoiled = TEXT.as_bytes().to_vec();
            if let Some(known) = spoiled.get_mut(at) { *known = byte; }
            let _ = ply(&spoiled);
        }
    }
}
