//! Paper sizes for printing.

use super::choice;

choice! {
    /// The paper that printed recipes are laid out for.
    Paper, "a paper size" {
        /// 210 × 297 mm.
        A4 = "A4",
        /// 148 × 210 mm.
        A5 = "A5",
        /// 8.5 × 11 inches.
        Letter = "letter",
    }
}
