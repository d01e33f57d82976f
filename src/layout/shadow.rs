//! Soft shadows: lines that grow narrower and darker, each painted over the one before, so that no transparency is
//! needed.

use super::Path;
use crate::colour::Colour;
use crate::drawn::{ShadowMark, Stroke};
use crate::units::{Mm, Point};

/// How far to the right of what throws it the shadow lies, and how far below, in the drawing's own millimetres: the
/// light comes from the upper left, as on the beads. Measures and shares here were chosen by eye.
const ASIDE: Mm = Mm(0.55);
const BELOW: Mm = Mm(0.9);
/// How far beyond that it fades out, and how far within it is darkest.
const OUTWARDS: Mm = Mm(1.5);
const INWARDS: Mm = Mm(0.9);
/// How many steps it fades in: finer than the eye tells apart at its darkest.
const STEPS: u8 = 12;
/// How much of the ground's light its darkest part takes.
const DARKEST: f64 = 0.26;

/// What is painted for a shadow on a ground, from its edge inwards.
pub(super) fn shadow(mark: &ShadowMark, ground: Colour, scale: f64) -> impl Iterator<Item = Path> {
    (1..=STEPS).flat_map(move |step| {
        let share = f64::from(step) / f64::from(STEPS);
        let reach = OUTWARDS - (OUTWARDS + INWARDS) * ((f64::from(step) - 1.0) / f64::from(STEPS - 1));
        // Slow at both ends, as the edge of a shadow is.
        let colour = ground.mix(Colour::BLACK, DARKEST * share * share * (3.0 - 2.0 * share));
        mark.lines.iter().filter_map(move |(width, line)| {
            let width = (*width + reach * 2.0) * scale;
            (width.0 > 0.0).then(|| Path {
                segments: line.iter().map(|segment| segment.map(|at| cast(at, scale))).collect(),
                fill: None,
                stroke: Some(Stroke { colour, width, dash: Vec::new(), round: true }),
            })
        })
    })
}

fn cast(at: Point, scale: f64) -> Point {
    Point { x: (at.x + ASIDE) * scale, y: (at.y + BELOW) * scale }
}
