//! Palettes and studios: found beside or above a design, and read once for a whole catalogue.

use super::bounds::{LARGEST_FILE, text};
use super::files::{PaletteFile, StudioFile, StyleFile};
use super::gallery::Gallery;
use super::order::{self, Ordered};
use super::palette::{self, PaletteRead};
use super::shelf::{Disk, Shelf};
use super::studio::{self, StudioRead};
use super::style::{self, Beside, Fields, HouseStyle};
use super::yaml::{Check, Field, Node, Text, load};
use crate::diagnostic::{Place, Problem, Source, has_errors, sort};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};

type Kept<T> = Mutex<BTreeMap<PathBuf, Arc<(T, Vec<Problem>)>>>;

/// Reads designs that share palettes and studios, each of which is read once. It may be used from
/// several threads; make a new one to see changed files.
pub struct Library<'s> {
    pub(super) shelf: &'s dyn Shelf,
    pub(super) gallery: Gallery<'s>,
    palettes: Kept<PaletteRead>,
    studios: Kept<StudioRead>,
}

impl Default for Library<'static> {
    /// The files on the disk.
    fn default() -> Self {
        Library::new(&Disk)
    }
}

impl<'s> Library<'s> {
    /// The files on a shelf.
    #[must_use]
    pub fn new(shelf: &'s dyn Shelf) -> Library<'s> {
        let gallery = Gallery::new(shelf);
        Library { shelf, gallery, palettes: Mutex::default(), studios: Mutex::default() }
    }

    /// The palette in a file, with its problems.
    pub(super) fn palette(&self, at: &Path, asked_at: Option<Place>) -> Arc<(PaletteRead, Vec<Problem>)> {
        kept(&self.palettes, at, || {
            let mut problems = Vec::new();
            let read = match load::<PaletteFile>(self.shelf, at, "palette", asked_at, &mut problems) {
                Some(loaded) => {
                    palette::check(&mut Check::new(&loaded.source, &mut problems), &loaded.file, &loaded.root)
                }
                None => no_palette(),
            };
            (read, problems)
        })
    }

    /// The studio in a file, with its problems.
    pub(super) fn studio(&self, at: &Path, asked_at: Option<Place>) -> Arc<(StudioRead, Vec<Problem>)> {
        kept(&self.studios, at, || {
            let mut problems = Vec::new();
            let read = match load::<StudioFile>(self.shelf, at, "studio", asked_at, &mut problems) {
                Some(loaded) => {
                    let folder = at.parent().unwrap_or(Path::new(""));
                    let mut check = Check::new(&loaded.source, &mut problems);
                    studio::check(&mut check, &loaded.file, &loaded.root, self.shelf, &self.gallery, folder)
                }
                None => StudioRead::default(),
            };
            (read, problems)
        })
    }
}

impl Library<'_> {
    /// The house style in the file of a folder of templates; nothing where there is no such file.
    ///
    /// # Errors
    /// Everything that is wrong in it.
    pub fn house_style(&self, at: &Path) -> Result<(HouseStyle, Vec<Problem>), Vec<Problem>> {
        // One to start from may say nothing yet.
        let says_nothing = |bytes: Vec<u8>| {
            let text = String::from_utf8_lossy(&bytes);
            let text = text.trim_start_matches('\u{feff}');
            text.lines().all(|line| line.trim().is_empty() || line.trim_start().starts_with('#'))
        };
        if !self.shelf.has(at) || self.shelf.read(at, LARGEST_FILE).is_ok_and(says_nothing) {
            return Ok((HouseStyle::default(), Vec::new()));
        }
        let mut problems = Vec::new();
        let style = load::<StyleFile>(self.shelf, at, "style", None, &mut problems).map(|loaded| {
            let mut check = Check::new(&loaded.source, &mut problems);
            check.keys::<StyleFile>(&loaded.root);
            let beside = self.beside(at);
            let read = style::check(&mut check, &Fields::from(&loaded.file), &loaded.root, &beside);
            problems.extend(read.logo.iter().filter_map(|logo| logo.image.problem()));
            read
        });
        sort(&mut problems);
        match style {
            Some(style) if !has_errors(&problems) => Ok((style, problems)),
            _ => Err(problems),
        }
    }

    /// The section in a Markdown file beside another, which names it at a place.
    ///
    /// # Errors
    /// Everything that is wrong in it.
    pub fn own_section(&self, file: &str, place: &Place, beside: &Path) -> Result<Ordered, Vec<Problem>> {
        order::own_entry(file, place, &self.beside(beside))
    }

    fn beside<'p>(&'p self, file: &'p Path) -> Beside<'p> {
        let folder = file.parent().unwrap_or(Path::new(""));
        Beside { shelf: self.shelf, gallery: &self.gallery, folder }
    }
}

/// What is kept for a path, made when it is first asked for. What went wrong is made again the next
/// time, so that each design is told where it asked.
fn kept<T>(all: &Kept<T>, at: &Path, make: impl FnOnce() -> (T, Vec<Problem>)) -> Arc<(T, Vec<Problem>)> {
    if let Some(found) = all.lock().unwrap_or_else(PoisonError::into_inner).get(at) {
        return Arc::clone(found);
    }
    let made = Arc::new(make());
    if made.1.is_empty() {
        all.lock().unwrap_or_else(PoisonError::into_inner).insert(at.to_owned(), Arc::clone(&made));
    }
    made
}

/// Where a palette or studio is.
pub(super) enum Found {
    At(PathBuf, Option<Place>),
    Nowhere,
    Wrong,
}

/// Finds the palette or studio of a design: the one it names, or the nearest in its folder or above.
pub(super) fn find(
    check: &mut Check<'_>,
    field: &Field<Text>,
    root: &Node,
    key: &str,
    shelf: &dyn Shelf,
    path: &Path,
) -> Found {
    let folder = path.parent().unwrap_or(Path::new(""));
    match (field, check.text(field, root, key, text::PATH)) {
        (_, Some(name)) => {
            let at = folder.join(name);
            let span = root.get(key).span.clone();
            if at == path {
                check.error(
                    span,
                    format!("this design names itself as its {key}"),
                    format!("name the {key} file, as in `{key}: {key}.yaml`"),
                );
                return Found::Wrong;
            }
            Found::At(at, Some(check.place(span)))
        }
        (Field::Missing, None) => shelf
            .folders_of(path)
            .iter()
            .map(|folder| folder.join(format!("{key}.yaml")))
            .find(|at| shelf.has(at))
            .map_or(Found::Nowhere, |at| Found::At(at, None)),
        (_, None) => Found::Wrong,
    }
}

/// In place of a palette that cannot be read.
pub(super) fn no_palette() -> PaletteRead {
    let source = Arc::new(Source { name: String::new(), text: String::new() });
    let nowhere = Place::new(&source, 0..0);
    PaletteRead { unreadable: true, ..PaletteRead::empty(nowhere.clone(), nowhere) }
}
