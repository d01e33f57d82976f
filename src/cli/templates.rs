//! A maker's own folder of templates.

use super::commands::Ending;
use super::pipeline::{Desk, House};
use super::say;
use crate::booklet::{TemplateFile, Templates};
use crate::design::{LARGEST_FILE, Library, Order, Ordered, Unread, regular_file, unreadable};
use crate::diagnostic::{Problem, nearest};
use std::fs;
use std::io::ErrorKind;
use std::path::Path;

/// The files that a folder of templates may hold.
const FILES: [&str; 3] = ["language.yaml", "style.yaml", "words.yaml"];

/// What all booklets of a run share, with a folder of the maker's own templates, or the built-in ones.
///
/// # Errors
/// When the folder is wrong; what is wrong in it has been told.
pub(super) fn desk(folder: Option<&Path>) -> Result<Desk, Ending> {
    let library = Library::default();
    let Some(folder) = folder else {
        return Ok(Desk::new(library, Templates::BUILT_IN, House::default()));
    };
    match read(folder).and_then(|templates| Ok((house(&library, &templates, folder)?, templates))) {
        Ok(((house, told), templates)) => {
            say::problems(&told);
            Ok(Desk::new(library, templates, house))
        }
        Err(wrong) => {
            say::problems(&wrong);
            Err(Ending::NotAll)
        }
    }
}

/// The house style of a folder and the sections of the maker's own that its order names, with what is to be told of them.
///
/// # Errors
/// Everything that is wrong in them.
fn house(
    library: &Library<'static>,
    templates: &Templates,
    folder: &Path,
) -> Result<(House, Vec<Problem>), Vec<Problem>> {
    let style = library.house_style(&folder.join("style.yaml"));
    let mut wrong = Vec::new();
    let mut order = None;
    let mut has_order = false;
    if let Some((place, entries)) = templates.order() {
        let mut read = Vec::new();
        for entry in entries {
            if !entry.is_file {
                read.push(Ordered::built_in(entry.written, entry.place.clone()));
                continue;
            }
            match library.own_section(entry.written, entry.place, &folder.join("language.yaml")) {
                Ok(entry) => read.push(entry),
                Err(problems) => wrong.extend(problems),
            }
        }
        has_order = true;
        let has_own = read.iter().any(|entry| entry.own().is_some());
        order = has_own.then(|| Order { place: place.clone(), entries: read });
    }
    match style {
        Ok((style, told)) if wrong.is_empty() => Ok((House { style, has_order, order }, told)),
        Ok(_) => Err(wrong),
        Err(problems) => Err(problems.into_iter().chain(wrong).collect()),
    }
}

/// Reads a folder of templates, which holds only what differs from the built-in ones.
///
/// # Errors
/// Everything that is wrong in it.
fn read(folder: &Path) -> Result<Templates, Vec<Problem>> {
    let shown = folder.display();
    let names: Vec<String> = match fs::read_dir(folder) {
        Ok(entries) => {
            let mut names: Vec<_> =
                entries.flatten().map(|e| e.file_name().to_string_lossy().into_owned()).collect();
            names.sort_unstable();
            names
        }
        Err(e) => {
            let why = match e.kind() {
                ErrorKind::NotFound => format!("there is no folder `{shown}`"),
                ErrorKind::NotADirectory => format!("`{shown}` is not a folder"),
                _ => format!("the folder `{shown}` cannot be read: {}", e.kind()),
            };
            let hint = "--templates takes the folder that holds your words.yaml, language.yaml or style.yaml";
            return Err(vec![Problem::error(why).hint(hint)]);
        }
    };
    if !names.iter().any(|name| FILES.contains(&name.as_str())) {
        let near = names.iter().find_map(|name| nearest(name, FILES).map(|file| (name, file)));
        let hint = match near {
            Some((name, file)) => format!("is `{name}` meant to be `{file}`?"),
            None => {
                "copy what you want to change from the built-in ones, into files of these names".to_owned()
            }
        };
        let nothing = format!("`{shown}` holds neither words.yaml nor language.yaml nor style.yaml");
        return Err(vec![Problem::error(nothing).hint(hint)]);
    }
    let [language, words] = ["language.yaml", "words.yaml"].map(|name| file(&folder.join(name)));
    match (language, words) {
        (Ok(language), Ok(words)) => Templates::read(language, words),
        (language, words) => Err([language.err(), words.err()].into_iter().flatten().collect()),
    }
}

/// A file of the folder; `None` when it is not there.
fn file(path: &Path) -> Result<Option<TemplateFile>, Problem> {
    let name = path.display().to_string();
    match regular_file(path, LARGEST_FILE) {
        Ok(bytes) => Ok(Some(TemplateFile { name, bytes })),
        Err(Unread::Missing) => Ok(None),
        Err(why) => Err(unreadable(&name, "template", &why)),
    }
}
