//! What several files of tests build on.

pub mod booklets;
pub mod editions;
pub mod made;
pub mod svg;
