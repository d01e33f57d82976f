//! Design files: text to a checked [`Design`]. Only this stage and `cli` touch files.

mod model;
mod wording;

pub use model::*;
pub use wording::{Language, Word, Wording, WordingError};
