//! Paths: their pieces, the pens that stroke them, and the paths of simple figures.

use crate::colour::Colour;
use crate::units::{Mm, Point, Size};
use serde::Serialize;

/// A piece of a path between points of some kind: in millimetres, where nothing else is said.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub enum Segment<P = Point> {
    /// Lift the pen and go there.
    Move(P),
    /// Straight to there.
    Line(P),
    /// Cubic Bézier curve: two control points and the end.
    Curve(P, P, P),
    /// Back to the last `Move`.
    Close,
}

impl<P> Segment<P> {
    /// The piece with other points in place of its own.
    #[must_use]
    pub fn map<Q>(self, mut to: impl FnMut(P) -> Q) -> Segment<Q> {
        match self {
            Segment::Move(p) => Segment::Move(to(p)),
            Segment::Line(p) => Segment::Line(to(p)),
            Segment::Curve(a, b, p) => Segment::Curve(to(a), to(b), to(p)),
            Segment::Close => Segment::Close,
        }
    }

    /// Its points, those that control a curve first.
    pub fn points(self) -> impl Iterator<Item = P> {
        let points = match self {
            Segment::Move(p) | Segment::Line(p) => [Some(p), None, None],
            Segment::Curve(a, b, p) => [Some(a), Some(b), Some(p)],
            Segment::Close => [None, None, None],
        };
        points.into_iter().flatten()
    }
}

/// A pen.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Stroke {
    /// Its colour.
    pub colour: Colour,
    /// Its width.
    pub width: Mm,
    /// Dash and gap lengths; empty for an unbroken line.
    pub dash: Vec<Mm>,
    /// Rounded ends and joins.
    pub round: bool,
}

/// Share of the radius at which the control points of a quarter circle lie.
pub const QUARTER: f64 = 4.0 / 3.0 * (std::f64::consts::SQRT_2 - 1.0);

/// A circle as four curves.
#[must_use]
pub fn circle(centre: Point, radius: Mm) -> Vec<Segment> {
    let at = |x: f64, y: f64| Point { x: centre.x + radius * x, y: centre.y + radius * y };
    vec![
        Segment::Move(at(1.0, 0.0)),
        Segment::Curve(at(1.0, QUARTER), at(QUARTER, 1.0), at(0.0, 1.0)),
        Segment::Curve(at(-QUARTER, 1.0), at(-1.0, QUARTER), at(-1.0, 0.0)),
        Segment::Curve(at(-1.0, -QUARTER), at(-QUARTER, -1.0), at(0.0, -1.0)),
        Segment::Curve(at(QUARTER, -1.0), at(1.0, -QUARTER), at(1.0, 0.0)),
        Segment::Close,
    ]
}

/// A box with square corners, from its top left.
#[must_use]
pub fn rectangle(at: Point, size: Size) -> Vec<Segment> {
    let (right, bottom) = (at.x + size.width, at.y + size.height);
    polygon([at, Point { x: right, y: at.y }, Point { x: right, y: bottom }, Point { x: at.x, y: bottom }])
}

/// Straight lines from corner to corner and back to the first.
#[must_use]
pub fn polygon<P>(corners: impl IntoIterator<Item = P>) -> Vec<Segment<P>> {
    let mut segments: Vec<Segment<P>> = Vec::new();
    for corner in corners {
        segments.push(if segments.is_empty() { Segment::Move(corner) } else { Segment::Line(corner) });
    }
    segments.push(Segment::Close);
    segments
}

/// A box round a centre with elliptical corners, y downwards, all in one unit.
#[must_use]
pub fn rounded((cx, cy): (f64, f64), (w, h): (f64, f64), (rx, ry): (f64, f64)) -> Vec<Segment<(f64, f64)>> {
    let (x, y) = (w / 2.0, h / 2.0);
    let (kx, ky) = (rx * (1.0 - QUARTER), ry * (1.0 - QUARTER));
    let at = |x: f64, y: f64| (cx + x, cy + y);
    vec![
        Segment::Move(at(-x + rx, -y)),
        Segment::Line(at(x - rx, -y)),
        Segment::Curve(at(x - kx, -y), at(x, -y + ky), at(x, -y + ry)),
        Segment::Line(at(x, y - ry)),
        Segment::Curve(at(x, y - ky), at(x - kx, y), at(x - rx, y)),
        Segment::Line(at(-x + rx, y)),
        Segment::Curve(at(-x + kx, y), at(-x, y - ky), at(-x, y - ry)),
        Segment::Line(at(-x, -y + ry)),
        Segment::Curve(at(-x, -y + ky), at(-x + kx, -y), at(-x + rx, -y)),
        Segment::Close,
    ]
}
