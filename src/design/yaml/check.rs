//! Taking values out of a file and noting what is wrong with them.

use super::field::{Field, OneOrMore, Part, Text};
use super::syntax;
use super::tree::Node;
use crate::design::bounds::MOST_ITEMS;
use crate::diagnostic::{Place, Problem, Source, did_you_mean, nearest, shown, thousands};
use std::ops::Range;
use std::sync::Arc;

/// Collects the problems of one file.
pub(in crate::design) struct Check<'p> {
    /// The file.
    pub source: Arc<Source>,
    problems: &'p mut Vec<Problem>,
}

impl<'p> Check<'p> {
    /// For a file; what is found is added to `problems`.
    pub fn new(source: &Arc<Source>, problems: &'p mut Vec<Problem>) -> Check<'p> {
        Check { source: Arc::clone(source), problems }
    }

    /// A stretch of this file.
    pub fn place(&self, span: Range<usize>) -> Place {
        Place::new(&self.source, span)
    }

    /// Notes a problem.
    pub fn note(&mut self, problem: Problem) {
        self.problems.push(problem);
    }

    /// Notes an error at a stretch of this file.
    pub fn error(&mut self, span: Range<usize>, message: impl Into<String>, hint: impl Into<String>) {
        let place = self.place(span);
        self.note(Problem::error(message).at(place).hint(hint));
    }

    /// The value of a key that may be left out; notes a value that cannot be read.
    pub fn take<'f, T>(&mut self, field: &'f Field<T>, node: &Node, key: &str) -> Option<&'f T> {
        match field {
            Field::Missing => None,
            Field::Given(value) => Some(value),
            Field::Empty => {
                let span = node.entry(key).map_or(node.span.clone(), |(k, _)| k.span.clone());
                self.empty(span, key);
                None
            }
            Field::Wrong(wanted) => {
                let value = node.get(key);
                self.error(
                    value.span.clone(),
                    format!("`{key}` must be {wanted}"),
                    nearest_of(wanted, value.text()),
                );
                None
            }
        }
    }

    /// The value of a key that must be there.
    pub fn need<'f, T>(&mut self, field: &'f Field<T>, node: &Node, key: &str, hint: &str) -> Option<&'f T> {
        if matches!(field, Field::Missing) {
            self.error(node.span.clone(), format!("`{key}` is missing here"), hint);
        }
        self.take(field, node, key)
    }

    /// An item of a list or a mapping with names of the maker's.
    pub fn item<'f, T>(&mut self, field: &'f Field<T>, span: &Range<usize>, what: &str) -> Option<&'f T> {
        match field {
            Field::Given(value) => Some(value),
            Field::Missing | Field::Empty => {
                self.error(span.clone(), format!("{what} is empty"), "write it, or remove the line");
                None
            }
            Field::Wrong(wanted) => {
                self.error(span.clone(), format!("{what} must be {wanted}"), "");
                None
            }
        }
    }

    /// The text of a key that may be left out, without blanks round it; notes one that is too long.
    pub fn text(&mut self, field: &Field<Text>, node: &Node, key: &str, most: usize) -> Option<String> {
        let text = self.take(field, node, key)?;
        self.short(&text.0, &node.get(key).span, &format!("`{key}`"), most)
    }

    /// The text of a key that must be there, and not be empty.
    pub fn need_text(
        &mut self,
        field: &Field<Text>,
        node: &Node,
        key: &str,
        hint: &str,
        most: usize,
    ) -> Option<String> {
        self.need(field, node, key, hint)?;
        let text = self.text(field, node, key, most)?;
        if text.is_empty() {
            self.error(node.get(key).span.clone(), format!("`{key}` is empty"), hint);
            return None;
        }
        Some(text)
    }

    /// Texts of a list (or a single one in its place) with their stretches; notes those that are too long, and too many.
    pub fn texts(
        &mut self,
        list: &OneOrMore,
        node: &Node,
        what: &str,
        most: usize,
    ) -> Vec<(String, Range<usize>)> {
        let mut texts = Vec::new();
        for (i, field) in list.0.iter().enumerate() {
            let span = node.items().get(i).unwrap_or(node).span.clone();
            if i == MOST_ITEMS {
                let message =
                    format!("this list has {} items, and can have {MOST_ITEMS}", thousands(list.0.len()));
                self.error(span, message, "leave some out");
                break;
            }
            let Some(text) = self.item(field, &span, what) else { continue };
            texts.extend(self.short(&text.0, &span, what, most).map(|text| (text, span)));
        }
        texts
    }

    /// A text without blanks round it; notes one of more than so many characters.
    pub fn short(&mut self, text: &str, span: &Range<usize>, what: &str, most: usize) -> Option<String> {
        let text = text.trim();
        // Most texts are short, also in bytes.
        let length = if text.len() <= most { text.len() } else { text.chars().count() };
        if length <= most {
            return Some(text.to_owned());
        }
        self.error(
            span.clone(),
            format!("{what} has {} characters, and can have {}", thousands(length), thousands(most)),
            "write a shorter one",
        );
        None
    }

    /// Notes every key that a part does not take; whether there was any (then a missing key may be one misspelt).
    pub fn keys<T: Part>(&mut self, node: &Node) -> bool {
        let known = T::KEYS;
        let mut unknown = false;
        for (key, _) in node.entries() {
            if !known.contains(&key.text()) {
                let message = format!("`{}` is not a key that can stand here", shown(key.text()));
                self.error(key.span.clone(), message, did_you_mean(key.text(), known, "the keys here are"));
                unknown = true;
            }
        }
        unknown
    }

    /// Nothing stands after a key: perhaps it was taken for a comment.
    fn empty(&mut self, key: Range<usize>, name: &str) {
        let after = self.source.text.get(key.end..).unwrap_or("");
        let line = after.split('\n').next().unwrap_or("");
        let comment = line.find('#').filter(|&i| line[..i].trim_matches([' ', ':', '"', '\'']).is_empty());
        match comment {
            Some(i) => {
                let len = line[i + 1..].chars().take_while(char::is_ascii_alphanumeric).count() + 1;
                let problem = syntax::unquoted_colour(&self.source, key.end + i..key.end + i + len);
                self.note(problem);
            }
            None => {
                self.error(
                    key,
                    format!("nothing stands after `{name}`"),
                    "write its value, or remove the key",
                );
            }
        }
    }
}

/// The nearest of the words in backquotes to what stands there, as a hint.
fn nearest_of(wanted: &str, found: &str) -> String {
    let words = wanted.split('`').skip(1).step_by(2);
    nearest(found, words).map_or(String::new(), |word| format!("did you mean `{word}`?"))
}
