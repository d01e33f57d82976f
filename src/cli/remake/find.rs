//! Finding the designs and the booklets of a catalogue.

use super::super::existing::{self, Existing};
use super::super::kinds::{Kind, kind_of};
use super::super::{names, write};
use crate::diagnostic::Problem;
use crate::paint::Digested;
use rayon::prelude::*;
use std::collections::{BTreeMap, BTreeSet};
use std::ffi::OsStr;
use std::fs;
use std::path::{Path, PathBuf};
use walkdir::{DirEntry, WalkDir};

/// What a catalogue holds.
#[derive(Debug, Default)]
pub(super) struct Found {
    /// Design files, in order.
    pub(super) designs: Vec<Design>,
    /// PDFs by path, with what they are.
    pub(super) booklets: BTreeMap<PathBuf, Existing>,
    /// Folders in which killed runs have left something.
    pub(super) untidy: BTreeSet<PathBuf>,
    /// Folders that could not be read.
    pub(super) problems: Vec<Problem>,
}

/// A design file of a catalogue.
#[derive(Clone, Debug)]
pub(super) struct Design {
    /// The file.
    pub(super) path: PathBuf,
    /// The same, from the catalogue's folder.
    pub(super) within: PathBuf,
    /// The folder of its booklets.
    pub(super) out: PathBuf,
}

impl Found {
    /// A booklet of ours under this name.
    pub(super) fn ours(&self) -> impl Iterator<Item = (&Path, &Digested)> {
        self.booklets.iter().filter_map(|(path, existing)| match existing {
            Existing::Ours(digested) | Existing::Damaged(digested) => Some((path.as_path(), digested)),
            Existing::Nothing | Existing::Foreign => None,
        })
    }
}

/// Walks the folder, and the folder of the booklets where it is another one. Hidden folders and files are left out.
pub(super) fn find(folder: &Path, out: Option<&Path>) -> Found {
    let mut found = Found::default();
    let mut maybe_designs = Vec::new();
    let mut pdfs = BTreeSet::new();
    let roots = [Some(folder), out.filter(|out| out.is_dir())];
    for (nth, root) in roots.into_iter().flatten().enumerate() {
        for entry in WalkDir::new(root).sort_by_file_name().into_iter().filter_entry(is_looked_at) {
            let entry = match entry {
                Ok(entry) => entry,
                Err(error) => {
                    found.problems.push(unreadable(root, &error));
                    continue;
                }
            };
            let path = names::tidy(entry.path());
            if entry.file_type().is_dir() {
                continue;
            } else if write::is_unfinished(entry.file_name()) {
                found.untidy.insert(write::folder_of(path).to_path_buf());
            } else if has_extension(path, &["pdf"]) {
                pdfs.insert(path.to_path_buf());
            } else if nth == 0 && has_extension(path, &["yaml", "yml"]) {
                maybe_designs.push(path.to_path_buf());
            }
        }
    }
    let pdfs: Vec<PathBuf> = pdfs.into_iter().collect();
    found.booklets = pdfs
        .into_par_iter()
        .map(|path| {
            let is = existing::look(&path);
            (path, is)
        })
        .collect();
    found.designs = maybe_designs
        .into_par_iter()
        .filter(|path| fs::read(path).map_or(true, |text| kind_of(&text) == Kind::Design))
        .map(|path| {
            let within = path.strip_prefix(names::tidy(folder)).unwrap_or(&path).to_path_buf();
            let out = match (out, within.parent()) {
                (Some(out), Some(below)) => out.join(below),
                _ => path.parent().unwrap_or(Path::new("")).to_path_buf(),
            };
            Design { path, within, out }
        })
        .collect();
    found
}

fn unreadable(root: &Path, error: &walkdir::Error) -> Problem {
    let path = error.path().unwrap_or(root).display().to_string();
    let why = error.io_error().map_or_else(|| error.to_string(), ToString::to_string);
    Problem::error(format!("{path} cannot be looked into: {why}"))
}

fn is_looked_at(entry: &DirEntry) -> bool {
    entry.depth() == 0
        || !entry.file_name().to_string_lossy().starts_with('.')
        || (entry.file_type().is_file() && write::is_unfinished(entry.file_name()))
}

fn has_extension(path: &Path, wanted: &[&str]) -> bool {
    path.extension()
        .and_then(OsStr::to_str)
        .is_some_and(|ext| wanted.iter().any(|w| ext.eq_ignore_ascii_case(w)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn hidden_folders_are_left_out_and_booklets_keep_to_their_folders() {
        let folder = tempfile::tempdir().expect("a folder");
        for (name, text) in [
            ("heron.yaml", "body:\n"),
            ("birds/wren.yml", "body:\n"),
            (".old/owl.yaml", "body:\n"),
            ("palette.yaml", "beads:\n"),
            ("birds/notes.pdf", "mine"),
            ("birds/.fringebook-x.part", "half"),
        ] {
            let path = folder.path().join(name);
            fs::create_dir_all(path.parent().expect("a parent")).expect("made");
            fs::write(path, text).expect("written");
        }
        let out = folder.path().join("books");
        let found = find(folder.path(), Some(&out));
        let designs: Vec<_> = found.designs.iter().map(|d| (d.within.clone(), d.out.clone())).collect();
        assert_eq!(
            designs,
            [
                (PathBuf::from("birds/wren.yml"), out.join("birds")),
                (PathBuf::from("heron.yaml"), out.join("")),
            ]
        );
        assert!(matches!(
            found.booklets.get(&folder.path().join("birds/notes.pdf")),
            Some(Existing::Foreign)
        ));
        assert_eq!(found.untidy.into_iter().collect::<Vec<_>>(), [folder.path().join("birds")]);
    }
}
