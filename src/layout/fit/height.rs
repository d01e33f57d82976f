//! Height of what stands on a page.

use super::{Float, Measure};
use crate::units::Mm;

/// Cost of parting what belongs together, which only what is taller than a page may ask for.
const PARTED: f64 = 100_000.0;

/// Height of slabs on one page.
pub(in crate::layout) fn height<'m>(slabs: impl Iterator<Item = &'m Measure>) -> Mm {
    let mut height = Height::default();
    slabs.for_each(|slab| height.add(slab));
    height.whole
}

/// Height of slabs one under the other.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Height {
    pub whole: Mm,
    pub least: Mm,
    pub after: Mm,
    any: bool,
    /// Cost of a page that ends there.
    pub tie: f64,
}

impl Height {
    pub fn add(&mut self, slab: &Measure) {
        let over = if self.any { self.after.max(slab.before) } else { slab.repeat };
        self.whole += over + slab.height;
        self.least += over + slab.least;
        self.after = slab.after;
        self.tie = slab.tie + if slab.tied { PARTED } else { 0.0 };
        self.any = true;
    }

    pub fn float(&mut self, float: &Float) {
        let over = if self.any { self.after.max(float.before) } else { Mm::ZERO };
        self.whole += over + float.height;
        self.least += over + float.height;
        self.after = float.before;
        self.any = true;
    }
}
