//! Fit: whether each bead's hole takes all that has to pass it.

use super::count::thread_of;
use super::packing::{enclosing, holds};
use super::{Fit, FitGrade};
use crate::design::{BeadId, Design};
use crate::stitch::{Spot, ThreadUse, Work};
use crate::units::Mm;
use std::collections::BTreeMap;

/// Share of a hole that threads may fill, by diameter, before the fit is called tight
/// (common practice, no source: beyond it a needle has to be pulled through with pliers).
pub const TIGHT: f64 = 0.85;
/// Sums of diameters that reach a hole but for rounding still pass.
const ROUNDING: f64 = 1e-9;

/// Diameter of a hole that surely takes these passes, one count a thread (body, fringe).
///
/// The fullest moment is the last pass, when the needle goes through beside every pass before it;
/// a thread thicker than the needle fills the hole more once the needle is through. The fringe is
/// worked last, so a bead that both threads pass sees its last pass by the fringe thread.
#[must_use]
pub fn needed(passes: [usize; 2], threads: [Mm; 2], needle: Option<Mm>) -> Mm {
    let moments = fullest_moments(passes, threads, needle);
    moments.iter().map(|lying| enclosing(lying)).fold(Mm::ZERO, Mm::max)
}

/// What lies in a hole when it is fullest: diameters, once for each moment that may be the worst.
fn fullest_moments(passes: [usize; 2], threads: [Mm; 2], needle: Option<Mm>) -> Vec<Vec<Mm>> {
    let lying = |passes: [usize; 2]| -> Vec<Mm> {
        let body = std::iter::repeat_n(threads[0], passes[0]);
        body.chain(std::iter::repeat_n(threads[1], passes[1])).collect()
    };
    let before = match passes {
        [0, 0] => return Vec::new(),
        [body, 0] => [body - 1, 0],
        [body, fringe] => [body, fringe - 1],
    };
    let mut moments = vec![lying(passes)];
    if let Some(needle) = needle {
        let mut on_its_way = lying(before);
        on_its_way.push(needle);
        moments.push(on_its_way);
    }
    moments
}

/// How well something of this diameter passes a hole.
pub(super) fn grade(needed: Mm, hole: Mm) -> FitGrade {
    if needed.0 > hole.0 * (1.0 + ROUNDING) {
        FitGrade::WillNotPass
    } else if needed.0 > hole.0 * TIGHT * (1.0 + ROUNDING) {
        FitGrade::Tight
    } else {
        FitGrade::Fits
    }
}

/// Diameters of the body and the fringe thread.
pub(super) fn diameters(design: &Design) -> [Mm; 2] {
    [ThreadUse::Body, ThreadUse::Fringe].map(|thread| thread_of(design, thread).diameter)
}

/// Beads that are not plainly loose, grouped by grade and bead, worst first.
pub(super) fn fit(design: &Design, work: &Work, passes: &BTreeMap<Spot, [usize; 2]>) -> Vec<Fit> {
    let threads = diameters(design);
    let needle = design.palette.needle;
    let mut known: BTreeMap<(BeadId, [usize; 2]), Option<Mm>> = BTreeMap::new();
    let mut groups: BTreeMap<(FitGrade, BeadId), Fit> = BTreeMap::new();
    for lying in &work.fabric.beads {
        let Some(count) = passes.get(&lying.spot) else {
            continue;
        };
        let bead = design.letters[lying.letter.0].bead;
        let hole = design.palette.beads[bead.0].hole;
        // Most beads are plainly loose, which is quickly seen.
        let needed = *known.entry((bead, *count)).or_insert_with(|| {
            let moments = fullest_moments(*count, threads, needle);
            let loose = moments.iter().all(|lying| holds(lying, hole * TIGHT));
            (!loose).then(|| needed(*count, threads, needle))
        });
        let Some(needed) = needed else {
            continue;
        };
        let grade = grade(needed, hole);
        if grade == FitGrade::Fits {
            continue;
        }
        let group = groups.entry((grade, bead)).or_insert_with(|| Fit {
            grade,
            bead,
            spots: Vec::new(),
            passes: Vec::new(),
            needed: Mm::ZERO,
            hole,
        });
        group.spots.push(lying.spot);
        if needed > group.needed {
            group.needed = needed;
            group.passes = [ThreadUse::Body, ThreadUse::Fringe]
                .into_iter()
                .zip(*count)
                .filter(|(_, passes)| *passes > 0)
                .collect();
        }
    }
    let mut fit: Vec<Fit> = groups.into_values().collect();
    // Stable: equals stay in the order of the palette.
    fit.sort_by(|a, b| {
        let fullness = |f: &Fit| f.needed / f.hole;
        b.grade.cmp(&a.grade).then(fullness(b).total_cmp(&fullness(a)))
    });
    fit
}
