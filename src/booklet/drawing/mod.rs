//! Drawings: pictures in their own millimetres, made of marks, that a page shows at some scale.

mod diagram;
mod earring;
mod face;
mod findings;
mod measure;
mod model;
mod sketch;

pub use diagram::{Diagram, DiagramMove, diagrams};
pub use earring::pair;
pub use face::Face;
pub use measure::{ruler, silhouette};
pub use model::*;
pub use sketch::{QUARTER, circle};
