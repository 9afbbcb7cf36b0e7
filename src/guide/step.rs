//! One step of a scheme.

use std::sync::Arc;

use super::{Mix, Photo, Prose, Tool, first_sentence};
use crate::measure::{Date, Fraction, Millimetres, Share, Time};
use crate::report::{FileId, Place};
use crate::source::VideoTime;
use crate::trade::{Direction, Reach, Stage, Technique};

/// One step, with everything that its stage settles filled in.
#[derive(Debug, Clone, PartialEq, Hash)]
pub struct Step {
    /// The file's name without its ending, and the name of its page.
    pub stem: String,
    /// How it came here, where it is one of a sequence.
    pub via: Option<Box<Via>>,
    /// Its place in the order of work, from 1.
    pub number: usize,
    /// What it is called.
    pub title: String,
    /// What it does to the model.
    pub stage: Stage,
    /// The areas it is about, by their positions in the scheme's list.
    pub areas: Vec<usize>,
    /// Whether the author wrote `all`.
    pub all_over: bool,
    /// The areas that can't be reached any more once it is done, by their positions in the scheme's list.
    pub hides: Vec<usize>,
    /// How much of its areas a mask covers, where that is a part of them.
    pub covers: Option<Share>,
    /// Where on the areas it puts paint.
    pub reach: Reach,
    /// From where it comes, where only what looks that way gets it.
    pub from: Option<Direction>,
    /// What puts the paint on.
    pub technique: Technique,
    /// What is in the cup.
    pub mix: Mix,
    /// How deep one coat is, where it is poured or trowelled and not laid as a film.
    pub deep: Option<Millimetres>,
    /// How many coats.
    pub coats: u32,
    /// How long to wait between coats.
    pub wait: Option<Time>,
    /// How long it dries before the next step, where the author says.
    pub dry: Option<Time>,
    /// What is needed beside the paints.
    pub tools: Vec<Arc<Tool>>,
    /// The author's own cautions.
    pub safety: Vec<String>,
    /// Hands-on minutes per model and coat.
    pub minutes: Option<Fraction>,
    /// Whether every model is done in one go, from one lot.
    pub together: bool,
    /// Steps that must come before, by their positions in the scheme's list.
    pub after: Vec<usize>,
    /// When it may be left out, if it may.
    pub optional: Option<String>,
    /// The steps whose work it does by other means, by their names.
    pub other_way_for: Vec<String>,
    /// A picture of the model after the step.
    pub photo: Option<Box<Photo>>,
    /// More pictures, in the author's order.
    pub photos: Vec<Photo>,
    /// A picture from before the step.
    pub before: Option<Box<Photo>>,
    /// The sentence for the printed card, where the author wrote one.
    pub card: Option<String>,
    /// Where in the scheme's video it is shown.
    pub video: Option<VideoTime>,
    /// What changed, the newest first.
    pub changed: Vec<(Date, String)>,
    /// Rules that it breaks on purpose.
    pub waivers: Vec<Waiver>,
    /// The instruction.
    pub body: Prose,
    /// Its file.
    pub file: FileId,
    /// Where its values are in its file.
    pub places: StepPlaces,
    /// The whole text of its file, for the page that shows the source.
    pub source: Arc<str>,
}

/// How a step of a sequence came into a scheme.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Via {
    /// The slug of the sequence.
    pub sequence: String,
    /// What that is called.
    pub title: String,
    /// The name of the step's file in the sequence, without its ending.
    pub own: String,
    /// The name of the scheme's file that stands for the sequence, without its ending.
    pub stem: String,
    /// The whole text of that file.
    pub source: Arc<str>,
    /// Whether the step is the first of them.
    pub first: bool,
    /// Where that file names the sequence.
    pub place: Place,
}

/// A rule that a step breaks on purpose.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Waiver {
    /// The rule's id.
    pub rule: String,
    /// The reason.
    pub reason: String,
    /// Where it is in its file.
    pub place: Place,
}

/// Where a step's values stand; a value that the author left out points at the step's title.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub struct StepPlaces {
    /// The title.
    pub title: Place,
    /// The stage.
    pub stage: Place,
    /// The areas.
    pub areas: Place,
    /// How far it reaches, where the author says so.
    pub reach: Option<Place>,
    /// From where it comes.
    pub from: Place,
    /// The technique.
    pub technique: Place,
    /// The mix.
    pub paints: Place,
    /// The depth.
    pub deep: Place,
    /// The number of coats.
    pub coats: Place,
    /// The wait between coats.
    pub wait: Place,
    /// The drying time.
    pub dry: Place,
    /// The hands-on minutes.
    pub minutes: Place,
    /// The place in the video.
    pub video: Place,
}

impl Step {
    /// The one sentence that a card has room for: the author's own, otherwise the first of the instruction.
    pub fn sentence(&self) -> Option<String> {
        let own = self.card.as_deref().map(str::trim).filter(|own| !own.is_empty());
        own.map(ToOwned::to_owned).or_else(|| first_sentence(self.body.markdown()))
    }

    /// Whether it is about the base that is beside the model, and not about the model.
    pub fn is_about_base(&self) -> bool {
        self.stage == Stage::Basing && self.places.areas == self.places.title
    }

    /// Whether it shuts in what another step works on, which must come before it therefore. A step that says `all` leaves
    /// out what is shut in.
    pub fn shuts_in(&self, other: &Self) -> bool {
        !other.all_over && other.areas.iter().any(|area| self.hides.contains(area))
    }
}
