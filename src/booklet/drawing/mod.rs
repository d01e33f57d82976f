//! Drawings: pictures in their own millimetres, made of marks, that a page shows at some scale.

mod earring;
mod findings;
mod measure;
mod model;
mod sketch;

pub use earring::{earring, pair};
pub use measure::{ruler, silhouette};
pub use model::*;
