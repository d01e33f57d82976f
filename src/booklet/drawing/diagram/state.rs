//! What is already there when a diagram begins.

use super::route::{Leg, Through};
use super::whole::Whole;
use crate::stitch::{
    Bridge, Fabric, Manner, Move, MoveKind, SectionId, SectionKind, Shown, StackId, ThreadUse, Work,
};
use std::collections::BTreeSet;
use std::ops::RangeInclusive;

/// What is strung and which bridges are laid.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct State {
    /// Stacks with a bead or more.
    pub(super) stacks: BTreeSet<StackId>,
    /// Strands with a bead or more.
    pub(super) strands: BTreeSet<SectionId>,
    /// Loops with a bead or more.
    pub(super) loops: BTreeSet<SectionId>,
    pub(super) bridges: BTreeSet<Bridge>,
}

impl State {
    /// The state before a move of a thread, in the lines of stacks that some legs concern: no other is shown. The body
    /// is finished before the fringe begins.
    pub(super) fn before(whole: &Whole, shown: Shown, at: usize, legs: &[Leg]) -> State {
        let mut state = State::default();
        let work = whole.work;
        let lines = lines_of(work, legs);
        let body = work.body.moves.len();
        let until = match (shown.thread, shown.manner) {
            // The starting tail is worked away when the body is finished.
            (ThreadUse::Body, Manner::Tail) => body,
            (ThreadUse::Body, _) => at,
            (ThreadUse::Fringe, _) => body + at,
        };
        let low = (*lines.start()).min(whole.worked.len());
        let worked = whole.worked[low..].iter().take((*lines.end() + 1).saturating_sub(low));
        for at in worked.flat_map(|line| line.iter().take_while(|at| **at < until)) {
            state.follow(&work.fabric, whole.made(*at), &lines);
        }
        for (_, section, kind) in whole.hung.iter().take_while(|(at, ..)| *at < until) {
            match kind {
                SectionKind::Loop => _ = state.loops.insert(*section),
                SectionKind::Strand => _ = state.strands.insert(*section),
                SectionKind::Row => {}
            }
        }
        state
    }

    fn follow(&mut self, fabric: &Fabric, one: &Move, lines: &RangeInclusive<usize>) {
        let shows = |stack: &StackId| lines.contains(&fabric[*stack].line);
        if let MoveKind::String { through } = &one.kind {
            self.stacks.extend(through.iter().map(|pass| pass.stack).filter(shows));
        }
        let laid = one.lays.iter().map(|bridge| fabric[*bridge]);
        self.bridges.extend(laid.filter(|bridge| shows(&bridge.stacks[0])));
    }
}

/// The lines of stacks that some legs concern, from the lowest to the highest.
fn lines_of(work: &Work, legs: &[Leg]) -> RangeInclusive<usize> {
    let fabric = &work.fabric;
    let lines = legs.iter().filter_map(|leg| match leg.through {
        Through::Down { strand } | Through::Up { strand } => {
            fabric[strand].hangs_on.map(|stack| fabric[stack].line)
        }
        Through::Wrap { anchor } => work.anchors.get(anchor).map(|anchor| fabric[anchor.stacks[0]].line),
        through => through.line(fabric),
    });
    let (low, high) = lines.fold((usize::MAX, 0), |(low, high), line| (low.min(line), high.max(line)));
    low..=high
}
