//! The sheet as text for the terminal, in the words of the guide: what to do first, the mix, then how it came about, then the
//! cautions in full.
//!
//! Whatever an author wrote is shown by visible stand-ins where a terminal might obey it. What was found is told in English, as
//! everywhere.

use super::sheet::{Amounts, Beside, Cautions, Loads, MixSheet, Part, SumOf, Told};
use crate::measure::{Millilitres, exact, guessed, guessed_sum, predicted};
use crate::quantity::{By, Estimate};
use crate::report::{Level, visible};
use crate::tell::facts;
use crate::theme::Words;

/// The whole sheet.
pub(crate) fn text(sheet: &MixSheet, words: &Words) -> String {
    let words = &words.with_plain_spaces();
    let mut lines = head(sheet, words);
    lines.extend(mix(sheet, words));
    if let Some(amounts) = &sheet.amounts {
        lines.extend(loads(amounts, words));
        lines.extend(amounts.beside.iter().map(|one| format!("  {}", beside(one, words))));
        lines.push(String::new());
        lines.extend(sum(amounts, sheet.models, words));
    }
    lines.extend(sheet.findings.iter().flat_map(told));
    lines.extend(sheet.cautions.iter().flat_map(cautions));
    lines.iter().map(|line| format!("{}\n", visible(line))).collect()
}

fn head(sheet: &MixSheet, words: &Words) -> Vec<String> {
    let number = sheet.number.to_string();
    let step = [("scheme", sheet.scheme.as_str()), ("number", &number), ("step", &sheet.step)];
    let models = words.counted("tick-grid.models", u64::from(sheet.models));
    let mut lines = vec![
        words.filled("sheet.step", &step),
        if sheet.together { words.filled("sheet.from-lot", &[("models", &models)]) } else { models },
    ];
    lines.extend(sheet.cautions.iter().map(|cautions| format!("! {}", cautions.first)));
    lines.extend(facts::lines(&sheet.facts));
    lines.push(String::new());
    lines
}

fn mix(sheet: &MixSheet, words: &Words) -> Vec<String> {
    if sheet.parts.is_empty() {
        return vec![format!("  {}", words.filled("sheet.nothing", &[]))];
    }
    let several = sheet.parts.len() > 1 && !sheet.unmixed;
    let name = |part: &Part| match part.maker_shown.as_str() {
        "" => part.name.clone(),
        maker => format!("{} ({maker})", part.name),
    };
    let ratio = |part: &Part| {
        let in_drops = part.counted_in == "drops";
        let key = if in_drops { "card.drops" } else { "sheet.parts" };
        if several || in_drops { words.measured(key, &part.amount) } else { String::new() }
    };
    let names = sheet.parts.iter().map(|part| name(part).chars().count()).max().unwrap_or_default();
    let ratios = sheet.parts.iter().map(|part| ratio(part).chars().count()).max().unwrap_or_default();
    let line = |part: &Part| {
        let drops = part.drops.map(|drops| words.counted("card.drops", u64::from(drops)));
        let counted = part.drops.is_some() || part.marks.is_some();
        let marks = part.marks.map(|marks| words.counted("sheet.marks", u64::from(marks)));
        let figures = [
            drops.or(marks),
            part.ml.map(|ml| bounds(ml, counted, words)),
            part.grams.map(|grams| format!("{} g", words.number(&predicted(grams)))),
        ];
        let figures: Vec<String> = figures.into_iter().flatten().collect();
        let left = format!("  {:names$}  {:ratios$}  ", name(part), ratio(part));
        format!("{left}{}", figures.join(" · ")).trim_end().to_owned()
    };
    let below = match &sheet.amounts {
        Some(_) if sheet.blend => Some(words.filled("sheet.blend", &[])),
        Some(_) if sheet.unmixed => Some(words.filled("sheet.unmixed", &[])),
        Some(amounts) if several => {
            let lot = bounds(amounts.lot_ml, amounts.measured.by != By::Volume, words);
            Some(words.filled("sheet.together", &[("amount", &lot)]))
        }
        Some(_) => None,
        None => Some(words.filled("sheet.unknown", &[])),
    };
    sheet.parts.iter().map(line).chain(below.map(|line| format!("  {line}"))).collect()
}

/// What is used up beside the mix.
fn beside(beside: &Beside, words: &Words) -> String {
    let nameless = if beside.purpose_key == "decal" { "kind.decal-softener" } else { "kind.cleaner" };
    let name = beside.name.clone().unwrap_or_else(|| words.filled(nameless, &[]));
    let purpose = words.filled(&format!("purpose.{}", beside.purpose_key), &[]);
    let amount = bounds(beside.ml, false, words);
    words.filled("sheet.beside", &[("amount", &amount), ("name", &name), ("purpose", &purpose)])
}

fn loads(amounts: &Amounts, words: &Words) -> Vec<String> {
    let mut lines = Vec::new();
    if let Some(loads) = &amounts.loads {
        lines.push(String::new());
        lines.push(format!("  {}", cups(loads, words)));
    }
    if amounts.reserve_ml > 0.0 {
        let reserve = words.number(&predicted(amounts.reserve_ml));
        lines.push(format!("  {}", words.filled("sheet.reserve", &[("ml", &reserve)])));
    }
    lines.extend(measured(amounts, words).into_iter().map(|line| format!("  {line}")));
    lines
}

/// How the lot is counted out, where that is worth saying.
fn measured(amounts: &Amounts, words: &Words) -> Vec<String> {
    let measured = &amounts.measured;
    let (several, parts) = (measured.parts.len() > 1, joined(&measured.parts, " : "));
    let mut lines = Vec::new();
    if let Some(mark) = measured.mark_ml {
        let mark = words.number(&exact(mark, 2));
        let key = if several && !measured.near { "sheet.poured-alike" } else { "sheet.poured" };
        lines.push(words.filled(key, &[("mark", &mark)]));
    }
    if measured.sized {
        lines.push(words.filled("sheet.sized", &[("parts", &parts)]));
    } else if measured.near {
        lines.push(words.filled("sheet.near", &[("parts", &parts)]));
    }
    let (lot, need) = (amounts.lot_ml.likely.0, amounts.need_ml.likely.0);
    if measured.times == 1 && several && lot > 1.5 * need {
        let key = if measured.by == By::Marks { "sheet.least-marks" } else { "sheet.least-drops" };
        lines.push(words.filled(key, &[("counts", &joined(&measured.parts, " + "))]));
    }
    lines
}

fn joined(counts: &[u32], between: &str) -> String {
    counts.iter().map(u32::to_string).collect::<Vec<_>>().join(between)
}

/// `3 cups of 2 ml: 8 + 32 drops each`.
fn cups(loads: &Loads, words: &Words) -> String {
    let cups = words.counted("sheet.cups", u64::from(loads.count));
    let key = if loads.each_ml > 0.97 * loads.cup_ml { "sheet.cups-full" } else { "sheet.cups-part" };
    let [cup, each] = [loads.cup_ml, loads.each_ml].map(|ml| words.number(&exact(ml, 2)));
    let cups = words.filled(key, &[("cups", &cups), ("cup", &cup), ("each", &each)]);
    match (&loads.each_drops, &loads.last_drops) {
        (Some(drops), Some(last)) => {
            let [fuller, rest] = [loads.fuller, loads.count - loads.fuller].map(|count| count.to_string());
            let [drops, last] = [drops, last].map(|drops| joined(drops, " + "));
            let values =
                [("cups", cups.as_str()), ("fuller", &fuller), ("drops", &drops), ("rest", &rest), ("last", &last)];
            words.filled("sheet.cups-last", &values)
        }
        // There are several, or they would not be told drop by drop.
        (Some(drops), None) => {
            let key = if drops.as_slice() == [1] { "sheet.cups-drop" } else { "sheet.cups-drops" };
            words.filled(key, &[("cups", &cups), ("drops", &joined(drops, " + "))])
        }
        (None, _) if loads.one_lot => words.filled("sheet.cups-once", &[("cups", &cups)]),
        (None, _) => cups,
    }
}

fn sum(amounts: &Amounts, models: u32, words: &Words) -> Vec<String> {
    let SumOf { areas, touched, on_one_model_ml, efficiency, laid_key, lost_ml, refilled_ml, .. } = &amounts.sum;
    let percent = |share: &f64| words.number(&exact(share * 100.0, 1));
    let ml = |key: &str, ml: String| words.filled(key, &[("ml", &words.number(&ml))]);
    let areas = [("areas", &*percent(areas)), ("touched", &*percent(touched))];
    let laid = words.filled(&format!("laid.{laid_key}"), &[]);
    let reaches = [("share", &*percent(efficiency)), ("laid", &*laid)];
    let mut lines = vec![
        words.filled("sheet.how", &[]),
        format!("  {}", surface(&amounts.sum, words)),
        format!("  × {}", words.filled("sheet.areas", &areas)),
        format!("  × {}", film(&amounts.sum, words)),
        format!("  ÷ {}", words.filled("sheet.reaches", &reaches)),
    ];
    if *refilled_ml > on_one_model_ml / efficiency {
        lines.push(format!("  {}", ml("sheet.refilled", predicted(*refilled_ml))));
    }
    lines.push(format!("  × {}", words.counted("tick-grid.models", u64::from(models))));
    if *lost_ml > 0.0 {
        lines.push(format!("  + {}", ml("sheet.left", exact(*lost_ml, 2))));
    }
    if amounts.reserve_ml > 0.0 {
        lines.push(format!("  + {}", ml("sheet.reserved", predicted(amounts.reserve_ml))));
    }
    lines.push(format!("  = {}", bounds(amounts.need_ml, false, words)));
    lines
}

/// `30 µm wet × 3 coats = 0.12 ml on one model`.
fn film(sum: &SumOf, words: &Words) -> String {
    let [film, rounds] = [sum.film_um, sum.rounds].map(|figure| words.number(&exact(figure, 1)));
    let coats = words.counted("step.coats", u64::from(sum.coats));
    let ml = words.number(&predicted(sum.on_one_model_ml));
    let key = if sum.rounds > 1.0 { "sheet.film-rounds" } else { "sheet.film" };
    words.filled(key, &[("film", &film), ("coats", &coats), ("rounds", &rounds), ("ml", &ml)])
}

/// The surface of a model, and how it is known.
fn surface(sum: &SumOf, words: &Words) -> String {
    let from = match sum.surface_from {
        "given" => "sheet.given",
        "mesh" => "sheet.mesh",
        _ => "sheet.guessed",
    };
    let from = words.filled(from, &[]);
    let is_guess = sum.surface_from == "guessed";
    let area = |area: f64| words.number(&if is_guess { guessed(area) } else { exact(area, 1) });
    let (all, base) = (sum.surface_cm2, sum.base_cm2);
    match base {
        none if none <= 0.0 => words.filled("sheet.surface", &[("area", &area(all)), ("from", &from)]),
        whole if whole >= all => words.filled("sheet.surface-base", &[("area", &area(whole))]),
        // Only the model's own is as its author gives it.
        some => {
            let [own, base] = [all - some, some].map(area);
            let all = if is_guess { words.number(&guessed_sum([sum.surface_cm2 - some, some])) } else { area(all) };
            words.filled("sheet.surface-both", &[("area", &all), ("own", &own), ("from", &from), ("base", &base)])
        }
    }
}

fn told(told: &Told) -> Vec<String> {
    let level = match told.level {
        Level::Error => "error",
        Level::Warning => "warning",
        Level::Note => "note",
    };
    vec![String::new(), format!("{level}[{}]: {}", told.rule, told.message), format!("  mend: {}", told.mend)]
}

fn cautions(cautions: &Cautions) -> Vec<String> {
    let mut lines = vec![String::new(), cautions.title.to_uppercase()];
    lines.extend(cautions.texts.iter().map(|(title, text)| format!("  ! {title}: {text}")));
    lines.extend(cautions.notes.iter().map(|note| format!("  ! {}: {note}", cautions.author_note)));
    if !cautions.statements.is_empty() {
        lines.push(format!("  {}:", cautions.statements_title));
        lines.extend(cautions.statements.iter().map(|statement| format!("    {statement}")));
    }
    lines.push(format!("  {}", cautions.closing));
    lines
}

/// `4.6 ml (2.6 to 8.1)`; what is counted out is written as it is, and its bounds no finer. What has no bounds stands alone.
fn bounds(estimate: Estimate, counted: bool, words: &Words) -> String {
    let likely = estimate.likely.0;
    let likely = words.number(&if counted { exact(likely, 2) } else { predicted(likely) });
    if !estimate.is_open() {
        return format!("{likely} ml");
    }
    let bound = |volume: Millilitres| match volume.0 {
        small if counted && small < 0.1 => exact(small.max(0.01), 2),
        volume => predicted(volume),
    };
    let [low, high] = [estimate.low, estimate.high].map(|volume| words.number(&bound(volume)));
    words.filled("sheet.bounds", &[("likely", &likely), ("low", &low), ("high", &high)])
}
