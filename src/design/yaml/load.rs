//! One file to its text, its tree and its values.

use super::field::Part;
use super::source;
use super::tree::{Kind, Node, repeated_keys, tree_of};
use crate::design::bounds::{LARGEST_FILE, MOST_TOLD};
use crate::design::shelf::{Shelf, Unread};
use crate::diagnostic::{Place, Problem, Source, has_errors};
use std::path::Path;
use std::sync::Arc;

/// A file as read.
#[derive(Debug)]
pub(in crate::design) struct Loaded<T> {
    /// Its text.
    pub source: Arc<Source>,
    /// Where everything stands.
    pub root: Node,
    /// Its values.
    pub file: T,
}

/// Loads a file; `None` (with problems) when it cannot be read as YAML at all.
pub(in crate::design) fn load<T: Part>(
    shelf: &dyn Shelf,
    path: &Path,
    what: &str,
    asked_at: Option<Place>,
    problems: &mut Vec<Problem>,
) -> Option<Loaded<T>> {
    let name = path.display().to_string();
    let bytes = match shelf.read(path, LARGEST_FILE) {
        Ok(bytes) => bytes,
        Err(why) => {
            let mut problem = unreadable(&name, what, &why);
            problem.place = asked_at;
            problems.push(problem);
            return None;
        }
    };
    let source = match source::text_of(&name, bytes, what) {
        Ok(source) => source,
        Err(problem) => {
            problems.push(problem);
            return None;
        }
    };
    let root = match sound_tree(&source) {
        Ok(root) => root,
        Err(found) => {
            problems.extend(found);
            return None;
        }
    };
    if !matches!(root.kind, Kind::Mapping(_)) {
        let example = if what == "design" { "title: Heron at Dusk" } else { "name: …" };
        problems.push(
            Problem::error(format!("this is not a {what} file"))
                .at(Place::new(&source, root.span.clone()))
                .hint(format!("a {what} file is keys with values, as in `{example}`")),
        );
        return None;
    }
    // A value that cannot be read is kept as such in its field, so this fails for no file.
    T::deserialize(&root).ok().map(|file| Loaded { source, root, file })
}

/// The text of another stage's YAML file, and where everything in it stands.
///
/// # Errors
/// Everything that stops it from being read.
pub(crate) fn text_and_tree(
    name: &str,
    bytes: Vec<u8>,
    what: &str,
) -> Result<(Arc<Source>, Node), Vec<Problem>> {
    let source = source::text_of(name, bytes, what).map_err(|p| vec![p])?;
    let root = sound_tree(&source)?;
    Ok((source, root))
}

/// The tree of a text in which every key is a name that stands once in its place, and every text can be shown.
///
/// # Errors
/// Everything that stops serde from reading it.
pub(in crate::design) fn sound_tree(source: &Arc<Source>) -> Result<Node, Vec<Problem>> {
    let root = tree_of(source)?;
    let mut wrong = Vec::new();
    repeated_keys(source, &root, &mut wrong);
    sound(source, &root, &mut wrong);
    wrong.truncate(MOST_TOLD);
    if has_errors(&wrong) { Err(wrong) } else { Ok(root) }
}

/// Why a file cannot be read.
pub(crate) fn unreadable(name: &str, what: &str, why: &Unread) -> Problem {
    match why {
        Unread::Missing => {
            Problem::error(format!("there is no {what} file `{name}`")).hint("check the name and the folder")
        }
        Unread::Folder => Problem::error(format!("`{name}` is a folder, not a {what} file"))
            .hint("give the file's name in it"),
        Unread::NotAFile => {
            Problem::error(format!("`{name}` is no {what} file, but a pipe, a socket or a device"))
                .hint(format!("give the {what} file, which is plain text (YAML)"))
        }
        Unread::TooLarge(_) => {
            Problem::error(format!("`{name}` is larger than {} MB", LARGEST_FILE / 1_000_000))
                .hint(format!("a {what} file is a few kilobytes of text: is this the right file?"))
        }
        Unread::Forbidden => {
            Problem::error(format!("the {what} file `{name}` may not be read")).hint("change who may read it")
        }
        Unread::Other(other) => Problem::error(format!("the {what} file `{name}` cannot be read: {other}"))
            .hint("check that the disk is there and the file is whole"),
    }
}

/// Keys must be plain names: a list or mapping as a key has no meaning here. Texts may not hold, written
/// as `\e` in quotes, what could not stand in the file as it is.
fn sound(source: &Arc<Source>, node: &Node, problems: &mut Vec<Problem>) {
    for (key, value) in node.entries() {
        if !matches!(key.kind, Kind::Scalar { .. }) || key.text().is_empty() {
            problems.push(
                Problem::error("this key is not a name")
                    .at(Place::new(source, key.span.clone()))
                    .hint("write a name before the colon"),
            );
        }
        sound(source, key, problems);
        sound(source, value, problems);
    }
    for item in node.items() {
        sound(source, item, problems);
    }
    if let Some(c) = node.text().chars().find(|c| source::is_strange(*c)) {
        let (what, hint) = source::strange(c);
        problems.push(
            Problem::error(format!("{what} stands in this text"))
                .at(Place::new(source, node.span.clone()))
                .hint(hint),
        );
    }
}
