//! Images that a booklet shows, logo and photograph: a file's bytes become data that the booklet holds.
//!
//! * `jpeg`, `png`: a file taken apart, without decoding it;
//! * `plain`, `profile`: data without transparency and in sRGB, passed through where that can be;
//! * `turn`: how an image is to be held;
//! * `fault`: what keeps a file from being used;
//! * `image`: an image as a file names it.

mod fault;
mod image;
mod jpeg;
mod plain;
mod png;
mod profile;
#[cfg(test)]
mod tests;
mod turn;

pub use fault::Fault;
pub(crate) use fault::SMALLER;
use fault::{LONGEST_SIDE, MOST_PIXELS};
pub use image::Image;
pub use plain::{Colours, Packing, Plain};
use sha2::{Digest, Sha256};
use std::fmt::{self, Write as _};
use std::sync::{Arc, OnceLock};
pub use turn::Turn;

/// An image file, read and hashed once, and decoded once when it is first shown. Booklets share it.
pub struct ImageFile {
    hash: String,
    bytes: Arc<Vec<u8>>,
    parts: Parts,
    plain: OnceLock<Result<Plain, Fault>>,
}

enum Parts {
    Jpeg(jpeg::Jpeg),
    Png(png::Png),
}

impl ImageFile {
    /// Takes a file apart; its pixels are not yet decoded.
    ///
    /// # Errors
    /// When it is no PNG or JPEG, ends too early, or is too large.
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
        } else {
            return Err(Fault::NotAnImage);
        };
        let file = ImageFile { hash, bytes: Arc::new(bytes), parts, plain: OnceLock::new() };
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

    /// The image as a booklet holds it, decoded when it is first asked for.
    ///
    /// # Errors
    /// When it cannot be decoded to its end.
    pub fn plain(&self) -> Result<&Plain, Fault> {
        let made = self.plain.get_or_init(|| match &self.parts {
            Parts::Jpeg(file) => plain::jpeg(file, &self.bytes),
            Parts::Png(file) => plain::png(file, &self.bytes),
        });
        made.as_ref().map_err(Fault::clone)
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
