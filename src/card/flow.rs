//! How a card flows over its sheets: strips that stay whole, one below the other or in columns.

use std::collections::VecDeque;

use super::sheet::{At, Mark};

/// What stays together: marks with their places from its upper left corner.
#[derive(Debug, Clone, Default)]
pub(super) struct Strip {
    /// How high.
    pub(super) height: f32,
    /// Its marks.
    pub(super) marks: Vec<Mark>,
    /// Whether it stays on one sheet with the strip below it, where that can be.
    pub(super) keep: bool,
}

impl Strip {
    /// An empty strip.
    pub(super) fn gap(height: f32) -> Self {
        Self { height, ..Self::default() }
    }
}

/// Says of strips whether each stays with the one below it.
pub(super) fn set_keep(strips: &mut [Strip], keep: bool) {
    for strip in strips {
        strip.keep = keep;
    }
}

/// The room on a sheet, in points.
#[derive(Debug, Clone, Copy)]
pub(super) struct Frame {
    /// From the left edge of the sheet.
    pub(super) left: f32,
    /// From the upper edge, on the first sheet.
    pub(super) top: f32,
    /// From the upper edge, on all others, which have a head.
    pub(super) next_top: f32,
    /// How wide.
    pub(super) width: f32,
    /// The lower end, from the upper edge.
    pub(super) bottom: f32,
}

/// Sheets in the making.
pub(super) struct Flow {
    /// The room on each sheet.
    pub(super) frame: Frame,
    /// The marks of each sheet.
    pub(super) sheets: Vec<Vec<Mark>>,
    /// Where the next strip goes, from the upper edge of the last sheet.
    pub(super) y: f32,
}

/// What has been set in columns on one sheet: where, and how high; drawn behind the text.
pub(super) type Behind = fn(at: At, width: f32, height: f32) -> Vec<Mark>;

impl Flow {
    /// The first sheet.
    pub(super) fn new(frame: Frame) -> Self {
        Self { frame, sheets: vec![Vec::new()], y: frame.top }
    }

    /// How much is left below the last strip.
    pub(super) fn room(&self) -> f32 {
        self.frame.bottom - self.y
    }

    /// How much of so many sheets is filled, as a share; above 1 where there are more.
    pub(super) fn share_filled(&self, sheets: usize) -> f32 {
        let of_one = (self.frame.bottom - self.frame.next_top).max(1.0);
        let before = self.sheets.len().saturating_sub(1);
        #[expect(clippy::cast_precision_loss, reason = "a card has some sheets")]
        let (before, sheets) = (before as f32, sheets.max(1) as f32);
        (before + (self.y - self.frame.next_top) / of_one) / sheets
    }

    fn turn(&mut self) {
        self.sheets.push(Vec::new());
        self.y = self.frame.next_top;
    }

    fn is_fresh(&self) -> bool {
        let top = if self.sheets.len() == 1 { self.frame.top } else { self.frame.next_top };
        self.y <= top
    }

    fn draw(&mut self, marks: impl IntoIterator<Item = Mark>, at: At) {
        if let Some(sheet) = self.sheets.last_mut() {
            sheet.extend(marks.into_iter().map(|mark| mark.moved(at)));
        }
    }

    /// Places strips one below the other.
    pub(super) fn stack(&mut self, strips: Vec<Strip>) {
        for block in blocks(strips, self.frame.bottom - self.frame.next_top) {
            if block.height > self.room() && !self.is_fresh() {
                self.turn();
            }
            let at = (self.frame.left, self.y);
            self.y += block.height;
            self.draw(block.marks, at);
        }
    }

    /// Begins a part that goes on in columns or rows: its heading never stands alone at the end of a sheet.
    pub(super) fn begin(&mut self, heading: Vec<Strip>, least: f32) {
        let tall: f32 = heading.iter().map(|strip| strip.height).sum();
        if tall + least > self.room() && !self.is_fresh() {
            self.turn();
        }
        self.stack(heading);
    }

    /// How high the first of some strips is, with all that keep together with it, in columns with a margin around them.
    pub(super) fn first(&self, strips: &[Strip], inset: f32) -> f32 {
        let kept = strips.iter().take_while(|strip| strip.keep).count();
        let whole: f32 = strips.iter().take(kept + 1).map(|strip| strip.height).sum();
        let fits = whole + 2.0 * inset <= self.frame.bottom - self.frame.next_top;
        let alone = strips.first().map_or(0.0, |strip| strip.height);
        2.0 * inset + if fits { whole } else { alone }
    }

    /// Places strips in columns of equal height. A margin of `inset` is kept around them on every sheet, and what
    /// `behind` draws lies under it.
    pub(super) fn columns(&mut self, strips: Vec<Strip>, count: usize, gap: f32, inset: f32, behind: Option<Behind>) {
        let full = self.frame.bottom - self.frame.next_top - 2.0 * inset;
        let mut rest: VecDeque<Strip> = blocks(strips, full).into();
        let width = column_width(self.frame.width - 2.0 * inset, count, gap);
        while !rest.is_empty() {
            let room = self.room() - 2.0 * inset;
            let height = balanced(&rest, count, room);
            let mut taken = filled(&rest, count, height);
            if taken.iter().all(|column| *column == 0) {
                if !self.is_fresh() {
                    self.turn();
                    continue;
                }
                // What no sheet is high enough for stands on one of its own.
                taken = vec![1];
            }
            let mut used = 0.0_f32;
            let mut marks = Vec::new();
            for (column, take) in (0_u8..).zip(taken) {
                let x = inset + f32::from(column) * (width + gap);
                let mut y = inset;
                for block in rest.drain(..take) {
                    marks.extend(block.marks.into_iter().map(|mark| mark.moved((x, y))));
                    y += block.height;
                }
                used = used.max(y + inset);
            }
            let at = (self.frame.left, self.y);
            let ground = behind.map(|behind| behind((0.0, 0.0), self.frame.width, used)).unwrap_or_default();
            self.draw(ground, at);
            self.draw(marks, at);
            self.y += used;
            if !rest.is_empty() {
                self.turn();
            }
        }
    }
}

/// How wide each of some columns is.
pub(super) fn column_width(width: f32, count: usize, gap: f32) -> f32 {
    let count = u16::try_from(count.max(1)).unwrap_or(1);
    (width - gap * f32::from(count - 1)) / f32::from(count)
}

/// Strips that keep together as one; where that is higher than a whole sheet, they stand alone again.
fn blocks(strips: Vec<Strip>, highest: f32) -> Vec<Strip> {
    let mut blocks: Vec<Strip> = Vec::new();
    let mut open: Vec<Strip> = Vec::new();
    for strip in strips {
        let ends = !strip.keep;
        open.push(strip);
        if ends {
            close(&mut open, &mut blocks, highest);
        }
    }
    close(&mut open, &mut blocks, highest);
    blocks
}

fn close(open: &mut Vec<Strip>, blocks: &mut Vec<Strip>, highest: f32) {
    let height: f32 = open.iter().map(|strip| strip.height).sum();
    if height > highest {
        blocks.append(open);
        return;
    }
    let mut block = Strip::default();
    for strip in open.drain(..) {
        let at = (0.0, block.height);
        block.height += strip.height;
        block.marks.extend(strip.marks.into_iter().map(|mark| mark.moved(at)));
    }
    if block.height > 0.0 {
        blocks.push(block);
    }
}

/// The least height at which all blocks fit into the columns; if there is none up to `room`, it is `room`.
fn balanced(blocks: &VecDeque<Strip>, count: usize, room: f32) -> f32 {
    let all = |height: f32| filled(blocks, count, height).iter().sum::<usize>() == blocks.len();
    if !all(room) {
        return room;
    }
    let (mut short, mut enough) = (0.0, room);
    // After 20 halvings a sheet is divided finer than any printer can show.
    for _ in 0..20 {
        let middle = f32::midpoint(short, enough);
        if all(middle) {
            enough = middle;
        } else {
            short = middle;
        }
    }
    enough
}

/// How many blocks each column takes at a height.
fn filled(blocks: &VecDeque<Strip>, count: usize, height: f32) -> Vec<usize> {
    let mut rest = blocks.iter().peekable();
    let mut taken = Vec::with_capacity(count);
    for _ in 0..count {
        let (mut used, mut here) = (0.0, 0);
        while let Some(block) = rest.next_if(|block| used + block.height <= height) {
            used += block.height;
            here += 1;
        }
        taken.push(here);
    }
    taken
}

#[cfg(test)]
mod tests {
    use super::*;

    const FRAME: Frame = Frame { left: 0.0, top: 0.0, next_top: 0.0, width: 100.0, bottom: 100.0 };

    fn strips(heights: &[f32]) -> Vec<Strip> {
        heights.iter().map(|height| Strip::gap(*height)).collect()
    }

    #[test]
    fn what_does_not_fit_goes_to_the_next_sheet_whole() {
        let mut flow = Flow::new(FRAME);
        flow.stack(strips(&[60.0, 30.0, 20.0]));
        assert_eq!((flow.sheets.len(), flow.y), (2, 20.0));
        let kept = |height, keep| Strip { keep, ..Strip::gap(height) };
        flow.stack(vec![kept(50.0, true), kept(40.0, false)]);
        assert_eq!((flow.sheets.len(), flow.y), (3, 90.0));
    }

    #[test]
    fn what_is_higher_than_a_sheet_is_divided_and_comes_to_an_end() {
        let mut flow = Flow::new(FRAME);
        let long: Vec<Strip> = (0..50).map(|_| Strip { keep: true, ..Strip::gap(10.0) }).collect();
        flow.columns(long, 2, 10.0, 5.0, None);
        assert_eq!(flow.sheets.len(), 3);
        flow.stack(strips(&[500.0]));
        assert_eq!(flow.sheets.len(), 4);
    }

    #[test]
    fn a_heading_goes_with_the_first_of_what_is_below_it() {
        let kept = |height, keep| Strip { keep, ..Strip::gap(height) };
        let below = vec![kept(25.0, true), kept(25.0, false), kept(10.0, false)];
        let mut flow = Flow::new(FRAME);
        flow.stack(strips(&[30.0]));
        let least = flow.first(&below, 5.0);
        assert!((least - 60.0).abs() < 0.01, "{least}");
        flow.begin(strips(&[15.0]), least);
        flow.columns(below, 1, 0.0, 5.0, None);
        assert_eq!(flow.sheets.len(), 2);
        assert!((flow.y - 85.0).abs() < 0.01, "the heading stands alone at the end of a sheet: {}", flow.y);
        let long: Vec<Strip> = (0..50).map(|_| kept(10.0, true)).collect();
        assert!((flow.first(&long, 5.0) - 20.0).abs() < 0.01, "what is divided begins with its first strip");
    }

    #[test]
    fn columns_come_out_equally_high() {
        let mut flow = Flow::new(FRAME);
        flow.columns(strips(&[10.0; 9]), 3, 5.0, 0.0, None);
        assert!((flow.y - 30.0).abs() < 0.1, "{}", flow.y);
    }
}
