//! Quantities in floating point as hashes: by their bits.

use std::hash::{Hash, Hasher};

use super::{Celsius, Millilitres, Millimetres, SquareCentimetres};

macro_rules! by_bits {
    ($($quantity:ident),*) => {
        $(impl Hash for $quantity {
            fn hash<H: Hasher>(&self, state: &mut H) {
                self.0.to_bits().hash(state);
            }
        })*
    };
}

by_bits!(Celsius, Millilitres, Millimetres, SquareCentimetres);
