//! The thread of a diagram: dashed through holes, whole outside, with arrowheads.

use super::bezier::{arc, between, halves, points, straight, sway, through};
use super::joins::{Join, Way as JoinWay, arc_height};
use super::lanes::Port;
use super::route::{Leg, Through};
use super::stage::{Hole, Stage};
use crate::booklet::drawing::findings::guard_line;
use crate::booklet::drawing::model::{BeadMark, Segment};
use crate::design::{Shape, Side};
use crate::stitch::{StackAt, Way, Work};
use crate::units::Point;

/// How a stretch of thread is seen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Sight {
    /// Behind a bridge of the row below.
    Behind,
    /// Inside a bead or finding, or behind beads.
    Hidden,
    /// In the open.
    Open,
}

/// A stretch of thread.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Run {
    /// The number of its move; `None` for the stretch before.
    pub(super) number: Option<usize>,
    pub(super) sight: Sight,
    pub(super) line: Vec<Segment>,
    /// Whether an arrowhead stands at its end.
    pub(super) head: bool,
    /// Whether a number may stand on it.
    pub(super) carries: bool,
    /// Whether it is the last stretch of the last wrap in front of its stacks.
    pub(super) ends_wrap: bool,
}

/// How the thread ends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum End {
    /// In a needle.
    Needle,
    /// Cut off.
    Cut,
}

/// All of the thread.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Thread {
    pub(super) runs: Vec<Run>,
    /// Where it ends, which way it points (a unit vector), and in what.
    pub(super) end: Option<(Point, Point, End)>,
    /// The loose beginning.
    pub(super) beginning: Option<Point>,
}

/// Depth of a hook below the bridge it goes round.
const HOOK: f64 = 3.4;
/// Half the width of a hook whose stack does not lie over its bridge.
const HOOK_HALF: f64 = 1.4;
/// Length of a loose beginning.
const LOOSE: f64 = 9.0;
/// Length of the stretch by which thread comes in from outside the diagram.
const STUB: f64 = 5.0;
/// Thread between the last bead and the needle.
const TO_NEEDLE: f64 = 4.0;
/// Thread between the last arc that it crosses and the needle.
const BEYOND_ARCS: f64 = 2.4;
/// Arcs are looked for no further than this beyond the hole the thread comes out of.
const ARCS_REACH: f64 = 9.0;
/// How far the thread stands off a turning bead that it goes round.
const OFF_TURN: f64 = 1.5;
/// Distance of wraps from each other.
const WRAPS_APART: f64 = 1.3;
/// How far wraps reach beyond their stacks, as a share of half a stack's width: to the middle of the gap,
/// where a number has room.
const WRAP_REACH: f64 = super::columns::GAP;

struct Tracer<'a> {
    work: &'a Work,
    stage: &'a Stage,
    legs: &'a [Leg],
    offsets: &'a [f64],
    thread: Thread,
}

/// Draws the thread along its legs and joins.
pub(super) fn trace(work: &Work, stage: &Stage, legs: &[Leg], offsets: &[f64], joins: &[Join]) -> Thread {
    let mut tracer = Tracer { work, stage, legs, offsets, thread: Thread::default() };
    let holed: Vec<usize> = (0..legs.len()).filter(|i| legs[*i].through.hole().is_some()).collect();
    if let Some(first) = holed.first() {
        tracer.beginning(*first);
    }
    for (place, index) in holed.iter().enumerate() {
        tracer.hole(*index);
        if let Some(join) = joins.get(place).filter(|j| j.from == *index) {
            tracer.join(join);
        }
    }
    if let Some(last) = holed.last() {
        tracer.end(*last);
    }
    tracer.thread
}

impl Tracer<'_> {
    fn run(&mut self, number: Option<usize>, sight: Sight, line: Vec<Segment>) -> &mut Run {
        let carries = sight != Sight::Hidden && number.is_some();
        self.thread.runs.push(Run { number, sight, line, head: false, carries, ends_wrap: false });
        let last = self.thread.runs.len() - 1;
        &mut self.thread.runs[last]
    }

    /// Where a leg is entered (`true`) or left.
    fn port(&self, index: usize, entry: bool) -> Option<Point> {
        let offset = self.offsets[index];
        match self.legs[index].through {
            Through::Stack { at, way } => {
                let hole = self.stage.stacks.get(&at)?;
                let low = (way == Way::Up) == entry;
                Some(Point::new(hole.x + offset, if low { hole.bottom } else { hole.top }))
            }
            Through::Guard { towards } => {
                let (left, right, _) = self.stage.guard?;
                Some(match (towards == Side::Right) == entry {
                    true => Point::new(left.x.0 + offset, left.y.0),
                    false => Point::new(right.x.0 - offset, right.y.0),
                })
            }
            Through::Loop { towards } => {
                let line = ring_line(&self.stage.ring, offset);
                if (towards == Side::Right) == entry { line.first() } else { line.last() }.copied()
            }
            Through::Down { strand } => {
                let hole = self.stage.strands.get(&strand)?;
                if entry {
                    hole.runs.first().map(|r| Point::new(r.x + offset, r.top))
                } else {
                    let last = hole.turn.last()?;
                    Some(Point::new(last.centre.x.0 + offset, last.centre.y.0 + last.length.0 / 2.0))
                }
            }
            Through::Up { strand } => {
                let hole = self.stage.strands.get(&strand)?;
                if entry {
                    hole.runs.last().map(|r| Point::new(r.x + offset, r.bottom))
                } else {
                    hole.runs.first().map(|r| Point::new(r.x + offset, r.top))
                }
            }
            Through::Beginning | Through::Bridge { .. } | Through::Wrap { .. } | Through::End => None,
        }
    }

    /// Whether the thread leaves (or comes to) a hole's end upwards of it.
    fn above(&self, index: usize, entry: bool) -> bool {
        match self.legs[index].through {
            Through::Stack { way, .. } => (way == Way::Up) != entry,
            Through::Guard { .. } | Through::Loop { .. } => false,
            Through::Down { .. } => entry,
            Through::Up { .. } => !entry,
            Through::Beginning | Through::Bridge { .. } | Through::Wrap { .. } | Through::End => false,
        }
    }

    /// The thread inside a hole.
    fn hole(&mut self, index: usize) {
        let leg = &self.legs[index];
        let (number, offset) = (leg.number, self.offsets[index]);
        match leg.through {
            Through::Stack { .. } => {
                if let (Some(from), Some(to)) = (self.port(index, true), self.port(index, false)) {
                    self.run(number, Sight::Hidden, straight(from, to));
                }
            }
            Through::Guard { towards } => {
                if let Some((left, right, rise)) = self.stage.guard {
                    let line = guard_line(left, right, rise, offset);
                    let line = if towards == Side::Right { line } else { backwards(&line) };
                    self.run(number, Sight::Hidden, line);
                }
            }
            Through::Loop { towards } => {
                let mut line = ring_line(&self.stage.ring, offset);
                if towards == Side::Left {
                    line.reverse();
                }
                self.run(number, Sight::Hidden, through(&line));
            }
            Through::Down { strand } => self.strand(strand, number, offset, true),
            Through::Up { strand } => self.strand(strand, number, offset, false),
            Through::Beginning | Through::Bridge { .. } | Through::Wrap { .. } | Through::End => {}
        }
    }

    fn strand(&mut self, strand: usize, number: Option<usize>, offset: f64, down: bool) {
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
            self.into_turn(strand, number, offset);
        }
    }

    /// From the strand into its turning bead or picot and through it.
    fn into_turn(&mut self, strand: usize, number: Option<usize>, offset: f64) {
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
                let mut centres: Vec<Point> = beads.iter().map(hole_centre).collect();
                if offset > 0.0 {
                    centres.reverse();
                }
                let mut line = vec![foot];
                line.append(&mut centres);
                self.run(number, Sight::Hidden, through(&line));
            }
        }
    }

    /// From one hole to the next.
    fn join(&mut self, join: &Join) {
        let (Some(out), Some(into)) = (self.port(join.from, false), self.port(join.to, true)) else {
            return;
        };
        let number = self.legs[join.to].number;
        match join.way {
            JoinWay::Arc { level } => {
                let line = self.arc_over(join, out, into, level);
                self.run(number, Sight::Open, line).head = true;
            }
            JoinWay::Across => {
                self.run(number, Sight::Open, sway(out, into)).head = true;
            }
            JoinWay::Hook { bridge } => {
                let hook = self.legs[join.from + 1].number;
                self.hook(bridge.row, bridge.bridge, out, into, [hook, number]);
            }
            JoinWay::Turn { strand } => self.turn(strand, into, number, self.offsets[join.from]),
            JoinWay::Wrapped { anchor, .. } => {
                self.wraps(anchor, out, into, join, number);
            }
        }
    }

    /// An arc whose crest stands off the row's edge, not off the hole's end, so that arcs over uneven stacks
    /// stay apart.
    fn arc_over(&self, join: &Join, out: Point, into: Point, level: usize) -> Vec<Segment> {
        let up = join.out.from_below;
        arc(out, into, arc_height(level) + self.edge_off(join.out, out, into), up)
    }

    fn edge_off(&self, port: Port, out: Point, into: Point) -> f64 {
        let row = if port.from_below { port.channel.checked_sub(1) } else { Some(port.channel) };
        let Some((top, bottom)) = row.and_then(|r| self.stage.rows.get(&r)) else { return 0.0 };
        let off = if port.from_below { out.y.0.min(into.y.0) - top } else { bottom - out.y.0.max(into.y.0) };
        // Ends beyond the row (a strand, a guard) keep their own height.
        if off.abs() < 4.0 { off.max(0.0) } else { 0.0 }
    }

    /// Round a bridge: down behind it, up in front.
    fn hook(&mut self, row: usize, bridge: usize, out: Point, into: Point, numbers: [Option<usize>; 2]) {
        let stack = |stack| self.stage.stacks.get(&StackAt { row, stack });
        let (Some(left), Some(right)) = (stack(bridge), stack(bridge + 1)) else {
            self.run(numbers[1], Sight::Open, sway(out, into)).head = true;
            return;
        };
        let middle = f64::midpoint(left.x, right.x);
        let top = self.stage.rows.get(&row).map_or(left.top, |r| r.0);
        let lean = if out.x.0 <= into.x.0 { -1.0 } else { 1.0 };
        let leg = |x: f64, side: f64| {
            let over = (x - middle).abs() <= HOOK_HALF * 1.7 && (x - middle) * side > 0.0;
            Point::new(if over { x } else { middle + side * HOOK_HALF }, top - 0.2)
        };
        let (down, up) = (leg(out.x.0, lean), leg(into.x.0, -lean));
        let deep = |p: Point| Point::new(p.x.0, top + HOOK);
        let [back, front] = halves(down, deep(down), deep(up), up);
        let mut line = sway(out, down);
        line.extend(back.into_iter().skip(1));
        self.run(numbers[0], Sight::Behind, line);
        let mut line = front;
        line.extend(sway(up, into).into_iter().skip(1));
        self.run(numbers[1], Sight::Open, line).head = true;
    }

    /// From the turning bead back into the strand.
    fn turn(&mut self, strand: usize, into: Point, number: Option<usize>, down: f64) {
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
                let ends = (beads.first().map(hole_centre), beads.last().map(hole_centre));
                if let (Some(first), Some(last)) = ends {
                    let from = if down > 0.0 { first } else { last };
                    self.run(number, Sight::Open, sway(from, into)).head = true;
                }
            }
        }
    }

    /// Wraps round two stacks: in front of them whole, behind them dashed.
    fn wraps(&mut self, anchor: usize, out: Point, into: Point, join: &Join, number: Option<usize>) {
        let numbers: Vec<Option<usize>> = self.legs[join.from + 1..join.to]
            .iter()
            .filter(|l| matches!(l.through, Through::Wrap { .. }))
            .map(|l| l.number)
            .collect();
        let stacks = self.work.anchors.get(anchor).map(|a| {
            let at = |stack| self.stage.stacks.get(&StackAt { row: a.row, stack }).copied();
            // A single stack has no neighbour: the wraps go round it alone.
            (at(a.stack), at(a.stack + 1).or_else(|| at(a.stack)))
        });
        let Some((Some(left), Some(right))) = stacks else {
            self.run(number, Sight::Open, sway(out, into)).head = true;
            return;
        };
        let half = self.half_width(&left).max(self.half_width(&right));
        let half = half * (1.0 + WRAP_REACH);
        let start_left = (out.x.0 - left.x).abs() <= (out.x.0 - right.x).abs();
        let (near, far) =
            if start_left { (left.x - half, right.x + half) } else { (right.x + half, left.x - half) };
        let middle = self.joint(&left);
        let first = middle - WRAPS_APART * (numbers.len().saturating_sub(1)) as f64 / 2.0;
        let side = (near - far).signum();
        let down = !self.above(join.from, false);
        let half_step = WRAPS_APART / 2.0;
        for (turn, wrap) in numbers.iter().enumerate() {
            let y = first + WRAPS_APART * turn as f64;
            let (a, b) = (Point::new(near, y), Point::new(far, y + half_step));
            if turn == 0 {
                let lead = if down && y > out.y.0 { round_below(out, a) } else { round(out, a) };
                self.run(*wrap, Sight::Open, lead);
            } else {
                self.turn_side(*wrap, Point::new(near, y - half_step), a, side);
            }
            let middle = between(a, b, 0.54);
            self.run(*wrap, Sight::Open, straight(a, middle)).head = true;
            self.run(*wrap, Sight::Open, straight(middle, b)).ends_wrap = turn + 1 == numbers.len();
            let behind = Point::new(far, b.y.0 + half_step);
            self.turn_side(*wrap, b, behind, -side);
            self.run(*wrap, Sight::Hidden, straight(behind, Point::new(near, y + half_step)));
        }
        let last = Point::new(near, first + WRAPS_APART * (numbers.len() as f64 - 0.5));
        self.run(number, Sight::Open, round_out(last, into)).head = true;
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

    /// The loose beginning, or the stretch that comes from outside the diagram.
    fn beginning(&mut self, first: usize) {
        let begins = self.legs[..first].iter().find(|l| l.through == Through::Beginning);
        let Some(entry) = self.port(first, true) else { return };
        let way = if self.above(first, true) { -1.0 } else { 1.0 };
        let p = Point::new;
        let (x, y) = (entry.x.0, entry.y.0);
        let Some(begins) = begins else {
            if self.legs[first].number.is_some() {
                self.run(None, Sight::Open, straight(p(x, y + way * STUB), entry)).head = true;
            }
            return;
        };
        let loose = p(x - 2.2, y + way * LOOSE);
        let line = vec![
            Segment::Move(loose),
            Segment::Curve(p(x - 2.6, y + way * LOOSE * 0.62), p(x, y + way * LOOSE * 0.55), entry),
        ];
        self.run(begins.number, Sight::Open, line).head = true;
        self.thread.beginning = Some(loose);
    }

    /// How far arcs that the thread crosses on its way out reach beyond the hole it comes out of.
    fn arcs_beyond(&self, exit: Point, way: f64) -> f64 {
        self.thread
            .runs
            .iter()
            .filter(|r| r.sight == Sight::Open)
            .flat_map(|r| points(&r.line))
            .filter(|p| (p.x.0 - exit.x.0).abs() < 1.0)
            .map(|p| (p.y.0 - exit.y.0) * way)
            .filter(|beyond| (0.0..ARCS_REACH).contains(beyond))
            .fold(0.0, f64::max)
    }

    /// The middle of what is worked.
    fn middle(&self) -> f64 {
        let xs = self.legs.iter().filter_map(|leg| match leg.through {
            Through::Stack { at, .. } => self.stage.stacks.get(&at).map(|h| h.x),
            _ => None,
        });
        let (low, high) = xs.fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), x| (a.min(x), b.max(x)));
        f64::midpoint(low, high)
    }

    /// The thread's end, in a needle or cut.
    fn end(&mut self, last: usize) {
        let Some(exit) = self.port(last, false) else { return };
        let rest = &self.legs[last + 1..];
        let way = if self.above(last, false) { -1.0 } else { 1.0 };
        let cut = rest.iter().find(|l| l.through == Through::End);
        let number = cut.or(rest.last()).map_or(self.legs[last].number, |l| l.number);
        let to_needle = TO_NEEDLE.max(self.arcs_beyond(exit, way) + BEYOND_ARCS);
        let out = Point::new(exit.x.0, exit.y.0 + way * to_needle);
        // The needle leans away from the middle of what is worked.
        let bend = if exit.x.0 < self.middle() { -0.36 } else { 0.36 };
        let tip = Point::new(out.x.0 + bend * 1.2, out.y.0);
        let line = vec![
            Segment::Move(exit),
            Segment::Curve(
                between(exit, out, 0.4),
                Point::new(tip.x.0 - bend, tip.y.0 - way * to_needle * 0.35),
                tip,
            ),
        ];
        self.run(number, Sight::Open, line);
        let end = if cut.is_some() { End::Cut } else { End::Needle };
        let length = f64::hypot(bend, 1.0);
        self.thread.end = Some((tip, Point::new(bend / length, way / length), end));
    }
}

/// The line of a loop's lane: its beads' centres, each moved outwards (for a negative offset) from the ring's middle.
fn ring_line(ring: &[BeadMark], offset: f64) -> Vec<Point> {
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

/// Left and right end of a drop's hole, which lies across its narrow end.
fn drop_hole(drop: &BeadMark) -> (Point, Point) {
    let y = drop.centre.y.0 - drop.length.0 * 0.32;
    let half = drop.width.0 * 0.24;
    (Point::new(drop.centre.x.0 - half, y), Point::new(drop.centre.x.0 + half, y))
}

/// Where the thread runs through the middle of a bead's hole.
fn hole_centre(bead: &BeadMark) -> Point {
    if bead.shape == Shape::Drop {
        Point::new(bead.centre.x.0, bead.centre.y.0 - bead.length.0 * 0.32)
    } else {
        bead.centre
    }
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

fn round_out(from: Point, to: Point) -> Vec<Segment> {
    backwards(&round(to, from))
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
