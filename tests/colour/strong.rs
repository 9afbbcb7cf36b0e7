//! See-through yellows and strong darks in mixes, as a painter has them who knows his paints by a colour and a class alone.

use std::sync::Arc;

use maulstick::colour::{Ground, Mixture, Shelf, Stack};
use maulstick::trade::Hiding::{self, Opaque, SemiOpaque, SemiTransparent, Transparent};
use maulstick::trade::{Kind, Sheen};

use super::paints::paint;

/// His paints.
const SHELF: [(&str, [u8; 3], Kind, Hiding); 9] = [
    ("yellow", [0xf2, 0xc4, 0x18], Kind::Paint, SemiTransparent),
    ("orange", [0xe0, 0x70, 0x1c], Kind::Paint, SemiTransparent),
    ("red", [0xb0, 0x1c, 0x22], Kind::Paint, SemiOpaque),
    ("blue", [0x1f, 0x3f, 0x8f], Kind::Paint, SemiOpaque),
    ("brown", [0x54, 0x38, 0x2a], Kind::Paint, Opaque),
    ("dark green", [0x20, 0x40, 0x2a], Kind::Paint, Opaque),
    ("black", [0x1d, 0x1d, 0x1f], Kind::Paint, Opaque),
    ("white", [0xf2, 0xf1, 0xec], Kind::Paint, SemiOpaque),
    ("yellow ink", [0xf0, 0xb4, 0x00], Kind::Ink, Transparent),
];

/// Parts of a paint.
type Part = (f64, &'static str);

/// Two of them; from and to of lightness, chroma and hue angle that he allows.
const TOLD: [(Part, Part, [[f64; 2]; 3]); 9] = [
    // An olive, about #3f3f20: 26, 18, 108. It was a cold grey (24, 5, 194).
    ((1.0, "black"), (1.0, "yellow"), [[22.0, 34.0], [10.0, 30.0], [95.0, 122.0]]),
    ((1.0, "black"), (2.0, "yellow"), [[28.0, 42.0], [15.0, 40.0], [92.0, 122.0]]),
    // A leaf green: 140 to 145. It was 155.
    ((1.0, "blue"), (4.0, "yellow"), [[38.0, 58.0], [28.0, 55.0], [130.0, 153.0]]),
    // Clean oranges between parents of chroma 68 and 80. They were 52 and 51.
    ((1.0, "red"), (4.0, "yellow"), [[46.0, 64.0], [57.0, 80.0], [42.0, 64.0]]),
    ((1.0, "red"), (10.0, "yellow"), [[52.0, 70.0], [56.0, 82.0], [50.0, 76.0]]),
    // A golden brown: it was 54 in hue angle.
    ((1.0, "brown"), (1.0, "yellow"), [[29.0, 50.0], [18.0, 42.0], [60.0, 88.0]]),
    // Clearly yellower than the green alone, which is 151: it was 152.
    ((1.0, "dark green"), (4.0, "yellow"), [[34.0, 58.0], [30.0, 60.0], [112.0, 143.0]]),
    // What is strong stays a yellow in white: the chroma was 36.
    ((5.0, "yellow ink"), (2.0, "white"), [[68.0, 86.0], [55.0, 85.0], [76.0, 98.0]]),
    // Measured ones turn grey together, and no green.
    ((1.0, "orange"), (1.0, "blue"), [[20.0, 40.0], [0.0, 10.0], [0.0, 360.0]]),
];

#[test]
fn a_see_through_yellow_tints_as_strongly_as_a_painter_has_it() {
    let own = |(id, colour, kind, hiding): (&str, [u8; 3], Kind, Hiding)| {
        let sheen = if kind == Kind::Ink { Sheen::Satin } else { Sheen::Matt };
        let paint = paint(id, Some(colour), hiding, Vec::new());
        Arc::new(maulstick::guide::Paint { kind, sheen, ..paint })
    };
    let shelf = Shelf::of(&SHELF.map(own));
    let mut wrong = Vec::new();
    for ((some, one), (more, other), bounds) in TOLD {
        let of = |id: &str| shelf.pigment(id).unwrap();
        let mix = Mixture::of(&[(of(one), some), (of(other), more)]).unwrap();
        let lab = Stack::on(&Ground::grey(0.5), shelf.surface()).lay(&mix, 8.0).lab();
        let seen = [lab.l, lab.a.hypot(lab.b), lab.b.atan2(lab.a).to_degrees().rem_euclid(360.0)];
        let told = format!("{one} {some} : {other} {more}: {seen:.0?}");
        println!("{told}");
        if seen.iter().zip(bounds).any(|(seen, [from, to])| !(from..=to).contains(seen)) {
            wrong.push(format!("{told}, not {bounds:?}"));
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}
