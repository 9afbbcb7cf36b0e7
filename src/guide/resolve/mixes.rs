//! Mixes: every line finds its paint, and the amounts make one ratio.

use std::collections::BTreeSet;
use std::sync::Arc;

use super::{ResolveDesk, paints, value, words_of};
use crate::guide::library::Library;
use crate::guide::{Measured, Mix, MixPart, Pot, Poured, Scheme, checks};
use crate::measure::Fraction;
use crate::report::{FileId, Finding, Place, Placed, wording};
use crate::source::file::{MixLine, PotEntry};
use crate::source::{Id, Mention, Source, Table};

/// More bottles than this nobody hits twice.
const MOST_LINES: usize = 8;

/// The pots that a step can use: those of its scheme, then those of the guide.
#[derive(Clone, Copy)]
pub(super) struct Pots<'a> {
    own: &'a [Arc<Pot>],
    of_guide: bool,
    /// The file of a sequence's step. Several schemes use it: what is wrong there is told without the pots of one of them, so
    /// that it is the same fault for all.
    shared: Option<FileId>,
    /// What is in place of paints and pots, one table after the other.
    swaps: &'a [&'a Swaps],
}

/// What is in place of some paints or pots.
pub(super) type Swaps = Table<Id, Placed<Mention>>;

impl<'a> Pots<'a> {
    /// The pots of a scheme and those of the guide, for a step of its own or one in the `shared` file of a sequence.
    pub(super) const fn of(own: &'a [Arc<Pot>], swaps: &'a [&'a Swaps], shared: Option<FileId>) -> Self {
        Self { own, of_guide: true, shared, swaps }
    }

    /// No pots at all: what a pot itself is mixed of.
    const NONE: Self = Pots { own: &[], of_guide: false, shared: None, swaps: &[] };

    /// What a line means: another paint or pot where one is in its place.
    fn meant(&self, name: &Placed<Mention>) -> Placed<Mention> {
        self.swaps.iter().fold(name.clone(), |name, table| {
            let found = table.0.iter().find(|(id, _)| id.value.0 == name.value.0);
            found.map_or(name, |(_, other)| other.clone())
        })
    }

    /// A pot with other paints in place of its own, where some stand in their place.
    fn refilled(&self, pot: &Arc<Pot>, library: &Library, desk: &mut ResolveDesk) -> Arc<Pot> {
        if self.swaps.is_empty() {
            return Arc::clone(pot);
        }
        let mut changed = Pot::clone(pot);
        for part in &mut changed.mix.parts {
            let meant = self.meant(&Placed::new(Mention(part.paint.id.clone()), part.place));
            if let Some(paint) = library.paint(&meant.value.0, &mut desk.asked) {
                part.paint = Arc::clone(paint);
            }
        }
        if changed == **pot { Arc::clone(pot) } else { Arc::new(changed) }
    }

    /// The pots that somebody could mean who writes in a file.
    fn meant_in(&self, file: FileId, library: &'a Library) -> Vec<&'a str> {
        let own = self.own.iter().filter(|_| self.shared != Some(file)).map(|pot| pot.id.as_str());
        own.chain(library.pot_ids().filter(|_| self.of_guide)).collect()
    }

    fn find<'p>(&self, id: &str, library: &'p Library, desk: &mut ResolveDesk) -> Option<&'p Arc<Pot>>
    where
        'a: 'p,
    {
        let own = self.own.iter().find(|pot| pot.id == id);
        own.or_else(|| if self.of_guide { library.pot(id, &mut desk.asked) } else { None })
    }
}

/// The pots of a file, where they stand.
type PotTable = Placed<Table<Id, PotEntry>>;

/// The lines of a mix, where they stand.
type Lines = Placed<Vec<Placed<MixLine>>>;

/// The mix of a step; lines that can't be used are reported and left out.
pub(super) fn resolve(
    lines: Option<&Lines>,
    unmixed: bool,
    pots: Pots<'_>,
    library: &Library,
    desk: &mut ResolveDesk,
) -> Mix {
    let Some(lines) = lines else { return Mix::default() };
    if lines.value.len() > MOST_LINES {
        let message = format!("this mix has {} lines", lines.value.len());
        let mend = format!("mix some of them first, or do with {MOST_LINES}");
        desk.tell(Finding::new(&checks::MIX_LENGTH, lines.place, message, mend));
    }
    let measured = if unmixed { unmeasured(&lines.value, desk) } else { measure(&lines.value, desk) };
    let mut mix = Mix { measured, unmixed, ..Mix::default() };
    let alone = lines.value.len() == 1 || unmixed;
    for line in &lines.value {
        let meant = line.paint.as_ref().map(|name| pots.meant(name));
        let line = &Placed::new(MixLine { paint: meant, ..line.value.clone() }, line.place);
        let name = line.paint.as_ref().map(|name| name.value.0.as_str()).unwrap_or_default();
        if let Some(pot) = pots.find(name, library, desk) {
            let pot = pots.refilled(pot, library, desk);
            pour(&mut mix, &pot, line, alone, desk);
        } else if let Some(part) = part(line, alone, pots, library, desk) {
            check_repeated(&mix, &part, desk);
            mix.parts.push(part);
        }
    }
    mix.parts.shrink_to_fit();
    mix
}

/// The two that a step blends wet in wet, half of each.
pub(super) fn blended(
    (names, paints): (&Placed<Vec<Placed<Mention>>>, Option<&Lines>),
    pots: Pots<'_>,
    library: &Library,
    desk: &mut ResolveDesk,
) -> Mix {
    if let Some(paints) = paints {
        let message = "this step has 'blend' and 'paints'";
        let mend = "take 'paints' out; what is mixed into one of the two is a pot";
        desk.tell(Finding::new(&checks::BLEND, paints.place, message, mend));
    }
    let [first, second] = names.value.as_slice() else {
        let message = format!("this step blends {}", wording::counted(names.value.len(), "paint", "paints"));
        let mend = "write two, such as '[otter-strap, bog-iron]': from the first to the second";
        desk.tell(Finding::new(&checks::BLEND, names.place, message, mend));
        return Mix::default();
    };
    let side = |name: &Placed<Mention>, desk: &mut ResolveDesk| {
        let line = MixLine { paint: Some(name.clone()), ..MixLine::default() };
        resolve(Some(&Placed::new(vec![Placed::new(line, name.place)], name.place)), false, pots, library, desk)
    };
    let (mut mix, other) = (side(first, desk), side(second, desk));
    let split = mix.parts.len();
    mix.parts.extend(other.parts);
    mix.pots.extend(
        other
            .pots
            .into_iter()
            .map(|poured| Poured { parts: poured.parts.start + split..poured.parts.end + split, ..poured }),
    );
    mix.unmixed = true;
    mix.blend = Some(split).filter(|split| *split > 0 && *split < mix.parts.len());
    mix
}

/// Pours from a pot: each of its products, by its share.
fn pour(mix: &mut Mix, pot: &Arc<Pot>, line: &Placed<MixLine>, alone: bool, desk: &mut ResolveDesk) {
    let place = line.paint.as_ref().map_or(line.place, |name| name.place);
    let Some(amount) = amount(line, &pot.id, alone, desk) else { return };
    if mix.pots.iter().any(|known| known.pot.id == pot.id) {
        let message = format!("{} is in this mix a second time", wording::quoted(&pot.id));
        desk.tell(Finding::new(&checks::MIX_AMOUNT, place, message, "add the two amounts up on one line"));
        return;
    }
    let whole: Fraction = pot.mix.parts.iter().map(|part| part.amount).sum();
    let start = mix.parts.len();
    mix.parts.extend(pot.mix.parts.iter().map(|part| MixPart {
        paint: Arc::clone(&part.paint),
        amount: amount * part.amount / whole,
        place,
    }));
    mix.pots.push(Poured { pot: Arc::clone(pot), amount, parts: start..mix.parts.len() });
}

/// The pots that are in a file, each with its mix.
pub(super) fn pots(table: Option<&PotTable>, library: &Library, desk: &mut ResolveDesk) -> Vec<Arc<Pot>> {
    let mut pots: Vec<Arc<Pot>> = Vec::new();
    for (id, entry) in table.iter().flat_map(|table| &table.value.0) {
        let id_text = id.value.0.as_str();
        if library.names.paints.contains(id_text) {
            let message = format!("{} is a paint already", wording::quoted(id_text));
            desk.tell(Finding::new(&checks::POT_NAME, id.place, message, "give the pot another id"));
            continue;
        }
        if let Some(inner) = pot_inside(entry, table, library) {
            let message = format!("{} is a pot, and a pot is mixed of paints", wording::quoted(&inner.value.0));
            let mend = format!("write what is in {} in its place", wording::quoted(&inner.value.0));
            desk.tell(Finding::new(&checks::POT_NAME, inner.place, message, mend));
            continue;
        }
        let mix = resolve(entry.paints.as_ref(), false, Pots::NONE, library, desk);
        if !mix.parts.is_empty() {
            let title = value(entry.title.as_ref()).unwrap_or_else(|| words_of(id_text));
            let together = entry.together.as_ref().is_some_and(|flag| flag.value.0);
            pots.push(Arc::new(Pot { id: id_text.to_owned(), title, mix, together, place: id.place }));
        }
    }
    pots
}

/// A pot of a scheme has another id than those of the guide.
pub(super) fn check_apart(own: &[Arc<Pot>], library: &Library, desk: &mut ResolveDesk) {
    for pot in own {
        if let Some(other) = library.pot(&pot.id, &mut desk.asked) {
            let message = format!("guide.yaml has a pot {} already", wording::quoted(&pot.id));
            let finding = Finding::new(&checks::POT_NAME, pot.place, message, "give this one another id");
            desk.tell(finding.see(other.place, "the pot of the guide"));
        }
    }
}

/// Tells of each pot of the guide that no scheme uses, and of each pot of a scheme that none of its versions uses; nothing
/// while a scheme could not be read.
pub(super) fn check_used(pots: &[Arc<Pot>], source: &Source, schemes: &[Arc<Scheme>], desk: &mut ResolveDesk) {
    if !source.has_all_schemes() || !schemes.iter().all(|scheme| scheme.whole) {
        return;
    }
    let used: BTreeSet<(&str, &str)> =
        schemes.iter().flat_map(|scheme| scheme.pots.iter().map(|pot| (scheme.base(), pot.id.as_str()))).collect();
    let anywhere: BTreeSet<&str> = used.iter().map(|(_, pot)| *pot).collect();
    for pot in pots.iter().filter(|pot| !anywhere.contains(pot.id.as_str())) {
        tell_unused(&pot.id, pot.place, desk);
    }
    for scheme in source.schemes.iter().filter(|scheme| scheme.version.is_base()) {
        let own = scheme.scheme.front.pots.iter().flat_map(|table| &table.value.0);
        for (id, _) in own.filter(|(id, _)| !used.contains(&(scheme.slug.as_str(), id.value.0.as_str()))) {
            tell_unused(&id.value.0, id.place, desk);
        }
    }
}

/// Tells of a pot that no step uses.
fn tell_unused(id: &str, place: Place, desk: &mut ResolveDesk) {
    let message = format!("no step uses the pot {}", wording::quoted(id));
    let mend = "name it under 'paints' of a step, or take it out";
    desk.tell(Finding::new(&checks::POT_UNUSED, place, message, mend));
}

/// The first line of a pot that names a pot of the same file.
fn pot_inside<'a>(entry: &'a PotEntry, table: Option<&PotTable>, library: &Library) -> Option<&'a Placed<Mention>> {
    let is_paint = |name: &str| library.names.paints.contains(name);
    let is_pot =
        |name: &str| !is_paint(name) && table.iter().flat_map(|table| &table.value.0).any(|(id, _)| id.value.0 == name);
    let mut names = entry.paints.iter().flat_map(|lines| &lines.value).filter_map(|line| line.paint.as_ref());
    names.find(|name| is_pot(&name.value.0))
}

/// Products that are not mixed have no ratio; each amount is reported.
fn unmeasured(lines: &[Placed<MixLine>], desk: &mut ResolveDesk) -> Measured {
    for amount in lines.iter().filter_map(|line| line.parts.as_ref().or(line.drops.as_ref())) {
        let message = "products that are not mixed have no ratio";
        let mend = "take the amount out, or take 'unmixed: true' out";
        desk.tell(Finding::new(&checks::MIX_MEASURES, amount.place, message, mend));
    }
    Measured::Parts
}

/// What the amounts count: whichever most lines use; each line that differs is reported.
fn measure(lines: &[Placed<MixLine>], desk: &mut ResolveDesk) -> Measured {
    let in_drops = lines.iter().filter(|line| line.drops.is_some()).count();
    let in_parts = lines.iter().filter(|line| line.parts.is_some()).count();
    if in_drops + in_parts == 0 && lines.len() > 1 && !lines.iter().any(|line| line.unread) {
        desk.tell(without_amounts(lines));
        return Measured::Parts;
    }
    let measured = if in_drops > in_parts { Measured::Drops } else { Measured::Parts };
    let (wanted, other) = match measured {
        Measured::Parts => ("parts", "drops"),
        Measured::Drops => ("drops", "parts"),
    };
    for line in lines {
        let (right, wrong) = match measured {
            Measured::Parts => (&line.parts, &line.drops),
            Measured::Drops => (&line.drops, &line.parts),
        };
        if let Some(wrong) = wrong {
            let message = format!("this line has {other}, the mix is in {wanted}");
            let mend = format!("write '{wanted}: …' on every line");
            desk.tell(Finding::new(&checks::MIX_MEASURES, wrong.place, message, mend));
        } else if right.is_none() && !line.unread && lines.len() > 1 {
            let message = format!("this line has no {wanted}");
            let mend = format!("write '{wanted}: …' on every line");
            desk.tell(Finding::new(&checks::MIX_MEASURES, line.place, message, mend));
        }
    }
    measured
}

/// The finding for a mix of which no line says how much.
fn without_amounts(lines: &[Placed<MixLine>]) -> Finding {
    let names = lines.iter().filter_map(|line| line.paint.as_ref());
    let written: Vec<String> = names.map(|name| format!("{{use: {}, parts: …}}", name.value.0)).collect();
    let mend = format!("write [{}], or 'unmixed: true' where they are not mixed", written.join(", "));
    let place = lines.first().map(|line| line.place).unwrap_or_default();
    Finding::new(&checks::MIX_MEASURES, place, "no line of this mix says how much it takes", mend)
}

/// How much a line says of what it names; `None` for zero, which is a finding.
fn amount(line: &MixLine, name: &str, alone: bool, desk: &mut ResolveDesk) -> Option<Fraction> {
    let amount = line.parts.as_ref().or(line.drops.as_ref());
    if let Some(nothing) = amount.filter(|amount| amount.value.is_zero()) {
        let message = format!("0 of {} is no part of a mix", wording::quoted(name));
        desk.tell(Finding::new(&checks::MIX_AMOUNT, nothing.place, message, "write how much, or take the line out"));
        return None;
    }
    let said = amount.filter(|_| !alone || line.drops.is_some());
    Some(said.map_or(Fraction::ONE, |amount| amount.value))
}

fn part(line: &MixLine, alone: bool, pots: Pots<'_>, library: &Library, desk: &mut ResolveDesk) -> Option<MixPart> {
    let name = line.paint.as_ref()?;
    let amount = amount(line, &name.value.0, alone, desk)?;
    let Some(paint) = library.paint(&name.value.0, &mut desk.asked) else {
        tell_unknown(name, pots, library, desk);
        return None;
    };
    Some(MixPart { paint: Arc::clone(paint), amount, place: name.place })
}

/// Tells of a name that no paint has, and no pot where there are pots.
fn tell_unknown<'a>(name: &Placed<Mention>, pots: Pots<'a>, library: &'a Library, desk: &mut ResolveDesk) {
    let text = name.value.0.as_str();
    if pots.of_guide && library.names.is_unread("guide.yaml") {
        // It may be a pot of the guide.
        desk.lost = true;
        return;
    }
    let known = pots.meant_in(name.place.file, library);
    if known.is_empty() || library.names.is_unread("paints") {
        paints::tell_unknown(text, name.place, library, desk);
        return;
    }
    let message = format!("there is no paint and no pot {}", wording::quoted(text));
    let mend = match wording::nearest(text, known) {
        Some(pot) => format!("did you mean the pot {}?", wording::quoted(pot)),
        None => paints::mend_of_unknown(text, library, desk),
    };
    desk.tell(Finding::new(&checks::UNKNOWN_PAINT, name.place, message, mend));
}

fn check_repeated(mix: &Mix, part: &MixPart, desk: &mut ResolveDesk) {
    let poured = |at: usize| mix.pots.iter().any(|poured| poured.parts.contains(&at));
    let mut written = mix.parts.iter().enumerate().filter(|(at, _)| !poured(*at)).map(|(_, known)| known);
    if let Some(first) = written.find(|known| known.paint.id == part.paint.id) {
        let message = format!("{} is in this mix a second time", wording::quoted(&part.paint.id));
        let mend = "add the two amounts up on one line";
        desk.tell(Finding::new(&checks::MIX_AMOUNT, part.place, message, mend).see(first.place, "the first line"));
    }
}
