//! Drawings: what a booklet shows of the earring, in millimetres of its own, for a page to show at some scale.

mod card;
mod code;
mod diagram;
mod ear_wire;
mod earring;
mod findings;
mod measure;
mod opening;
mod photograph;
mod progress;
mod shadow;
mod sketch;
mod sway;
mod whereabouts;
mod wraps;

pub use card::{CardBead, card};
pub use code::{QUIET_ZONE, code};
pub use diagram::{Diagram, DiagramMove, SIGNS, Sign, diagrams, figured, moving, sign};
pub use earring::{detail, pair};
pub use measure::{left_out_of_silhouette, ruler, silhouette};
pub use opening::opening;
pub use photograph::photograph;
pub use progress::{Done, so_far};
pub use whereabouts::{lying_row, whereabouts};
pub use wraps::wraps;
