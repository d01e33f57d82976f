//! The colour value itself, and what can be made of two of them.

use palette::{LinSrgb, Srgb};
use serde::Serialize;
use std::fmt;
use std::sync::LazyLock;

/// An sRGB colour, 8 bits a channel (IEC 61966-2-1).
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize)]
pub struct Colour {
    /// Red.
    pub r: u8,
    /// Green.
    pub g: u8,
    /// Blue.
    pub b: u8,
}

/// The light of each step of a channel. Found once: a booklet asks for it five thousand times.
static LINEAR: LazyLock<[f64; 256]> = LazyLock::new(|| {
    let light = |step: usize| Srgb::new(step as u8, 0, 0).into_format::<f64>().into_linear().red;
    std::array::from_fn(light)
});

impl Colour {
    /// Black ink.
    pub const BLACK: Colour = Colour::new(0, 0, 0);
    /// White paper.
    pub const WHITE: Colour = Colour::new(255, 255, 255);

    /// From its three channels.
    #[must_use]
    pub const fn new(r: u8, g: u8, b: u8) -> Colour {
        Colour { r, g, b }
    }
    /// From `#rrggbb`; `None` if the text is anything else.
    #[must_use]
    pub fn from_hex(text: &str) -> Option<Colour> {
        let digits = text.strip_prefix('#')?;
        if digits.len() != 6 || !digits.bytes().all(|b| b.is_ascii_hexdigit()) {
            return None;
        }
        let n = u32::from_str_radix(digits, 16).ok()?;
        Some(Colour::new((n >> 16) as u8, (n >> 8) as u8, n as u8))
    }
    /// As `#rrggbb`.
    #[must_use]
    pub fn hex(self) -> String {
        format!("#{:02x}{:02x}{:02x}", self.r, self.g, self.b)
    }
    /// This colour with a share of another in it: 0 is this one, 1 the other; shares outside are
    /// taken as the nearer end. Mixed in the encoded values, where equal steps look more even than
    /// in linear light, so that half white is a middling tint.
    #[must_use]
    pub fn mix(self, other: Colour, share: f64) -> Colour {
        let share = share.clamp(0.0, 1.0);
        let channel = |a: u8, b: u8| (f64::from(a) + (f64::from(b) - f64::from(a)) * share).round() as u8;
        Colour::new(channel(self.r, other.r), channel(self.g, other.g), channel(self.b, other.b))
    }
    /// The grey of the same luminance: the colour as a black-and-white printer should show it.
    #[must_use]
    pub fn grey(self) -> Colour {
        let y = self.luminance();
        Colour::from_linear([y, y, y])
    }
    /// Linear-light red, green and blue, 0–1 (IEC 61966-2-1).
    pub(super) fn linear(self) -> [f64; 3] {
        [self.r, self.g, self.b].map(|step| LINEAR[usize::from(step)])
    }
    /// From linear-light channels; what lies outside 0–1 is cut off.
    pub(super) fn from_linear([r, g, b]: [f64; 3]) -> Colour {
        let clip = |x: f64| x.clamp(0.0, 1.0);
        let encoded: Srgb<f64> = Srgb::from_linear(LinSrgb::new(clip(r), clip(g), clip(b)));
        let eight: Srgb<u8> = encoded.into_format();
        Colour::new(eight.red, eight.green, eight.blue)
    }
}

impl fmt::Display for Colour {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.hex())
    }
}
