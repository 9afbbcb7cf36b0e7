//! Varnish, ground, colour or paste that comes over grass glues its blades together and takes their colour.

use crate::film::{Coat, What};
use crate::guide::Step;
use crate::report::{Check, Finding, Group, Level};
use crate::rules::{Look, Rule, Told};
use crate::trade::{Kind, Reach, Stage, Technique, plantings, speaks_of_grass};

pub(in crate::rules) static RULE: Rule = Rule {
    check: Check {
        id: "grass-before-varnish",
        level: Level::Warning,
        about: "grass, tufts and leaves come when the last varnish has been sprayed",
        why: "the blades stick together, turn grey with matt varnish, and look like felt",
        group: Group::Varnish,
        safety: false,
    },
    example: "'Matt' is sprayed when the grass of 'Tufts' is already on",
    ordering: true,
    look,
};

fn look(look: &Look<'_>, told: &mut Told) {
    let coat = look.coat();
    let over = coat.is_some_and(|coat| sprays_over(look, coat) || paints_over(coat));
    let soils = !over && soils(look);
    if !over && !soils {
        return;
    }
    let sprayed = look.step.technique.sprays();
    let planted = (0..look.position).find_map(|at| {
        let step = look.film.step(at)?;
        let areas = look.film.areas(at);
        let meets = if areas.is_empty() {
            (look.step.all_over && sprayed) || (soils && look.areas().is_empty())
        } else {
            areas.iter().any(|area| look.areas().contains(area) && look.before().mask(*area).is_none())
        };
        (step.stage == Stage::Basing && meets && plants(step)).then(|| look.film.turn(at).map(|turn| turn.step))?
    });
    let Some(planted) = planted else { return };
    told.tell(&RULE, look.index, Some(planted), || {
        let title = look.title(planted);
        let (does, level) = if sprayed { ("sprayed", RULE.check.level) } else { (laid(look.step), Level::Note) };
        let message = format!("{} is {does} when the grass of {title} is already on", look.own_title());
        let mend = format!("put it before {title}, or {} the grass", if sprayed { "mask" } else { "paint round" });
        let finding = Finding::new(&RULE.check, look.step.places.stage, message, mend).at(level);
        look.see(finding, planted, "the grass")
    });
}

/// Whether a varnish is sprayed, or a ground or a colour over all of the model; dust and the like may go on grass too.
fn sprays_over(look: &Look<'_>, coat: &Coat<'_>) -> bool {
    let paint = matches!(coat.what, What::Ground | What::Colour) && !coat.stage.weathers();
    let over_all = look.step.all_over && paint && coat.is_all_over();
    coat.technique.sprays() && (coat.what == What::Varnish || over_all)
}

/// Whether a brush lays paint or varnish all over its areas.
fn paints_over(coat: &Coat<'_>) -> bool {
    let film = matches!(coat.what, What::Ground | What::Colour | What::Varnish);
    film && coat.technique == Technique::Brush && coat.is_all_over()
}

/// Words for what may lie on grass or goes round it: snow, and the rim of the base.
const NOT_OVER_IT: &[&str] = &[
    "snow", "frost", "ice", "rim", "rims", "schnee", "reif", "eis", "rand", "neige", "givre", "glace", "tranche",
    "nieve", "escarcha", "hielo", "borde",
];

/// Those that say so in a name alone: an instruction may thin with water, or go along an edge.
const IN_NAMES: &[&str] = &["water", "ripple", "ripples", "edge", "edges", "kante", "bord", "canto"];

/// Whether paste or colour goes over the ground, by a brush that minds no blade: grass that a drybrush is to lighten is named,
/// and paste in spots or hollows lies beside it.
fn soils(look: &Look<'_>) -> bool {
    let step = look.step;
    let Some(main) = step.mix.parts.first() else { return false };
    let pasted = main.paint.kind == Kind::Texture;
    let coloured = matches!(main.paint.kind, Kind::Paint | Kind::Enamel | Kind::Metal);
    let dusted = coloured && step.technique == Technique::Drybrush && step.reach != Reach::Spots;
    let brushed = coloured && step.technique == Technique::Brush && step.reach == Reach::All;
    let spread = pasted && step.reach == Reach::All;
    let ground = step.stage == Stage::Basing && (spread || brushed);
    if !(ground || dusted) || step.stage.weathers() {
        return false;
    }
    let says = |text: &str, words: &[&str]| {
        text.to_lowercase().split(|letter: char| !letter.is_alphanumeric()).any(|word| words.contains(&word))
    };
    let beside = |name: &String| says(name, NOT_OVER_IT) || says(name, IN_NAMES);
    let named = [&step.title, &step.stem, &main.paint.name].into_iter().any(beside);
    let instruction = step.body.text.get(step.body.start..).unwrap_or_default();
    // Who speaks of the grass means it, or minds it.
    let meant = says(instruction, NOT_OVER_IT) || speaks_of_grass(instruction);
    !named && !meant && !plants(step)
}

/// How a step that sprays nothing lays it.
fn laid(step: &Step) -> &'static str {
    match step.mix.parts.first().map(|part| part.paint.kind) {
        Some(Kind::Texture) => "spread",
        _ if step.technique == Technique::Drybrush => "drybrushed",
        _ => "brushed on",
    }
}

fn plants(step: &Step) -> bool {
    let tools = step.tools.iter().map(|tool| tool.name.as_str());
    !plantings(tools.chain([step.title.as_str(), step.stem.as_str()])).is_empty()
}
