//! How advice names letters, rows, strands and lengths.

use crate::design::{Design, LetterId, Side};
use crate::diagnostic::{list, ranges};
use crate::stitch::{Spot, Work};
use crate::units::Mm;
use std::collections::BTreeSet;

/// A letter with its bead: `A (Ink black)`.
pub(super) fn letter(design: &Design, id: LetterId) -> String {
    let letter = &design.letters[id.0];
    format!("{} ({})", letter.symbol, design.palette.beads[letter.bead.0].name)
}

/// A diameter: `0.15 mm`.
pub(super) fn diameter(length: Mm) -> String {
    format!("{:.2} mm", length.0)
}

/// A measure that is told beside a bound, over it or under it: with as few decimals, `least` or more, as tell the two
/// apart, so that no one reads `25, over 25`.
pub(super) fn beside(measure: f64, bound: f64, least: usize) -> String {
    const MOST: usize = 6;
    let written = |number: f64, decimals: usize| format!("{number:.decimals$}");
    let differs = |decimals: &usize| written(measure, *decimals) != written(bound, *decimals);
    (least..=MOST).find(differs).map_or_else(|| measure.to_string(), |decimals| written(measure, decimals))
}

/// `row 3`, `rows 1–3 and 7`: a noun with the numbers, counted from 1.
pub(super) fn numbered(noun: &str, numbers: &BTreeSet<usize>) -> String {
    let plural = if numbers.len() == 1 { "" } else { "s" };
    format!("{noun}{plural} {}", list(&ranges(numbers)))
}

/// `strand 3 from the left`: strands by their numbers in working order.
pub(super) fn strands(work: &Work, numbers: &BTreeSet<usize>) -> String {
    format!("{} from the {}", numbered("strand", numbers), side(work.fringe_from))
}

/// `left` or `right`.
pub(super) fn side(side: Side) -> &'static str {
    match side {
        Side::Left => "left",
        Side::Right => "right",
    }
}

/// Where beads are: `row 1, the loop and strands 3–5 from the left`.
pub(super) fn whereabouts(work: &Work, spots: &[Spot]) -> String {
    let found = work.whereabouts(spots);
    let mut parts = Vec::new();
    if !found.rows.is_empty() {
        parts.push(numbered("row", &found.rows));
    }
    if found.in_loop {
        parts.push("the loop".to_owned());
    }
    if !found.strands.is_empty() {
        parts.push(strands(work, &found.strands));
    }
    list(&parts)
}

#[cfg(test)]
mod tests {
    use super::beside;

    #[test]
    fn a_measure_reads_otherwise_than_the_bound_beside_it() {
        assert_eq!(beside(75.4, 25.0, 0), "75");
        assert_eq!(beside(25.4, 25.0, 0), "25.4");
        assert_eq!(beside(25.04, 25.0, 0), "25.04");
        assert_eq!(beside(7.96, 8.0, 1), "7.96");
        assert_eq!(beside(4.8, 8.0, 1), "4.8");
        // However near: then it is told whole.
        assert_eq!(beside(25.000_000_01, 25.0, 0), "25.00000001");
    }
}
