//! Patterns that tell beads of like greys apart. They keep clear of the middle, where the letter is.

use super::trace::{ellipse, outline};
use crate::drawn::Shape;
use crate::paint::operators::Script;

/// The share of a bead's width and length that is kept clear for its letter.
const CLEAR: (f64, f64) = (0.56, 0.66);

/// Adds a pattern to a script, in the stroke colour of the page. `number` is from 0.
pub(super) fn pattern(script: &mut Script, number: u8, shape: Shape, w: f64, h: f64) {
    script.word("q");
    outline(script, shape, w, h);
    ellipse(script, (w * CLEAR.0, h * CLEAR.1));
    script.word("W* n");
    let small = w.min(h);
    script.op("w", &[(0.05 * small).clamp(0.2, 0.7)]);
    let step = 0.2 * small;
    match number {
        0 => lines(script, (1.0, 1.0), step, w, h),
        1 => dots(script, step, w, h),
        2 => lines(script, (1.0, 0.0), step, w, h),
        3 => lines(script, (0.0, 1.0), step, w, h),
        4 => lines(script, (1.0, -1.0), step, w, h),
        5 => {
            lines(script, (1.0, 1.0), 1.5 * step, w, h);
            lines(script, (1.0, -1.0), 1.5 * step, w, h);
        }
        6 => {
            lines(script, (1.0, 0.0), 1.4 * step, w, h);
            lines(script, (0.0, 1.0), 1.4 * step, w, h);
        }
        _ => waves(script, 1.2 * step, w, h),
    }
    script.word("Q");
}

/// Parallel lines along a direction, `step` apart, over the whole bead.
fn lines(script: &mut Script, direction: (f64, f64), step: f64, w: f64, h: f64) {
    let length = direction.0.hypot(direction.1);
    let (dx, dy) = (direction.0 / length, direction.1 / length);
    let reach = w.hypot(h) / 2.0;
    let count = (reach / step).ceil() as i32;
    for i in -count..count {
        let aside = (f64::from(i) + 0.5) * step;
        let (mx, my) = (-dy * aside, dx * aside);
        script.op("m", &[mx - dx * reach, my - dy * reach]);
        script.op("l", &[mx + dx * reach, my + dy * reach]);
    }
    script.word("S");
}

/// Dots in staggered rows: strokes of no length with round ends.
fn dots(script: &mut Script, step: f64, w: f64, h: f64) {
    script.op("w", &[0.42 * step]).word("1 J");
    let (columns, rows) = ((w / 2.0 / step).ceil() as i32, (h / 2.0 / step).ceil() as i32);
    for row in -rows..=rows {
        for column in -columns..=columns {
            let x = (f64::from(column) + if row % 2 == 0 { 0.0 } else { 0.5 }) * step;
            let y = f64::from(row) * step;
            script.op("m", &[x, y]);
            script.op("l", &[x, y]);
        }
    }
    script.word("S");
}

/// Zigzag lines.
fn waves(script: &mut Script, step: f64, w: f64, h: f64) {
    let (columns, rows) = ((w / 2.0 / step).ceil() as i32, (h / 2.0 / step).ceil() as i32);
    for row in -rows..=rows {
        let y = f64::from(row) * step;
        for column in -columns..=columns {
            let rise = if column % 2 == 0 { 0.25 * step } else { -0.25 * step };
            script.op(if column == -columns { "m" } else { "l" }, &[f64::from(column) * step, y + rise]);
        }
    }
    script.word("S");
}
