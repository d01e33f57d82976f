//! Constants of the trade that stitching uses, each with its source. What a studio may set stands in
//! [`Allowances::default`](crate::design::Allowances).

use crate::units::Mm;

/// Lengths to cut are rounded up to this. A choice of this program: readable on any tape measure.
pub const CUT_STEP: Mm = Mm(50.0);

/// Wraps of an anchor. Common practice, no source.
pub const ANCHOR_WRAPS: usize = 2;

/// CIEDE2000 difference up to which beads count as close to the thread's colour, so that wraps do
/// not show. A choice of this program: over it a white thread shows on any but a pale bead.
/// [`super::Anchor::difference`] is measured against it.
pub const CLOSE_COLOUR: f64 = 25.0;

/// How many stacks a thread travels through to a place to anchor, so that it is still near where
/// the thread stands, and a short tail still reaches. A choice of this program.
pub const ANCHOR_NEAR: usize = 6;

/// How many it travels when nothing near is close in colour. A choice of this program.
pub const ANCHOR_FAR: usize = 12;

/// A pair of stacks of which one already holds an anchor counts as this much further off in colour
/// (CIEDE2000), so that no hole is crowded without need. A choice of this program: about the
/// smallest difference seen without looking for it.
pub const CROWDED: f64 = 2.0;

/// The very pair that already holds one counts as this much further off where wraps show anyhow: such a difference
/// matters little there. A choice of this program.
pub const TAKEN: f64 = 10.0;

/// Times the thread goes round through the guard or the loop, which carry the whole weight.
/// Common practice, no source.
pub const HANGING_ROUNDS: usize = 2;

/// Distance of a thread guard's holes when the palette gives none. From memory, no source.
pub const GUARD_HOLES: Mm = Mm(4.0);

/// Straight legs of a thread guard below its half-round arch, as a share of the distance of its
/// holes. From memory, no source.
pub const GUARD_LEG: f64 = 0.5;

/// Thickness of a thread guard's channel. From memory, no source.
pub const GUARD_TUBE: Mm = Mm(1.1);
