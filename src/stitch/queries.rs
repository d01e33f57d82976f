//! What other stages ask of stitched work.

use super::{Anchor, Spot, StackAt, StrandWork, ThreadPath, ThreadUse, Work, practice};
use crate::design::Side;
use std::collections::BTreeSet;

impl Work {
    /// The stack of a row as numbered from the side where the row starts, from 1.
    #[must_use]
    pub fn stack_number(&self, at: StackAt) -> usize {
        match self.rows[at.row].from {
            Side::Left => at.stack + 1,
            Side::Right => self.stacks_in_row(at.row) - at.stack,
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

    /// Strands in the order worked, which is that of their numbers.
    #[must_use]
    pub fn strands_in_order(&self) -> Vec<&StrandWork> {
        let mut strands: Vec<&StrandWork> = self.strands.iter().collect();
        strands.sort_by_key(|strand| strand.order);
        strands
    }

    /// Where beads lie, in the numbers by which a reader finds them.
    #[must_use]
    pub fn whereabouts(&self, spots: &[Spot]) -> Whereabouts {
        let mut found = Whereabouts::default();
        for spot in spots {
            match *spot {
                Spot::Body { row, .. } => _ = found.rows.insert(row + 1),
                Spot::Loop { .. } => found.in_loop = true,
                Spot::Strand { strand, .. } => _ = found.strands.insert(self.strands[strand].order),
            }
        }
        found
    }
}

/// Where beads lie, as numbered for a reader.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Whereabouts {
    /// Rows in working order, from 1.
    pub rows: BTreeSet<usize>,
    /// Whether some lie in the loop.
    pub in_loop: bool,
    /// Strands in working order, from 1: counted from the side where the fringe begins.
    pub strands: BTreeSet<usize>,
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
