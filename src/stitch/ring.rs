//! The loop of beads as a ring: hole ends on a circle through the two points where it is held.

use crate::design::Side;
use crate::units::{Mm, Point};
use std::f64::consts::{PI, TAU};

/// Halvings when a radius is sought: beyond the precision of a float.
const HALVINGS: usize = 200;

/// The hole ends of a ring of beads, one more than beads, from `near` to the other end.
///
/// The beads are chords of a circle that stands above the two ends, `apart` from each other and
/// half way between them above `middle`; `near` is the side of the first end. Beads that cannot
/// close to a ring (fewer than three, or one longer than the others together) lie in a line.
pub(super) fn hole_ends(lengths: &[Mm], middle: Point, apart: Mm, near: Side) -> Vec<Point> {
    let turn = match near {
        Side::Left => 1.0,
        Side::Right => -1.0,
    };
    let Some((radius, centre_above)) = circle(lengths, apart) else {
        return in_a_line(lengths, middle, turn);
    };
    let centre = Point { x: middle.x, y: middle.y - centre_above };
    let mut angle = centre_above.0.atan2(-turn * apart.0 / 2.0);
    let mut ends = Vec::with_capacity(lengths.len() + 1);
    let on_circle =
        |angle: f64| Point::new(centre.x.0 + radius.0 * angle.cos(), centre.y.0 + radius.0 * angle.sin());
    ends.push(on_circle(angle));
    for &length in lengths {
        angle += turn * chord_angle(length.0, radius.0);
        ends.push(on_circle(angle));
    }
    ends
}

/// Radius of the circle, and how far its centre lies above the two ends.
fn circle(lengths: &[Mm], apart: Mm) -> Option<(Mm, Mm)> {
    let total: Mm = lengths.iter().copied().sum();
    let longest = lengths.iter().fold(Mm::ZERO, |l, &x| l.max(x));
    let closes = longest.0 < (total - longest + apart).0 - 1e-6 && total.0 > apart.0 + 1e-6;
    if lengths.len() < 3 || !closes {
        return None;
    }
    let beads = |radius: f64| -> f64 { lengths.iter().map(|l| chord_angle(l.0, radius)).sum() };
    let gap = |radius: f64| chord_angle(apart.0, radius);
    let least = longest.max(apart).0 / 2.0;
    // More than half a circle of beads: with the gap they fill the whole turn. Less: they
    // subtend the same angle as the gap, from a centre below it.
    let more_than_half = beads(least) + gap(least) >= TAU;
    if !more_than_half && longest.0 > apart.0 {
        return None;
    }
    let too_small = |radius: f64| match more_than_half {
        true => beads(radius) + gap(radius) > TAU,
        false => beads(radius) < gap(radius),
    };
    let (mut low, mut high) = (least, least * 2.0);
    while too_small(high) {
        high *= 2.0;
    }
    for _ in 0..HALVINGS {
        let half = (low + high) / 2.0;
        if too_small(half) {
            low = half;
        } else {
            high = half;
        }
    }
    let radius = high;
    let height = (radius * radius - apart.0 * apart.0 / 4.0).max(0.0).sqrt();
    let above = if beads(radius) > PI { height } else { -height };
    Some((Mm(radius), Mm(above)))
}

/// Angle that a chord subtends at the centre of its circle.
fn chord_angle(chord: f64, radius: f64) -> f64 {
    2.0 * (chord / (2.0 * radius)).min(1.0).asin()
}

/// Beads in a level line, half of it on each side of the middle.
fn in_a_line(lengths: &[Mm], middle: Point, turn: f64) -> Vec<Point> {
    let total: Mm = lengths.iter().copied().sum();
    let mut along = -total.0 / 2.0;
    let mut ends = vec![Point { x: middle.x + Mm(turn * along), y: middle.y }];
    for length in lengths {
        along += length.0;
        ends.push(Point { x: middle.x + Mm(turn * along), y: middle.y });
    }
    ends
}
