//! Marks of a diagram, in the order in which they lie over each other.

use super::bezier::{arc, direction};
use super::columns::Columns;
use super::joins::{arc_height, bridge_ends};
use super::numbers::{NUMBER, RADIUS, far_from};
use super::stage::{Shown, Stage};
use super::thread::{End, Run, Sight, Thread};
use super::whole::Whole;
use crate::booklet::drawing::findings::open_guard;
use crate::booklet::drawing::sketch::{Extent, Sketch, pen};
use crate::colour::{Colour, ink_on};
use crate::design::Design;
use crate::drawn::{BeadLook, FADED, Face, Segment, Stroke, circle};
use crate::stitch::Way;
use crate::units::{Mm, Point, Pt};

/// Colours that a diagram's thread may have: dark enough on paper (contrast above 4.5), far apart in hue.
const ACCENTS: [Colour; 4] = [
    Colour::new(0xb0, 0x00, 0x3a),
    Colour::new(0x0b, 0x4f, 0xa3),
    Colour::new(0x0f, 0x6b, 0x3a),
    Colour::new(0x6a, 0x1b, 0x9a),
];
/// Thread laid before.
pub(super) const LAID: Colour = Colour::new(0x7c, 0x80, 0x87);
/// Least contrast of letters (WCAG 2.2, 1.4.3).
const LEGIBLE: f64 = 4.6;
/// Width of thread in the open.
pub(super) const OPEN: f64 = 0.62;
/// Width of thread in a hole.
const HIDDEN: f64 = 0.45;
/// White on both sides of thread, so that it can be seen on dark beads and over other thread.
const CASING: f64 = 0.34;
/// Length and half width of an arrowhead.
const HEAD: (f64, f64) = (2.1, 0.95);
/// Length of the needle that is shown.
pub(super) const NEEDLE: f64 = 10.0;
/// Width of the line from a number to thread that is far from it.
const LEADER: f64 = 0.25;
/// How far the middle of a row's number stands from the rest, and its size and colour.
const BESIDE: f64 = 2.6;
pub(super) const ROW_NUMBER: Pt = Pt(8.0);
pub(super) const LAID_TEXT: Colour = Colour::new(0x55, 0x59, 0x60);
/// Letters on beads this wide or wider are of the larger size.
const ROOMY: f64 = 7.0;

/// The accent that is furthest from every bead of the design.
pub(in crate::booklet::drawing) fn accent(design: &Design) -> Colour {
    let nearest = |accent: &Colour| {
        design
            .letters
            .iter()
            .filter_map(|l| design.palette.beads.get(l.bead.0))
            .map(|b| b.colour.delta_e(*accent))
            .fold(f64::INFINITY, f64::min)
    };
    // Of equals the first: a design without beads takes the first as well.
    let mut best = (ACCENTS[0], nearest(&ACCENTS[0]));
    for accent in &ACCENTS[1..] {
        let away = nearest(accent);
        if away > best.1 + 5.0 {
            best = (*accent, away);
        }
    }
    best.0
}

/// Paints everything.
pub(super) fn paint(columns: &Columns, stage: &Stage, thread: &Thread, accent: Colour) -> Sketch {
    let mut sketch = Sketch::default();
    for look in [BeadLook::Faded, BeadLook::Flat] {
        for shown in stage.beads.iter().filter(|b| b.mark.look == look) {
            sketch.bead(shown.mark.clone());
        }
    }
    if let Some((left, right, rise)) = stage.guard {
        open_guard(&mut sketch, left, right, rise, columns.scale * 1.3);
    }
    let bridges = bridges(columns, stage);
    let of = |sight: Sight| thread.runs.iter().filter(move |r| r.sight == sight);
    for run in of(Sight::Behind) {
        open(&mut sketch, run, accent);
    }
    for bridge in &bridges {
        sketch.line(bridge.clone(), cased(Colour::WHITE, OPEN + CASING * 2.0));
        sketch.line(bridge.clone(), cased(LAID, OPEN));
    }
    for run in of(Sight::Hidden) {
        hidden(&mut sketch, run, accent);
    }
    for shown in &stage.beads {
        letter(&mut sketch, shown, columns);
    }
    for run in of(Sight::Open) {
        open(&mut sketch, run, accent);
    }
    for run in thread.runs.iter().filter(|r| r.head) {
        arrowhead(&mut sketch, &run.line, colour_of(run, accent));
    }
    ends(&mut sketch, thread, accent);
    for at in &stage.breaks {
        for dot in [-1.3, 0.0, 1.3] {
            let centre = Point { x: at.x, y: at.y + Mm(dot) };
            sketch.area(circle(centre, Mm(0.36)), Colour::new(0x44, 0x46, 0x4c), None);
        }
    }
    sketch
}

/// Numbers the moves.
pub(super) fn number(sketch: &mut Sketch, thread: &Thread, numbers: &[(usize, Point)], accent: Colour) {
    for (number, at) in numbers {
        // One that had to stand away from its thread is led to it.
        if let Some(to) = far_from(thread, *number, *at) {
            let leader = vec![Segment::Move(*at), Segment::Line(to)];
            sketch.line(leader.clone(), pen(Colour::WHITE, LEADER * 3.0));
            sketch.line(leader, pen(accent, LEADER));
        }
        disc(sketch, *number, *at, accent);
    }
}

/// A number in a dot.
pub(in crate::booklet::drawing) fn disc(sketch: &mut Sketch, number: usize, at: Point, colour: Colour) {
    sketch.area(circle(at, Mm(RADIUS)), colour, Some(pen(Colour::WHITE, 0.25)));
    sketch.centred(at, number.to_string(), NUMBER, Colour::WHITE, Face::Bold, None);
}

/// Numbers the rows left of all else, which fills `extent`.
pub(super) fn number_rows(
    sketch: &mut Sketch,
    whole: &Whole,
    columns: &Columns,
    stage: &Stage,
    extent: Option<Extent>,
) {
    let Some(extent) = extent else { return };
    for (line, (top, bottom)) in &stage.lines {
        let Some((stack, _)) = columns.stacks.iter().find(|(_, column)| column.line == *line) else {
            continue;
        };
        let number = whole.work.fabric.row_number(*stack).to_string();
        let at = Point::new(extent.left - BESIDE, f64::midpoint(*top, *bottom));
        sketch.centred(at, number, ROW_NUMBER, LAID_TEXT, Face::Regular, None);
    }
}

pub(super) fn cased(colour: Colour, width: f64) -> Stroke {
    Stroke { colour, width: Mm(width), dash: Vec::new(), round: false }
}

/// The stretch before the first numbered move is paler.
fn colour_of(run: &Run, accent: Colour) -> Colour {
    if run.number.is_some() { accent } else { LAID }
}

pub(super) fn open(sketch: &mut Sketch, run: &Run, accent: Colour) {
    sketch.line(run.line.clone(), cased(Colour::WHITE, OPEN + CASING * 2.0));
    sketch.line(run.line.clone(), pen(colour_of(run, accent), OPEN));
}

pub(super) fn hidden(sketch: &mut Sketch, run: &Run, accent: Colour) {
    sketch.line(run.line.clone(), cased(Colour::WHITE, HIDDEN + CASING * 1.8));
    let mut stroke = cased(colour_of(run, accent), HIDDEN);
    stroke.dash = vec![Mm(0.95), Mm(0.6)];
    sketch.line(run.line.clone(), stroke);
}

fn letter(sketch: &mut Sketch, shown: &Shown, columns: &Columns) {
    let mark = &shown.mark;
    let room = mark.width.min(mark.length).0;
    let size = if room >= ROOMY * 0.8 && columns.scale > 0.0 { Pt(9.0) } else { Pt(8.0) };
    let colour = match mark.look {
        BeadLook::Faded => faded_ink(mark.colour),
        _ => ink_on(mark.colour),
    };
    let at = Point { x: mark.centre.x, y: mark.centre.y - mark.length * shown.lift };
    sketch.centred(at, shown.symbol.to_string(), size, colour, Face::Letters, None);
}

/// The palest ink that can still be read on a faded bead.
pub(super) fn faded_ink(bead: Colour) -> Colour {
    let ground = bead.mix(Colour::WHITE, FADED);
    (0..=10)
        .rev()
        .map(|step| Colour::BLACK.mix(ground, f64::from(step) / 10.0))
        .find(|ink| ink.contrast(ground) >= LEGIBLE)
        .unwrap_or(Colour::BLACK)
}

/// An arrowhead with its tip at the line's end.
pub(in crate::booklet::drawing) fn arrowhead(sketch: &mut Sketch, line: &[Segment], colour: Colour) {
    let Some((tip, towards)) = direction(line) else { return };
    let back = |side: f64| {
        Point::new(
            tip.x.0 - towards.x.0 * HEAD.0 - towards.y.0 * side * HEAD.1,
            tip.y.0 - towards.y.0 * HEAD.0 + towards.x.0 * side * HEAD.1,
        )
    };
    let notch = Point::new(tip.x.0 - towards.x.0 * HEAD.0 * 0.72, tip.y.0 - towards.y.0 * HEAD.0 * 0.72);
    let shape = vec![
        Segment::Move(tip),
        Segment::Line(back(1.0)),
        Segment::Line(notch),
        Segment::Line(back(-1.0)),
        Segment::Close,
    ];
    sketch.line(shape.clone(), pen(Colour::WHITE, CASING * 2.0));
    sketch.area(shape, colour, None);
}

/// Bridges laid before, as short arcs at the edges of their rows.
pub(super) fn bridges(columns: &Columns, stage: &Stage) -> Vec<Vec<Segment>> {
    columns
        .bridges
        .iter()
        .filter_map(|bridge| {
            let (left, right) = bridge_ends(columns, bridge)?;
            let [one, other] = bridge.stacks.map(|stack| stage.stacks.get(&stack));
            let (one, other) = (one?, other?);
            let upper = bridge.edge == Way::Up;
            let y = |hole: &super::stage::Hole| if upper { hole.top } else { hole.bottom };
            Some(arc(Point::new(left, y(one)), Point::new(right, y(other)), arc_height(1) * 0.75, upper))
        })
        .collect()
}

/// The needle or the cut, and the loose beginning.
pub(super) fn ends(sketch: &mut Sketch, thread: &Thread, accent: Colour) {
    if let Some(loose) = thread.beginning {
        sketch.area(circle(loose, Mm(OPEN * 0.9)), accent, None);
    }
    let Some((tip, towards, end)) = thread.end else { return };
    let at = |far: f64, side: f64| {
        Point::new(
            tip.x.0 + towards.x.0 * far - towards.y.0 * side,
            tip.y.0 + towards.y.0 * far + towards.x.0 * side,
        )
    };
    match end {
        End::Needle => {
            let half = 0.5;
            let shape = vec![
                Segment::Move(at(-0.9, 0.0)),
                Segment::Curve(at(-0.9, half), at(-0.2, half), at(0.6, half)),
                Segment::Curve(at(3.0, half), at(NEEDLE * 0.6, half * 0.7), at(NEEDLE, 0.0)),
                Segment::Curve(at(NEEDLE * 0.6, -half * 0.7), at(3.0, -half), at(0.6, -half)),
                Segment::Curve(at(-0.2, -half), at(-0.9, -half), at(-0.9, 0.0)),
                Segment::Close,
            ];
            sketch.line(shape.clone(), pen(Colour::WHITE, CASING * 2.0));
            let edge = Colour::new(0x50, 0x54, 0x5b);
            sketch.area(shape, Colour::new(0xc9, 0xcc, 0xd2), Some(pen(edge, 0.16)));
            let eye = vec![Segment::Move(at(-0.3, 0.0)), Segment::Line(at(0.9, 0.0))];
            sketch.line(eye, pen(accent, 0.4));
        }
        End::Cut => {
            // Two strokes across the end: cut here.
            for far in [0.0, 0.9] {
                let across = vec![Segment::Move(at(far - 0.5, -1.3)), Segment::Line(at(far + 0.5, 1.3))];
                sketch.line(across, pen(Colour::new(0x33, 0x35, 0x3a), 0.32));
            }
        }
    }
}
