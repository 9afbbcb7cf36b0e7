//! The copies in which a picture is published, so that a phone need not load what only a wide screen can show.

/// The widths of the copies, in pixels: a phone, a phone with a fine screen or a narrow window, a wide screen.
const WIDTHS: [u32; 3] = [480, 960, 1600];

/// The size of a picture, upright.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Size {
    /// Pixels across.
    pub width: u32,
    /// Pixels down.
    pub height: u32,
}

/// One published copy of a picture.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Copy {
    /// The path in the published folder.
    pub path: String,
    /// Its size.
    pub size: Size,
}

impl Size {
    /// The size at another width, with the same shape.
    fn at_width(self, width: u32) -> Self {
        let scaled =
            (u64::from(self.height) * u64::from(width) + u64::from(self.width) / 2) / u64::from(self.width).max(1);
        Self { width, height: u32::try_from(scaled).unwrap_or(self.height).max(1) }
    }
}

/// The copies of a picture of a size, the narrowest first. The last and widest keeps the picture's own path; a narrower
/// one is left out where something else is `taken` to be at its path.
pub(super) fn copies(path: &str, size: Size, taken: impl Fn(&str) -> bool) -> Vec<Copy> {
    let widest = size.width.min(WIDTHS[WIDTHS.len() - 1]);
    let (stem, ending) = path.rsplit_once('.').unwrap_or((path, ""));
    let narrower = WIDTHS.iter().filter(|width| **width < widest);
    let mut copies: Vec<Copy> = narrower
        .map(|width| Copy { path: format!("{stem}.{width}.{ending}"), size: size.at_width(*width) })
        .filter(|copy| !taken(&copy.path))
        .collect();
    copies.push(Copy { path: path.to_owned(), size: size.at_width(widest) });
    copies
}
