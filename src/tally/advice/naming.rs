//! How advice names letters, rows, strands and lengths.

use crate::design::{Design, LetterId};
use crate::diagnostic::list;
use crate::stitch::Spot;
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

/// Numbers from 1 in ascending order, neighbours joined: `1–3 and 7`.
pub(super) fn ranges(numbers: &BTreeSet<usize>) -> String {
    let numbers: Vec<usize> = numbers.iter().copied().collect();
    let runs: Vec<String> = numbers
        .chunk_by(|a, b| a + 1 == *b)
        .map(|run| match run {
            [one] => one.to_string(),
            [first, .., last] => format!("{first}–{last}"),
            [] => String::new(),
        })
        .collect();
    list(&runs)
}

/// `row 3`, `rows 1–3 and 7`: a noun with the numbers, counted from 1.
pub(super) fn numbered(noun: &str, numbers: &BTreeSet<usize>) -> String {
    let plural = if numbers.len() == 1 { "" } else { "s" };
    format!("{noun}{plural} {}", ranges(numbers))
}

/// Where beads are: `row 1, the loop and strands 3–5 from the left`.
pub(super) fn whereabouts(spots: &[Spot]) -> String {
    let (mut rows, mut strands, mut in_loop) = (BTreeSet::new(), BTreeSet::new(), false);
    for spot in spots {
        match spot {
            Spot::Body { row, .. } => {
                rows.insert(row + 1);
            }
            Spot::Strand { strand, .. } => {
                strands.insert(strand + 1);
            }
            Spot::Loop { .. } => in_loop = true,
        }
    }
    let mut parts = Vec::new();
    if !rows.is_empty() {
        parts.push(numbered("row", &rows));
    }
    if in_loop {
        parts.push("the loop".to_owned());
    }
    if !strands.is_empty() {
        parts.push(format!("{} from the left", numbered("strand", &strands)));
    }
    list(&parts)
}
