//! From the finished document to bytes: streams deflated here, object streams, and an ID that
//! depends on the content alone.

use super::error::PaintError;
use flate2::{Compress, Compression, FlushCompress, Status};
use lopdf::{Document, Object, SaveOptions, StringFormat};
use sha2::{Digest, Sha256};
use std::cell::RefCell;

/// Level of deflate: from 6 to 9 files shrink by a hundredth and take twice as long.
const LEVEL: u32 = 6;
/// Objects in one object stream.
const OBJECTS_A_STREAM: usize = 1000;
/// Bytes of an entry of the cross-reference stream, as lopdf writes it: widths 1, 4 and 2.
const REFERENCE: usize = 7;
/// A row given as its differences from the row above (PNG specification, 9.2, filter type 2).
const PNG_UP: u8 = 2;
thread_local! {
    /// Its tables are large and a booklet has a hundred small streams: one serves all of a thread.
    static DEFLATER: RefCell<Compress> = RefCell::new(Compress::new(Compression::new(LEVEL), true));
}
/// Stands in for the ID while the bytes that it is made of are written.
const NO_ID: [u8; 16] = *b"\x00\x01\x02\x03fringebook\x04\x05";

/// Bytes deflated with zlib's wrapping, as `FlateDecode` takes them.
pub(super) fn deflated(bytes: &[u8]) -> Vec<u8> {
    DEFLATER.with_borrow_mut(|deflater| {
        deflater.reset();
        let mut out = Vec::with_capacity(bytes.len() / 3 + 64);
        loop {
            let rest = bytes.get(deflater.total_in() as usize..).unwrap_or_default();
            match deflater.compress_vec(rest, &mut out, FlushCompress::Finish) {
                Ok(Status::Ok | Status::BufError) => out.reserve(out.len() / 2 + 64),
                // With the whole input at hand and room to write there is nothing to fail.
                Ok(Status::StreamEnd) | Err(_) => return out,
            }
        }
    })
}

/// The file.
///
/// # Errors
/// When lopdf cannot write it.
pub(super) fn save(mut doc: Document) -> Result<Vec<u8>, PaintError> {
    for object in doc.objects.values_mut() {
        if let Object::Stream(stream) = object {
            let metadata = stream.dict.has_type(b"Metadata");
            if !metadata && !stream.dict.has(b"Filter") && stream.content.len() > 40 {
                stream.content = deflated(&stream.content);
                stream.dict.set("Filter", "FlateDecode");
            }
            stream.dict.set("Length", stream.content.len() as i64);
        }
    }
    doc.version = "1.7".to_owned();
    let id = Object::String(NO_ID.to_vec(), StringFormat::Hexadecimal);
    doc.trailer.set("ID", vec![id.clone(), id]);
    let options = SaveOptions::builder()
        .use_object_streams(true)
        .use_xref_streams(true)
        .max_objects_per_stream(OBJECTS_A_STREAM)
        .compression_level(LEVEL)
        .build();
    let mut bytes = Vec::new();
    doc.save_with_options(&mut bytes, options).map_err(|e| PaintError::Writing { reason: e.to_string() })?;
    bytes.push(b'\n');
    let mut bytes = deflate_references(&bytes).unwrap_or(bytes);
    give_id(&mut bytes)?;
    Ok(bytes)
}

/// Deflates the cross-reference stream, which lopdf leaves as it is: as differences from row to row
/// (ISO 32000-1, 7.4.4.4), as most rows are the one before plus one. It is the file's last object, so
/// nothing moves. `None` when the file does not end as lopdf ends it.
fn deflate_references(bytes: &[u8]) -> Option<Vec<u8>> {
    let last = |wanted: &[u8], end: usize| bytes.get(..end)?.windows(wanted.len()).rposition(|w| w == wanted);
    let tail = last(b"startxref\n", bytes.len())?;
    let digits = bytes[tail + 10..].split(|b| *b == b'\n').next()?;
    let start: usize = std::str::from_utf8(digits).ok()?.parse().ok()?;
    let head_length = bytes.get(start..)?.windows(7).position(|w| w == b"stream\n")? + 7;
    let head = std::str::from_utf8(&bytes[start..start + head_length]).ok()?;
    let (before, after) = head.split_once("/Length ")?;
    let length: usize = after.chars().take_while(char::is_ascii_digit).collect::<String>().parse().ok()?;
    let content = bytes.get(start + head_length..start + head_length + length)?;
    let rows = content.chunks_exact(REFERENCE);
    if !rows.remainder().is_empty() || !head.contains("/W[1 4 2]") {
        return None;
    }
    let mut above = [0; REFERENCE];
    let mut differences = Vec::with_capacity(content.len() / REFERENCE * (REFERENCE + 1));
    for row in rows {
        differences.push(PNG_UP);
        differences.extend(row.iter().zip(above).map(|(byte, above)| byte.wrapping_sub(above)));
        above.copy_from_slice(row);
    }
    let packed = deflated(&differences);
    let after = after.trim_start_matches(|c: char| c.is_ascii_digit());
    let how = format!("/DecodeParms<</Predictor 12/Columns {REFERENCE}>>");
    let mut out = bytes[..start].to_vec();
    out.extend(format!("{before}/Filter/FlateDecode{how}/Length {}{after}", packed.len()).bytes());
    out.extend(packed);
    out.extend(&bytes[start + head_length + length..]);
    Some(out)
}

/// Puts the first half of the content's SHA-256 where the ID is to stand, twice.
fn give_id(bytes: &mut [u8]) -> Result<(), PaintError> {
    let digest = Sha256::digest(&*bytes);
    let id: String = digest.iter().take(16).map(|b| format!("{b:02X}")).collect();
    let wanted: String = NO_ID.iter().map(|b| format!("{b:02X}")).collect();
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
