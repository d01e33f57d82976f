//! Booklet: sections made of blocks, with this design's numbers and the template's words.
//! Knows no millimetre of a page.

mod markup;
mod model;

pub mod drawing;

pub use model::*;
