//! Every page that may begin with a slab.

use super::height::Height;
use super::{Begins, Fit, HAIR, Measure};
use crate::units::Mm;

/// Cost of a section's title with too little below it.
const CLOSE_TO_FOOT: f64 = 400.0;

/// What is known of a page down to a slab.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Begun {
    pub height: Height,
    pub cost: f64,
    /// Twice the number of pieces that could face each other and do not, where it is a right page and where it is a left
    /// one.
    pub turned: [u8; 2],
}

/// The end of a page that may be: its slabs, what is known of it, and the slab that goes on overleaf.
pub(super) struct Ended<'p> {
    pub path: &'p [usize],
    pub begun: Begun,
    pub to: usize,
}

impl Fit<'_> {
    /// Goes over every page that begins with a slab.
    pub(super) fn walk(&self, from: usize, visit: &mut impl FnMut(Ended)) {
        let mut path = Vec::new();
        self.walk_on(from, Begun::default(), &mut path, visit);
    }

    fn walk_on(&self, mut at: usize, mut begun: Begun, path: &mut Vec<usize>, visit: &mut impl FnMut(Ended)) {
        let kept = path.len();
        while let Some(others) = self.others.get(at) {
            for &other in others {
                // A version goes its own way to the page's end.
                if let Some(begun) = self.with(other, begun, path, visit) {
                    path.push(other);
                    self.walk_on(self.next[other], begun, path, visit);
                    path.pop();
                }
            }
            let Some(with) = self.with(at, begun, path, visit) else { break };
            path.push(at);
            begun = with;
            at = self.next[at];
        }
        path.truncate(kept);
    }

    /// The page with one more slab; `None` where it has no room, or where the page must end.
    fn with(
        &self,
        at: usize,
        mut begun: Begun,
        path: &mut Vec<usize>,
        visit: &mut impl FnMut(Ended),
    ) -> Option<Begun> {
        let slab = &self.slabs[at];
        let first = path.is_empty();
        if !first {
            if slab.begins == Begins::Page {
                return None;
            }
            begun.cost += slab.below_others;
            let left = self.room - begun.height.whole - begun.height.after.max(slab.before);
            if left < slab.wants && !self.ends_within(at, left) {
                begun.cost += CLOSE_TO_FOOT;
            }
        }
        if slab.faces {
            // Only at the head of a right page does it face the one before.
            begun.turned = [if first { 0 } else { 2 }, 2];
        }
        begun.height.add(slab);
        // What is higher than a page has one to itself.
        if begun.height.least > self.room + Mm(HAIR) && !first {
            return None;
        }
        if self.ends[at] {
            path.push(at);
            visit(Ended { path: path.as_slice(), begun, to: self.next[at] });
            path.pop();
        }
        (slab.begins != Begins::Page).then_some(begun)
    }

    /// Whether the section that begins with a slab ends within a height.
    fn ends_within(&self, from: usize, room: Mm) -> bool {
        let mut height = Height::default();
        let mut at = from;
        while at < self.slabs.len() && (at == from || !self.is_section_end(at)) {
            height.add(&Measure { repeat: Mm::ZERO, ..self.slabs[at] });
            if height.least > room {
                return false;
            }
            at = self.next[at];
        }
        true
    }
}
