//! The pigments whose light is known, by their colour index names.

/// Colour index generic names (Society of Dyers and Colourists with AATCC), as makers print them on tubes and bottles.
pub const PIGMENTS: &[&str] = &[
    "PBk9", "PY74", "PY83", "PO20", "PO73", "PR108", "PR254", "PV19", "PR122", "PV23", "PB29", "PB28", "PB36",
    "PB15:1", "PB15:3", "PG7", "PG36", "PY184", "PW6", "PW4", "PW1", "PR90", "NR4", "PR105", "PR106", "PG18", "PG21",
    "PB27", "PY34", "PW21", "PW18", "PBk7", "PBk11", "PR101", "PY42", "PBr7", "PG17",
];
