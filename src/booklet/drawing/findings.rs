//! Metal: thread guard and chain, drawn as smooth tubes.

use super::sketch::{Sketch, pen};
use crate::colour::Colour;
use crate::drawn::{QUARTER, Segment, circle};
use crate::units::{Mm, Point};

/// Edge of drawn metal.
pub(super) const METAL_EDGE: Colour = Colour::new(0x6f, 0x73, 0x7a);
/// Body of drawn metal.
pub(super) const METAL: Colour = Colour::new(0xa9, 0xad, 0xb4);
/// Light on drawn metal.
pub(super) const METAL_LIGHT: Colour = Colour::new(0xec, 0xee, 0xf1);

/// Height of the arch of a thread guard above its ends, as a share of the distance of its holes (common practice, no source).
const GUARD_RISE: f64 = 0.95;
/// Share of metal drawn large that its light tone takes.
const LIGHT_OF_LARGE: f64 = 0.56;
/// The same of a ball, which is thicker than the wire.
const LIGHT_OF_BALL: f64 = 0.8;
/// Radius of a link of fine chain, and the thickness of its wire (from memory).
const LINK: f64 = 0.6;
const LINK_WIRE: f64 = 0.3;
/// Distance of the links' middles: each goes through the next.
const LINK_PITCH: f64 = 1.0;

/// A metal tube along a line: dark edge, grey body, light streak.
pub(super) fn tube(sketch: &mut Sketch, segments: &[Segment], width: f64) {
    sketch.line(segments.to_vec(), pen(METAL_EDGE, width));
    sketch.line(segments.to_vec(), pen(METAL, width * 0.72));
    sketch.line(segments.to_vec(), pen(METAL_LIGHT, width * 0.26));
}

/// A wire drawn large, in two tones that stand out from paper and from one another.
pub(super) fn large_wire(sketch: &mut Sketch, segments: &[Segment], width: f64) {
    sketch.line(segments.to_vec(), pen(METAL_EDGE, width));
    sketch.line(segments.to_vec(), pen(METAL_LIGHT, width * LIGHT_OF_LARGE));
}

/// A ball drawn large, in the same tones.
pub(super) fn large_ball(sketch: &mut Sketch, centre: Point, radius: f64) {
    sketch.area(circle(centre, Mm(radius)), METAL_EDGE, None);
    sketch.area(circle(centre, Mm(radius * LIGHT_OF_BALL)), METAL_LIGHT, None);
}

/// The line of a thread guard's channel from its left end up and over to its right end; `inset`
/// moves it inwards (lanes of thread).
pub(super) fn guard_line(left: Point, right: Point, rise: f64, inset: f64) -> Vec<Segment> {
    let half = (right.x.0 - left.x.0) / 2.0 - inset;
    let middle = f64::midpoint(left.x.0, right.x.0);
    let height = rise - inset;
    let shoulder = left.y.0 - (height - half).max(height * 0.3);
    let top = left.y.0 - height;
    let at = Point::new;
    vec![
        Segment::Move(at(middle - half, left.y.0)),
        Segment::Line(at(middle - half, shoulder)),
        Segment::Curve(
            at(middle - half, shoulder - (shoulder - top) * QUARTER),
            at(middle - half * QUARTER, top),
            at(middle, top),
        ),
        Segment::Curve(
            at(middle + half * QUARTER, top),
            at(middle + half, shoulder - (shoulder - top) * QUARTER),
            at(middle + half, shoulder),
        ),
        Segment::Line(at(middle + half, right.y.0)),
    ]
}

/// How high a guard of this width rises.
pub(super) fn guard_rise(holes: f64) -> f64 {
    holes * GUARD_RISE
}

/// A thread guard standing on its two ends.
pub(super) fn guard(sketch: &mut Sketch, left: Point, right: Point, rise: f64, thickness: f64) {
    tube(sketch, &guard_line(left, right, rise, 0.0), thickness);
}

/// A fine chain from one point to another.
pub(super) fn chain(sketch: &mut Sketch, from: Point, to: Point) {
    let links = (from.distance(to).0 / LINK_PITCH).ceil().max(1.0);
    for link in 0..=links as usize {
        let share = link as f64 / links;
        let along = |from: Mm, to: Mm| from.0 + (to.0 - from.0) * share;
        let centre = Point::new(along(from.x, to.x), along(from.y, to.y));
        sketch.line(circle(centre, Mm(LINK)), pen(METAL_EDGE, LINK_WIRE));
        sketch.line(circle(centre, Mm(LINK)), pen(METAL, LINK_WIRE * 0.6));
    }
}

/// A thread guard drawn large for a diagram: hollow, so that the thread can be seen in its channel.
pub(super) fn open_guard(sketch: &mut Sketch, left: Point, right: Point, rise: f64, bore: f64) {
    let line = guard_line(left, right, rise, 0.0);
    let flat = |colour, width| {
        let mut stroke = pen(colour, width);
        stroke.round = false;
        stroke
    };
    sketch.line(line.clone(), flat(METAL_EDGE, bore + 0.6));
    sketch.line(line, flat(METAL_LIGHT, bore));
}
