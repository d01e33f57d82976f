//! Where a file really goes: the end of its links, if only a regular file or nothing stands there.

use super::error::{Cause, WriteError};
use std::fs;
use std::io::ErrorKind;
use std::path::{Path, PathBuf};

/// Links that are followed one after the other: as many as the kernel follows (Linux, `path_resolution(7)`).
const MOST_LINKS: usize = 40;

/// Where a file goes.
#[derive(Debug)]
pub(super) struct Goal {
    /// Its path, which is no link.
    pub(super) path: PathBuf,
    /// What stands there now, if anything does.
    pub(super) before: Option<fs::Metadata>,
}

/// The folder a file stands in.
pub(in crate::cli) fn folder_of(path: &Path) -> &Path {
    match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    }
}

impl Goal {
    /// Where a file goes that is asked for under this path. A link stays a link: what it leads to is
    /// replaced, or made where only its folder is there.
    ///
    /// # Errors
    /// Something stands there that is not to be replaced: a folder, a pipe, a device, a protected file.
    pub(super) fn of(asked: &Path) -> Result<Goal, WriteError> {
        let wrong = |cause| Err(WriteError::new(asked, cause));
        let mut path = asked.to_path_buf();
        let mut links = 0;
        while let Ok(to) = fs::read_link(&path) {
            links += 1;
            if links > MOST_LINKS {
                return wrong(Cause::LinkInACircle);
            }
            path = path.parent().unwrap_or(Path::new("")).join(to);
        }
        let before = match fs::metadata(&path) {
            Ok(before) if before.is_dir() => return wrong(Cause::FolderInTheWay),
            Ok(before) if !before.is_file() => return wrong(Cause::NotAFile),
            Ok(before) if before.permissions().readonly() => return wrong(Cause::Protected),
            Ok(before) => Some(before),
            Err(e) if e.kind() == ErrorKind::InvalidFilename => return wrong(Cause::NameTooLong),
            // Anything else that is wrong shows again when the folder is made or the file is written.
            Err(_) => None,
        };
        if links > 0 && !folder_of(&path).is_dir() {
            return wrong(Cause::DanglingLink { link: asked.to_path_buf(), to: path });
        }
        Ok(Goal { path, before })
    }

    /// Its folder.
    pub(super) fn folder(&self) -> &Path {
        folder_of(&self.path)
    }
}

/// Makes the folder of a file where it is missing.
///
/// # Errors
/// Something else stands in its place, or the system does not let it be made.
pub(super) fn make_folder(asked: &Path, folder: &Path) -> Result<(), WriteError> {
    for above in folder.ancestors() {
        match (fs::metadata(above), fs::read_link(above)) {
            (Ok(is), _) if !is.is_dir() => {
                return Err(WriteError::new(asked, Cause::NoFolder(above.to_path_buf())));
            }
            (Err(_), Ok(to)) => {
                let link = above.to_path_buf();
                return Err(WriteError::new(asked, Cause::DanglingLink { link, to }));
            }
            _ => {}
        }
    }
    fs::create_dir_all(folder).map_err(|e| WriteError::from_io(asked, e))
}
