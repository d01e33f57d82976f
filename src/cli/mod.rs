//! Commands: one file each; they read, call the stages, and report.
//!
//! [`commands`] names them all; [`crew`] works on many designs at once. [`pipeline`] calls the stages in their order; [`editions`] and
//! [`settings`] say what was asked for, [`names`] what the files are called, [`digest`] what went into
//! them. [`kinds`] tells designs from other files, [`templates`] reads a maker's own words, [`existing`]
//! looks at what stands under a name already, [`write`] puts a file in place whole or not at all, [`say`]
//! speaks to the user.

mod bench;
mod cards;
mod check;
mod commands;
mod completions;
mod count;
mod count_forms;
mod crew;
mod digest;
mod edited;
mod editions;
mod existing;
mod fills;
mod history;
mod interrupt;
mod kinds;
mod make;
mod match_beads;
mod missing;
mod names;
mod new;
mod picture;
mod pictures;
mod pipeline;
mod remake;
mod say;
mod settings;
mod swatch;
mod table;
mod tablet;
mod templates;
mod thread;
mod ticks;
mod write;

pub use commands::main;
