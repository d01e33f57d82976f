//! What all diagrams of a design look at, found once: its stacks, its letters and the accent.

use super::paint::accent;
use super::state::loop_first;
use crate::colour::Colour;
use crate::design::{Design, LetterId, Side};
use crate::stitch::{Spot, StackAt, Work};
use std::collections::BTreeMap;

/// A stack of the body.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Stack {
    /// Its middle, in millimetres of the earring.
    pub(super) x: f64,
    /// Letters from top to bottom.
    pub(super) letters: Vec<LetterId>,
}

/// A design and its work, with what their diagrams have in common.
pub(super) struct Whole<'a> {
    pub(super) design: &'a Design,
    pub(super) work: &'a Work,
    /// Every stack of the body.
    pub(super) stacks: BTreeMap<StackAt, Stack>,
    /// The topmost row, on which the earring hangs.
    pub(super) top_row: Option<usize>,
    /// The side on which the loop's first bead lies.
    pub(super) loop_first: Side,
    /// Colour of the thread.
    pub(super) accent: Colour,
    letters: BTreeMap<Spot, LetterId>,
}

impl<'a> Whole<'a> {
    pub(super) fn of(design: &'a Design, work: &'a Work) -> Whole<'a> {
        Whole {
            design,
            work,
            stacks: stacks(work),
            top_row: work.rows.iter().map(|r| r.row).max(),
            loop_first: loop_first(work),
            accent: accent(design),
            letters: work.geometry.beads.iter().map(|lying| (lying.spot, lying.letter)).collect(),
        }
    }

    /// The letter of the bead at a spot.
    pub(super) fn letter(&self, spot: &Spot) -> Option<LetterId> {
        self.letters.get(spot).copied()
    }
}

fn stacks(work: &Work) -> BTreeMap<StackAt, Stack> {
    let mut stacks: BTreeMap<StackAt, Vec<(usize, f64, LetterId)>> = BTreeMap::new();
    for lying in &work.geometry.beads {
        if let Spot::Body { row, stack, level } = lying.spot {
            let beads = stacks.entry(StackAt { row, stack }).or_default();
            beads.push((level, lying.centre.x.0, lying.letter));
        }
    }
    stacks
        .into_iter()
        .map(|(at, mut beads)| {
            beads.sort_by_key(|(level, ..)| *level);
            let x = beads.iter().map(|(_, x, _)| x).sum::<f64>() / beads.len() as f64;
            (at, Stack { x, letters: beads.into_iter().map(|(_, _, letter)| letter).collect() })
        })
        .collect()
}
