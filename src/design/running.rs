//! What a maker has at the head and foot of every page: words, and values in two braces, as in the templates.

use super::bounds::text;
use super::files::RunningPart;
use super::phrase::{Phrase, Tongue};
use super::yaml::{Check, Node};
use crate::diagnostic::{did_you_mean, shown};

/// What stands at the head or foot of every page.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Running {
    /// At the left.
    pub left: Phrase,
    /// In the middle.
    pub middle: Phrase,
    /// At the right.
    pub right: Phrase,
}

/// A value that may stand there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RunningValue {
    /// The booklet's title.
    Title,
    /// The section's title.
    Section,
    /// The studio's name.
    Studio,
    /// Its web address.
    Web,
    /// The copyright line.
    Copyright,
    /// Edition and date.
    Edition,
    /// The page's number.
    Page,
    /// How many pages there are.
    Pages,
}

impl RunningValue {
    /// The values by their names.
    const NAMES: [(&'static str, RunningValue); 8] = [
        ("title", RunningValue::Title),
        ("section", RunningValue::Section),
        ("studio", RunningValue::Studio),
        ("web", RunningValue::Web),
        ("copyright", RunningValue::Copyright),
        ("edition", RunningValue::Edition),
        ("page", RunningValue::Page),
        ("pages", RunningValue::Pages),
    ];
}

/// A piece of what stands there.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum RunningPiece {
    /// Words as they are.
    Words(String),
    /// A value.
    Value(RunningValue),
}

impl Running {
    /// Its three parts, from left to right.
    #[must_use]
    pub fn parts(&self) -> [&Phrase; 3] {
        [&self.left, &self.middle, &self.right]
    }

    pub(super) fn speak(&mut self, tongue: &Tongue) {
        [&mut self.left, &mut self.middle, &mut self.right].into_iter().for_each(|part| part.speak(tongue));
    }
}

/// The pieces of a text.
///
/// # Errors
/// What is wrong in it, and what to do about it.
pub fn pieces(text: &str) -> Result<Vec<RunningPiece>, (String, String)> {
    const HINT: &str = "a value stands in two braces, as in `\"{{ title }}\"`";
    let mut pieces = Vec::new();
    let mut rest = text;
    while let Some(open) = rest.find(['{', '}']) {
        let (words, from) = rest.split_at(open);
        if !words.is_empty() {
            pieces.push(RunningPiece::Words(words.to_owned()));
        }
        let inner = from.strip_prefix("{{").and_then(|inner| inner.split_once("}}"));
        let Some((name, after)) = inner else {
            return Err(("a brace stands here that encloses no value".to_owned(), HINT.to_owned()));
        };
        let name = name.trim();
        match RunningValue::NAMES.iter().find(|(known, _)| *known == name) {
            Some((_, value)) => pieces.push(RunningPiece::Value(*value)),
            None => {
                let names = RunningValue::NAMES.map(|(name, _)| name);
                let hint = did_you_mean(name, &names, "the values here are");
                return Err((format!("`{}` is no value that can stand here", shown(name)), hint));
            }
        }
        rest = after;
    }
    if !rest.is_empty() {
        pieces.push(RunningPiece::Words(rest.to_owned()));
    }
    Ok(pieces)
}

impl Phrase {
    /// Whether it holds words beside values.
    pub(super) fn has_words(&self) -> bool {
        let is_word = |piece: &RunningPiece| matches!(piece, RunningPiece::Words(words) if words.chars().any(char::is_alphabetic));
        pieces(self).is_ok_and(|pieces| pieces.iter().any(is_word))
    }
}

/// Checks what stands at the head or foot of pages.
pub(super) fn check(check: &mut Check<'_>, part: &RunningPart, node: &Node) -> Option<Running> {
    check.keys::<RunningPart>(node);
    let RunningPart { left, middle, right } = part;
    let mut good = true;
    let [left, middle, right] = [("left", left), ("middle", middle), ("right", right)].map(|(key, field)| {
        let phrase = check.phrase(field, node, key, text::LINE).unwrap_or_default();
        let wrong: Vec<_> = phrase.texts().filter_map(|text| pieces(text).err()).collect();
        for (message, hint) in wrong {
            good = false;
            check.error(node.get(key).span.clone(), message, hint);
        }
        phrase
    });
    good.then_some(Running { left, middle, right })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_and_values_are_told_apart() {
        let words = |text: &str| RunningPiece::Words(text.to_owned());
        assert_eq!(
            pieces("{{ page }} of {{pages}}"),
            Ok(vec![
                RunningPiece::Value(RunningValue::Page),
                words(" of "),
                RunningPiece::Value(RunningValue::Pages)
            ])
        );
        assert_eq!(pieces("Reeds & Co."), Ok(vec![words("Reeds & Co.")]));
        assert_eq!(pieces(""), Ok(Vec::new()));
        for wrong in ["{page}", "{{ page }", "page }}", "{{ pgae }}", "{{}}", "{% if %}"] {
            assert!(pieces(wrong).is_err(), "{wrong}");
        }
        let (_, hint) = pieces("{{ pgae }}").expect_err("no value");
        assert_eq!(hint, "did you mean `page`?");
    }
}
