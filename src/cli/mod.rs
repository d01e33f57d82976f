//! Commands: one file each; they read, call the stages, and report.
//!
//! [`commands`] names them all; [`names`] says what files they write, [`write`] puts a file in place
//! whole or not at all, [`say`] speaks to the user.

mod commands;
mod completions;
mod interrupt;
mod names;
mod say;
mod settings;
mod write;

pub use commands::main;
