//! What is already there when a diagram begins.

use super::whole::Whole;
use crate::stitch::{Bridge, Fabric, Move, MoveKind, SectionId, SectionKind, StackId, ThreadUse};
use std::collections::BTreeSet;

/// What is strung and which bridges are laid.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct State {
    /// Stacks with a bead or more.
    pub(super) stacks: BTreeSet<StackId>,
    /// Strands with a bead or more.
    pub(super) strands: BTreeSet<SectionId>,
    /// Whether the loop has a bead or more.
    pub(super) looped: bool,
    pub(super) bridges: BTreeSet<Bridge>,
}

impl State {
    /// The state before a move of a thread: the body is finished before the fringe begins.
    pub(super) fn before(whole: &Whole, thread: ThreadUse, at: usize) -> State {
        let mut state = State::default();
        let work = whole.work;
        let (body, fringe) = (&work.body.moves, &work.fringe.moves);
        let (in_body, in_fringe) = match thread {
            ThreadUse::Body => (at, 0),
            ThreadUse::Fringe => (body.len(), at),
        };
        for one in body.iter().take(in_body).chain(fringe.iter().take(in_fringe)) {
            state.follow(&work.fabric, one);
        }
        state
    }

    fn follow(&mut self, fabric: &Fabric, one: &Move) {
        if let MoveKind::String { through } = &one.kind {
            self.stacks.extend(through.iter().map(|pass| pass.stack));
            let section = one.beads.first().map(|spot| fabric[*spot].section);
            match section.map(|section| (section, fabric[section].kind)) {
                Some((_, SectionKind::Loop)) => self.looped = true,
                Some((strand, SectionKind::Strand)) => _ = self.strands.insert(strand),
                Some((_, SectionKind::Row)) | None => {}
            }
        }
        self.bridges.extend(one.lays.iter().map(|bridge| fabric[*bridge]));
    }
}
