//! Strands: down, round the turning bead or picot, and back up.

use super::bezier::{backwards, straight, sway, through};
use super::ring::ring_line;
use super::stage::Hole;
use super::thread::{Sight, Tracer};
use crate::drawn::{BeadMark, Segment, Shape};
use crate::stitch::SectionId;
use crate::units::Point;

/// How far the thread stands off a turning bead that it goes round.
const OFF_TURN: f64 = 1.5;
/// How far the thread runs from the middle of a picot's beads, as a share of their width.
const PICOT_LANE: f64 = 0.3;

impl Tracer<'_> {
    pub(super) fn strand(&mut self, strand: SectionId, number: Option<usize>, offset: f64, down: bool) {
        let Some(hole) = self.stage.strands.get(&strand) else { return };
        let mut holes: Vec<Hole> = hole.runs.clone();
        if !down {
            holes.reverse();
        }
        for part in holes {
            let (top, bottom) =
                (Point::new(part.x + offset, part.top), Point::new(part.x + offset, part.bottom));
            let line = if down { straight(top, bottom) } else { straight(bottom, top) };
            self.run(number, Sight::Hidden, line);
        }
        if down {
            self.through_turn(strand, number, offset);
        }
    }

    /// From the strand into its turning bead or picot and through it.
    fn through_turn(&mut self, strand: SectionId, number: Option<usize>, offset: f64) {
        let Some(hole) = self.stage.strands.get(&strand) else { return };
        let Some(foot) = hole.runs.last().map(|r| Point::new(r.x + offset, r.bottom)) else {
            return;
        };
        let turn = hole.turn.clone();
        match turn.as_slice() {
            [] => {}
            [only] if only.shape == Shape::Drop => {
                let (left, right) = drop_hole(only);
                let (into, out) = if offset < 0.0 { (left, right) } else { (right, left) };
                let side = (into.x.0 - only.centre.x.0).signum();
                self.run(number, Sight::Open, round_into(foot, into, side)).head = true;
                self.run(number, Sight::Hidden, straight(into, out));
            }
            [only] => {
                let half = only.length.0 / 2.0;
                let top = Point::new(only.centre.x.0 + offset, only.centre.y.0 - half);
                let bottom = Point::new(top.x.0, only.centre.y.0 + half);
                self.run(number, Sight::Open, straight(foot, top));
                self.run(number, Sight::Hidden, straight(top, bottom));
            }
            beads => {
                let line = picot_line(beads, offset > 0.0);
                if let Some(first) = line.first() {
                    self.run(number, Sight::Open, sway(foot, *first)).head = true;
                }
                self.run(number, Sight::Hidden, through(&line));
            }
        }
    }

    /// From the turning bead back into the strand.
    pub(super) fn turn(&mut self, strand: SectionId, into: Point, number: Option<usize>, down: f64) {
        let Some(hole) = self.stage.strands.get(&strand) else { return };
        let turn = hole.turn.clone();
        match turn.as_slice() {
            [] => {}
            [only] if only.shape == Shape::Drop => {
                let (left, right) = drop_hole(only);
                let out = if down < 0.0 { right } else { left };
                let side = (out.x.0 - only.centre.x.0).signum();
                let line = backwards(&round_into(into, out, side));
                self.run(number, Sight::Open, line).head = true;
            }
            [only] => {
                let half = only.length.0 / 2.0;
                let side = if down < 0.0 { 1.0 } else { -1.0 };
                let bottom = Point::new(only.centre.x.0 + down, only.centre.y.0 + half);
                let out = only.centre.x.0 + side * (only.width.0 / 2.0 + OFF_TURN);
                let low = bottom.y.0 + 2.2;
                let high = only.centre.y.0 - half * 0.4;
                let p = Point::new;
                let line = vec![
                    Segment::Move(bottom),
                    Segment::Curve(
                        p(bottom.x.0, low + 0.6),
                        p(f64::midpoint(bottom.x.0, only.centre.x.0), low),
                        p(only.centre.x.0, low),
                    ),
                    Segment::Curve(
                        p(out - side * 0.6, low),
                        p(out, low - 0.8),
                        p(out, only.centre.y.0 + half * 0.3),
                    ),
                    Segment::Curve(p(out, high - half * 0.5), p(into.x.0, into.y.0 + 2.6), into),
                ];
                self.run(number, Sight::Open, line).head = true;
            }
            beads => {
                if let Some(last) = picot_line(beads, down > 0.0).last() {
                    self.run(number, Sight::Open, sway(*last, into)).head = true;
                }
            }
        }
    }
}

/// Left and right end of a drop's hole, which lies across its narrow end.
fn drop_hole(drop: &BeadMark) -> (Point, Point) {
    let y = drop.centre.y.0 - drop.length.0 * 0.32;
    let half = drop.width.0 * 0.24;
    (Point::new(drop.centre.x.0 - half, y), Point::new(drop.centre.x.0 + half, y))
}

/// The thread through a picot's beads, on the outer side of their letters, from the left or the right.
fn picot_line(beads: &[BeadMark], from_right: bool) -> Vec<Point> {
    let narrowest = beads.iter().map(|b| b.width.0).fold(f64::INFINITY, f64::min);
    let mut line = ring_line(beads, -PICOT_LANE * narrowest);
    if from_right {
        line.reverse();
    }
    line
}

/// From above into the side of a drop.
fn round_into(from: Point, into: Point, side: f64) -> Vec<Segment> {
    vec![
        Segment::Move(from),
        Segment::Curve(
            Point::new(from.x.0, from.y.0 + (into.y.0 - from.y.0) * 0.5),
            Point::new(into.x.0 + side * 2.6, into.y.0),
            into,
        ),
    ]
}
