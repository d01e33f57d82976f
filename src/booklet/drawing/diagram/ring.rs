//! The line of the thread through a loop of beads.

use crate::drawn::BeadMark;
use crate::units::Point;

/// The line of a loop's lane: its beads' centres, each moved outwards (for a negative offset) from the ring's middle.
pub(super) fn ring_line(ring: &[BeadMark], offset: f64) -> Vec<Point> {
    let count = ring.len().max(1) as f64;
    let sum = ring.iter().fold((0.0, 0.0), |s, b| (s.0 + b.centre.x.0, s.1 + b.centre.y.0));
    let middle = Point::new(sum.0 / count, sum.1 / count);
    let moved = |p: Point| {
        let away = p.distance(middle).0.max(0.01);
        Point::new(p.x.0 - (p.x.0 - middle.x.0) / away * offset, p.y.0 - (p.y.0 - middle.y.0) / away * offset)
    };
    let mut line: Vec<Point> = ring.iter().map(|b| moved(b.centre)).collect();
    // From the outer end of the first bead's hole to that of the last.
    let end = |bead: &BeadMark, next: Option<&BeadMark>| {
        let (sin, cos) = bead.turned.to_radians().sin_cos();
        let half = bead.length.0 / 2.0;
        let ends = [
            Point::new(bead.centre.x.0 - sin * half, bead.centre.y.0 + cos * half),
            Point::new(bead.centre.x.0 + sin * half, bead.centre.y.0 - cos * half),
        ];
        let far = |p: &Point| next.map_or(p.y.0, |n| p.distance(n.centre).0);
        moved(if far(&ends[0]) >= far(&ends[1]) { ends[0] } else { ends[1] })
    };
    if let Some(first) = ring.first() {
        line.insert(0, end(first, ring.get(1)));
    }
    if let Some(last) = ring.last() {
        line.push(end(last, ring.iter().rev().nth(1)));
    }
    line
}
