//! Bead sizes known by name.
//!
//! Trade tables differ by ±0.2 mm, so every value can be overridden in the palette. "mem" marks a
//! value from memory, without a source at hand; the others are from published trade tables.

use crate::drawn::Shape;

/// Dimensions of a bead size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct SizeOfBead {
    /// Its shape.
    pub shape: Shape,
    /// Its name in the trade.
    pub size: &'static str,
    /// Outer diameter, mm.
    pub width: f64,
    /// Length along the hole, mm (of a drop: its height as it hangs).
    pub length: f64,
    /// Diameter of the hole, mm.
    pub hole: f64,
    /// Beads in a gram.
    pub per_gram: f64,
}

const fn size(
    shape: Shape,
    size: &'static str,
    width: f64,
    length: f64,
    hole: f64,
    per_gram: f64,
) -> SizeOfBead {
    SizeOfBead { shape, size, width, length, hole, per_gram }
}

/// The sizes known by name.
pub(super) const SIZES: [SizeOfBead; 11] = [
    // Hole mem. 200 a gram; the geometry at 2.52 g/cm³ gives 202.
    size(Shape::Cylinder, "11/0", 1.6, 1.3, 0.8, 200.0),
    // Outer, length and hole mem; a gram by geometry.
    size(Shape::Cylinder, "15/0", 1.3, 1.1, 0.65, 362.0),
    // Outer, length and hole mem; 77 a gram by geometry (108 mem: the two disagree).
    size(Shape::Cylinder, "10/0", 2.2, 1.7, 1.0, 77.0),
    // Outer, length and hole mem; 28 a gram by geometry (33 mem).
    size(Shape::Cylinder, "8/0", 3.0, 2.6, 1.4, 28.0),
    // 1.3–1.5 mm, 250–271 a gram.
    size(Shape::Round, "15/0", 1.5, 1.1, 0.7, 260.0),
    // 1.8–2.2 mm, hole mem, 105–120 a gram.
    size(Shape::Round, "11/0", 2.0, 1.49, 0.8, 115.0),
    // 2.5–3.1 mm, hole mem.
    size(Shape::Round, "8/0", 2.8, 2.31, 1.1, 34.7),
    // 3.3–4.0 mm, length and hole mem.
    size(Shape::Round, "6/0", 3.7, 2.9, 1.4, 15.0),
    // A drop of 2.8 mm, named by its width; all mem. Its hole runs across the narrow end.
    size(Shape::Drop, "2.8", 2.8, 3.0, 0.8, 55.0),
    // A drop of 3.4 mm; all mem.
    size(Shape::Drop, "3.4", 3.4, 3.8, 0.9, 29.0),
    // A bugle of 6 mm; all mem.
    size(Shape::Bugle, "6 mm", 1.9, 6.0, 0.7, 35.0),
];

/// The dimensions of a size known by name; a plain number of millimetres may carry its unit or not.
pub(super) fn known_size(shape: Shape, name: &str) -> Option<SizeOfBead> {
    let bare = |text: &str| text.trim_end_matches("mm").trim().to_owned();
    SIZES.iter().find(|s| s.shape == shape && bare(s.size) == bare(name.trim())).copied()
}

/// The sizes known for a shape, for messages.
pub(super) fn sizes_of(shape: Shape) -> Vec<&'static str> {
    SIZES.iter().filter(|s| s.shape == shape).map(|s| s.size).collect()
}
