//! Paint: a display list becomes a file. Only this stage names printpdf and lopdf.
//!
//! [`pdf`] reads as the recipe. [`check`] refuses a display list that does not say all that its file
//! will claim. [`page`] paints pages into printpdf's operators; everything on the level of the catalogue
//! (structure, annotations, layers, bookmarks, metadata) is then added to the live lopdf document.
//! [`claims`] lists what the file claims to be, and who sees to it.

pub mod claims;

mod annotations;
mod beads;
mod bookmarks;
mod check;
mod digest;
mod document;

mod error;
mod faces;
mod fonts;
mod icc;
mod images;
mod layers;
mod messages;
mod operators;
mod page;
mod reread;
mod resources;
mod save;
mod seen;
mod tags;
mod times;
mod written;
mod xmp;

pub use digest::{Digested, digest_of};
pub use document::pdf;
pub use error::PaintError;
pub use reread::{Standing, digest_within, standing};
pub use times::Times;
pub use xmp::of_picture as picture_packet;
