//! The film on its own: what lies where, since when, and how it looks.

use maulstick::door::Memory;
use maulstick::film::{Conditions, Film, OnTop, Opacity, SurfaceNow, What, surface_now};
use maulstick::guide::{Guide, resolve};
use maulstick::measure::Time;
use maulstick::source;
use maulstick::trade::{Family, Kind, Sheen, Zone};

/// The faces speak for an area where anything lies on them.
const ZONES: [Zone; 3] = [Zone::Faces, Zone::Edges, Zone::Recesses];

const SHELL: usize = 0;
const CLOTH: usize = 1;

fn guide_of(settings: &str, steps: &[&str]) -> Guide {
    let mut door = Memory::default()
        .with("content/guide.yaml", format!("title: T\nauthor: A\n{settings}\n"))
        .with("content/paints/shelf.yaml", include_str!("cases/shelves/fen.yaml"))
        .with("content/schemes/s/scheme.md", "---\ntitle: S\nareas: {shell: 60%, cloth: 40%}\n---\n");
    for (at, step) in steps.iter().enumerate() {
        let with = if step.contains("with:") { "" } else { "\nwith: brush" };
        let text = format!("---\ntitle: Step {at}\n{step}{with}\n---\n");
        door = door.with(&format!("content/schemes/s/{:02}-step.md", at + 10), text);
    }
    let mut source = source::read(&door).unwrap();
    assert_eq!(source.findings, []);
    let (guide, findings) = resolve(&mut source);
    assert_eq!(findings, []);
    guide
}

fn walk<'g>(guide: &'g Guide, conditions: &Conditions) -> Film<'g> {
    let scheme = &guide.schemes[0];
    Film::walk(scheme, &(0..scheme.steps.len()).collect::<Vec<_>>(), conditions)
}

fn near(value: f64, expected: f64) -> bool {
    (value - expected).abs() < 1e-6
}

#[test]
fn coats_lie_where_the_step_says_and_views_show_one_moment() {
    let guide = guide_of(
        "",
        &[
            "stage: undercoat\nareas: [all]\npaints: [grey-ground]",
            "stage: shade\nareas: [shell]\nwhere: all\npaints: [peat]",
            "stage: highlight\nareas: [shell]\npaints: [straw]",
            "stage: detail\nareas: [cloth]\npaints: [red]",
        ],
    );
    let conditions = Conditions::of(&guide);
    let film = walk(&guide, &conditions);
    let end = film.finished();
    let steps = |zone| end.coats(SHELL, zone).map(|coat| coat.step).collect::<Vec<_>>();
    assert_eq!(
        (steps(Zone::Recesses), steps(Zone::Faces), steps(Zone::Edges)),
        (vec![0, 1], vec![0, 1], vec![0, 1, 2])
    );
    assert_eq!(end.spots(CLOTH).map(|coat| coat.step).collect::<Vec<_>>(), [3]);
    assert_eq!(end.coats(CLOTH, Zone::Faces).count(), 1);
    assert_eq!(film.before(1).coats(SHELL, Zone::Faces).count(), 1);
    assert_eq!(film.after(1).coats(SHELL, Zone::Faces).count(), 2);
    let wash = |zone| end.layers(SHELL, zone).nth(1).unwrap().dry.0;
    assert!(
        near(wash(Zone::Recesses), 15.0) && near(wash(Zone::Faces), 0.5),
        "50 um at 10 %, gathered in the recesses"
    );
    assert!(near(end.build(CLOTH, Zone::Faces).0, 30.0 * 0.33));
}

#[test]
fn thinner_makes_a_coat_thinner_and_lets_more_through() {
    let basecoat = |mix: &str, coats: u32| {
        let guide = guide_of("", &[&format!("stage: basecoat\nareas: [all]\ncoats: {coats}\npaints: [{mix}]")]);
        let conditions = Conditions::of(&guide);
        let film = walk(&guide, &conditions);
        let coat = &film.coats()[0];
        (coat.all_dry().0, coat.opacity)
    };
    assert_eq!(basecoat("red", 1).1, Opacity::Covering);
    assert_eq!(basecoat("red", 2).1, Opacity::Opaque);
    assert_eq!(basecoat("gloss", 2).1, Opacity::Clear);
    let half = "{use: red, parts: 1}, {use: water, parts: 1}";
    assert_eq!(basecoat(half, 1).1, Opacity::Tinting);
    assert!(near(basecoat(half, 2).0, basecoat("red", 1).0));
}

#[test]
fn time_flows_by_hands_waits_and_drying() {
    let guide = guide_of(
        "",
        &[
            "stage: basecoat\nareas: [shell]\npaints: [red]\ncoats: 3\nwait: 30 min\nminutes: 5\ndry: 2 h",
            "stage: basecoat\nareas: [cloth]\npaints: [green]\nminutes: 10",
            "stage: layer\nareas: [shell]\npaints: [straw]\nminutes: 1",
        ],
    );
    let conditions = Conditions::of(&guide);
    let film = walk(&guide, &conditions);
    let times: Vec<(f64, f64)> = film.turns().iter().map(|turn| (turn.begins.0, turn.ends.0)).collect();
    assert_eq!(times, [(0.0, 75.0), (15.0, 25.0), (195.0, 196.0)], "the cloth is painted while the shell dries");
    let red = &film.coats()[0];
    assert!(near(film.before(2).age(red).0, 120.0));
    assert!(near(red.drying.recoat.0, 20.0) && red.drying.labelled);
}

#[test]
fn the_slowest_family_in_the_cup_rules_and_the_room_counts() {
    let drying = |settings: &str, mix: &str| {
        let guide = guide_of(settings, &[&format!("stage: basecoat\nareas: [all]\npaints: [{mix}]")]);
        let conditions = Conditions::of(&guide);
        walk(&guide, &conditions).coats()[0].drying.recoat.0
    };
    assert!(near(drying("", "{use: red, parts: 9}, {use: tar, parts: 1}"), 1440.0));
    assert!(near(drying("room: {humidity: 80%}", "red"), 50.0));
    assert!(near(drying("room: {humidity: 80%}", "gold"), 15.0), "damp does not slow alcohol");
    assert!(near(drying("bench: {water-brush-recoat: 10}", "unlabelled"), 10.0));
}

#[test]
fn a_mask_keeps_off_what_is_meant_for_all() {
    let guide = guide_of(
        "",
        &[
            "stage: undercoat\nareas: [all]\npaints: [grey-ground]",
            "stage: mask\nareas: [shell]\nwith: hand",
            "stage: varnish\nareas: [all]\nwith: airbrush\npaints: [matt]",
            "stage: chip\nareas: [shell]\nwith: sponge\npaints: [red]",
            "stage: unmask\nareas: [shell]\nwith: hand",
            "stage: varnish\nareas: [cloth]\nwith: airbrush\npaints: [matt]",
        ],
    );
    let conditions = Conditions::of(&guide);
    let film = walk(&guide, &conditions);
    assert_eq!((film.areas(2), film.areas(3)), ([CLOTH].as_slice(), [SHELL].as_slice()));
    assert_eq!((film.after(3).mask(SHELL), film.after(4).mask(SHELL)), (Some(1), None));
    assert_eq!(film.dusted(2).count(), 0, "the mask keeps the dust off, too");
    assert_eq!(film.dusted(5).collect::<Vec<_>>(), [SHELL]);
    assert_eq!(film.finished().chips(SHELL).collect::<Vec<_>>(), [3]);
}

#[test]
fn the_surface_is_told_in_typed_words() {
    let guide = guide_of(
        "",
        &[
            "stage: undercoat\nareas: [all]\npaints: [grey-ground]",
            "stage: basecoat\nareas: [shell]\npaints: [red]",
            "stage: varnish\nareas: [shell]\npaints: [{use: gloss, parts: 1}, {use: matt, parts: 1}]\ndry: 24 h",
            "stage: decal\nareas: [shell]\npaints: [settle]\ndry: 1 h",
        ],
    );
    let conditions = Conditions::of(&guide);
    let film = walk(&guide, &conditions);
    let on_top = |what, kind, step| {
        let (family, kind) = (Family::Water, Some(kind));
        OnTop { what, family, kind, metallic: false, holds: true, step }
    };
    assert_eq!(surface_now(film.before(0), SHELL, ZONES, &conditions.bench), None);
    let now = surface_now(film.after(3), SHELL, ZONES, &conditions.bench).unwrap();
    let expected = SurfaceNow {
        zone: Zone::Faces,
        sheen: Sheen::Satin,
        top: on_top(What::Varnish, Kind::Varnish, 2),
        under: Some(on_top(What::Colour, Kind::Paint, 1)),
        sealed: true,
        bare_decals: true,
        covered_decals: false,
        chipped: false,
        masked: false,
        cured_after: Time::from_minutes(24 * 60),
    };
    assert_eq!(now, expected);
}
