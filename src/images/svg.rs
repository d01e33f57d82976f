//! Drawings of the web (SVG 1.1) become pixels: as many as a page can show of a logo.

use super::fault::Fault;
use resvg::tiny_skia::{Pixmap, Transform};
use resvg::usvg::{Options, Tree, roxmltree};

/// Pixels on the longer side: 200 mm at 300 to the inch.
const LONGEST: f32 = 2400.0;
/// Largest file, in bytes: a logo has some kilobytes.
const LARGEST: usize = 2_000_000;
/// Elements that cannot be shown as they are meant: words need fonts, pictures other files.
const REFUSED: [(&str, &str); 4] = [
    ("text", "text"),
    ("image", "pictures"),
    ("foreignObject", "parts in another language"),
    ("script", "programs"),
];

/// Whether a file begins as a drawing does.
pub(super) fn is_drawing(bytes: &[u8]) -> bool {
    let bytes = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    let start = bytes.trim_ascii_start();
    start.starts_with(b"<svg")
        || (start.starts_with(b"<?xml") || start.starts_with(b"<!--")) && {
            let head = &start[..start.len().min(4000)];
            head.windows(4).any(|four| four == b"<svg")
        }
}

/// The drawing as a PNG file with transparency.
///
/// # Errors
/// When it cannot be read, or not be shown as it is meant.
pub(super) fn as_png(bytes: &[u8]) -> Result<Vec<u8>, Fault> {
    if bytes.len() > LARGEST {
        return Err(Fault::LargeDrawing(LARGEST / 1_000_000));
    }
    let text = std::str::from_utf8(bytes).map_err(|_| Fault::Damaged)?;
    let text = text.trim_start_matches('\u{feff}');
    let document = roxmltree::Document::parse(text).map_err(|_| Fault::Damaged)?;
    let named = |name: &str| document.descendants().any(|node| node.tag_name().name() == name);
    if let Some((_, what)) = REFUSED.iter().find(|(name, _)| named(name)) {
        return Err(Fault::DrawingHolds(what));
    }
    let tree = Tree::from_xmltree(&document, &Options::default()).map_err(|_| Fault::Damaged)?;
    let size = tree.size();
    let scale = LONGEST / size.width().max(size.height());
    let side = |side: f32| ((side * scale).round() as u32).max(1);
    let mut pixels = Pixmap::new(side(size.width()), side(size.height())).ok_or(Fault::Damaged)?;
    resvg::render(&tree, Transform::from_scale(scale, scale), &mut pixels.as_mut());
    packed(&pixels).map_err(|_| Fault::Damaged)
}

fn packed(pixels: &Pixmap) -> Result<Vec<u8>, png::EncodingError> {
    let mut out = Vec::new();
    let mut encoder = png::Encoder::new(&mut out, pixels.width(), pixels.height());
    encoder.set_color(png::ColorType::Rgba);
    encoder.set_depth(png::BitDepth::Eight);
    let samples: Vec<u8> = pixels
        .pixels()
        .iter()
        .map(|pixel| pixel.demultiply())
        .flat_map(|p| [p.red(), p.green(), p.blue(), p.alpha()])
        .collect();
    let mut writer = encoder.write_header()?;
    writer.write_image_data(&samples)?;
    writer.finish()?;
    Ok(out)
}

#[cfg(test)]
mod tests {
    use super::*;

    const LANTERN: &str = r##"<?xml version="1.0"?><svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 20 10"><rect width="10" height="10" fill="#7a2e4a"/></svg>"##;

    #[test]
    fn a_drawing_becomes_pixels_with_transparency() {
        assert!(is_drawing(LANTERN.as_bytes()) && !is_drawing(b"<?xml version=\"1.0\"?><plist/>"));
        let png = as_png(LANTERN.as_bytes()).expect("pixels");
        let picture = image::load_from_memory(&png).expect("a picture").into_rgba8();
        assert_eq!(picture.dimensions(), (2400, 1200));
        assert_eq!(picture.get_pixel(600, 600).0, [0x7a, 0x2e, 0x4a, 255]);
        assert_eq!(picture.get_pixel(1800, 600).0[3], 0);
    }

    #[test]
    fn what_cannot_be_shown_as_it_is_meant_is_refused() {
        let with =
            |inner: &str| as_png(LANTERN.replace("</svg>", &format!("{inner}</svg>")).as_bytes()).err();
        assert_eq!(with("<text>Hi</text>"), Some(Fault::DrawingHolds("text")));
        assert_eq!(with("<image href=\"/etc/hostname\"/>"), Some(Fault::DrawingHolds("pictures")));
        assert_eq!(with("<g>"), Some(Fault::Damaged));
        let nested = "<!DOCTYPE svg [<!ENTITY a \"aaaa\"><!ENTITY b \"&a;&a;\">]>";
        assert!(as_png(format!("{nested}{LANTERN}").as_bytes()).is_err());
    }
}
