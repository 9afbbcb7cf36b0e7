//! A small guide with something of everything, so that edits have much to break.

use super::edits::Folder;

const GUIDE: &str = "title: Fen\nauthor: Quill Hollis\nsummary: A few models.\nlanguage: en\naddress: https://fen.example/book\n\
    currency: EUR\ntheme: own\nroom: {temperature: 20 C, humidity: 50%}\nbench: {wet-brush: 20}\n\
    house-order:\n  - {first: shade, then: highlight, why: Washes dull the light}\n";

const MERE: &str = r##"maker: Tarn & Daughter
range: Mere
family: water
bottle: 17 ml
price: 2.50
paints:
  ground: {name: Ground Grey, kind: primer, colour: "#7c7c7a", recoat: 1 h, cure: 24 h}
  moss: {name: Moss, kind: paint, colour: "#5b6b3a", hiding: opaque, recoat: 30 min}
  reed-gold: {name: Reed Gold, kind: metal, colour: "#a0803a", recoat: 30 min}
  bog-wash: {name: Bog Wash, kind: wash, colour: "#2b221a", recoat: 1 h}
  medium: {name: Thinning Medium, kind: thinner, suits: [water]}
  white: {name: White, kind: paint, colour: "#f4f2ec", hiding: opaque}
  teal: {name: Teal, kind: paint, colour: "#2a6b6b", swatches: [{with: white, parts: 1, to: 4, colour: "#8fb5b3"}]}
"##;

const SLOW: &str = r##"maker: Oxbow
range: Slow
family: enamel
paints:
  mud: {name: Mud, kind: enamel, colour: "#4a3a28", recoat: 8 h, cure: 48 h, hazards: [H226, H336]}
  spirit: {name: Odourless Spirit, kind: thinner, suits: [enamel, mud], hazards: [H304]}
  old-red: {name: Old Red, kind: paint, family: water, colour: "#8a2a20", discontinued: true}
"##;

const TOOLS: &str = "tools:\n  round-brush: Round brush\n  mask: {name: Particle mask, kind: protection}\n";

const SCHEMES: &[(&str, &str)] = &[
    (
        "boat/scheme.md",
        "---\ntitle: Reed boat\nsummary: A hull of reeds.\nmodel: {material: resin, surface: 20 cm2}\nareas: {hull: 80%, rope: 20%}\n\
         tags: [boat, fen]\nphoto: photos/boat.png\nalt: A boat.\nwritten: 2027-01-12\n---\nLike the [warden](scheme:warden), \
         with [feathers](../heron/scheme.md#feathers).\n\n## Before you begin\n\nWash it. See [the hull](20-hull.md).\n",
    ),
    (
        "boat/10-ground.md",
        "---\ntitle: Ground\nstage: undercoat\nareas: [all]\nwith: airbrush\npaints: [{use: ground}]\ntools: [mask]\ndry: 4 h\n---\nMist it on.\n",
    ),
    (
        "boat/20-hull.md",
        "---\ntitle: Hull\nstage: basecoat\nareas: [hull]\nwith: brush\npaints:\n  - {use: moss, parts: 3}\n  - {use: medium, parts: 1}\n\
         coats: 2\nminutes: 10\ndry: 1 h\nchanged: {2027-02-01: Thinner coats}\n---\nTwo thin coats of [moss](paint:moss).\n\n### Seams\n\nTake care.\n",
    ),
    (
        "boat/30-mud.md",
        "---\ntitle: Mud\nstage: weather\nareas: [hull]\nwith: brush\npaints: [{use: mud, parts: 1}, {use: spirit, parts: 2}]\nwhere: recesses\nsafety: [Open a window.]\n---\nBelow the [seams](20-hull.md#seams).\n",
    ),
    (
        "warden/scheme.md",
        "---\ntitle: Warden\nareas: {cloth: 60%, shell: 40%}\ntags: [fen]\nlevel: easy\n\
         variants: {night: {title: Night, instead: {moss: teal}}}\npots: {fold: {paints: [{use: bog-wash, parts: 2}, {use: medium, parts: 1}]}}\n---\nA warden.\n",
    ),
    ("warden/30-rope.md", "---\nsequence: rope\nareas: {rope: [cloth]}\n---\nThe cords.\n"),
    ("boat/25-rope.md", "---\nsequence: rope\ninstead: {moss: white}\n---\n"),
    (
        "warden/05-ground.md",
        "---\ntitle: Warden ground\nstage: undercoat\nareas: [all]\nwith: brush\npaints: [{use: ground}]\ndry: 4 h\n---\nThin.\n",
    ),
    (
        "warden/10-cloth.md",
        "---\ntitle: Cloth\nstage: basecoat\nareas: [cloth]\nwith: brush\npaints: [{use: moss}]\ntools: [round-brush, old-brush]\n---\nSee stage [shade](stage:shade).\n",
    ),
    (
        "warden/20-folds.md",
        "---\ntitle: Folds\nstage: shade\nareas: [cloth]\nwith: brush\npaints: [{use: fold}]\noptional: Not on rank and file.\nafter: [10-cloth]\n---\nLet it run.\n",
    ),
    (
        "heron/scheme.md",
        "---\ntitle: Heron\nareas: {wings: 100%}\ntags: [bird]\n---\n## Feathers\n\nGold ones, as in [about](../../pages/about.md).\n",
    ),
    (
        "heron/05-ground.md",
        "---\ntitle: Heron ground\nstage: undercoat\nareas: [all]\nwith: brush\npaints: [{use: ground}]\ndry: 4 h\n---\nThin.\n",
    ),
    (
        "heron/10-wings.md",
        "---\ntitle: Wings\nstage: basecoat\nareas: [wings]\nwith: brush\npaints: [{use: reed-gold}]\n---\n```\ncode\n```\n",
    ),
    (
        "heron/20-eyes.md",
        "---\ntitle: Eyes\nstage: detail\nareas: [wings]\nwhere: spots\nwith: brush\npaints: [{use: teal}]\n---\nTwo dots.\n",
    ),
];

const SEQUENCE: &[(&str, &str)] = &[
    ("rope/sequence.md", "---\ntitle: Rope\nareas: [rope]\n---\nAll rope is [one rope](10-twist.md).\n"),
    (
        "rope/10-twist.md",
        "---\ntitle: Twist\nstage: basecoat\nareas: [rope]\nwith: brush\npaints: [{use: moss, parts: 2}, {use: medium, parts: 1}]\n---\nAlong the [moss](paint:moss).\n",
    ),
    (
        "rope/20-light.md",
        "---\ntitle: Light\nstage: highlight\nareas: [rope]\nwith: brush\npaints: [white]\nafter: [10-twist]\n---\nOn every turn.\n",
    ),
];

const ARMY: &str = "title: Watch\nunits:\n  - {scheme: boat, models: 5}\n  - {scheme: heron, models: 2}\n  - {scheme: warden, variant: night, models: 3}\n\
    evenings: {days: [mon, thu], from: 20:00, length: 90 min, first: 2027-03-01}\nhave: {moss: 8 ml}\n";

/// A picture of one colour.
pub(crate) fn picture(width: u32, grey: u8) -> Vec<u8> {
    let mut bytes = std::io::Cursor::new(Vec::new());
    let picture = image::RgbImage::from_pixel(width, 3, image::Rgb([grey, grey, 120]));
    picture.write_to(&mut bytes, image::ImageFormat::Png).unwrap();
    bytes.into_inner()
}

/// The guide.
pub(crate) fn small() -> Folder {
    let texts = [
        ("content/guide.yaml", GUIDE),
        ("content/paints/mere.yaml", MERE),
        ("content/paints/slow.yaml", SLOW),
        ("content/tools.yaml", TOOLS),
        ("content/armies/watch.yaml", ARMY),
        ("content/pages/about.md", "---\ntitle: About\n---\nHello. [A tag](tag:fen), [the watch](army:watch).\n"),
        ("themes/own/style/chart.css", "p { color: black }\n"),
        (
            "themes/own/sheets/page.html",
            "{% extends \"sheet.html\" %}{% block main %}<h1>{{ title }}</h1>{{ body | safe }}{% endblock main %}\n",
        ),
        ("themes/own/words/en.yaml", "nav:\n  paints: My paints\n"),
    ];
    let mut files: Folder = texts.iter().map(|(path, text)| ((*path).to_owned(), text.as_bytes().to_vec())).collect();
    for (path, text) in SCHEMES {
        files.insert(format!("content/schemes/{path}"), text.as_bytes().to_vec());
    }
    for (path, text) in SEQUENCE {
        files.insert(format!("content/sequences/{path}"), text.as_bytes().to_vec());
    }
    files.insert("content/schemes/boat/photos/boat.png".to_owned(), picture(8, 90));
    files
}
