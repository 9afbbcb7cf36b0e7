//! The records of each kind of file, as an author writes them.

mod army_file;
mod guide_file;
mod page_file;
mod paints_file;
mod scheme_file;
mod sequence_file;
mod step_file;
mod tools_file;

pub use army_file::{ArmyFile, DayEntry, DaysEntry, EveningsEntry, UnitEntry};
pub use guide_file::{GuideFile, HouseOrderEntry};
pub use page_file::PageFile;
pub use paints_file::{BottleEntry, PaintEntry, PaintsFile, SwatchEntry};
pub use scheme_file::{AreaEntry, ModelEntry, SchemeFile, SpaceEntry, VariantEntry, ViewEntry, ZonesEntry};
pub use sequence_file::{SequenceFile, SequenceUse, UseAreas};
pub use step_file::{MixLine, PhotoEntry, PotEntry, StepFile};
pub use tools_file::{ToolEntry, ToolsFile};
