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
