//! What is already there when a diagram begins.

use super::route::{Through, legs_of};
use super::whole::Whole;
use crate::design::Side;
use crate::stitch::{Move, MoveKind, Spot, StackAt, ThreadUse, Way, Work};
use std::collections::BTreeSet;

/// An edge of a row.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Edge {
    /// Towards the ear.
    Upper,
    /// Towards the fringe.
    Lower,
}

/// A thread bridge between stacks `bridge` and `bridge + 1` of a row.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Bridge {
    pub(super) row: usize,
    pub(super) bridge: usize,
    pub(super) edge: Edge,
}

/// What is strung and which bridges are laid.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct State {
    /// Stacks of the body with a bead or more.
    pub(super) stacks: BTreeSet<StackAt>,
    /// Strands with a bead or more.
    pub(super) strands: BTreeSet<usize>,
    /// Whether the loop has a bead or more.
    pub(super) looped: bool,
    pub(super) bridges: BTreeSet<Bridge>,
}

impl State {
    /// The state before a move of a thread: the body is finished before the fringe begins.
    pub(super) fn before(whole: &Whole, thread: ThreadUse, at: usize) -> State {
        let mut state = State::default();
        let work = whole.work;
        match thread {
            ThreadUse::Body => state.follow(&work.body.moves, at, whole.loop_first),
            ThreadUse::Fringe => {
                state.follow(&work.body.moves, work.body.moves.len(), whole.loop_first);
                state.follow(&work.fringe.moves, at, whole.loop_first);
            }
        }
        state
    }

    fn string(&mut self, beads: &[Spot]) {
        let mut last = None;
        for spot in beads {
            match *spot {
                Spot::Body { row, stack, .. } => {
                    let at = StackAt { row, stack };
                    if last.replace(at) != Some(at) {
                        self.stacks.insert(at);
                    }
                }
                Spot::Loop { .. } => self.looped = true,
                Spot::Strand { strand, .. } => {
                    self.strands.insert(strand);
                }
            }
        }
    }

    fn follow(&mut self, moves: &[Move], until: usize, loop_first: Side) {
        let mut came: Option<Through> = None;
        for (index, one) in moves.iter().enumerate().take(until) {
            if let MoveKind::String { beads } = &one.kind {
                self.string(beads);
            }
            let after = moves.get(index + 1..).unwrap_or_default();
            for leg in legs_of(one, after, loop_first) {
                if let Some(bridge) = came.and_then(|before| bridge_between(before, leg)) {
                    self.bridges.insert(bridge);
                }
                came = Some(leg);
            }
        }
    }
}

/// The bridge that two legs lay, when they run through neighbouring stacks of one row.
pub(super) fn bridge_between(one: Through, other: Through) -> Option<Bridge> {
    let (Through::Stack { at: a, way: out }, Through::Stack { at: b, way: into }) = (one, other) else {
        return None;
    };
    let neighbours = a.row == b.row && a.stack.abs_diff(b.stack) == 1;
    (neighbours && out != into).then(|| Bridge {
        row: a.row,
        bridge: a.stack.min(b.stack),
        edge: if out == Way::Up { Edge::Upper } else { Edge::Lower },
    })
}

/// The side on which the loop's first bead lies.
pub(super) fn loop_first(work: &Work) -> Side {
    let mut beads = work.geometry.beads.iter().filter(|l| matches!(l.spot, Spot::Loop { .. }));
    let first = beads.next().map_or(0.0, |l| l.centre.x.0);
    let last = beads.next_back().map_or(0.0, |l| l.centre.x.0);
    if first > last { Side::Right } else { Side::Left }
}
