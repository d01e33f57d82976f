//! The thread of a diagram: dashed through holes, whole outside, with arrowheads.

use super::bezier::{arc, backwards, halves, straight, sway, through};
use super::joins::{Bend, Join, arc_height};
use super::lanes::Port;
use super::ring::ring_line;
use super::route::{Leg, Through};
use super::stage::{Stage, Strung};
use super::wraps::round_out;
use crate::booklet::drawing::findings::guard_line;
use crate::design::Side;
use crate::drawn::Segment;
use crate::stitch::{Bridge, Pass, Way, Work};
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

/// How far a hook reaches into the row whose bridge it goes round.
const HOOK: f64 = 3.4;
/// How far thread that runs along the outside of a stack lies from it.
const ASIDE: f64 = 1.1;
/// How far the handles of its curve round the end of the stack stand out.
const ROUND: f64 = 3.2;
/// Half the width of a hook whose stack does not lie over its bridge.
const HOOK_HALF: f64 = 1.4;

pub(super) struct Tracer<'a> {
    pub(super) work: &'a Work,
    pub(super) stage: &'a Stage,
    pub(super) legs: &'a [Leg],
    pub(super) offsets: &'a [f64],
    pub(super) thread: Thread,
}

/// Draws the thread along its legs and joins.
pub(super) fn trace(work: &Work, stage: &Stage, legs: &[Leg], offsets: &[f64], joins: &[Join]) -> Thread {
    let mut tracer = Tracer { work, stage, legs, offsets, thread: Thread::default() };
    let holed: Vec<usize> = (0..legs.len()).filter(|i| legs[*i].through.hole().is_some()).collect();
    if let Some(first) = holed.first() {
        tracer.beginning(*first);
    }
    for index in &holed {
        tracer.hole(*index);
        if let Some(join) = joins.iter().find(|j| j.from == *index) {
            tracer.join(join);
        }
    }
    if let Some(last) = holed.last() {
        tracer.end(*last);
    }
    tracer.thread
}

impl Tracer<'_> {
    pub(super) fn run(&mut self, number: Option<usize>, sight: Sight, line: Vec<Segment>) -> &mut Run {
        let carries = sight != Sight::Hidden && number.is_some();
        self.thread.runs.push(Run { number, sight, line, head: false, carries, ends_wrap: false });
        let last = self.thread.runs.len() - 1;
        &mut self.thread.runs[last]
    }

    /// Where a leg is entered (`true`) or left.
    pub(super) fn port(&self, index: usize, entry: bool) -> Option<Point> {
        let offset = self.offsets[index];
        match self.legs[index].through {
            Through::Stack(Pass { stack, way }) => {
                let hole = self.stage.stacks.get(&stack)?;
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
            Through::Beginning | Through::Bridge(_) | Through::Wrap { .. } | Through::End => None,
        }
    }

    /// Whether the thread leaves (or comes to) a hole's end upwards of it.
    pub(super) fn above(&self, index: usize, entry: bool) -> bool {
        match self.legs[index].through {
            Through::Stack(Pass { way, .. }) => (way == Way::Up) != entry,
            Through::Guard { .. } | Through::Loop { .. } => false,
            Through::Down { .. } => entry,
            Through::Up { .. } => !entry,
            Through::Beginning | Through::Bridge(_) | Through::Wrap { .. } | Through::End => false,
        }
    }

    /// The thread inside a hole.
    fn hole(&mut self, index: usize) {
        let leg = &self.legs[index];
        let (number, offset) = (leg.number, self.offsets[index]);
        match leg.through {
            Through::Stack(_) => {
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
            Through::Beginning | Through::Bridge(_) | Through::Wrap { .. } | Through::End => {}
        }
    }

    /// From one hole to the next.
    fn join(&mut self, join: &Join) {
        let (Some(out), Some(into)) = (self.port(join.from, false), self.port(join.to, true)) else {
            return;
        };
        let number = self.legs[join.to].number;
        match join.bend {
            Bend::Arc { level } => {
                let line = self.arc_over(join, out, into, level);
                self.run(number, Sight::Open, line).head = true;
            }
            Bend::Across => {
                self.run(number, Sight::Open, sway(out, into)).head = true;
            }
            Bend::Beside => {
                let line = self.beside(join, out, into);
                self.run(number, Sight::Open, line).head = true;
            }
            Bend::Hook { bridge } => {
                let hook = self.legs[join.from + 1].number;
                self.hook(bridge, out, into, [hook, number]);
            }
            Bend::Turn { strand } => self.turn(strand, into, number, self.offsets[join.from]),
            Bend::Wrapped => {
                let line = match self.wraps(join.from, out) {
                    Some((last, _)) => round_out(last, into),
                    None => sway(out, into),
                };
                self.run(number, Sight::Open, line).head = true;
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
        let line = if port.from_below { port.channel.checked_sub(1) } else { Some(port.channel) };
        let Some((top, bottom)) = line.and_then(|line| self.stage.lines.get(&line)) else { return 0.0 };
        let off = if port.from_below { out.y.0.min(into.y.0) - top } else { bottom - out.y.0.max(into.y.0) };
        // Ends beyond the row (a strand, a guard) keep their own height.
        if off.abs() < 4.0 { off.max(0.0) } else { 0.0 }
    }

    /// Along the outside of a stack alone in its row, round its far end.
    fn beside(&self, join: &Join, out: Point, into: Point) -> Vec<Segment> {
        let leaves = join.out.is_beyond(join.into);
        let (far, near, leg) = if leaves { (out, into, join.from) } else { (into, out, join.to) };
        let Through::Stack(Pass { stack, .. }) = self.legs[leg].through else { return sway(out, into) };
        let Some(hole) = self.stage.stacks.get(&stack) else { return sway(out, into) };
        let beads = self.stage.beads.iter().filter(|bead| bead.of == Strung::Stack(stack));
        let half = beads.map(|bead| bead.mark.width.0 / 2.0).fold(0.0, f64::max);
        let x = hole.x + if near.x.0 < hole.x { -half - ASIDE } else { half + ASIDE };
        let (beyond, end) = if join.out.from_below { (-ROUND, hole.bottom) } else { (ROUND, hole.top) };
        let crest = far.y.0 + beyond;
        let mut line = vec![
            Segment::Move(far),
            Segment::Curve(Point::new(far.x.0, crest), Point::new(x, crest), Point::new(x, far.y.0)),
            Segment::Line(Point::new(x, end)),
        ];
        line.extend(sway(Point::new(x, end), near).into_iter().skip(1));
        if leaves { line } else { backwards(&line) }
    }

    /// Round a bridge: behind it into its row, and back in front.
    fn hook(&mut self, bridge: Bridge, out: Point, into: Point, numbers: [Option<usize>; 2]) {
        let [left, right] = bridge.stacks.map(|stack| self.stage.stacks.get(&stack));
        let (Some(left), Some(right)) = (left, right) else {
            self.run(numbers[1], Sight::Open, sway(out, into)).head = true;
            return;
        };
        let middle = f64::midpoint(left.x, right.x);
        let line = self.work.fabric[bridge.stacks[0]].line;
        let (top, bottom) = self.stage.lines.get(&line).copied().unwrap_or((left.top, left.bottom));
        // The edge along which the bridge lies, and which way its row lies from there.
        let (edge, inwards) = if bridge.edge == Way::Up { (top, 1.0) } else { (bottom, -1.0) };
        let lean = if out.x.0 <= into.x.0 { -1.0 } else { 1.0 };
        let leg = |x: f64, side: f64| {
            let over = (x - middle).abs() <= HOOK_HALF * 1.7 && (x - middle) * side > 0.0;
            Point::new(if over { x } else { middle + side * HOOK_HALF }, edge - 0.2 * inwards)
        };
        let (there, back_again) = (leg(out.x.0, lean), leg(into.x.0, -lean));
        let deep = |p: Point| Point::new(p.x.0, edge + HOOK * inwards);
        let [back, front] = halves(there, deep(there), deep(back_again), back_again);
        let mut line = sway(out, there);
        line.extend(back.into_iter().skip(1));
        self.run(numbers[0], Sight::Behind, line);
        let mut line = front;
        line.extend(sway(back_again, into).into_iter().skip(1));
        self.run(numbers[1], Sight::Open, line).head = true;
    }
}
