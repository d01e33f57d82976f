//! The earring as it stands when so much of both threads' ways is done.

use super::diagram::accent;
use super::earring::{guards, lying_bead};
use super::sketch::{Sketch, pen};
use crate::colour::Colour;
use crate::design::Design;
use crate::drawn::{BeadLook, Drawing, Segment};
use crate::stitch::{Lying, Move, MoveKind, SectionKind, StackId, ThreadUse, Work};
use crate::units::{Mm, Point, Size};
use std::collections::BTreeSet;

/// Most that the whole earring would take of a page, without its margin, and its body alone: what is shown of them is small
/// beside the diagrams, and large enough to be compared with the work in the hand.
const LARGEST: Size = Size { width: Mm(44.0), height: Mm(74.0) };
const LARGEST_BODY: Size = Size { width: Mm(44.0), height: Mm(46.0) };
/// How much of that in large print, which makes figures about twice as large: nothing in it is to be read.
const IN_LARGE_PRINT: f64 = 0.75;
/// Space round it.
const MARGIN: Mm = Mm(0.8);
/// Thread that is seen where it leaves the work, in millimetres of the earring, and its width.
const LOOSE: f64 = 5.0;
const THREAD: f64 = 0.4;
/// Width of the thread with the white beside it, against its own.
const CASED: f64 = 2.4;

/// How far the work has come: as many moves of each thread are done.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Done {
    /// Moves of the body's thread.
    pub body: usize,
    /// Moves of the fringe's.
    pub fringe: usize,
    /// Whether guards are in.
    pub hung: bool,
    /// Which thread is in the needle.
    pub thread: ThreadUse,
}

/// What is strung by then, and where the thread leaves it; with how many beads that is.
#[must_use]
pub fn so_far(design: &Design, work: &Work, done: Done, large_print: bool) -> (Drawing, usize) {
    let (body, fringe) = (&work.body.moves, &work.fringe.moves);
    let moves = body.iter().take(done.body).chain(fringe.iter().take(done.fringe));
    let strings = moves.filter(|made| matches!(made.kind, MoveKind::String { .. }));
    let strung: BTreeSet<_> = strings.flat_map(|made| made.beads.iter().copied()).collect();
    let mut sketch = Sketch::default();
    if done.hung {
        guards(&mut sketch, design, work);
    }
    for lying in strung.iter().map(|spot| &work.fabric[*spot]) {
        sketch.bead(lying_bead(design, lying, BeadLook::Flat));
    }
    // The fringe's thread comes out below the rows above: a piece of it would lie across them.
    let last = match done.thread {
        ThreadUse::Body => body.get(done.body.wrapping_sub(1)),
        ThreadUse::Fringe => None,
    };
    let beside =
        |made: &&Move| made.points.last().and_then(|end| hangs_over(work, *end)).filter(|_| done.hung);
    if let Some(line) = last.and_then(|made| leaving(made, beside(&made).unwrap_or(0.0))) {
        sketch.line(line.clone(), pen(Colour::WHITE, THREAD * CASED));
        sketch.line(line, pen(accent(design), THREAD));
    }
    let beads = strung.len();
    let scale = scale(design, work, done.thread);
    let scale = if large_print { scale * IN_LARGE_PRINT } else { scale };
    (sketch.finish(MARGIN, false).scaled(scale), beads)
}

/// The scale of all pictures of the body, and of those of the fringe: that at which all of the body, or of the earring, would
/// be as large as may be.
fn scale(design: &Design, work: &Work, of: ThreadUse) -> f64 {
    let mut whole = Sketch::default();
    guards(&mut whole, design, work);
    let strand = |lying: &&Lying| work.fabric[lying.section].kind == SectionKind::Strand;
    let shown = work.fabric.beads.iter().filter(|lying| of == ThreadUse::Fringe || !strand(lying));
    shown.for_each(|lying| whole.bead(lying_bead(design, lying, BeadLook::Flat)));
    let Some(extent) = whole.extent() else { return 1.0 };
    let (width, height) = (extent.right - extent.left, extent.bottom - extent.top);
    let most = if of == ThreadUse::Fringe { LARGEST } else { LARGEST_BODY };
    (most.width.0 / width).min(most.height.0 / height)
}

/// Where a point lies in a stack of the top row that carries the earring, on which side what it hangs from does not stand:
/// to the left (-1) or right (1). `None` elsewhere.
fn hangs_over(work: &Work, end: Point) -> Option<f64> {
    let half = work.geometry.stack_width.0 / 2.0;
    let x = |stack: StackId| work.fabric[stack].upper.x.0;
    work.hangings.iter().find_map(|carrier| {
        let top =
            carrier.stacks.iter().map(|stack| work.fabric[*stack].upper.y.0).fold(f64::INFINITY, f64::min);
        let near = carrier.stacks.iter().any(|stack| (x(*stack) - end.x.0).abs() < half);
        let middle = f64::midpoint(x(carrier.stacks[0]), x(carrier.stacks[1]));
        (near && end.y.0 < top + half).then_some(if end.x.0 < middle { -1.0 } else { 1.0 })
    })
}

/// A short piece of thread on from where a move ends, the way it points; held a little to the left (-1) or right (1) where
/// something stands in its way.
fn leaving(made: &Move, aside: f64) -> Option<Vec<Segment>> {
    let end = *made.points.last()?;
    let from = made.points.iter().rev().find(|point| point.distance(end).0 > 0.1)?;
    let (x, y) = (end.x.0 - from.x.0 + aside * from.distance(end).0, end.y.0 - from.y.0);
    let far = LOOSE / x.hypot(y);
    let on = Point::new(end.x.0 + x * far, end.y.0 + y * far);
    Some(vec![Segment::Move(end), Segment::Line(on)])
}
