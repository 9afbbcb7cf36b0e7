//! What is checked while files are read.

use crate::report::{Check, Group, Level};

const fn file_check(id: &'static str, level: Level, about: &'static str, why: &'static str) -> Check {
    Check { id, level, about, why, group: Group::Files, safety: false }
}

/// Every check of this layer, in the order of the page "What is checked".
pub const CHECKS: &[&Check] = &[
    &FOLDER,
    &ENCODING,
    &TOO_LARGE,
    &NOT_READ,
    &OUTSIDE,
    &LOCKED,
    &FRONT_MATTER,
    &YAML,
    &UNKNOWN_KEY,
    &MISSING_KEY,
    &DUPLICATE_KEY,
    &VALUE_SHAPE,
    &VALUE_UNREADABLE,
    &TEXT_CUT,
    &UNKNOWN_WORD,
    &STEP_NAME,
    &SCHEME_SIZE,
    &GUIDE_SIZE,
    &UNKNOWN_SEQUENCE,
    &SEQUENCE_AREAS,
    &SEQUENCE_UNUSED,
    &SEQUENCE_STEP_UNUSED,
    &UNKNOWN_VARIANT,
    &OTHER_WAY,
    &INSTEAD_UNUSED,
    &NAME,
];

/// The guide's own file or a scheme's own file must be there.
pub(crate) static FOLDER: Check = file_check(
    "file-missing",
    Level::Error,
    "a guide has its guide.yaml, a scheme its scheme.md, and no file is empty",
    "they give the guide its title and the steps their areas, and an empty file may be one that was lost",
);

/// Files are UTF-8.
pub(crate) static ENCODING: Check = file_check(
    "not-utf-8",
    Level::Error,
    "a file is plain text in UTF-8, without control characters",
    "in another encoding, letters such as ö or é would reach the reader as rubbish",
);

/// Text files have a bounded size.
pub(crate) static TOO_LARGE: Check = file_check(
    "file-too-large",
    Level::Error,
    "a text file is at most one megabyte",
    "a step of that size is a file in the wrong folder, and would make every page slow",
);

/// Every file in the content folder is where it is looked for.
pub(crate) static NOT_READ: Check = file_check(
    "file-not-read",
    Level::Warning,
    "every text file is where the program looks for it",
    "a file that is in another folder, or called otherwise, is missing from the guide",
);

/// Nothing outside the guide's folder is read.
pub(crate) static OUTSIDE: Check = file_check(
    "file-refused",
    Level::Error,
    "only ordinary files inside the guide's folder are read, by names that are text and work on every system",
    "a link or a device could bring somebody's private files into the published guide, and by a name that only some systems know a file is lost on the way",
);

/// Every file and folder may be read.
pub(crate) static LOCKED: Check = file_check(
    "file-locked",
    Level::Error,
    "every file and folder of the content folder may be read",
    "what is in it is missing from the guide",
);

/// A Markdown file starts with its keys.
pub(crate) static FRONT_MATTER: Check = file_check(
    "keys-at-the-top",
    Level::Error,
    "a Markdown file begins with its keys between two lines '---'",
    "without them the program can't know the stage, the areas or the paints",
);

/// YAML can be read.
pub(crate) static YAML: Check = file_check(
    "yaml",
    Level::Error,
    "keys and values are written in YAML",
    "nothing of the file can be used until it can be read",
);

/// Keys are known.
pub(crate) static UNKNOWN_KEY: Check = file_check(
    "unknown-key",
    Level::Error,
    "every key is one that the format knows",
    "a misspelt key would be left out of the guide without a word",
);

/// Needed keys are there.
pub(crate) static MISSING_KEY: Check =
    file_check("missing-key", Level::Error, "every needed key is there", "the page would have a hole in its place");

/// Keys stand once.
pub(crate) static DUPLICATE_KEY: Check = file_check(
    "duplicate-key",
    Level::Error,
    "a key is written once in its group",
    "one of the two values would be lost, and not always the wrong one",
);

/// A list is a list, a text is a text.
pub(crate) static VALUE_SHAPE: Check = file_check(
    "value-shape",
    Level::Error,
    "a text, a list or a group of keys is written where one is expected",
    "the value can't be used as it is",
);

/// Numbers, units, dates and colours can be read.
pub(crate) static VALUE_UNREADABLE: Check = file_check(
    "value-unreadable",
    Level::Error,
    "numbers, units, shares, colours and dates can be read",
    "what can't be read is left out: a wait, a price or a date that readers would miss",
);

/// A text reaches its readers whole.
pub(crate) static TEXT_CUT: Check = file_check(
    "text-cut",
    Level::Warning,
    "no words of a text are taken for a comment ('#'), for the name of a value ('&') or for its kind ('!')",
    "readers never see those words, and nothing shows that they are missing",
);

/// A word of a closed list is in it.
pub(crate) static UNKNOWN_WORD: Check = file_check(
    "unknown-word",
    Level::Error,
    "stages, techniques, kinds and families are words that the trade uses",
    "the checks rest on knowing what a step does and what a paint is",
);

/// Step files are numbered.
pub(crate) static STEP_NAME: Check = file_check(
    "step-name",
    Level::Error,
    "a step's file is named NN-name.md, each number once in its scheme",
    "the number is the order of work",
);

/// Schemes have a bounded size.
pub(crate) static SCHEME_SIZE: Check = file_check(
    "scheme-too-large",
    Level::Error,
    "a scheme has at most 200 steps, 200 areas and 40 versions",
    "nobody paints by so long a recipe, and working out what lies on the model takes time with more than their square",
);

/// Little text makes no huge site.
pub(crate) static GUIDE_SIZE: Check = file_check(
    "guide-too-large",
    Level::Error,
    "a guide has at most 6,000 paints with a colour, and no more schemes, steps and armies than its text has room for",
    "every scheme makes a card, a picture and pages, and every paint is estimated: nobody would wait for so many",
);

/// File names become addresses.
pub(crate) static NAME: Check = file_check(
    "file-name",
    Level::Error,
    "names of files and folders that become pages have small letters, digits and hyphens, and no two folders differ only in capitals",
    "the name becomes an address: on some systems other letters break links, and two folders become one",
);

/// Sequences are known.
pub(crate) static UNKNOWN_SEQUENCE: Check = file_check(
    "unknown-sequence",
    Level::Error,
    "a sequence that a scheme uses stands in the sequences folder, with the steps and areas that the scheme says of it",
    "its steps would be missing from the scheme, or lie where nobody wants them",
);

/// A sequence lists its areas.
pub(crate) static SEQUENCE_AREAS: Check = file_check(
    "sequence-areas",
    Level::Error,
    "every area that a sequence's step names is listed in its sequence.md, and the scheme says where it lies",
    "a scheme that uses the sequence can't tell what the step is about",
);

/// Sequences are used.
pub(crate) static SEQUENCE_UNUSED: Check = file_check(
    "sequence-unused",
    Level::Note,
    "every sequence is used by a scheme",
    "its steps are on no page, and nobody checks them",
);

/// Every step of a sequence is taken by a scheme.
pub(crate) static SEQUENCE_STEP_UNUSED: Check = file_check(
    "sequence-step-unused",
    Level::Note,
    "every step of a sequence is taken by one of the schemes that use it",
    "nobody paints it, and no rule looks at it",
);

/// Variants are known.
pub(crate) static UNKNOWN_VARIANT: Check = file_check(
    "unknown-variant",
    Level::Error,
    "every variant that a step or a unit names is one of the scheme's variants",
    "the step would be in no version of the scheme, or the unit is painted in another one",
);

/// Another way is one of a step before it.
pub(crate) static OTHER_WAY: Check = file_check(
    "other-way",
    Level::Error,
    "a step that does the work of another names one that stands before it in the same scheme",
    "nobody can tell which step it takes the place of",
);

/// What is replaced is there.
pub(crate) static INSTEAD_UNUSED: Check = file_check(
    "instead-unused",
    Level::Warning,
    "every paint that 'instead' replaces is named by a step",
    "the version comes out in the old colour, and nobody sees why",
);
