//! Stitching: a checked design becomes stitched [`Work`], by following the thread.
//!
//! One simulated path a thread, as [`Move`]s; the word chart, thread lengths, passes through each
//! bead and the diagrams all come from it. Knows no page.
//!
//! * `fabric`: beads, stacks, bridges and sections, known by number; `manner`: how they are worked.
//! * `needs`: what of a design matters here; `ground`: where the body's stacks lie and touch.
//! * `needle`: where the thread stands, the moves it makes and the bridges it lays.
//! * `rows`: what every stitch must say; `ladder` and `brick` say it.
//! * `travel`: how it gets from one place to another; `room`: which holes take another pass.
//! * `hang` (with `ring`), `anchor`, `join`, `fringe`: the rest of the path.
//! * `words`, `plan`, `geometry`, [`passes`](fn@passes), [`excerpts`]: what is read off it; `queries`: what others ask of it.
//! * [`practice`]: constants of the trade.

mod anchor;
mod brick;
mod excerpt;
mod fabric;
mod fringe;
mod geometry;
mod ground;
mod hang;
mod join;
mod ladder;
mod manner;
mod model;
mod needle;
mod needs;
mod passes;
mod plan;
pub mod practice;
mod queries;
mod ring;
mod room;
mod rows;
mod strung;
#[cfg(test)]
mod tests;
mod travel;
mod words;
mod work;

pub use excerpt::{Excerpt, Shown, excerpts};
pub use fabric::*;
pub use manner::Manner;
pub use model::*;
pub use passes::{passes, passes_while};
pub use queries::Whereabouts;

use crate::design::Design;

/// Stitches one earring of a design.
#[must_use]
pub fn stitch(design: &Design) -> Work {
    work::stitch(&needs::Needs::of(design))
}
