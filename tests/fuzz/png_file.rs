//! PNG files taken apart, changed, and put together again with check sums that agree, so that a change
//! reaches what decodes them.

use super::chance::Chance;
use super::picture_seeds::{PNGS, exif};
use super::text::stretch;

/// What every PNG file begins with.
const SIGNATURE: &[u8] = b"\x89PNG\r\n\x1a\n";
/// Names of chunks that mean something, and two that do not.
const NAMES: [&[u8; 4]; 18] = [
    b"IHDR", b"PLTE", b"IDAT", b"IEND", b"tRNS", b"eXIf", b"iCCP", b"gAMA", b"cHRM", b"sRGB", b"acTL",
    b"fcTL", b"fdAT", b"tEXt", b"sBIT", b"pHYs", b"xxXx", b"XXXX",
];
/// Sides at the edges of what is taken.
const SIDES: [u32; 12] = [0, 1, 2, 20, 22, 255, 2000, 7_745, 30_000, 30_001, 0x7fff_ffff, 0xffff_ffff];

/// A part of a PNG file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Chunk {
    pub name: [u8; 4],
    pub content: Vec<u8>,
}

/// The chunks of a whole file.
pub fn chunks(bytes: &[u8]) -> Vec<Chunk> {
    let mut chunks = Vec::new();
    let mut rest = &bytes[SIGNATURE.len()..];
    while let Some(([l3, l2, l1, l0, name @ ..], after)) = rest.split_first_chunk::<8>() {
        let length = u32::from_be_bytes([*l3, *l2, *l1, *l0]) as usize;
        chunks.push(Chunk { name: *name, content: after[..length].to_vec() });
        rest = &after[length + 4..];
    }
    chunks
}

/// A file of chunks, with their lengths and check sums.
pub fn written(chunks: &[Chunk]) -> Vec<u8> {
    let mut bytes = SIGNATURE.to_vec();
    for Chunk { name, content } in chunks {
        bytes.extend((content.len() as u32).to_be_bytes());
        let named = bytes.len();
        bytes.extend(name);
        bytes.extend(content);
        let sum = crc32fast::hash(&bytes[named..]);
        bytes.extend(sum.to_be_bytes());
    }
    bytes
}

/// Bytes deflated with zlib's head and sum.
pub fn packed(bytes: &[u8]) -> Vec<u8> {
    let mut deflate = libdeflater::Compressor::new(libdeflater::CompressionLvl::default());
    let mut packed = vec![0; deflate.zlib_compress_bound(bytes.len())];
    let length = deflate.zlib_compress(bytes, &mut packed).expect("room enough");
    packed.truncate(length);
    packed
}

/// A PNG with a few changes.
pub fn mutated(chance: &mut Chance) -> Vec<u8> {
    let mut parts = chunks(&PNGS[chance.below(PNGS.len())]);
    for _ in 0..chance.few() {
        change(&mut parts, chance);
    }
    written(&parts)
}

fn change(parts: &mut Vec<Chunk>, chance: &mut Chance) {
    if parts.is_empty() {
        return;
    }
    let at = chance.below(parts.len());
    match chance.below(12) {
        0 => drop(parts.remove(at)),
        1 => parts.insert(chance.below(parts.len()), parts[at].clone()),
        2 => {
            let other = chance.below(parts.len());
            parts.swap(at, other);
        }
        3 => parts[at].name = *chance.one_of(&NAMES),
        4 => {
            // A chunk of another file.
            let other = chunks(&PNGS[chance.below(PNGS.len())]);
            parts.insert(at + 1, other[chance.below(other.len())].clone());
        }
        5 => {
            let (name, content) = match chance.below(5) {
                0 => (*b"eXIf", exif(chance.any() as u8)),
                1 => (*b"tRNS", (0..chance.below(300)).map(|_| chance.any() as u8).collect()),
                2 => (*b"PLTE", (0..chance.below(800)).map(|_| chance.any() as u8).collect()),
                3 => (*b"IDAT", Vec::new()),
                _ => (*b"gAMA", (chance.any() as u32).to_be_bytes().to_vec()),
            };
            parts.insert(at, Chunk { name, content });
        }
        6 => {
            // The header: sides, bits, kind of colours, passes.
            if let Some(header) = parts.iter_mut().find(|p| p.name == *b"IHDR" && p.content.len() == 13) {
                match chance.below(4) {
                    0 => header.content[..4].copy_from_slice(&SIDES[chance.below(SIDES.len())].to_be_bytes()),
                    1 => {
                        header.content[4..8].copy_from_slice(&SIDES[chance.below(SIDES.len())].to_be_bytes())
                    }
                    2 => {
                        header.content[8] = [1, 2, 4, 8, 16, 3, 0][chance.below(7)];
                        header.content[9] = [0, 2, 3, 4, 6, 1, 7][chance.below(7)];
                    }
                    _ => header.content[10 + chance.below(3)] ^= 1,
                }
            }
        }
        7 => {
            // The data in other pieces.
            if let Some(at) = parts.iter().position(|p| p.name == *b"IDAT") {
                let middle = chance.below(parts[at].content.len());
                let content = parts[at].content.split_off(middle);
                parts.insert(at + 1, Chunk { name: *b"IDAT", content });
            }
        }
        8 | 9 => {
            // The rows behind the packing.
            if let Some(data) = parts.iter_mut().find(|p| p.name == *b"IDAT")
                && let Some(mut rows) = unpacked(&data.content)
            {
                bytes_changed(&mut rows, chance);
                data.content = packed(&rows);
            }
        }
        _ => bytes_changed(&mut parts[at].content, chance),
    }
}

/// What has been deflated.
fn unpacked(bytes: &[u8]) -> Option<Vec<u8>> {
    let mut rows = vec![0; 100_000];
    let length = libdeflater::Decompressor::new().zlib_decompress(bytes, &mut rows).ok()?;
    rows.truncate(length);
    Some(rows)
}

/// One change of bytes whatever they mean.
pub fn bytes_changed(bytes: &mut Vec<u8>, chance: &mut Chance) {
    if bytes.is_empty() {
        return bytes.push(chance.any() as u8);
    }
    let at = chance.below(bytes.len());
    match chance.below(7) {
        0 => bytes[at] ^= 1 << chance.below(8),
        1 => bytes[at] = [0, 1, 0x7f, 0x80, 0xfe, 0xff][chance.below(6)],
        2 => bytes[at] = chance.any() as u8,
        3 => bytes.insert(at, chance.any() as u8),
        4 => drop(bytes.drain(stretch(bytes.len(), 12, chance))),
        5 => {
            let piece = bytes[stretch(bytes.len(), 40, chance)].to_vec();
            bytes.splice(at..at, piece);
        }
        _ => bytes.truncate(at),
    }
}
