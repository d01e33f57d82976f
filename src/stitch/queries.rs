//! What other stages ask of stitched work.

use super::{Anchor, Move, Phase, StackAt, ThreadPath, ThreadUse, Work, practice};
use crate::design::Side;

impl Work {
    /// The stack of a row as numbered from the side where the row starts, from 1.
    #[must_use]
    pub fn stack_number(&self, at: StackAt, stacks_in_row: usize) -> usize {
        match self.rows[at.row].from {
            Side::Left => at.stack + 1,
            Side::Right => stacks_in_row - at.stack,
        }
    }

    /// Stacks in a row, in working order from 0.
    #[must_use]
    pub fn stacks_in_row(&self, row: usize) -> usize {
        self.rows[row].pick_ups.len() / self.drop.max(1)
    }

    /// The path of a thread.
    #[must_use]
    pub fn path(&self, thread: ThreadUse) -> &ThreadPath {
        match thread {
            ThreadUse::Body => &self.body,
            ThreadUse::Fringe => &self.fringe,
        }
    }

    /// The moves of a phase, of all paths, in working order.
    pub fn moves_of(&self, phase: Phase) -> impl Iterator<Item = &Move> {
        [&self.body, &self.tail, &self.fringe]
            .into_iter()
            .flat_map(|path| &path.moves)
            .filter(move |made| made.phase == phase)
    }
}

impl Anchor {
    /// Row and stacks as numbered for a reader: row in working order from 1, stacks from the left from 1.
    #[must_use]
    pub fn numbers(&self) -> (usize, [usize; 2]) {
        (self.row + 1, [self.stack + 1, self.stack + 2])
    }

    /// Whether the beads are close enough in colour that the wraps do not show.
    #[must_use]
    pub fn is_close(&self) -> bool {
        self.difference <= practice::CLOSE_COLOUR
    }
}
