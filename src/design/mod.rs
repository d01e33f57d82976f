//! Design files: text to a checked [`Design`]. Only this stage and `cli` touch files.

mod model;

pub use model::*;
