//! Tally: what to buy and cut, how big and heavy it is, and whether the thread fits.

mod model;
pub mod packing;

pub use model::*;
