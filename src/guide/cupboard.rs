//! What is in a cupboard, its paints looked up in the guide.

use std::sync::Arc;

use super::{Guide, Paint, checks};
use crate::report::{Finding, wording};
use crate::source::{Have, Mention, Table};

/// The paints of a cupboard; what the guide does not know is reported and left out.
pub fn cupboard(guide: &Guide, table: &Table<Mention, Have>) -> (Vec<(Arc<Paint>, Have)>, Vec<Finding>) {
    let mut findings = Vec::new();
    let mut known = Vec::new();
    for (name, amount) in &table.0 {
        if let Some(paint) = guide.paints.iter().find(|paint| paint.id == name.0) {
            known.push((Arc::clone(paint), *amount));
            continue;
        }
        let ids: Vec<&str> = guide.paints.iter().map(|paint| paint.id.as_str()).collect();
        let message = format!("there is no paint {}", wording::quoted(&name.0));
        let mend = wording::did_you_mean(&name.0, "a paint", &ids);
        findings.push(Finding::new(&checks::UNKNOWN_PAINT, name.place, message, mend));
    }
    (known, findings)
}
