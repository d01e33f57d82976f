//! Ways: a small outline of the body with the way of the thread through it, where it is too long to be drawn stack by
//! stack.

use super::paint::{arrowhead, cased};
use super::whole::Whole;
use crate::booklet::drawing::sketch::{Sketch, pen};
use crate::colour::Colour;
use crate::drawn::{Drawing, Segment, circle};
use crate::stitch::{Move, MoveKind, SectionKind, StackId};
use crate::units::{Mm, Point};
use std::collections::BTreeSet;

/// How wide and how high an outline may be.
const LARGEST: (f64, f64) = (60.0, 42.0);
/// The largest scale: a small body is not blown up.
const SCALE: f64 = 2.4;
/// Space round it.
const MARGIN: Mm = Mm(1.2);
/// A row, and a stack that the thread runs through.
const ROW: Colour = Colour::new(0xee, 0xf0, 0xf1);
const EDGE: Colour = Colour::new(0x64, 0x6a, 0x71);
const PASSED: Colour = Colour::new(0xd3, 0xd8, 0xdc);
/// Width of the thread, and of the white beside it.
const THREAD: f64 = 0.55;
const CASING: f64 = 0.5;

/// The outline of the body with the way that some moves take through it.
pub(super) fn way(whole: &Whole, moves: &[Move]) -> Drawing {
    let geometry = &whole.work.geometry;
    let (wide, high) = (geometry.body_width.0.max(0.1), geometry.body_height.0.max(0.1));
    let scale = (LARGEST.0 / wide).min(LARGEST.1 / high).min(SCALE);
    let mut sketch = Sketch::default();
    rows(&mut sketch, whole, scale);
    passed(&mut sketch, whole, scale, moves);

    let mut points: Vec<Point> = Vec::new();
    for point in moves.iter().flat_map(|made| &made.points) {
        let point = Point { x: point.x * scale, y: point.y * scale };
        if points.last().is_none_or(|last| last.distance(point).0 > 1e-6) {
            points.push(point);
        }
    }
    let line: Vec<Segment> = points
        .iter()
        .enumerate()
        .map(|(i, point)| if i == 0 { Segment::Move(*point) } else { Segment::Line(*point) })
        .collect();
    sketch.line(line.clone(), cased(Colour::WHITE, THREAD + CASING * 2.0));
    sketch.line(line.clone(), pen(whole.accent, THREAD));
    if let Some(first) = points.first() {
        sketch.area(circle(*first, Mm(THREAD * 1.5)), whole.accent, Some(pen(Colour::WHITE, CASING / 2.0)));
    }
    arrowhead(&mut sketch, &line, whole.accent);
    sketch.finish(MARGIN, false)
}

/// Every row as one bar.
fn rows(sketch: &mut Sketch, whole: &Whole, scale: f64) {
    let fabric = &whole.work.fabric;
    for (_, row) in fabric.of_kind(SectionKind::Row) {
        let (Some(first), Some(last)) = (row.stacks.first(), row.stacks.last()) else { continue };
        sketch.area(bar(whole, [*first, *last], scale), ROW, Some(pen(EDGE, 0.15)));
    }
}

/// The stacks that the thread runs through.
fn passed(sketch: &mut Sketch, whole: &Whole, scale: f64, moves: &[Move]) {
    let stacks: BTreeSet<StackId> = moves
        .iter()
        .filter_map(|made| match made.kind {
            MoveKind::Pass(pass) => Some(pass.stack),
            _ => None,
        })
        .collect();
    for stack in stacks {
        sketch.area(bar(whole, [stack, stack], scale), PASSED, Some(pen(EDGE, 0.15)));
    }
}

/// The outline of neighbouring stacks from the first to the last.
fn bar(whole: &Whole, [first, last]: [StackId; 2], scale: f64) -> Vec<Segment> {
    let fabric = &whole.work.fabric;
    let half = whole.work.geometry.stack_width.0 / 2.0;
    let (left, right) = (fabric[first].upper.x.0 - half, fabric[last].upper.x.0 + half);
    let (top, bottom) = (fabric[first].upper.y.0, fabric[first].lower.y.0);
    let at = |x: f64, y: f64| Point::new(x * scale, y * scale);
    vec![
        Segment::Move(at(left, top)),
        Segment::Line(at(right, top)),
        Segment::Line(at(right, bottom)),
        Segment::Line(at(left, bottom)),
        Segment::Close,
    ]
}
