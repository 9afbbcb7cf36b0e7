//! Findings for the terminal.
use super::{Files, Findings};

/// How.
#[derive(Debug, Clone, Copy)]
pub enum TextStyle {
    /// Plain.
    Plain,
    /// Colour.
    Coloured,
}

/// All findings.
pub fn text(_findings: &Findings, _files: &Files, _style: TextStyle) -> String {
    String::new()
}
