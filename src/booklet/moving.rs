//! A step's diagrams as they come about, move by move.

use super::drawing::moving;
use super::plates::framed;
use super::{Plate, Telling};
use crate::colour::Colour;
use crate::design::Design;
use crate::drawn::{Drawing, Mark};
use crate::stitch::Work;
use crate::units::{Mm, Point, Size};

/// Space between two diagrams of one step that stand in one picture, in a diagram's own millimetres.
const APART: f64 = 6.0;

/// Pictures of a step's diagrams after each of their moves, in order, all to one scale: of each diagram first what is
/// there before. `step` counts from 1. Empty where the step has no diagram.
#[must_use]
pub fn moves_of_step(
    (design, work, telling): (&Design, &Work, &Telling),
    step: usize,
    (ground, margin): (Option<Colour>, f64),
) -> Vec<Plate> {
    let drawings: Vec<Drawing> = of_step((design, work, telling), step).into_iter().flatten().collect();
    let side = |of: fn(&Drawing) -> Mm| drawings.iter().map(|d| of(d).0).fold(0.0, f64::max);
    let size = Size { width: Mm(side(|d| d.size.width)), height: Mm(side(|d| d.size.height)) };
    let plate = |drawing: Drawing| {
        // Each in the middle of where the largest stands.
        let aside = |own: Mm, largest: Mm| (own - largest) / 2.0;
        let at =
            Point { x: aside(drawing.size.width, size.width), y: aside(drawing.size.height, size.height) };
        framed(drawing, at, size, (ground, margin))
    };
    drawings.into_iter().map(plate).collect()
}

/// One picture of all diagrams of a step as the booklet shows them, beside and below one another; `None` where it has
/// none.
#[must_use]
pub fn step(
    (design, work, telling): (&Design, &Work, &Telling),
    step: usize,
    (ground, margin): (Option<Colour>, f64),
) -> Option<Plate> {
    let whole = of_step((design, work, telling), step).into_iter().filter_map(|mut moves| moves.pop());
    let drawings: Vec<Drawing> = whole.collect();
    // As many in a row as bring the picture nearest to a square.
    let drawing = (1..=drawings.len()).map(|columns| in_rows(&drawings, columns)).min_by(|one, other| {
        let side = |d: &Drawing| d.size.width.0.max(d.size.height.0);
        side(one).total_cmp(&side(other))
    })?;
    let size = drawing.size;
    Some(framed(drawing, Point::default(), size, (ground, margin)))
}

/// The moves of each diagram of a step.
fn of_step((design, work, telling): (&Design, &Work, &Telling), step: usize) -> Vec<Vec<Drawing>> {
    let Some(shown) = step.checked_sub(1).and_then(|index| telling.diagrams().nth(index)) else {
        return Vec::new();
    };
    let all = moving(design, work, |other| shown.contains(&other));
    let of = |shown| all.iter().filter(move |(other, _)| *other == shown).map(|(_, moves)| moves.clone());
    shown.into_iter().flat_map(of).collect()
}

/// Drawings in rows of so many, each in the middle of its place.
fn in_rows(drawings: &[Drawing], columns: usize) -> Drawing {
    let widths: Vec<f64> = (0..columns)
        .map(|column| {
            drawings.iter().skip(column).step_by(columns).map(|d| d.size.width.0).fold(0.0, f64::max)
        })
        .collect();
    let mut marks: Vec<Mark> = Vec::new();
    let mut y = 0.0;
    for row in drawings.chunks(columns) {
        let height = row.iter().map(|d| d.size.height.0).fold(0.0, f64::max);
        let mut x = 0.0;
        for (drawing, width) in row.iter().zip(&widths) {
            let (dx, dy) =
                (x + (width - drawing.size.width.0) / 2.0, y + (height - drawing.size.height.0) / 2.0);
            marks.extend(drawing.moved(Mm(dx), Mm(dy)).marks);
            x += width + APART;
        }
        y += height + APART;
    }
    let across = widths.iter().sum::<f64>() + APART * (columns.max(1) - 1) as f64;
    Drawing { size: Size { width: Mm(across), height: Mm((y - APART).max(0.0)) }, true_size: false, marks }
}
