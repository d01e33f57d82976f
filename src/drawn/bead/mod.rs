//! Beads as they are drawn: their shapes with the outline of each, how a bead is shown, and what is painted for it.
//! Every painter paints the same [`parts`].

mod flat;
mod glass;
mod outline;
mod part;
mod pattern;
mod shine;

pub use outline::{BeadLook, FADED, PATTERNS, Shape, outline};
pub use part::{Gradient, Part, Path, Pen, Run, Tint};
pub use shine::{Glass, Shine, Surface};

use crate::colour::Colour;

/// What is painted for a bead `w` across and `h` along its hole, both in points, in order: upright round its centre,
/// y downwards, in points. A look that depends on the colour has it in its parts; all others name it
/// [`Tint::Own`], so that beads that differ in colour only can share what is painted.
/// `pattern` tells beads in grey apart; numbers from [`PATTERNS`] on are painted as the last.
#[must_use]
pub fn parts(
    shape: Shape,
    look: BeadLook,
    pattern: Option<u8>,
    colour: Colour,
    (w, h): (f64, f64),
) -> Vec<Part> {
    match look {
        BeadLook::Flat => flat::flat(shape, pattern, flat::OUTLINE, w, h),
        BeadLook::Faded => flat::flat(shape, pattern, flat::FAINT, w, h),
        BeadLook::Silhouette => flat::close(shape, w, h),
        BeadLook::Lifelike(shine) => glass::glass(shape, shine, colour, w, h),
    }
}
