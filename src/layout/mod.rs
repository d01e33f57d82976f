//! Layout: a booklet's blocks become pages of glyphs, lines and beads at millimetre positions: a
//! display list. Knows no PDF.
//!
//! A booklet is set in three phases: blocks are set as slabs ([`blocks`] and the files of the single
//! blocks), the sections are
//! gathered ([`galley`]), pages chosen for all of them together ([`fit`]) and filled ([`place`]), and the finished pages get their heads, feet,
//! numbers, links and bookmarks ([`finish`]). Below them lie the style sheet ([`sheet`]), shaping
//! ([`faces`], [`shape`]), line breaking ([`collect`], [`bound`], [`lines`]) and the pieces of pages ([`fragment`]).

mod back;
mod blocks;
mod bound;
mod buttons;
mod callout;
mod chart;
mod code;
mod collect;
mod contents;
mod cover;
mod drawing;
mod earring_cards;
mod faces;
mod figures;
mod fill;
mod finish;
mod fit;
mod fold;
mod fragment;
mod galley;
mod index;
mod key;
mod kind;
mod legend;
mod lines;
mod measures;
mod model;
mod outlines;
mod pictures;
mod place;
mod plate;
mod screen;
mod screen_links;
mod screen_step;
mod sections;
mod setter;
mod shadow;
mod shape;
mod sheet;
mod slice;
mod step;
mod table;
mod tree;
mod writing;

pub use faces::{FACES_HASH, face_bytes};
pub use fill::TextArea;
pub use fold::folded;
pub use kind::BeadKind;
pub use model::*;
pub use outlines::glyph_outline;
pub use plate::lay_out_plate;
pub use sections::{MissingGlyph, StandIn, lay_out};
pub use sheet::paper_size;
