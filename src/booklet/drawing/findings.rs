//! Metal: ear wire and thread guard, drawn as smooth tubes.

use super::sketch::{Sketch, pen};
use crate::colour::Colour;
use crate::drawn::{QUARTER, Segment, circle};
use crate::units::{Mm, Point};

/// Edge of drawn metal.
const METAL_EDGE: Colour = Colour::new(0x6f, 0x73, 0x7a);
/// Body of drawn metal.
const METAL: Colour = Colour::new(0xa9, 0xad, 0xb4);
/// Light on drawn metal.
const METAL_LIGHT: Colour = Colour::new(0xec, 0xee, 0xf1);

/// Height of the arch of a thread guard above its ends, as a share of the distance of its holes (common practice, no source).
const GUARD_RISE: f64 = 0.95;
/// Thickness of ear wire: 20 or 21 gauge is 0.8 or 0.7 mm (from memory).
const WIRE: f64 = 0.75;
/// Radius of a link of fine chain, and the thickness of its wire (from memory).
const LINK: f64 = 0.6;
const LINK_WIRE: f64 = 0.3;
/// Distance of the links' middles: each goes through the next.
const LINK_PITCH: f64 = 1.0;
/// Radius of the small ring that carries the work (from memory).
const RING: f64 = 1.5;

/// A metal tube along a line: dark edge, grey body, light streak.
fn tube(sketch: &mut Sketch, segments: &[Segment], width: f64) {
    sketch.line(segments.to_vec(), pen(METAL_EDGE, width));
    sketch.line(segments.to_vec(), pen(METAL, width * 0.72));
    sketch.line(segments.to_vec(), pen(METAL_LIGHT, width * 0.26));
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

/// A fish-hook ear wire seen from the side, its ring hanging in whatever has its inner upper edge at
/// `carried`.
pub(super) fn ear_wire(sketch: &mut Sketch, carried: Point) {
    let x = carried.x.0;
    // The ring's lower wire rests below the carried edge.
    let ring = Point::new(x, carried.y.0 + WIRE - RING);
    let neck = ring.y.0 - RING;
    let at = |dx: f64, dy: f64| Point::new(x + dx, neck + dy);
    tube(
        sketch,
        &[
            Segment::Move(at(0.0, 0.0)),
            Segment::Line(at(0.0, -2.6)),
            Segment::Curve(at(-0.2, -6.2), at(-1.9, -7.0), at(-1.7, -10.2)),
            Segment::Curve(at(-1.5, -13.6), at(1.2, -15.2), at(4.0, -15.0)),
            Segment::Curve(at(7.6, -14.7), at(9.2, -11.6), at(9.0, -8.4)),
            Segment::Curve(at(8.8, -5.2), at(7.9, -2.4), at(8.3, 0.9)),
            Segment::Curve(at(8.4, 1.7), at(8.7, 2.3), at(9.1, 2.8)),
        ],
        WIRE,
    );
    tube(sketch, &circle(ring, Mm(RING)), WIRE * 0.9);
    let bead = at(0.0, -1.5);
    sketch.area(circle(bead, Mm(0.95)), METAL, Some(pen(METAL_EDGE, 0.12)));
    sketch.area(circle(Point::new(bead.x.0 - 0.28, bead.y.0 - 0.3), Mm(0.28)), METAL_LIGHT, None);
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
