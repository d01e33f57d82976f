//! Drawings: pictures in their own millimetres, made of marks, that a page shows at some scale.

mod model;

pub use model::*;
