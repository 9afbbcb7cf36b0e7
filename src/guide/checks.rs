//! What is checked while names are looked up.

use crate::report::{Check, Group, Level};

const fn name_check(id: &'static str, level: Level, about: &'static str, why: &'static str) -> Check {
    Check { id, level, about, why, group: Group::Names, safety: false }
}

const fn link_check(id: &'static str, level: Level, about: &'static str, why: &'static str) -> Check {
    Check { id, level, about, why, group: Group::Links, safety: false }
}

/// Every check of this layer, in the order of the page "What is checked".
pub const CHECKS: &[&Check] = &[
    &UNKNOWN_PAINT,
    &UNKNOWN_AREA,
    &UNKNOWN_STEP,
    &UNKNOWN_SCHEME,
    &UNKNOWN_GROUP,
    &TOOL_NOT_LISTED,
    &DUPLICATE_ID,
    &AREAS_MISSING,
    &AREA_SHARES,
    &ZONE_SHARES,
    &AFTER_LATER_STEP,
    &MIX_MEASURES,
    &MIX_AMOUNT,
    &MIX_LENGTH,
    &BLEND,
    &HIDES,
    &COVERS,
    &DIRECTION,
    &POT_NAME,
    &POT_UNUSED,
    &NO_STEPS,
    &HOUSE_ORDERS,
    &SWATCH,
    &UNKNOWN_PIGMENT,
    &VARNISH_COLOUR,
    &SWATCHES,
    &TAG,
    &TAGS_MEET,
    &TEXT_BOUNDS,
    &PICTURE_MISSING,
    &MESH_MISSING,
    &MESH_TWICE,
    &FONT_MISSING,
    &MESH_SPACE,
    &BARE_HALF,
    &BARE_UNUSED,
    &ALT_MISSING,
    &HTML_LEFT_OUT,
    &DEAD_LINK,
    &DEAD_ANCHOR,
    &UNSAFE_LINK,
    &LINK_AS_WORDS,
    &CAUTION_EMPTY,
];

/// A pot has a name of its own.
pub(crate) static POT_NAME: Check = name_check(
    "pot-name",
    Level::Error,
    "no pot has the id of a paint, or of another pot that its steps can use",
    "whoever reads a step can't tell which of the two goes into the cup",
);

/// Pots are used.
pub(crate) static POT_UNUSED: Check = name_check(
    "pot-unused",
    Level::Note,
    "every pot is used by a step",
    "readers mix it and find no use for it, or a step forgot to name it",
);

/// Meshes are there.
pub(crate) static MESH_MISSING: Check = link_check(
    "mesh-missing",
    Level::Error,
    "the mesh that a model names is in the content folder",
    "the surface of the model can't be measured, and how much paint it takes is not known",
);

/// A mesh counts once.
pub(crate) static MESH_TWICE: Check = link_check(
    "mesh-twice",
    Level::Warning,
    "a model names each mesh once",
    "measured twice, the model would take twice the paint",
);

/// Fonts are there.
pub(crate) static FONT_MISSING: Check = link_check(
    "font-missing",
    Level::Error,
    "every font that a guide names is a TrueType or OpenType file in the content folder",
    "cards would be printed without its letters, and pages shown in whatever font a reader's device has",
);

/// Parts of space can be meant.
pub(crate) static MESH_SPACE: Check = name_check(
    "mesh-space",
    Level::Error,
    "a part of space that an area is has the numbers of a box or of a sphere",
    "the area is not found on the mesh, and is drawn bare",
);

/// A photo of the bare model and its map belong together.
pub(crate) static BARE_HALF: Check = link_check(
    "bare-half",
    Level::Warning,
    "a photo of the bare model has a map of its areas, and a map such a photo",
    "the steps can't be drawn on it",
);

/// A photo of the bare model is drawn on.
pub(crate) static BARE_UNUSED: Check = link_check(
    "bare-unused",
    Level::Note,
    "a model is drawn either on its mesh or on a photo of it bare",
    "the photo and its map are kept for nothing",
);

/// Paints are known.
pub(crate) static UNKNOWN_PAINT: Check = name_check(
    "unknown-paint",
    Level::Error,
    "every paint that something uses is in a file of the paints folder",
    "its colour, its drying time and its price are not known, and it would be missing from the shopping list",
);

/// Pigments are known.
pub(crate) static UNKNOWN_PIGMENT: Check = name_check(
    "unknown-pigment",
    Level::Note,
    "every pigment that a paint names is one whose light is known",
    "it can't narrow the prediction of the paint's tints and mixes",
);

/// A varnish is clear.
pub(crate) static VARNISH_COLOUR: Check = name_check(
    "varnish-colour",
    Level::Note,
    "what shades or tints is no varnish by its kind",
    "a varnish is predicted as clear, so nobody sees what its colour does to the model",
);

/// Areas are known.
pub(crate) static UNKNOWN_AREA: Check = name_check(
    "unknown-area",
    Level::Error,
    "every area that a step names is one of its scheme's areas",
    "the step would paint nothing that the checks know of",
);

/// Steps are known.
pub(crate) static UNKNOWN_STEP: Check = name_check(
    "unknown-step",
    Level::Error,
    "a step named under 'after' is a step of the same scheme",
    "the order that the author asks for can't be kept",
);

/// Schemes are known.
pub(crate) static UNKNOWN_SCHEME: Check = name_check(
    "unknown-scheme",
    Level::Error,
    "every unit of an army is painted in a scheme of the guide",
    "the unit can't be planned or shopped for",
);

/// Groups are known.
pub(crate) static UNKNOWN_GROUP: Check = name_check(
    "unknown-group",
    Level::Warning,
    "every group that guide.yaml puts in order is one that a scheme is in",
    "readers never see it, and the schemes that were meant stand at another place of the index",
);

/// Tools are listed.
pub(crate) static TOOL_NOT_LISTED: Check = name_check(
    "tool-not-listed",
    Level::Note,
    "every tool that a step names is in tools.yaml",
    "readers see its id in place of a name, and the shopping list can't tell a tool from a consumable",
);

/// Ids are unique.
pub(crate) static DUPLICATE_ID: Check = name_check(
    "duplicate-id",
    Level::Error,
    "a paint's id is used once over all files",
    "a step that names it could mean either",
);

/// Steps say what they are about.
pub(crate) static AREAS_MISSING: Check = name_check(
    "areas-missing",
    Level::Error,
    "a step says which areas it is about, unless it prepares the model or the base",
    "without areas nothing is painted, and neither order nor amounts can be worked out",
);

/// Shares add up.
pub(crate) static AREA_SHARES: Check = name_check(
    "area-shares",
    Level::Error,
    "the shares of a scheme's areas add up to 100 %",
    "readers see them, and how much of the model a step covers is calculated from them",
);

/// Zones add up.
pub(crate) static ZONE_SHARES: Check = name_check(
    "zone-shares",
    Level::Error,
    "the shares of recesses, faces and edges add up to 100 %",
    "how much of an area a wash or a highlight covers is calculated from them",
);

/// `after` looks back.
pub(crate) static AFTER_LATER_STEP: Check = name_check(
    "after-later-step",
    Level::Error,
    "a step comes after the steps that it names under 'after'",
    "the numbers of the files and the author's own rule contradict each other",
);

/// One measure a mix.
pub(crate) static MIX_MEASURES: Check = name_check(
    "mix-measures",
    Level::Error,
    "a mix is either all in parts or all in drops, on every line",
    "half of a ratio is no ratio",
);

/// Two are blended.
pub(crate) static BLEND: Check = name_check(
    "blend-of-two",
    Level::Error,
    "a step that blends wet in wet names two paints or pots, and no other mix",
    "nobody can tell what runs into what",
);

/// Areas are shut in by assembling.
pub(crate) static HIDES: Check = name_check(
    "hides-without-assembling",
    Level::Error,
    "only a step of the stage 'assemble' says what can't be reached any more",
    "the steps after it would leave out an area that lies open",
);

/// A part of an area is covered by masking.
pub(crate) static COVERS: Check = name_check(
    "mask-covers",
    Level::Warning,
    "a step of the stage 'mask', and no other, may say how much of all its areas it covers",
    "the steps after it go over all of the area, and so do their colours",
);

/// What comes from one side is laid.
pub(crate) static DIRECTION: Check = name_check(
    "direction-of-no-coat",
    Level::Note,
    "'from' says from where something is sprayed, brushed or dusted on",
    "a step that lays nothing has no direction, and readers look for one",
);

/// Amounts are positive.
pub(crate) static MIX_AMOUNT: Check = name_check(
    "mix-amount",
    Level::Error,
    "every line of a mix has more than 0 of its paint, and names it once",
    "nothing of a paint is no part of a mix, and of two amounts nobody knows which one is meant",
);

/// A mix has at most eight lines.
pub(crate) static MIX_LENGTH: Check = name_check(
    "mix-length",
    Level::Error,
    "a mix has at most eight lines",
    "nobody hits the same colour twice with more than eight bottles",
);

/// A scheme has steps.
pub(crate) static NO_STEPS: Check =
    name_check("no-steps", Level::Warning, "a scheme has at least one step", "readers would open an empty recipe");

/// A swatch says what it was measured over.
pub(crate) static SWATCH: Check = name_check(
    "swatch",
    Level::Error,
    "a swatch is over white, over black, or a tint of so many parts to so many of a known white, and one paint can show all",
    "a measured colour that is not what it is said to be makes every prediction of the paint wrong",
);

/// Swatches are few.
pub(crate) static SWATCHES: Check = name_check(
    "swatches-too-many",
    Level::Warning,
    "a paint has at most 24 swatches",
    "more of them say little that is new, and every look at the guide would wait for them",
);

/// Tags can become a page.
pub(crate) static TAG: Check = name_check(
    "tag-empty",
    Level::Error,
    "every tag has a letter or a digit",
    "a tag becomes a page with an address; one without would be missing from the guide without a word",
);

/// Each tag has a page of its own.
pub(crate) static TAGS_MEET: Check = name_check(
    "tags-meet",
    Level::Warning,
    "tags that are written in other words have pages of their own",
    "their schemes stand on one page, under the words of one of them",
);

/// Texts have bounds.
pub(crate) static TEXT_BOUNDS: Check = name_check(
    "text-beyond-measure",
    Level::Error,
    "a text has at most a hundred quotes or lists inside each other, and no more HTML than a page can hold",
    "browsers give up on such a page, and making it would take time and memory without end",
);

/// Pictures are there.
pub(crate) static PICTURE_MISSING: Check = link_check(
    "picture-missing",
    Level::Error,
    "every picture that something shows is a JPEG, PNG or WebP file of the content folder",
    "readers would see a hole",
);

/// Pictures are described.
pub(crate) static ALT_MISSING: Check = link_check(
    "alt-missing",
    Level::Error,
    "every picture says in words what it shows",
    "readers who can't see it, or whose connection fails, get nothing",
);

/// An author's HTML has no element that takes in the text behind it.
pub(crate) static HTML_LEFT_OUT: Check = link_check(
    "html-left-out",
    Level::Warning,
    "HTML in a text has no styles, scripts, forms or frames",
    "such an element is left out, and what is in it; readers would miss it without a word",
);

/// Links lead somewhere.
pub(crate) static DEAD_LINK: Check = link_check(
    "dead-link",
    Level::Error,
    "every link inside the guide leads to something that is there",
    "readers would land on an error",
);

/// Anchors exist.
pub(crate) static DEAD_ANCHOR: Check = link_check(
    "dead-anchor",
    Level::Error,
    "a link to a heading names a heading that is there",
    "readers would land at the top of the page and search for the place",
);

/// Links can't do harm.
pub(crate) static UNSAFE_LINK: Check = Check {
    id: "unsafe-link",
    level: Level::Error,
    about: "links lead to the web by http or https, to a mail address, into the guide, or to a file that can't run",
    why: "other links and files can run a program in the reader's browser",
    group: Group::Links,
    safety: true,
};

pub(crate) static HOUSE_ORDERS: Check = name_check(
    "house-orders-too-many",
    Level::Error,
    "'house-order' holds no more than fifty rules",
    "each is held against every area and step of every scheme; what lies beyond the bound is not looked at",
);

/// What is meant as a link is one.
pub(crate) static LINK_AS_WORDS: Check = link_check(
    "link-as-words",
    Level::Warning,
    "what is meant as a link or a picture is written as one",
    "readers see the brackets and the address in place of the link or the picture",
);

/// An author's caution says something.
pub(crate) static CAUTION_EMPTY: Check = Check {
    id: "caution-says-nothing",
    level: Level::Error,
    about: "every caution under 'safety' says what has to be done",
    why: "readers take a word such as 'none' for the author's promise that nothing can hurt them",
    group: Group::Safety,
    safety: true,
};
