//! Step diagrams: a stretch of the path of this design, drawn from its own beads.

mod bezier;
mod columns;
mod draw;
mod joins;
mod lanes;
mod numbers;
mod paint;
mod route;
mod stage;
mod state;
mod stretch;
mod thread;

pub use draw::{Diagram, DiagramMove, diagrams};
