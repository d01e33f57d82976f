//! An image as a file names it.

use super::ImageFile;
use crate::diagnostic::{Place, Problem};
use std::sync::Arc;

/// An image: logo or photograph. Where it stands in a file is kept for what is found wrong with it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Image {
    /// Where it was read from, as shown to the user.
    pub name: String,
    /// What it shows, for those who cannot see it.
    pub alt: String,
    /// The file, shared by all that show it.
    pub file: Arc<ImageFile>,
    /// Where it, or the folder it was found in, is named.
    pub place: Option<Place>,
}

impl Image {
    /// What is wrong with its data. It is decoded for this, if that has not happened yet.
    #[must_use]
    pub fn problem(&self) -> Option<Problem> {
        let mut problem = self.file.prove().err()?.problem(&self.name);
        problem.place.clone_from(&self.place);
        Some(problem)
    }
}
