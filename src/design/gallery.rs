//! Images that files name, each read once for as long as anything shows it.

use super::bounds::LARGEST_IMAGE;
use super::endings::IMAGES;
use super::shelf::{Shelf, Unread};
use crate::diagnostic::{Place, Problem};
use crate::images::{Fault, Image, ImageFile, SMALLER};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError, Weak};

/// Reads images from a shelf. Photographs of designs that are done with are let go, so that a catalogue
/// does not gather in memory.
pub(super) struct Gallery<'s> {
    shelf: &'s dyn Shelf,
    known: Mutex<BTreeMap<PathBuf, Known>>,
}

/// What came of reading a file.
enum Known {
    Image(Weak<ImageFile>),
    Unusable(Unusable),
}

/// Why a file cannot be used.
#[derive(Clone)]
enum Unusable {
    /// Its bytes cannot be had.
    Unread(Unread),
    /// They are no image that can be shown.
    Fault(Fault),
}

impl Unusable {
    /// As told of a file of this name.
    fn problem(&self, name: &str) -> Problem {
        match self {
            Unusable::Unread(why) => why.problem("picture", name, LARGEST_IMAGE, SMALLER),
            Unusable::Fault(fault) => fault.problem(name),
        }
    }
}

impl<'s> Gallery<'s> {
    /// The images on a shelf.
    pub(super) fn new(shelf: &'s dyn Shelf) -> Gallery<'s> {
        Gallery { shelf, known: Mutex::default() }
    }

    /// The image in a file that is named at a place.
    pub(super) fn image(&self, path: &Path, alt: String, place: Option<Place>) -> Result<Image, Problem> {
        let name = path.display().to_string();
        match self.file(path) {
            Ok(file) => Ok(Image { name, alt, file, place }),
            Err(why) => {
                let mut problem = why.problem(&name);
                problem.place = place;
                Err(problem)
            }
        }
    }

    /// The photograph of a name in a folder; `None` where there is none.
    pub(super) fn photo_in(
        &self,
        folder: &Path,
        place: Option<Place>,
        slug: &str,
        title: &str,
    ) -> Option<Result<Image, Problem>> {
        let named = IMAGES.iter().map(|end| folder.join(format!("{slug}.{end}")));
        let path = named.into_iter().find(|path| self.shelf.has(path))?;
        Some(self.image(&path, title.to_owned(), place))
    }

    fn file(&self, path: &Path) -> Result<Arc<ImageFile>, Unusable> {
        match self.known.lock().unwrap_or_else(PoisonError::into_inner).get(path) {
            Some(Known::Unusable(why)) => return Err(why.clone()),
            Some(Known::Image(weak)) => {
                if let Some(file) = weak.upgrade() {
                    return Ok(file);
                }
            }
            None => {}
        }
        let bytes = self.shelf.read(path, LARGEST_IMAGE).map_err(Unusable::Unread);
        let read = bytes.and_then(|bytes| ImageFile::new(bytes).map_err(Unusable::Fault));
        let read = read.map(Arc::new);
        let known = match &read {
            Ok(file) => Known::Image(Arc::downgrade(file)),
            Err(why) => Known::Unusable(why.clone()),
        };
        self.known.lock().unwrap_or_else(PoisonError::into_inner).insert(path.to_owned(), known);
        read
    }
}
