//! Luminance and contrast as the Web Content Accessibility Guidelines 2.2 define them.

use super::Colour;
use super::difference::TO_XYZ;

/// Light that a viewing place adds (WCAG 2.2, "contrast ratio").
const FLARE: f64 = 0.05;

/// Least contrast of text against its ground (WCAG 2.2, success criterion 1.4.3, level AA).
pub const LEAST_CONTRAST: f64 = 4.5;
/// Colour of text.
pub const INK: Colour = Colour::new(0x21, 0x21, 0x24);
/// Colour of quiet text.
pub const QUIET: Colour = Colour::new(0x59, 0x59, 0x5e);
/// Colour of cautions.
pub const CAUTION: Colour = Colour::new(0xa3, 0x2a, 0x1e);
/// The lightest that text is printed in, whatever the accent: what is a ground for text must suit them.
pub const QUIET_INKS: [Colour; 3] = [INK, QUIET, CAUTION];

impl Colour {
    /// Relative luminance, 0 (black) to 1 (white).
    #[must_use]
    pub fn luminance(self) -> f64 {
        let [r, g, b] = self.linear();
        // WCAG 2.2, "relative luminance": Y of CIE XYZ.
        let [_, [kr, kg, kb], _] = TO_XYZ;
        kr * r + kg * g + kb * b
    }
    /// Contrast ratio with another colour, 1 to 21. Text wants 4.5, large text and marks 3.
    #[must_use]
    pub fn contrast(self, other: Colour) -> f64 {
        let (one, two) = (self.luminance(), other.luminance());
        (one.max(two) + FLARE) / (one.min(two) + FLARE)
    }
}

/// Black or white, whichever contrasts more with this ground. The better of the two never falls
/// under 4.58, so a letter on a bead always reaches what WCAG 2.2 asks of text.
#[must_use]
pub fn ink_on(ground: Colour) -> Colour {
    if ground.contrast(Colour::BLACK) >= ground.contrast(Colour::WHITE) {
        Colour::BLACK
    } else {
        Colour::WHITE
    }
}

/// A colour mixed towards black until text in it can be read on paper and on a ground.
#[must_use]
pub fn darkened(colour: Colour, ground: Colour) -> Colour {
    let enough = |c: Colour| c.contrast(Colour::WHITE).min(c.contrast(ground)) >= LEAST_CONTRAST;
    (0..=20)
        .map(|step| colour.mix(Colour::BLACK, f64::from(step) / 20.0))
        .find(|&c| enough(c))
        .unwrap_or(Colour::BLACK)
}
