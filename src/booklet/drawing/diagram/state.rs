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
        let (body, fringe) = (&work.body.moves, &work.fringe.moves);
        let (in_body, in_fringe) = match (shown.thread, shown.manner) {
            // The starting tail is worked away when the body is finished.
            (ThreadUse::Body, Manner::Tail) => (body.len(), 0),
            (ThreadUse::Body, _) => (at, 0),
            (ThreadUse::Fringe, _) => (body.len(), at),
        };
        for one in body.iter().take(in_body).chain(fringe.iter().take(in_fringe)) {
            state.follow(&work.fabric, one, &lines);
        }
        state
    }

    fn follow(&mut self, fabric: &Fabric, one: &Move, lines: &RangeInclusive<usize>) {
        let shows = |stack: &StackId| lines.contains(&fabric[*stack].line);
        if let MoveKind::String { through } = &one.kind {
            self.stacks.extend(through.iter().map(|pass| pass.stack).filter(shows));
            let section = one.beads.first().map(|spot| fabric[*spot].section);
            match section.map(|section| (section, fabric[section].kind)) {
                Some((ring, SectionKind::Loop)) => _ = self.loops.insert(ring),
                Some((strand, SectionKind::Strand)) => _ = self.strands.insert(strand),
                Some((_, SectionKind::Row)) | None => {}
            }
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
