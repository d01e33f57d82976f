//! The earring as it stands when so much of both threads' ways is done.

use super::diagram::accent;
use super::earring::{guards, lying_bead};
use super::sketch::{Sketch, pen};
use crate::colour::Colour;
use crate::design::Design;
use crate::drawn::{BeadLook, Drawing, Segment};
use crate::stitch::{Move, MoveKind, ThreadUse, Work};
use crate::units::{Mm, Point, Size};
use std::collections::BTreeSet;

/// Most that it takes of a page, without its margin: small beside the diagrams, and large enough to be compared with the
/// work in the hand.
const LARGEST: Size = Size { width: Mm(34.0), height: Mm(46.0) };
/// How much of that in large print, which makes figures about twice as large: nothing in it is to be read.
const IN_LARGE_PRINT: f64 = 0.55;
/// Space round it.
const MARGIN: Mm = Mm(0.8);
/// Thread that is seen where it leaves the work, in millimetres of the earring, and its width.
const LOOSE: f64 = 5.0;
const THREAD: f64 = 0.4;

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
    let last = match done.thread {
        ThreadUse::Body => body.get(done.body.wrapping_sub(1)),
        ThreadUse::Fringe => fringe.get(done.fringe.wrapping_sub(1)),
    };
    if let Some(line) = last.and_then(leaving) {
        sketch.line(line.clone(), pen(Colour::WHITE, THREAD * 3.4));
        sketch.line(line, pen(accent(design), THREAD));
    }
    let beads = strung.len();
    let Some(extent) = sketch.extent() else { return (Drawing::default(), beads) };
    let (width, height) = (extent.right - extent.left, extent.bottom - extent.top);
    let scale = (LARGEST.width.0 / width).min(LARGEST.height.0 / height);
    let scale = if large_print { scale * IN_LARGE_PRINT } else { scale };
    (sketch.finish(MARGIN, false).scaled(scale), beads)
}

/// A short piece of thread on from where a move ends, the way it points.
fn leaving(made: &Move) -> Option<Vec<Segment>> {
    let end = *made.points.last()?;
    let from = made.points.iter().rev().find(|point| point.distance(end).0 > 0.1)?;
    let far = LOOSE / from.distance(end).0;
    let on = Point::new(end.x.0 + (end.x.0 - from.x.0) * far, end.y.0 + (end.y.0 - from.y.0) * far);
    Some(vec![Segment::Move(end), Segment::Line(on)])
}
