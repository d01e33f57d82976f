//! What a page costs.

use super::height::Height;
use super::walk::Begun;
use super::{Begins, Fit, HAIR, Shown};
use crate::units::Mm;

/// A page that is filled less looks empty; a little more is asked for, as descenders are not drawn to the end.
pub(super) const HALF: f64 = 0.515;

/// Cost of a page that is less than half full, and of each further share that it lacks.
const EMPTY: (f64, f64) = (4_000.0, 4_000.0);
/// Cost of white, by the square of its share: below what goes on overleaf, and below the end of a section.
const WHITE: (f64, f64) = (100.0, 35.0);
/// Share of the cost of parting anything that is left where both parts face each other.
const OPPOSITE: f64 = 0.6;
/// Cost of a page more.
const PAGE: f64 = 8.0;
/// Cost of a chart made smaller, by the share that it loses.
const SMALLER: f64 = 60.0;
/// Cost of a float for each section that lies between it and its own: where it stands before that, and after it.
const STRAYED: [f64; 2] = [80.0, 30.0];
/// Half the cost of sections that could face each other and do not.
const TURNED: f64 = 150.0;
/// Cost of a last page with next to nothing on it, by the share that it lacks of this one.
const LAST: (f64, f64) = (0.25, 80.0);

impl Fit<'_> {
    /// A page with floats below what stands there; `None` where it has no room for them, or where they must not stand.
    pub(super) fn with_floats(&self, from: usize, to: usize, mut begun: Begun, more: usize) -> Option<Begun> {
        let here = self.sections[to.max(1) - 1];
        for (_, float) in self.floats.iter().enumerate().filter(|(index, _)| more >> index & 1 == 1) {
            let early = float.shown_with.is_some() && here < float.home;
            if here > float.until || early {
                return None;
            }
            begun.height.float(float);
            match float.shown_with {
                // On the left before what it faces, or, not as well, on the right behind it.
                Some(Shown::Facing { first, next }) => {
                    begun.turned[0] += if from == to && to == next { 1 } else { 2 };
                    begun.turned[1] += if to == first { 0 } else { 2 };
                }
                Some(Shown::Near) => {}
                None => {
                    let [before, after] = STRAYED;
                    let strayed = here as f64 - float.home as f64;
                    begun.cost += (-strayed * before).max(strayed * after);
                }
            }
        }
        (more == 0 || begun.height.least <= self.room + Mm(HAIR)).then_some(begun)
    }

    /// Cost of a page, on the right (0) or left (1).
    pub(super) fn page_cost(&self, from: usize, to: usize, side: usize, begun: &Begun) -> f64 {
        if from < to && self.slabs[from].begins == Begins::Page {
            return 0.0;
        }
        let height = begun.height;
        let over = (height.whole - self.room).max(Mm::ZERO);
        let fill = self.fill(&height);
        let mut cost = begun.cost + PAGE + SMALLER * (over / height.whole);
        cost += TURNED * f64::from(begun.turned[side]);
        if self.ends_before(to) {
            return cost + (LAST.0 - fill).max(0.0) / LAST.0 * LAST.1;
        }
        if fill < HALF {
            cost += EMPTY.0 + EMPTY.1 * (HALF - fill);
        }
        let white = (1.0 - fill) * (1.0 - fill);
        if self.is_section_end(to) || self.slabs[to].begins == Begins::Part {
            return cost + white * WHITE.1;
        }
        cost + white * WHITE.0 + height.tie * if side == 1 { OPPOSITE } else { 1.0 }
    }

    pub(super) fn fill(&self, height: &Height) -> f64 {
        (height.whole / self.room).min(1.0)
    }
}
