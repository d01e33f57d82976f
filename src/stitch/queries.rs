//! What other stages ask of stitched work.

use super::{
    Anchor, Carrier, Excerpt, Fabric, Manner, Move, MoveKind, Phase, RowWork, Section, SectionId,
    SectionKind, Spot, StrandWork, ThreadPath, ThreadUse, Way, Work, practice,
};
use crate::design::LetterId;
use std::collections::BTreeSet;

impl Work {
    /// The path of a thread.
    #[must_use]
    pub fn path(&self, thread: ThreadUse) -> &ThreadPath {
        match thread {
            ThreadUse::Body => &self.body,
            ThreadUse::Fringe => &self.fringe,
        }
    }

    /// The path that an excerpt is a part of: that of its thread, or of the starting tail.
    #[must_use]
    pub fn path_of(&self, excerpt: &Excerpt) -> &ThreadPath {
        if excerpt.shown.manner == Manner::Tail { &self.tail } else { self.path(excerpt.shown.thread) }
    }

    /// The letters of a loop, in the order strung.
    #[must_use]
    pub fn loop_letters(&self, ring: SectionId) -> Vec<LetterId> {
        self.fabric.beads_of(ring).map(|lying| lying.letter).collect()
    }

    /// The loops that the earring hangs from, in working order.
    pub fn loops(&self) -> impl Iterator<Item = SectionId> + '_ {
        self.hangings.iter().filter_map(|carrier| carrier.ring)
    }

    /// The rows worked before the earring is hung, the foundation first, and those worked after that.
    #[must_use]
    pub fn rows_round_hanging(&self) -> (&[RowWork], &[RowWork]) {
        let before = self.body.moves.iter().take_while(|made| !matches!(made.phase, Phase::Hanging(_)));
        let last = before.filter_map(|made| match made.phase {
            Phase::Section(section) => Some(section),
            _ => None,
        });
        let last = last.last();
        let before = self.rows.iter().position(|row| Some(row.section) == last).map_or(0, |index| index + 1);
        self.rows.split_at(before)
    }

    /// The row worked before another one.
    #[must_use]
    pub fn row_before(&self, row: &RowWork) -> Option<&RowWork> {
        self.rows.iter().take_while(|other| other.section != row.section).last()
    }

    /// Whether the body is a single row, its foundation.
    #[must_use]
    pub fn is_one_row(&self) -> bool {
        self.rows.len() == 1
    }

    /// Whether it is hung by its foundation: nothing lies lower then through which the thread could come back across.
    #[must_use]
    pub fn is_hung_by_its_foundation(&self) -> bool {
        self.rows_round_hanging().0.len() == 1
    }

    /// Whether any row is worked downwards, after the hanging.
    #[must_use]
    pub fn works_downwards(&self) -> bool {
        let down = |section: &Section| section.lies.is_some_and(|lies| lies.away == Way::Down);
        self.fabric.of_kind(SectionKind::Row).any(|(_, row)| down(row))
    }

    /// Strands in the order worked, which is that of their numbers.
    #[must_use]
    pub fn strands_in_order(&self) -> Vec<&StrandWork> {
        let mut strands: Vec<&StrandWork> = self.strands.iter().collect();
        strands.sort_by_key(|strand| strand.number);
        strands
    }

    /// Where beads lie, in the numbers by which a reader finds them.
    #[must_use]
    pub fn whereabouts(&self, spots: &[Spot]) -> Whereabouts {
        let mut found = Whereabouts::default();
        for spot in spots {
            let section = &self.fabric[self.fabric[*spot].section];
            match section.kind {
                SectionKind::Row => _ = found.rows.insert(section.number),
                SectionKind::Loop => found.in_loop = true,
                SectionKind::Strand => _ = found.strands.insert(section.number),
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

impl Move {
    /// Of the moves at a guard or loop, whether the thread goes through that itself.
    #[must_use]
    pub fn is_through_hanging(&self) -> bool {
        match &self.kind {
            MoveKind::ThroughGuard { .. } | MoveKind::ThroughLoop { .. } | MoveKind::String { .. } => true,
            MoveKind::LeaveTail { .. }
            | MoveKind::Pass(_)
            | MoveKind::UnderBridge { .. }
            | MoveKind::ReturnUp { .. }
            | MoveKind::Wrap { .. }
            | MoveKind::CutTail { .. } => false,
        }
    }
}

impl ThreadPath {
    /// The moves of each length of the thread, in working order.
    pub fn lengths(&self) -> impl Iterator<Item = &[Move]> {
        self.moves.chunk_by(|_, next| !matches!(next.kind, MoveKind::LeaveTail { .. }))
    }
}

impl Carrier {
    /// Its stacks as numbered for a reader, from the left from 1.
    #[must_use]
    pub fn numbers(&self, fabric: &Fabric) -> [usize; 2] {
        self.stacks.map(|stack| fabric[stack].place + 1)
    }
}

impl Anchor {
    /// Row and stacks as numbered for a reader: row in working order from 1, stacks from the left from 1.
    #[must_use]
    pub fn numbers(&self, fabric: &Fabric) -> (usize, [usize; 2]) {
        (fabric.row_number(self.stacks[0]), self.stacks.map(|stack| fabric[stack].place + 1))
    }

    /// Whether the beads are close enough in colour that the wraps do not show.
    #[must_use]
    pub fn is_close(&self) -> bool {
        self.difference <= practice::CLOSE_COLOUR
    }
}
