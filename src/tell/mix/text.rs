//! The sheet as text for the terminal: what to do first, the mix, then how it came about, then the cautions in full.
//!
//! Whatever an author wrote is shown by visible stand-ins where a terminal might obey it.

use super::sheet::{Amounts, Cautions, Loads, MixSheet, Part, SumOf, Told};
use crate::measure::{Millilitres, exact, guessed, guessed_sum, predicted};
use crate::quantity::{By, Estimate};
use crate::report::{Level, visible, wording};
use crate::tell::facts;

/// The whole sheet.
pub(crate) fn text(sheet: &MixSheet) -> String {
    let mut lines = head(sheet);
    lines.extend(mix(sheet));
    if let Some(amounts) = &sheet.amounts {
        lines.extend(loads(amounts));
        lines.extend(amounts.beside.iter().map(|beside| {
            let name = beside.name.as_deref().unwrap_or(nameless(beside.purpose));
            format!("  and {} of {name} {}", bounds(beside.ml, false), beside.purpose)
        }));
        lines.push(String::new());
        lines.extend(sum(amounts, sheet.models));
    }
    lines.extend(sheet.findings.iter().flat_map(told));
    lines.extend(sheet.cautions.iter().flat_map(cautions));
    lines.iter().map(|line| format!("{}\n", visible(line))).collect()
}

fn head(sheet: &MixSheet) -> Vec<String> {
    let together = if sheet.together { ", from one lot" } else { "" };
    let mut lines = vec![
        format!("{}, step {}: {}", sheet.scheme, sheet.number, sheet.step),
        format!("{}{together}", wording::counted(sheet.models, "model", "models")),
    ];
    lines.extend(sheet.cautions.iter().map(|cautions| format!("! {}", cautions.first)));
    lines.extend(facts::lines(&sheet.facts));
    lines.push(String::new());
    lines
}

fn mix(sheet: &MixSheet) -> Vec<String> {
    if sheet.parts.is_empty() {
        return vec!["  nothing is mixed for this step".to_owned()];
    }
    let several = sheet.parts.len() > 1 && !sheet.unmixed;
    let name =
        |part: &Part| if part.maker.is_empty() { part.name.clone() } else { format!("{} ({})", part.name, part.maker) };
    let ratio = |part: &Part| {
        let unit = if part.counted_in == "drops" { ("drop", "drops") } else { ("part", "parts") };
        if several || part.counted_in == "drops" {
            wording::counted(&part.amount, unit.0, unit.1)
        } else {
            String::new()
        }
    };
    let names = sheet.parts.iter().map(|part| name(part).chars().count()).max().unwrap_or_default();
    let ratios = sheet.parts.iter().map(|part| ratio(part).chars().count()).max().unwrap_or_default();
    let line = |part: &Part| {
        let drops = part.drops.map(|drops| wording::counted(drops, "drop", "drops"));
        let counted = part.drops.is_some() || part.marks.is_some();
        let marks = part.marks.map(|marks| wording::counted(marks, "mark", "marks"));
        let figures = [
            drops.or(marks),
            part.ml.map(|ml| bounds(ml, counted)),
            part.grams.map(|grams| format!("{} g", predicted(grams))),
        ];
        let figures: Vec<String> = figures.into_iter().flatten().collect();
        let left = format!("  {:names$}  {:ratios$}  ", name(part), ratio(part));
        format!("{left}{}", figures.join(" · ")).trim_end().to_owned()
    };
    let mut lines: Vec<String> = sheet.parts.iter().map(line).collect();
    match &sheet.amounts {
        Some(_) if sheet.blend => {
            lines.push("  blended on the model, wet in wet: from the first to the second".to_owned());
        }
        Some(_) if sheet.unmixed => lines.push("  not mixed: one beside or after the other".to_owned()),
        Some(amounts) if several => {
            lines.push(format!("  together {}", bounds(amounts.lot_ml, amounts.measured.by != By::Volume)));
        }
        Some(_) => {}
        None => lines.push(
            "  how much can't be worked out: write 'surface: …' or 'mesh: …' under 'model', and a share for each area"
                .to_owned(),
        ),
    }
    lines
}

fn loads(amounts: &Amounts) -> Vec<String> {
    let mut lines = Vec::new();
    if let Some(loads) = &amounts.loads {
        lines.push(String::new());
        lines.push(format!("  {}", cups(loads)));
    }
    if amounts.reserve_ml > 0.0 {
        let reserve = predicted(amounts.reserve_ml);
        lines.push(format!(
            "  {reserve} ml of it are a reserve: one lot for all, because no second one is quite like it"
        ));
    }
    lines.extend(measured(amounts));
    lines
}

/// How the lot is counted out, where that is worth saying.
fn measured(amounts: &Amounts) -> Vec<String> {
    let measured = &amounts.measured;
    let (several, parts) = (measured.parts.len() > 1, joined(&measured.parts, " : "));
    let mut lines = Vec::new();
    if let Some(mark) = measured.mark_ml {
        let mark = exact(mark, 2);
        let same = if several && !measured.near { ", by the same parts" } else { "" };
        lines.push(format!("  poured and not counted in drops{same}: a mark is {mark} ml"));
    }
    if measured.sized {
        lines.push(format!("  their drops differ in size: {parts} of them come to the parts"));
    } else if measured.near {
        lines.push(format!("  counted out as {parts}, which is near enough"));
    }
    let (lot, need) = (amounts.lot_ml.likely.0, amounts.need_ml.likely.0);
    if measured.times == 1 && several && lot > 1.5 * need {
        let unit = if measured.by == By::Marks { "marks" } else { "drops" };
        lines.push(format!(
            "  {} {unit} are the least that keeps the ratio, more than you need",
            joined(&measured.parts, " + ")
        ));
    }
    lines
}

fn joined(counts: &[u32], between: &str) -> String {
    counts.iter().map(u32::to_string).collect::<Vec<_>>().join(between)
}

/// `3 cups of 2 ml: 8 + 32 drops each`.
fn cups(loads: &Loads) -> String {
    let cups = wording::counted(loads.count, "cup", "cups");
    let full = loads.each_ml > 0.97 * loads.cup_ml;
    let from = if loads.one_lot { ": mix the lot once, and fill the cup from it" } else { "" };
    let size = if full {
        format!("of {} ml", exact(loads.cup_ml, 2))
    } else {
        format!("of {} ml in a cup that holds {} ml", exact(loads.each_ml, 2), exact(loads.cup_ml, 2))
    };
    let each = if loads.count > 1 { " each" } else { "" };
    match (&loads.each_drops, &loads.last_drops) {
        (Some(drops), Some(last)) => {
            let (fuller, rest) = (loads.fuller, loads.count - loads.fuller);
            let (drops, last) = (joined(drops, " + "), joined(last, " + "));
            format!("{cups} {size}: {fuller} with {drops} drops, {rest} with {last}")
        }
        (Some(drops), None) => {
            let unit = if drops.as_slice() == [1] { "drop" } else { "drops" };
            format!("{cups} {size}: {} {unit}{each}", joined(drops, " + "))
        }
        (None, _) => format!("{cups} {size}{from}"),
    }
}

fn sum(amounts: &Amounts, models: u32) -> Vec<String> {
    let SumOf {
        surface_cm2,
        areas,
        touched,
        film_um,
        coats,
        on_one_model_ml,
        efficiency,
        laid,
        lost_ml,
        refilled_ml,
        rounds,
        ..
    } = &amounts.sum;
    let percent = |share: &f64| format!("{} %", exact(share * 100.0, 1));
    let mut lines = vec![
        "how it came about (a prediction, not a measurement)".to_owned(),
        format!("  {}", surface(*surface_cm2, amounts)),
        format!("  × {} for the areas × {} of them touched", percent(areas), percent(touched)),
        format!(
            "  × {} µm wet × {}{} = {} ml on one model",
            exact(*film_um, 1),
            wording::counted(coats, "coat", "coats"),
            if *rounds > 1.0 { format!(" × {} products", exact(*rounds, 1)) } else { String::new() },
            predicted(*on_one_model_ml)
        ),
        format!("  ÷ {} that reach the model, {laid}", percent(efficiency)),
    ];
    if *refilled_ml > on_one_model_ml / efficiency {
        let least = predicted(*refilled_ml);
        lines.push(format!("  but at least {least} ml a model: paint on a palette dries and is refilled"));
    }
    lines.push(format!("  × {}", wording::counted(models, "model", "models")));
    if *lost_ml > 0.0 {
        lines.push(format!("  + {} ml left in cups and needle", exact(*lost_ml, 2)));
    }
    if amounts.reserve_ml > 0.0 {
        lines.push(format!("  + {} ml of reserve", predicted(amounts.reserve_ml)));
    }
    lines.push(format!("  = {}", bounds(amounts.need_ml, false)));
    lines
}

/// The surface of a model, and how it is known.
fn surface(all_cm2: f64, amounts: &Amounts) -> String {
    let from = match amounts.sum.surface_from {
        "given" => "as the author gives it",
        "mesh" => "from the mesh",
        _ => "a guess from scale and kind",
    };
    let is_guess = amounts.sum.surface_from == "guessed";
    let area = |area: f64| if is_guess { guessed(area) } else { exact(area, 1) };
    let base = amounts.sum.base_cm2;
    match base {
        none if none <= 0.0 => format!("{} cm² of surface, {from}", area(all_cm2)),
        all if all >= all_cm2 => format!("{} cm² of surface: the base alone", area(all)),
        // Only the model's own is as its author gives it.
        some => {
            let own = all_cm2 - some;
            let all = if is_guess { guessed_sum([own, some]) } else { exact(all_cm2, 1) };
            format!("{all} cm² of surface: {} {from}, and {} of the base", area(own), area(some))
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

/// What is named where the guide has no product for it.
fn nameless(purpose: &str) -> &'static str {
    if purpose.contains("decal") { "decal softener" } else { "cleaner" }
}

/// `4.6 ml (2.6 to 8.1)`; what is counted out is written as it is, and its bounds no finer. What has no bounds stands alone.
fn bounds(estimate: Estimate, counted: bool) -> String {
    let likely = estimate.likely.0;
    let likely = if counted { exact(likely, 2) } else { predicted(likely) };
    if !estimate.is_open() {
        return format!("{likely} ml");
    }
    let bound = |volume: Millilitres| match volume.0 {
        small if counted && small < 0.1 => exact(small.max(0.01), 2),
        volume => predicted(volume),
    };
    format!("{likely} ml ({} to {})", bound(estimate.low), bound(estimate.high))
}
