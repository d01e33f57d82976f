//! Images as large as they are printed: one that has more pixels than a print can show is made smaller, and in a booklet
//! without colour each is grey.

use super::fault::Fault;
use super::plain::{Plain, Samples, packed_jpeg, packed_png};
use fast_image_resize::images::{Image, ImageRef};
use fast_image_resize::{FilterType, PixelType, ResizeAlg, ResizeOptions, Resizer};
use std::collections::BTreeSet;

/// Quality of a JPEG that is made smaller, of 100: at 300 pixels to the inch nobody sees the difference in print.
const FITTED: u8 = 82;
/// A picture of more colours than this is packed as a photograph: drawn ones have few, and their edges stay clean.
const DRAWN: usize = 4096;

/// What a booklet wants of an image.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Wanted {
    /// Most pixels across and down, as it is seen; `None` for as many as it has.
    pub most: Option<(u32, u32)>,
    /// Without colour.
    pub grey: bool,
}

/// Samples as they are wanted, packed; `most` as they are saved.
pub(super) fn fitted(
    samples: Samples,
    most: Option<(u32, u32)>,
    grey: bool,
    drawn: bool,
) -> Result<Plain, Fault> {
    let samples = match most {
        Some(size) => resized(samples, size)?,
        None => samples,
    };
    let samples = if grey { greyed(samples) } else { samples };
    if drawn && colours_within(&samples, DRAWN) {
        return packed_png(&samples);
    }
    packed_jpeg(&samples, FITTED)
}

/// The samples at another size; the larger ones are let go.
fn resized(samples: Samples, size: (u32, u32)) -> Result<Samples, Fault> {
    let kind = if samples.channels == 1 { PixelType::U8 } else { PixelType::U8x3 };
    let from =
        ImageRef::new(samples.size.0, samples.size.1, &samples.data, kind).map_err(|_| Fault::Damaged)?;
    let mut to = Image::new(size.0, size.1, kind);
    let how = ResizeOptions::new().resize_alg(ResizeAlg::Convolution(FilterType::CatmullRom));
    Resizer::new().resize(&from, &mut to, &how).map_err(|_| Fault::Damaged)?;
    Ok(Samples { size, channels: samples.channels, data: to.into_vec() })
}

/// Lightness alone, weighed as JPEG files save it (ITU-R BT.601-7, 2.5.1).
fn greyed(samples: Samples) -> Samples {
    if samples.channels == 1 {
        return samples;
    }
    let grey = |pixel: &[u8]| {
        let [r, g, b] = [pixel[0], pixel[1], pixel[2]].map(u32::from);
        ((299 * r + 587 * g + 114 * b + 500) / 1000) as u8
    };
    let data = samples.data.chunks_exact(3).map(grey).collect();
    Samples { channels: 1, data, ..samples }
}

/// Whether there are no more colours than so many.
fn colours_within(samples: &Samples, most: usize) -> bool {
    let mut met = BTreeSet::new();
    let mut last: &[u8] = &[];
    for pixel in samples.data.chunks_exact(samples.channels) {
        if pixel != last && met.insert(pixel) && met.len() > most {
            return false;
        }
        last = pixel;
    }
    // Grey has 256 at most: as many as most photographs without colour have.
    samples.channels > 1 || met.len() < 128
}
