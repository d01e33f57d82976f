//! A hash of what a file shows: the operators of its pages, what lies on them and its bookmarks. It is
//! recorded when a file is made, so that a later run can tell a file that another program has only saved
//! again, with other object numbers and compression, from one that somebody has written in.
//!
//! Left out is what ticking a box changes: a field's value and its look.

use lopdf::{Dictionary, Document, Error, Object, ObjectId, decode_text_string};
use sha2::{Digest, Sha256};
use std::collections::BTreeSet;
use std::fmt::Write;

/// Bytes kept of the hash.
const KEPT: usize = 12;
/// The most that the operators of one page may come to: beyond it a file is none of ours.
const LARGEST_PAGE: usize = 1 << 26;

/// The hash, as hexadecimal.
///
/// # Errors
/// When the file is not in order.
pub(super) fn hash(doc: &Document) -> Result<String, Error> {
    let mut shown = String::new();
    for page in doc.page_iter() {
        page_text(doc, page, &mut shown)?;
    }
    for title in bookmarks(doc)? {
        // Writing to a string cannot fail.
        let _ = writeln!(shown, "bookmark {title}");
    }
    let hash = Sha256::digest(shown.as_bytes());
    Ok(hash.iter().take(KEPT).map(|byte| format!("{byte:02x}")).collect())
}

/// One line for the page's operators, one for each link, box or note on it.
fn page_text(doc: &Document, page: ObjectId, shown: &mut String) -> Result<(), Error> {
    let dict = doc.get_dictionary(page)?;
    let mut operators = Vec::new();
    for id in doc.get_page_contents(page) {
        let stream = doc.get_object(id)?.as_stream()?;
        if stream.dict.has(b"Filter") {
            operators.extend(stream.decompressed_content_with_limit(LARGEST_PAGE)?);
        } else {
            operators.extend(&stream.content);
        }
        operators.push(b'\n');
    }
    // Programs end streams with line feeds or without.
    let operators = operators.trim_ascii();
    // By number and not by their own hash: this is done for every booklet, and no one means to deceive.
    let _ = writeln!(shown, "page {} {:08x}", operators.len(), crc32fast::hash(operators));
    if let Ok(turned) = dict.get_deref(b"Rotate", doc).and_then(Object::as_i64) {
        let _ = writeln!(shown, "turned {}", turned.rem_euclid(360));
    }
    let mut lines = Vec::new();
    for annotation in annotations(doc, page)? {
        let kind = String::from_utf8_lossy(annotation.get(b"Subtype")?.as_name()?);
        lines.push(match field_name(doc, annotation) {
            Some(name) => format!("{kind} {name}\n"),
            None => format!("{kind}\n"),
        });
    }
    // Programs put them in an order of their own.
    lines.sort();
    shown.extend(lines);
    Ok(())
}

/// Links, boxes and notes of a page.
pub(super) fn annotations(doc: &Document, page: ObjectId) -> Result<Vec<&Dictionary>, Error> {
    let Ok(list) = doc.get_dictionary(page)?.get_deref(b"Annots", doc) else { return Ok(Vec::new()) };
    list.as_array()?.iter().map(|object| doc.dereference(object)?.1.as_dict()).collect()
}

/// The name of the form field that an annotation shows: its own, or that of the field it is one of the
/// widgets of (ISO 32000-1, 12.5.6.19).
pub(super) fn field_name(doc: &Document, annotation: &Dictionary) -> Option<String> {
    let own = annotation.get_deref(b"T", doc).and_then(decode_text_string);
    let parent =
        || annotation.get_deref(b"Parent", doc)?.as_dict()?.get_deref(b"T", doc).and_then(decode_text_string);
    own.or_else(|_| parent()).ok()
}

/// The words of all bookmarks, in order.
fn bookmarks(doc: &Document) -> Result<Vec<String>, Error> {
    let mut titles = Vec::new();
    let Ok(root) = doc.catalog()?.get_deref(b"Outlines", doc) else { return Ok(titles) };
    let first = |dict: &Dictionary, key: &[u8]| dict.get(key).and_then(Object::as_reference).ok();
    let mut ahead: Vec<ObjectId> = first(root.as_dict()?, b"First").into_iter().collect();
    let mut seen = BTreeSet::new();
    while let Some(id) = ahead.pop() {
        // A damaged file may lead round in a circle.
        if !seen.insert(id) {
            return Err(Error::ReferenceCycle(id));
        }
        let bookmark = doc.get_dictionary(id)?;
        titles.push(decode_text_string(bookmark.get_deref(b"Title", doc)?)?);
        ahead.extend(first(bookmark, b"Next"));
        ahead.extend(first(bookmark, b"First"));
    }
    Ok(titles)
}
