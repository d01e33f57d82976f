//! Reads a made file again, whichever program has saved it since: which boxes are ticked, and whether
//! anything else has been put into it.

use super::digest::{Digested, digest_of};
use super::save::{HEAD, is_as_saved};
use super::seen::{self, annotations, field_name};
use lopdf::xref::XrefEntry;
use lopdf::{Dictionary, Document, Error, FilterFunc, LoadOptions, Object, decode_text_string};
use std::collections::BTreeSet;

/// The most that one stream of a file may come to when it is inflated: a file that holds more is none of ours.
const LARGEST_STREAM: usize = 1 << 26;
/// What stands before the place of the table of objects, at the end of a file (ISO 32000-1, 7.5.5).
const START: &[u8] = b"startxref";
/// What a file ends with.
const END: &[u8] = b"%%EOF";

/// What has become of a file since it was made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Standing {
    /// It shows what it was made to show, but for ticks.
    Ticked {
        /// Names of the boxes that are ticked; none in a file that is as it was made.
        boxes: BTreeSet<String>,
    },
    /// It has notes, highlights or the like.
    NotedOn {
        /// Their pages, from 1.
        pages: Vec<usize>,
    },
    /// Its pages, boxes or bookmarks are no longer those that were made.
    Changed,
    /// It is cut short, and nobody had saved it again before.
    CutShort,
    /// It cannot be told.
    Unclear,
}

/// What has become of a file since it was made. `has_boxes`: whether it was made with boxes to tick.
#[must_use]
pub fn standing(bytes: &[u8], has_boxes: bool) -> Standing {
    if !has_boxes && is_as_saved(bytes) {
        return Standing::Ticked { boxes: BTreeSet::new() };
    }
    if is_cut_short(bytes) {
        return Standing::CutShort;
    }
    load(bytes, None)
        .and_then(|doc| if is_read_in_place(bytes, &doc)? { judged(&doc) } else { Ok(Standing::Unclear) })
        .unwrap_or(Standing::Unclear)
}

/// The digest in a file that another program has saved, wherever it has put it. `None` when there is none.
#[must_use]
pub fn digest_within(bytes: &[u8]) -> Option<Digested> {
    load(bytes, None).and_then(|doc| digest_in(&doc)).ok()?
}

fn load(bytes: &[u8], filter: Option<FilterFunc>) -> Result<Document, Error> {
    let max_decompressed_size = Some(LARGEST_STREAM);
    Document::load_mem_with_options(
        bytes,
        LoadOptions { filter, max_decompressed_size, ..LoadOptions::default() },
    )
}

/// Whether every object was read from where the file says that it stands. In place of one that is damaged
/// lopdf takes an older one of the same number from an object stream: a box as it was before it was ticked.
fn is_read_in_place(bytes: &[u8], doc: &Document) -> Result<bool, Error> {
    let by_themselves =
        load(bytes, Some(|id, object| (!is_object_stream(object)).then(|| (id, object.clone()))))?;
    Ok(doc.objects.iter().all(|(id, object)| {
        by_themselves.objects.contains_key(id)
            || is_object_stream(object)
            || !matches!(doc.reference_table.get(id.0), Some(XrefEntry::Normal { .. }))
    }))
}

fn is_object_stream(object: &Object) -> bool {
    object.as_stream().is_ok_and(|stream| stream.dict.has_type(b"ObjStm"))
}

fn digest_in(doc: &Document) -> Result<Option<Digested>, Error> {
    let metadata = doc.catalog()?.get_deref(b"Metadata", doc)?.as_stream()?;
    if metadata.dict.has(b"Filter") {
        Ok(digest_of(&metadata.decompressed_content_with_limit(LARGEST_STREAM)?))
    } else {
        Ok(digest_of(&metadata.content))
    }
}

fn judged(doc: &Document) -> Result<Standing, Error> {
    let mut pages = Vec::new();
    let mut boxes = BTreeSet::new();
    for (index, page) in doc.page_iter().enumerate() {
        for annotation in annotations(doc, page)? {
            match annotation.get(b"Subtype")?.as_name()? {
                b"Widget" if is_ticked(doc, annotation)? => boxes.extend(field_name(doc, annotation)),
                b"Widget" | b"Link" => {}
                _ => pages.push(index + 1),
            }
        }
    }
    pages.dedup();
    if !pages.is_empty() {
        return Ok(Standing::NotedOn { pages });
    }
    Ok(match digest_in(doc)? {
        None => Standing::Unclear,
        Some(made) if made.drawn.is_empty() => Standing::Unclear,
        Some(made) if made.drawn != seen::hash(doc)? || has_attachments(doc)? => Standing::Changed,
        Some(_) => Standing::Ticked { boxes },
    })
}

/// Whether a box is ticked, by the value of its field or by its look: programs should keep the two in
/// step, and where one does not, no tick shall be lost.
///
/// # Errors
/// When it has no look, as every box must (ISO 32000-1, 12.5.5).
fn is_ticked(doc: &Document, widget: &Dictionary) -> Result<bool, Error> {
    let look = widget.get_deref(b"AS", doc)?;
    let parent = widget.get_deref(b"Parent", doc).and_then(Object::as_dict).ok();
    let value = widget.get_deref(b"V", doc).ok().or_else(|| parent?.get_deref(b"V", doc).ok());
    Ok(is_on(look) || value.is_some_and(is_on))
}

/// Any name but `Off` (ISO 32000-1, 12.7.4.2.3); some programs write it as a text.
fn is_on(state: &Object) -> bool {
    match state {
        Object::Name(name) => name != b"Off",
        Object::String(..) => decode_text_string(state).is_ok_and(|text| !text.is_empty() && text != "Off"),
        _ => false,
    }
}

/// Whether files have been attached; no booklet has any.
fn has_attachments(doc: &Document) -> Result<bool, Error> {
    let catalogue = doc.catalog()?;
    let names = catalogue.get_deref(b"Names", doc).and_then(Object::as_dict);
    Ok(catalogue.has(b"AF") || names.is_ok_and(|names| names.has(b"EmbeddedFiles")))
}

/// Whether a file ends too soon and is otherwise as it was made: it begins as files are made, and nobody has
/// put a later part behind the end that it was made with.
fn is_cut_short(bytes: &[u8]) -> bool {
    let find = |within: &[u8], wanted: &[u8]| within.windows(wanted.len()).position(|w| w == wanted);
    bytes.starts_with(HEAD) && find(bytes, START).is_none_or(|at| find(&bytes[at..], END).is_none())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_cut_short_is_told_from_one_that_was_saved_again_before() {
        let whole = [HEAD, b"1 0 obj\n(%%EOF)\nendobj\nstartxref\n9\n%%EOF\n"].concat();
        assert!(!is_cut_short(&whole));
        for cut in 2..whole.len() - HEAD.len() {
            assert!(is_cut_short(&whole[..whole.len() - cut]), "{cut}");
        }
        let saved_again = [&whole[..], b"7 0 obj\n<< /V /Yes >>\nendobj\nstart"].concat();
        assert!(!is_cut_short(&saved_again));
        assert!(!is_cut_short(b"%PDF-1.7\n%\xbf\xf7\xa2\xfe\n1 0 obj\n"));
    }

    #[test]
    fn what_is_no_file_of_ours_is_unclear() {
        for bytes in [&b""[..], b"%PDF-1.7", b"%PDF-1.4 set by hand\nstartxref\n0\n%%EOF\n"] {
            assert_eq!(standing(bytes, true), Standing::Unclear);
            assert_eq!(standing(bytes, false), Standing::Unclear);
            assert_eq!(digest_within(bytes), None);
        }
    }
}
