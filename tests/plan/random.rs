//! Armies that look random and are the same in every run.

use std::fmt::Write as _;

use maulstick::door::Memory;
use maulstick::guide::{self, Guide};
use maulstick::source;

/// Numbers from a seed (a linear congruential generator with Knuth's constants; the program uses another one).
struct Dice(u64);

impl Dice {
    fn below(&mut self, limit: u64) -> u64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) % limit
    }

    fn one_in(&mut self, chance: u64) -> bool {
        self.below(chance) == 0
    }

    fn pick<'a>(&mut self, from: &[&'a str]) -> &'a str {
        from[usize::try_from(self.below(from.len() as u64)).unwrap()]
    }
}

const PAINTS: &str = "maker: Tarn & Daughter\nrange: Mere\nfamily: water\npaints:\n\
    \x20 moss: {name: Moss, kind: paint}\n  rust: {name: Rust, kind: paint}\n  bone: {name: Bone, kind: paint}\n\
    \x20 night: {name: Night, kind: primer}\n  sheen: {name: Sheen, kind: varnish, sheen: gloss}\n\
    \x20 slow: {name: Slow, kind: oil}\n  peat: {name: Peat, kind: wash}\n";

/// Paints that no cleaner of the others takes out of an airbrush.
const LACQUERS: &str = "maker: Tarn & Daughter\nrange: Osk\nfamily: lacquer\npaints:\n\
    \x20 amber: {name: Amber, kind: clear}\n  haze: {name: Haze, kind: varnish, sheen: matt, family: alcohol}\n";

const STAGES: &[&str] = &["basecoat", "layer", "shade", "highlight", "glaze", "varnish", "detail", "weather"];
const TOOLS: &[&str] = &["brush", "brush", "brush", "airbrush", "airbrush", "spray-can", "sponge", "drybrush"];
const COLOURS: &[&str] = &["moss", "rust", "bone", "night", "sheen", "slow", "peat", "amber", "haze"];
const WAITS: &[&str] = &["10 min", "20 min", "30 min", "1 h", "2 h"];
const RESTS: &[&str] = &["20 min", "30 min", "1 h", "2 h", "4 h", "12 h", "24 h", "48 h", "7 d"];
const MINUTES: &[&str] = &["0.5", "1", "1.5", "2", "3", "4", "6", "8", "12"];

/// The guide of a seed, with one army.
pub(crate) fn guide(seed: u64) -> Guide {
    let mut dice = Dice(seed.wrapping_mul(0x9e37_79b9).wrapping_add(77));
    dice.below(2);
    let mut door = Memory::default()
        .with("content/guide.yaml", "title: T\nauthor: A\n")
        .with("content/paints/mere.yaml", PAINTS)
        .with("content/paints/osk.yaml", LACQUERS);
    let mut units = String::new();
    for unit in 0..=dice.below(4) {
        let models = 1 + if dice.one_in(3) { dice.below(40) } else { dice.below(12) };
        let _ = writeln!(units, "  - {{scheme: s{unit}, models: {models}}}");
        let areas = 1 + dice.below(5);
        let listed: Vec<String> = (0..areas).map(|area| format!("a{area}: {}%", (100 + area) / areas)).collect();
        let scheme = format!("---\ntitle: S{unit}\nareas: {{{}}}\n---\n", listed.join(", "));
        door = door.with(&format!("content/schemes/s{unit}/scheme.md"), &scheme);
        let steps = 2 + dice.below(13);
        for step in 0..steps {
            let text = self::step(&mut dice, step, areas);
            door = door.with(&format!("content/schemes/s{unit}/{:02}-step.md", step + 1), &text);
        }
    }
    let evenings = evenings(&mut dice, seed);
    let army = format!("title: Army\nunits:\n{units}evenings: {{{evenings}}}\n");
    let mut source = source::read(&door.with("content/armies/army.yaml", &army)).unwrap();
    let (guide, findings) = guide::resolve(&mut source);
    assert!(source.findings.is_empty() && findings.is_empty(), "seed {seed}: {:?}", findings.first());
    guide
}

/// Days, hours and first day; every third army has days of different length, or days off.
fn evenings(dice: &mut Dice, seed: u64) -> String {
    let days = ["[mon]", "[tue, thu]", "[sat, sun]", "[mon, wed, fri]", "[mon, tue, wed, thu, fri, sat, sun]"];
    let lengths = ["1 h", "1 h 30 min", "2 h", "2 h 30 min", "4 h", "7 h"];
    let (days, from) = (dice.pick(&days), dice.pick(&["9:00", "19:15", "23:00"]));
    let (length, first) = (dice.pick(&lengths), 1 + dice.below(28));
    let alike = format!("days: {days}, from: \"{from}\", length: {length}, first: 2027-01-{first:02}");
    match seed % 9 {
        1 => format!("{alike}, not: [2027-02-09, 2027-02-14, 2027-03-01]"),
        4 => format!(
            "days: {{tue: {{from: \"19:15\", length: {length}}}, sun: {{from: \"10:00\", length: 5 h}}}}, first: 2027-01-{first:02}"
        ),
        7 => format!(
            "days: {{mon: {{}}, thu: {{length: 1 h 30 min}}, sat: {{from: \"14:00\", length: 6 h}}}}, from: \"20:00\", length: {length}, first: 2027-01-{first:02}"
        ),
        _ => alike,
    }
}

fn step(dice: &mut Dice, at: u64, areas: u64) -> String {
    let mut text = format!("---\ntitle: Step {at}\n");
    let stage = match at {
        0 => "prepare",
        1 => "undercoat",
        _ if dice.one_in(12) => "basing",
        _ => dice.pick(STAGES),
    };
    let tool = if at == 0 { "hand" } else { dice.pick(TOOLS) };
    let _ = write!(text, "stage: {stage}\nwith: {tool}\n");
    if at == 1 || dice.one_in(6) {
        text.push_str("areas: [all]\n");
    } else if at > 0 && stage != "basing" {
        let _ = writeln!(text, "areas: [a{}]", dice.below(areas));
    }
    if at > 0 {
        let _ = writeln!(text, "paints: [{{use: {}}}]", dice.pick(COLOURS));
    }
    if dice.one_in(3) {
        let _ = writeln!(text, "coats: {}", 2 + dice.below(3));
    }
    if dice.one_in(2) {
        let _ = writeln!(text, "wait: {}", dice.pick(WAITS));
    }
    if !dice.one_in(3) {
        let _ = writeln!(text, "dry: {}", dice.pick(RESTS));
    }
    if !dice.one_in(10) {
        let _ = writeln!(text, "minutes: {}", dice.pick(MINUTES));
    }
    if dice.one_in(7) {
        text.push_str("together: true\n");
    }
    if at > 3 && dice.one_in(8) {
        let _ = writeln!(text, "after: [{:02}-step]", 1 + dice.below(at - 1));
    }
    text + "---\nPaint.\n"
}
