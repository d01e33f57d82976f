//! An SVG page as pixels.

use resvg::tiny_skia::{Pixmap, Transform};
use resvg::usvg::{Options, Tree};
use std::fmt;

/// The key of an XMP packet in a PNG file (Adobe, XMP specification, part 3, 1.1.5).
const XMP: &str = "XML:com.adobe.xmp";

/// Why there are no pixels.
#[derive(Debug)]
pub enum PixelsError {
    /// The SVG cannot be read: a mistake of this program.
    Svg(String),
    /// Nothing, or more than memory has room for, was asked for.
    Size(u32, u32),
    /// They cannot be packed.
    Packing(String),
}

impl fmt::Display for PixelsError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            PixelsError::Svg(reason) => write!(f, "the picture cannot be drawn: {reason}"),
            PixelsError::Size(w, h) => write!(f, "a picture of {w} by {h} pixels cannot be made"),
            PixelsError::Packing(reason) => write!(f, "the picture cannot be packed: {reason}"),
        }
    }
}

impl std::error::Error for PixelsError {}

/// An SVG file as a PNG file of so many pixels across; as many down as its shape asks for. `packet` (XMP) says what it
/// was made of: it stands before the pixels.
///
/// # Errors
/// As [`PixelsError`] says.
pub fn png(svg: &str, across: u32, packet: &str) -> Result<Vec<u8>, PixelsError> {
    let tree = Tree::from_str(svg, &Options::default()).map_err(|e| PixelsError::Svg(e.to_string()))?;
    let size = tree.size();
    let scale = across as f32 / size.width();
    let down = (size.height() * scale).round() as u32;
    let mut pixels = Pixmap::new(across, down).ok_or(PixelsError::Size(across, down))?;
    resvg::render(&tree, Transform::from_scale(scale, scale), &mut pixels.as_mut());
    packed(&pixels, packet).map_err(|e| PixelsError::Packing(e.to_string()))
}

/// Opaque, as every page is painted on its ground: three samples a pixel.
fn packed(pixels: &Pixmap, packet: &str) -> Result<Vec<u8>, png::EncodingError> {
    let mut out = Vec::new();
    let mut encoder = png::Encoder::new(&mut out, pixels.width(), pixels.height());
    encoder.set_color(png::ColorType::Rgb);
    encoder.set_depth(png::BitDepth::Eight);
    encoder.set_source_srgb(png::SrgbRenderingIntent::Perceptual);
    encoder.add_itxt_chunk(XMP.to_owned(), packet.to_owned())?;
    let samples: Vec<u8> = pixels.pixels().iter().flat_map(|p| [p.red(), p.green(), p.blue()]).collect();
    let mut writer = encoder.write_header()?;
    writer.write_image_data(&samples)?;
    writer.finish()?;
    Ok(out)
}
