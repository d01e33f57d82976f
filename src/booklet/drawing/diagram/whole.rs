//! What all diagrams of a design look at, found once: its lines of stacks and the accent.

use super::paint::accent;
use crate::colour::Colour;
use crate::design::{Design, LetterId};
use crate::stitch::{StackId, Work};

/// A design and its work, with what their diagrams have in common.
pub(super) struct Whole<'a> {
    pub(super) design: &'a Design,
    pub(super) work: &'a Work,
    /// The stacks of each line, from the lowest.
    pub(super) lines: Vec<Vec<StackId>>,
    /// Colour of the thread.
    pub(super) accent: Colour,
}

impl<'a> Whole<'a> {
    pub(super) fn of(design: &'a Design, work: &'a Work) -> Whole<'a> {
        let mut lines = vec![Vec::new(); work.fabric.top_line().map_or(0, |top| top + 1)];
        for (id, stack) in work.fabric.named_stacks() {
            lines[stack.line].push(id);
        }
        Whole { design, work, lines, accent: accent(design) }
    }

    /// The topmost line, on which the earring hangs.
    pub(super) fn top_line(&self) -> Option<usize> {
        self.lines.len().checked_sub(1)
    }

    /// The middle of a stack, in millimetres of the earring.
    pub(super) fn middle(&self, stack: StackId) -> f64 {
        self.work.fabric[stack].upper.x.0
    }

    /// Letters of a stack from top to bottom.
    pub(super) fn letters(&self, stack: StackId) -> Vec<LetterId> {
        let fabric = &self.work.fabric;
        fabric[stack].beads.iter().map(|spot| fabric[*spot].letter).collect()
    }
}
