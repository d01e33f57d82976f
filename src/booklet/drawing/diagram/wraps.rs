//! Wraps round two stacks: whole in front of them, dashed behind.

use super::bezier::{backwards, between, straight};
use super::columns::GAP_AT_LEAST;
use super::route::Through;
use super::stage::Hole;
use super::thread::{Sight, Tracer};
use crate::drawn::Segment;
use crate::units::Point;

/// Distance of wraps from each other.
const WRAPS_APART: f64 = 1.3;
/// Where on its way across the thread has its arrowhead, and the pieces that the way is drawn in: with thread that goes
/// upright through the stacks, level lines of more than 14 mm are taken for the rules of a table by programs that read
/// pages aloud.
const HEAD_AT: f64 = 0.54;
const ACROSS: [f64; 5] = [0.0, HEAD_AT / 2.0, HEAD_AT, (1.0 + HEAD_AT) / 2.0, 1.0];

impl Tracer<'_> {
    /// The wraps among the legs after `from`, from where its thread comes out; gives where they end and
    /// which way is away from the stacks.
    pub(super) fn wraps(&mut self, from: usize, out: Point) -> Option<(Point, f64)> {
        let wraps: Vec<(usize, Option<usize>)> = self.legs[from + 1..]
            .iter()
            .take_while(|l| l.through.hole().is_none())
            .filter_map(|l| match l.through {
                Through::Wrap { anchor } => Some((anchor, l.number)),
                _ => None,
            })
            .collect();
        let (anchor, _) = *wraps.first()?;
        let stacks = self.work.anchors.get(anchor).map(|a| {
            let [left, right] = a.stacks.map(|stack| self.stage.stacks.get(&stack).copied());
            (left, right.or(left))
        });
        let Some((Some(left), Some(right))) = stacks else { return None };
        let half = self.half_width(&left).max(self.half_width(&right));
        // Wraps reach to the middle of the gap beside their stacks, where a number has room.
        let gap = (right.x - left.x).abs() - 2.0 * half;
        let half = half + gap.max(GAP_AT_LEAST) / 2.0;
        let start_left = (out.x.0 - left.x).abs() <= (out.x.0 - right.x).abs();
        let (near, far) =
            if start_left { (left.x - half, right.x + half) } else { (right.x + half, left.x - half) };
        let middle = self.joint(&left);
        // From the first wrap to where the last one ends behind, with the joint in the middle: letters on both
        // sides of it stay whole.
        let first = middle - WRAPS_APART * (wraps.len() as f64 - 0.5) / 2.0;
        let side = (near - far).signum();
        let down = !self.above(from, false);
        let half_step = WRAPS_APART / 2.0;
        for (turn, (_, wrap)) in wraps.iter().enumerate() {
            let y = first + WRAPS_APART * turn as f64;
            let (a, b) = (Point::new(near, y), Point::new(far, y + half_step));
            if turn == 0 {
                let lead = if down && y > out.y.0 { round_below(out, a) } else { round(out, a) };
                self.run(*wrap, Sight::Open, lead);
            } else {
                self.turn_side(*wrap, Point::new(near, y - half_step), a, side);
            }
            self.across(*wrap, Sight::Open, a, b, turn + 1 == wraps.len());
            let behind = Point::new(far, b.y.0 + half_step);
            self.turn_side(*wrap, b, behind, -side);
            self.across(*wrap, Sight::Hidden, behind, Point::new(near, y + half_step), false);
        }
        let last = Point::new(near, first + WRAPS_APART * (wraps.len() as f64 - 0.5));
        Some((last, side))
    }

    /// Across both stacks, in front of them or behind.
    fn across(&mut self, number: Option<usize>, sight: Sight, from: Point, to: Point, last: bool) {
        let at = |share: f64| between(from, to, share);
        for piece in ACROSS.windows(2) {
            let run = self.run(number, sight, straight(at(piece[0]), at(piece[1])));
            run.head = sight == Sight::Open && (piece[1] - HEAD_AT).abs() < f64::EPSILON;
            run.ends_wrap = last && piece[1] >= 1.0;
        }
    }

    /// Round the side of two stacks, from the front to the back or the other way.
    fn turn_side(&mut self, number: Option<usize>, from: Point, to: Point, side: f64) {
        let out = side * 0.7;
        let line = vec![
            Segment::Move(from),
            Segment::Curve(Point::new(from.x.0 + out, from.y.0), Point::new(to.x.0 + out, to.y.0), to),
        ];
        self.run(number, Sight::Open, line);
    }

    /// Half the width of the widest bead of a stack.
    fn half_width(&self, hole: &Hole) -> f64 {
        self.stage
            .beads
            .iter()
            .filter(|b| (b.mark.centre.x.0 - hole.x).abs() < 0.01)
            .filter(|b| (hole.top..=hole.bottom).contains(&b.mark.centre.y.0))
            .map(|b| b.mark.width.0 / 2.0)
            .fold(0.0, f64::max)
    }

    /// A height in a stack that is clear of letters: between its first two beads, or below the letter of its only one.
    fn joint(&self, hole: &Hole) -> f64 {
        let mut lower: Vec<f64> = self
            .stage
            .beads
            .iter()
            .filter(|b| (b.mark.centre.x.0 - hole.x).abs() < 0.01)
            .filter(|b| (hole.top..=hole.bottom).contains(&b.mark.centre.y.0))
            .map(|b| b.mark.centre.y.0 + b.mark.length.0 / 2.0)
            .collect();
        lower.sort_by(f64::total_cmp);
        match lower.as_slice() {
            [first, _, ..] => *first,
            _ => hole.top + (hole.bottom - hole.top) * 0.78,
        }
    }
}

/// From a hole's lower end down to the side of a stack below it.
fn round_below(from: Point, to: Point) -> Vec<Segment> {
    let reach = (to.y.0 - from.y.0) * 0.5;
    vec![
        Segment::Move(from),
        Segment::Curve(Point::new(from.x.0, from.y.0 + reach), Point::new(to.x.0, to.y.0 - reach * 1.2), to),
    ]
}

/// From a hole's end to the side of a stack.
fn round(from: Point, to: Point) -> Vec<Segment> {
    let side = (to.x.0 - from.x.0).signum() * 1.4;
    vec![
        Segment::Move(from),
        Segment::Curve(
            Point::new(from.x.0, from.y.0 + (from.y.0 - to.y.0).signum() * 2.4),
            Point::new(to.x.0 + side, from.y.0 + (from.y.0 - to.y.0).signum() * 2.4),
            between(Point::new(to.x.0 + side * 0.7, from.y.0), to, 0.3),
        ),
        Segment::Curve(
            Point::new(to.x.0 + side * 0.5, f64::midpoint(from.y.0, to.y.0)),
            Point::new(to.x.0 + side * 0.4, to.y.0),
            to,
        ),
    ]
}

pub(super) fn round_out(from: Point, to: Point) -> Vec<Segment> {
    backwards(&round(to, from))
}
