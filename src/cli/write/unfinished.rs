//! Files that are not finished yet, and those that killed runs have left.

use std::collections::BTreeSet;
use std::ffi::OsStr;
use std::fs::{self, DirEntry, File};
use std::io;
use std::path::{Path, PathBuf};
use std::sync::{Mutex, PoisonError};
use tempfile::{Builder, NamedTempFile};

/// What names of unfinished files begin and end with.
const UNFINISHED: (&str, &str) = (".fringebook-", ".part");

/// Begins a file beside its goal, with what the file that it will replace allows to whom.
pub(super) fn unfinished(folder: &Path, before: Option<&fs::Metadata>) -> io::Result<NamedTempFile> {
    let mut builder = Builder::new();
    builder.prefix(UNFINISHED.0).suffix(UNFINISHED.1).rand_bytes(8);
    let permissions = before.map(fs::Metadata::permissions).or_else(usual_permissions);
    if let Some(permissions) = permissions {
        builder.permissions(permissions);
    }
    let file = builder.tempfile_in(folder)?;
    if let Some(before) = before {
        keep(file.as_file(), before);
    }
    Ok(file)
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

/// Gives a file the owner, the group and the permissions of the one it will replace, as far as the system
/// lets us: a palette that a studio shares stays shared. The user's mask does not count here.
fn keep(file: &File, before: &fs::Metadata) {
    #[cfg(unix)]
    {
        use std::os::unix::fs::{MetadataExt, fchown};
        let (uid, gid) = (before.uid(), before.gid());
        let differs = file.metadata().is_ok_and(|now| (now.uid(), now.gid()) != (uid, gid));
        // Another's file cannot be given back to her, but the group may be one of ours.
        if differs && fchown(file, Some(uid), Some(gid)).is_err() {
            let _ = fchown(file, None, Some(gid));
        }
    }
    // File systems without permissions refuse, and have nothing to lose.
    let _ = file.set_permissions(before.permissions());
}

/// Whether a file's name is that of an unfinished file.
pub(in crate::cli) fn is_unfinished(name: &OsStr) -> bool {
    name.to_str().is_some_and(|n| n.starts_with(UNFINISHED.0) && n.ends_with(UNFINISHED.1))
}

/// Removes the unfinished files that killed runs have left in a folder; those of living runs stay.
pub(in crate::cli) fn sweep(folder: &Path) {
    let Ok(entries) = fs::read_dir(folder) else { return };
    for entry in entries.flatten() {
        if is_unfinished(&entry.file_name()) && is_orphan(&entry) {
            let _ = fs::remove_file(entry.path());
        }
    }
}

/// Sweeps a folder before this run writes into it for the first time.
pub(super) fn sweep_once(folder: &Path) {
    static SWEPT: Mutex<BTreeSet<PathBuf>> = Mutex::new(BTreeSet::new());
    // Locked while sweeping: no other thread begins a file in the folder before it is swept.
    let mut swept = SWEPT.lock().unwrap_or_else(PoisonError::into_inner);
    if swept.insert(folder.to_path_buf()) {
        sweep(folder);
    }
}

fn is_orphan(entry: &DirEntry) -> bool {
    // Only a regular file is opened: a pipe would keep us waiting.
    entry.file_type().is_ok_and(|is| is.is_file())
        && File::open(entry.path()).is_ok_and(|file| file.try_lock().is_ok())
}
