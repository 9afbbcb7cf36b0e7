//! `maulstick shop`: what has to be bought for schemes and armies.

use super::arguments::{ListFormat, ShopArguments};
use super::gate;
use super::named::{self, Folder};
use super::settings::{GuideFolder, read_file};
use super::terminal::{Stream, Trouble};
use super::{FINE, FOUND};
use crate::guide::{self, Scheme, Unclear};
use crate::report::{Level, wording};
use crate::shop::{List, Order};
use crate::source::LARGEST_TEXT;
use crate::story::{self, Checked};
use crate::tell::shopping::{self, Voice};
use crate::work::Worked;

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
    let order = order(&checked.worked, asked);
    let Ok(mut order) = order else {
        // What is asked for may be what could not be read.
        gate::tell(&checked, &guide, |finding| finding.level() != Level::Note);
        return order.map(|_| FOUND);
    };
    let schemes: Vec<&Scheme> = order.units.iter().map(|(worked, _)| worked.scheme.as_ref()).collect();
    let armies: Vec<&str> = order.armies.iter().map(String::as_str).collect();
    gate::tell(&checked, &guide, |finding| {
        finding.level() != Level::Note && checked.concerns(finding, &schemes, &armies)
    });
    let unsound = checked.unsound(schemes);
    order.retain(|worked| checked.is_sound(&worked.scheme));
    if order.units.is_empty() || order.armies.iter().any(|army| !checked.is_army_sound(army)) {
        Stream::Err.tell("there is no list: something could be missing from it\n");
        return Ok(FOUND);
    }
    if let Some(own) = own {
        order.cupboard = own;
    }
    Stream::Out.write(&shown(&List::of(order), &checked, asked.format));
    if unsound.is_empty() {
        return Ok(FINE);
    }
    Stream::Err.tell(&format!("not in the list, because of the errors: {}\n", wording::listed(unsound)));
    Ok(FOUND)
}

/// What is asked for. Where a name is that of a scheme and of an army, the target of the list says which.
fn order<'a>(worked: &'a Worked, asked: &'a ShopArguments) -> Result<Order<'a>, Trouble> {
    let models = asked.models.map(|models| models.0);
    let typed: Vec<(Option<Folder>, &str)> =
        asked.what.iter().map(|typed| in_folder(worked, named::split(typed))).collect::<Result<_, _>>()?;
    let hidden =
        |(folder, name): &(Option<Folder>, &str)| *folder == Some(Folder::Armies) && named::is_both(worked, name);
    let mut order = if let Some((_, name)) = typed.iter().find(|one| hidden(one)) {
        let army = worked.guide.armies.iter().find(|army| army.slug == *name && typed.len() == 1);
        let alone = army.filter(|_| models.is_none()).ok_or_else(|| {
            let message = format!("{} is an army with the name of a scheme", wording::quoted(name));
            Trouble::new(message, "ask for it in a list of its own, without --models: its numbers are in its file")
        });
        Order::of_army(worked, alone?)
    } else {
        let names: Vec<String> = typed.iter().map(|(_, name)| (*name).to_owned()).collect();
        Order::find(worked, &names, models)?
    };
    typed.iter().filter(|(folder, _)| folder.is_none()).for_each(|(_, name)| named::tell_taken(worked, name));
    let label = |(slug, (folder, _)): (&str, &(Option<Folder>, &str))| {
        if named::is_both(worked, slug) { folder.unwrap_or(Folder::Schemes).with(slug) } else { slug.to_owned() }
    };
    order.target = order.target.split(", ").zip(&typed).map(label).collect::<Vec<_>>().join(", ");
    Ok(order)
}

/// What was typed, by its own name where it has a folder: it is looked up in that folder alone.
fn in_folder<'a>(
    worked: &'a Worked,
    (folder, name): (Option<Folder>, &'a str),
) -> Result<(Option<Folder>, &'a str), Unclear> {
    let name = match folder {
        Some(Folder::Schemes) => worked.called(name)?.scheme.slug.as_str(),
        Some(Folder::Armies) => {
            let known = worked.guide.armies.iter().map(|army| [army.slug.as_str(), &army.title]);
            let at = guide::find(name, "an army", &known.collect::<Vec<_>>())?;
            worked.guide.armies.get(at).map_or(name, |army| army.slug.as_str())
        }
        None => name,
    };
    Ok((folder, name))
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
