//! Units as types: a bare float never says what it measures.

use std::iter::Sum;
use std::ops::{Add, AddAssign, Div, Mul, Neg, Sub, SubAssign};

/// Millimetres in one inch, exact (international yard and pound agreement, 1959).
pub const MM_PER_INCH: f64 = 25.4;
/// PostScript points in one inch (ISO 32000-1, 8.3.2.3: the default user space unit is 1/72 in).
pub const PT_PER_INCH: f64 = 72.0;

macro_rules! unit {
    ($(#[$doc:meta])* $name:ident) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd, serde::Serialize, serde::Deserialize)]
        #[serde(transparent)]
        pub struct $name(pub f64);

        impl $name {
            /// Nothing of it.
            pub const ZERO: $name = $name(0.0);
            /// The larger of two.
            #[must_use]
            pub fn max(self, other: $name) -> $name { $name(self.0.max(other.0)) }
            /// The smaller of two.
            #[must_use]
            pub fn min(self, other: $name) -> $name { $name(self.0.min(other.0)) }
            /// Without its sign.
            #[must_use]
            pub fn abs(self) -> $name { $name(self.0.abs()) }
        }
        impl Add for $name { type Output = $name; fn add(self, o: $name) -> $name { $name(self.0 + o.0) } }
        impl Sub for $name { type Output = $name; fn sub(self, o: $name) -> $name { $name(self.0 - o.0) } }
        impl Neg for $name { type Output = $name; fn neg(self) -> $name { $name(-self.0) } }
        impl Mul<f64> for $name { type Output = $name; fn mul(self, k: f64) -> $name { $name(self.0 * k) } }
        impl Div<f64> for $name { type Output = $name; fn div(self, k: f64) -> $name { $name(self.0 / k) } }
        impl Div<$name> for $name { type Output = f64; fn div(self, o: $name) -> f64 { self.0 / o.0 } }
        impl AddAssign for $name { fn add_assign(&mut self, o: $name) { self.0 += o.0 } }
        impl SubAssign for $name { fn sub_assign(&mut self, o: $name) { self.0 -= o.0 } }
        // Nothing summed is -0.0 of a float; adding 0.0 takes its sign away.
        impl Sum for $name { fn sum<I: Iterator<Item = $name>>(i: I) -> $name { $name(i.map(|x| x.0).sum::<f64>() + 0.0) } }
    };
}

unit!(
    /// A length in millimetres.
    Mm
);
unit!(
    /// A length in PostScript points, 1/72 in.
    Pt
);
unit!(
    /// A mass in grams.
    Grams
);

impl Mm {
    /// The length in inches.
    #[must_use]
    pub fn inches(self) -> f64 {
        self.0 / MM_PER_INCH
    }
    /// A length given in inches.
    #[must_use]
    pub fn from_inches(inches: f64) -> Mm {
        Mm(inches * MM_PER_INCH)
    }
    /// The length in points.
    #[must_use]
    pub fn pt(self) -> Pt {
        Pt(self.0 * PT_PER_INCH / MM_PER_INCH)
    }
}

impl Pt {
    /// The length in millimetres.
    #[must_use]
    pub fn mm(self) -> Mm {
        Mm(self.0 * MM_PER_INCH / PT_PER_INCH)
    }
}

/// A point in millimetres: x to the right, y downwards, from the top left of whatever holds it.
#[derive(Clone, Copy, Debug, Default, PartialEq, serde::Serialize)]
pub struct Point {
    /// To the right.
    pub x: Mm,
    /// Downwards.
    pub y: Mm,
}

impl Point {
    /// A point from bare millimetres.
    #[must_use]
    pub const fn new(x: f64, y: f64) -> Point {
        Point { x: Mm(x), y: Mm(y) }
    }
    /// Straight distance to another point.
    #[must_use]
    pub fn distance(self, other: Point) -> Mm {
        Mm((self.x.0 - other.x.0).hypot(self.y.0 - other.y.0))
    }
}

/// A width and a height in millimetres.
#[derive(Clone, Copy, Debug, Default, PartialEq, serde::Serialize)]
pub struct Size {
    /// Across.
    pub width: Mm,
    /// Down.
    pub height: Mm,
}
