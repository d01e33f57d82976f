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
/// was made of: it stands before the pixels. Where nothing is painted, the picture is clear.
///
/// # Errors
/// As [`PixelsError`] says.
pub fn png(svg: &str, across: u32, packet: &str) -> Result<Vec<u8>, PixelsError> {
    let pixels = rendered(svg, across)?;
    // Most pictures have a ground: three samples a pixel.
    let clear = pixels.pixels().iter().any(|p| p.alpha() < u8::MAX);
    let mut out = Vec::new();
    let mut writer = encoder(&mut out, &pixels, clear, packet)?.write_header()?;
    writer.write_image_data(&samples(&pixels, clear))?;
    writer.finish()?;
    Ok(out)
}

/// Pictures one after another in one file (W3C, Portable Network Graphics, third edition: animated PNG), which begins
/// anew at its end.
pub struct Animation<'a> {
    /// The pictures, as SVG files of one size.
    pub svgs: &'a [String],
    /// Pixels across.
    pub across: u32,
    /// How long each is seen, in milliseconds; the last twice as long.
    pub each: u16,
    /// What it was made of (XMP).
    pub packet: &'a str,
}

impl Animation<'_> {
    /// The file; viewers that know no animations show the first picture.
    ///
    /// # Errors
    /// As [`PixelsError`] says.
    pub fn png(&self) -> Result<Vec<u8>, PixelsError> {
        let mut out = Vec::new();
        let Some((first, rest)) = self.svgs.split_first() else { return Ok(out) };
        let pixels = rendered(first, self.across)?;
        let mut encoder = encoder(&mut out, &pixels, true, self.packet)?;
        let frames = u32::try_from(self.svgs.len()).unwrap_or(u32::MAX);
        encoder.set_animated(frames, 0)?;
        encoder.set_frame_delay(self.each, 1000)?;
        let mut writer = encoder.write_header()?;
        writer.write_image_data(&samples(&pixels, true))?;
        for (index, svg) in rest.iter().enumerate() {
            if index + 1 == rest.len() {
                writer.set_frame_delay(self.each.saturating_mul(2), 1000)?;
            }
            writer.write_image_data(&samples(&rendered(svg, self.across)?, true))?;
        }
        writer.finish()?;
        Ok(out)
    }
}

fn rendered(svg: &str, across: u32) -> Result<Pixmap, PixelsError> {
    let tree = Tree::from_str(svg, &Options::default()).map_err(|e| PixelsError::Svg(e.to_string()))?;
    let size = tree.size();
    let scale = across as f32 / size.width();
    let down = (size.height() * scale).round() as u32;
    let mut pixels = Pixmap::new(across, down).ok_or(PixelsError::Size(across, down))?;
    resvg::render(&tree, Transform::from_scale(scale, scale), &mut pixels.as_mut());
    Ok(pixels)
}

fn encoder<'o>(
    out: &'o mut Vec<u8>,
    pixels: &Pixmap,
    clear: bool,
    packet: &str,
) -> Result<png::Encoder<'o, &'o mut Vec<u8>>, PixelsError> {
    let mut encoder = png::Encoder::new(out, pixels.width(), pixels.height());
    encoder.set_color(if clear { png::ColorType::Rgba } else { png::ColorType::Rgb });
    encoder.set_depth(png::BitDepth::Eight);
    encoder.set_source_srgb(png::SrgbRenderingIntent::Perceptual);
    encoder.add_itxt_chunk(XMP.to_owned(), packet.to_owned())?;
    Ok(encoder)
}

/// Samples of each pixel, with how much of it is covered where the picture may be clear.
fn samples(pixels: &Pixmap, clear: bool) -> Vec<u8> {
    let colour = |p: &resvg::tiny_skia::PremultipliedColorU8| {
        let p = p.demultiply();
        [p.red(), p.green(), p.blue(), p.alpha()].into_iter().take(if clear { 4 } else { 3 })
    };
    pixels.pixels().iter().flat_map(colour).collect()
}

impl From<png::EncodingError> for PixelsError {
    fn from(error: png::EncodingError) -> PixelsError {
        PixelsError::Packing(error.to_string())
    }
}
