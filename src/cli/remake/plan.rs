//! Which booklets there should be, and which of them are current.

use super::super::digest::{self, Inputs, SETTINGS, SLUG};
use super::super::editions::on_each_paper;
use super::super::existing::{self, Existing};
use super::super::pipeline::Desk;
use super::super::settings::{PaperName, Settings};
use super::super::{names, ticks, write};
use super::RemakeArgs;
use super::find::{Design, Found};
use super::moves;

use crate::diagnostic::Problem;
use rayon::prelude::*;
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

/// What is to be done about a catalogue.
pub(super) struct Plan {
    /// Booklets and designs, in order of their paths.
    pub(super) entries: Vec<Entry>,
    /// Booklets of ours whose design is gone.
    pub(super) gone: Vec<PathBuf>,
    /// Folders with something that killed runs have left.
    pub(super) untidy: BTreeSet<PathBuf>,
    /// Files that designs were read from.
    pub(super) read: Vec<PathBuf>,
}

/// A booklet, or a design of which none can be made.
#[derive(Debug)]
pub(super) struct Entry {
    /// As the report calls it.
    pub(super) name: String,
    /// What to do.
    pub(super) todo: Todo,
    /// Its design file, and the booklet where there is one.
    pub(super) of: (PathBuf, Option<PathBuf>),
    /// Whether the booklet that stands there shows a buyer something else than its edition did at first.
    pub(super) otherwise: bool,
}

/// What to do about an entry.
#[derive(Debug)]
pub(super) enum Todo {
    /// Nothing: it is current, with so many pages and warnings.
    Nothing {
        /// Pages, as it was made.
        pages: Option<usize>,
        /// Warnings, as it was made.
        warnings: Option<usize>,
    },
    /// Make it.
    Make {
        /// Its design file.
        design: PathBuf,
        /// Its settings.
        settings: Box<Settings>,
        /// The booklet.
        path: PathBuf,
        /// Why.
        why: Vec<String>,
    },
    /// Remove it: it shows a move that its step no longer has.
    Remove {
        /// The picture.
        path: PathBuf,
    },
    /// It cannot be made.
    Fail(Vec<Problem>),
}

/// What one design asks for.
struct Wanted {
    booklets: Vec<(Settings, PathBuf, Inputs)>,
    /// Pictures of ours that show nothing any longer.
    surplus: Vec<PathBuf>,
    problems: Vec<Problem>,
    read: BTreeSet<PathBuf>,
}

/// Reads every design and looks what has become of its booklets.
pub(super) fn plan(args: &RemakeArgs, desk: &Desk, found: &Found) -> Plan {
    let others = other_editions(found);
    let wanted: Vec<Wanted> =
        found.designs.par_iter().map(|design| wanted(args, desk, found, design, &others)).collect();

    let mut entries = Vec::new();
    let mut taken: BTreeMap<String, &Path> = BTreeMap::new();
    let mut read = BTreeSet::new();
    for (design, wanted) in found.designs.iter().zip(wanted) {
        read.extend(wanted.read);
        if !wanted.problems.is_empty() {
            let name = design.within.display().to_string();
            let of = (design.path.clone(), None);
            entries.push(Entry { name, todo: Todo::Fail(wanted.problems), of, otherwise: false });
        }
        for path in wanted.surplus {
            let (name, of) = (called(design, &path), (design.path.clone(), Some(path.clone())));
            entries.push(Entry { name, todo: Todo::Remove { path }, of, otherwise: false });
        }
        for (settings, path, inputs) in wanted.booklets {
            let name = called(design, &path);
            let key = path.to_string_lossy().to_lowercase();
            let of = (design.path.clone(), Some(path.clone()));
            let otherwise = shows_otherwise(found, &path);
            let todo = match (other_edition(args, found, &path, &inputs, &settings), taken.get(key.as_str()))
            {
                // Whose edition stands there keeps the name.
                (Some(other), _) => Todo::Fail(vec![other]),
                (None, Some(first)) => Todo::Fail(vec![twice(&path, first, &design.path)]),
                (None, None) => {
                    taken.insert(key, &design.path);
                    judge(args, found, design, settings, path, &inputs)
                }
            };
            entries.push(Entry { name, todo, of, otherwise });
        }
    }
    entries.sort_by(|a, b| a.name.cmp(&b.name));
    Plan { entries, gone: gone(found), untidy: found.untidy.clone(), read: read.into_iter().collect() }
}

/// Whether a booklet that stands there says that it shows something else than its edition did at first.
fn shows_otherwise(found: &Found, path: &Path) -> bool {
    match found.booklets.get(path) {
        Some(Existing::Ours(made)) => digest::part(&made.parts, digest::SHOWN_OTHERWISE).is_some(),
        _ => false,
    }
}

/// A booklet as the report calls it: within the catalogue, so that rows are short.
fn called(design: &Design, path: &Path) -> String {
    let file = path.file_name().map(Path::new).unwrap_or(path);
    design.within.parent().map_or_else(|| file.to_path_buf(), |below| below.join(file)).display().to_string()
}

fn twice(path: &Path, first: &Path, second: &Path) -> Problem {
    Problem::error(format!(
        "{} is the booklet of {} as well as of {}",
        path.display(),
        first.display(),
        second.display()
    ))
    .hint("give one of the two designs another file name")
}

/// The settings of editions made on request, by folder and name of their design. Personal copies and
/// booklets that the maker has renamed are hers, and are left alone.
fn other_editions(found: &Found) -> BTreeMap<(PathBuf, String), BTreeSet<Settings>> {
    let mut editions: BTreeMap<_, BTreeSet<Settings>> = BTreeMap::new();
    for (path, digested) in found.ours() {
        let slug = digest::part(&digested.parts, SLUG);
        let settings = digest::part(&digested.parts, SETTINGS).and_then(Settings::from_recorded);
        let (Some(slug), Some(settings), Some(folder)) = (slug, settings, path.parent()) else { continue };
        let named = path.file_name().is_some_and(|n| n == names::file_name(slug, &settings).as_str());
        if named && settings.stamp.is_none() {
            editions.entry((folder.to_path_buf(), slug.to_owned())).or_default().insert(settings);
        }
    }
    editions
}

fn wanted(
    args: &RemakeArgs,
    desk: &Desk,
    found: &Found,
    design: &Design,
    others: &BTreeMap<(PathBuf, String), BTreeSet<Settings>>,
) -> Wanted {
    let mut wanted =
        Wanted { booklets: Vec::new(), surplus: Vec::new(), problems: Vec::new(), read: BTreeSet::new() };
    let plain = Settings::plain(PaperName::A4, false);
    let reading = desk.glance(&design.path, &plain);
    let Some(checked) = reading.design else {
        wanted.problems = reading.problems;
        return wanted;
    };
    wanted.read.extend(checked.sources().into_iter().map(|source| PathBuf::from(&source.name)));
    let usual: Vec<Settings> = on_each_paper(&checked, &plain, args.paper).collect();
    for settings in &usual {
        wanted.add(desk, design, &checked, settings);
    }
    let beside = (design.out.clone(), checked.slug.clone());
    let editions = others.get(&beside).cloned().unwrap_or_default();
    let moves = moves::of(desk, found, design, &editions);
    wanted.surplus.extend(moves.gone.iter().map(|s| design.out.join(names::file_name(&checked.slug, s))));
    let editions: BTreeSet<&Settings> = editions.union(&moves.wanted).collect();
    let asked_for =
        editions.into_iter().filter(|other| !usual.contains(other) && !moves.gone.contains(other));
    // A plain booklet on the paper that was the studio's would fight with the usual one for its name.
    for settings in asked_for.filter(|s| **s != Settings::plain(s.paper, false)) {
        let reading = desk.glance(&design.path, settings);
        match reading.design {
            Some(checked) => wanted.add(desk, design, &checked, settings),
            None => wanted.problems.extend(reading.problems),
        }
    }
    wanted
}

impl Wanted {
    fn add(&mut self, desk: &Desk, design: &Design, checked: &crate::design::Design, settings: &Settings) {
        match desk.inputs(checked, settings) {
            Ok(inputs) => {
                let path = design.out.join(names::file_name(&checked.slug, settings));
                self.booklets.push((settings.clone(), path, inputs));
            }
            Err(problem) => self.problems.push(problem),
        }
    }
}

/// What to say where a booklet of ours that is another edition has the name already.
fn other_edition(
    args: &RemakeArgs,
    found: &Found,
    path: &Path,
    inputs: &Inputs,
    settings: &Settings,
) -> Option<Problem> {
    let (Existing::Ours(made) | Existing::Damaged(made)) = found.booklets.get(path)? else { return None };
    let slug = digest::part(&inputs.parts, SLUG)?;
    existing::another_edition(path, made, slug, settings).filter(|_| !args.replace)
}

fn judge(
    args: &RemakeArgs,
    found: &Found,
    design: &Design,
    settings: Settings,
    path: PathBuf,
    inputs: &Inputs,
) -> Todo {
    let stands = found.booklets.get(&path);
    let why = match stands {
        None | Some(Existing::Nothing) => match write::obstacle(&path) {
            Some(problem) => return Todo::Fail(vec![problem]),
            None => vec!["new".to_owned()],
        },
        Some(Existing::Ours(made)) if made.digest == inputs.digest => {
            let told = |name| digest::part(&made.parts, name).and_then(|text| text.parse().ok());
            return Todo::Nothing { pages: told(digest::MADE_PAGES), warnings: told(digest::MADE_WARNINGS) };
        }
        Some(Existing::Ours(made)) => digest::reasons(&made.parts, &inputs.parts),
        Some(Existing::Damaged(_)) => vec!["the file is cut short".to_owned()],
        Some(Existing::Foreign) if args.replace => vec!["replaces a file of another kind".to_owned()],
        Some(Existing::Foreign) => return Todo::Fail(vec![existing::foreign(&path)]),
    };
    if !args.replace
        && matches!(stands, Some(Existing::Ours(_) | Existing::Damaged(_)))
        && let Err(problem) = ticks::on(&path, &settings)
    {
        return Todo::Fail(vec![problem]);
    }
    Todo::Make { design: design.path.clone(), settings: Box::new(settings), path, why }
}

/// Booklets of ours without a design of their name anywhere in the catalogue.
fn gone(found: &Found) -> Vec<PathBuf> {
    let slugs: BTreeSet<&str> = found.designs.iter().filter_map(|d| d.path.file_stem()?.to_str()).collect();
    found
        .ours()
        .filter(|(_, digested)| digest::part(&digested.parts, SLUG).is_some_and(|slug| !slugs.contains(slug)))
        .map(|(path, _)| path.to_path_buf())
        .collect()
}
