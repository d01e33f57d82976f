//! Beads as they are drawn: their shapes with the outline of each, and how a bead is shown.

use super::path::{QUARTER, Segment, polygon, rounded};
use serde::Serialize;

/// Bead shapes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize)]
pub enum Shape {
    /// Straight-walled, flat ends.
    Cylinder,
    /// Rounded seed bead.
    Round,
    /// Drop, with its hole across the narrow end.
    Drop,
    /// Long tube.
    Bugle,
    /// Faceted, wider at its waist.
    Faceted,
    /// Cube.
    Cube,
}

/// How a bead is shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize)]
pub enum BeadLook {
    /// Flat colour with a fine outline, for charts and diagrams.
    Flat,
    /// Flat, mixed towards white: not concerned just now.
    Faded,
    /// With a soft edge and a highlight, for the cover.
    Lifelike,
    /// Flat colour in one grey, no outline, for silhouettes.
    Silhouette,
}

/// How far a bead that is not concerned is mixed with white.
pub const FADED: f64 = 0.62;

/// How many patterns there are for beads in grey; they are numbered from 0.
pub const PATTERNS: u8 = 8;

/// The closed outline of a shape, seen from the side, hole upright: `w` across and `h` along the hole. Its points
/// are in the unit of both, round the centre, y downwards.
#[must_use]
pub fn outline(shape: Shape, w: f64, h: f64) -> Vec<Segment<(f64, f64)>> {
    let small = w.min(h);
    let corners = match shape {
        Shape::Cylinder => (0.1 * small, 0.1 * small),
        Shape::Bugle => (0.05 * small, 0.05 * small),
        Shape::Cube => (0.14 * small, 0.14 * small),
        Shape::Round => (0.4 * w, 0.5 * h),
        Shape::Faceted => return polygon(facet_corners(w, h)),
        Shape::Drop => return drop(w, h),
    };
    rounded((0.0, 0.0), (w, h), corners)
}

/// Corners of the faceted shape, clockwise from the top left: widest in a band round its waist.
#[must_use]
pub fn facet_corners(w: f64, h: f64) -> [(f64, f64); 8] {
    let (x, y) = (w / 2.0, h / 2.0);
    [
        (-0.56 * x, -y),
        (0.56 * x, -y),
        (x, -0.22 * y),
        (x, 0.22 * y),
        (0.56 * x, y),
        (-0.56 * x, y),
        (-x, 0.22 * y),
        (-x, -0.22 * y),
    ]
}

/// Narrow and rounded at the top, where its hole is, and round at the bottom.
fn drop(w: f64, h: f64) -> Vec<Segment<(f64, f64)>> {
    let (x, top, foot) = (w / 2.0, -h / 2.0, h / 2.0);
    let r = x.min(0.42 * h);
    let middle = foot - r;
    let (kx, ky) = (x * QUARTER, r * QUARTER);
    // How high its side lies, at this share of the height from the top.
    let side = |share: f64| top + share * h;
    vec![
        Segment::Move((0.0, top)),
        Segment::Curve((0.3 * x, top), (0.42 * x, side(0.1)), (0.5 * x, side(0.22))),
        Segment::Curve((0.62 * x, side(0.38)), (x, middle - 1.25 * ky), (x, middle)),
        Segment::Curve((x, middle + ky), (kx, foot), (0.0, foot)),
        Segment::Curve((-kx, foot), (-x, middle + ky), (-x, middle)),
        Segment::Curve((-x, middle - 1.25 * ky), (-0.62 * x, side(0.38)), (-0.5 * x, side(0.22))),
        Segment::Curve((-0.42 * x, side(0.1)), (-0.3 * x, top), (0.0, top)),
        Segment::Close,
    ]
}
