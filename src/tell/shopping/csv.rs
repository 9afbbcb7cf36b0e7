//! The list as a table for a spreadsheet: comma-separated values (RFC 4180), UTF-8, one row a thing.
//!
//! The names of the columns stay as they are, whatever the language; figures have a decimal point. A cell that a
//! spreadsheet would take for a formula begins with an apostrophe.

use crate::caution::{self, CautionTexts};
use crate::guide::Tool;
use crate::measure::{Millilitres, Money, exact};
use crate::shop::{Line, List, Substitute, Use};

/// The columns.
const COLUMNS: [&str; 23] = [
    "group",
    "id",
    "name",
    "maker",
    "range",
    "code",
    "kind",
    "uses",
    "models",
    "ml_per_model",
    "ml_per_batch",
    "ml_needed",
    "ml_low",
    "ml_high",
    "ml_have",
    "bottle_ml",
    "bottles",
    "price_each",
    "price_total",
    "currency",
    "substitutes",
    "still_sold",
    "discontinued",
];

/// The list as rows of cells.
pub(crate) fn csv(list: &List<'_>) -> String {
    let head = COLUMNS.map(str::to_owned).to_vec();
    let products = list.lines.iter().map(|line| product(line, list));
    let texts = CautionTexts::of(&list.order.worked.guide.language);
    let gear = list.gear.iter().map(|line| {
        let own = line.own.iter().map(|tool| tool.name.as_str());
        let title = [texts.gear(line.gear).title.as_str()].into_iter().chain(own).collect::<Vec<_>>().join(" · ");
        thing("safety", line.gear.name(), &title, &line.uses, list)
    });
    let tools = list.tools.iter().map(|(tool, uses)| counted(tool, uses, list));
    let first = texts.to_do(&caution::to_do(list.cautions.iter().map(|(_, said)| *said)));
    let closing = if first.is_empty() { "" } else { texts.closing() };
    let cautions = [("first", first.as_str()), ("closing", closing)].into_iter().filter(|(_, said)| !said.is_empty());
    let cautions = cautions.map(|(id, said)| thing("caution", id, said, &[], list));
    let rows = [head].into_iter().chain(products).chain(gear).chain(tools).chain(cautions);
    rows.map(|cells| cells.iter().map(|text| cell(text)).collect::<Vec<_>>().join(",") + "\r\n").collect()
}

fn product(line: &Line<'_>, list: &List<'_>) -> Vec<String> {
    let paint = &line.paint;
    let models = list.order.models();
    let need = |of: fn(crate::quantity::Estimate) -> Millilitres| line.need.map(of).map(ml).unwrap_or_default();
    // Several sizes have no single size and price; their sum is in the last column.
    let only = line.picks.first().filter(|_| line.picks.len() == 1);
    vec![
        line.role.name().to_owned(),
        paint.id.clone(),
        paint.name.clone(),
        paint.maker.clone(),
        paint.range.clone(),
        paint.code.clone().unwrap_or_default(),
        paint.kind.name().to_owned(),
        steps(&line.uses),
        models.to_string(),
        ml(line.per_model),
        ml(line.per_batch(models)),
        need(|need| need.likely),
        need(|need| need.low),
        need(|need| need.high),
        ml(line.have),
        only.map(|pick| ml(pick.bottle.size)).unwrap_or_default(),
        // Whoever adds the column up adds what can be bought.
        if paint.discontinued { 0 } else { line.bottles() }.to_string(),
        only.and_then(|pick| pick.bottle.price).map(money).unwrap_or_default(),
        line.price.map(money).unwrap_or_default(),
        list.currency().unwrap_or_default().to_owned(),
        line.substitutes.iter().map(substitute).collect::<Vec<_>>().join("; "),
        line.still_sold.as_ref().map(substitute).unwrap_or_default(),
        if paint.discontinued { "yes".to_owned() } else { String::new() },
    ]
}

/// A tool; of what is counted, with its packs and their price.
fn counted(tool: &Tool, uses: &[Use<'_>], list: &List<'_>) -> Vec<String> {
    let mut cells = thing(tool.kind.name(), &tool.id, &tool.name, uses, list);
    let Some(pieces) = list.pieces(tool) else { return cells };
    let bought = [
        ("bottles", pieces.packs.to_string()),
        ("price_each", tool.price.map(money).unwrap_or_default()),
        ("price_total", pieces.price.map(money).unwrap_or_default()),
        ("currency", list.currency().unwrap_or_default().to_owned()),
    ];
    for (column, text) in bought {
        let at = COLUMNS.iter().position(|known| *known == column);
        if let Some(cell) = at.and_then(|at| cells.get_mut(at)) {
            *cell = text;
        }
    }
    cells
}

fn thing(group: &str, id: &str, name: &str, uses: &[Use<'_>], list: &List<'_>) -> Vec<String> {
    let mut cells = vec![group.to_owned(), id.to_owned(), name.to_owned()];
    cells.resize(COLUMNS.len(), String::new());
    for (at, text) in [(7, steps(uses)), (8, list.order.models().to_string())] {
        if let Some(cell) = cells.get_mut(at) {
            *cell = text;
        }
    }
    cells
}

/// The steps as `fen-warden 2; fen-warden 3`.
fn steps(uses: &[Use<'_>]) -> String {
    uses.iter().map(|of| format!("{} {}", of.scheme.slug, of.step.number)).collect::<Vec<_>>().join("; ")
}

/// `bog-iron 2.31`: the id, and the difference in CIEDE2000 where there is one.
fn substitute(other: &Substitute) -> String {
    let difference = other.delta_e.map(|delta_e| format!(" {delta_e:.2}"));
    format!("{}{}", other.paint.id, difference.unwrap_or_default())
}

fn ml(volume: Millilitres) -> String {
    exact(volume.0, 6)
}

fn money(money: Money) -> String {
    money.to_string()
}

/// One cell: what a spreadsheet would run is made plain text, what the format would take for its own is quoted.
fn cell(text: &str) -> String {
    let runs = |c: char| matches!(c, '=' | '+' | '-' | '@' | '\t' | '\r' | '\n' | '＝' | '＋' | '－' | '＠');
    let begins = text.chars().next().is_some_and(runs) || text.trim_start().chars().next().is_some_and(runs);
    let plain = if begins { format!("'{text}") } else { text.to_owned() };
    if plain.contains([',', '"', '\r', '\n']) { format!("\"{}\"", plain.replace('"', "\"\"")) } else { plain }
}

#[cfg(test)]
mod tests {
    use super::cell;

    #[test]
    fn no_cell_is_a_formula() {
        for text in ["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", "  =1", "\n=1", "＝1"] {
            assert!(cell(text).trim_start_matches('"').starts_with('\''), "{text:?}");
        }
        assert_eq!(cell("=cmd|' /C calc'!A0"), "'=cmd|' /C calc'!A0");
        assert_eq!(cell("Fen-Green"), "Fen-Green");
    }

    #[test]
    fn commas_quotes_and_lines_stay_in_their_cell() {
        assert_eq!(cell("Tarn, & Daughter"), "\"Tarn, & Daughter\"");
        assert_eq!(cell("the \"old\" one"), "\"the \"\"old\"\" one\"");
        assert_eq!(cell("two\nlines"), "\"two\nlines\"");
    }
}
