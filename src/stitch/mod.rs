//! Stitching: a checked design becomes stitched [`Work`], by following the thread.
//!
//! One simulated path a thread, as [`Move`]s; the word chart, thread lengths, passes through each
//! bead and the diagrams all come from it. Knows no page.

mod model;

pub use model::*;
