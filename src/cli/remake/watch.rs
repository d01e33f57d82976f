//! `remake --watch`: does it all again whenever a file is saved.

use super::super::commands::Ending;
use super::super::say;
use super::{Pass, RemakeArgs, once};
use crate::design::endings;
use crate::diagnostic::Problem;
use notify::{Event, EventKind, RecommendedWatcher, RecursiveMode, Watcher};
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, channel};
use std::time::Duration;

/// Editors save in several steps (write, rename, change the mode): a pass begins when nothing has
/// happened for this long.
const QUIET: Duration = Duration::from_millis(150);

/// Passes over the catalogue until it is stopped.
pub(super) fn run(args: &RemakeArgs) -> Ending {
    let (send, receive) = channel();
    let mut watcher = match notify::recommended_watcher(send) {
        Ok(watcher) => watcher,
        Err(e) => return cannot(&args.folder, &e),
    };
    // Watched before the first pass, so that nothing saved during it is missed.
    let roots = std::iter::once(&args.folder).chain(&args.templates);
    for root in roots {
        if let Err(e) = watcher.watch(root, RecursiveMode::Recursive) {
            return cannot(root, &e);
        }
    }
    let mut outside = BTreeSet::new();
    let mut pass = once(args);
    loop {
        watch_outside(args, &mut watcher, &pass, &mut outside);
        say::message(&format!("watching {}; Ctrl-C ends it", args.folder.display()));
        loop {
            if !wait(&receive) {
                return pass.ending;
            }
            pass = once(args);
            if pass.eventful {
                break;
            }
        }
    }
}

fn cannot(path: &Path, error: &notify::Error) -> Ending {
    say::problem(&Problem::error(format!("{} cannot be watched: {error}", path.display())));
    Ending::NotAll
}

/// Watches the folders of palettes and studio files that stand above the catalogue.
fn watch_outside(
    args: &RemakeArgs,
    watcher: &mut RecommendedWatcher,
    pass: &Pass,
    outside: &mut BTreeSet<PathBuf>,
) {
    for file in &pass.read {
        let Some(folder) = file.parent() else { continue };
        let folder = if folder.as_os_str().is_empty() { Path::new(".") } else { folder };
        let (Ok(folder), Ok(catalogue)) = (folder.canonicalize(), args.folder.canonicalize()) else {
            continue;
        };
        if !folder.starts_with(&catalogue) && outside.insert(folder.clone()) {
            // A folder that cannot be watched is still read in every pass.
            let _ = watcher.watch(&folder, RecursiveMode::NonRecursive);
        }
    }
}

/// Waits for a change and then for quiet; false when there is nothing to wait for any more.
fn wait(events: &Receiver<notify::Result<Event>>) -> bool {
    loop {
        match events.recv() {
            Ok(Ok(event)) if !matters(&event) => {}
            Ok(_) => break,
            Err(_) => return false,
        }
    }
    while events.recv_timeout(QUIET).is_ok() {}
    true
}

/// Whether a booklet can depend on what has happened. Booklets themselves are left out: they are ours.
fn matters(event: &Event) -> bool {
    let is_change = !matches!(event.kind, EventKind::Access(_));
    is_change
        && event.paths.iter().any(|path| match path.extension().and_then(|e| e.to_str()) {
            Some(ending) => {
                let mut watched = endings::TEXTS.iter().chain(&endings::IMAGES);
                watched.any(|known| ending.eq_ignore_ascii_case(known))
            }
            // A folder moved in or out.
            None => true,
        })
}
