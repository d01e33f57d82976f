//! Patterns that tell beads of like greys apart. They keep clear of the middle, where the letter is.

use super::part::{Part, Path, Pen, Tint};
use super::{Shape, outline};
use crate::drawn::{Segment, rounded};

/// The share of a bead's width and length that is kept clear for its letter.
const CLEAR: (f64, f64) = (0.56, 0.66);

/// A pattern in the bead's ink, within its outline. `number` is from 0.
pub(super) fn pattern(number: u8, shape: Shape, w: f64, h: f64) -> Part {
    let small = w.min(h);
    let step = 0.2 * small;
    let line = (0.05 * small).clamp(0.2, 0.7);
    let (lines, width, round) = match number {
        0 => (lines((1.0, 1.0), step, w, h), line, false),
        // Strokes of no length with round ends.
        1 => (dots(step, w, h), 0.42 * step, true),
        2 => (lines((1.0, 0.0), step, w, h), line, false),
        3 => (lines((0.0, 1.0), step, w, h), line, false),
        4 => (lines((1.0, -1.0), step, w, h), line, false),
        5 => {
            let (rising, falling) =
                (lines((1.0, 1.0), 1.5 * step, w, h), lines((1.0, -1.0), 1.5 * step, w, h));
            ([rising, falling].concat(), line, false)
        }
        6 => {
            let (across, upright) =
                (lines((1.0, 0.0), 1.4 * step, w, h), lines((0.0, 1.0), 1.4 * step, w, h));
            ([across, upright].concat(), line, false)
        }
        _ => (waves(1.2 * step, w, h), line, false),
    };
    let (clear_w, clear_h) = (w * CLEAR.0, h * CLEAR.1);
    let clear = rounded((0.0, 0.0), (clear_w, clear_h), (clear_w / 2.0, clear_h / 2.0));
    let pen = Pen { tint: Tint::Ink, width, round };
    Part::Within(vec![outline(shape, w, h), clear], vec![Part::Stroke(lines, pen)])
}

/// Parallel lines along a direction, `step` apart, over the whole bead.
fn lines(direction: (f64, f64), step: f64, w: f64, h: f64) -> Path {
    let length = direction.0.hypot(direction.1);
    let (dx, dy) = (direction.0 / length, -direction.1 / length);
    let reach = w.hypot(h) / 2.0;
    let count = (reach / step).ceil() as i32;
    let line = |i: i32| {
        let aside = (f64::from(i) + 0.5) * step;
        let (mx, my) = (dy * aside, -dx * aside);
        [Segment::Move((mx - dx * reach, my - dy * reach)), Segment::Line((mx + dx * reach, my + dy * reach))]
    };
    (-count..count).flat_map(line).collect()
}

/// Dots in staggered rows.
fn dots(step: f64, w: f64, h: f64) -> Path {
    let (columns, rows) = ((w / 2.0 / step).ceil() as i32, (h / 2.0 / step).ceil() as i32);
    let dot = |column: i32, row: i32| {
        let x = (f64::from(column) + if row % 2 == 0 { 0.0 } else { 0.5 }) * step;
        let at = (x, f64::from(-row) * step);
        [Segment::Move(at), Segment::Line(at)]
    };
    (-rows..=rows).flat_map(|row| (-columns..=columns).flat_map(move |column| dot(column, row))).collect()
}

/// Zigzag lines.
fn waves(step: f64, w: f64, h: f64) -> Path {
    let (columns, rows) = ((w / 2.0 / step).ceil() as i32, (h / 2.0 / step).ceil() as i32);
    let point = |column: i32, row: i32| {
        let rise = if column % 2 == 0 { 0.25 * step } else { -0.25 * step };
        let at = (f64::from(column) * step, f64::from(-row) * step - rise);
        if column == -columns { Segment::Move(at) } else { Segment::Line(at) }
    };
    (-rows..=rows).flat_map(|row| (-columns..=columns).map(move |column| point(column, row))).collect()
}
