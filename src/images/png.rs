//! A PNG file taken apart (W3C PNG specification, third edition, 5): its size, its colours, and where its
//! data stand.

use super::fault::Fault;
use super::turn::Turn;
use std::ops::Range;

/// What every PNG file begins with.
pub(super) const SIGNATURE: &[u8] = b"\x89PNG\r\n\x1a\n";

/// How a PNG file gives its colours.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Kind {
    /// Grey, without transparency.
    Grey,
    /// Red, green and blue, without transparency.
    Rgb,
    /// Numbers of colours in a palette, which may be clear.
    Palette,
    /// With the transparency of each pixel, or one colour that is clear.
    Clear,
}

/// A PNG file.
#[derive(Debug)]
pub(super) struct Png {
    /// Pixels across and down, as saved.
    pub(super) size: (u32, u32),
    /// How it is to be held.
    pub(super) turn: Turn,
    /// How it gives its colours.
    pub(super) kind: Kind,
    /// Bits a sample: 1, 2, 4, 8 or 16.
    pub(super) bits: u8,
    /// Saved in passes from coarse to fine.
    pub(super) interlaced: bool,
    /// Red, green and blue of each colour of the palette; a clear one is laid on white.
    pub(super) palette: Vec<u8>,
    /// Where the data stand in the file.
    pub(super) data: Vec<Range<usize>>,
}

/// Takes a PNG file apart. What follows its end is dropped.
pub(super) fn look(bytes: &[u8]) -> Result<Png, Fault> {
    let mut header: Option<[u8; 13]> = None;
    let mut turn = Turn::UPRIGHT;
    let (mut palette, mut clear) = (Vec::new(), None);
    let mut data = Vec::new();
    let mut at = SIGNATURE.len();
    loop {
        let head: &[u8; 8] = bytes.get(at..).and_then(<[u8]>::first_chunk).ok_or(Fault::CutShort)?;
        let [l3, l2, l1, l0, name @ ..] = *head;
        let start = at + head.len();
        let end = start + u32::from_be_bytes([l3, l2, l1, l0]) as usize;
        let content = bytes.get(start..end).ok_or(Fault::CutShort)?;
        // The check sum of each chunk is looked at when the image is decoded.
        at = end + 4;
        if at > bytes.len() {
            return Err(Fault::CutShort);
        }
        match &name {
            b"IHDR" if header.is_none() => header = content.first_chunk().copied(),
            _ if header.is_none() => return Err(Fault::Damaged),
            // What tells of colours comes before the data (PNG specification, section 5.6): no decoder takes it later.
            b"PLTE" | b"tRNS" if !data.is_empty() => return Err(Fault::Damaged),
            b"PLTE" => palette = content.to_vec(),
            b"tRNS" => clear = Some(content),
            b"eXIf" => turn = Turn::of_exif(content),
            b"IDAT" => data.push(start..end),
            b"IEND" => break,
            _ => {}
        }
    }
    let header = header.ok_or(Fault::Damaged)?;
    let side = |at: usize| u32::from_be_bytes([header[at], header[at + 1], header[at + 2], header[at + 3]]);
    let (size, bits, interlaced) = ((side(0), side(4)), header[8], header[12] != 0);
    let kind = match (header[9], clear) {
        (0, None) => Kind::Grey,
        (2, None) => Kind::Rgb,
        (3, _) => Kind::Palette,
        (0 | 2, Some(_)) | (4 | 6, _) => Kind::Clear,
        _ => return Err(Fault::Damaged),
    };
    let has_colours = (3..=768).contains(&palette.len()) && palette.len() % 3 == 0;
    if size.0 == 0 || size.1 == 0 || data.is_empty() || (kind == Kind::Palette && !has_colours) {
        return Err(Fault::Damaged);
    }
    for (colour, alpha) in palette.chunks_exact_mut(3).zip(clear.unwrap_or_default()) {
        for sample in colour {
            *sample = on_white(*sample, *alpha);
        }
    }
    Ok(Png { size, turn, kind, bits, interlaced, palette, data })
}

/// A sample laid on white: there is no transparency in a booklet. `alpha` is 255 where nothing shines through.
pub(super) fn on_white(sample: u8, alpha: u8) -> u8 {
    let (s, a) = (u32::from(sample), u32::from(alpha));
    ((s * a + 255 * (255 - a) + 127) / 255) as u8
}
