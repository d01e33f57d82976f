//! What stitching needs of a design, and nothing more.

use super::practice;
use crate::design::{Allowances, Bead, Body, Design, Hanging, LetterId, Side, Stack, Strand, Thread};
use crate::drawn::Shape;
use crate::units::Mm;

/// What stitching needs of a design.
pub(super) struct Needs<'a> {
    /// The body.
    pub body: &'a Body,
    /// Strands from left to right.
    pub strands: &'a [Strand],
    /// What it hangs from, from left to right.
    pub hangings: &'a [Hanging],
    /// The side row 1 starts from.
    pub start: Side,
    /// The bead of each letter.
    pub beads: Vec<&'a Bead>,
    /// The thread of the body.
    pub body_thread: &'a Thread,
    /// The thread of the fringe.
    pub fringe_thread: &'a Thread,
    /// What is allowed on top of the path.
    pub allowances: Allowances,
    /// Distance of the guard's holes.
    pub guard_holes: Mm,
    /// Diameter of the needle, if the palette gives it.
    pub needle: Option<Mm>,
}

impl<'a> Needs<'a> {
    /// What `design` says of it.
    pub fn of(design: &'a Design) -> Needs<'a> {
        let beads = &design.palette.beads;
        Needs {
            body: &design.body,
            strands: &design.fringe.strands,
            hangings: &design.hangings,
            start: design.start,
            beads: design.letters.iter().map(|l| &beads[l.bead.0]).collect(),
            body_thread: &design.body_thread,
            fringe_thread: &design.fringe_thread,
            allowances: design.allowances,
            needle: design.palette.needle,
            guard_holes: design.guard_holes().unwrap_or(practice::GUARD_HOLES),
        }
    }

    /// The bead of a letter.
    pub fn bead(&self, letter: LetterId) -> &'a Bead {
        self.beads[letter.0]
    }

    /// Stacks of a row of the body, from left to right.
    pub fn stacks(&self, row: usize) -> &'a [Stack] {
        &self.body.rows[row].stacks
    }

    /// Length of a strand's beads, hanging straight.
    pub fn strand_length(&self, strand: &Strand) -> Mm {
        strand.beads.iter().map(|&b| self.bead(b).length).sum()
    }

    /// From a strand's upper end to the lowest point of its thread.
    ///
    /// The thread runs once through each turning bead and is drawn up until both ends meet at the
    /// bead above, so the path turns in the middle of the turn. A drop hangs by a hole across its
    /// narrow end, about one hole's width below its top (from memory, no source).
    pub fn turning_depth(&self, strand: &Strand) -> Mm {
        let (core, turn) = strand.beads.split_at(strand.beads.len() - turn_of(strand));
        let above: Mm = core.iter().map(|&b| self.bead(b).length).sum();
        let in_turn: Mm = match turn {
            [drop] if self.bead(*drop).shape == Shape::Drop => self.bead(*drop).hole,
            beads => beads.iter().map(|&b| self.bead(b).length / 2.0).sum(),
        };
        above + in_turn
    }
}

/// How many beads of a strand the thread turns round, never more than it has.
pub(super) fn turn_of(strand: &Strand) -> usize {
    strand.turn.min(strand.beads.len())
}
