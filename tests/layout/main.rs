//! Layout: what is true of every page it makes.

#[path = "../support/booklets.rs"]
mod booklets;

mod charts;
mod pages;
mod probe;
mod snapshot;
mod structure;
mod tables;
mod text;
