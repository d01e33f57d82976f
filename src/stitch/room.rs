//! Room in holes: how often threads have passed each stack, and which stacks take another pass easily.

use super::ground::Ground;
use super::needs::Needs;
use super::{Pass, StackId, ThreadUse};
use crate::holes::packing::holds;
use crate::holes::{TIGHT, fullest_moments};
use crate::units::Mm;
use std::cell::RefCell;
use std::collections::BTreeMap;

/// Passes through the stacks of a body so far, by the body and the fringe thread.
pub(super) struct Room {
    passes: Vec<[usize; 2]>,
    /// The narrowest hole of each stack.
    holes: Vec<Mm>,
    threads: [Mm; 2],
    needle: Option<Mm>,
    /// Whether a hole, in micrometres, takes so many passes.
    known: RefCell<BTreeMap<(i64, [usize; 2]), bool>>,
}

impl Room {
    /// Before anything is strung; kept free are the passes of the strands, down and up through what they hang on.
    pub fn of(ground: &Ground, needs: &Needs) -> Room {
        let hole = |stack: &super::Stack| {
            let beads = stack.beads.iter().map(|spot| needs.bead(ground.fabric[*spot].letter).hole);
            beads.fold(Mm(f64::INFINITY), Mm::min)
        };
        let mut passes = vec![[0, 0]; ground.fabric.stacks.len()];
        for strand in needs.strands {
            let row = ground.fabric.sections.get(strand.hangs_on.row);
            if let Some(stack) = row.and_then(|row| row.stacks.get(strand.hangs_on.stack)) {
                passes[stack.0][ThreadUse::Fringe as usize] += 2;
            }
        }
        Room {
            passes,
            holes: ground.fabric.stacks.iter().map(hole).collect(),
            threads: [needs.body_thread.diameter, needs.fringe_thread.diameter],
            needle: needs.needle,
            known: RefCell::default(),
        }
    }

    /// A thread passes a stack.
    pub fn pass(&mut self, stack: StackId, thread: ThreadUse) {
        self.passes[stack.0][thread as usize] += 1;
    }

    /// A strand passes what it hangs on now: that need not be kept free any more.
    pub fn give_back(&mut self, stack: StackId) {
        let kept = &mut self.passes[stack.0][ThreadUse::Fringe as usize];
        *kept = kept.saturating_sub(2);
    }

    /// Whether a stack takes one pass more without being tight.
    pub fn takes(&self, stack: StackId, thread: ThreadUse) -> bool {
        self.lacking(&[Pass { stack, way: super::Way::Up }], thread) == 0
    }

    /// How many of some passes, made one after another, would be through tight holes.
    pub fn lacking(&self, passes: &[Pass], thread: ThreadUse) -> usize {
        let lacks = |(index, pass): (usize, &Pass)| {
            let again = passes[..index].iter().filter(|before| before.stack == pass.stack).count();
            let mut counts = self.passes[pass.stack.0];
            counts[thread as usize] += 1 + again;
            !self.fits(self.holes[pass.stack.0], counts)
        };
        passes.iter().enumerate().filter(|pass| lacks(*pass)).count()
    }

    fn fits(&self, hole: Mm, passes: [usize; 2]) -> bool {
        let key = ((hole.0 * 1000.0).round() as i64, passes);
        *self.known.borrow_mut().entry(key).or_insert_with(|| {
            let moments = fullest_moments(passes, self.threads, self.needle);
            moments.iter().all(|lying| holds(lying, hole * TIGHT))
        })
    }
}
