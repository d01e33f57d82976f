//! Images: their data as they stand in a booklet, in a file of their own within the SVG.

use crate::images::{Colours, Packing, Plain};
use base64::Engine;
use base64::prelude::BASE64_STANDARD;

/// An image as an address that holds its data (RFC 2397).
pub(super) fn data(plain: &Plain) -> String {
    let (kind, bytes) = match plain.packing {
        Packing::Jpeg => ("jpeg", plain.data().collect::<Vec<_>>().concat()),
        Packing::PngRows => ("png", png(plain)),
    };
    format!("data:image/{kind};base64,{}", BASE64_STANDARD.encode(bytes))
}

/// Rows packed as PNG packs them, with what a PNG file has round them (PNG specification, third edition, 5 and 11.2).
fn png(plain: &Plain) -> Vec<u8> {
    let (kind, palette) = match &plain.colours {
        Colours::Grey => (0, None),
        Colours::Rgb => (2, None),
        Colours::Palette(colours) => (3, Some(colours)),
    };
    let mut out = b"\x89PNG\r\n\x1a\n".to_vec();
    let [across, down] = [plain.size.0, plain.size.1].map(u32::to_be_bytes);
    chunk(&mut out, b"IHDR", &[&across, &down, &[plain.bits, kind, 0, 0, 0]]);
    if let Some(palette) = palette {
        chunk(&mut out, b"PLTE", &[palette]);
    }
    chunk(&mut out, b"IDAT", &plain.data().collect::<Vec<_>>());
    chunk(&mut out, b"IEND", &[]);
    out
}

fn chunk(out: &mut Vec<u8>, kind: &[u8; 4], parts: &[&[u8]]) {
    let length: usize = parts.iter().map(|part| part.len()).sum();
    out.extend((length as u32).to_be_bytes());
    let start = out.len();
    out.extend(kind);
    parts.iter().for_each(|part| out.extend_from_slice(part));
    out.extend(crc32fast::hash(&out[start..]).to_be_bytes());
}
