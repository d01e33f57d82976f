//! Images that a booklet shows, logo and photograph: a file's bytes become data that the booklet holds.
//!
//! * `jpeg`, `png`: a file taken apart, without decoding it;
//! * `svg`: a drawing as pixels;
//! * `plain`, `profile`: data without transparency and in sRGB, passed through where that can be;
//! * `fitted`: as many pixels as a print can show;
//! * `turn`: how an image is to be held;
//! * `fault`: what keeps a file from being used;
//! * `image`: an image as a file names it.

mod fault;
mod fitted;
mod image;
mod jpeg;
mod plain;
mod png;
mod profile;
mod svg;
#[cfg(test)]
mod tests;
mod turn;

pub use fault::Fault;
pub(crate) use fault::SMALLER;
use fault::{LONGEST_SIDE, MOST_PIXELS};
pub use fitted::Wanted;
pub use image::Image;
pub use plain::{Colours, Packing, Plain};
use sha2::{Digest, Sha256};
use std::collections::BTreeMap;
use std::fmt::{self, Write as _};
use std::sync::{Arc, Mutex, OnceLock, PoisonError};
pub use turn::Turn;

/// An image file, read and hashed once, and decoded once when it is first proven and for each size it is printed in.
/// Booklets share it.
pub struct ImageFile {
    hash: String,
    bytes: Arc<Vec<u8>>,
    parts: Parts,
    /// Whether a booklet may hold the file's own data.
    proven: OnceLock<Result<bool, Fault>>,
    made: Mutex<BTreeMap<Wanted, Arc<Plain>>>,
}

enum Parts {
    Jpeg(jpeg::Jpeg),
    Png(png::Png),
}

impl ImageFile {
    /// Takes a file apart; its pixels are not yet decoded.
    ///
    /// # Errors
    /// When it is no PNG, JPEG or SVG, ends too early, or is too large.
    pub fn new(bytes: Vec<u8>) -> Result<ImageFile, Fault> {
        let hash = Sha256::digest(&bytes).iter().fold(String::with_capacity(64), |mut hex, byte| {
            // Writing to a string cannot fail.
            let _ = write!(hex, "{byte:02x}");
            hex
        });
        let (parts, bytes) = if bytes.starts_with(png::SIGNATURE) {
            (Parts::Png(png::look(&bytes)?), bytes)
        } else if bytes.starts_with(&[0xff, 0xd8, 0xff]) {
            let mut jpeg = jpeg::look(&bytes)?;
            let bare = std::mem::take(&mut jpeg.bare);
            (Parts::Jpeg(jpeg), bare)
        } else if svg::is_drawing(&bytes) {
            let drawn = svg::as_png(&bytes)?;
            (Parts::Png(png::look(&drawn)?), drawn)
        } else {
            return Err(Fault::NotAnImage);
        };
        let file = ImageFile {
            hash,
            bytes: Arc::new(bytes),
            parts,
            proven: OnceLock::new(),
            made: Mutex::default(),
        };
        let (across, down) = file.saved();
        let pixels = u64::from(across) * u64::from(down);
        if pixels > MOST_PIXELS || across.max(down) > LONGEST_SIDE {
            return Err(Fault::TooManyPixels(across, down));
        }
        Ok(file)
    }

    /// The SHA-256 hash (FIPS 180-4) of the file, as hexadecimal.
    #[must_use]
    pub fn hash(&self) -> &str {
        &self.hash
    }

    /// Pixels across and down, as it is seen.
    #[must_use]
    pub fn pixels(&self) -> (u32, u32) {
        self.turn().seen(self.saved())
    }

    /// How it is to be held.
    #[must_use]
    pub fn turn(&self) -> Turn {
        match &self.parts {
            Parts::Jpeg(jpeg) => jpeg.turn,
            Parts::Png(png) => png.turn,
        }
    }

    /// Decodes it when that is first asked for, to know that it is whole.
    ///
    /// # Errors
    /// When it cannot be decoded to its end.
    pub fn prove(&self) -> Result<(), Fault> {
        self.proven().map(|_| ())
    }

    /// Whether a booklet may hold the file's own data.
    fn proven(&self) -> Result<bool, Fault> {
        let proven = self.proven.get_or_init(|| match &self.parts {
            Parts::Jpeg(file) => plain::jpeg_samples(file, &self.bytes, false).map(|(_, as_it_is)| as_it_is),
            Parts::Png(_) => plain::prove_png(&self.bytes).map(|()| true),
        });
        proven.clone()
    }

    /// The image as a booklet holds it.
    ///
    /// # Errors
    /// When it cannot be decoded to its end.
    pub fn plain(&self, wanted: Wanted) -> Result<Arc<Plain>, Fault> {
        let as_it_is = self.proven()?;
        let most = wanted.most.map(|most| self.turn().seen(most)).and_then(|most| self.smaller(most));
        let key = Wanted { most, grey: wanted.grey && !self.is_grey() };
        // One at a time: each decodes all of its pixels.
        let mut made = self.made.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(plain) = made.get(&key) {
            return Ok(Arc::clone(plain));
        }
        let plain = match (&self.parts, key) {
            (Parts::Jpeg(file), Wanted { most: None, grey: false }) => {
                plain::jpeg(file, &self.bytes, as_it_is)
            }
            (Parts::Png(file), Wanted { most: None, grey: false }) => plain::png(file, &self.bytes),
            (Parts::Jpeg(file), Wanted { most, grey }) => {
                let (samples, _) = plain::jpeg_samples(file, &self.bytes, grey)?;
                fitted::fitted(samples, most, grey, false)
            }
            (Parts::Png(file), Wanted { most, grey }) => {
                fitted::fitted(plain::png_samples(file, &self.bytes)?, most, grey, true)
            }
        };
        let plain = Arc::new(plain?);
        made.insert(key, Arc::clone(&plain));
        Ok(plain)
    }

    /// The size, as saved, that it has within so many pixels; `None` where it has no more.
    fn smaller(&self, (most_across, most_down): (u32, u32)) -> Option<(u32, u32)> {
        let (across, down) = self.saved();
        let share = (f64::from(most_across) / f64::from(across)).min(f64::from(most_down) / f64::from(down));
        let side = |side: u32| ((f64::from(side) * share).round() as u32).max(1);
        (share < 1.0).then(|| (side(across), side(down)))
    }

    fn is_grey(&self) -> bool {
        match &self.parts {
            Parts::Jpeg(jpeg) => jpeg.channels == 1,
            Parts::Png(png) => png.kind == png::Kind::Grey,
        }
    }

    fn saved(&self) -> (u32, u32) {
        match &self.parts {
            Parts::Jpeg(jpeg) => jpeg.size,
            Parts::Png(png) => png.size,
        }
    }
}

/// The same file by its hash.
impl PartialEq for ImageFile {
    fn eq(&self, other: &ImageFile) -> bool {
        self.hash == other.hash
    }
}

impl Eq for ImageFile {}

impl fmt::Debug for ImageFile {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "image {} of {:?} pixels", self.hash, self.pixels())
    }
}
