//! Texts of the maker's that may be given in several languages.

use super::bounds::MOST_ITEMS;
use super::studio::is_language;
use super::yaml::{Check, EachOrMore, Field, Node, OneOrEach, quoted};
use crate::diagnostic::{Place, Problem, shown, thousands};
use std::fmt;
use std::ops::{Deref, Range};
use std::sync::Arc;

/// A text given once for all languages, or one for each: as it reads in the language of the booklet.
#[derive(Clone, Debug, Default)]
pub struct Phrase {
    said: String,
    /// The texts by language, in the order of the file; `None` where one stands for all.
    each: Option<Arc<Vec<(String, String)>>>,
    place: Option<Place>,
}

/// The languages that a booklet reads a maker's texts in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Tongue {
    /// The language of the booklet and those it stands on, nearest first: `en-US`, `en`.
    pub chain: Vec<String>,
    /// The language that texts given once are written in: the studio's.
    pub written_in: String,
}

impl Tongue {
    /// The tongue of a language by its name alone: `de-AT` stands on `de` (RFC 4647, 3.4).
    #[must_use]
    pub fn of(language: &str, written_in: &str) -> Tongue {
        Tongue { chain: shortened(language), written_in: written_in.to_owned() }
    }

    /// Whether it reads texts that are written in a language as its own: variants of one language do.
    fn reads(&self, language: &str) -> bool {
        let first = |tag: &str| tag.split('-').next().unwrap_or("").to_ascii_lowercase();
        self.chain.iter().any(|link| first(link) == first(language))
    }

    /// The name of the language.
    fn name(&self) -> &str {
        self.chain.first().map_or("", String::as_str)
    }
}

/// A language's name, then the same with its last part left off, to its first part.
#[must_use]
pub fn shortened(language: &str) -> Vec<String> {
    let ends = language.match_indices('-').map(|(at, _)| at).rev();
    std::iter::once(language.len()).chain(ends).map(|end| language[..end].to_owned()).collect()
}

impl Phrase {
    /// As it is printed.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.said
    }

    /// Whether it is given for each language.
    pub(super) fn is_in_languages(&self) -> bool {
        self.each.is_some()
    }

    /// All its texts, in the order of the file.
    pub(super) fn texts(&self) -> impl Iterator<Item = &str> {
        let each = self.each.iter().flat_map(|each| each.iter().map(|(_, text)| text.as_str()));
        each.chain(self.each.is_none().then_some(self.said.as_str()))
    }

    /// A text that stands for all languages, as written at a place.
    pub(super) fn plain(text: String, place: Option<Place>) -> Phrase {
        Phrase { said: text, each: None, place }
    }

    /// Takes the text of a language; without one that of the language the studio writes in, then the first.
    pub(super) fn speak(&mut self, tongue: &Tongue) {
        let Some(each) = &self.each else { return };
        let written_in = shortened(&tongue.written_in);
        let found = tongue.chain.iter().chain(&written_in).find_map(|language| in_language(each, language));
        if let Some(text) = found.or(each.first().map(|(_, text)| text)) {
            self.said.clone_from(text);
        }
    }

    /// What is to be told where it is not given in a language.
    pub(super) fn missing(&self, tongue: &Tongue) -> Option<Problem> {
        /// Longer texts are shown where they stand alone.
        const LONGEST_SHOWN: usize = 40;
        if self.said.is_empty() {
            return None;
        }
        let place = self.place.clone()?;
        let language = tongue.name();
        let hint = match &self.each {
            None if tongue.reads(&tongue.written_in) => return None,
            None => {
                let short = self.said.chars().count() <= LONGEST_SHOWN;
                let text = if short { quoted(&self.said) } else { "…".to_owned() };
                format!(
                    "give one for each language, as in `{{{}: {text}, {language}: …}}`",
                    tongue.written_in
                )
            }
            Some(each) if tongue.chain.iter().any(|link| in_language(each, link).is_some()) => return None,
            Some(_) => format!("add `{language}: …`"),
        };
        Some(Problem::advice(format!("this text is not given in `{language}`")).at(place).hint(hint))
    }
}

/// The text of a language; small and capital letters of its name are alike (BCP 47, 2.1.1).
fn in_language<'e>(each: &'e [(String, String)], language: &str) -> Option<&'e String> {
    each.iter().find(|(name, _)| name.eq_ignore_ascii_case(language)).map(|(_, text)| text)
}

/// What it reads and may read, wherever it stands.
impl PartialEq for Phrase {
    fn eq(&self, other: &Phrase) -> bool {
        self.said == other.said && self.each == other.each
    }
}

impl From<&str> for Phrase {
    fn from(text: &str) -> Phrase {
        Phrase::plain(text.to_owned(), None)
    }
}

impl Deref for Phrase {
    type Target = str;

    fn deref(&self) -> &str {
        &self.said
    }
}

impl AsRef<str> for Phrase {
    fn as_ref(&self) -> &str {
        &self.said
    }
}

impl fmt::Display for Phrase {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.said)
    }
}

impl Check<'_> {
    /// The text of a key that may be left out, given once or for each language; notes one that is too long.
    pub fn phrase(
        &mut self,
        field: &Field<OneOrEach>,
        node: &Node,
        key: &str,
        most: usize,
    ) -> Option<Phrase> {
        let given = self.take(field, node, key)?;
        self.one_or_each(given, node.get(key), &format!("`{key}`"), most)
    }

    /// The text of a key that must be there, and not be empty.
    pub fn need_phrase(
        &mut self,
        field: &Field<OneOrEach>,
        node: &Node,
        key: &str,
        hint: &str,
        most: usize,
    ) -> Option<Phrase> {
        self.need(field, node, key, hint)?;
        let phrase = self.phrase(field, node, key, most)?;
        if phrase.is_empty() {
            self.error(node.get(key).span.clone(), format!("`{key}` is empty"), hint);
            return None;
        }
        Some(phrase)
    }

    /// Texts of a list, or a single one in its place; notes those that are too long, and too many.
    pub fn phrases(&mut self, list: &EachOrMore, node: &Node, what: &str, most: usize) -> Vec<Phrase> {
        let mut phrases = Vec::new();
        for (i, field) in list.0.iter().enumerate() {
            let at = node.items().get(i).unwrap_or(node);
            if i == MOST_ITEMS {
                let message =
                    format!("this list has {} items, and can have {MOST_ITEMS}", thousands(list.0.len()));
                self.error(at.span.clone(), message, "leave some out");
                break;
            }
            let Some(given) = self.item(field, &at.span, what) else { continue };
            phrases.extend(self.one_or_each(given, at, what, most));
        }
        phrases
    }

    /// A text given once or for each language, without blanks round it.
    pub fn one_or_each(&mut self, given: &OneOrEach, node: &Node, what: &str, most: usize) -> Option<Phrase> {
        let place = Some(self.place(node.span.clone()));
        let entries = match given {
            OneOrEach::One(text) => {
                let text = self.short(&text.0, &node.span, what, most)?;
                return Some(Phrase::plain(text, place));
            }
            OneOrEach::Each(entries) => entries,
        };
        if entries.0.is_empty() {
            self.error(
                node.span.clone(),
                format!("{what} is given in no language"),
                "write it, or remove it",
            );
            return None;
        }
        let mut each = Vec::new();
        let mut good = true;
        for ((language, field), (key, value)) in entries.0.iter().zip(node.entries()) {
            good &= self.language_named(language, &key.span);
            let span = if value.text().is_empty() { &key.span } else { &value.span };
            let what = format!("{what} in `{}`", shown(language));
            let text = self.item(field, span, &what).and_then(|text| self.short(&text.0, span, &what, most));
            if text.as_deref() == Some("") {
                self.error(span.clone(), format!("{what} is empty"), "write it, or remove the line");
            }
            match text.filter(|text| !text.is_empty()) {
                Some(text) => each.push((language.clone(), text)),
                None => good = false,
            }
        }
        let said = each.first().map(|(_, text)| text.clone()).unwrap_or_default();
        good.then(|| Phrase { said, each: Some(Arc::new(each)), place })
    }

    /// Whether a key is the name of a language; noted when not.
    fn language_named(&mut self, language: &str, span: &Range<usize>) -> bool {
        let good = is_language(language);
        if !good {
            self.error(
                span.clone(),
                format!("`{}` is not the name of a language", shown(language)),
                "name languages as their folders of templates are called, as in `{en: Ink, de: Tinte}`",
            );
        }
        good
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn phrase(each: &[(&str, &str)]) -> Phrase {
        let each: Vec<_> = each.iter().map(|(l, t)| ((*l).to_owned(), (*t).to_owned())).collect();
        Phrase { said: each[0].1.clone(), each: Some(Arc::new(each)), place: None }
    }

    #[test]
    fn a_phrase_reads_in_the_nearest_language_that_it_is_given_in() {
        let mut ink = phrase(&[("fr", "Encre"), ("en", "Ink"), ("en-US", "Jet"), ("de", "Tinte")]);
        let mut said = |language: &str, written_in: &str| {
            ink.speak(&Tongue::of(language, written_in));
            ink.to_string()
        };
        assert_eq!(said("de", "en"), "Tinte");
        assert_eq!(said("en-us", "de"), "Jet");
        assert_eq!(said("en-GB", "de"), "Ink");
        assert_eq!(said("de-AT", "en"), "Tinte");
        // Nothing in Spanish: what the studio writes in, then what stands first.
        assert_eq!(said("es", "en-GB"), "Ink");
        assert_eq!(said("es", "it"), "Encre");
    }

    #[test]
    fn names_of_languages_are_shortened_from_their_end() {
        assert_eq!(shortened("zh-Hant-TW"), ["zh-Hant-TW", "zh-Hant", "zh"]);
        assert_eq!(shortened("de"), ["de"]);
    }
}
