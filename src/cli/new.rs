//! `new`: a commented design file to start from.

use super::commands::Ending;
use super::{names, say, write};
use crate::design::{starter, starter_palette, starter_studio};
use crate::diagnostic::Problem;
use clap::Args;
use std::fs;
use std::path::{Path, PathBuf};

/// What `new` is told.
#[derive(Debug, Args)]
#[command(after_help = "Examples:
  fringebook new \"Heron at Dusk\"             writes heron-at-dusk.yaml
  fringebook new \"Heron at Dusk\" --in birds  writes birds/heron-at-dusk.yaml

Where no palette.yaml or studio.yaml stands in the folder or above it, one to start from is
written too. Nothing is ever overwritten.")]
pub(super) struct NewArgs {
    /// The design's title
    #[arg(value_name = "NAME")]
    name: String,
    /// Write into this folder, made if need be
    #[arg(long = "in", value_name = "FOLDER", default_value = ".", hide_default_value = true)]
    folder: PathBuf,
}

/// Writes the files.
pub(super) fn run(args: &NewArgs) -> Ending {
    let slug = names::words(&args.name);
    if slug.is_empty() {
        say::problem(
            &Problem::error(format!("`{}` has no letter to call a file after", args.name))
                .hint("give the design's title, as in `fringebook new \"Heron at Dusk\"`"),
        );
        return Ending::WrongUse;
    }
    let file = format!("{slug}.yaml");
    let path = in_folder(&args.folder, &file);
    if path.symlink_metadata().is_ok() {
        say::problem(
            &Problem::error(format!("{} is there already, and is left as it is", path.display()))
                .hint("choose another name, or write into another folder with --in FOLDER"),
        );
        return Ending::NotAll;
    }
    let mut files = vec![(path, starter(&args.name))];
    for (name, text) in [("palette.yaml", starter_palette()), ("studio.yaml", starter_studio())] {
        if !stands_above(&args.folder, name) {
            files.push((in_folder(&args.folder, name), text));
        }
    }
    for (path, text) in &files {
        if let Err(e) = write::whole(path, text.as_bytes()) {
            say::problem(&e.problem());
            return Ending::NotAll;
        }
        say::result(&path.display().to_string());
    }
    Ending::Done
}

/// A file of a folder; one of this folder without `./` before it.
fn in_folder(folder: &Path, name: &str) -> PathBuf {
    if folder == Path::new(".") { PathBuf::from(name) } else { folder.join(name) }
}

/// Whether a file of this name stands in the folder or above it.
fn stands_above(folder: &Path, name: &str) -> bool {
    let whole = std::path::absolute(folder).unwrap_or_else(|_| folder.to_path_buf());
    whole.ancestors().any(|above| fs::metadata(above.join(name)).is_ok_and(|is| is.is_file()))
}
