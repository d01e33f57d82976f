//! Design files: text to a checked [`Design`]. Only this stage and `cli` touch files.
//!
//! * `shelf`, `source`, `load`: a file's bytes, its text, its values and where they stand;
//! * `outline`, `syntax`: where everything stands in a YAML text, and what broken YAML most likely means;
//! * `top`: what kind of file a text may be;
//! * `field`, `measure`, `files`, `check`: single values, the three files' keys, taking values out and noting problems;
//! * `palette`, `dimensions`, `sizes`, `replaced`, `studio`: those files;
//! * `letters`, `picture`, `body`, `runs`, `fringe`, `hang`: the parts of a design;
//! * `gallery`, `picture_file`: logo and photographs, each read once, and their data as a booklet holds them;
//! * `supplies`, `assemble`: what a design takes beside beads, and the parts put together;
//! * `library`, `read`, `wishes`: palettes and studios read once, the whole, and what a command asks for beyond it;
//! * `starter`, `palette_edit`, `quote`: files to start from, and editing a palette without touching the rest of it;
//! * `model`, `methods`: what comes out.

mod assemble;
mod body;
mod check;
mod dimensions;
mod field;
mod files;
mod fringe;
mod gallery;
mod hang;
mod letters;
mod library;
mod load;
mod measure;
mod methods;
mod mirror;
mod model;
mod outline;
mod palette;
pub mod palette_edit;
mod picture;
mod picture_file;
mod quote;
mod read;
mod replaced;
mod runs;
mod shelf;
mod sizes;
mod source;
mod starter;
mod studio;
mod supplies;
mod syntax;
mod top;
mod wishes;

pub use library::Library;
pub(crate) use load::values_of;
pub use model::*;
pub use picture_file::{Colours, Fault, Packing, PictureFile, Plain, Turn};
pub use read::{Reading, read, read_from, read_texts};
pub use shelf::{Disk, Shelf, Texts, Unread};
pub use starter::{starter, starter_palette, starter_studio};
pub use top::{Top, top_of};
pub use wishes::Wishes;
