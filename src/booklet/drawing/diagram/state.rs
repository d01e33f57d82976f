//! What is already there when a diagram begins.

use super::route::{Through, legs_of};
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

/// The beads strung and the bridges laid.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct State {
    pub(super) strung: BTreeSet<Spot>,
    pub(super) bridges: BTreeSet<Bridge>,
}

impl State {
    /// The state before a move of a thread: the body is finished before the fringe begins.
    pub(super) fn before(work: &Work, thread: ThreadUse, at: usize) -> State {
        let mut state = State::default();
        match thread {
            ThreadUse::Body => state.follow(&work.body.moves, at, work),
            ThreadUse::Fringe => {
                state.follow(&work.body.moves, work.body.moves.len(), work);
                state.follow(&work.fringe.moves, at, work);
            }
        }
        state
    }

    fn follow(&mut self, moves: &[Move], until: usize, work: &Work) {
        let first = loop_first(work);
        let mut came: Option<Through> = None;
        for (index, one) in moves.iter().enumerate().take(until) {
            if let MoveKind::String { beads } = &one.kind {
                self.strung.extend(beads.iter().copied());
            }
            let after = moves.get(index + 1..).unwrap_or_default();
            for leg in legs_of(one, after, first) {
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

/// Stacks of a row that are strung, from the left.
pub(super) fn stacks_of(strung: &BTreeSet<Spot>) -> BTreeSet<StackAt> {
    strung
        .iter()
        .filter_map(|spot| match *spot {
            Spot::Body { row, stack, .. } => Some(StackAt { row, stack }),
            Spot::Loop { .. } | Spot::Strand { .. } => None,
        })
        .collect()
}
