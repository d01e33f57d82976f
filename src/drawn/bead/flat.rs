//! Beads in charts and diagrams: flat colour with a fine outline, in grey with a pattern.

use super::part::{Part, Pen, Tint};
use super::pattern::pattern;
use super::{Shape, outline};
use crate::colour::Colour;

/// Outline of flat beads: dark enough to be seen on white paper round a white bead (8:1).
pub(super) const OUTLINE: Colour = Colour::new(0x4d, 0x4d, 0x4d);
/// Outline of faded beads: seen, but behind all others.
pub(super) const FAINT: Colour = Colour::new(0xa8, 0xa8, 0xa8);

/// Filled with the bead's own colour, a pattern over it, and a fine outline.
pub(super) fn flat(shape: Shape, number: Option<u8>, edge: Colour, w: f64, h: f64) -> Vec<Part> {
    let line = line_width(w, h);
    // A hair of paper between beads keeps two dark neighbours apart.
    let gap = 0.35 * line;
    let (w, h) = (w - line - 2.0 * gap, h - line - 2.0 * gap);
    let fill = Part::Fill(outline(shape, w, h), Tint::Own);
    let over = number.map(|number| pattern(number, shape, w, h));
    let pen = Pen { tint: Tint::Fixed(edge), width: line, round: false };
    [fill].into_iter().chain(over).chain([Part::Stroke(outline(shape, w, h), pen)]).collect()
}

/// Filled with the bead's own colour to its very edge, within a fine outline: pale beads are seen on paper.
pub(super) fn close(shape: Shape, w: f64, h: f64) -> Vec<Part> {
    let line = line_width(w, h);
    let edge = outline(shape, w - line, h - line);
    let pen = Pen { tint: Tint::Fixed(OUTLINE), width: line, round: false };
    vec![Part::Fill(edge.clone(), Tint::Own), Part::Stroke(edge, pen)]
}

/// Width of a bead's outline: 4 % of its smaller side, within what home printers resolve.
fn line_width(w: f64, h: f64) -> f64 {
    (0.04 * w.min(h)).clamp(0.15, 0.6)
}
