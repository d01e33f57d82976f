//! Constants of the trade that stitching uses, each with its source.

use crate::units::Mm;

/// Each tail left at the beginning and at the end of a thread: 3 to 4 inches.
/// Common practice, no source.
pub const TAIL: Mm = Mm(100.0);

/// Share of the path added for tension and handling. Common practice, no source.
pub const HANDLING: f64 = 0.10;

/// Longest comfortable thread: one arm span, 1.6 to 1.8 m (several craft publications).
pub const ARM_SPAN: Mm = Mm(1800.0);

/// Lengths to cut are rounded up to this. A choice of this program: readable on any tape measure.
pub const CUT_STEP: Mm = Mm(50.0);

/// Wraps of an anchor. Common practice, no source.
pub const ANCHOR_WRAPS: usize = 2;

/// CIEDE2000 difference up to which beads count as close to the thread's colour, so that wraps do
/// not show. A choice of this program; [`super::Anchor::difference`] is measured against it.
pub const CLOSE_COLOUR: f64 = 25.0;

/// How many stacks a thread travels through to a place to anchor, so that it is still near where
/// the thread stands, and a short tail still reaches. A choice of this program.
pub const ANCHOR_NEAR: usize = 6;

/// How many it travels when nothing near is close in colour. A choice of this program.
pub const ANCHOR_FAR: usize = 12;

/// A pair of stacks that already holds an anchor counts as this much further off in colour
/// (CIEDE2000), so that no hole is crowded without need. A choice of this program: about the
/// smallest difference seen without looking for it.
pub const CROWDED: f64 = 2.0;

/// Times the thread goes round through the guard or the loop, which carry the whole weight.
/// Common practice, no source.
pub const HANGING_ROUNDS: usize = 2;

/// Distance of a thread guard's holes when the palette gives none. From memory, no source.
pub const GUARD_HOLES: Mm = Mm(4.0);

/// Straight legs of a thread guard below its half-round arch, as a share of the distance of its
/// holes. From memory, no source.
pub const GUARD_LEG: f64 = 0.5;
