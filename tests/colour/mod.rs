//! The colour method against computed vectors, published pairs, measured paint, and what must always hold.

mod ciede2000;
mod evidence;
mod films;
mod measured;
mod mixes;
mod painter;
mod paints;
mod properties;
mod strong;
mod vectors;
