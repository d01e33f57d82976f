//! Step diagrams: a stretch of the path of this design, drawn from its own beads.

mod bezier;
mod columns;
mod draw;
mod ends;
mod frames;
mod joins;
mod lanes;
mod numbers;
mod paint;
mod ring;
mod route;
mod signs;
mod stage;
mod state;
mod stretch;
mod thread;
mod turning;
mod way;
mod whole;
mod wraps;

pub use draw::{Diagram, DiagramMove, diagrams, figured, moving};
pub(super) use paint::{accent, arrowhead, disc};
pub use signs::{SIGNS, Sign, sign};
