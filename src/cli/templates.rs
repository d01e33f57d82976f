//! A maker's own folder of templates.

use super::commands::Ending;
use super::pipeline::Desk;
use super::say;
use crate::booklet::{TemplateFile, Templates};
use crate::design::{LARGEST_FILE, Unread, regular_file, unreadable};
use crate::diagnostic::{Problem, nearest};
use std::fs;
use std::io::ErrorKind;
use std::path::Path;

/// The files that a folder of templates may hold.
const FILES: [&str; 2] = ["language.yaml", "words.yaml"];

/// What all booklets of a run share, with a folder of the maker's own templates, or the built-in ones.
///
/// # Errors
/// When the folder is wrong; what is wrong in it has been told.
pub(super) fn desk(folder: Option<&Path>) -> Result<Desk, Ending> {
    match folder.map_or(Ok(Templates::BUILT_IN), read) {
        Ok(templates) => Ok(Desk::new(templates)),
        Err(wrong) => {
            say::problems(&wrong);
            Err(Ending::NotAll)
        }
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
            let hint = "--templates takes the folder that holds your words.yaml or language.yaml";
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
        let nothing = format!("`{shown}` holds neither words.yaml nor language.yaml");
        return Err(vec![Problem::error(nothing).hint(hint)]);
    }
    let [language, words] = FILES.map(|name| file(&folder.join(name)));
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
