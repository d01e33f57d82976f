//! Lanes: where the passes that share a hole run side by side.

use super::columns::Columns;
use super::route::{Hole, Leg, Through};
use crate::design::Side;
use crate::stitch::{Pass, Way};
use std::collections::BTreeMap;

/// Lanes as shares of the hole's bead width, for up to two, four and six passes: clear of the letter in the
/// middle.
const LANES: [&[f64]; 3] =
    [&[-0.30, 0.30], &[-0.40, -0.23, 0.23, 0.40], &[-0.42, -0.34, -0.26, 0.26, 0.34, 0.42]];

/// Cost of one crossing of thread outside the beads, in millimetres of detour.
const CROSSING: f64 = 100.0;
/// Cost of crossing a loose end, which is easier to follow.
const CROSSING_LOOSE: f64 = 70.0;

/// Where thread that runs along the outside of a stack lies, from its middle, as a share of its width.
const EDGE: f64 = 0.7;

/// Half the width of a hook round a bridge.
const HOOKED: f64 = 1.4;

/// Where a leg begins or ends, as the space between two rows sees it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Port {
    /// The space: number `l` lies below line `l` of stacks.
    pub(super) channel: usize,
    /// Whether the hole lies below the space.
    pub(super) from_below: bool,
    /// Across.
    pub(super) x: f64,
}

impl Port {
    /// Whether a stack alone in its row lies between this and another, so that the thread goes along its outside.
    pub(super) fn is_beside(self, other: Port) -> bool {
        self.from_below == other.from_below && self.channel.abs_diff(other.channel) == 1
    }

    /// Whether of two such holes this is the one at the far end of that stack.
    pub(super) fn is_beyond(self, other: Port) -> bool {
        (self.channel > other.channel) == self.from_below
    }
}

/// Offsets of the lanes for this many passes through a bead this wide.
fn slots(passes: usize, width: f64, lettered: bool) -> Vec<f64> {
    if passes == 1 && !lettered {
        return vec![0.0];
    }
    match LANES.iter().find(|lanes| lanes.len() >= passes) {
        Some(lanes) => lanes.iter().map(|share| share * width).collect(),
        None => {
            let step = 0.84 / (passes.max(2) - 1) as f64;
            (0..passes).map(|lane| (lane as f64 * step - 0.42) * width).collect()
        }
    }
}

/// One offset a leg, from the middle of its hole; of legs without a hole 0.
pub(super) fn assign(columns: &Columns, legs: &[Leg], hanging: &Hanging) -> Vec<f64> {
    let mut holes: BTreeMap<Hole, Vec<usize>> = BTreeMap::new();
    for (index, leg) in legs.iter().enumerate() {
        if let Some(hole) = leg.through.hole() {
            holes.entry(hole).or_default().push(index);
        }
    }
    let mut offsets = vec![0.0; legs.len()];
    let mut choices = Vec::new();
    for (hole, users) in &holes {
        let lanes = slots(users.len(), width_of(columns, *hole, hanging), *hole != Hole::Guard);
        for (user, lane) in users.iter().zip(&lanes) {
            offsets[*user] = *lane;
        }
        choices.push((users.clone(), arrangements(users.len(), &lanes)));
    }
    // One hole after the other takes its best arrangement; three rounds settle what depends on neighbours.
    for _ in 0..3 {
        for (users, arrangements) in &choices {
            let mut best: Option<(f64, &Vec<f64>)> = None;
            for arrangement in arrangements {
                for (user, lane) in users.iter().zip(arrangement) {
                    offsets[*user] = *lane;
                }
                let cost = cost(columns, legs, hanging, &offsets);
                if best.is_none_or(|(least, _)| cost < least - 1e-9) {
                    best = Some((cost, arrangement));
                }
            }
            if let Some((_, arrangement)) = best {
                for (user, lane) in users.iter().zip(arrangement) {
                    offsets[*user] = *lane;
                }
            }
        }
    }
    offsets
}

/// Where guard or loop stand.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Hanging {
    /// Middle of the left end.
    pub(super) left: f64,
    /// Middle of the right end.
    pub(super) right: f64,
    /// Width across the channel or the loop's beads.
    pub(super) width: f64,
    /// The line of stacks on which it stands.
    pub(super) line: usize,
}

fn width_of(columns: &Columns, hole: Hole, hanging: &Hanging) -> f64 {
    match hole {
        Hole::Stack(at) => columns.stacks.get(&at).map_or(1.0, |c| c.narrowest),
        Hole::Guard | Hole::Loop => hanging.width,
        Hole::Strand(strand) => columns.strands.get(&strand).map_or(1.0, |s| s.narrowest),
    }
}

/// All ways to give `users` passes different lanes, in pass order first; only that one where there would be too many.
fn arrangements(users: usize, lanes: &[f64]) -> Vec<Vec<f64>> {
    if users > 5 {
        return vec![lanes.iter().take(users).copied().collect()];
    }
    let mut found = Vec::new();
    choose(users, lanes, &mut Vec::new(), &mut found);
    found
}

fn choose(left: usize, lanes: &[f64], chosen: &mut Vec<f64>, found: &mut Vec<Vec<f64>>) {
    if left == 0 {
        found.push(chosen.clone());
        return;
    }
    for lane in lanes {
        if !chosen.contains(lane) {
            chosen.push(*lane);
            choose(left - 1, lanes, chosen, found);
            chosen.pop();
        }
    }
}

/// Where a leg with a hole is entered and left.
pub(super) fn ports(columns: &Columns, leg: &Leg, hanging: &Hanging, offset: f64) -> Option<(Port, Port)> {
    match leg.through {
        Through::Stack(Pass { stack, way }) => {
            let column = columns.stacks.get(&stack)?;
            let x = column.x + offset;
            let low = Port { channel: column.line, from_below: false, x };
            let high = Port { channel: column.line + 1, from_below: true, x };
            Some(match way {
                Way::Up => (low, high),
                Way::Down => (high, low),
            })
        }
        Through::Guard { towards } | Through::Loop { towards } => {
            let channel = hanging.line + 1;
            let left = Port { channel, from_below: false, x: hanging.left + offset };
            let right = Port { channel, from_below: false, x: hanging.right - offset };
            Some(match towards {
                Side::Right => (left, right),
                Side::Left => (right, left),
            })
        }
        Through::Down { strand } | Through::Up { strand } => {
            let hung = columns.strands.get(&strand)?;
            let port = Port { channel: hung.line, from_below: true, x: hung.x + offset };
            Some((port, port))
        }
        Through::Beginning | Through::Bridge(_) | Through::Wrap { .. } | Through::End => None,
    }
}

/// A stretch of thread in a space between rows: from one hole, or from outside, to the next.
struct Chord {
    channel: usize,
    ends: [(bool, f64); 2],
    loose: bool,
}

fn cost(columns: &Columns, legs: &[Leg], hanging: &Hanging, offsets: &[f64]) -> f64 {
    let chords = chords(columns, legs, hanging, offsets);
    let mut cost = 0.0;
    for (index, one) in chords.iter().enumerate() {
        cost += (one.ends[0].1 - one.ends[1].1).abs();
        for other in chords.iter().skip(index + 1) {
            if one.channel == other.channel && crosses(one, other) {
                cost += if one.loose || other.loose { CROSSING_LOOSE } else { CROSSING };
            }
        }
    }
    cost
}

fn chords(columns: &Columns, legs: &[Leg], hanging: &Hanging, offsets: &[f64]) -> Vec<Chord> {
    let placed: Vec<_> = legs
        .iter()
        .enumerate()
        .filter(|(_, leg)| leg.through.hole().is_some())
        .filter_map(|(index, leg)| Some((index, leg.through, ports(columns, leg, hanging, offsets[index])?)))
        .collect();
    let outside = |port: Port| Chord {
        channel: port.channel,
        ends: [(port.from_below, port.x), (!port.from_below, port.x)],
        loose: true,
    };
    let mut chords = Vec::new();
    if let (Some(first), Some(last)) = (placed.first(), placed.last()) {
        chords.push(outside(first.2.0));
        if !matches!(last.1, Through::Down { .. }) {
            chords.push(outside(last.2.1));
        }
    }
    for pair in placed.windows(2) {
        let ((before, from, (_, out)), (after, to, (into, _))) = (pair[0], pair[1]);
        if out.is_beside(into) {
            let (far, near, stack) = if out.is_beyond(into) { (out, into, from) } else { (into, out, to) };
            chords.extend(beside(columns, far, near, stack).into_iter().flatten());
            continue;
        }
        if out.channel != into.channel || matches!((from, to), (Through::Down { .. }, Through::Up { .. })) {
            continue;
        }
        let chord =
            |a: (bool, f64), b: (bool, f64)| Chord { channel: out.channel, ends: [a, b], loose: false };
        let (out, into) = ((out.from_below, out.x), (into.from_below, into.x));
        // A hook reaches to the row of its bridge and comes back.
        match legs[before + 1..after].iter().find_map(|leg| hooked(columns, leg)) {
            Some((below, middle)) => {
                let lean = if out.1 <= into.1 { HOOKED } else { -HOOKED };
                chords.push(chord(out, (below, middle - lean)));
                chords.push(chord((below, middle + lean), into));
            }
            None => chords.push(chord(out, into)),
        }
    }
    chords
}

/// Along the outside of a stack alone in its row: round its far end, and on from beside its other one.
fn beside(columns: &Columns, far: Port, near: Port, stack: Through) -> Option<[Chord; 2]> {
    let Through::Stack(Pass { stack, .. }) = stack else { return None };
    let column = columns.stacks.get(&stack)?;
    let edge = column.x + column.narrowest * if near.x < column.x { -EDGE } else { EDGE };
    let chord = |channel: usize, ends| Chord { channel, ends, loose: false };
    Some([
        chord(far.channel, [(far.from_below, far.x), (far.from_below, edge)]),
        chord(near.channel, [(!near.from_below, edge), (near.from_below, near.x)]),
    ])
}

/// Whether the bridge that a leg goes under lies below the space that it is reached through, and its middle.
fn hooked(columns: &Columns, leg: &Leg) -> Option<(bool, f64)> {
    let Through::Bridge(bridge) = leg.through else { return None };
    let [left, right] = bridge.stacks.map(|stack| columns.stacks.get(&stack));
    Some((bridge.edge == Way::Up, f64::midpoint(left?.x, right?.x)))
}

/// Whether two chords of one space must cross: their ends take turns round its rim.
fn crosses(one: &Chord, other: &Chord) -> bool {
    // Round the rim: along the lower side from left to right, back along the upper side.
    let rim = |(below, x): (bool, f64)| if below { x } else { 1e6 - x };
    let (a, b) = (rim(one.ends[0]), rim(one.ends[1]));
    let (low, high) = (a.min(b), a.max(b));
    let inside = |v: f64| low < v && v < high;
    inside(rim(other.ends[0])) != inside(rim(other.ends[1]))
}
