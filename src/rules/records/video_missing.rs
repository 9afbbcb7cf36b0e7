//! A step says where in the video it is shown, and its scheme names no video.

use super::area_unused::whole_schemes;
use crate::guide::{Guide, Scheme};
use crate::report::{Check, Finding, Group, Level, Place, wording};

/// A place in a video needs a video.
pub(in crate::rules) static VIDEO_MISSING: Check = Check {
    id: "video-missing",
    level: Level::Note,
    about: "where a step says its place in the video, the scheme names the video",
    why: "the place leads nowhere without it, and the page of the step leaves it out",
    group: Group::Bookkeeping,
    safety: false,
};

/// What is wrong with the videos of all schemes.
pub(in crate::rules) fn check(guide: &Guide) -> Vec<Finding> {
    whole_schemes(guide)
        .filter(|scheme| scheme.video.is_none() && scheme.version.is_none())
        .flat_map(without_video)
        .collect()
}

fn without_video(scheme: &Scheme) -> impl Iterator<Item = Finding> {
    scheme.steps.iter().filter_map(|step| {
        let time = step.video?;
        let title = wording::quoted(&scheme.title);
        let message = format!("this step is shown at {time} of a video, and {title} names none");
        let mend = "add 'video: https://…' to scheme.md, or take this line out";
        let finding = Finding::new(&VIDEO_MISSING, step.places.video, message, mend);
        Some(finding.see(Place::top_of(scheme.file), "the scheme"))
    })
}
