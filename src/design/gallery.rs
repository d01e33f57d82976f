//! Pictures that files name, each read once for as long as anything shows it.

use super::endings::PICTURES;
use super::model::Picture;
use super::picture_file::{Fault, LARGEST, PictureFile};
use super::shelf::Shelf;
use crate::diagnostic::{Place, Problem};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError, Weak};

/// Reads pictures from a shelf. Photographs of designs that are done with are let go, so that a catalogue
/// does not gather in memory.
pub(super) struct Gallery<'s> {
    shelf: &'s dyn Shelf,
    known: Mutex<BTreeMap<PathBuf, Known>>,
}

/// What came of reading a file.
enum Known {
    Picture(Weak<PictureFile>),
    Fault(Fault),
}

impl<'s> Gallery<'s> {
    /// The pictures on a shelf.
    pub(super) fn new(shelf: &'s dyn Shelf) -> Gallery<'s> {
        Gallery { shelf, known: Mutex::default() }
    }

    /// The picture in a file that is named at a place.
    pub(super) fn picture(&self, path: &Path, alt: String, place: Option<Place>) -> Result<Picture, Problem> {
        let name = path.display().to_string();
        match self.file(path) {
            Ok(file) => Ok(Picture { name, alt, file, place }),
            Err(fault) => {
                let mut problem = fault.problem(&name);
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
    ) -> Option<Result<Picture, Problem>> {
        let named = PICTURES.iter().map(|end| folder.join(format!("{slug}.{end}")));
        let path = named.into_iter().find(|path| self.shelf.has(path))?;
        Some(self.picture(&path, title.to_owned(), place))
    }

    fn file(&self, path: &Path) -> Result<Arc<PictureFile>, Fault> {
        match self.known.lock().unwrap_or_else(PoisonError::into_inner).get(path) {
            Some(Known::Fault(fault)) => return Err(fault.clone()),
            Some(Known::Picture(weak)) => {
                if let Some(file) = weak.upgrade() {
                    return Ok(file);
                }
            }
            None => {}
        }
        let read = self.shelf.read(path, LARGEST).map_err(Fault::Unread).and_then(PictureFile::new);
        let read = read.map(Arc::new);
        let known = match &read {
            Ok(file) => Known::Picture(Arc::downgrade(file)),
            Err(fault) => Known::Fault(fault.clone()),
        };
        self.known.lock().unwrap_or_else(PoisonError::into_inner).insert(path.to_owned(), known);
        read
    }
}
