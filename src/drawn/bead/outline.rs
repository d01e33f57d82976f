//! Shapes of beads with the outline of each, and how a bead is shown.

use super::Shine;
use crate::drawn::path::{QUARTER, Segment, polygon, rounded};
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
    /// As glass or metal, with its light and shade, for the cover and for pictures.
    Lifelike(Shine),
    /// Flat colour within a fine outline, bead to bead without white between, for silhouettes.
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
pub(super) fn facet_corners(w: f64, h: f64) -> [(f64, f64); 8] {
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

#[cfg(test)]
mod tests {
    use super::*;

    const SHAPES: [Shape; 6] =
        [Shape::Cylinder, Shape::Round, Shape::Drop, Shape::Bugle, Shape::Faceted, Shape::Cube];

    fn corners(segments: &[Segment<(f64, f64)>]) -> Vec<(f64, f64)> {
        segments.iter().filter_map(|s| s.points().last()).collect()
    }

    #[test]
    fn an_outline_is_closed_and_just_fills_its_box() {
        for shape in SHAPES {
            for (w, h) in [(1.6, 1.3), (2.2, 1.5), (3.4, 3.4), (1.6, 6.0), (4.0, 1.0)] {
                let drawn = outline(shape, w, h);
                assert!(matches!(drawn.first(), Some(Segment::Move(_))), "{shape:?}");
                assert_eq!(drawn.last(), Some(&Segment::Close), "{shape:?}");
                let reach = |along: fn((f64, f64)) -> f64| {
                    let all = corners(&drawn).into_iter().map(along);
                    all.fold((f64::MAX, f64::MIN), |(least, most), v| (least.min(v), most.max(v)))
                };
                let near = |(least, most): (f64, f64), side: f64| {
                    (least + side / 2.0).abs() < 1e-9 && (most - side / 2.0).abs() < 1e-9
                };
                assert!(near(reach(|p| p.0), w) && near(reach(|p| p.1), h), "{shape:?} {w} × {h}");
            }
        }
    }

    #[test]
    fn an_outline_is_the_same_from_either_side() {
        let rounded = |(x, y): (f64, f64)| ((x * 1e6).round() as i64, (y * 1e6).round() as i64);
        for shape in SHAPES {
            let mut here: Vec<_> =
                outline(shape, 1.6, 2.9).into_iter().flat_map(Segment::points).map(rounded).collect();
            let mut mirrored: Vec<_> = here.iter().map(|(x, y)| (-x, *y)).collect();
            here.sort_unstable();
            here.dedup();
            mirrored.sort_unstable();
            mirrored.dedup();
            assert_eq!(here, mirrored, "{shape:?}");
        }
    }

    #[test]
    fn a_drop_is_narrow_at_its_top() {
        let narrow = |(x, y): (f64, f64)| y > -0.5 || x.abs() < 0.6 * 1.7;
        assert!(corners(&outline(Shape::Drop, 3.4, 3.4)).into_iter().all(narrow));
    }
}
