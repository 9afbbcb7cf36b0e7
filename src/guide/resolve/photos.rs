//! Pictures that a front matter names.

use super::context::Context;
use super::{ResolveDesk, value};
use crate::guide::{Photo, checks};
use crate::report::{Finding, Place, Placed, wording};
use crate::source::Tried;
use crate::source::file::PhotoEntry;

/// The endings of pictures that can be published.
const PICTURES: &[&str] = &["jpg", "jpeg", "png", "webp"];

/// The keys of a picture and of the words that describe it.
type Keys = (&'static str, &'static str);

/// The picture after the work.
pub(super) const AFTER: Keys = ("photo", "alt");

/// The picture from before it.
pub(super) const BEFORE: Keys = ("before", "before-alt");

/// The picture behind the first of the keys, with the words behind the second.
pub(super) fn resolve(
    context: &Context<'_>,
    (photo_key, alt_key): Keys,
    (photo, alt): (Option<&Placed<String>>, Option<&Placed<Tried<String>>>),
    desk: &mut ResolveDesk,
) -> Option<Photo> {
    let Some(photo) = photo else {
        if let Some(alt) = alt {
            let message = format!("these words describe a picture, and there is no '{photo_key}' here");
            let mend = format!("add '{photo_key}: …', or take '{alt_key}' out");
            desk.tell(Finding::new(&checks::PICTURE_MISSING, alt.place, message, mend));
        }
        return None;
    };
    if alt.is_none() {
        desk.tell(without_words(photo.place, &photo.value, &format!("{alt_key}: What can be seen on it.")));
    }
    let path = find(context, &photo.value, photo.place, desk)?;
    // What can't be read has been told, and is not told as missing.
    Some(Photo { path, alt: alt.and_then(|alt| alt.value.0.clone()).unwrap_or_default(), caption: None })
}

/// All pictures of a list that can be published, in its order.
pub(super) fn list(
    context: &Context<'_>,
    entries: Option<&Placed<Vec<Placed<PhotoEntry>>>>,
    desk: &mut ResolveDesk,
) -> Vec<Photo> {
    let entries = entries.iter().flat_map(|entries| &entries.value);
    let mut photos = Vec::new();
    for entry in entries {
        let entry = &entry.value;
        let photo = resolve(context, AFTER, (entry.photo.as_ref(), entry.alt.as_ref()), desk);
        let caption = value(entry.caption.as_ref());
        photos.extend(photo.map(|photo| Photo { caption, ..photo }));
    }
    photos
}

/// The finding for a picture that nothing describes.
pub(super) fn without_words(place: Place, path: &str, example: &str) -> Finding {
    let message = format!("nothing says what {} shows", wording::quoted(path));
    Finding::new(
        &checks::ALT_MISSING,
        place,
        message,
        format!("say in one sentence what can be seen on it, as in '{example}'"),
    )
}

/// The path from the content folder of a picture that a file shows.
pub(super) fn find(context: &Context<'_>, written: &str, place: Place, desk: &mut ResolveDesk) -> Option<String> {
    let path = locate(context, written, place, desk)?;
    desk.linked_files.insert(path.clone());
    Some(path)
}

/// The path from the content folder of a picture named in a file, which need not be published.
pub(super) fn locate(context: &Context<'_>, written: &str, place: Place, desk: &mut ResolveDesk) -> Option<String> {
    let Some(path) = context.path_of(written) else {
        let message = format!("{} leads out of the content folder", wording::quoted(written));
        desk.tell(Finding::new(&checks::PICTURE_MISSING, place, message, "copy the picture beside the text"));
        return None;
    };
    if let Some((message, mend)) = no_path(written) {
        desk.tell(Finding::new(&checks::PICTURE_MISSING, place, message, mend));
        return None;
    }
    if !is_picture(&path) {
        let message = format!("{} is no picture that can be published", wording::quoted(written));
        desk.tell(Finding::new(&checks::PICTURE_MISSING, place, message, "save it as JPEG, PNG or WebP"));
        return None;
    }
    if !context.library.names.others.contains(&path) {
        let all = &context.library.names.others;
        let others = all.iter().map(String::as_str).filter(|other| is_picture(other));
        let mend = match desk.nearest(&path, all.len(), others) {
            Some(near) => context.meant(&path, near),
            None => "put the file there, or take the line out".to_owned(),
        };
        desk.tell(Finding::new(
            &checks::PICTURE_MISSING,
            place,
            format!("there is no file {}", wording::quoted(&path)),
            mend,
        ));
        return None;
    }
    Some(path)
}

/// Why what names a picture is no path in the guide, and what mends it.
fn no_path(written: &str) -> Option<(String, String)> {
    let shown = wording::quoted(written);
    if written.contains("://") || written.starts_with("data:") {
        let message = format!("{shown} is an address, and a picture is a file of the guide");
        let mend = "save the picture beside the text, if its licence lets you, and name that file".to_owned();
        return Some((message, mend));
    }
    written.contains('\\').then(|| {
        let message = format!("{shown} has a '\\', and the parts of a path have a '/' between them");
        (message, format!("write {}", wording::quoted(&written.replace('\\', "/"))))
    })
}

fn is_picture(path: &str) -> bool {
    let ending = path.rsplit_once('.').map(|(_, ending)| ending.to_lowercase());
    ending.is_some_and(|ending| PICTURES.contains(&ending.as_str()))
}
