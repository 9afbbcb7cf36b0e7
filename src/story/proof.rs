//! A proof: the site as it would be published now, of which any file can be made and looked at.

use std::borrow::Cow;
use std::sync::{Arc, OnceLock};

use super::Checked;
use crate::door::Door;
use crate::page::Ledger;
use crate::press::{Engine, Held, Hitch, Site};
use crate::render::Studio;
use crate::report::{Files, Finding, Findings};
use crate::theme::Theme;
use crate::work::{BrushOuts, brush_outs};

/// A guide that was checked, with everything at hand to make the files of its site.
///
/// Errors in the guide are no hindrance: whatever could be read is shown, and [`Proof::findings`] say what is missing.
#[derive(Debug)]
pub struct Proof {
    checked: Checked,
    ledger: Ledger,
    engine: Result<Arc<Engine>, Box<Finding>>,
    /// How the paints look on card, worked out for the first page; kept while the paints are the same.
    brush_outs: OnceLock<Arc<BrushOuts>>,
    held: Arc<Held>,
    studio: Arc<Studio>,
}

impl Proof {
    /// The proof of a checked guide. The templates of the last proof are used again if the theme is the same.
    pub fn of(checked: Checked, last: Option<&Self>) -> Self {
        let ledger = Ledger::of(&checked.worked);
        let known = last.filter(|last| Arc::ptr_eq(&last.checked.theme, &checked.theme));
        let engine = match known {
            Some(last) => last.engine.clone(),
            None => Engine::new(&checked.theme, checked.guide_file).map(Arc::new),
        };
        let same_paints = |last: &&Self| {
            let (then, now) = (&last.checked.worked.conditions, &checked.worked.conditions);
            Arc::ptr_eq(&then.shelf, &now.shelf) && then.bench == now.bench && then.air == now.air
        };
        let brush_outs = last.filter(same_paints).map(|last| last.brush_outs.clone()).unwrap_or_default();
        let held = last.map(|last| Arc::clone(&last.held)).unwrap_or_default();
        let studio = last.map(|last| Arc::clone(&last.studio)).unwrap_or_default();
        Self { checked, ledger, engine, brush_outs, held, studio }
    }

    /// The paths of all files of the site, in no order that means anything; none where the templates can't be used.
    pub fn paths(&self) -> Vec<String> {
        let Ok(site) = self.site() else { return Vec::new() };
        site.pieces().iter().map(|piece| piece.path().into_owned()).collect()
    }

    /// The bytes of one file as they would be published; `None` where the site has no such file.
    ///
    /// # Errors
    /// Where it can't be shown, or a file of the guide can't be read.
    pub fn file(&self, door: &dyn Door, path: &str) -> Result<Option<Cow<'_, [u8]>>, Hitch> {
        if let Some(bytes) = self.checked.theme.assets.get(path) {
            return Ok(Some(Cow::Borrowed(bytes)));
        }
        let site = self.site().map_err(Hitch::Told)?;
        site.piece(path).map(|piece| site.bytes(door, piece)).transpose()
    }

    fn site(&self) -> Result<Site<'_>, Box<Finding>> {
        let engine = self.engine.as_ref().map_err(Clone::clone)?;
        let brush_outs = self.brush_outs.get_or_init(|| Arc::new(brush_outs(&self.checked.worked)));
        Ok(Site { desk: self.checked.desk(&self.ledger, brush_outs, &self.studio), engine, held: &self.held })
    }

    /// What was found in the guide.
    pub fn findings(&self) -> &Findings {
        &self.checked.findings
    }

    /// The text files that findings point into.
    pub fn files(&self) -> &Files {
        &self.checked.files
    }

    /// The theme that it is shown in.
    pub fn theme(&self) -> &Theme {
        &self.checked.theme
    }
}
