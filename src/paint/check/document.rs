//! What the file says of itself, its pages and its bookmarks.

use super::is_blank;
use crate::layout::DisplayList;
use crate::paint::error::PaintError;

pub(super) fn check(list: &DisplayList) -> Result<(), PaintError> {
    if is_blank(&list.meta.title) {
        return Err(PaintError::NoTitle);
    }
    if !is_language(&list.meta.language) {
        return Err(PaintError::Language { tag: list.meta.language.clone() });
    }
    pages(list)?;
    bookmarks(list)
}

/// A well-formed tag: a language of two to eight letters, then subtags (BCP 47, RFC 5646, 2.1).
fn is_language(tag: &str) -> bool {
    let mut parts = tag.split('-');
    let language = parts.next().unwrap_or("");
    let subtag =
        |part: &str| (1..=8).contains(&part.len()) && part.bytes().all(|b| b.is_ascii_alphanumeric());
    (2..=8).contains(&language.len())
        && language.bytes().all(|b| b.is_ascii_alphabetic())
        && parts.all(subtag)
}

fn pages(list: &DisplayList) -> Result<(), PaintError> {
    if list.pages.is_empty() {
        return Err(PaintError::NoPages);
    }
    match list.pages.iter().position(|page| is_blank(&page.label)) {
        Some(page) => Err(PaintError::NoPageLabel { number: page + 1 }),
        None => Ok(()),
    }
}

/// Bookmarks begin at level 1 and go down one level at a time, so that each has its place in the tree.
fn bookmarks(list: &DisplayList) -> Result<(), PaintError> {
    let mut above = 0;
    for bookmark in &list.bookmarks {
        if is_blank(&bookmark.title) {
            return Err(PaintError::NamelessBookmark { page: bookmark.page + 1 });
        }
        if bookmark.level == 0 || bookmark.level > above + 1 {
            let (title, level) = (bookmark.title.clone(), bookmark.level);
            return Err(PaintError::BookmarkLevel { title, level, above });
        }
        above = bookmark.level;
    }
    Ok(())
}
