//! Finding the designs and the booklets of a catalogue.

use super::super::digest::{self, SLUG};
use super::super::existing::{self, Existing};
use super::super::kinds::{Kind, kind_at};
use super::super::{names, write};
use crate::design::endings;
use crate::diagnostic::Problem;
use crate::paint::Digested;
use rayon::prelude::*;
use std::collections::{BTreeMap, BTreeSet};
use std::ffi::OsStr;
use std::path::{Path, PathBuf};
use walkdir::{DirEntry, WalkDir};

/// What a catalogue holds.
#[derive(Debug, Default)]
pub(super) struct Found {
    /// Design files, in order.
    pub(super) designs: Vec<Design>,
    /// PDFs and pictures by path, with what they are.
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
    let mut files = Files::default();
    walk(folder, &mut found, |path, found| files.take(path, found));
    if let Some(out) = out.filter(|out| out.is_dir()) {
        walk(out, &mut found, |path, found| {
            if has_extension(path, &endings::MADE) {
                found.booklets.insert(path.to_path_buf(), Existing::Nothing);
            }
        });
    }
    let stems: Vec<&str> = files.likely.iter().filter_map(|path| path.file_stem()?.to_str()).collect();
    found.booklets.par_iter_mut().for_each(|(path, is)| {
        // What bears the name of a design is looked at closely; other files may be many and large.
        let name = path.file_name().and_then(OsStr::to_str).unwrap_or_default();
        let is_named = stems.iter().any(|stem| name.starts_with(stem));
        *is = if is_named { existing::look_closely(path) } else { existing::look(path) };
    });
    found.designs = designs_among(files, &found, |path| placed(path, folder, out));
    found
}

/// Files of the catalogue that may be designs.
#[derive(Debug, Default)]
struct Files {
    /// By their names they are YAML or JSON.
    likely: Vec<PathBuf>,
    /// Any other.
    others: Vec<PathBuf>,
}

impl Files {
    fn take(&mut self, path: &Path, found: &mut Found) {
        let path = path.to_path_buf();
        if has_extension(&path, &endings::MADE) {
            found.booklets.insert(path, Existing::Nothing);
        } else if has_extension(&path, &endings::TEXTS) {
            self.likely.push(path);
        } else {
            self.others.push(path);
        }
    }
}

/// Calls for every file below a folder that is not unfinished, and notes what else is found on the way.
fn walk(root: &Path, found: &mut Found, mut file: impl FnMut(&Path, &mut Found)) {
    for entry in WalkDir::new(root).sort_by_file_name().into_iter().filter_entry(is_looked_at) {
        match entry {
            Ok(entry) if entry.file_type().is_dir() => {}
            Ok(entry) if write::is_unfinished(entry.file_name()) => {
                found.untidy.insert(write::folder_of(names::tidy(entry.path())).to_path_buf());
            }
            Ok(entry) => file(names::tidy(entry.path()), found),
            Err(error) => found.problems.push(unreadable(root, &error)),
        }
    }
}

/// The designs among the files of a catalogue, in order.
fn designs_among(files: Files, found: &Found, placed: impl Fn(PathBuf) -> Design + Sync) -> Vec<Design> {
    let slug_of = |path: &Path| path.file_stem().and_then(OsStr::to_str).map(str::to_owned);
    // Folder and design of each booklet.
    let made: BTreeSet<(&Path, &str)> = found
        .ours()
        .filter_map(|(path, made)| Some((path.parent()?, digest::part(&made.parts, SLUG)?)))
        .collect();
    let has_booklet = |design: &Design| {
        slug_of(&design.path).is_some_and(|slug| made.contains(&(design.out.as_path(), slug.as_str())))
    };
    let likely = files.likely.into_par_iter().map(&placed).filter(|design| {
        let is_yaml = !has_extension(&design.path, &["json"]);
        match kind_at(&design.path) {
            Ok(Kind::Design) => true,
            // Whatever is wrong with the file is told when it is read.
            Ok(Kind::Beginning | Kind::Ruined) | Err(_) if is_yaml => true,
            // What a booklet stands beside of its name was a design, whatever has become of it.
            _ => has_booklet(design),
        }
    });
    let mut designs: Vec<Design> = likely.collect();
    let known: BTreeSet<String> = designs.iter().filter_map(|design| slug_of(&design.path)).collect();
    let orphans: BTreeSet<&str> =
        made.iter().map(|(_, slug)| *slug).filter(|slug| !known.contains(*slug)).collect();
    // `make` takes a design under any name.
    let unlikely = files.others.into_iter().filter(|path| {
        slug_of(path).is_some_and(|slug| orphans.contains(slug.as_str()))
            && matches!(kind_at(path), Ok(Kind::Design))
    });
    designs.extend(unlikely.map(placed));
    designs.sort_by(|a, b| a.path.cmp(&b.path));
    designs
}

/// A design with the folder of its booklets.
fn placed(path: PathBuf, folder: &Path, out: Option<&Path>) -> Design {
    let within = path.strip_prefix(names::tidy(folder)).unwrap_or(&path).to_path_buf();
    let out = match (out, within.parent()) {
        (Some(out), Some(below)) => names::tidy(out).join(below),
        _ => path.parent().unwrap_or(Path::new("")).to_path_buf(),
    };
    Design { path, within, out }
}

fn unreadable(root: &Path, error: &walkdir::Error) -> Problem {
    let path = names::tidy(error.path().unwrap_or(root)).display().to_string();
    let why = error.io_error().map_or_else(|| error.to_string(), ToString::to_string);
    Problem::error(format!("{path} cannot be looked into: {why}"))
        .hint("change who may read it; whatever it holds is left out until then")
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
    use std::fs;

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
