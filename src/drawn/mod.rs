//! What is drawn: what booklet, layout and painter all speak of, and knows none of them.
//!
//! * `drawing`: a drawing in its own millimetres, made of marks;
//! * `path`: pieces of paths and pens, and the paths of simple figures;
//! * `bead`: shapes of beads with their outlines, how a bead is shown, and what is painted for it;
//! * `face`: the faces that are built in, and the maker's own.

mod bead;
mod drawing;
mod face;
mod path;

pub use bead::{
    BeadLook, FADED, Glass, Gradient, PATTERNS, Part, Path, Pen, Run, Shape, Shine, Surface, Tint, outline,
    parts,
};
pub use drawing::{Align, BeadMark, Drawing, LabelMark, Mark, PathMark, PhotographMark, ShadowMark};
pub use face::{Face, OwnFaces};
pub use path::{QUARTER, Segment, Stroke, circle, polygon, rectangle, rounded};
