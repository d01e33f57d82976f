//! Links and boxes to tick: each says what it is for, and belongs to an element that is one.

use super::is_blank;
use super::survey::{Survey, named};
use crate::layout::{DisplayList, Link, NodeId, Page, Role, Target, TickBox};
use crate::paint::error::PaintError;

/// Checks all of them, and notes which nodes they belong to.
pub(super) fn check(list: &DisplayList, survey: &mut Survey) -> Result<(), PaintError> {
    for page in &list.pages {
        for one in &page.links {
            link(page, one)?;
            belongs(list, page, survey, one.node, &Role::Link, &one.alt)?;
        }
        for one in &page.ticks {
            tick(page, one)?;
            belongs(list, page, survey, one.node, &Role::Form, &one.name)?;
        }
    }
    Ok(())
}

fn link(page: &Page, link: &Link) -> Result<(), PaintError> {
    let numbers = [link.at.x, link.at.y, link.size.width, link.size.height];
    if !numbers.iter().all(|length| length.0.is_finite()) {
        return Err(PaintError::NotANumber { page: page.label.clone() });
    }
    if is_blank(&link.alt) {
        return Err(PaintError::SilentLink { page: page.label.clone() });
    }
    match &link.target {
        Target::Web(address) if is_blank(address) => {
            Err(PaintError::LeadsNowhere { page: page.label.clone(), words: link.alt.clone() })
        }
        Target::Web(_) | Target::Page { .. } => Ok(()),
    }
}

fn tick(page: &Page, tick: &TickBox) -> Result<(), PaintError> {
    if ![tick.at.x, tick.at.y, tick.side].iter().all(|length| length.0.is_finite()) {
        return Err(PaintError::NotANumber { page: page.label.clone() });
    }
    if is_blank(&tick.name) {
        return Err(PaintError::NamelessBox { page: page.label.clone() });
    }
    // A point would make it a field within a field (ISO 32000-1, 12.7.3.2).
    if tick.name.contains('.') {
        return Err(PaintError::PointInName { name: tick.name.clone() });
    }
    if is_blank(&tick.tooltip) {
        return Err(PaintError::SilentBox { name: tick.name.clone() });
    }
    Ok(())
}

fn belongs(
    list: &DisplayList,
    page: &Page,
    survey: &mut Survey,
    node: NodeId,
    wanted: &Role,
    words: &str,
) -> Result<(), PaintError> {
    let Some(owner) = list.nodes.get(node.0) else {
        let what = format!("“{words}” belongs to node {}, which there is not", node.0);
        return Err(PaintError::Reference { what });
    };
    if owner.role != *wanted {
        return Err(PaintError::WrongOwner {
            page: page.label.clone(),
            words: words.to_owned(),
            owner: named(&owner.role),
            wanted: named(wanted),
        });
    }
    survey.is_annotated[node.0] = true;
    Ok(())
}
