//! Problems: what is wrong, where it stands in which file, and what to do about it.
//!
//! * `place`: files and stretches of them, as lines and columns;
//! * `problem`: one thing to tell the user;
//! * `render`: problems as the text a user reads;
//! * `harmless`: what a terminal would obey, kept from it;
//! * `words`: counts, lists and near misses, for messages.

mod harmless;
mod place;
mod problem;
mod render;
mod words;

pub use harmless::{harmless, is_obeyed};
pub use place::{Place, Source};
pub use problem::{Problem, Severity, has_errors, keep_first, sort};
pub use render::{Look, render, render_all, summary};
pub use words::{did_you_mean, either, list, nearest, number_of, ranges, shown, thousands};
