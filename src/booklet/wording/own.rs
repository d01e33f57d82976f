//! A maker's own templates: `language.yaml` and `words.yaml`, each holding only what differs.

use super::language::{Given, OwnLanguage};
use super::origin::Origin;
use super::told::faults_told;
use super::{NAMES, SECTIONS, Word};
use crate::design::{Kind, MOST_TOLD, Node, Style, text_and_tree};
use crate::diagnostic::{Place, Problem, Source, did_you_mean, keep_first, shown, sort};
use std::collections::BTreeMap;
use std::ops::Range;
use std::sync::Arc;

/// A file of a maker's own templates.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TemplateFile {
    /// Its name as the maker gave it.
    pub name: String,
    /// What it holds.
    pub bytes: Vec<u8>,
}

/// A maker's own templates, checked: what they say otherwise than a built-in language.
#[derive(Clone, Debug, PartialEq)]
pub struct Templates {
    pub(super) language: OwnLanguage,
    pub(super) texts: BTreeMap<Word, OwnText>,
    /// The files that they were read from.
    pub(super) sources: Vec<Arc<Source>>,
}

/// A section in a maker's own order.
#[derive(Clone, Copy, Debug)]
pub struct OwnEntry<'o> {
    /// As it is written.
    pub written: &'o str,
    /// Where.
    pub place: &'o Place,
    /// Whether it is a file with a section of the maker's own.
    pub is_file: bool,
}

/// A text of the maker's own.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct OwnText {
    pub(super) text: String,
    pub(super) origin: Origin,
}

impl Templates {
    /// The maker's own order of sections, and where it is given.
    #[must_use]
    pub fn order(&self) -> Option<(&Place, Vec<OwnEntry<'_>>)> {
        let order = self.language.order.as_ref()?;
        let entries = order.value.iter().map(|entry| OwnEntry {
            written: &entry.name.value,
            place: &entry.name.place,
            is_file: entry.section.is_none(),
        });
        Some((&order.place, entries.collect()))
    }

    /// Nothing of the maker's own.
    pub const BUILT_IN: Templates =
        Templates { language: OwnLanguage::NOTHING, texts: BTreeMap::new(), sources: Vec::new() };

    /// Reads and checks a maker's `language.yaml` and `words.yaml`, either of which may be left out.
    ///
    /// # Errors
    /// Everything that is wrong in them, in reading order, each with its place.
    pub fn read(
        language: Option<TemplateFile>,
        words: Option<TemplateFile>,
    ) -> Result<Templates, Vec<Problem>> {
        let mut problems = Vec::new();
        let mut templates = Templates::BUILT_IN;
        if let Some((root, mut notes)) = language.and_then(|file| tree_of(file, "language", &mut problems)) {
            templates.language = OwnLanguage::read(&root, &mut notes);
            problems.append(&mut notes.problems);
            templates.sources.push(notes.source);
        }
        if let Some((root, mut notes)) = words.and_then(|file| tree_of(file, "words", &mut problems)) {
            templates.texts = texts(&root, &mut notes);
            problems.append(&mut notes.problems);
            templates.sources.push(notes.source);
        }
        if problems.is_empty() {
            return Ok(templates);
        }
        sort(&mut problems);
        keep_first(&mut problems, MOST_TOLD);
        Err(problems)
    }
}

/// The tree of a file with something in it; `None` when nothing differs in it, or it cannot be read.
fn tree_of(file: TemplateFile, what: &str, problems: &mut Vec<Problem>) -> Option<(Node, Notes)> {
    let text = String::from_utf8_lossy(&file.bytes);
    let text = text.trim_start_matches('\u{feff}');
    if text.lines().all(|l| l.trim().is_empty() || l.trim_start().starts_with('#')) {
        return None;
    }
    match text_and_tree(&file.name, file.bytes, what) {
        Ok((source, root)) if matches!(root.kind, Kind::Mapping(_)) => {
            Some((root, Notes { source, problems: Vec::new() }))
        }
        Ok((source, root)) => {
            let example = if what == "words" { "chart: {title: Colour chart}" } else { "decimal: \",\"" };
            problems.push(
                Problem::error(format!("this is not a {what}.yaml"))
                    .at(Place::new(&source, root.span))
                    .hint(format!("it is keys with values, as in `{example}`")),
            );
            None
        }
        Err(found) => {
            problems.extend(found);
            None
        }
    }
}

/// The texts of a `words.yaml`.
fn texts(root: &Node, notes: &mut Notes) -> BTreeMap<Word, OwnText> {
    let mut texts = BTreeMap::new();
    let mut sections: Vec<&str> = NAMES.iter().filter_map(|n| n.split('.').next()).collect();
    sections.dedup();
    for (section, keys) in root.entries() {
        if !sections.contains(&section.text()) {
            notes.error(
                section,
                format!("`{}` is no group of texts", shown(section.text())),
                did_you_mean(section.text(), &sections, "the groups are"),
            );
            continue;
        }
        if !matches!(keys.kind, Kind::Mapping(_)) {
            let hint = format!("as in `{}: {{title: …}}`", section.text());
            notes.error(section, format!("`{}` must hold texts by name", section.text()), hint);
            continue;
        }
        for (key, value) in keys.entries() {
            let name = format!("{}.{}", section.text(), key.text());
            match Word::named(&name) {
                Some(word) => {
                    if let Some(text) = text_of(word, key, value, notes) {
                        texts.insert(word, text);
                    }
                }
                None => {
                    let group = format!("{}.", section.text());
                    let known: Vec<&str> = NAMES.iter().filter_map(|n| n.strip_prefix(&group)).collect();
                    notes.error(
                        key,
                        format!("`{}` is no text of `{}`", shown(key.text()), section.text()),
                        did_you_mean(key.text(), &known, "its texts are"),
                    );
                }
            }
        }
    }
    texts
}

/// One text, checked.
fn text_of(word: Word, key: &Node, value: &Node, notes: &mut Notes) -> Option<OwnText> {
    let origin = Origin::of(&notes.source, value);
    // The text of what has no words, as the empty head of a column, may stay empty.
    let built_in_empty = super::LANGUAGES.iter().all(|l| l.texts[word as usize].is_empty());
    if built_in_empty && value.style() == Style::Quoted && value.text().is_empty() {
        return Some(OwnText { text: String::new(), origin });
    }
    let given = notes.text(key, value)?;
    let good =
        notes.code(word.name(), &given.value, word.values(), &origin) & notes.links(&given.value, &origin);
    good.then_some(OwnText { text: given.value, origin })
}

/// Collects the problems of one file.
pub(super) struct Notes {
    pub(super) source: Arc<Source>,
    problems: Vec<Problem>,
}

impl Notes {
    /// Notes an error at a node.
    pub(super) fn error(&mut self, node: &Node, message: impl Into<String>, hint: impl Into<String>) {
        self.error_at(Place::new(&self.source, node.span.clone()), message, hint);
    }

    /// Notes an error at a place.
    pub(super) fn error_at(&mut self, place: Place, message: impl Into<String>, hint: impl Into<String>) {
        self.problems.push(Problem::error(message).at(place).hint(hint));
    }

    /// The text of a value, without blanks at its ends; noted when there is none.
    pub(super) fn text(&mut self, key: &Node, value: &Node) -> Option<Given<String>> {
        let given = self.text_as_it_stands(key, value)?;
        let text = given.value.trim_end_matches([' ', '\t', '\n']);
        if text.trim().is_empty() {
            self.error(
                value,
                format!("`{}` is empty", key.text()),
                "write what is to be printed, or remove the key",
            );
            return None;
        }
        Some(Given { value: text.to_owned(), place: given.place.clone() })
    }

    /// The text of a value; noted when there is none.
    pub(super) fn text_as_it_stands(&mut self, key: &Node, value: &Node) -> Option<Given<String>> {
        let nothing = value.style() == Style::Plain && matches!(value.text(), "" | "~" | "null");
        if !matches!(value.kind, Kind::Scalar { .. }) {
            let hint = "put a text that begins with a brace or bracket in quotes";
            self.error(value, format!("`{}` must be a text", key.text()), hint);
            None
        } else if nothing {
            self.error(
                key,
                format!("nothing stands after `{}`", key.text()),
                "write its text, or remove the key",
            );
            None
        } else {
            let place = Place::new(&self.source, value.span.clone());
            Some(Given { value: value.text().to_owned(), place })
        }
    }

    /// Whether the code of a text is right; noted when not.
    pub(super) fn code(&mut self, name: &str, text: &str, values: &[&str], origin: &Origin) -> bool {
        let faults = faults_told(name, text, values);
        for (at, (message, hint)) in &faults {
            self.error_at(origin.part(text, at), message, hint);
        }
        if !faults.is_empty() {
            return false;
        }
        // What is left is the grammar of expressions.
        match minijinja::Environment::empty().template_from_str(text) {
            Ok(_) => true,
            Err(error) => {
                let at = error.range().unwrap_or(0..text.len());
                let detail = error.detail().unwrap_or("it is not complete").to_owned();
                self.error_at(
                    origin.part(text, &at),
                    format!("this code cannot be read: {detail}"),
                    "write a value with its filters, as in `{{ beads|num }}`, or a statement, as in `{% if date %}`",
                );
                false
            }
        }
    }

    /// Whether links within the booklet lead to a section; noted when not.
    fn links(&mut self, text: &str, origin: &Origin) -> bool {
        let known: Vec<&str> = SECTIONS.iter().map(|(name, _)| *name).collect();
        let mut good = true;
        for (at, open) in text.match_indices("](#") {
            let start = at + open.len();
            let target: &str = text[start..].split(')').next().unwrap_or("");
            if !known.contains(&target) {
                good = false;
                let place = origin.part(text, &Range { start, end: start + target.len() });
                let message = format!("`{}` is no section of a booklet", shown(target));
                self.error_at(place, message, did_you_mean(target, &known, "the sections are"));
            }
        }
        good
    }
}
