//! Drawings whose size means something: the true-size silhouette with its calibration bar, and a ruler.

use super::earring::{beaded, lying_bead};
use super::sketch::{Extent, Sketch, bead_extent, pen};
use crate::colour::Colour;
use crate::design::Design;
use crate::drawn::{Align, BeadLook, Drawing, Face, LabelMark, Mark, Segment, Stroke, rectangle};
use crate::stitch::Work;
use crate::units::{MM_PER_INCH, Mm, Point, Pt, Size};

/// Length of the calibration bar's metric edge.
const BAR: Mm = Mm(100.0);
/// Length of its other edge: 4 in.
const BAR_INCHES: u32 = 4;
/// Ink of bars and rulers.
const INK: Colour = Colour::new(0x22, 0x22, 0x26);
/// How the numbers of bars and rulers are set.
#[derive(Clone, Copy)]
struct Numbering {
    size: Pt,
    /// How far the middle of the numbers stands from the middle line.
    off: f64,
    /// Height of ruler and bar: two edges with their numbers.
    height: f64,
    /// Millimetres from number to number of a ruler.
    every: u32,
    /// Where the middle of the unit stands, or, left of a ruler, its end.
    unit: f64,
}

/// Usual print, and large print, whose numbers would not fit between all the ticks.
const USUAL: Numbering = Numbering { size: Pt(7.0), off: 5.2, height: 15.0, every: 10, unit: 5.2 };
const LARGE: Numbering = Numbering { size: Pt(16.0), off: 6.2, height: 20.0, every: 20, unit: 11.0 };

/// A ruler's unit in large print: between its numbers there is no room.
const LEFT_OF_RULER: f64 = -1.4;

fn numbering(large_print: bool) -> Numbering {
    if large_print { LARGE } else { USUAL }
}

/// Width of a tick.
const TICK: f64 = 0.18;
/// Space round them.
const MARGIN: Mm = Mm(1.0);
/// Space between silhouette and bar.
const APART: f64 = 6.0;
/// Half the height that the line under a silhouette that is cut off takes, and about the length of its waves.
const WAVE: f64 = 1.6;
const WAVE_LENGTH: f64 = 9.0;

/// The silhouette of one earring at its true size below a bar of 100 mm and 4 in: who prints the page sees
/// with any ruler whether it came out at its size. Without ear wire. The bar comes first, so that it stays whole
/// where an earring is longer than a page. Of one that is higher than `room`, what reaches below it is left out, under
/// a wavy line.
#[must_use]
pub fn silhouette(design: &Design, work: &Work, large_print: bool, room: Mm) -> Drawing {
    let mut sketch = Sketch::default();
    let how = numbering(large_print);
    let extent = beaded(design, work);
    let (left, top) = extent.map_or((0.0, 0.0), |extent| {
        (f64::midpoint(extent.left, extent.right) - BAR.0 / 2.0, extent.top - APART - how.height)
    });
    bar(&mut sketch, left, top, how);
    let beads = work.fabric.beads.iter().map(|lying| lying_bead(design, lying, BeadLook::Silhouette));
    match extent.filter(|extent| left_out(*extent, room) > Mm::ZERO) {
        None => beads.for_each(|bead| sketch.bead(bead)),
        Some(extent) => {
            let end = extent.top + room.0 - WAVE * 2.0;
            beads.filter(|bead| bead_extent(bead).bottom <= end).for_each(|bead| sketch.bead(bead));
            sketch.line(wave(extent.left, extent.right, end + WAVE), pen(INK, TICK * 2.0));
        }
    }
    sketch.finish(MARGIN, true)
}

/// How much of an earring's length a silhouette in a room of this height leaves out; nothing where it fits.
#[must_use]
pub fn left_out_of_silhouette(design: &Design, work: &Work, room: Mm) -> Mm {
    beaded(design, work).map_or(Mm::ZERO, |extent| left_out(extent, room))
}

fn left_out(extent: Extent, room: Mm) -> Mm {
    let high = Mm(extent.bottom - extent.top);
    if high <= room { Mm::ZERO } else { high - room + Mm(WAVE * 2.0) }
}

/// A wavy line at a height, from one side to the other.
fn wave(left: f64, right: f64, y: f64) -> Vec<Segment> {
    let count = ((right - left) / WAVE_LENGTH).ceil().max(1.0);
    let step = (right - left) / count;
    let mut segments = vec![Segment::Move(Point::new(left, y))];
    let mut x = left;
    for _ in 0..count as usize {
        let at = |share: f64, up: f64| Point::new(x + step * share, y + up * WAVE);
        segments.push(Segment::Curve(at(0.33, -1.0), at(0.67, 1.0), at(1.0, 0.0)));
        x += step;
    }
    segments
}

/// A ruler of this length in millimetres, rounded up to a whole centimetre, with inches along its lower edge.
#[must_use]
pub fn ruler(length: Mm, large_print: bool) -> Drawing {
    let mut sketch = Sketch::default();
    let usual = numbering(large_print);
    let how = if large_print { Numbering { unit: LEFT_OF_RULER, ..usual } } else { usual };
    let tens = (length.0 / 10.0).ceil().clamp(1.0, 100.0);
    edge_of_millimetres(&mut sketch, 0.0, how.height / 2.0, tens * 10.0, (true, how));
    edge_of_inches(&mut sketch, 0.0, how.height / 2.0, tens * 10.0, how);
    sketch.line(
        rectangle(Point::new(0.0, 0.0), Size { width: Mm(tens * 10.0), height: Mm(how.height) }),
        pen(INK, TICK),
    );
    sketch.finish(MARGIN, true)
}

fn bar(sketch: &mut Sketch, left: f64, top: f64, how: Numbering) {
    let middle = top + how.height / 2.0;
    let inches = f64::from(BAR_INCHES) * MM_PER_INCH;
    edge_of_millimetres(sketch, left, middle, BAR.0, (false, how));
    edge_of_inches(sketch, left, middle, inches, how);
    // A bar of two lines: each exactly as long as it says.
    sketch.line(across(left, middle - 0.5, BAR.0), bar_pen());
    sketch.line(across(left, middle + 0.5, inches), bar_pen());
}

fn bar_pen() -> Stroke {
    Stroke { colour: INK, width: Mm(0.5), dash: Vec::new(), round: false }
}

fn across(left: f64, y: f64, length: f64) -> Vec<Segment> {
    vec![Segment::Move(Point::new(left, y)), Segment::Line(Point::new(left + length, y))]
}

fn tick(sketch: &mut Sketch, x: f64, from: f64, to: f64) {
    let mut stroke = pen(INK, TICK);
    stroke.round = false;
    sketch.line(vec![Segment::Move(Point::new(x, from)), Segment::Line(Point::new(x, to))], stroke);
}

fn number(sketch: &mut Sketch, (x, y): (f64, f64), text: String, align: Align, how: Numbering) {
    sketch.marks.push(Mark::Label(LabelMark {
        at: Point::new(x, y),
        text,
        size: how.size,
        colour: INK,
        align,
        middle: true,
        face: Face::Regular,
        halo: None,
    }));
}

/// Ticks upwards from `y`: every 10 mm, and every 5 and 1 mm where `fine`.
fn edge_of_millimetres(sketch: &mut Sketch, left: f64, y: f64, length: f64, (fine, how): (bool, Numbering)) {
    let step = if fine { 1 } else { 10 };
    let count = (length / f64::from(step)).round() as u32;
    for index in 0..=count {
        let mm = index * step;
        let tall = match (mm % 10, mm % 5) {
            (0, _) => 3.2,
            (_, 0) => 2.2,
            _ => 1.3,
        };
        let x = left + f64::from(mm);
        tick(sketch, x, y, y - tall);
        let first = mm == 0;
        let last = index == count;
        let numbered =
            if fine { mm.is_multiple_of(how.every) } else { first || last || mm.is_multiple_of(50) };
        if numbered {
            let inside = if fine { ends(first, last) } else { Align::Middle };
            number(sketch, (x + nudge(inside), y - how.off), mm.to_string(), inside, how);
        }
    }
    unit(sketch, left, y - how.off, "mm", how);
}

/// The unit, between the first two numbers or left of them.
fn unit(sketch: &mut Sketch, left: f64, y: f64, text: &str, how: Numbering) {
    let align = if how.unit < 0.0 { Align::End } else { Align::Middle };
    number(sketch, (left + how.unit, y), text.to_owned(), align, how);
}

/// Ticks downwards from `y`: every inch, half and quarter that fits.
fn edge_of_inches(sketch: &mut Sketch, left: f64, y: f64, length: f64, how: Numbering) {
    let quarters = (length / MM_PER_INCH * 4.0 + 1e-9).floor() as u32;
    let whole = quarters / 4;
    for quarter in 0..=quarters {
        let tall = match quarter % 4 {
            0 => 3.2,
            2 => 2.2,
            _ => 1.5,
        };
        let x = left + f64::from(quarter) * MM_PER_INCH / 4.0;
        tick(sketch, x, y, y + tall);
        if quarter.is_multiple_of(4) {
            let inch = quarter / 4;
            let last = inch == whole && inch > 0;
            let near_end = left + length - x < 6.0;
            let align = ends(quarter == 0, last && near_end);
            number(sketch, (x + nudge(align), y + how.off), inch.to_string(), align, how);
        }
    }
    unit(sketch, left, y + how.off, "in", how);
}

fn ends(first: bool, last: bool) -> Align {
    match (first, last) {
        (true, _) => Align::Start,
        (_, true) => Align::End,
        _ => Align::Middle,
    }
}

/// Numbers at the ends stand off the frame a little.
fn nudge(align: Align) -> f64 {
    match align {
        Align::Start => 0.7,
        Align::End => -0.7,
        Align::Middle => 0.0,
    }
}
