//! Putting a file in place: written beside its final name, flushed to the disk, and renamed, so that
//! under its name stands the old file or the new one, whole, whatever happens.

mod error;
mod goal;
mod unfinished;

use super::interrupt;
use crate::diagnostic::Problem;
use goal::{Goal, make_folder};
use std::fs::File;
use std::io::{self, ErrorKind, Write};
use std::path::Path;
use tempfile::NamedTempFile;
use unfinished::{sweep_once, unfinished};

pub(super) use error::{Elsewhere, WriteError};
pub(super) use goal::folder_of;
pub(super) use unfinished::{is_unfinished, sweep};

/// Puts a file in place, whole or not at all, with the permissions of the one it replaces. Its folder is
/// made when it is missing, and swept of what killed runs have left.
///
/// # Errors
/// When the system does not let it be written, or no regular file stands there; then whatever stood
/// there stands there still.
pub(super) fn whole(path: &Path, bytes: &[u8]) -> Result<(), WriteError> {
    put(path, &Goal::of(path)?, bytes, |file, goal| file.persist(goal).map(drop).map_err(|e| e.error))
}

/// Puts a new file in place and says so; says no where anything stands under its name already, be it
/// since this very moment.
///
/// # Errors
/// When the system does not let it be written.
pub(super) fn fresh(path: &Path, bytes: &[u8]) -> Result<bool, WriteError> {
    if path.symlink_metadata().is_ok() {
        return Ok(false);
    }
    let goal = Goal { path: path.to_path_buf(), before: None };
    match put(path, &goal, bytes, |file, goal| file.persist_noclobber(goal).map(drop).map_err(|e| e.error)) {
        Err(error) if error.is_there_already() => Ok(false),
        other => other.map(|()| true),
    }
}

/// Removes a file; a link is removed, not what it leads to. One that is gone already is no problem.
///
/// # Errors
/// When the system does not let it be removed.
pub(super) fn remove(path: &Path) -> Result<(), Problem> {
    match std::fs::remove_file(path) {
        Err(e) if e.kind() != ErrorKind::NotFound => {
            Err(Problem::error(format!("{} cannot be removed: {e}", path.display()))
                .hint("remove it by hand, or change who may write into its folder"))
        }
        _ => Ok(()),
    }
}

/// What keeps a file from being put under a path, as far as that can be seen beforehand.
pub(super) fn obstacle(path: &Path) -> Option<Problem> {
    Goal::of(path).err().map(|e| e.problem(Elsewhere::Out))
}

/// Does some work on a file while no other run of the program works on one of its folder: reading it,
/// changing it and writing it anew are one step then.
pub(super) fn alone<T>(path: &Path, work: impl FnOnce() -> T) -> T {
    // The folder is locked, for the file itself is another one after each change. The system lets go of
    // the lock when we end, however we end. Where folders cannot be locked (Windows, some networks), the
    // last one to write wins, as with any editor.
    let folder = Goal::of(path).map_or_else(|_| folder_of(path).to_path_buf(), |g| g.folder().to_path_buf());
    let folder = File::open(folder);
    let _lock = folder.as_ref().map(File::lock);
    work()
}

type Persist = fn(NamedTempFile, &Path) -> io::Result<()>;

fn put(path: &Path, goal: &Goal, bytes: &[u8], persist: Persist) -> Result<(), WriteError> {
    make_folder(path, goal.folder())?;
    sweep_once(goal.folder());
    let placed = match place(goal, bytes, persist) {
        // A sweep by another run may take a file in the instant between its making and its locking.
        Err(e) if e.kind() == ErrorKind::NotFound => place(goal, bytes, persist),
        other => other,
    };
    placed.map_err(|e| WriteError::from_io(path, e))
}

fn place(goal: &Goal, bytes: &[u8], persist: Persist) -> io::Result<()> {
    let begun = || unfinished(goal.folder(), goal.before.as_ref());
    let (mut file, _under_way) = interrupt::begin(begun, NamedTempFile::path)?;
    // The lock says that somebody is still writing; the system lets go of it when that one dies.
    // Where locks are unknown, sweeping finds none to take either.
    let _ = file.as_file().lock();
    file.write_all(bytes)?;
    file.as_file().sync_all()?;
    persist(file, &goal.path)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::fs;

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
        let problem = whole(&path, b"new").expect_err("refused").problem(Elsewhere::Out);
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
        let problem = whole(&path, b"new").expect_err("refused").problem(Elsewhere::Out);
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
        let problem = whole(&path, b"new").expect_err("refused").problem(Elsewhere::Out);
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
    fn a_link_to_a_file_that_is_not_there_yet_stays_a_link() {
        let folder = tempfile::tempdir().expect("a folder");
        let (real, link) = (folder.path().join("real.pdf"), folder.path().join("heron.pdf"));
        std::os::unix::fs::symlink("real.pdf", &link).expect("linked");
        whole(&link, b"new").expect("written");
        assert_eq!(fs::read(&real).expect("read"), b"new");
        assert!(fs::symlink_metadata(&link).expect("there").is_symlink());
    }

    #[cfg(unix)]
    #[test]
    fn a_link_that_leads_nowhere_stays_and_is_named() {
        use std::os::unix::fs::symlink;
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("heron.pdf");
        symlink("/nowhere/at/all/heron.pdf", &path).expect("linked");
        let circle = folder.path().join("circle.pdf");
        symlink("circle.pdf", &circle).expect("linked");
        let books = folder.path().join("books");
        symlink("/nowhere/at/all", &books).expect("linked");
        let inside = books.join("heron.pdf");
        for (path, why) in [
            (&path, format!("{} is a link to /nowhere/at/all/heron.pdf, which is not there", path.display())),
            (&circle, "it is a link to itself".to_owned()),
            (&inside, format!("{} is a link to /nowhere/at/all, which is not there", books.display())),
        ] {
            let problem = whole(path, b"new").expect_err("refused").problem(Elsewhere::Out);
            assert_eq!(problem.message, format!("cannot write {}: {why}", path.display()));
        }
        assert_eq!(names_in(folder.path()), ["books", "circle.pdf", "heron.pdf"]);
        assert!([path, circle, books].iter().all(|p| fs::symlink_metadata(p).is_ok_and(|m| m.is_symlink())));
    }

    #[cfg(unix)]
    #[test]
    fn only_regular_files_are_replaced() {
        use std::os::unix::{fs::symlink, net::UnixListener};
        let folder = tempfile::tempdir().expect("a folder");
        let socket = folder.path().join("heron.pdf");
        let _listener = UnixListener::bind(&socket).expect("a socket");
        // Not a link to a device, which a program that fails this test might replace.
        let link = folder.path().join("orchard.pdf");
        symlink(&socket, &link).expect("linked");
        for path in [&socket, &link] {
            let problem = whole(path, b"new").expect_err("refused").problem(Elsewhere::Out);
            assert_eq!(
                problem.message,
                format!(
                    "cannot write {}: what stands there is no file, but a pipe, a socket or a device",
                    path.display()
                )
            );
        }
        assert!(!fs::metadata(&link).expect("the socket").is_file());
        let problem = whole(Path::new("/dev/null/heron.pdf"), b"new").expect_err("refused");
        assert_eq!(
            problem.problem(Elsewhere::Out).message,
            "cannot write /dev/null/heron.pdf: /dev/null is a file, not a folder"
        );
    }

    #[test]
    fn a_name_too_long_for_a_file_is_said() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join(format!("{}.pdf", "heron".repeat(100)));
        let problem = whole(&path, b"new").expect_err("refused").problem(Elsewhere::Out);
        assert_eq!(
            problem.message,
            format!("cannot write {}: the name is longer than the system takes", path.display())
        );
    }

    #[test]
    fn a_fresh_file_never_replaces_another_not_even_of_the_same_moment() {
        let folder = tempfile::tempdir().expect("a folder");
        for round in 0..50 {
            let path = folder.path().join(format!("heron-{round}.yaml"));
            let texts = ["first", "second", "third"];
            let write = |text: &str| fresh(&path, text.as_bytes()).expect("no error");
            let came: Vec<bool> = std::thread::scope(|scope| {
                let runs: Vec<_> = texts.iter().map(|text| scope.spawn(|| write(text))).collect();
                runs.into_iter().map(|run| run.join().expect("no panic")).collect()
            });
            let winner = came.iter().position(|won| *won).expect("one has written it");
            assert_eq!(came.iter().filter(|won| **won).count(), 1, "round {round}: {came:?}");
            assert_eq!(fs::read_to_string(&path).expect("read"), texts[winner]);
        }
        assert!(names_in(folder.path()).iter().all(|name| name.starts_with("heron-")));
    }

    #[cfg(unix)]
    #[test]
    fn the_permissions_of_the_old_file_are_kept() {
        use std::os::unix::fs::PermissionsExt;
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("heron.pdf");
        whole(&path, b"old").expect("written");
        // Fewer than the user's mask leaves, and more.
        for wanted in [0o640, 0o664, 0o666, 0o600] {
            fs::set_permissions(&path, fs::Permissions::from_mode(wanted)).expect("changed");
            whole(&path, b"new").expect("written");
            let mode = fs::metadata(&path).expect("there").permissions().mode() & 0o777;
            assert_eq!(mode, wanted, "{mode:o} for {wanted:o}");
        }
    }

    #[cfg(unix)]
    #[test]
    fn the_owner_and_the_group_of_the_old_file_are_kept_where_that_may_be() {
        use std::os::unix::fs::{MetadataExt, chown};
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("palette.yaml");
        whole(&path, b"old").expect("written");
        if chown(&path, Some(4711), Some(4712)).is_err() {
            eprintln!("skipped: only root may give files away");
            return;
        }
        whole(&path, b"new").expect("written");
        let now = fs::metadata(&path).expect("there");
        assert_eq!((now.uid(), now.gid()), (4711, 4712));
    }

    #[test]
    fn what_killed_runs_left_is_swept_away_before_writing() {
        let folder = tempfile::tempdir().expect("a folder");
        fs::write(folder.path().join(".fringebook-dead.part"), b"half").expect("written");
        whole(&folder.path().join("heron.pdf"), b"new").expect("written");
        assert_eq!(names_in(folder.path()), ["heron.pdf"]);
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
