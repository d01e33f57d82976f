//! What makes two beads look the same but for their colour: painters paint each kind once.

use super::Bead;
use crate::colour::Colour;
use crate::drawn::{BeadLook, Part, Shape, parts};
use crate::units::Mm;

/// A kind of bead.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct BeadKind {
    /// Its shape.
    pub shape: Shape,
    /// Width and length in hundredths of a point.
    size: (i64, i64),
    /// How it is shown.
    pub look: BeadLook,
    /// Its pattern in grey, where its look has one.
    pub pattern: Option<u8>,
    /// Its colour, only where what is painted depends on it.
    pub colour: Option<Colour>,
}

impl BeadKind {
    /// The kind of a bead.
    #[must_use]
    pub fn of(bead: &Bead) -> BeadKind {
        let hundredths = |v: Mm| (v.pt().0 * 100.0).round() as i64;
        BeadKind {
            shape: bead.shape,
            size: (hundredths(bead.width), hundredths(bead.length)),
            look: bead.look,
            pattern: match bead.look {
                BeadLook::Flat | BeadLook::Faded => bead.pattern,
                BeadLook::Lifelike(_) | BeadLook::Silhouette => None,
            },
            colour: matches!(bead.look, BeadLook::Lifelike(_)).then_some(bead.colour),
        }
    }

    /// Across and along its hole, in points.
    #[must_use]
    pub fn size(&self) -> (f64, f64) {
        (self.size.0 as f64 / 100.0, self.size.1 as f64 / 100.0)
    }

    /// What is painted for it.
    #[must_use]
    pub fn parts(&self) -> Vec<Part> {
        parts(self.shape, self.look, self.pattern, self.colour.unwrap_or(Colour::WHITE), self.size())
    }
}
