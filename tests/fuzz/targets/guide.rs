//! A small guide around the bytes, and what is asked of every answer.

use std::sync::{Mutex, PoisonError};

use maulstick::door::Memory;
use maulstick::report::{Files, Finding};
use maulstick::story::{Proof, Session};

const GUIDE: &str = "title: Fen\nauthor: Quill Hollis\naddress: https://fen.example/book\ncurrency: EUR\n";
const SCHEME: &str = "---\ntitle: Warden\nareas: {cloth: 60%, shell: 40%}\n---\nA warden.\n";
const GROUND: &str =
    "---\ntitle: Ground\nstage: undercoat\nareas: [all]\nwith: brush\npaints: [ground]\ndry: 4 h\n---\n";
const CLOTH: &str = "---\ntitle: Cloth\nstage: basecoat\nareas: [cloth, shell]\nwith: brush\npaints:\n  - {use: moss, \
    parts: 3}\n  - {use: medium, parts: 1}\ncoats: 2\nminutes: 10\n---\nThin.\n";
const ARMY: &str = "title: Watch\nunits:\n  - {scheme: warden, models: 5}\nevenings: {days: [mon], from: 20:00, \
    length: 90 min, first: 2027-03-01}\nhave: {moss: 8 ml}\n";
const PAINTS: &str = "maker: Tarn & Daughter\nrange: Mere\nfamily: water\nbottle: 17 ml\nprice: 2.50\npaints:\n  \
    ground: {name: Ground Grey, kind: primer, colour: '#7c7c7a', recoat: 1 h, cure: 24 h}\n  \
    moss: {name: Moss, kind: paint, colour: '#5b6b3a', hiding: opaque, recoat: 30 min}\n  \
    amber: {name: Amber, kind: clear, colour: '#c98a20', recoat: 1 h, hazards: [H226]}\n  \
    wash: {name: Bog Wash, kind: wash, colour: '#2b221a', recoat: 1 h}\n  \
    medium: {name: Thinning Medium, kind: thinner, suits: [water]}\n";

/// A guide with one scheme of two steps, an army, a range of paints and a page.
pub fn small() -> Memory {
    Memory::default()
        .with("content/guide.yaml", GUIDE)
        .with("content/paints/mere.yaml", PAINTS)
        .with("content/tools.yaml", "tools:\n  round-brush: Round brush\n")
        .with("content/armies/watch.yaml", ARMY)
        .with("content/pages/about.md", "---\ntitle: About\n---\nHello, [warden](scheme:warden).\n")
        .with("content/schemes/warden/scheme.md", SCHEME)
        .with("content/schemes/warden/05-ground.md", GROUND)
        .with("content/schemes/warden/10-cloth.md", CLOTH)
}

/// What is kept from one input to the next, as in the live view: templates and fonts are read once, and only what the
/// bytes change is worked out again.
static KEPT: Mutex<Option<(Session, Proof)>> = Mutex::new(None);

/// Looks at a guide and makes those of its pages whose paths are wanted.
///
/// # Panics
/// Where the guide can't be looked at, or a finding has no place.
pub fn look(door: &Memory, wanted: impl Fn(&str) -> bool) {
    let mut kept = KEPT.lock().unwrap_or_else(PoisonError::into_inner);
    let (mut session, last) = kept.take().map_or_else(Default::default, |(session, proof)| (session, Some(proof)));
    let checked = session.check(door).expect("a guide in memory can be read");
    placed(checked.findings.iter(), &checked.files);
    let proof = Proof::of(checked, last.as_ref());
    for path in proof.paths().iter().filter(|path| wanted(path)) {
        // A page that can't be shown says so with a finding, which is no fault of the program's.
        let _ = proof.file(door, path);
    }
    *kept = Some((session, proof));
}

/// Every finding stands in a file of the guide, on a line and a column that it has.
///
/// # Panics
/// Where one does not.
pub fn placed<'a>(findings: impl Iterator<Item = &'a Finding>, files: &Files) {
    for finding in findings.take(50) {
        for place in std::iter::once(finding.place).chain(finding.related.iter().map(|related| related.place)) {
            let (path, text) = (files.path(place.file), files.text(place.file));
            assert!(path.starts_with("content/"), "{finding:?} stands in '{path}'");
            let (line, column) = files.line_and_column(place);
            assert!(line >= 1 && line <= text.split('\n').count() && column >= 1, "{finding:?} on line {line}");
        }
        assert!(!finding.message.is_empty() && !finding.mend.is_empty(), "{finding:?}");
    }
}
