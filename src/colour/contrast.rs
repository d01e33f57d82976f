//! Luminance and contrast as the Web Content Accessibility Guidelines 2.2 define them.

use super::Colour;
use super::difference::TO_XYZ;

/// Light that a viewing place adds (WCAG 2.2, "contrast ratio").
const FLARE: f64 = 0.05;

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
