//! What is checked about a guide's theme.

use crate::report::{Check, Group, Level};

const fn theme_check(id: &'static str, about: &'static str, why: &'static str) -> Check {
    Check { id, level: Level::Error, about, why, group: Group::Theme, safety: false }
}

/// Every check of this layer.
pub const CHECKS: &[&Check] = &[
    &THEME_MISSING,
    &THEME_FILE,
    &THEME_IDLE,
    &WORDS_MISSING,
    &WORDS_ENGLISH,
    &WORDS_KEY,
    &FONT_HEAVY,
    &TEMPLATE,
    &CAUTION_LOST,
    &POLICY_LOST,
];

/// The theme exists.
pub(crate) static THEME_MISSING: Check = theme_check(
    "theme-missing",
    "the guide's theme is the built-in one, or has its folder below themes",
    "the guide would be shown in another look than its author asked for",
);

/// Every file of the guide's own theme can be taken in.
pub(crate) static THEME_FILE: Check = theme_check(
    "theme-file",
    "every file of the guide's own theme, and every font that it names, is an ordinary one that can be read, by a name that works on every system",
    "the built-in file, or none, would be used in its place without a word",
);

/// A guide's own sheets, styles and scripts are where something asks for them.
pub(crate) static THEME_IDLE: Check = Check {
    level: Level::Warning,
    ..theme_check(
        "theme-file-idle",
        "every sheet, style and script of the guide's own theme takes the place of a built-in one, or is named by another",
        "it changes no page, and goes out with the site for nothing",
    )
};

/// The language has words.
pub(crate) static WORDS_MISSING: Check = theme_check(
    "words-missing",
    "the theme has words for the guide's language",
    "buttons and headings would be in another language than the text",
);

/// A language that an author brought has all words.
pub(crate) static WORDS_ENGLISH: Check = Check {
    level: Level::Warning,
    ..theme_check(
        "words-english",
        "a language that a guide brings has every word of the interface",
        "readers meet English words between those of their own language",
    )
};

/// Words have their keys and placeholders.
pub(crate) static WORDS_KEY: Check = theme_check(
    "words-key",
    "a theme's file of words has no key and no placeholder that the program does not know",
    "a misspelt key leaves the built-in words in its place",
);

/// A font for printing is small enough for pages.
pub(crate) static FONT_HEAVY: Check = Check {
    level: Level::Note,
    ..theme_check(
        "font-heavy",
        "a font that a guide brings for its letters is small enough to be loaded with a page",
        "readers see its letters in whatever font their device has, or none",
    )
};

/// Templates can be rendered.
pub static TEMPLATE: Check =
    theme_check("template", "every template can be read and rendered", "the pages that it shows can't be published");

/// Cautions are shown.
pub static CAUTION_LOST: Check = Check {
    id: "caution-lost",
    level: Level::Error,
    about: "every page of a step or a scheme shows its cautions, word for word",
    why: "somebody could be hurt by a step whose caution a template left out",
    group: Group::Theme,
    safety: true,
};

/// Pages have the strict policy.
pub static POLICY_LOST: Check = Check {
    id: "policy-lost",
    level: Level::Error,
    about: "every page begins with the policy by which a browser runs and loads nothing from elsewhere",
    why: "a script or a style in one page could follow its readers or hide a caution",
    group: Group::Theme,
    safety: true,
};
