//! Pages of the display list for screens: as SVG (W3C, Scalable Vector Graphics 1.1), text as outlines, so that no
//! font is needed, and as pixels made from it. A unit is a point, as in the PDF, and what is painted for a bead and
//! for a glyph comes from where the PDF's painter has it.

mod beads;
mod defs;
mod fan;
mod images;
mod page;
mod pixels;
mod text;

pub use fan::fan;
pub use page::page;
pub use pixels::{Animation, PixelsError, png};
