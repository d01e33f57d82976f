//! Layout: what is true of every page it makes.

mod charts;
mod longest_texts;
mod pages;
pub mod probe;
mod snapshot;
mod structure;
mod tables;
mod text;
