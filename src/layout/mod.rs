//! Layout: a booklet's blocks become pages of glyphs, lines and beads at millimetre positions: a
//! display list. Knows no PDF.

mod model;

pub use model::*;
