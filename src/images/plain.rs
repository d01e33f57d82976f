//! From an image file to data that a booklet can hold: as they stand in the file wherever that can be,
//! else decoded and packed anew. Every image is decoded once, to know that it is whole.

use super::fault::Fault;
use super::jpeg::Jpeg;
use super::png::{Kind, Png, on_white};
use super::profile::{Change, change};
use png::{BitDepth, ColorType, DecodingError, Transformations};
use std::io::Cursor;
use std::ops::Range;
use std::sync::Arc;
use zune_core::bytestream::ZCursor;
use zune_core::colorspace::ColorSpace;
use zune_core::options::DecoderOptions;
use zune_jpeg::JpegDecoder;

/// Quality of a JPEG that is packed anew, of 100: nobody sees the difference.
const QUALITY: u8 = 95;

/// An image as a booklet holds it: upright or not, without transparency, in sRGB.
#[derive(Debug)]
pub struct Plain {
    /// Pixels across and down, as saved.
    pub size: (u32, u32),
    /// What the samples of a pixel mean.
    pub colours: Colours,
    /// Bits a sample: 1, 2, 4 or 8.
    pub bits: u8,
    /// How they are packed.
    pub packing: Packing,
    bytes: Arc<Vec<u8>>,
    parts: Vec<Range<usize>>,
}

/// What the samples of a pixel mean.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Colours {
    /// One: grey.
    Grey,
    /// Three: red, green and blue.
    Rgb,
    /// One: the number of a colour; red, green and blue of each stand here.
    Palette(Vec<u8>),
}

/// How samples are packed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Packing {
    /// A JPEG file.
    Jpeg,
    /// Rows with the filters of PNG, deflated.
    PngRows,
}

impl Plain {
    /// The packed data, in parts that follow each other.
    pub fn data(&self) -> impl Iterator<Item = &[u8]> {
        self.parts.iter().map(|part| &self.bytes[part.clone()])
    }

    /// How many bytes the packed data have.
    #[must_use]
    pub fn length(&self) -> usize {
        self.parts.iter().map(Range::len).sum()
    }

    fn of_jpeg(bytes: Arc<Vec<u8>>, size: (u32, u32), colours: Colours) -> Plain {
        let parts = std::iter::once(0..bytes.len()).collect();
        Plain { size, colours, bits: 8, packing: Packing::Jpeg, bytes, parts }
    }
}

/// A JPEG file as a booklet holds it.
pub(super) fn jpeg(file: &Jpeg, bare: &Arc<Vec<u8>>) -> Result<Plain, Fault> {
    let change = change(&file.profile, file.channels);
    // As a reader of PDFs takes three channels (ISO 32000-1, table 13).
    let (native, taken) = match (file.channels, file.transform) {
        (1, _) => (ColorSpace::Luma, ColorSpace::Luma),
        (3, Some(0)) => (ColorSpace::RGB, ColorSpace::RGB),
        (3, _) => (ColorSpace::RGB, ColorSpace::YCbCr),
        (_, Some(2)) if change.is_some() => (ColorSpace::YCCK, ColorSpace::Unknown),
        _ if change.is_some() => (ColorSpace::CMYK, ColorSpace::Unknown),
        _ => (ColorSpace::RGB, ColorSpace::Unknown),
    };
    let options = DecoderOptions::default()
        .set_strict_mode(true)
        .set_max_width(usize::from(u16::MAX))
        .set_max_height(usize::from(u16::MAX))
        .jpeg_set_out_colorspace(native);
    let mut decoder = JpegDecoder::new_with_options(ZCursor::new(bare.as_slice()), options);
    decoder.decode_headers().map_err(|_| Fault::Damaged)?;
    let found = decoder.input_colorspace();
    let mut samples = decoder.decode().map_err(|_| Fault::Damaged)?;
    let colours = if file.channels == 1 { Colours::Grey } else { Colours::Rgb };
    if change.is_none() && found == Some(taken) {
        return Ok(Plain::of_jpeg(Arc::clone(bare), file.size, colours));
    }
    if let Some(change) = change {
        if file.channels == 4 {
            to_inks(&mut samples, file.transform);
        }
        samples = change.apply(&samples).ok_or(Fault::Damaged)?;
    }
    let (across, down) = file.size;
    let kind = match colours {
        Colours::Grey => image::ExtendedColorType::L8,
        Colours::Rgb | Colours::Palette(_) => image::ExtendedColorType::Rgb8,
    };
    let mut packed = Vec::new();
    image::codecs::jpeg::JpegEncoder::new_with_quality(&mut packed, QUALITY)
        .encode(&samples, across, down, kind)
        .map_err(|_| Fault::Damaged)?;
    Ok(Plain::of_jpeg(Arc::new(packed), file.size, colours))
}

/// Samples of four channels as inks, 255 where there is all of one. Adobe's programs save how much white is
/// left, and may save the three colours as luminance and two differences (Adobe TN 5116; ITU-T T.871, 7).
fn to_inks(samples: &mut [u8], transform: Option<u8>) {
    for pixel in samples.chunks_exact_mut(4) {
        if transform == Some(2) {
            let [y, cb, cr, black] = [0, 1, 2, 3].map(|i| f32::from(pixel[i]));
            let (cb, cr) = (cb - 128.0, cr - 128.0);
            let inks = [y + 1.402 * cr, y - 0.344_14 * cb - 0.714_14 * cr, y + 1.772 * cb, 255.0 - black];
            pixel.iter_mut().zip(inks).for_each(|(sample, ink)| *sample = ink.round() as u8);
        } else if transform.is_some() {
            pixel.iter_mut().for_each(|sample| *sample = 255 - *sample);
        }
    }
}

/// A PNG file as a booklet holds it.
pub(super) fn png(file: &Png, bytes: &Arc<Vec<u8>>) -> Result<Plain, Fault> {
    let mut rows = reader(bytes, Transformations::IDENTITY)?;
    let info = rows.info();
    let grey = matches!(info.color_type, ColorType::Grayscale | ColorType::GrayscaleAlpha);
    let profile = info.icc_profile.as_deref();
    let change = profile.and_then(|profile| change(profile, if grey { 1 } else { 3 }));
    let changed_by_pixel = change.is_some() && file.kind != Kind::Palette;
    if file.interlaced || file.bits == 16 || file.kind == Kind::Clear || changed_by_pixel {
        return repacked(file, bytes, change.as_ref());
    }
    while rows.next_row().map_err(|e| fault(&e))?.is_some() {}
    let colours = match (file.kind, change) {
        (Kind::Grey, _) => Colours::Grey,
        (Kind::Rgb | Kind::Clear, _) => Colours::Rgb,
        (Kind::Palette, None) => Colours::Palette(file.palette.clone()),
        (Kind::Palette, Some(change)) => Colours::Palette(change.apply(&file.palette).ok_or(Fault::Damaged)?),
    };
    let (packing, parts) = (Packing::PngRows, file.data.clone());
    Ok(Plain { size: file.size, colours, bits: file.bits, packing, bytes: Arc::clone(bytes), parts })
}

fn reader(bytes: &[u8], changes: Transformations) -> Result<png::Reader<Cursor<&[u8]>>, Fault> {
    let mut options = png::DecodeOptions::default();
    options.set_ignore_adler32(false);
    options.set_ignore_text_chunk(true);
    let mut decoder = png::Decoder::new_with_options(Cursor::new(bytes), options);
    decoder.set_transformations(changes);
    decoder.read_info().map_err(|e| fault(&e))
}

fn fault(error: &DecodingError) -> Fault {
    match error {
        DecodingError::IoError(e) if e.kind() == std::io::ErrorKind::UnexpectedEof => Fault::CutShort,
        _ => Fault::Damaged,
    }
}

/// Decodes a PNG row by row, lays each on white, and packs it anew with 8 bits a sample.
fn repacked(file: &Png, bytes: &[u8], change: Option<&Change>) -> Result<Plain, Fault> {
    let mut rows = reader(bytes, Transformations::normalize_to_color8())?;
    let (kind, _) = rows.output_color_type();
    let (colours, packed_kind) = match kind {
        ColorType::Grayscale | ColorType::GrayscaleAlpha => (Colours::Grey, ColorType::Grayscale),
        ColorType::Rgb | ColorType::Rgba | ColorType::Indexed => (Colours::Rgb, ColorType::Rgb),
    };
    let mut packed = Vec::new();
    let mut encoder = png::Encoder::new(&mut packed, file.size.0, file.size.1);
    encoder.set_color(packed_kind);
    encoder.set_depth(BitDepth::Eight);
    encoder.set_compression(png::Compression::Balanced);
    encoder.set_filter(png::Filter::Adaptive);
    let mut writer = encoder.write_header().map_err(|_| Fault::Damaged)?;
    let mut out = writer.stream_writer().map_err(|_| Fault::Damaged)?;
    let mut put = |row: &[u8]| -> Result<(), Fault> {
        let opaque = opaque(row, kind, change).ok_or(Fault::Damaged)?;
        std::io::Write::write_all(&mut out, &opaque).map_err(|_| Fault::Damaged)
    };
    if file.interlaced {
        let length = rows.output_line_size(file.size.0).ok_or(Fault::Damaged)?;
        let mut whole = vec![0; rows.output_buffer_size().ok_or(Fault::Damaged)?];
        rows.next_frame(&mut whole).map_err(|e| fault(&e))?;
        whole.chunks_exact(length).try_for_each(&mut put)?;
    } else {
        while let Some(row) = rows.next_row().map_err(|e| fault(&e))? {
            put(row.data())?;
        }
    }
    out.finish().map_err(|_| Fault::Damaged)?;
    drop(writer);
    let data = super::png::look(&packed)?.data;
    let bytes = Arc::new(packed);
    Ok(Plain { size: file.size, colours, bits: 8, packing: Packing::PngRows, bytes, parts: data })
}

/// A row in sRGB and without its transparency.
fn opaque(row: &[u8], kind: ColorType, change: Option<&Change>) -> Option<Vec<u8>> {
    let (channels, clear) = match kind {
        ColorType::Grayscale => (1, false),
        ColorType::GrayscaleAlpha => (1, true),
        ColorType::Rgb | ColorType::Indexed => (3, false),
        ColorType::Rgba => (3, true),
    };
    let mut colours = Vec::with_capacity(row.len());
    let pixels = row.chunks_exact(channels + usize::from(clear));
    pixels.clone().for_each(|pixel| colours.extend_from_slice(&pixel[..channels]));
    if let Some(change) = change {
        colours = change.apply(&colours)?;
    }
    if clear {
        for (colour, pixel) in colours.chunks_exact_mut(channels).zip(pixels) {
            colour.iter_mut().for_each(|sample| *sample = on_white(*sample, pixel[channels]));
        }
    }
    Some(colours)
}
