//! What is drawn: what booklet, layout and painter all speak of, and knows none of them.
//!
//! * `drawing`: a drawing in its own millimetres, made of marks;
//! * `path`: pieces of paths and pens, and the paths of simple figures;
//! * `bead`: shapes of beads with their outlines, and how a bead is shown;
//! * `face`: the faces that are built in.

mod bead;
mod drawing;
mod face;
mod path;

pub use bead::{BeadLook, FADED, PATTERNS, Shape, facet_corners, outline};
pub use drawing::{Align, BeadMark, Drawing, LabelMark, Mark, PathMark};
pub use face::Face;
pub use path::{QUARTER, Segment, Stroke, circle, polygon, rectangle, rounded};
