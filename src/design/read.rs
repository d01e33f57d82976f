//! From a path to a checked design: the files, then their parts, then the design.

use super::assemble::{Around, assemble};
use super::bounds::MOST_TOLD;
use super::files::DesignFile;
use super::library::{Found, Library, find, no_palette};
use super::model::Design;
use super::shelf::{Shelf, Texts};
use super::studio::StudioRead;
use super::wishes::{Wishes, apply};
use super::yaml::{Check, Loaded, load};
use crate::diagnostic::{Problem, has_errors, keep_first, sort};
use std::path::Path;

/// What came of reading a design.
#[derive(Clone, Debug)]
pub struct Reading {
    /// The design; `None` when any problem is an error.
    pub design: Option<Design>,
    /// All problems of the design, its palette and its studio, in reading order.
    pub problems: Vec<Problem>,
}

/// Reads a design file with its palette and studio from the disk.
#[must_use]
pub fn read(path: &Path, wishes: &Wishes) -> Reading {
    Library::default().read(path, wishes)
}

/// Reads the first of some files held in memory as a design; palette and studio are looked for among them.
#[must_use]
pub fn read_texts(files: &[(&str, &str)], wishes: &Wishes) -> Reading {
    let texts = Texts::new(files.iter().map(|(path, text)| (*path, *text)));
    let first = files.first().map_or("", |(path, _)| *path);
    read_from(&texts, Path::new(first), wishes)
}

/// Reads a design file with its palette and studio.
#[must_use]
pub fn read_from(shelf: &dyn Shelf, path: &Path, wishes: &Wishes) -> Reading {
    Library::new(shelf).read(path, wishes)
}

impl Library<'_> {
    /// Reads a design file with its palette and studio.
    #[must_use]
    pub fn read(&self, path: &Path, wishes: &Wishes) -> Reading {
        self.reading(path, wishes, true)
    }

    /// Reads a design file with its palette and studio, and does not decode its pictures: enough to know
    /// which booklets there are to be and whether they are current.
    #[must_use]
    pub fn glance(&self, path: &Path, wishes: &Wishes) -> Reading {
        self.reading(path, wishes, false)
    }

    fn reading(&self, path: &Path, wishes: &Wishes, prove: bool) -> Reading {
        let mut problems = Vec::new();
        let design = load::<DesignFile>(self.shelf, path, "design", None, &mut problems)
            .and_then(|loaded| design(self, path, &loaded, prove, &mut problems));
        let design = design.map(|design| apply(design, wishes, &mut problems));
        sort(&mut problems);
        let design = design.filter(|_| !has_errors(&problems));
        keep_first(&mut problems, MOST_TOLD);
        Reading { design, problems }
    }
}

fn design(
    library: &Library<'_>,
    path: &Path,
    loaded: &Loaded<DesignFile>,
    prove: bool,
    problems: &mut Vec<Problem>,
) -> Option<Design> {
    let Loaded { source, root, file } = loaded;
    // Told after the design's own problems.
    let mut beside = Vec::new();
    let mut check = Check::new(source, problems);
    check.keys::<DesignFile>(root);
    let palette = match find(&mut check, &file.palette, root, "palette", library.shelf, path) {
        Found::At(at, asked_at) => {
            let kept = library.palette(&at, asked_at);
            beside.extend(kept.1.iter().cloned());
            kept.0.clone()
        }
        Found::Nowhere => {
            check.error(
                root.span.start..root.span.start,
                "there is no palette.yaml in this design's folder or above it",
                "write one (`fringebook new NAME` does in an empty folder), or name another with `palette:`",
            );
            no_palette()
        }
        Found::Wrong => no_palette(),
    };
    let studio = match find(&mut check, &file.studio, root, "studio", library.shelf, path) {
        Found::At(at, asked_at) => {
            let kept = library.studio(&at, asked_at);
            beside.extend(kept.1.iter().cloned());
            if prove {
                beside.extend(kept.0.studio.logo.iter().filter_map(|logo| logo.image.problem()));
                let sections = kept.0.studio.order.iter().flat_map(|order| order.sections());
                let pictures = sections.flat_map(|section| section.pictures());
                beside.extend(pictures.filter_map(|picture| picture.image.problem()));
            }
            kept.0.clone()
        }
        Found::Nowhere | Found::Wrong => StudioRead::default(),
    };
    let around = Around { gallery: &library.gallery, prove, palette, studio };
    let made = assemble(&mut check, path, root, file, around);
    problems.append(&mut beside);
    made
}
