//! Nearest beads: what in a palette could stand in for a bead, or for a colour.

use crate::colour::Colour;
use crate::design::{Bead, BeadId, Palette};
use crate::units::Mm;

/// Beads without a size name are of one size when no dimension differs by more than this: what beads
/// of one bag differ by (common practice, no source).
const SAME_SIZE: Mm = Mm(0.1);

/// A bead that could stand in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Nearest {
    /// The bead.
    pub bead: BeadId,
    /// CIEDE2000 difference between its colour and the one wanted.
    pub difference: f64,
}

/// Whether two beads are of one shape and size, so that one can stand in for the other in the work.
#[must_use]
pub fn interchangeable(one: &Bead, other: &Bead) -> bool {
    let measures = |bead: &Bead| [bead.width, bead.length];
    let same_size = match (&one.size, &other.size) {
        (Some(size), Some(other)) => size == other,
        _ => measures(one).iter().zip(measures(other)).all(|(a, b)| (*a - b).abs() <= SAME_SIZE),
    };
    one.shape == other.shape && same_size
}

/// Beads of the palette that can still be bought and that are interchangeable with `like`, the nearest
/// to `colour` first; `like` itself is among them.
#[must_use]
pub fn nearest(palette: &Palette, like: &Bead, colour: Colour) -> Vec<Nearest> {
    let mut found: Vec<Nearest> = palette
        .beads
        .iter()
        .enumerate()
        .filter(|(_, bead)| bead.replaced_by.is_none() && interchangeable(bead, like))
        .map(|(index, bead)| Nearest { bead: BeadId(index), difference: colour.delta_e(bead.colour) })
        .collect();
    // Stable: beads equally near stay in the order of the palette.
    found.sort_by(|a, b| a.difference.total_cmp(&b.difference));
    found
}
