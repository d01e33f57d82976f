//! Colour: sRGB values, how far apart two look, how they contrast, and how they look to
//! colour-blind eyes or in grey.

use serde::Serialize;

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
}
