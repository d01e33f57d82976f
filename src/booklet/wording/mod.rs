//! Wording: everything a booklet says, in one language, and the order of its sections.
//!
//! The languages in `templates/` are built in (see `build.rs` beside this file); a folder given by
//! the user is read with the same rules.

use crate::design::values_of;
use serde::Deserialize;
use std::borrow::Cow;
use std::collections::BTreeMap;

include!(concat!(env!("OUT_DIR"), "/words.rs"));

/// Everything a booklet says, in one language.
#[derive(Clone, Debug, PartialEq)]
pub struct Wording {
    /// The language's settings.
    pub language: Language,
    texts: Vec<Cow<'static, str>>,
}

/// How a language writes numbers and the like.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Language {
    /// BCP 47 tag: `en-GB`.
    pub tag: String,
    /// Its own name for itself.
    pub name: String,
    /// Another language of `templates/` that this one only differs from.
    #[serde(default)]
    pub base: Option<String>,
    /// Decimal mark.
    pub decimal: String,
    /// Between groups of three digits.
    pub thousands: String,
    /// Whether 0 takes the singular, as in French.
    #[serde(default)]
    pub zero_is_singular: bool,
    /// Between a number and the per cent sign; may be empty.
    #[serde(default)]
    pub before_percent: String,
    /// How a date is written, with `{day}`, `{month}`, `{year}`.
    pub date: String,
    /// Names of the months.
    pub months: Vec<String>,
    /// Names of sections in their order.
    pub order: Vec<String>,
}

/// A file of a maker's own templates.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TemplateFile {
    /// Its name as the maker gave it.
    pub name: String,
    /// The whole text.
    pub text: String,
}

/// Why a folder of templates cannot be used.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WordingError {
    /// The file concerned.
    pub file: String,
    /// What is wrong, with the line where the reader knows it.
    pub message: String,
}

impl std::fmt::Display for WordingError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}: {}", self.file, self.message)
    }
}

impl std::error::Error for WordingError {}

impl Wording {
    /// The names of the built-in languages.
    #[must_use]
    pub fn languages() -> Vec<&'static str> {
        LANGUAGES.iter().map(|(name, ..)| *name).collect()
    }

    /// A built-in language; `None` when there is none of that name.
    #[must_use]
    pub fn built_in(name: &str) -> Option<Wording> {
        let (name, settings, texts) = LANGUAGES.iter().find(|(n, ..)| *n == name)?;
        let language = values_of(settings)
            .unwrap_or_else(|e| unreachable!("templates/{name}/language.yaml is checked by a test: {e}"));
        Some(Wording { language, texts: texts.iter().map(|t| Cow::Borrowed(*t)).collect() })
    }

    /// A built-in language with the texts of a maker's own `language.yaml` and `words.yaml`: either may
    /// be left out or hold only what differs from the built-in language `name`.
    ///
    /// # Errors
    /// When there is no such built-in language, or a file holds something else.
    pub fn with_texts(
        name: &str,
        language: Option<&TemplateFile>,
        words: Option<&TemplateFile>,
    ) -> Result<Wording, WordingError> {
        let mut wording = Wording::built_in(name).ok_or_else(|| WordingError {
            file: "templates".to_owned(),
            message: format!(
                "no built-in language \"{name}\"; there are {}",
                Wording::languages().join(", ")
            ),
        })?;
        let wrong = |file: &TemplateFile, message| WordingError { file: file.name.clone(), message };
        if let Some(file) = language {
            wording.language = values_of(&file.text).map_err(|e| wrong(file, e))?;
        }
        if let Some(file) = words {
            let words: BTreeMap<String, BTreeMap<String, String>> =
                values_of(&file.text).map_err(|e| wrong(file, e))?;
            for (section, keys) in words {
                for (key, text) in keys {
                    let name = format!("{section}.{key}");
                    let at = NAMES
                        .iter()
                        .position(|n| *n == name)
                        .ok_or_else(|| wrong(file, format!("{name} is no text of a booklet")))?;
                    wording.texts[at] = Cow::Owned(text.trim_end().to_owned());
                }
            }
        }
        Ok(wording)
    }

    /// The template of one text.
    #[must_use]
    pub fn text(&self, word: Word) -> &str {
        &self.texts[word as usize]
    }

    /// Every text, in the order of [`Word`]: for digests.
    pub fn texts(&self) -> impl Iterator<Item = &str> {
        self.texts.iter().map(AsRef::as_ref)
    }
}

impl Word {
    /// Every text, in the order of `words.yaml`'s keys.
    #[must_use]
    pub fn all() -> &'static [Word] {
        ALL
    }

    /// `section.key` in `words.yaml`.
    #[must_use]
    pub fn name(self) -> &'static str {
        NAMES[self as usize]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_built_in_language_reads_and_has_twelve_months() {
        for name in Wording::languages() {
            let wording = Wording::built_in(name).expect("listed");
            assert_eq!(wording.language.months.len(), 12, "{name}");
        }
    }
}
