//! One walk over all items of all pages: what stands in each node, and whether its glyphs can be read.

use super::is_blank;
use crate::layout::{DisplayList, Glyphs, Item, Layer, LayerNames, NodeId, Page, Paint, Role, Standing};
use crate::paint::error::PaintError;

/// What is known of every node; each index is a [`NodeId`].
pub(super) struct Survey {
    /// All nodes in reading order.
    pub order: Vec<NodeId>,
    /// The page on which the node, or anything below it, first stands.
    pub page: Vec<Option<usize>>,
    /// Whether it or anything below it has words: glyphs, or a figure's alternative text.
    pub has_words: Vec<bool>,
    /// Whether links or boxes belong to it. Filled by `annotations`.
    pub is_annotated: Vec<bool>,
}

impl Survey {
    /// The label of the page on which a node stands, or would stand if there were anything in it.
    pub(super) fn page_label(&self, list: &DisplayList, node: NodeId) -> String {
        let before = self.order.iter().take_while(|at| **at != node);
        let near = before.filter_map(|at| self.page[at.0]).max();
        let page = self.page[node.0].or(near).unwrap_or(0);
        list.pages.get(page).map_or_else(String::new, |page| page.label.clone())
    }
}

/// Looks at every item once.
///
/// # Errors
/// At content that stands in no element, or in one that holds other elements only; at drawings that
/// are no figure; at glyphs that cannot be read out.
pub(super) fn survey(list: &DisplayList, order: &[NodeId]) -> Result<Survey, PaintError> {
    let count = list.nodes.len();
    let mut survey = Survey {
        order: order.to_vec(),
        page: vec![None; count],
        has_words: vec![false; count],
        is_annotated: vec![false; count],
    };
    let drawable = drawable(list, order);
    for (number, page) in list.pages.iter().enumerate() {
        for item in &page.items {
            layer(&list.layer_names, item)?;
            if let Paint::Glyphs(line) = &item.paint {
                glyphs(page, line)?;
            }
            let Standing::Content(NodeId(node)) = item.standing else { continue };
            let Some(of) = list.nodes.get(node) else {
                let what = format!("an item belongs to node {node}, which there is not");
                return Err(PaintError::Reference { what });
            };
            if survey.page[node].is_none() {
                survey.page[node] = Some(number);
                if !holds_content(&of.role) {
                    return Err(PaintError::Loose { page: page.label.clone(), within: named(&of.role) });
                }
            }
            match &item.paint {
                Paint::Glyphs(line) => survey.has_words[node] = survey.has_words[node] || says(line),
                Paint::Bead(_) | Paint::Path(_) | Paint::Image(_) if drawable[node] => {}
                Paint::Bead(_) | Paint::Path(_) | Paint::Image(_) => {
                    return Err(PaintError::NoFigure { page: page.label.clone(), within: named(&of.role) });
                }
            }
        }
    }
    hand_up(list, &mut survey);
    Ok(survey)
}

/// In which nodes something may be drawn: figures, what stands in one, and the labels of items, where
/// a bead lies behind its letter as a bullet would stand.
fn drawable(list: &DisplayList, order: &[NodeId]) -> Vec<bool> {
    let mut may = vec![false; list.nodes.len()];
    for at in order {
        let node = &list.nodes[at.0];
        let own = matches!(node.role, Role::Figure { .. } | Role::ListLabel);
        may[at.0] = own || node.parent.is_some_and(|parent| may[parent.0]);
    }
    may
}

/// What stands in a node stands in those it belongs to as well.
fn hand_up(list: &DisplayList, survey: &mut Survey) {
    for at in survey.order.iter().rev() {
        let node = &list.nodes[at.0];
        if let Role::Figure { alt } = &node.role {
            survey.has_words[at.0] = survey.has_words[at.0] || !is_blank(alt);
        }
        if let Some(parent) = node.parent {
            survey.has_words[parent.0] |= survey.has_words[at.0];
            survey.page[parent.0] = match (survey.page[parent.0], survey.page[at.0]) {
                (Some(one), Some(other)) => Some(one.min(other)),
                (one, other) => one.or(other),
            };
        }
    }
}

/// A layer that is used has a name to be shown by.
fn layer(names: &LayerNames, item: &Item) -> Result<(), PaintError> {
    let (name, what) = match item.layer {
        None => return Ok(()),
        Some(Layer::Letters) => (&names.letters, "letters"),
        Some(Layer::Marks) => (&names.marks, "thread marks"),
        Some(Layer::Grid) => (&names.grid, "guide lines"),
    };
    if is_blank(name) { Err(PaintError::NoLayerName { what }) } else { Ok(()) }
}

fn says(line: &Glyphs) -> bool {
    line.glyphs.iter().any(|glyph| !is_blank(&glyph.text))
}

/// Every glyph stands for characters that a reader knows. Where several glyphs make one character the
/// first carries it, so a line cannot begin with one that carries nothing.
fn glyphs(page: &Page, line: &Glyphs) -> Result<(), PaintError> {
    let whole = || line.glyphs.iter().map(|glyph| glyph.text.as_str()).collect();
    if line.glyphs.first().is_some_and(|glyph| glyph.text.is_empty()) {
        return Err(PaintError::NoCharacter { page: page.label.clone(), line: whole() });
    }
    for glyph in &line.glyphs {
        // All such characters begin with a byte from EE on in UTF-8, and hardly any other does.
        if glyph.text.as_bytes().iter().any(|byte| *byte >= 0xee)
            && let Some(character) = glyph.text.chars().find(|c| is_private(*c))
        {
            return Err(PaintError::PrivateUse { page: page.label.clone(), character, line: whole() });
        }
    }
    Ok(())
}

/// Whether a character means only what two parties agree on (Unicode 15.1, 23.5).
fn is_private(c: char) -> bool {
    matches!(c, '\u{e000}'..='\u{f8ff}' | '\u{f0000}'..='\u{ffffd}' | '\u{100000}'..='\u{10fffd}')
}

/// Whether a role may hold content of its own; the others group elements (ISO 32000-1, 14.8.4.2).
fn holds_content(role: &Role) -> bool {
    match role {
        Role::Document
        | Role::Section
        | Role::List { .. }
        | Role::ListItem
        | Role::Table { .. }
        | Role::TableHead
        | Role::TableBody
        | Role::TableRow
        | Role::Contents
        | Role::ContentsItem => false,
        Role::Heading(_)
        | Role::Paragraph
        | Role::ListLabel
        | Role::ListBody
        | Role::ColumnHeader { .. }
        | Role::RowHeader { .. }
        | Role::TableCell { .. }
        | Role::Figure { .. }
        | Role::Caption
        | Role::Reference
        | Role::Link
        | Role::Form
        | Role::Span => true,
    }
}

/// A role in a sentence.
pub(super) fn named(role: &Role) -> &'static str {
    match role {
        Role::Document => "the document",
        Role::Section => "a section",
        Role::Heading(_) => "a heading",
        Role::Paragraph => "a paragraph",
        Role::List { .. } => "a list",
        Role::ListItem => "an item of a list",
        Role::ListLabel => "the label of an item",
        Role::ListBody => "the text of an item",
        Role::Table { .. } => "a table",
        Role::TableHead => "the heading rows of a table",
        Role::TableBody => "the rows of a table",
        Role::TableRow => "a table row",
        Role::ColumnHeader { .. } => "the header of a column",
        Role::RowHeader { .. } => "the header of a row",
        Role::TableCell { .. } => "a table cell",
        Role::Figure { .. } => "a figure",
        Role::Caption => "a caption",
        Role::Contents => "a table of contents",
        Role::ContentsItem => "an entry of the contents",
        Role::Reference => "a reference",
        Role::Link => "a link",
        Role::Form => "a box to tick",
        Role::Span => "a stretch of text",
    }
}
