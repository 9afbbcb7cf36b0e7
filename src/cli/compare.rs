//! `maulstick compare`: a photographed model against what was predicted for it.

use super::arguments::{CompareArguments, Plain};
use super::named;
use super::settings::{GuideFolder, read_file};
use super::terminal::{Stream, Trouble};
use super::{FOUND, gate};
use crate::brushout::{Bare, PAPER, PatchSize, Point, Refusal};
use crate::compare::{self, Question};
use crate::door::Door;
use crate::guide::{self, Scheme};
use crate::measure::FromText;
use crate::picture::MOST_BYTES;
use crate::report::{visible_line, wording};
use crate::story;
use crate::tell;

/// What an ordinary grey card reflects.
const GREY: f64 = 0.18;

/// Reads the photograph and prints how far each area is from its prediction.
pub(super) fn run(asked: &CompareArguments) -> Result<u8, Trouble> {
    let guide = GuideFolder::open(&asked.guide)?;
    let checked = story::check(&guide.door).map_err(|error| Trouble::with_disk("the guide can't be read", &error))?;
    let scheme = &checked.worked.called(named::scheme(&asked.scheme))?.scheme;
    if gate::is_shut(&checked, &guide, &[scheme.as_ref()], "nothing is compared") {
        return Ok(FOUND);
    }
    let points = asked.at.iter().map(|text| point(scheme, text)).collect::<Result<Vec<_>, Trouble>>()?;
    let map = map(asked, scheme, &guide)?;
    if points.is_empty() && map.is_none() {
        let area = scheme.areas.first().map_or("shell", |area| area.id.as_str());
        let mend = format!("name a point for each area, as in '--at {area}=41%,22%', or a map: '--map map.png'");
        return Err(Trouble::new("nothing says where the areas are on the photograph", &mend));
    }
    let photo = read_file(&asked.photo, MOST_BYTES, "name a photograph of the painted model")?;
    let patch = asked.patch.as_deref().map(|text| read::<PatchSize>("--patch", text)).transpose()?;
    let patch = patch.unwrap_or(PatchSize::USUAL);
    let question = Question { points, map: map.as_deref(), bare: bare(asked)?, patch };
    let reading = compare::measure(&photo, scheme, &question).map_err(|refusal| refused(&refusal))?;
    let compared = compare::compare(scheme, &checked.worked.conditions, &reading.measured);
    let balanced = !question.bare.is_empty();
    match asked.format {
        Plain::Text => Stream::Out.tell(&tell::compare::text(scheme, &compared, &reading, balanced)),
        Plain::Json => Stream::Out.write(&tell::compare::json(scheme, &compared, &reading, balanced)),
    }
    Ok(gate::status(&checked, &guide, &[scheme.as_ref()]))
}

/// The map that is asked for; where nobody names one or a point, that of the scheme's model.
fn map(asked: &CompareArguments, scheme: &Scheme, guide: &GuideFolder) -> Result<Option<Vec<u8>>, Trouble> {
    if let Some(map) = asked.map.as_deref() {
        return read_file(map, MOST_BYTES, "name a map of the areas").map(Some);
    }
    let own = scheme.model.bare.as_ref().filter(|_| asked.at.is_empty());
    let read = |path: &str| {
        let bytes = guide.door.read(&format!("content/{path}"), MOST_BYTES);
        bytes.map_err(|error| {
            Trouble::with_disk(&format!("the model's map {} can't be read", wording::quoted(path)), &error)
        })
    };
    own.map(|bare| read(&bare.map.value)).transpose()
}

/// An area with a point on it, as in `shell=41%,22%`.
fn point(scheme: &Scheme, text: &str) -> Result<(usize, Point), Trouble> {
    let Some((area, at)) = text.split_once('=') else {
        let message = format!("can't read --at {}: there is no '='", wording::quoted(&visible_line(text, 80)));
        return Err(Trouble::new(message, "write an area and a point on it, as in '--at shell=41%,22%'"));
    };
    let known = scheme.areas.iter().map(|known| [known.id.as_str(), &known.title]);
    Ok((guide::find(area.trim(), "an area", &known.collect::<Vec<_>>())?, read("--at", at)?))
}

fn bare(asked: &CompareArguments) -> Result<Vec<Bare>, Trouble> {
    let white = asked.white.iter().map(|text| ("--white", "something white", text, PAPER));
    let grey = asked.grey.iter().map(|text| ("--grey", "grey card", text, GREY));
    let bare = |(option, name, text, reflects): (&str, &'static str, &String, f64)| {
        Ok(Bare { name, at: read(option, text)?, reflects })
    };
    white.chain(grey).map(bare).collect()
}

fn read<T: FromText>(option: &str, text: &str) -> Result<T, Trouble> {
    T::from_text(text).map_err(|why| {
        let shown = wording::quoted(&visible_line(text, 80));
        Trouble::new(format!("can't read {option} {shown}: {why}"), &format!("write {}", T::EXPECTED))
    })
}

fn refused(refusal: &Refusal) -> Trouble {
    Trouble::new(format!("{}: {}", refusal.what, refusal.why), &refusal.mend)
}
