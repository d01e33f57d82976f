//! Bookmarks: nested by level, leading to their place on the page; and page labels.

use super::annotations::destination;
use super::error::PaintError;
use super::xmp::text;
use crate::layout::DisplayList;
use lopdf::{Dictionary, Document, Object, ObjectId, dictionary};

/// Adds the bookmarks and gives their root; `None` when there are none.
///
/// # Errors
/// When a bookmark leads to no page.
pub(super) fn add(
    list: &DisplayList,
    doc: &mut Document,
    pages: &[ObjectId],
) -> Result<Option<ObjectId>, PaintError> {
    if list.bookmarks.is_empty() {
        return Ok(None);
    }
    let root = doc.new_object_id();
    let ids: Vec<ObjectId> = list.bookmarks.iter().map(|_| doc.new_object_id()).collect();
    let parents = parents(list);
    let children =
        |of: Option<usize>| -> Vec<usize> { (0..parents.len()).filter(|i| parents[*i] == of).collect() };
    for (index, bookmark) in list.bookmarks.iter().enumerate() {
        let mut entry = dictionary! {
            "Title" => text(&bookmark.title),
            "Parent" => parents[index].map_or(root, |p| ids[p]),
            "Dest" => destination(list, pages, bookmark.page, bookmark.y, &bookmark.title)?,
        };
        let siblings = children(parents[index]);
        let at = siblings.iter().position(|s| *s == index).unwrap_or(0);
        if at > 0 {
            entry.set("Prev", ids[siblings[at - 1]]);
        }
        if let Some(next) = siblings.get(at + 1) {
            entry.set("Next", ids[*next]);
        }
        let below = children(Some(index));
        if let (Some(first), Some(last)) = (below.first(), below.last()) {
            entry.set("First", ids[*first]);
            entry.set("Last", ids[*last]);
            // Negative: closed when the file is opened, so that the sections are seen at a glance.
            entry.set("Count", -(below.len() as i64));
        }
        doc.objects.insert(ids[index], Object::Dictionary(entry));
    }
    let top = children(None);
    if let (Some(first), Some(last)) = (top.first(), top.last()) {
        let dict = dictionary! {
            "Type" => "Outlines",
            "First" => ids[*first],
            "Last" => ids[*last],
            "Count" => top.len() as i64,
        };
        doc.objects.insert(root, Object::Dictionary(dict));
    }
    Ok(Some(root))
}

/// For each bookmark the nearest one before it of a lower level.
fn parents(list: &DisplayList) -> Vec<Option<usize>> {
    let mut open: Vec<usize> = Vec::new();
    let mut parents = Vec::new();
    for (index, bookmark) in list.bookmarks.iter().enumerate() {
        while open.last().is_some_and(|o| list.bookmarks[*o].level >= bookmark.level) {
            open.pop();
        }
        parents.push(open.last().copied());
        open.push(index);
    }
    parents
}

/// Page labels (ISO 32000-1, 12.4.2): a range for numbers that go up by one, one entry for any other label.
pub(super) fn labels(list: &DisplayList) -> Dictionary {
    let mut numbers = Vec::new();
    let mut expected = None;
    for (index, page) in list.pages.iter().enumerate() {
        let number = page.label.parse::<i64>().ok().filter(|n| *n > 0 && n.to_string() == page.label);
        if number.is_none() || number != expected {
            numbers.push(Object::Integer(index as i64));
            numbers.push(Object::Dictionary(match number {
                Some(n) => dictionary! { "S" => "D", "St" => n },
                None => dictionary! { "P" => text(&page.label) },
            }));
        }
        expected = number.map(|n| n + 1);
    }
    dictionary! { "Nums" => numbers }
}
