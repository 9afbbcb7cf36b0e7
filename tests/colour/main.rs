//! The colour method against computed vectors, published pairs, measured paint, and what must always hold.
#![expect(clippy::unwrap_used, reason = "a test that can't go on has failed")]

mod ciede2000;
mod evidence;
mod films;
mod measured;
mod painter;
mod paints;
mod properties;
mod vectors;
