//! `maulstick shop`: what has to be bought for schemes and armies.

use super::arguments::{ListFormat, ShopArguments};
use super::settings::{GuideFolder, read_file};
use super::terminal::{Stream, Trouble};
use super::{FINE, FOUND};
use crate::report::{self, wording};
use crate::shop::{List, Order};
use crate::source::LARGEST_TEXT;
use crate::story::{self, Checked};
use crate::tell::shopping::{self, Voice};

/// Prints a shopping list; what is wrong with the guide goes to standard error, and with errors there is no list.
pub(super) fn run(asked: &ShopArguments) -> Result<u8, Trouble> {
    let guide = GuideFolder::open(&asked.guide)?;
    let mut checked =
        story::check(&guide.door).map_err(|error| Trouble::with_disk("the guide can't be read", &error))?;
    let own = match &asked.have {
        Some(file) => {
            let bytes = read_file(file, LARGEST_TEXT, "name a file of YAML such as 'bog-iron: 12 ml'")?;
            Some(story::cupboard(&mut checked, &file.display().to_string(), &bytes))
        }
        None => None,
    };
    Stream::Err
        .write(&report::brief((&checked.findings, &checked.files), Stream::Err.style(), &guide.shown(), |_| false));
    let mut order = Order::find(&checked.worked, &asked.what, asked.models.map(|models| models.0))?;
    let unsound = checked.unsound(order.units.iter().map(|(worked, _)| worked.scheme.as_ref()));
    order.units.retain(|(worked, _)| checked.is_sound(&worked.scheme));
    if order.units.is_empty() || order.armies.iter().any(|army| !checked.is_army_sound(army)) {
        Stream::Err.write("there is no list: something could be missing from it\n");
        return Ok(FOUND);
    }
    if let Some(own) = own {
        order.cupboard = own;
    }
    Stream::Out.write(&shown(&List::of(order), &checked, asked.format));
    if unsound.is_empty() {
        return Ok(FINE);
    }
    Stream::Err.write(&format!("not in the list, because of the errors: {}\n", wording::listed(unsound)));
    Ok(FOUND)
}

fn shown(list: &List<'_>, checked: &Checked, format: ListFormat) -> String {
    let voice = Voice::new(&checked.theme.words, &checked.worked.guide.language);
    match format {
        ListFormat::Text => shopping::text(list, voice, Stream::Out.columns()),
        ListFormat::Csv => shopping::csv(list),
        ListFormat::Json => shopping::json(list),
        ListFormat::Md => shopping::markdown(list, voice),
    }
}
