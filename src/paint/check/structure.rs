//! The tree of the document: which element may stand in which (ISO 32000-1, 14.8.4), and that none
//! stands for nothing.

use super::is_blank;
use super::survey::{Survey, named};
use crate::layout::{DisplayList, Node, NodeId, Paint, Role, Standing};
use crate::paint::error::PaintError;

/// The deepest heading there is (ISO 32000-1, 14.8.4.3.2).
const DEEPEST_HEADING: u8 = 6;

/// All nodes in reading order.
///
/// # Errors
/// Unless the nodes are one tree from node 0: parents and children agree, nothing is named twice.
pub(super) fn order(nodes: &[Node]) -> Result<Vec<NodeId>, PaintError> {
    let wrong = |what: String| Err(PaintError::Reference { what });
    if nodes.first().is_none_or(|node| node.parent.is_some()) {
        return wrong("the document has no root node".to_owned());
    }
    let mut met = vec![false; nodes.len()];
    let mut order = Vec::with_capacity(nodes.len());
    let mut ahead = vec![NodeId(0)];
    met[0] = true;
    while let Some(at) = ahead.pop() {
        order.push(at);
        for child in nodes[at.0].children.iter().rev() {
            match nodes.get(child.0) {
                Some(node) if node.parent == Some(at) && !met[child.0] => {
                    met[child.0] = true;
                    ahead.push(*child);
                }
                _ => return wrong(format!("node {} has a child {} that is not its own", at.0, child.0)),
            }
        }
    }
    match met.iter().position(|met| !met) {
        Some(lost) => wrong(format!("node {lost} hangs nowhere")),
        None => Ok(order),
    }
}

/// Checks every element for its place and for what it must have.
pub(super) fn check(list: &DisplayList, survey: &Survey) -> Result<(), PaintError> {
    let mut level = 0;
    for at in &survey.order {
        let node = &list.nodes[at.0];
        let page = || survey.page_label(list, *at);
        place(list, node, page)?;
        if let Some(lacks) = lacking(list, survey, *at) {
            return Err(PaintError::Hollow { page: page(), what: named(&node.role), lacks });
        }
        match &node.role {
            Role::Heading(own) => {
                if *own == 0 || *own > DEEPEST_HEADING || *own > level + 1 {
                    let (page, words) = (page(), words(list, *at));
                    return Err(PaintError::HeadingLevel { page, words, level: *own, above: level });
                }
                level = *own;
            }
            Role::Figure { alt } if is_blank(alt) => return Err(PaintError::NoAlternative { page: page() }),
            _ => {}
        }
    }
    Ok(())
}

/// Whether a node may stand in its parent.
fn place(list: &DisplayList, node: &Node, page: impl Fn() -> String) -> Result<(), PaintError> {
    let Some(parent) = node.parent.map(|parent| &list.nodes[parent.0].role) else { return Ok(()) };
    let rule = match (parent, &node.role) {
        (_, Role::Document) => Some("there is one document"),
        (Role::List { .. }, Role::ListItem | Role::Caption) => None,
        (Role::List { .. }, _) => Some("only items may"),
        (Role::ListItem, Role::ListLabel | Role::ListBody) => None,
        (Role::ListItem, _) => Some("only its label and its text may"),
        (Role::Table { .. }, Role::TableHead | Role::TableBody | Role::TableRow | Role::Caption) => None,
        (Role::Table { .. }, _) => Some("only rows may"),
        (Role::TableHead | Role::TableBody, Role::TableRow) => None,
        (Role::TableHead | Role::TableBody, _) => Some("only rows may"),
        (Role::TableRow, Role::ColumnHeader { .. } | Role::RowHeader { .. } | Role::TableCell { .. }) => None,
        (Role::TableRow, _) => Some("only cells may"),
        (Role::Contents, Role::ContentsItem | Role::Contents | Role::Caption) => None,
        (Role::Contents, _) => Some("only entries may"),
        (_, Role::ListItem) => Some("it belongs in a list"),
        (_, Role::ListLabel | Role::ListBody) => Some("it belongs in an item of a list"),
        (_, Role::TableHead | Role::TableBody | Role::TableRow) => Some("it belongs in a table"),
        (_, Role::ColumnHeader { .. } | Role::RowHeader { .. } | Role::TableCell { .. }) => {
            Some("it belongs in a table row")
        }
        (_, Role::ContentsItem) => Some("it belongs in a table of contents"),
        (Role::ContentsItem, Role::Reference) => None,
        (_, Role::Reference) => Some("it belongs in an entry of the contents"),
        (Role::Figure { .. }, Role::Caption) => None,
        (_, Role::Caption) => Some("it belongs to a figure, a table or a list"),
        (
            _,
            Role::Section
            | Role::Heading(_)
            | Role::Paragraph
            | Role::List { .. }
            | Role::Table { .. }
            | Role::Figure { .. }
            | Role::Contents
            | Role::Link
            | Role::Form
            | Role::Span,
        ) => None,
    };
    match rule {
        Some(rule) => {
            let (what, within) = (named(&node.role), named(parent));
            Err(PaintError::Misplaced { page: page(), what, within, rule })
        }
        None => Ok(()),
    }
}

/// What a node must have and does not.
fn lacking(list: &DisplayList, survey: &Survey, at: NodeId) -> Option<&'static str> {
    let node = &list.nodes[at.0];
    let lacks_child =
        |wanted: fn(&Role) -> bool| !node.children.iter().any(|c| wanted(&list.nodes[c.0].role));
    let is_numbered = |parent: NodeId| list.nodes[parent.0].role == Role::List { numbered: true };
    match &node.role {
        Role::Heading(_) | Role::Caption if !survey.has_words[at.0] => Some("words"),
        Role::Link if !survey.has_words[at.0] => Some("words"),
        Role::Link if !survey.is_annotated[at.0] => Some("a place that it leads to"),
        Role::Form if !survey.is_annotated[at.0] => Some("a field on its page"),
        Role::Figure { .. } if survey.page[at.0].is_none() => Some("anything drawn"),
        Role::List { .. } if lacks_child(|role| *role == Role::ListItem) => Some("items"),
        Role::ListItem if lacks_child(|role| *role == Role::ListBody) => Some("a text"),
        Role::ListItem
            if node.parent.is_some_and(is_numbered) && lacks_child(|role| *role == Role::ListLabel) =>
        {
            Some("a label, in a list with numbers")
        }
        Role::Table { .. } | Role::TableHead | Role::TableBody | Role::TableRow | Role::Contents
            if node.children.is_empty() =>
        {
            Some("anything in it")
        }
        _ => None,
    }
}

/// The words of a node and of what is below it.
fn words(list: &DisplayList, of: NodeId) -> String {
    let below = |mut at: NodeId| loop {
        match list.nodes[at.0].parent {
            _ if at == of => return true,
            Some(parent) => at = parent,
            None => return false,
        }
    };
    let items = list.pages.iter().flat_map(|page| &page.items);
    items
        .filter(|item| matches!(item.standing, Standing::Content(node) if below(node)))
        .filter_map(|item| match &item.paint {
            Paint::Glyphs(line) => Some(line),
            Paint::Bead(_) | Paint::Path(_) | Paint::Image(_) => None,
        })
        .flat_map(|line| line.glyphs.iter().map(|glyph| glyph.text.as_str()))
        .collect()
}
