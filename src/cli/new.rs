//! `new`: a commented design file to start from.

use super::commands::Ending;
use super::write::{self, Elsewhere, WriteError};
use super::{names, say};
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

/// A file that a design needs beside it or above.
struct Beside {
    /// Its name, without extension.
    name: &'static str,
    /// What it is called.
    what: &'static str,
    /// One to start from.
    starter: fn() -> String,
}

/// What a design needs beside it or above.
const BESIDE: [Beside; 2] = [
    Beside { name: "palette", what: "palette", starter: starter_palette },
    Beside { name: "studio", what: "studio file", starter: starter_studio },
];

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
    if let Some(Beside { what, .. }) = BESIDE.iter().find(|beside| beside.name == slug) {
        say::problem(
            &Problem::error(format!("a design called {slug}.yaml would be taken for the {what}")).hint(
                format!("choose another name, as in `fringebook new \"{} Earrings\"`", args.name.trim()),
            ),
        );
        return Ending::WrongUse;
    }
    let path = in_folder(&args.folder, &format!("{slug}.yaml"));
    let written = write::fresh(&path, starter(&args.name).as_bytes());
    if !told(&path, &written) {
        return Ending::NotAll;
    }
    for Beside { name, starter, .. } in BESIDE {
        let file = format!("{name}.yaml");
        if stands_above(&args.folder, &file) {
            continue;
        }
        let path = in_folder(&args.folder, &file);
        let written = write::fresh(&path, starter().as_bytes());
        // Another `new` may have written it at this very moment: then there is one to start from.
        let come_meanwhile = matches!(written, Ok(false)) && path.is_file();
        if !come_meanwhile && !told(&path, &written) {
            return Ending::NotAll;
        }
    }
    Ending::Done
}

/// Says what has become of a file; whether it is written.
fn told(path: &Path, written: &Result<bool, WriteError>) -> bool {
    match written {
        Ok(true) => say::result(&path.display().to_string()),
        Ok(false) => say::problem(
            &Problem::error(format!("{} is there already, and is left as it is", path.display()))
                .hint("choose another name, or write into another folder with --in FOLDER"),
        ),
        Err(e) => say::problem(&e.problem(Elsewhere::In)),
    }
    matches!(written, Ok(true))
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
