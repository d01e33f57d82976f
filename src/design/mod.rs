//! Design files: text to a checked [`Design`]. Only this stage and `cli` touch files.
//!
//! * `shelf`: where files are read from;
//! * `yaml`: bytes to text, tree and values, with the place of each: all that is no rule of these files;
//! * `bounds`: how much a file may ask for;
//! * `files`, `measure`: the keys of the three files, and single values as a maker writes them;
//! * `palette`, `dimensions`, `sizes`, `replaced`, `studio`, `address`: those files;
//! * `letters`, `picture`, `body`, `shape`, `runs`, `fringe`, `along`, `hang`: the parts of a design;
//! * `gallery`: logo and photographs, each read once;
//! * `supplies`, `assemble`: what a design takes beside beads, and the parts put together;
//! * `library`, `read`, `wishes`: palettes and studios read once, the whole, and what a command asks for beyond it;
//! * `starter`, `palette_edit`: files to start from, and editing a palette without touching the rest of it;
//! * `model`, `methods`, `mirror`: what comes out;
//! * `endings`: how the names of all these files end.

mod address;
mod along;
mod assemble;
mod body;
mod bounds;
mod dimensions;
pub mod endings;
mod files;
mod fringe;
mod gallery;
mod hang;
mod letters;
mod library;
mod measure;
mod methods;
mod mirror;
mod model;
mod palette;
pub mod palette_edit;
mod picture;
mod read;
mod replaced;
mod runs;
mod shape;
mod shelf;
mod sizes;
mod starter;
mod studio;
mod supplies;
mod wishes;
mod yaml;

pub use address::link_to;
pub use bounds::LARGEST_FILE;
pub(crate) use bounds::MOST_TOLD;
pub use library::Library;
pub use model::*;
pub use read::{Reading, read, read_from, read_texts};
pub use shelf::{Disk, Shelf, Texts, Unread, regular_file};
pub use starter::{starter, starter_palette, starter_studio};
pub use wishes::Wishes;
pub(crate) use yaml::{Kind, Node, Style, text_and_tree, unreadable};
pub use yaml::{Top, Written, texts_of, top_of};
