//! The texts of a file with their places, for what is found wrong with a text long after it was read.

use super::load::sound_tree;
use super::tree::{Kind, Node};
use crate::diagnostic::{Place, Source};
use std::sync::Arc;

/// A text as it stands in a file: a key or a value, never a comment.
#[derive(Clone, Debug, PartialEq)]
pub struct Written {
    /// The text, as it is read.
    pub text: String,
    /// Where it stands, all of it.
    pub place: Place,
}

impl Written {
    /// Where a character of the text stands; the whole text where it is written another way (`\u263a`).
    #[must_use]
    pub fn place_of(&self, c: char) -> Place {
        let Place { source, span } = &self.place;
        let at = source.text.get(span.clone()).and_then(|written| written.find(c)).map(|at| span.start + at);
        at.map_or_else(|| self.place.clone(), |at| Place::new(source, at..at + c.len_utf8()))
    }
}

/// Every text of a design, palette or studio file, in the order of the file; none of one that cannot be read.
#[must_use]
pub fn texts_of(source: &Arc<Source>) -> Vec<Written> {
    let mut texts = Vec::new();
    if let Ok(root) = sound_tree(source) {
        gather(source, &root, &mut texts);
    }
    texts
}

fn gather(source: &Arc<Source>, node: &Node, texts: &mut Vec<Written>) {
    if let Kind::Scalar { text, end, .. } = &node.kind {
        let place = Place::new(source, node.span.start..(*end).max(node.span.end));
        texts.push(Written { text: text.clone(), place });
    }
    for (key, value) in node.entries() {
        gather(source, key, texts);
        gather(source, value, texts);
    }
    for item in node.items() {
        gather(source, item, texts);
    }
}
