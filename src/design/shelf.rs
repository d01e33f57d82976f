//! Where files are read from: the disk, or texts in memory.

use std::collections::BTreeMap;
use std::io;
use std::path::{Path, PathBuf};

/// Where files are read from.
pub trait Shelf: Sync {
    /// The bytes of a file.
    ///
    /// # Errors
    /// It is not there, or cannot be read.
    fn read(&self, path: &Path) -> io::Result<Vec<u8>>;
    /// Whether a file is there.
    fn has(&self, path: &Path) -> bool;
    /// The folder of a file and the folders above it, nearest first.
    fn folders_of(&self, path: &Path) -> Vec<PathBuf>;
}

/// The files on the disk.
#[derive(Clone, Copy, Debug, Default)]
pub struct Disk;

impl Shelf for Disk {
    fn read(&self, path: &Path) -> io::Result<Vec<u8>> {
        let size = std::fs::metadata(path)?;
        if size.is_dir() {
            return Err(io::Error::new(io::ErrorKind::IsADirectory, "is a folder"));
        }
        if !size.is_file() {
            return Err(io::Error::new(io::ErrorKind::InvalidInput, "is no regular file"));
        }
        if size.len() > super::source::LARGEST_FILE as u64 {
            return Err(io::Error::new(io::ErrorKind::FileTooLarge, "is too large"));
        }
        std::fs::read(path)
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
    fn read(&self, path: &Path) -> io::Result<Vec<u8>> {
        self.0.get(path).cloned().ok_or_else(|| io::Error::new(io::ErrorKind::NotFound, "is not there"))
    }

    fn has(&self, path: &Path) -> bool {
        self.0.contains_key(path)
    }

    fn folders_of(&self, path: &Path) -> Vec<PathBuf> {
        path.ancestors().skip(1).map(Path::to_owned).collect()
    }
}
