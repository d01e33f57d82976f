//! Fit: whether each bead's hole takes all that has to pass it.

use super::count::thread_of;
use super::{Fit, FitGrade};
use crate::design::{BeadId, Design};
use crate::holes::packing::holds;
use crate::holes::{TIGHT, fullest_moments, needed};
use crate::stitch::{Spot, ThreadUse, Work};
use crate::units::Mm;
use std::collections::BTreeMap;

/// Sums of diameters that reach a hole but for rounding still pass.
const ROUNDING: f64 = 1e-9;

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
