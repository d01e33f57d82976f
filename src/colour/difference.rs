//! How far apart two colours look.

use super::Colour;
use palette::color_difference::Ciede2000;
use palette::white_point::D65;

/// Linear sRGB to CIE XYZ under D65, to the four digits that IEC 61966-2-1 prints. The `palette`
/// crate carries more digits, which puts `b` of pure red 0.0205 away from implementations that keep
/// to the standard; so this step is done here.
pub(super) const TO_XYZ: [[f64; 3]; 3] =
    [[0.4124, 0.3576, 0.1805], [0.2126, 0.7152, 0.0722], [0.0193, 0.1192, 0.9505]];

/// CIELAB's curve with its straight foot (CIE 15:2004).
fn lightness_curve(t: f64) -> f64 {
    const FOOT: f64 = 6.0 / 29.0;
    if t > FOOT.powi(3) { t.cbrt() } else { t / (3.0 * FOOT * FOOT) + 4.0 / 29.0 }
}

/// A colour in CIELAB under D65 (2° observer).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lab {
    /// Lightness, 0 (black) to 100 (white).
    pub l: f64,
    /// Green (negative) to red.
    pub a: f64,
    /// Blue (negative) to yellow.
    pub b: f64,
}

/// CIEDE2000 colour difference with all parametric factors 1
/// (Sharma, Wu, Dalal, Color Research & Application 30, 2005).
#[must_use]
pub fn delta_e(one: Lab, other: Lab) -> f64 {
    let lab = |c: Lab| palette::Lab::<D65, f64>::new(c.l, c.a, c.b);
    lab(one).difference(lab(other))
}

impl Colour {
    /// The colour in CIELAB.
    #[must_use]
    pub fn lab(self) -> Lab {
        let linear = self.linear();
        // Against the white that the matrix itself makes, so that greys have no chroma at all.
        let [x, y, z] = TO_XYZ.map(|row| {
            let value: f64 = row.iter().zip(linear).map(|(k, c)| k * c).sum();
            lightness_curve(value / row.iter().sum::<f64>())
        });
        Lab { l: 116.0 * y - 16.0, a: 500.0 * (x - y), b: 200.0 * (y - z) }
    }
    /// CIEDE2000 difference to another colour: about 1 is just visible side by side.
    #[must_use]
    pub fn delta_e(self, other: Colour) -> f64 {
        delta_e(self.lab(), other.lab())
    }
}
