//! `new`: a commented design file to start from, or a folder of templates.

use super::commands::Ending;
use super::write::{self, Elsewhere, WriteError};
use super::{names, say};
use crate::booklet::{Wording, start_files};
use crate::design::{starter, starter_palette, starter_studio, starter_style};
use crate::diagnostic::{Problem, did_you_mean, shown};
use clap::Args;
use std::fs;
use std::path::{Path, PathBuf};

/// What `new` is told.
#[derive(Debug, Args)]
#[command(after_help = "Examples:
  fringebook new \"Heron at Dusk\"             writes heron-at-dusk.yaml
  fringebook new \"Heron at Dusk\" --in birds  writes birds/heron-at-dusk.yaml
  fringebook new --templates house-style     writes the folder house-style
  fringebook new --templates hausstil --language de

Where no palette.yaml or studio.yaml stands in the folder or above it, one to start from is
written too. Nothing is ever overwritten.")]
pub(super) struct NewArgs {
    /// The design's title; with --templates the name of the folder
    #[arg(value_name = "NAME")]
    name: String,
    /// Write a folder of templates: words, section order and house style as they are built in
    #[arg(long)]
    templates: bool,
    /// The language of these templates
    #[arg(long, value_name = "LANGUAGE", default_value = "en", requires = "templates")]
    language: String,
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
    if args.templates {
        return templates(args);
    }
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

/// Writes a folder of templates; none of its files may be there already.
fn templates(args: &NewArgs) -> Ending {
    let Some(files) = start_files(&args.language) else {
        let hint = did_you_mean(&args.language, &Wording::languages(), "there are");
        let shown = shown(&args.language);
        say::problem(
            &Problem::error(format!("there are no templates for the language `{shown}`")).hint(hint),
        );
        return Ending::WrongUse;
    };
    let folder = in_folder(&args.folder, &args.name);
    let files: Vec<_> = files.into_iter().chain([("style.yaml", starter_style())]).collect();
    let there: Vec<PathBuf> =
        files.iter().map(|(name, _)| folder.join(name)).filter(|path| path.exists()).collect();
    if let Some(first) = there.first() {
        told(first, &Ok(false));
        return Ending::NotAll;
    }
    for (name, text) in files {
        let path = folder.join(name);
        if !told(&path, &write::fresh(&path, text.as_bytes())) {
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
