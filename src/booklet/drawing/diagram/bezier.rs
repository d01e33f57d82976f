//! Smooth lines: arcs with round shoulders, curves between upright ends, points along them.

use crate::drawn::Segment;
use crate::units::Point;

/// From one point up (or down, for a negative height) over to another, with round shoulders.
pub(super) fn arc(from: Point, to: Point, height: f64, upwards: bool) -> Vec<Segment> {
    let sign = if upwards { -1.0 } else { 1.0 };
    let crest = if upwards { from.y.0.min(to.y.0) - height } else { from.y.0.max(to.y.0) + height };
    let across = to.x.0 - from.x.0;
    let side = across.signum();
    let radius = (across.abs() / 2.0).min(height * 1.15);
    let rise = radius.min(height * 0.8);
    let knee = crest - sign * rise;
    let soft = 0.55;
    let p = Point::new;
    let shoulder = |x: f64, into: f64| p(x + into * (1.0 - soft), crest);
    vec![
        Segment::Move(from),
        Segment::Line(p(from.x.0, knee)),
        Segment::Curve(
            p(from.x.0, knee + (crest - knee) * soft),
            shoulder(from.x.0, side * radius),
            p(from.x.0 + side * radius, crest),
        ),
        Segment::Line(p(to.x.0 - side * radius, crest)),
        Segment::Curve(
            shoulder(to.x.0, -side * radius),
            p(to.x.0, knee + (crest - knee) * soft),
            p(to.x.0, knee),
        ),
        Segment::Line(to),
    ]
}

/// Between two points, upright at both.
pub(super) fn sway(from: Point, to: Point) -> Vec<Segment> {
    let reach = (to.y.0 - from.y.0) * 0.55;
    vec![
        Segment::Move(from),
        Segment::Curve(Point::new(from.x.0, from.y.0 + reach), Point::new(to.x.0, to.y.0 - reach), to),
    ]
}

/// A smooth line through points (Catmull-Rom, as Bézier curves).
pub(super) fn through(points: &[Point]) -> Vec<Segment> {
    let at = |i: isize| points[i.clamp(0, points.len() as isize - 1) as usize];
    let Some(first) = points.first() else { return Vec::new() };
    let mut segments = vec![Segment::Move(*first)];
    for index in 0..points.len() as isize - 1 {
        let (a, b, c, d) = (at(index - 1), at(index), at(index + 1), at(index + 2));
        let lean = |p: Point, q: Point, from: Point, sign: f64| {
            Point::new(from.x.0 + sign * (q.x.0 - p.x.0) / 6.0, from.y.0 + sign * (q.y.0 - p.y.0) / 6.0)
        };
        segments.push(Segment::Curve(lean(a, c, b, 1.0), lean(b, d, c, -1.0), c));
    }
    segments
}

/// A straight line.
pub(super) fn straight(from: Point, to: Point) -> Vec<Segment> {
    vec![Segment::Move(from), Segment::Line(to)]
}

/// A point between two, at this share of the way.
pub(super) fn between(a: Point, b: Point, share: f64) -> Point {
    Point::new(a.x.0 + (b.x.0 - a.x.0) * share, a.y.0 + (b.y.0 - a.y.0) * share)
}

/// A curve's two halves.
pub(super) fn halves(from: Point, a: Point, b: Point, to: Point) -> [Vec<Segment>; 2] {
    let (p, q, r) = (between(from, a, 0.5), between(a, b, 0.5), between(b, to, 0.5));
    let (s, t) = (between(p, q, 0.5), between(q, r, 0.5));
    let middle = between(s, t, 0.5);
    [
        vec![Segment::Move(from), Segment::Curve(p, s, middle)],
        vec![Segment::Move(middle), Segment::Curve(t, r, to)],
    ]
}

/// Points along a line, close enough to measure distances.
pub(super) fn points(segments: &[Segment]) -> Vec<Point> {
    const STEPS: u32 = 12;
    let mut found: Vec<Point> = Vec::new();
    for segment in segments {
        match *segment {
            Segment::Move(p) => found.push(p),
            Segment::Line(p) => {
                if let Some(from) = found.last().copied() {
                    found.extend((1..=4).map(|k| between(from, p, f64::from(k) / 4.0)));
                }
            }
            Segment::Curve(a, b, p) => {
                if let Some(from) = found.last().copied() {
                    found.extend((1..=STEPS).map(|k| {
                        let t = f64::from(k) / f64::from(STEPS);
                        let (c, d, e) = (between(from, a, t), between(a, b, t), between(b, p, t));
                        between(between(c, d, t), between(d, e, t), t)
                    }));
                }
            }
            Segment::Close => {}
        }
    }
    found
}

/// How long the stretches between points are.
pub(super) fn steps(points: &[Point]) -> Vec<f64> {
    points.windows(2).map(|p| p[0].distance(p[1]).0).collect()
}

/// The point at this share of a line's length, which is given in `steps`.
pub(super) fn along(points: &[Point], steps: &[f64], share: f64) -> Option<Point> {
    let mut left = steps.iter().sum::<f64>() * share;
    for (pair, &step) in points.windows(2).zip(steps) {
        if step >= left && step > 0.0 {
            return Some(between(pair[0], pair[1], left / step));
        }
        left -= step;
    }
    points.last().copied()
}

/// A line walked from its end.
pub(super) fn backwards(line: &[Segment]) -> Vec<Segment> {
    let mut at = Vec::new();
    for segment in line {
        match *segment {
            Segment::Move(p) | Segment::Line(p) | Segment::Curve(_, _, p) => at.push(p),
            Segment::Close => {}
        }
    }
    let Some(last) = at.last() else { return Vec::new() };
    let mut back = vec![Segment::Move(*last)];
    for index in (1..at.len()).rev() {
        back.push(match line[index] {
            Segment::Curve(a, b, _) => Segment::Curve(b, a, at[index - 1]),
            Segment::Move(_) | Segment::Line(_) | Segment::Close => Segment::Line(at[index - 1]),
        });
    }
    back
}

/// A run's last direction, as a unit vector.
pub(super) fn direction(line: &[Segment]) -> Option<(Point, Point)> {
    let at = points(line);
    let tip = *at.last()?;
    let from = at.iter().rev().find(|p| p.distance(tip).0 > 0.3)?;
    let length = from.distance(tip).0;
    Some((tip, Point::new((tip.x.0 - from.x.0) / length, (tip.y.0 - from.y.0) / length)))
}
