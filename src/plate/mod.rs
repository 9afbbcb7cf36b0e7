//! **Plates**: a photograph of the bare, primed model with a map of its areas, on which the steps are drawn where there
//! is no mesh.
//!
//! The map has one flat colour an area, painted over the photograph in any program. What lies between two areas, as
//! smoothed edges do, goes to the nearer one; what has no area's colour stays as it was photographed.

mod areas;
mod checks;
mod findings;
mod flats;
mod owners;
mod survey;

pub(crate) use areas::AreaMap;
pub(crate) use checks::CHECKS;
pub(crate) use survey::{KeptPlates, Plate, Plates, survey};
