//! The order of a booklet's sections: the built-in ones by their names, the maker's own by their Markdown files.

use super::bounds::{MOST_ITEMS, text};
use super::phrase::{Phrase, Tongue};
use super::prose::{self, OwnSection};
use super::style::Beside;
use super::yaml::{Check, EachOrMore, Node};
use crate::diagnostic::{Place, Problem, shown, thousands};
use std::path::Path;
use std::sync::Arc;

/// How the names of files with sections of the maker's own end.
const ENDINGS: [&str; 2] = [".md", ".markdown"];

/// The sections in the maker's order.
#[derive(Clone, Debug, PartialEq)]
pub struct Order {
    /// Where it is given.
    pub place: Place,
    /// The sections.
    pub entries: Vec<Ordered>,
}

/// A section in an order.
#[derive(Clone, Debug, PartialEq)]
pub struct Ordered {
    /// As it is written: the name of a built-in section, or of a file.
    pub written: Phrase,
    /// Where it is written.
    pub place: Place,
    /// The sections in its files, by the names of these; none for a built-in section.
    pub own: Vec<(String, Arc<OwnSection>)>,
}

impl Ordered {
    /// A built-in section.
    #[must_use]
    pub fn built_in(name: &str, place: Place) -> Ordered {
        Ordered { written: Phrase::from(name), place, own: Vec::new() }
    }

    /// The maker's own section, in the language of the booklet; `None` for a built-in one.
    #[must_use]
    pub fn own(&self) -> Option<&Arc<OwnSection>> {
        self.own.iter().find(|(file, _)| *file == self.written.as_str()).map(|(_, section)| section)
    }

    /// Its name, also the target of links: the same in every language.
    #[must_use]
    pub fn name(&self) -> &str {
        match self.own.first() {
            Some((file, _)) => name_of(file),
            None => &self.written,
        }
    }
}

impl Order {
    pub(super) fn speak(&mut self, tongue: &Tongue) {
        self.entries.iter_mut().for_each(|entry| entry.written.speak(tongue));
    }

    /// The names of the maker's own files.
    pub(super) fn files(&self) -> impl Iterator<Item = &Phrase> {
        self.entries.iter().filter(|entry| !entry.own.is_empty()).map(|entry| &entry.written)
    }

    /// Every section of the maker's own, in every language.
    pub(super) fn sections(&self) -> impl Iterator<Item = &Arc<OwnSection>> {
        self.entries.iter().flat_map(|entry| entry.own.iter().map(|(_, section)| section))
    }
}

/// Whether an entry of an order names a file.
#[must_use]
pub fn names_a_file(entry: &str) -> bool {
    let small = entry.trim().to_ascii_lowercase();
    ENDINGS.iter().any(|ending| small.ends_with(ending))
}

/// The name of the section in a file: that of the file, without folder and ending.
fn name_of(file: &str) -> &str {
    let name = Path::new(file).file_stem().and_then(|stem| stem.to_str()).unwrap_or(file);
    name.trim()
}

/// Checks the order that a studio file gives. Whether there are built-in sections of these names, a later stage knows.
pub(super) fn check(
    check: &mut Check<'_>,
    order: &EachOrMore,
    node: &Node,
    beside: &Beside<'_>,
) -> Option<Order> {
    const HINT: &str = "name sections in their order, as in `order: [cover, welcome.md, materials, chart]`";
    if order.0.is_empty() {
        check.error(node.span.clone(), "`order` names no section, so the booklet would have no page", HINT);
        return None;
    }
    let place = check.place(node.span.clone());
    let mut entries: Vec<Ordered> = Vec::new();
    for (i, field) in order.0.iter().enumerate() {
        let at = node.items().get(i).unwrap_or(node);
        if i == MOST_ITEMS {
            let message =
                format!("this list has {} items, and can have {MOST_ITEMS}", thousands(order.0.len()));
            check.error(at.span.clone(), message, "leave some out");
            break;
        }
        let Some(given) = check.item(field, &at.span, "a section") else { continue };
        let Some(written) = check.one_or_each(given, at, "a section", text::PATH) else { continue };
        let here = check.place(at.span.clone());
        let texts: Vec<String> = written.texts().map(str::to_owned).collect();
        let mut own = Vec::new();
        if texts.iter().any(|text| names_a_file(text)) {
            for file in texts {
                if !names_a_file(&file) {
                    let message = format!("`{}` is no Markdown file", shown(&file));
                    check.error(
                        at.span.clone(),
                        message,
                        "name a file for each language, as in `{en: welcome.md, de: willkommen.md}`",
                    );
                    continue;
                }
                match read(&file, &here, beside) {
                    Ok(section) => own.push((file, Arc::new(section))),
                    Err(problems) => problems.into_iter().for_each(|problem| check.note(problem)),
                }
            }
            if own.is_empty() {
                continue;
            }
        } else if written.is_in_languages() {
            check.error(at.span.clone(), "a built-in section has one name for all languages", HINT);
            continue;
        }
        let entry = Ordered { written, place: here, own };
        if entries.iter().any(|other| other.name() == entry.name()) {
            let message = format!("`{}` stands in `order` twice", shown(entry.name()));
            check.error(at.span.clone(), message, "keep one of the two, or give the file another name");
            continue;
        }
        entries.push(entry);
    }
    Some(Order { place, entries })
}

/// Reads the entry of a folder's own order that names a file.
pub(super) fn own_entry(file: &str, place: &Place, beside: &Beside<'_>) -> Result<Ordered, Vec<Problem>> {
    let section = read(file, place, beside)?;
    let damaged: Vec<Problem> =
        section.pictures().iter().filter_map(|picture| picture.image.problem()).collect();
    if !damaged.is_empty() {
        return Err(damaged);
    }
    let own = vec![(file.to_owned(), Arc::new(section))];
    Ok(Ordered { written: Phrase::from(file), place: place.clone(), own })
}

fn read(file: &str, place: &Place, beside: &Beside<'_>) -> Result<OwnSection, Vec<Problem>> {
    prose::read(&beside.folder.join(file), place, beside)
}
