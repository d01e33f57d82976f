//! Pictures: JPEG files pass through where a PDF can hold them as they are, all others are decoded
//! and laid on white, because there is no transparency in the file.

use super::error::PaintError;
use super::operators::{dict, external, map, name_of};
use super::save::deflated;
use crate::design::Picture;
use image::DynamicImage;
use printpdf::{DictItem, XObject};

/// What a JPEG's frame header says (ITU-T T.81, B.2.2).
struct Frame {
    width: u32,
    height: u32,
    bits: u8,
    channels: u8,
}

/// A picture as an object of the file.
///
/// # Errors
/// When it cannot be decoded.
pub(super) fn picture(picture: &Picture) -> Result<XObject, PaintError> {
    if let Some(frame) = jpeg_frame(&picture.bytes)
        && frame.bits == 8
        && matches!(frame.channels, 1 | 3)
    {
        let space = if frame.channels == 1 { "DeviceGray" } else { "DeviceRGB" };
        let filter = vec![("Filter", name_of("DCTDecode"))];
        return Ok(object(frame.width, frame.height, space, filter, picture.bytes.clone()));
    }
    let decoded = image::load_from_memory(&picture.bytes)
        .map_err(|e| PaintError::Picture { name: picture.name.clone(), reason: e.to_string() })?;
    let (width, height) = (decoded.width(), decoded.height());
    let (space, channels, pixels) = on_white(&decoded);
    let parameters = dict([
        ("Predictor", DictItem::Int(15)),
        ("Colors", DictItem::Int(channels as i64)),
        ("BitsPerComponent", DictItem::Int(8)),
        ("Columns", DictItem::Int(i64::from(width))),
    ]);
    let packed = deflated(&predicted(&pixels, width as usize * channels, channels));
    let filter = vec![("Filter", name_of("FlateDecode")), ("DecodeParms", parameters)];
    Ok(object(width, height, space, filter, packed))
}

fn object(width: u32, height: u32, space: &str, filter: Vec<(&str, DictItem)>, content: Vec<u8>) -> XObject {
    let mut dict = map([
        ("Type", name_of("XObject")),
        ("Subtype", name_of("Image")),
        ("Width", DictItem::Int(i64::from(width))),
        ("Height", DictItem::Int(i64::from(height))),
        ("BitsPerComponent", DictItem::Int(8)),
        ("ColorSpace", name_of(space)),
    ]);
    dict.extend(filter.into_iter().map(|(k, v)| (k.to_owned(), v)));
    external(dict, content)
}

/// Colour space, channels and samples of a picture without its transparency.
fn on_white(decoded: &DynamicImage) -> (&'static str, usize, Vec<u8>) {
    let over = |sample: u8, alpha: u8| {
        let (s, a) = (u32::from(sample), u32::from(alpha));
        ((s * a + 255 * (255 - a) + 127) / 255) as u8
    };
    if decoded.color().has_color() {
        let pixels = decoded.to_rgba8();
        let samples = pixels.pixels().flat_map(|p| [over(p[0], p[3]), over(p[1], p[3]), over(p[2], p[3])]);
        ("DeviceRGB", 3, samples.collect())
    } else {
        let pixels = decoded.to_luma_alpha8();
        ("DeviceGray", 1, pixels.pixels().map(|p| over(p[0], p[1])).collect())
    }
}

/// Rows with the filter of PNG that fits each best by the usual rule, the least sum of differences
/// (W3C PNG specification, 9 and 12.8): none, left, up, or Paeth.
fn predicted(pixels: &[u8], row_length: usize, channels: usize) -> Vec<u8> {
    let mut out = Vec::with_capacity(pixels.len() + pixels.len() / row_length.max(1));
    let nothing = vec![0u8; row_length];
    let mut above: &[u8] = &nothing;
    for row in pixels.chunks(row_length.max(1)) {
        let filtered = |kind: u8| -> Vec<u8> {
            (0..row.len())
                .map(|i| {
                    let left = if i >= channels { row[i - channels] } else { 0 };
                    let up = above[i];
                    let corner = if i >= channels { above[i - channels] } else { 0 };
                    row[i].wrapping_sub(match kind {
                        0 => 0,
                        1 => left,
                        2 => up,
                        _ => paeth(left, up, corner),
                    })
                })
                .collect()
        };
        let cost = |bytes: &[u8]| bytes.iter().map(|b| u64::from((*b as i8).unsigned_abs())).sum::<u64>();
        let best = [0, 1, 2, 4].into_iter().map(|kind| (kind, filtered(kind))).min_by_key(|(_, f)| cost(f));
        if let Some((kind, bytes)) = best {
            out.push(kind);
            out.extend(bytes);
        }
        above = row;
    }
    out
}

fn paeth(left: u8, up: u8, corner: u8) -> u8 {
    let guess = i32::from(left) + i32::from(up) - i32::from(corner);
    let far = |v: u8| (guess - i32::from(v)).abs();
    if far(left) <= far(up) && far(left) <= far(corner) {
        left
    } else if far(up) <= far(corner) {
        up
    } else {
        corner
    }
}

/// The frame header of a JPEG file; `None` for anything else.
fn jpeg_frame(bytes: &[u8]) -> Option<Frame> {
    if !bytes.starts_with(&[0xff, 0xd8]) {
        return None;
    }
    let mut at = 2;
    loop {
        if *bytes.get(at)? != 0xff {
            return None;
        }
        let marker = *bytes.get(at + 1)?;
        if marker == 0xff {
            at += 1;
            continue;
        }
        let length = usize::from(u16::from_be_bytes([*bytes.get(at + 2)?, *bytes.get(at + 3)?]));
        // Baseline, extended and progressive frames; C4, C8 and CC are other things.
        if matches!(marker, 0xc0..=0xc2) {
            let word = |i: usize| Some(u32::from(u16::from_be_bytes([*bytes.get(i)?, *bytes.get(i + 1)?])));
            return Some(Frame {
                bits: *bytes.get(at + 4)?,
                height: word(at + 5)?,
                width: word(at + 7)?,
                channels: *bytes.get(at + 9)?,
            });
        }
        if marker == 0xda {
            return None;
        }
        at += 2 + length;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use image::{ExtendedColorType, ImageEncoder, Rgba, RgbaImage};
    use printpdf::ExternalXObject;

    fn shown(bytes: Vec<u8>) -> Result<ExternalXObject, PaintError> {
        let made = picture(&Picture { name: "logo.png".into(), bytes, pixels: (2, 1), alt: String::new() })?;
        match made {
            XObject::External(made) => Ok(made),
            XObject::Image(_) | XObject::Form(_) => panic!("not an external object"),
        }
    }

    #[test]
    fn a_clear_pixel_becomes_white_and_a_half_clear_one_lighter() {
        let mut pixels = RgbaImage::new(2, 1);
        pixels.put_pixel(0, 0, Rgba([255, 0, 0, 0]));
        pixels.put_pixel(1, 0, Rgba([255, 0, 0, 128]));
        let (space, channels, samples) = on_white(&DynamicImage::ImageRgba8(pixels));
        assert_eq!((space, channels), ("DeviceRGB", 3));
        assert_eq!(samples, [255, 255, 255, 255, 127, 127]);
    }

    #[test]
    fn a_jpeg_passes_through_untouched() {
        let mut bytes = Vec::new();
        image::codecs::jpeg::JpegEncoder::new(&mut bytes)
            .write_image(&[10, 20, 30, 200, 100, 50], 2, 1, ExtendedColorType::Rgb8)
            .expect("encodes");
        let made = shown(bytes.clone()).expect("paints");
        assert_eq!(made.stream.content, bytes);
        assert_eq!(made.stream.dict["Filter"], name_of("DCTDecode"));
        assert_eq!(made.stream.dict["Width"], DictItem::Int(2));
    }

    #[test]
    fn a_broken_picture_is_named() {
        let e = shown(b"\x89PNG\r\n\x1a\nrest".to_vec()).expect_err("refused");
        assert!(e.to_string().starts_with("logo.png: the picture cannot be read: "), "{e}");
    }

    #[test]
    fn undoing_the_row_filters_gives_the_samples() {
        let (width, channels) = (7usize, 3usize);
        let row_length = width * channels;
        let samples: Vec<u8> = (0..row_length * 5).map(|i| (i * i * 7 % 251) as u8).collect();
        let packed = predicted(&samples, row_length, channels);
        let mut rows: Vec<Vec<u8>> = vec![vec![0; row_length]];
        for line in packed.chunks(row_length + 1) {
            let above = rows.last().expect("a row").clone();
            let mut row: Vec<u8> = Vec::new();
            for i in 0..row_length {
                let left = if i >= channels { row[i - channels] } else { 0 };
                let corner = if i >= channels { above[i - channels] } else { 0 };
                let guess = match line[0] {
                    0 => 0,
                    1 => left,
                    2 => above[i],
                    4 => paeth(left, above[i], corner),
                    other => panic!("filter {other}"),
                };
                row.push(line[1 + i].wrapping_add(guess));
            }
            rows.push(row);
        }
        assert_eq!(rows[1..].concat(), samples);
    }
}
