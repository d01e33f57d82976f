//! What other stages ask of stitched work.

use super::{Anchor, Fabric, SectionKind, Spot, StrandWork, ThreadPath, ThreadUse, Work, practice};
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

    /// The letters of the loop, in the order strung; none with a guard.
    #[must_use]
    pub fn loop_letters(&self) -> Vec<LetterId> {
        self.fabric.beads_of_kind(SectionKind::Loop).map(|lying| lying.letter).collect()
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
