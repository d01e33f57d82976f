//! Lines to write on.

use super::sketch::{Sketch, pen};
use crate::colour::Colour;
use crate::design::Paper;
use crate::drawn::{Drawing, Segment};
use crate::units::{Mm, Point};

/// How far apart the lines are, and how wide and grey: ruled paper has 7 to 9 mm (common practice, no source).
const APART: f64 = 8.5;
const LINE: (f64, Colour) = (0.15, Colour::new(0x82, 0x86, 0x8c));
/// How many lines fewer there are in large print.
const LESS_IN_LARGE_PRINT: i32 = 7;
/// Width of the lines.
const WIDTH: f64 = 160.0;

/// Lines that fill what a page has left below a title and a line of text.
#[must_use]
pub fn lines_to_write_on(paper: Paper, large_print: bool) -> Drawing {
    let count = match paper {
        Paper::A4 => 24,
        Paper::Letter => 22,
        Paper::A5 | Paper::HalfLetter => 15,
    };
    // Title and words above them take more room in large print, and the lines stand no further apart.
    let count = if large_print { count - LESS_IN_LARGE_PRINT } else { count };
    let width = if paper == paper.half() { WIDTH * 0.72 } else { WIDTH };
    let mut sketch = Sketch::default();
    for line in 0..count {
        let y = f64::from(line) * APART;
        let ends = [Point::new(0.0, y), Point::new(width, y)];
        sketch.line(vec![Segment::Move(ends[0]), Segment::Line(ends[1])], pen(LINE.1, LINE.0));
    }
    sketch.finish(Mm(APART / 2.0), false)
}
