//! JPEG files taken apart, changed, and put together again.

use super::chance::Chance;
use super::picture_seeds::{JPEGS, exif};
use super::png_file::bytes_changed;

/// What stands before each marker.
const MARK: u8 = 0xff;
/// Markers that mean something.
const MARKERS: [u8; 18] = [
    0xc0, 0xc1, 0xc2, 0xc3, 0xc4, 0xc8, 0xcc, 0xd0, 0xd8, 0xd9, 0xda, 0xdb, 0xdc, 0xdd, 0xe0, 0xe1, 0xee,
    0xfe,
];
/// Sides at the edges of what is taken.
const SIDES: [u16; 9] = [0, 1, 8, 16, 23, 255, 7_000, 30_001, 0xffff];

/// A part of a JPEG file: a marker, the segment that follows it, and the data of a scan.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Part {
    marker: u8,
    /// Without its length; `None` where the marker has no segment.
    segment: Option<Vec<u8>>,
    /// Said of its length that is not so.
    amiss: i8,
    scan: Vec<u8>,
}

/// The parts of a whole file.
pub fn parts(bytes: &[u8]) -> Vec<Part> {
    let mut parts = Vec::new();
    let mut at = 0;
    while at + 1 < bytes.len() {
        let marker = bytes[at + 1];
        at += 2;
        let mut segment = None;
        if !matches!(marker, 0xd8 | 0xd9) {
            let length = usize::from(u16::from_be_bytes([bytes[at], bytes[at + 1]]));
            segment = Some(bytes[at + 2..at + length].to_vec());
            at += length;
        }
        let data = bytes[at..].windows(2).position(|w| w[0] == MARK && !matches!(w[1], 0 | 0xd0..=0xd7));
        let end = at + data.unwrap_or(bytes.len() - at);
        parts.push(Part { marker, segment, amiss: 0, scan: bytes[at..end].to_vec() });
        at = end;
    }
    parts
}

pub fn written(parts: &[Part]) -> Vec<u8> {
    let mut bytes = Vec::new();
    for part in parts {
        bytes.extend([MARK, part.marker]);
        if let Some(segment) = &part.segment {
            let length = (segment.len() as u16 + 2).wrapping_add_signed(i16::from(part.amiss));
            bytes.extend(length.to_be_bytes());
            bytes.extend(segment);
        }
        bytes.extend(&part.scan);
    }
    bytes
}

/// A JPEG with a few changes.
pub fn mutated(chance: &mut Chance) -> Vec<u8> {
    let mut all = parts(&JPEGS[chance.below(JPEGS.len())]);
    for _ in 0..chance.few() {
        change(&mut all, chance);
    }
    written(&all)
}

fn change(all: &mut Vec<Part>, chance: &mut Chance) {
    if all.is_empty() {
        return;
    }
    let at = chance.below(all.len());
    match chance.below(13) {
        0 => drop(all.remove(at)),
        1 => all.insert(chance.below(all.len()), all[at].clone()),
        2 => {
            let other = chance.below(all.len());
            all.swap(at, other);
        }
        3 => all[at].marker = MARKERS[chance.below(MARKERS.len())],
        4 => all[at].amiss = chance.any() as i8,
        5 => {
            let other = parts(&JPEGS[chance.below(JPEGS.len())]);
            all.insert(at, other[chance.below(other.len())].clone());
        }
        6 => {
            let (marker, content) = match chance.below(6) {
                0 => (0xe1, [b"Exif\0\0", &exif(chance.any() as u8)[..]].concat()),
                1 => (0xe2, [&b"ICC_PROFILE\0\x01\x01"[..], &chance.any().to_be_bytes()].concat()),
                2 => (0xee, [&b"Adobe\0\x64\0\0\0\0"[..], &[chance.below(4) as u8]].concat()),
                3 => (
                    0xe0,
                    [&b"JFIF\0\x01\x02\0\0\x01\0\x01"[..], &[chance.below(3) as u8; 2], &[9; 12]].concat(),
                ),
                4 => (0xdd, vec![0, chance.below(5) as u8]),
                _ => (0xfe, b"in my garden".to_vec()),
            };
            all.insert(at, Part { marker, segment: Some(content), amiss: 0, scan: Vec::new() });
        }
        7 | 8 => {
            // The frame: sides, samples a pixel, how densely each is saved, and with which table.
            let frame = all.iter_mut().find(|p| (0xc0..=0xc2).contains(&p.marker));
            if let Some(content) = frame.and_then(|p| p.segment.as_mut()).filter(|content| content.len() > 8)
            {
                match chance.below(5) {
                    0 => content[1..3].copy_from_slice(&SIDES[chance.below(SIDES.len())].to_be_bytes()),
                    1 => content[3..5].copy_from_slice(&SIDES[chance.below(SIDES.len())].to_be_bytes()),
                    2 => content[5] = [1, 2, 3, 4, 0, 255][chance.below(6)],
                    3 => {
                        let at = 7 + 3 * chance.below(4);
                        if let Some(density) = content.get_mut(at) {
                            *density =
                                [0x11, 0x12, 0x21, 0x22, 0x41, 0x44, 0x31, 0x13, 0, 0xff][chance.below(10)];
                        }
                    }
                    _ => {
                        let at = 6 + chance.below(content.len() - 6);
                        content[at] = chance.below(5) as u8;
                    }
                }
            }
        }
        9 | 10 => {
            // The data of a scan.
            let scans: Vec<usize> = (0..all.len()).filter(|i| !all[*i].scan.is_empty()).collect();
            if let Some(&at) = scans.get(chance.below(scans.len())) {
                let scan = &mut all[at].scan;
                if chance.once_in(4) {
                    let at = chance.below(scan.len() + 1);
                    scan.splice(at..at, [MARK, 0xd0 + chance.below(10) as u8]);
                } else {
                    bytes_changed(scan, chance);
                }
            }
        }
        _ => {
            if let Some(content) = &mut all[at].segment {
                bytes_changed(content, chance);
            }
        }
    }
}
