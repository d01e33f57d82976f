//! Putting a file in place: written beside its final name, flushed to the disk, and renamed, so that
//! under its name stands the old file or the new one, whole, whatever happens.

use super::interrupt;
use crate::diagnostic::{Problem, Severity};
use std::ffi::OsStr;
use std::fs::{self, File};
use std::io::{self, ErrorKind, Write};
use std::path::{Path, PathBuf};
use tempfile::{Builder, NamedTempFile};

/// What names of unfinished files begin and end with.
const UNFINISHED: (&str, &str) = (".fringebook-", ".part");

/// Why a file could not be put in place.
#[derive(Debug)]
pub(super) struct WriteError {
    path: PathBuf,
    cause: Cause,
}

/// One cause, one message.
#[derive(Debug)]
enum Cause {
    /// A folder stands where the file should go.
    FolderInTheWay,
    /// The folder to write in is a file.
    NoFolder(PathBuf),
    /// The file there is write-protected.
    Protected,
    /// The folder does not let us write.
    Forbidden,
    /// The disk, or the folder's file system, takes no writing at all.
    ReadOnly,
    /// No room left.
    Full,
    /// Larger than this user or file system may write.
    TooLarge,
    /// Another program holds the file.
    Busy,
    /// Whatever else the system says.
    Other(io::Error),
}

impl WriteError {
    fn new(path: &Path, cause: Cause) -> WriteError {
        WriteError { path: path.to_path_buf(), cause }
    }

    fn from_io(path: &Path, error: io::Error) -> WriteError {
        let cause = match error.kind() {
            ErrorKind::PermissionDenied if cfg!(windows) => Cause::Busy,
            ErrorKind::PermissionDenied => Cause::Forbidden,
            ErrorKind::ReadOnlyFilesystem => Cause::ReadOnly,
            ErrorKind::StorageFull | ErrorKind::QuotaExceeded => Cause::Full,
            ErrorKind::FileTooLarge => Cause::TooLarge,
            ErrorKind::ResourceBusy | ErrorKind::ExecutableFileBusy => Cause::Busy,
            ErrorKind::IsADirectory => Cause::FolderInTheWay,
            ErrorKind::NotADirectory => Cause::NoFolder(path.parent().unwrap_or(path).to_path_buf()),
            _ => Cause::Other(error),
        };
        WriteError::new(path, cause)
    }

    /// What to tell the user.
    pub(super) fn problem(&self) -> Problem {
        let path = self.path.display();
        let (why, hint) = match &self.cause {
            Cause::FolderInTheWay => (
                "a folder of that name is in the way".to_owned(),
                "rename the folder, or write elsewhere with --out FOLDER".to_owned(),
            ),
            Cause::NoFolder(folder) => {
                (format!("{} is a file, not a folder", folder.display()), "give a folder to --out".to_owned())
            }
            Cause::Protected => (
                "the file there is write-protected".to_owned(),
                "take its protection off, or write elsewhere with --out FOLDER".to_owned(),
            ),
            Cause::Forbidden => (
                "the folder does not let you write in it".to_owned(),
                "change the folder's permissions, or write elsewhere with --out FOLDER".to_owned(),
            ),
            Cause::ReadOnly => {
                ("the disk is read-only".to_owned(), "write elsewhere with --out FOLDER".to_owned())
            }
            Cause::Full => (
                "the disk is full".to_owned(),
                "make room and run the same command again; what stood there before is untouched".to_owned(),
            ),
            Cause::TooLarge => (
                "the file would be larger than the system lets you write".to_owned(),
                "raise the limit and run the same command again; what stood there before is untouched"
                    .to_owned(),
            ),
            Cause::Busy => (
                "another program holds the file open".to_owned(),
                "close it there and run the same command again".to_owned(),
            ),
            Cause::Other(error) => (error.to_string(), String::new()),
        };
        Problem {
            severity: Severity::Error,
            place: None,
            message: format!("cannot write {path}: {why}"),
            hint,
        }
    }
}

/// Puts a file in place, whole or not at all. Its folder is made when it is missing.
///
/// # Errors
/// When the system does not let it be written; then whatever stood there stands there still.
pub(super) fn whole(path: &Path, bytes: &[u8]) -> Result<(), WriteError> {
    // A link stays a link: what it points to is replaced.
    let goal = fs::canonicalize(path).unwrap_or_else(|_| path.to_path_buf());
    let before = fs::metadata(&goal).ok();
    if let Some(before) = &before {
        if before.is_dir() {
            return Err(WriteError::new(path, Cause::FolderInTheWay));
        }
        if before.permissions().readonly() {
            return Err(WriteError::new(path, Cause::Protected));
        }
    }
    let folder = folder_of(&goal);
    make_folder(path, folder)?;
    let placed = match place(&goal, folder, bytes, before.as_ref()) {
        // A sweep by another run may take a file in the instant between its making and its locking.
        Err(e) if e.kind() == ErrorKind::NotFound => place(&goal, folder, bytes, before.as_ref()),
        other => other,
    };
    placed.map_err(|e| WriteError::from_io(path, e))
}

/// The folder a file stands in.
pub(super) fn folder_of(path: &Path) -> &Path {
    match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    }
}

fn make_folder(path: &Path, folder: &Path) -> Result<(), WriteError> {
    if let Some(file) = folder.ancestors().find(|a| a.is_file()) {
        return Err(WriteError::new(path, Cause::NoFolder(file.to_path_buf())));
    }
    fs::create_dir_all(folder).map_err(|e| WriteError::from_io(path, e))
}

fn place(goal: &Path, folder: &Path, bytes: &[u8], before: Option<&fs::Metadata>) -> io::Result<()> {
    let (mut file, _under_way) = interrupt::begin(|| unfinished(folder, before), NamedTempFile::path)?;
    // The lock says that somebody is still writing; the system lets go of it when that one dies.
    // Where locks are unknown, sweeping finds none to take either.
    let _ = file.as_file().lock();
    file.write_all(bytes)?;
    file.as_file().sync_all()?;
    file.persist(goal).map_err(|e| e.error)?;
    Ok(())
}

fn unfinished(folder: &Path, before: Option<&fs::Metadata>) -> io::Result<NamedTempFile> {
    let mut builder = Builder::new();
    builder.prefix(UNFINISHED.0).suffix(UNFINISHED.1).rand_bytes(8);
    let permissions = before.map(fs::Metadata::permissions).or_else(usual_permissions);
    if let Some(permissions) = permissions {
        builder.permissions(permissions);
    }
    builder.tempfile_in(folder)
}

/// What a new file may: everything that the user's mask leaves, where there is such a mask.
fn usual_permissions() -> Option<fs::Permissions> {
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        Some(fs::Permissions::from_mode(0o666))
    }
    #[cfg(not(unix))]
    None
}

/// Whether a file's name is that of an unfinished file.
pub(super) fn is_unfinished(name: &OsStr) -> bool {
    name.to_str().is_some_and(|n| n.starts_with(UNFINISHED.0) && n.ends_with(UNFINISHED.1))
}

/// Removes the unfinished files that killed runs have left in a folder; those of living runs stay.
pub(super) fn sweep(folder: &Path) {
    let Ok(entries) = fs::read_dir(folder) else { return };
    for entry in entries.flatten() {
        if is_unfinished(&entry.file_name()) && is_orphan(&entry.path()) {
            let _ = fs::remove_file(entry.path());
        }
    }
}

fn is_orphan(path: &Path) -> bool {
    File::open(path).is_ok_and(|file| file.try_lock().is_ok())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn names_in(folder: &Path) -> Vec<String> {
        let mut names: Vec<String> = fs::read_dir(folder)
            .expect("the folder is there")
            .map(|e| e.expect("an entry").file_name().to_string_lossy().into_owned())
            .collect();
        names.sort();
        names
    }

    #[test]
    fn a_file_is_replaced_whole_and_nothing_is_left_beside_it() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("deep/heron.pdf");
        whole(&path, b"old").expect("written");
        whole(&path, b"new").expect("replaced");
        assert_eq!(fs::read(&path).expect("read"), b"new");
        assert_eq!(names_in(&folder.path().join("deep")), ["heron.pdf"]);
    }

    #[test]
    fn a_folder_in_the_way_is_named() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("heron.pdf");
        fs::create_dir(&path).expect("made");
        let problem = whole(&path, b"new").expect_err("refused").problem();
        assert_eq!(
            problem.message,
            format!("cannot write {}: a folder of that name is in the way", path.display())
        );
    }

    #[test]
    fn a_file_in_place_of_the_folder_is_named() {
        let folder = tempfile::tempdir().expect("a folder");
        let file = folder.path().join("out");
        fs::write(&file, b"a letter").expect("written");
        let path = file.join("heron.pdf");
        let problem = whole(&path, b"new").expect_err("refused").problem();
        assert_eq!(
            problem.message,
            format!("cannot write {}: {} is a file, not a folder", path.display(), file.display())
        );
        assert_eq!(fs::read(&file).expect("read"), b"a letter");
    }

    #[test]
    fn a_protected_file_stays() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("heron.pdf");
        fs::write(&path, b"old").expect("written");
        let mut permissions = fs::metadata(&path).expect("there").permissions();
        permissions.set_readonly(true);
        fs::set_permissions(&path, permissions).expect("protected");
        let problem = whole(&path, b"new").expect_err("refused").problem();
        assert_eq!(
            problem.message,
            format!("cannot write {}: the file there is write-protected", path.display())
        );
        assert_eq!(fs::read(&path).expect("read"), b"old");
    }

    #[cfg(unix)]
    #[test]
    fn a_link_stays_a_link() {
        let folder = tempfile::tempdir().expect("a folder");
        let real = folder.path().join("real.pdf");
        let link = folder.path().join("heron.pdf");
        fs::write(&real, b"old").expect("written");
        std::os::unix::fs::symlink(&real, &link).expect("linked");
        whole(&link, b"new").expect("written");
        assert_eq!(fs::read(&real).expect("read"), b"new");
        assert!(fs::symlink_metadata(&link).expect("there").is_symlink());
    }

    #[cfg(unix)]
    #[test]
    fn the_permissions_of_the_old_file_are_kept() {
        use std::os::unix::fs::PermissionsExt;
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("heron.pdf");
        whole(&path, b"old").expect("written");
        fs::set_permissions(&path, fs::Permissions::from_mode(0o640)).expect("changed");
        whole(&path, b"new").expect("written");
        let mode = fs::metadata(&path).expect("there").permissions().mode() & 0o777;
        assert_eq!(mode, 0o640);
    }

    #[test]
    fn a_sweep_takes_orphans_and_leaves_what_is_being_written() {
        let folder = tempfile::tempdir().expect("a folder");
        fs::write(folder.path().join(".fringebook-dead.part"), b"half").expect("written");
        fs::write(folder.path().join("notes.part"), b"mine").expect("written");
        let alive = unfinished(folder.path(), None).expect("begun");
        alive.as_file().lock().expect("locked");
        sweep(folder.path());
        let alive_name = alive.path().file_name().expect("a name").to_string_lossy().into_owned();
        assert_eq!(names_in(folder.path()), [alive_name, "notes.part".to_owned()]);
    }
}
