//! Ear wires of each kind, seen from the side as they lie on a bench, and where each carries the earring.
//!
//! Outlines and measures are from memory, of findings as shops sell them: a hook of 18 mm, a lever back of 16 mm, a
//! post of 11 mm behind a ball of 4 mm, a hoop of 14 mm.

use super::findings::{METAL, METAL_EDGE, METAL_LIGHT, large_ball, large_wire, tube};
use super::sketch::{Sketch, pen};
use crate::design::EarWire;
use crate::drawn::{Segment, circle};
use crate::units::{Mm, Point};

/// Thickness of ear wire: 20 or 21 gauge is 0.8 or 0.7 mm (from memory).
const WIRE: f64 = 0.75;
/// Radius of the small ring that carries the work (from memory).
const RING: f64 = 1.5;
/// Radius of a hoop (from memory).
const HOOP: f64 = 7.0;

/// An ear wire hanging in whatever has its inner upper edge at `carried`.
pub(super) fn ear_wire(sketch: &mut Sketch, kind: EarWire, carried: Point) {
    let hang = |radius: f64| {
        // Its lower wire rests below the carried edge.
        let centre = Point::new(carried.x.0, carried.y.0 + WIRE - radius);
        (centre, From { x: centre.x.0, y: centre.y.0 - radius })
    };
    let (ring, neck) = hang(RING);
    match kind {
        EarWire::Hook => hook(sketch, neck),
        EarWire::LeverBack => lever_back(sketch, neck),
        EarWire::Stud => stud(sketch, neck),
        EarWire::Hoop => {
            let (centre, top) = hang(HOOP);
            return hoop(sketch, centre, top);
        }
    }
    tube(sketch, &circle(ring, Mm(RING)), WIRE * 0.9);
}

/// The lower end of an ear wire drawn large, from the upper edge of its ring up: the neck, and what is above it.
pub(super) fn large_neck(sketch: &mut Sketch, kind: EarWire, upper: Point, wire: f64) {
    let (large, neck) = (wire / WIRE, From { x: upper.x.0, y: upper.y.0 });
    let up = |far: f64| vec![Segment::Move(neck.at(0.0, 0.0)), Segment::Line(neck.at(0.0, -far * large))];
    match kind {
        EarWire::Hook => {
            large_wire(sketch, &up(5.0), wire);
            large_ball(sketch, neck.at(0.0, -2.2 * large), 0.95 * large);
        }
        EarWire::LeverBack => {
            let lever = |dx: f64, dy: f64| neck.at(dx * large, dy * large);
            let to = [lever(2.4, -2.0), lever(3.6, -2.6), lever(4.2, -3.8)];
            large_wire(
                sketch,
                &[Segment::Move(lever(0.5, -2.2)), Segment::Curve(to[0], to[1], to[2])],
                wire * 1.25,
            );
            large_wire(sketch, &up(5.0), wire);
            large_ball(sketch, neck.at(0.0, -2.2 * large), 0.85 * large);
        }
        EarWire::Stud => {
            large_wire(sketch, &up(1.5), wire);
            large_ball(sketch, neck.at(0.0, -2.6 * large), 2.0 * large);
        }
        // A hoop has no loop: it opens at its catch.
        EarWire::Hoop => {}
    }
}

/// A place that points are counted from: to the right and down, in millimetres.
#[derive(Clone, Copy)]
struct From {
    x: f64,
    y: f64,
}

impl From {
    fn at(self, dx: f64, dy: f64) -> Point {
        Point::new(self.x + dx, self.y + dy)
    }
}

/// A small ball of metal.
fn ball(sketch: &mut Sketch, centre: Point, radius: f64) {
    sketch.area(circle(centre, Mm(radius)), METAL, Some(pen(METAL_EDGE, 0.12)));
    let light = Point::new(centre.x.0 - radius * 0.3, centre.y.0 - radius * 0.32);
    sketch.area(circle(light, Mm(radius * 0.3)), METAL_LIGHT, None);
}

/// A fish hook with a ball above its ring.
fn hook(sketch: &mut Sketch, neck: From) {
    tube(
        sketch,
        &[
            Segment::Move(neck.at(0.0, 0.0)),
            Segment::Line(neck.at(0.0, -2.6)),
            Segment::Curve(neck.at(-0.2, -6.2), neck.at(-1.9, -7.0), neck.at(-1.7, -10.2)),
            Segment::Curve(neck.at(-1.5, -13.6), neck.at(1.2, -15.2), neck.at(4.0, -15.0)),
            Segment::Curve(neck.at(7.6, -14.7), neck.at(9.2, -11.6), neck.at(9.0, -8.4)),
            Segment::Curve(neck.at(8.8, -5.2), neck.at(7.9, -2.4), neck.at(8.3, 0.9)),
            Segment::Curve(neck.at(8.4, 1.7), neck.at(8.7, 2.3), neck.at(9.1, 2.8)),
        ],
        WIRE,
    );
    ball(sketch, neck.at(0.0, -1.5), 0.95);
}

/// A hook whose end rests in a lever that is hinged above the ring.
fn lever_back(sketch: &mut Sketch, neck: From) {
    // The lever behind: from its hinge out and up, past the end of the hook.
    tube(
        sketch,
        &[
            Segment::Move(neck.at(0.6, -1.9)),
            Segment::Curve(neck.at(3.4, -0.6), neck.at(6.6, -1.0), neck.at(7.5, -4.4)),
            Segment::Curve(neck.at(7.9, -6.0), neck.at(7.9, -7.2), neck.at(7.8, -8.6)),
        ],
        WIRE * 1.25,
    );
    // The hook: up in front, over the top, and down into the lever.
    tube(
        sketch,
        &[
            Segment::Move(neck.at(0.0, 0.0)),
            Segment::Line(neck.at(0.0, -2.2)),
            Segment::Curve(neck.at(-0.1, -5.0), neck.at(-0.9, -7.6), neck.at(0.3, -10.6)),
            Segment::Curve(neck.at(1.3, -13.2), neck.at(4.2, -14.2), neck.at(6.0, -12.8)),
            Segment::Curve(neck.at(7.3, -11.8), neck.at(7.8, -10.4), neck.at(7.8, -8.4)),
        ],
        WIRE,
    );
    ball(sketch, neck.at(7.8, -8.3), 0.62);
    ball(sketch, neck.at(0.25, -2.0), 0.85);
}

/// A ball with its ring below; behind it the post, in a clutch of two curls.
fn stud(sketch: &mut Sketch, neck: From) {
    let middle = -1.9;
    for side in [-1.0, 1.0] {
        tube(sketch, &circle(neck.at(7.7, middle + side * 1.45), Mm(1.3)), WIRE * 0.8);
    }
    tube(sketch, &[Segment::Move(neck.at(0.0, middle)), Segment::Line(neck.at(11.0, middle))], WIRE);
    tube(
        sketch,
        &[Segment::Move(neck.at(6.5, middle - 1.7)), Segment::Line(neck.at(6.5, middle + 1.7))],
        WIRE * 0.9,
    );
    ball(sketch, neck.at(0.0, middle), 2.0);
}

/// A ring through the ear and the earring, its catch at the upper right.
fn hoop(sketch: &mut Sketch, centre: Point, top: From) {
    tube(sketch, &circle(centre, Mm(HOOP)), WIRE);
    let lean = std::f64::consts::FRAC_PI_4;
    let catch = top.at(HOOP * lean.sin(), HOOP * (1.0 - lean.cos()));
    ball(sketch, catch, 0.75);
}
