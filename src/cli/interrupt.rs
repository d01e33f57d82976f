//! Signals. Ctrl-C and a polite kill: files that are being written are removed before the program ends.
//! A limit on the size of files: no end at all, but an error of writing like any other.

use super::say;
use std::collections::BTreeSet;
use std::io;
use std::path::{Path, PathBuf};
use std::sync::{Mutex, MutexGuard, PoisonError};

/// Exit status after an interruption: 128 + 2, as shells report Ctrl-C.
const INTERRUPTED: i32 = 130;

/// Files under way. Locked while one is created, so that none slips past the handler.
static UNDER_WAY: Mutex<BTreeSet<PathBuf>> = Mutex::new(BTreeSet::new());

fn under_way() -> MutexGuard<'static, BTreeSet<PathBuf>> {
    UNDER_WAY.lock().unwrap_or_else(PoisonError::into_inner)
}

/// From now on an interruption cleans up first.
pub(super) fn install() {
    let installed = ctrlc::set_handler(|| {
        // Never unlocked again: no other thread can begin a file between here and the end.
        let files = under_way();
        for file in files.iter() {
            let _ = std::fs::remove_file(file);
        }
        say::message("stopped; nothing is half written, and the same command finishes the rest");
        std::process::exit(INTERRUPTED);
    });
    // Without a handler an interruption leaves a temporary file, which the next run sweeps away.
    drop(installed);
    outlive_the_size_limit();
}

/// Whoever writes past the limit on the size of files is killed, unless the signal is caught: then the
/// writing fails with an error (POSIX, `write`, EFBIG) that is told, and nothing unfinished stays.
fn outlive_the_size_limit() {
    #[cfg(unix)]
    {
        use signal_hook::{consts::SIGXFSZ, flag};
        use std::sync::Arc;
        // The error says it all; the flag is only how a signal is caught in safe code.
        let _ = flag::register(SIGXFSZ, Arc::default());
    }
}

/// A file under way; forgotten when dropped.
#[derive(Debug)]
pub(super) struct UnderWay(PathBuf);

impl Drop for UnderWay {
    fn drop(&mut self) {
        under_way().remove(&self.0);
    }
}

/// Creates a file that an interruption removes again.
pub(super) fn begin<T>(
    create: impl FnOnce() -> io::Result<T>,
    path: impl FnOnce(&T) -> &Path,
) -> io::Result<(T, UnderWay)> {
    let mut files = under_way();
    let made = create()?;
    let name = path(&made).to_path_buf();
    files.insert(name.clone());
    Ok((made, UnderWay(name)))
}
