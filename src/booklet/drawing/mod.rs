//! Drawings: what a booklet shows of the earring, in millimetres of its own, for a page to show at some scale.

mod diagram;
mod earring;
mod findings;
mod measure;
mod sketch;

pub use diagram::{Diagram, DiagramMove, diagrams};
pub use earring::pair;
pub use measure::{ruler, silhouette};
