//! YAML: what every file has in common, whatever its keys mean.
//!
//! A file's bytes become its text, the text a tree whose nodes know where they stand, the tree values as far as they
//! can be read; what is wrong is noted with its place. The files' own rules stand outside this room, which knows of
//! them only how much a file may ask for ([`bounds`](super::bounds)).
//!
//! * `source`: bytes to text;
//! * `tree`, `syntax`: where everything stands in a text, and what broken YAML most likely means;
//! * `top`: what stands at the top of a text, as far as it can be read;
//! * `values`, `field`: the tree as serde reads values from it, and values as far as they can be read;
//! * `load`: one file all this way;
//! * `check`: taking values out and noting problems;
//! * `written`: the texts of a file with their places, for later stages;
//! * `quote`: writing a text into a file.

mod check;
mod field;
mod load;
mod quote;
mod source;
mod syntax;
mod top;
mod tree;
mod values;
mod written;

pub(super) use check::Check;
pub(super) use field::{
    EachOrMore, Entries, Field, OneOrEach, OneOrMore, Part, PartOrMore, Text, TextOr, scalar,
};
pub(super) use load::{Loaded, load, sound_tree};
pub(crate) use load::{text_and_tree, unreadable};
pub(crate) use quote::quoted;
pub(super) use source::text_of;
pub(super) use syntax::shifted_with_spaces;
pub use top::{Top, top_of};
pub(crate) use tree::{Kind, Node, Style};
pub use written::{Written, texts_of};
