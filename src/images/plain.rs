//! From an image file to data that a booklet can hold: as they stand in the file wherever that can be,
//! else decoded and packed anew. Every image is decoded once, to know that it is whole.

use super::fault::Fault;
use super::jpeg::Jpeg;
use super::png::{Kind, Png, on_white};
use super::profile::{Change, change};
use jpeg_encoder::{ColorType as JpegColours, Encoder, SamplingFactor};
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

/// The samples of an image, decoded and in sRGB.
pub(super) struct Samples {
    /// Pixels across and down, as saved.
    pub(super) size: (u32, u32),
    /// 1 or 3 a pixel: grey, or red, green and blue.
    pub(super) channels: usize,
    /// Row by row.
    pub(super) data: Vec<u8>,
}

/// A JPEG file decoded, and whether a reader of PDFs sees the same in the file's own data. With `grey` only its lightness
/// where it is saved apart from its colours.
pub(super) fn jpeg_samples(file: &Jpeg, bare: &[u8], grey: bool) -> Result<(Samples, bool), Fault> {
    let change = change(&file.profile, file.channels);
    // As a reader of PDFs takes three channels (ISO 32000-1, table 13).
    let (native, taken) = match (file.channels, file.transform) {
        (1, _) => (ColorSpace::Luma, ColorSpace::Luma),
        (3, Some(0)) => (ColorSpace::RGB, ColorSpace::RGB),
        (3, _) if grey && change.is_none() => (ColorSpace::Luma, ColorSpace::YCbCr),
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
    let mut decoder = JpegDecoder::new_with_options(ZCursor::new(bare), options);
    decoder.decode_headers().map_err(|_| Fault::Damaged)?;
    let found = decoder.input_colorspace();
    let mut data = decoder.decode().map_err(|_| Fault::Damaged)?;
    let as_it_is = change.is_none() && found == Some(taken);
    if let Some(change) = change {
        if file.channels == 4 {
            to_inks(&mut data, file.transform);
        }
        data = change.apply(&data).ok_or(Fault::Damaged)?;
    }
    let channels = if native == ColorSpace::Luma { 1 } else { 3 };
    Ok((Samples { size: file.size, channels, data }, as_it_is))
}

/// A JPEG file as a booklet holds it in its own size; `proven` where it has been decoded, with whether its own data may
/// stand there.
pub(super) fn jpeg(file: &Jpeg, bare: &Arc<Vec<u8>>, as_it_is: bool) -> Result<Plain, Fault> {
    if as_it_is {
        let colours = if file.channels == 1 { Colours::Grey } else { Colours::Rgb };
        return Ok(Plain::of_jpeg(Arc::clone(bare), file.size, colours));
    }
    packed_jpeg(&jpeg_samples(file, bare, false)?.0, QUALITY)
}

/// Samples packed as a JPEG.
pub(super) fn packed_jpeg(samples: &Samples, quality: u8) -> Result<Plain, Fault> {
    let (across, down) = samples.size;
    let [across, down] = [across, down].map(|side| u16::try_from(side).map_err(|_| Fault::Damaged));
    let mut packed = Vec::new();
    let mut encoder = Encoder::new(&mut packed, quality);
    // Eyes see colour less sharply than lightness: all cameras save it with half as many samples either way.
    let sampling = if quality < QUALITY { SamplingFactor::F_2_2 } else { SamplingFactor::F_1_1 };
    encoder.set_sampling_factor(sampling);
    let kind = if samples.channels == 1 { JpegColours::Luma } else { JpegColours::Rgb };
    encoder.encode(&samples.data, across?, down?, kind).map_err(|_| Fault::Damaged)?;
    let colours = if samples.channels == 1 { Colours::Grey } else { Colours::Rgb };
    Ok(Plain::of_jpeg(Arc::new(packed), samples.size, colours))
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

/// Decodes a PNG file to its end, to know that it is whole.
pub(super) fn prove_png(bytes: &[u8]) -> Result<(), Fault> {
    let mut rows = reader(bytes, Transformations::IDENTITY)?;
    while rows.next_row().map_err(|e| fault(&e))?.is_some() {}
    Ok(())
}

/// How a PNG file's samples become sRGB; `None` where they are as they stand.
fn change_of_png(rows: &png::Reader<Cursor<&[u8]>>) -> Option<Change> {
    let info = rows.info();
    let grey = matches!(info.color_type, ColorType::Grayscale | ColorType::GrayscaleAlpha);
    info.icc_profile.as_deref().and_then(|profile| change(profile, if grey { 1 } else { 3 }))
}

/// A PNG file that has been proven, as a booklet holds it in its own size.
pub(super) fn png(file: &Png, bytes: &Arc<Vec<u8>>) -> Result<Plain, Fault> {
    let change = change_of_png(&reader(bytes, Transformations::IDENTITY)?);
    let changed_by_pixel = change.is_some() && file.kind != Kind::Palette;
    if file.interlaced || file.bits == 16 || file.kind == Kind::Clear || changed_by_pixel {
        return repacked(file, bytes, change.as_ref());
    }
    let colours = match (file.kind, change) {
        (Kind::Grey, _) => Colours::Grey,
        (Kind::Rgb | Kind::Clear, _) => Colours::Rgb,
        (Kind::Palette, None) => Colours::Palette(file.palette.clone()),
        (Kind::Palette, Some(change)) => Colours::Palette(change.apply(&file.palette).ok_or(Fault::Damaged)?),
    };
    let (packing, parts) = (Packing::PngRows, file.data.clone());
    Ok(Plain { size: file.size, colours, bits: file.bits, packing, bytes: Arc::clone(bytes), parts })
}

/// A PNG file decoded, laid on white.
pub(super) fn png_samples(file: &Png, bytes: &[u8]) -> Result<Samples, Fault> {
    let change = change_of_png(&reader(bytes, Transformations::IDENTITY)?);
    let (mut data, mut channels) = (Vec::new(), 3);
    opaque_rows(file, bytes, change.as_ref(), |row, colours| {
        channels = if *colours == Colours::Grey { 1 } else { 3 };
        data.extend_from_slice(row);
        Ok(())
    })?;
    Ok(Samples { size: file.size, channels, data })
}

/// Samples packed as a PNG packs them.
pub(super) fn packed_png(samples: &Samples) -> Result<Plain, Fault> {
    let colours = if samples.channels == 1 { Colours::Grey } else { Colours::Rgb };
    packed_rows(samples.size, colours, |out| {
        std::io::Write::write_all(out, &samples.data).map_err(|_| Fault::Damaged)
    })
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
    let colours = match reader(bytes, Transformations::normalize_to_color8())?.output_color_type().0 {
        ColorType::Grayscale | ColorType::GrayscaleAlpha => Colours::Grey,
        ColorType::Rgb | ColorType::Rgba | ColorType::Indexed => Colours::Rgb,
    };
    packed_rows(file.size, colours, |out| {
        opaque_rows(file, bytes, change, |row, _| {
            std::io::Write::write_all(out, row).map_err(|_| Fault::Damaged)
        })
    })
}

/// Rows of 8 bits a sample, packed as a PNG packs them.
fn packed_rows(
    size: (u32, u32),
    colours: Colours,
    put: impl FnOnce(&mut dyn std::io::Write) -> Result<(), Fault>,
) -> Result<Plain, Fault> {
    let mut packed = Vec::new();
    let mut encoder = png::Encoder::new(&mut packed, size.0, size.1);
    encoder.set_color(if colours == Colours::Grey { ColorType::Grayscale } else { ColorType::Rgb });
    encoder.set_depth(BitDepth::Eight);
    encoder.set_compression(png::Compression::Balanced);
    encoder.set_filter(png::Filter::Adaptive);
    let mut writer = encoder.write_header().map_err(|_| Fault::Damaged)?;
    let mut out = writer.stream_writer().map_err(|_| Fault::Damaged)?;
    put(&mut out)?;
    out.finish().map_err(|_| Fault::Damaged)?;
    drop(writer);
    let parts = super::png::look(&packed)?.data;
    let bytes = Arc::new(packed);
    Ok(Plain { size, colours, bits: 8, packing: Packing::PngRows, bytes, parts })
}

/// Decodes a PNG row by row, and hands on each in sRGB and laid on white, with what its samples mean.
fn opaque_rows(
    file: &Png,
    bytes: &[u8],
    change: Option<&Change>,
    mut put: impl FnMut(&[u8], &Colours) -> Result<(), Fault>,
) -> Result<(), Fault> {
    let mut rows = reader(bytes, Transformations::normalize_to_color8())?;
    let (kind, _) = rows.output_color_type();
    let colours = match kind {
        ColorType::Grayscale | ColorType::GrayscaleAlpha => Colours::Grey,
        ColorType::Rgb | ColorType::Rgba | ColorType::Indexed => Colours::Rgb,
    };
    let mut put = |row: &[u8]| put(&opaque(row, kind, change).ok_or(Fault::Damaged)?, &colours);
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
    Ok(())
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
