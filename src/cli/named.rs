//! What somebody types for a scheme or an army: its name or its title. Where one name is both, its folder before it tells which
//! is meant: `schemes/NAME`, `armies/NAME`.

use super::terminal::Stream;
use crate::report::{visible_line, wording};
use crate::work::Worked;

/// The longest name that is repeated, in characters.
const LONGEST: usize = 80;

/// In which folder of a guide something is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Folder {
    /// Among the schemes.
    Schemes,
    /// Among the armies.
    Armies,
}

impl Folder {
    /// What a name in this folder is called with the folder before it.
    pub(super) fn with(self, name: &str) -> String {
        match self {
            Self::Schemes => format!("schemes/{name}"),
            Self::Armies => format!("armies/{name}"),
        }
    }
}

/// The folder that was typed, if one was, and the name in it.
pub(super) fn split(typed: &str) -> (Option<Folder>, &str) {
    if let Some(name) = typed.strip_prefix("schemes/") {
        return (Some(Folder::Schemes), name.trim_end_matches('/'));
    }
    if let Some(name) = typed.strip_prefix("armies/") {
        let name = name.trim_end_matches('/');
        return (Some(Folder::Armies), name.strip_suffix(".yaml").unwrap_or(name));
    }
    (None, typed)
}

/// The name of a scheme, where nothing but a scheme can be meant.
pub(super) fn scheme(typed: &str) -> &str {
    match split(typed) {
        (Some(Folder::Schemes), name) => name,
        _ => typed,
    }
}

/// Whether a scheme and an army of the guide have the same name.
pub(super) fn is_both(worked: &Worked, name: &str) -> bool {
    worked.scheme(name).is_some() && worked.guide.armies.iter().any(|army| army.slug == name)
}

/// Says which of the two was taken where a name without its folder is that of a scheme and of an army.
pub(super) fn tell_taken(worked: &Worked, typed: &str) {
    if is_both(worked, typed) {
        let shown = wording::quoted(&visible_line(typed, LONGEST));
        let other = wording::quoted(&Folder::Armies.with(typed));
        Stream::Err.tell(&format!("{shown} is a scheme and an army: this is the scheme, and {other} is the army\n"));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_folder_before_a_name_tells_which_is_meant() {
        for (typed, folder, name) in [
            ("levy", None, "levy"),
            ("schemes/levy", Some(Folder::Schemes), "levy"),
            ("schemes/levy/", Some(Folder::Schemes), "levy"),
            ("armies/levy/", Some(Folder::Armies), "levy"),
            ("armies/levy", Some(Folder::Armies), "levy"),
            ("armies/levy.yaml", Some(Folder::Armies), "levy"),
        ] {
            assert_eq!(split(typed), (folder, name));
        }
        assert_eq!(
            (Folder::Schemes.with("levy"), Folder::Armies.with("levy")),
            ("schemes/levy".into(), "armies/levy".into())
        );
    }
}
