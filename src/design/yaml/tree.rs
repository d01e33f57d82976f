//! Where everything in a YAML file stands: its nodes with their stretches of the text.
//!
//! The values themselves are read by serde; the tree says where they are, and refuses beforehand
//! what would make reading expensive (nesting, aliases that multiply) or ambiguous (a key given twice).

use super::syntax;
use crate::design::bounds::{DEEPEST, MOST_NODES, MOST_TOLD};
use crate::diagnostic::{Place, Problem, Source, thousands};
use saphyr_parser::{Event, Parser, ScalarStyle, Span};
use std::collections::BTreeMap;
use std::ops::Range;
use std::sync::Arc;

/// How a scalar is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Style {
    /// Without quotes, on its line.
    Plain,
    /// In quotes.
    Quoted,
    /// A block after `|`, line by line.
    Literal,
    /// A block after `>`, lines joined.
    Folded,
}

/// One node of the file.
#[derive(Clone, Debug)]
pub(crate) struct Node {
    /// Its stretch of the text; of a mapping or a list that of its first line.
    pub span: Range<usize>,
    /// What it is.
    pub kind: Kind,
}

/// What a node is.
#[derive(Clone, Debug)]
pub(crate) enum Kind {
    /// A text, number, or nothing.
    Scalar {
        /// As it is read.
        text: String,
        /// How it is written.
        style: Style,
        /// Where it ends in the text of the file, on whatever line.
        end: usize,
    },
    /// A list.
    List(Vec<Node>),
    /// Keys and values, in the order of the file.
    Mapping(Vec<(Node, Node)>),
}

impl Node {
    /// The text of a scalar; empty for anything else.
    pub fn text(&self) -> &str {
        match &self.kind {
            Kind::Scalar { text, .. } => text,
            _ => "",
        }
    }

    /// How a scalar is written; plain for anything else.
    pub fn style(&self) -> Style {
        match &self.kind {
            Kind::Scalar { style, .. } => *style,
            _ => Style::Plain,
        }
    }

    /// The key and value under a name.
    pub fn entry(&self, key: &str) -> Option<&(Node, Node)> {
        match &self.kind {
            Kind::Mapping(entries) => entries.iter().find(|(k, _)| k.text() == key),
            _ => None,
        }
    }

    /// The value under a key, or else this node, so that a place is always known.
    pub fn get(&self, key: &str) -> &Node {
        self.entry(key).map_or(self, |(_, value)| value)
    }

    /// The value under a key, its place that of the key; or else this node.
    pub fn named(&self, key: &str) -> Node {
        self.entry(key).map_or_else(
            || self.clone(),
            |(name, value)| Node { span: name.span.clone(), kind: value.kind.clone() },
        )
    }

    /// The keys and values of a mapping.
    pub fn entries(&self) -> &[(Node, Node)] {
        match &self.kind {
            Kind::Mapping(entries) => entries,
            _ => &[],
        }
    }

    /// The items of a list.
    pub fn items(&self) -> &[Node] {
        match &self.kind {
            Kind::List(items) => items,
            _ => &[],
        }
    }

    fn size(&self) -> usize {
        /// A long text weighs as much as several short ones.
        const BYTES_A_NODE: usize = 100;
        1 + match &self.kind {
            Kind::Scalar { text, .. } => text.len() / BYTES_A_NODE,
            Kind::List(items) => items.iter().map(Node::size).sum(),
            Kind::Mapping(entries) => entries.iter().map(|(k, v)| k.size() + v.size()).sum(),
        }
    }
}

/// The tree of a file's nodes.
///
/// # Errors
/// What stops it from being read at all: broken YAML, nesting or aliases beyond all bounds, more than one document.
pub(super) fn tree_of(source: &Arc<Source>) -> Result<Node, Vec<Problem>> {
    let bytes = ByteOffsets::new(&source.text);
    let mut growing = Growing::new(source);
    for event in Parser::new_from_str(&source.text) {
        match event {
            Ok((event, span)) => growing.take(event, bytes.range(span)).map_err(|p| vec![p])?,
            Err(error) => {
                return Err(syntax::explain(source, bytes.at(error.marker().index()), error.info()));
            }
        }
    }
    Ok(growing.root.unwrap_or_else(|| empty(0..0)))
}

/// Every key that stands twice in one mapping.
pub(super) fn repeated_keys(source: &Arc<Source>, node: &Node, problems: &mut Vec<Problem>) {
    let mut first: BTreeMap<&str, &Node> = BTreeMap::new();
    for (key, value) in node.entries() {
        if problems.len() > MOST_TOLD {
            return;
        }
        if let Some(before) = first.get(key.text()) {
            let (line, _) = Place::new(source, before.span.clone()).line_column();
            problems.push(
                Problem::error(format!("`{}` is given twice", crate::diagnostic::shown(key.text())))
                    .at(Place::new(source, key.span.clone()))
                    .hint(format!("it stands in line {line} already: keep one of the two")),
            );
        } else {
            first.insert(key.text(), key);
        }
        repeated_keys(source, value, problems);
    }
    for item in node.items() {
        repeated_keys(source, item, problems);
    }
}

fn empty(span: Range<usize>) -> Node {
    let end = span.end;
    Node { span, kind: Kind::Scalar { text: String::new(), style: Style::Plain, end } }
}

/// A list or mapping still open.
struct Open {
    node: Node,
    anchor: usize,
    key: Option<Node>,
}

/// The tree as far as it is read.
struct Growing<'s> {
    source: &'s Arc<Source>,
    open: Vec<Open>,
    anchors: BTreeMap<usize, Node>,
    nodes: usize,
    root: Option<Node>,
}

impl<'s> Growing<'s> {
    fn new(source: &'s Arc<Source>) -> Growing<'s> {
        Growing { source, open: Vec::new(), anchors: BTreeMap::new(), nodes: 0, root: None }
    }

    fn take(&mut self, event: Event<'_>, span: Range<usize>) -> Result<(), Problem> {
        match event {
            Event::Scalar(text, style, anchor, _) => {
                let style = match style {
                    ScalarStyle::Plain => Style::Plain,
                    ScalarStyle::SingleQuoted | ScalarStyle::DoubleQuoted => Style::Quoted,
                    ScalarStyle::Literal => Style::Literal,
                    ScalarStyle::Folded => Style::Folded,
                };
                let end = span.end;
                let span = self.tidy(span);
                let node = Node { span, kind: Kind::Scalar { text: text.into_owned(), style, end } };
                self.count(node.size(), &node.span)?;
                self.add(node, anchor)
            }
            Event::SequenceStart(anchor, _) => self.start(Kind::List(Vec::new()), anchor, span),
            Event::MappingStart(anchor, _) => self.start(Kind::Mapping(Vec::new()), anchor, span),
            Event::SequenceEnd | Event::MappingEnd => match self.open.pop() {
                Some(mut open) => {
                    // Only what stands in brackets has an end of its own; the parser counts a comment after it in.
                    if self.source.text[open.node.span.start..].starts_with(['{', '[']) {
                        open.node.span = self.tidy(open.node.span.start..span.start + 1);
                    }
                    self.add(open.node, open.anchor)
                }
                None => Ok(()),
            },
            Event::Alias(anchor) => match self.anchors.get(&anchor).cloned() {
                Some(node) => {
                    self.count(node.size(), &span)?;
                    self.add(node, 0)
                }
                None => Err(self
                    .problem(span, "this `*` name stands inside the part that it names")
                    .hint("write the value out instead")),
            },
            Event::DocumentStart(_) if self.root.is_some() => Err(self
                .problem(span, "a second document begins here")
                .hint("a file holds one document: remove the `---` and what follows, or put it into its own file")),
            _ => Ok(()),
        }
    }

    fn start(&mut self, kind: Kind, anchor: usize, span: Range<usize>) -> Result<(), Problem> {
        let span = self.tidy(span);
        if self.open.len() >= DEEPEST {
            return Err(syntax::nested(self.source, span));
        }
        self.count(1, &span)?;
        self.open.push(Open { node: Node { span, kind }, anchor, key: None });
        Ok(())
    }

    fn add(&mut self, node: Node, anchor: usize) -> Result<(), Problem> {
        if anchor > 0 {
            self.anchors.insert(anchor, node.clone());
            self.count(node.size(), &node.span)?;
        }
        match self.open.last_mut() {
            None => self.root = Some(node),
            Some(open) => match (&mut open.node.kind, open.key.take()) {
                (Kind::List(items), _) => items.push(node),
                (Kind::Mapping(entries), Some(key)) => entries.push((key, node)),
                (_, None) => open.key = Some(node),
                (Kind::Scalar { .. }, Some(_)) => {}
            },
        }
        Ok(())
    }

    fn count(&mut self, more: usize, span: &Range<usize>) -> Result<(), Problem> {
        self.nodes += more;
        if self.nodes > MOST_NODES {
            return Err(self
                .problem(
                    span.clone(),
                    format!(
                        "the file holds more than {} values once its `*` names are written out",
                        thousands(MOST_NODES)
                    ),
                )
                .hint("write the values out instead of naming them with `&` and `*`"));
        }
        Ok(())
    }

    /// A stretch that ends with its first line and holds no blanks at its end.
    fn tidy(&self, span: Range<usize>) -> Range<usize> {
        let text = self.source.text.get(span.clone()).unwrap_or("");
        let line = text.split('\n').next().unwrap_or("").trim_end();
        span.start..span.start + line.len()
    }

    fn problem(&self, span: Range<usize>, message: impl Into<String>) -> Problem {
        Problem::error(message).at(Place::new(self.source, span))
    }
}

/// Byte offsets of a text's characters (the YAML parser counts characters).
struct ByteOffsets {
    /// Empty when every character is one byte.
    offsets: Vec<usize>,
    len: usize,
}

impl ByteOffsets {
    fn new(text: &str) -> ByteOffsets {
        let offsets =
            if text.is_ascii() { Vec::new() } else { text.char_indices().map(|(i, _)| i).collect() };
        ByteOffsets { offsets, len: text.len() }
    }

    fn at(&self, index: usize) -> usize {
        if self.offsets.is_empty() {
            index.min(self.len)
        } else {
            self.offsets.get(index).copied().unwrap_or(self.len)
        }
    }

    fn range(&self, span: Span) -> Range<usize> {
        let start = self.at(span.start.index());
        start..self.at(span.end.index()).max(start)
    }
}
