//! Paints: what the range and the kind settle is filled in, and what they name is looked up.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::{ResolveDesk, swatches, value};
use crate::guide::library::Library;
use crate::guide::{Bottle, Paint, Suits, checks};
use crate::measure::{FromText, Millilitres, Time, hyphenated};
use crate::report::{Finding, Place, Placed, wording};
use crate::source::file::{BottleEntry, PaintEntry, PaintsFile};
use crate::source::{Id, Source};
use crate::trade::{Family, Hiding, Kind, PIGMENTS, Sheen};

/// All paints in the order of their files; an id that is used twice keeps its first paint.
pub(super) fn resolve(source: &Source, drop: Option<Millilitres>, desk: &mut ResolveDesk) -> Vec<Arc<Paint>> {
    let mut seen: BTreeMap<&str, Place> = BTreeMap::new();
    let mut paints = Vec::new();
    for range in &source.paints {
        for (id, entry) in range.paints.iter().flat_map(|paints| &paints.value.0) {
            if id.0 == "index" {
                let message = "'index' is the page of all paints";
                desk.tell(Finding::new(&checks::DUPLICATE_ID, id.place, message, "give this paint another id"));
                continue;
            }
            if let Some(first) = seen.get(id.0.as_str()) {
                let message = format!("the id {} is used a second time", wording::quoted(&id.0));
                desk.tell(
                    Finding::new(&checks::DUPLICATE_ID, id.place, message, "give one of the two paints another id")
                        .see(*first, "the first one"),
                );
                continue;
            }
            seen.insert(&id.0, id.place);
            paints.push(Arc::new(paint(source, range, id, entry, drop, desk)));
        }
    }
    paints
}

fn paint(
    source: &Source,
    range: &PaintsFile,
    id: &Placed<Id>,
    entry: &PaintEntry,
    drop: Option<Millilitres>,
    desk: &mut ResolveDesk,
) -> Paint {
    let kind = value(entry.kind.as_ref()).unwrap_or(Kind::Paint);
    let range_family = value(range.family.as_ref()).unwrap_or(Family::Water);
    let family = value(entry.family.as_ref()).or(kind.family()).unwrap_or(range_family);
    let usual = RangeUsual::of(range, kind, family == range_family);
    let measured = swatches::read(id, entry, desk);
    let paint = Paint {
        id: id.0.clone(),
        name: value(entry.name.as_ref()).unwrap_or_else(|| super::words_of(&id.0)),
        maker: value(range.maker.as_ref()).unwrap_or_default(),
        range: value(range.range.as_ref()).unwrap_or_default(),
        kind,
        family,
        colour: value(entry.colour.as_ref()),
        hiding: value(entry.hiding.as_ref()).or(usual.hiding).unwrap_or_else(|| usual_hiding(kind)),
        sheen: value(entry.sheen.as_ref()).or(usual.sheen).unwrap_or_else(|| usual_sheen(kind)),
        code: value(entry.code.as_ref()),
        drop: value(entry.drop.as_ref()).or(value(range.drop.as_ref())).or(drop),
        bottles: bottles(range, entry),
        swatches: measured.iter().map(|swatch| swatch.value.clone()).collect(),
        pigments: pigments(entry, desk),
        thin_with: entry.thin_with.iter().flat_map(|ids| &ids.value).map(|id| id.0.clone()).collect(),
        suits: entry.suits.iter().flat_map(|names| &names.value).map(suits).collect(),
        hazards: entry.hazards.as_ref().map(|codes| codes.value.clone()).unwrap_or_default(),
        touch_dry: value(entry.touch_dry.as_ref()).or(usual.touch_dry),
        recoat: value(entry.recoat.as_ref()).or(usual.recoat),
        cure: value(entry.cure.as_ref()).or(usual.cure),
        discontinued: entry.discontinued.as_ref().is_some_and(|flag| flag.0),
        not_for_spraying: entry.not_for_spraying.as_ref().is_some_and(|flag| flag.0),
        note: value(entry.note.as_ref()),
        place: source.marked(id),
    };
    tell_tinted_varnish(&paint, entry, desk);
    swatches::check(&paint, &measured, entry.colour.as_ref().map(|colour| colour.place), desk);
    paint
}

/// A varnish may be as pale as varnishes are in the bottle.
const PALE: u8 = 0xb0;

/// Tells of a varnish with a colour that is no clear film's.
fn tell_tinted_varnish(paint: &Paint, entry: &PaintEntry, desk: &mut ResolveDesk) {
    let Some(colour) = entry.colour.as_ref().filter(|_| paint.kind == Kind::Varnish) else { return };
    if colour.value.0.iter().any(|part| *part < PALE) {
        let message = "this colour is not shown: a varnish is clear";
        let mend = "write 'kind: wash' if it shades, 'kind: clear' if it tints, or take 'colour' out";
        desk.tell(Finding::new(&checks::VARNISH_COLOUR, colour.place, message, mend));
    }
}

/// What a range says for a product of it that does not say otherwise.
#[derive(Default)]
struct RangeUsual {
    hiding: Option<Hiding>,
    sheen: Option<Sheen>,
    touch_dry: Option<Time>,
    recoat: Option<Time>,
    cure: Option<Time>,
}

impl RangeUsual {
    /// What a range says is meant for its paints: not for what is transparent, shines by itself or lies thick, and its
    /// times not for another family.
    fn of(range: &PaintsFile, kind: Kind, own_family: bool) -> Self {
        let covers = matches!(kind, Kind::Paint | Kind::Metal | Kind::Primer | Kind::Ink | Kind::Enamel | Kind::Oil);
        let shines = matches!(kind, Kind::Metal) || (!covers && kind != Kind::Wash);
        let dries = covers || matches!(kind, Kind::Clear | Kind::Wash | Kind::Varnish | Kind::Medium);
        let times = Some(range).filter(|_| dries && own_family);
        Self {
            hiding: value(range.hiding.as_ref()).filter(|_| covers),
            sheen: value(range.sheen.as_ref()).filter(|_| !shines),
            touch_dry: times.and_then(|range| value(range.touch_dry.as_ref())),
            recoat: times.and_then(|range| value(range.recoat.as_ref())),
            cure: times.and_then(|range| value(range.cure.as_ref())),
        }
    }
}

/// What most products of a kind hide, where the author does not say.
fn usual_hiding(kind: Kind) -> Hiding {
    match kind {
        Kind::Paint | Kind::Primer | Kind::Texture | Kind::Pigment | Kind::Enamel | Kind::Oil => Hiding::Opaque,
        Kind::Metal => Hiding::SemiOpaque,
        Kind::Ink => Hiding::SemiTransparent,
        _ => Hiding::Transparent,
    }
}

/// How most products of a kind shine, where the author does not say.
fn usual_sheen(kind: Kind) -> Sheen {
    match kind {
        Kind::Metal => Sheen::Metallic,
        Kind::Clear | Kind::Resin => Sheen::Gloss,
        Kind::Varnish | Kind::Ink | Kind::Oil | Kind::Medium => Sheen::Satin,
        _ => Sheen::Matt,
    }
}

fn bottles(range: &PaintsFile, entry: &PaintEntry) -> Vec<Bottle> {
    if let Some(sizes) = &entry.bottles {
        let known = |BottleEntry { size, price }: &BottleEntry| {
            Some(Bottle { size: value(size.as_ref())?, price: value(price.as_ref()) })
        };
        return sizes.value.iter().filter_map(known).collect();
    }
    let size = value(entry.bottle.as_ref()).or(value(range.bottle.as_ref()));
    let price = value(entry.price.as_ref()).or(value(range.price.as_ref()));
    size.map(|size| Bottle { size, price }).into_iter().collect()
}

/// The pigments that are named; for one of which nothing is known, the nearest name is reported.
fn pigments(entry: &PaintEntry, desk: &mut ResolveDesk) -> Vec<String> {
    let names = entry.pigments.iter().flat_map(|names| names.value.iter().map(|name| (name, names.place)));
    names.map(|(name, place)| known_pigment(&name.0, place, desk)).collect()
}

fn known_pigment(name: &str, place: Place, desk: &mut ResolveDesk) -> String {
    let plain = |name: &str| name.split(':').next().unwrap_or_default().to_owned();
    let hue = |name: &str| name.trim_end_matches(|c: char| c.is_ascii_digit() || c == ':').to_owned();
    if !PIGMENTS.iter().any(|known| plain(known) == plain(name)) {
        let alike: Vec<&str> = PIGMENTS.iter().copied().filter(|known| hue(known) == hue(name)).collect();
        let known = if alike.is_empty() { PIGMENTS } else { &alike };
        let mend = format!(
            "leave it if the maker prints it so, the colour is predicted without it; known are {}",
            wording::listed(known)
        );
        let message = format!("nothing is known of the pigment {}", wording::quoted(name));
        desk.tell(Finding::new(&checks::UNKNOWN_PIGMENT, place, message, mend));
    }
    name.to_owned()
}

fn suits(name: &Id) -> Suits {
    Family::from_text(&name.0).map_or_else(|_| Suits::Paint(name.0.clone()), Suits::Family)
}

/// The thinners, whites and suited paints that paints name must exist.
pub(super) fn check_references(source: &Source, library: &Library, desk: &mut ResolveDesk) {
    for (id, entry) in source.paints.iter().flat_map(|range| &range.paints).flat_map(|paints| &paints.value.0) {
        if let Some(names) = &entry.thin_with {
            names.value.iter().for_each(|name| check_paint(&name.0, names.place, library, desk));
        }
        if let Some(names) = &entry.suits {
            let paints = names.value.iter().filter(|name| Family::from_text(&name.0).is_err());
            paints.for_each(|name| check_paint(&name.0, names.place, library, desk));
        }
        let whites = entry.swatches.iter().flat_map(|list| &list.value).filter_map(|swatch| swatch.with.as_ref());
        // A paint that is tinted with itself is told of where it is read.
        for white in whites.filter(|white| white.value != id.value) {
            check_paint(&white.value.0, white.place, library, desk);
            swatches::check_white(white, library, desk);
        }
    }
}

fn check_paint(name: &str, place: Place, library: &Library, desk: &mut ResolveDesk) {
    if !library.names.paints.contains(name) {
        tell_unknown(name, place, library, desk);
    }
}

/// Tells that a paint stands in no file; while a file of paints can't be read, it may be in that one.
pub(super) fn tell_unknown(name: &str, place: Place, library: &Library, desk: &mut ResolveDesk) {
    if library.names.is_unread("paints") {
        return;
    }
    let message = format!("there is no paint {}", wording::quoted(name));
    let mend = mend_of_unknown(name, library, desk);
    desk.tell(Finding::new(&checks::UNKNOWN_PAINT, place, message, mend));
}

/// The mend for an id that no paint has: the paint that is called so, or else the one with the nearest id.
pub(super) fn mend_of_unknown(name: &str, library: &Library, desk: &mut ResolveDesk) -> String {
    if let Some(paint) = library.paint_called(name, &mut desk.asked).filter(|paint| paint.id != hyphenated(name)) {
        return format!("did you mean '{}' ({})?", paint.id, paint.name);
    }
    let known = &library.names.paints;
    desk.did_you_mean(name, "a paint", known.len(), known.iter().map(String::as_str))
}
