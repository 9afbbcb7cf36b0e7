//! The triangles of an STL file.
//!
//! `stl_io` gives one triangle after the other, but splits a text line into as many words as it has: long lines are kept
//! away from it here.

use std::io::Cursor;

use super::soup::{LONGEST_LINE, MARK, Soup, lines_are_short};

/// The most bytes that an STL file may have.
pub(super) const MOST_BYTES: u64 = 200_000_000;

/// What comes before the triangles of a binary STL file: its title, and their number.
const HEAD: usize = 84;

/// The bytes of one triangle of a binary STL file.
const TRIANGLE: usize = 50;

/// The triangles of an STL file, binary or text.
///
/// # Errors
/// Why it can't be read.
pub(super) fn stl(mut bytes: Vec<u8>) -> Result<Soup, String> {
    // The length of a binary file tells that its title only begins like a text with a mark.
    let marked = bytes.strip_prefix(MARK).is_some_and(|rest| !is_binary(rest));
    if marked && told_length(&bytes) != Some(bytes.len()) {
        bytes.drain(..MARK.len());
    }
    let binary = is_binary(&bytes);
    if binary {
        let more = told_length(&bytes).and_then(|length| bytes.get(length..)).unwrap_or_default();
        // What some programs leave behind the triangles is nothing but zeros.
        if !more.is_empty() && more.len().is_multiple_of(TRIANGLE) && more.iter().any(|byte| *byte != 0) {
            return Err("more triangles are in it than it says at its head; export it again".to_owned());
        }
        // Some programs begin the title of a binary file with the word that tells a text file.
        bytes.iter_mut().take(5).for_each(|byte| *byte = 0);
    } else {
        lines_are_short(&bytes)?;
        // A solid without a name is not known without the space before the name.
        bytes.insert(5, b' ');
    }
    let facets =
        bytes.split(|byte| *byte == b'\n').filter(|line| line.trim_ascii_start().starts_with(b"facet ")).count();
    let mut reader = Cursor::new(bytes);
    let triangles = stl_io::create_stl_reader(&mut reader).map_err(|error| told(&error))?;
    let mut soup = Soup::default();
    for triangle in triangles {
        let triangle = triangle.map_err(|error| told(&error))?;
        soup.add(triangle.vertices.map(|corner| corner.0), None)?;
    }
    if !binary && soup.triangles.len() < facets {
        return Err("it holds more than one solid; join them".to_owned());
    }
    soup.finish()
}

/// Why a file can't be read, in plain words: those of the library are about its own types.
fn told(error: &std::io::Error) -> String {
    let said = error.to_string();
    let plain = if error.kind() == std::io::ErrorKind::UnexpectedEof {
        "it ends in the middle"
    } else if said.starts_with("expected finite") {
        "a number in it is too large, or none at all"
    } else if said.starts_with("invalid float") {
        "something in it is no number"
    } else if said.starts_with("vertex f32") {
        "a corner in it has not just three numbers"
    } else {
        "it does not go on as an STL file does"
    };
    plain.to_owned()
}

/// Whether an STL file is binary: it has the length that its number of triangles asks for, or it does not read as text.
fn is_binary(bytes: &[u8]) -> bool {
    let length = told_length(bytes);
    let text = bytes.starts_with(b"solid") && !bytes.iter().take(LONGEST_LINE).any(|byte| *byte == 0);
    length == Some(bytes.len()) || !text
}

/// Whether bytes are just as long as the number at their head asks for, as those of a binary file are.
pub(super) fn has_its_length(bytes: &[u8]) -> bool {
    told_length(bytes) == Some(bytes.len()) && bytes.len() > HEAD
}

/// The length that the number of triangles at the head of a binary file asks for.
fn told_length(bytes: &[u8]) -> Option<usize> {
    let count = bytes.get(HEAD - 4..HEAD).and_then(|count| <[u8; 4]>::try_from(count).ok()).map(u32::from_le_bytes)?;
    usize::try_from(count).ok()?.checked_mul(TRIANGLE)?.checked_add(HEAD)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::super::obj::obj;
    use super::*;

    /// The corners and the faces of a box of 2 × 3 × 4: its surface is 2 · (6 + 8 + 12) = 52.
    const CORNERS: [[f32; 3]; 8] = [
        [0.0, 0.0, 0.0],
        [2.0, 0.0, 0.0],
        [2.0, 3.0, 0.0],
        [0.0, 3.0, 0.0],
        [0.0, 0.0, 4.0],
        [2.0, 0.0, 4.0],
        [2.0, 3.0, 4.0],
        [0.0, 3.0, 4.0],
    ];
    const FACES: [[usize; 4]; 6] = [[0, 1, 2, 3], [4, 5, 6, 7], [0, 1, 5, 4], [1, 2, 6, 5], [2, 3, 7, 6], [3, 0, 4, 7]];

    fn area(read: Result<Soup, String>) -> Result<f64, String> {
        read.map(|soup| soup.area())
    }

    fn triangles() -> Vec<[[f32; 3]; 3]> {
        FACES
            .iter()
            .flat_map(|[a, b, c, d]| [[*a, *b, *c], [*a, *c, *d]])
            .map(|face| face.map(|at| CORNERS[at]))
            .collect()
    }

    fn text() -> String {
        let corner = |[x, y, z]: [f32; 3]| format!("vertex {x} {y} {z}\n");
        let facet = |corners: [[f32; 3]; 3]| {
            format!("facet normal 0 0 0\nouter loop\n{}endloop\nendfacet\n", corners.map(corner).concat())
        };
        format!("solid box\n{}endsolid box\n", triangles().into_iter().map(facet).collect::<String>())
    }

    fn binary(title: &[u8]) -> Vec<u8> {
        let mut bytes = title.to_vec();
        bytes.resize(80, b' ');
        bytes.extend(12_u32.to_le_bytes());
        for corners in triangles() {
            bytes.extend([0; 12]);
            corners.iter().flatten().for_each(|number| bytes.extend(number.to_le_bytes()));
            bytes.extend([0; 2]);
        }
        bytes
    }

    fn object(face: impl Fn(usize) -> String) -> String {
        let corners: String = CORNERS.iter().map(|[x, y, z]| format!("v {x} {y} {z}\n")).collect();
        let line = |corners: &[usize; 4]| format!("f {}\n", corners.map(&face).join(" "));
        format!("o box\n{corners}{}", FACES.iter().map(line).collect::<String>())
    }

    #[test]
    fn no_triangle_is_left_out_because_the_head_counts_too_few() {
        let mut short = binary(b"box");
        short[80] = 10;
        assert!(stl(short).is_err_and(|why| why.starts_with("more triangles")));
        let with_note = [binary(b"box"), b"made by hand".to_vec()].concat();
        assert!(stl(with_note).is_ok(), "a note behind the triangles is none of them");
    }

    #[test]
    fn a_box_has_the_surface_of_a_box() {
        assert_eq!(area(stl(text().into_bytes())), Ok(52.0));
        assert_eq!(area(stl(text().replacen("solid box", "solid", 1).into_bytes())), Ok(52.0));
        assert_eq!(area(stl(binary(b"made by hand"))), Ok(52.0));
        assert_eq!(area(stl(binary(b"solid box, though binary\n"))), Ok(52.0));
        assert_eq!(area(obj(object(|at| format!("{}", at + 1)).as_bytes())), Ok(52.0));
        assert_eq!(area(obj(object(|at| format!("{}/7/9", at + 1)).as_bytes())), Ok(52.0));
        assert_eq!(area(obj(object(|at| format!("-{}", 8 - at)).as_bytes())), Ok(52.0));
        let over_two_lines = object(|at| format!("{}", at + 1)).replace("f ", "f \\\r\n ");
        assert_eq!(area(obj(format!("# made in C:\\box\\\n{over_two_lines}").as_bytes())), Ok(52.0));
    }

    #[test]
    fn a_mark_before_the_text_loses_no_line() {
        let marked = |text: &str| [MARK, text.as_bytes()].concat();
        assert_eq!(area(stl(marked(&text()))), Ok(52.0));
        assert_eq!(area(stl(binary(&marked("solid box, though binary")))), Ok(52.0));
        let without_name = object(|at| format!("{}", at + 1)).replacen("o box\n", "", 1);
        assert!(without_name.starts_with("v "));
        assert_eq!(area(obj(&marked(&without_name))), Ok(52.0));
    }

    #[test]
    fn what_is_broken_is_told_and_never_measured_in_part() {
        let mut longer = binary(b"solid with something behind it");
        longer.resize(40_000, 7);
        assert_eq!(area(stl(longer)), Ok(52.0));
        let cases: [(Result<Soup, String>, &str); 13] = [
            (stl(Vec::new()), "in the middle"),
            (stl(binary(b"x")[..400].to_vec()), "in the middle"),
            (stl(text()[..300].to_owned().into_bytes()), ""),
            (stl(text().replacen("vertex 2", "vertex two", 1).into_bytes()), "something in it is no number"),
            (stl(text().replacen("vertex 2", "vertex inf", 1).into_bytes()), "a number in it is too large"),
            (stl(text().replacen("vertex 2", "vertex 1e99", 1).into_bytes()), "a number in it is too large"),
            (stl(text().replacen("vertex 2 ", "vertex ", 1).into_bytes()), "not just three numbers"),
            (stl(text().replacen("outer loop", "inner loop", 1).into_bytes()), "does not go on"),
            (stl((text() + &text()).into_bytes()), "more than one solid"),
            (stl(format!("solid x\n{}", "a ".repeat(LONGEST_LINE)).into_bytes()), "a line of more than"),
            (obj(b"v 0 0 0\nv 1 0 0\nf 1 2 9\n"), "out of bounds"),
            (obj(b"v 0 0 0\nv 1 0 0\nv NaN 0 0\nf 1 2 3\n"), "no number"),
            (obj(b"v 0 0 0\nv 1 0 0\nv 2 0 0\nf 1 2 3\n"), "no surface"),
        ];
        for (measured, why) in cases {
            assert!(measured.as_ref().is_err_and(|told| told.contains(why)), "{why}");
        }
    }

    proptest! {
        #[test]
        fn no_bytes_stop_the_program(bytes in proptest::collection::vec(any::<u8>(), 0..400), at in 0_usize..600) {
            let _ = stl(bytes.clone());
            let _ = obj(&bytes);
            let mut spoiled = binary(b"solid");
            if let Some(byte) = spoiled.get_mut(at) { *byte ^= 0xff; }
            let _ = stl(spoiled);
        }

        #[test]
        fn no_index_stops_the_program(index in any::<i64>(), other in any::<i64>()) {
            let text = format!("vt 0 0\nvn 0 0 1\nv 0 0 0\nv 1 0 0\nv 0 1 0\nf 1/{other}/{other} {index}/{other} 3//{other}\n");
            let _ = obj(text.as_bytes());
        }
    }
}
