//! From the finished document to bytes: streams deflated here, object streams, and an ID that
//! depends on the content alone.

use super::error::PaintError;
use super::operators::write_number;
use crate::images::Plain;
use libdeflater::{CompressionLvl, Compressor};
use lopdf::content::{Content, Operation};
use lopdf::{Dictionary, Document, Object, ObjectId, Stream, StringFormat, dictionary};
use rayon::prelude::*;
use siphasher::sip128::{Hasher128, SipHasher13};
use std::cell::RefCell;
use std::collections::BTreeMap;
use std::hash::Hasher;

/// Level of deflate: from 5 to 6 files shrink by a fortieth, from 6 to 8 by another, and take a tenth and then
/// half as long again.
const LEVEL: i32 = 5;
/// Bytes of a stream that it is not worth deflating.
const SHORTEST_DEFLATED: usize = 40;
/// Objects in one object stream: most booklets have two, which both processors deflate.
const OBJECTS_A_STREAM: usize = 450;
/// Bytes of a row of the cross-reference stream: widths 1, 4 and 2.
const REFERENCE: usize = 7;
/// A row given as its differences from the row above (PNG specification, 9.2, filter type 2).
const PNG_UP: u8 = 2;
thread_local! {
    /// Its tables are large and a booklet has a hundred small streams: one serves all of a thread.
    static DEFLATER: RefCell<Compressor> =
        RefCell::new(Compressor::new(CompressionLvl::new(LEVEL).unwrap_or_default()));
}
/// Bytes of most booklets without their images.
const USUAL: usize = 1 << 17;
/// What the file begins with. Four bytes above 127 tell programs that this is no text (ISO 19005-2, 6.1.2).
pub(super) const HEAD: &[u8] = b"%PDF-1.7\n%\xBB\xAD\xC0\xDE\n";
/// Stands in for the ID while the bytes that it is made of are written.
pub(super) const NO_ID: [u8; 16] = *b"\x00\x01\x02\x03fringebook\x04\x05";

/// Bytes deflated with zlib's wrapping, as `FlateDecode` takes them.
pub(super) fn deflated(bytes: &[u8]) -> Vec<u8> {
    DEFLATER.with_borrow_mut(|deflater| {
        let mut out = vec![0; deflater.zlib_compress_bound(bytes.len())];
        // The bound leaves room for whatever comes: there is nothing to fail.
        let length = deflater.zlib_compress(bytes, &mut out).unwrap_or(0);
        out.truncate(length);
        out
    })
}

/// The file. `metadata` comes first in it, uncompressed, so that they are found without reading the rest;
/// `written` are objects that are text already, `images` the data of streams that are still without, `ready`
/// those that are deflated already.
///
/// # Errors
/// When lopdf cannot write it.
pub(super) fn save(
    mut doc: Document,
    metadata: ObjectId,
    written: Vec<(u32, Vec<u8>)>,
    images: &BTreeMap<u32, &Plain>,
    mut ready: BTreeMap<ObjectId, Vec<u8>>,
) -> Result<Vec<u8>, PaintError> {
    for (id, object) in &mut doc.objects {
        let Object::Stream(stream) = object else { continue };
        if *id != metadata && !stream.dict.has(b"Filter") && stream.content.len() > SHORTEST_DEFLATED {
            stream.content = ready.remove(id).unwrap_or_else(|| deflated(&stream.content));
            stream.dict.set("Filter", "FlateDecode");
        }
        stream.dict.set("Length", stream.content.len() as i64);
    }
    let id = Object::String(NO_ID.to_vec(), StringFormat::Hexadecimal);
    doc.trailer.set("ID", vec![id.clone(), id]);
    let mut bytes = write(doc, metadata, written, images)?;
    give_id(&mut bytes)?;
    Ok(bytes)
}

/// Writes the file: streams as they are, all other objects in object streams, and where they stand in a
/// cross-reference stream (ISO 32000-1, 7.5.7 and 7.5.8). lopdf puts objects into text; its own way of
/// filling object streams copies each object and puts it into text three times.
fn write(
    mut doc: Document,
    metadata: ObjectId,
    written: Vec<(u32, Vec<u8>)>,
    images: &BTreeMap<u32, &Plain>,
) -> Result<Vec<u8>, PaintError> {
    let pixels: usize = images.values().map(|plain| plain.length()).sum();
    let mut out = Vec::with_capacity(pixels + USUAL);
    out.extend(HEAD);
    let mut whereabouts = BTreeMap::new();
    let mut last = doc.max_id;
    let mut others = written;
    let first = doc.objects.remove_entry(&metadata);
    for ((id, _), object) in first.into_iter().chain(doc.objects) {
        match object {
            Object::Stream(mut stream) => {
                whereabouts.insert(id, Whereabouts::Byte(out.len()));
                match images.get(&id) {
                    None => write_stream(&mut out, id, stream)?,
                    Some(plain) => {
                        stream.dict.set("Length", plain.length() as i64);
                        write_parts(&mut out, id, stream.dict, plain.data())?;
                    }
                }
            }
            other => others.push((id, text_of(other)?)),
        }
    }
    others.sort_by_key(|(id, _)| *id);
    let streams: Vec<Stream> = others.par_chunks(OBJECTS_A_STREAM).map(object_stream).collect();
    for (others, stream) in others.chunks(OBJECTS_A_STREAM).zip(streams) {
        last += 1;
        for (index, (id, _)) in others.iter().enumerate() {
            whereabouts.insert(*id, Whereabouts::Packed(last, index));
        }
        whereabouts.insert(last, Whereabouts::Byte(out.len()));
        write_stream(&mut out, last, stream)?;
    }
    last += 1;
    let start = out.len();
    whereabouts.insert(last, Whereabouts::Byte(start));
    let mut dict = doc.trailer;
    dict.set("Type", "XRef");
    dict.set("Size", i64::from(last) + 1);
    dict.set("W", vec![1.into(), 4.into(), 2.into()]);
    dict.set("Index", index(&whereabouts));
    dict.set("DecodeParms", dictionary! { "Predictor" => 12, "Columns" => REFERENCE as i64 });
    write_stream(&mut out, last, packed(dict, &differences(&whereabouts)))?;
    out.extend(format!("\nstartxref\n{start}\n%%EOF\n").bytes());
    Ok(out)
}

/// An object stream (ISO 32000-1, 7.5.7): where each object begins, then all of them.
fn object_stream(objects: &[(u32, Vec<u8>)]) -> Stream {
    let mut content = Vec::with_capacity(objects.iter().map(|(_, text)| text.len() + 16).sum());
    let mut start = 0;
    for (id, text) in objects {
        for number in [f64::from(*id), start as f64] {
            write_number::<0>(&mut content, number);
            content.push(b' ');
        }
        start += text.len();
    }
    let heads = content.len();
    objects.iter().for_each(|(_, text)| content.extend_from_slice(text));
    let dict = dictionary! {
        "Type" => "ObjStm", "N" => objects.len() as i64, "First" => heads as i64,
    };
    packed(dict, &content)
}

/// Where an object stands.
enum Whereabouts {
    /// By itself, this far into the file.
    Byte(usize),
    /// In an object stream: its number, and the place in it.
    Packed(u32, usize),
}

/// A deflated stream.
fn packed(mut dict: Dictionary, content: &[u8]) -> Stream {
    let content = deflated(content);
    dict.set("Filter", "FlateDecode");
    dict.set("Length", content.len() as i64);
    Stream::new(dict, content)
}

fn write_stream(out: &mut Vec<u8>, id: u32, stream: Stream) -> Result<(), PaintError> {
    write_parts(out, id, stream.dict, [stream.content.as_slice()].into_iter())
}

fn write_parts<'p>(
    out: &mut Vec<u8>,
    id: u32,
    dict: Dictionary,
    parts: impl Iterator<Item = &'p [u8]>,
) -> Result<(), PaintError> {
    out.extend(format!("{id} 0 obj\n").bytes());
    out.append(&mut text_of(Object::Dictionary(dict))?);
    out.extend(b"stream\n");
    parts.for_each(|part| out.extend_from_slice(part));
    out.extend(b"\nendstream\nendobj\n");
    Ok(())
}

/// An object's text with a space after it, as lopdf writes what stands before an operator.
fn text_of(object: Object) -> Result<Vec<u8>, PaintError> {
    let operations = [Operation { operator: String::new(), operands: vec![object] }];
    Content { operations }.encode().map_err(|e| PaintError::Writing { reason: e.to_string() })
}

/// Which numbers the rows of the cross-reference stream stand for: first and count of each run.
fn index(whereabouts: &BTreeMap<u32, Whereabouts>) -> Object {
    let mut runs: Vec<(u32, u32)> = Vec::new();
    for id in whereabouts.keys() {
        match runs.last_mut() {
            Some((first, count)) if *first + *count == *id => *count += 1,
            _ => runs.push((*id, 1)),
        }
    }
    runs.into_iter()
        .flat_map(|(first, count)| [Object::from(first), Object::from(count)])
        .collect::<Vec<_>>()
        .into()
}

/// The rows of the cross-reference stream, as differences from row to row (ISO 32000-1, 7.4.4.4): most
/// rows are the one before plus one.
fn differences(whereabouts: &BTreeMap<u32, Whereabouts>) -> Vec<u8> {
    let mut above = [0; REFERENCE];
    let mut out = Vec::with_capacity(whereabouts.len() * (REFERENCE + 1));
    for place in whereabouts.values() {
        let (kind, where_to, rest) = match place {
            Whereabouts::Byte(at) => (1, *at as u32, 0),
            Whereabouts::Packed(stream, index) => (2, *stream, *index as u16),
        };
        let mut row = [kind; REFERENCE];
        row[1..5].copy_from_slice(&where_to.to_be_bytes());
        row[5..].copy_from_slice(&rest.to_be_bytes());
        out.push(PNG_UP);
        out.extend(row.iter().zip(above).map(|(byte, above)| byte.wrapping_sub(above)));
        above = row;
    }
    out
}

/// Puts the hash of the content where the ID is to stand, twice.
fn give_id(bytes: &mut [u8]) -> Result<(), PaintError> {
    let id = id_of(bytes);
    let wanted = hex(&NO_ID);
    let mut end = bytes.len();
    for _ in 0..2 {
        let found =
            bytes[..end].windows(wanted.len()).rposition(|w| w.eq_ignore_ascii_case(wanted.as_bytes()));
        let Some(at) = found else {
            return Err(PaintError::Writing { reason: "the file has no place for its ID".to_owned() });
        };
        bytes[at..at + id.len()].copy_from_slice(id.as_bytes());
        end = at;
    }
    Ok(())
}

/// The hash of a file without its ID, as hexadecimal. It tells files apart and guards nothing
/// (ISO 32000-1, 14.4), so a fast one will do.
fn id_of(bytes: &[u8]) -> String {
    let mut hasher = SipHasher13::new();
    hasher.write(bytes);
    hex(&hasher.finish128().as_bytes())
}

fn hex(bytes: &[u8]) -> String {
    bytes.iter().map(|b| format!("{b:02X}")).collect()
}

/// Whether a file is as [`save`] wrote it, to the byte: its ID is that of its content.
pub(super) fn is_as_saved(bytes: &[u8]) -> bool {
    let Some(at) = bytes.windows(3).rposition(|w| w == b"/ID") else { return false };
    let mut blank = bytes.to_vec();
    let mut found = Vec::new();
    let mut from = at;
    for _ in 0..2 {
        let digits = blank[from..].iter().position(|b| *b == b'<').map(|open| from + open + 1);
        let Some(place) = digits.map(|start| start..start + 2 * NO_ID.len()).filter(|p| p.end < bytes.len())
        else {
            return false;
        };
        found.push(bytes[place.clone()].to_vec());
        from = place.end;
        blank[place].copy_from_slice(hex(&NO_ID).as_bytes());
    }
    let id = id_of(&blank);
    found.iter().all(|digits| digits == id.as_bytes())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_is_as_saved_until_any_byte_changes() {
        let mut doc = Document::new();
        let root = doc.add_object(dictionary! { "Type" => "Catalog" });
        doc.trailer.set("Root", root);
        let metadata = doc.add_object(Stream::new(Dictionary::new(), Vec::new()));
        let bytes = save(doc, metadata, Vec::new(), &BTreeMap::new(), BTreeMap::new()).expect("saved");
        assert!(is_as_saved(&bytes));
        for at in 0..bytes.len() {
            let mut other = bytes.clone();
            other[at] ^= 1;
            assert!(!is_as_saved(&other), "byte {at}");
        }
        assert!(!is_as_saved(&[&bytes[..], b"\n"].concat()));
        assert!(!is_as_saved(b"") && !is_as_saved(b"/ID") && !is_as_saved(b"/ID[<00"));
    }
}
