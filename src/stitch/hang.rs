//! Hanging: a thread guard or a closed loop of beads on the top row.

use super::ground::Ground;
use super::needle::Needle;
use super::needs::Needs;
use super::{MoveKind, Phase, Spot, StackAt, Way, practice, ring};
use crate::design::{Hang, Side};
use crate::units::{Mm, Point};
use std::f64::consts::PI;

/// Pieces in which the arch of a guard is followed.
const ARCH_PIECES: usize = 12;

/// Works the hanging from the upper end of the outer stack of the top row on the side `near`, and
/// comes back there: through the guard or loop, down the other outer stack, across one row lower,
/// and up; twice round.
pub(super) fn work(needle: &mut Needle, needs: &Needs, near: Side) {
    needle.phase = Phase::Hanging;
    let ground = needle.ground;
    let top = ground.rows() - 1;
    let near_stack = ground.counted_from(top, near, 1);
    let far_stack = ground.counted_from(top, near.other(), 1);
    let across = across(ground, far_stack, near_stack, near);
    let towards = near.other();
    for round in 0..practice::HANGING_ROUNDS {
        match needs.hang {
            Hang::ThreadGuard => {
                let channel = guard_channel(ground, needs.guard_holes, near);
                needle.make(MoveKind::ThroughGuard { towards }, channel);
            }
            Hang::Loop(_) => {
                let ends = loop_hole_ends(ground, needs, near);
                match round {
                    0 => {
                        let beads = 0..needs.loop_beads().len();
                        needle.string(beads.map(|bead| Spot::Loop { bead }).collect(), ends);
                    }
                    _ => needle.make(MoveKind::ThroughLoop { towards }, ends),
                }
            }
        }
        needle.pass(far_stack, Way::Down);
        for &(stack, way) in &across {
            needle.pass(stack, way);
        }
        needle.pass(near_stack, Way::Up);
    }
}

/// The stacks through which the thread comes from the lower end of the far outer stack of the top
/// row to the lower end of the near one: those of the row below, down and up in turn.
///
/// In a body of one row nothing lies lower: its inner stacks are used where their number is even;
/// else the thread runs along the lower edge, which the fringe covers.
fn across(ground: &Ground, far: StackAt, near: StackAt, side: Side) -> Vec<(StackAt, Way)> {
    let (row, first, last, mut way) = if far.row > 0 {
        let row = far.row - 1;
        let outward = |at: StackAt, side: Side| {
            let below = ground.touching(at, Way::Down);
            let outer = match side {
                Side::Left => below.first(),
                Side::Right => below.last(),
            };
            outer.map(|stack| stack.stack)
        };
        let (Some(first), Some(last)) = (outward(far, side.other()), outward(near, side)) else {
            return Vec::new();
        };
        (row, first, last, Way::Down)
    } else {
        let inner = far.stack.abs_diff(near.stack).saturating_sub(1);
        if inner == 0 || inner % 2 == 1 {
            return Vec::new();
        }
        match side {
            Side::Left => (0, far.stack - 1, near.stack + 1, Way::Up),
            Side::Right => (0, far.stack + 1, near.stack - 1, Way::Up),
        }
    };
    // The thread must come out at the near end going up, so an odd one out at the end is left out.
    let count = first.abs_diff(last).div_ceil(2) * 2;
    (0..count)
        .map(|i| {
            let stack = if first > last { first - i } else { first + i };
            let step = (StackAt { row, stack }, way);
            way = way.back();
            step
        })
        .collect()
}

/// The channel of the thread guard, from the side `near` to the other: two legs and a half-round
/// arch, standing in the middle of the top row.
fn guard_channel(ground: &Ground, holes: Mm, near: Side) -> Vec<Point> {
    let middle = top_middle(ground);
    let radius = holes.0 / 2.0;
    let leg = holes.0 * practice::GUARD_LEG;
    let sign = match near {
        Side::Left => -1.0,
        Side::Right => 1.0,
    };
    let foot = |sign: f64| Point::new(middle.x.0 + sign * radius, middle.y.0);
    let arch = (0..=ARCH_PIECES).map(|i| {
        let angle = PI * i as f64 / ARCH_PIECES as f64;
        Point::new(middle.x.0 + sign * radius * angle.cos(), middle.y.0 - leg - radius * angle.sin())
    });
    [foot(sign)].into_iter().chain(arch).chain([foot(-sign)]).collect()
}

/// The hole ends of the loop's beads in the order strung, from the side `near`.
///
/// The ring stands half a bead's width above the top row, so that its lowest beads touch no stack.
pub(super) fn loop_hole_ends(ground: &Ground, needs: &Needs, near: Side) -> Vec<Point> {
    let beads = || needs.loop_beads().iter().map(|&b| needs.bead(b));
    let widest = beads().fold(Mm::ZERO, |w, bead| w.max(bead.width));
    let lengths: Vec<Mm> = beads().map(|bead| bead.length).collect();
    let top = ground.rows() - 1;
    let outer = |side| ground.hole_end(ground.counted_from(top, side, 1), Way::Up);
    let apart = (outer(Side::Right).x - outer(Side::Left).x).abs();
    let middle = top_middle(ground);
    let middle = Point { x: middle.x, y: middle.y - widest / 2.0 };
    ring::hole_ends(&lengths, middle, apart, near)
}

/// The middle of the top row's upper edge.
fn top_middle(ground: &Ground) -> Point {
    let top = ground.rows() - 1;
    let left = ground.hole_end(ground.counted_from(top, Side::Left, 1), Way::Up);
    let right = ground.hole_end(ground.counted_from(top, Side::Right, 1), Way::Up);
    Point { x: (left.x + right.x) / 2.0, y: left.y }
}
