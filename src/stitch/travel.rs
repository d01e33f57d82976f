//! Travel: the way of a thread through stacks already strung, from where it stands to where it must be.
//!
//! A thread that has come out of a stack goes on into a stack that touches this end, or back through a neighbour
//! of the row: it lies along an edge and never across a bead's face. Out of the far end of a stack that is alone in its
//! row it goes along the outside of that stack (common practice, no source): straight back through it, the needle would
//! pull out the pass before.

use super::ground::Ground;
use super::{Pass, StackId};
use crate::design::Side;
use rustc_hash::FxHashMap;

/// Where threads may go.
pub(super) struct Travel<'a> {
    /// What they move on.
    pub ground: &'a Ground,
    /// The side that is tried first: that where the work starts, so that mirrored work is the mirror image.
    pub first: Side,
}

impl Travel<'_> {
    /// The stacks a thread can pass next: one that touches the end where it stands, or a neighbour
    /// back the other way. Beyond a stack that is alone in its row there is none: the thread lies along the outside of
    /// it, and goes on in one that touches its other end.
    pub fn steps(&self, at: Pass, is_there: impl Fn(StackId) -> bool) -> Vec<Pass> {
        let mut onward = self.ground.touching(at.stack, at.way);
        let mut back = self.ground.beside(at.stack);
        if onward.is_empty() && back.is_empty() {
            back = self.ground.touching(at.stack, at.way.back());
        }
        if self.first == Side::Right {
            onward.reverse();
            back.reverse();
        }
        let onward = onward.into_iter().map(|stack| Pass { stack, way: at.way });
        let back = back.into_iter().map(|stack| Pass { stack, way: at.way.back() });
        onward.chain(back).filter(|pass| is_there(pass.stack)).collect()
    }

    /// Every standing in reach with the passes to it, nearest first, and where each is come from.
    pub fn reach(
        &self,
        from: Pass,
        most: usize,
        is_there: impl Fn(StackId) -> bool,
    ) -> (FxHashMap<Pass, Pass>, Vec<(Pass, usize)>) {
        let mut parents = FxHashMap::default();
        let mut reached = vec![(from, 0)];
        let mut next = 0;
        while let Some(&(standing, passes)) = reached.get(next) {
            next += 1;
            if passes == most {
                continue;
            }
            for step in self.steps(standing, &is_there) {
                if step != from && !parents.contains_key(&step) {
                    parents.insert(step, standing);
                    reached.push((step, passes + 1));
                }
            }
        }
        (parents, reached)
    }

    /// The shortest way to one of some standings: the stacks to pass, none where the thread stands there already;
    /// `None` where there is no way.
    pub fn way(
        &self,
        from: Pass,
        wanted: &impl Fn(Pass) -> bool,
        is_there: impl Fn(StackId) -> bool,
    ) -> Option<Vec<Pass>> {
        let mut parents = FxHashMap::default();
        let mut ahead = vec![from];
        let mut next = 0;
        while let Some(&standing) = ahead.get(next) {
            next += 1;
            if wanted(standing) {
                return Some(way_to(standing, &parents));
            }
            for step in self.steps(standing, &is_there) {
                if step != from && !parents.contains_key(&step) {
                    parents.insert(step, standing);
                    ahead.push(step);
                }
            }
        }
        None
    }
}

/// The steps to a standing, by where each was come from.
pub(super) fn way_to(standing: Pass, parents: &FxHashMap<Pass, Pass>) -> Vec<Pass> {
    let mut steps = Vec::new();
    let mut at = standing;
    while let Some(&before) = parents.get(&at) {
        steps.push(at);
        at = before;
    }
    steps.reverse();
    steps
}
