//! Where files are read from: the disk, or texts in memory.

use crate::diagnostic::Problem;
use std::collections::BTreeMap;
use std::fs::File;
use std::io::{self, Read as _};
use std::path::{Path, PathBuf};

/// Where files are read from.
pub trait Shelf: Sync {
    /// The bytes of a file.
    ///
    /// # Errors
    /// It is no file with at most so many bytes, or cannot be read.
    fn read(&self, path: &Path, most: u64) -> Result<Vec<u8>, Unread>;
    /// Whether a file is there.
    fn has(&self, path: &Path) -> bool;
    /// The folder of a file and the folders above it, nearest first.
    fn folders_of(&self, path: &Path) -> Vec<PathBuf>;
}

/// Why a file's bytes cannot be had.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Unread {
    /// It is not there.
    Missing,
    /// It is a folder.
    Folder,
    /// It is a device, a pipe or the like, and may never end.
    NotAFile,
    /// It may not be read.
    Forbidden,
    /// It has this many bytes.
    TooLarge(u64),
    /// What the system says.
    Other(io::ErrorKind),
}

impl Unread {
    /// As told of a file that another names: `what` it is to be, and what to do when it has more than so many bytes.
    pub(super) fn problem(&self, what: &str, name: &str, most: u64, smaller: &str) -> Problem {
        let (unit, of) = if most < 1_000_000 { ("kB", 1000) } else { ("MB", 1_000_000) };
        let (message, hint) = match self {
            Unread::Missing => (
                format!("there is no {what} `{name}`"),
                "check the name; it is looked for beside the file that names it".to_owned(),
            ),
            Unread::Folder => {
                (format!("`{name}` is a folder, not a {what}"), format!("give the {what}'s name in it"))
            }
            Unread::NotAFile => (
                format!("`{name}` is not a file that can be read to its end"),
                format!("name a {what} that is saved as a file"),
            ),
            Unread::Forbidden => {
                (format!("the {what} `{name}` may not be read"), "change who may read it".to_owned())
            }
            Unread::TooLarge(size) => (
                format!(
                    "the {what} `{name}` has {} {unit}; at most {} {unit} can be used",
                    size.div_ceil(of),
                    most / of
                ),
                smaller.to_owned(),
            ),
            Unread::Other(kind) => (
                format!("the {what} `{name}` cannot be read: {kind}"),
                "check that the disk is there and the file is whole".to_owned(),
            ),
        };
        Problem::error(message).hint(hint)
    }
}

impl From<io::Error> for Unread {
    fn from(error: io::Error) -> Unread {
        match error.kind() {
            io::ErrorKind::NotFound => Unread::Missing,
            io::ErrorKind::PermissionDenied => Unread::Forbidden,
            other => Unread::Other(other),
        }
    }
}

/// The files on the disk.
#[derive(Clone, Copy, Debug, Default)]
pub struct Disk;

impl Shelf for Disk {
    fn read(&self, path: &Path, most: u64) -> Result<Vec<u8>, Unread> {
        regular_file(path, most)
    }

    fn has(&self, path: &Path) -> bool {
        path.is_file()
    }

    fn folders_of(&self, path: &Path) -> Vec<PathBuf> {
        let own = path.parent().unwrap_or(Path::new(""));
        let mut folders = vec![own.to_owned()];
        let here = if own.as_os_str().is_empty() { Path::new(".") } else { own };
        let whole = here.canonicalize().unwrap_or_default();
        let working = std::env::current_dir().and_then(|d| d.canonicalize()).unwrap_or_default();
        let above = whole.ancestors().skip(1);
        folders.extend(
            above.map(
                |folder| if own.is_absolute() { folder.to_owned() } else { seen_from(&working, folder) },
            ),
        );
        folders
    }
}

/// The bytes of a regular file. Anything else is not even opened: a pipe waits for whoever writes into it,
/// and a device may never end.
///
/// # Errors
/// It is no file with at most so many bytes, or cannot be read.
pub fn regular_file(path: &Path, most: u64) -> Result<Vec<u8>, Unread> {
    let there = std::fs::metadata(path)?;
    match there.len() {
        _ if there.is_dir() => return Err(Unread::Folder),
        _ if !there.is_file() => return Err(Unread::NotAFile),
        size if size > most => return Err(Unread::TooLarge(size)),
        _ => {}
    }
    // It may grow while it is read.
    let mut bytes = Vec::with_capacity(usize::try_from(there.len()).unwrap_or(0));
    File::open(path)?.take(most.saturating_add(1)).read_to_end(&mut bytes)?;
    within(bytes, most)
}

/// Bytes, if they are not too many.
fn within(bytes: Vec<u8>, most: u64) -> Result<Vec<u8>, Unread> {
    let size = bytes.len() as u64;
    if size > most { Err(Unread::TooLarge(size)) } else { Ok(bytes) }
}

/// A folder as one who works in another would write it.
fn seen_from(working: &Path, folder: &Path) -> PathBuf {
    match (folder.strip_prefix(working), working.strip_prefix(folder)) {
        (Ok(below), _) => below.to_owned(),
        (_, Ok(down)) => down.components().map(|_| "..").collect(),
        _ => folder.to_owned(),
    }
}

/// Files held in memory, for tests and examples.
#[derive(Clone, Debug, Default)]
pub struct Texts(BTreeMap<PathBuf, Vec<u8>>);

impl Texts {
    /// Files by path.
    #[must_use]
    pub fn new<P: Into<PathBuf>, B: Into<Vec<u8>>>(files: impl IntoIterator<Item = (P, B)>) -> Texts {
        Texts(files.into_iter().map(|(path, bytes)| (path.into(), bytes.into())).collect())
    }
}

impl Shelf for Texts {
    fn read(&self, path: &Path, most: u64) -> Result<Vec<u8>, Unread> {
        within(self.0.get(path).cloned().ok_or(Unread::Missing)?, most)
    }

    fn has(&self, path: &Path) -> bool {
        self.0.contains_key(path)
    }

    fn folders_of(&self, path: &Path) -> Vec<PathBuf> {
        path.ancestors().skip(1).map(Path::to_owned).collect()
    }
}
