//! What stitched work is: moves, pick-ups, places to anchor, and where every bead lies.

use crate::design::{LetterId, Side};
use crate::units::{Mm, Point};
use serde::Serialize;

/// One bead of the earring.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize)]
pub enum Spot {
    /// In the body: row in working order from 0, stack from the left from 0, level from the top of the stack from 0.
    Body { row: usize, stack: usize, level: usize },
    /// In the loop, in the order strung.
    Loop { bead: usize },
    /// In a strand: strand from the left from 0, bead from the body down from 0.
    Strand { strand: usize, bead: usize },
}

/// A stack of the body: row in working order from 0, stack from the left from 0.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize)]
pub struct StackAt {
    /// Row, in working order, from 0.
    pub row: usize,
    /// Stack, from the left, from 0.
    pub stack: usize,
}

/// Which way a thread runs through a stack: up is from the foundation towards the ear.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize)]
pub enum Way {
    /// Towards the ear.
    Up,
    /// Towards the fringe.
    Down,
}

impl Way {
    /// The other way.
    #[must_use]
    pub fn back(self) -> Way {
        match self {
            Way::Up => Way::Down,
            Way::Down => Way::Up,
        }
    }
}

/// Which thread.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize)]
pub enum ThreadUse {
    /// Works the body and the hanging.
    Body,
    /// Works the fringe.
    Fringe,
}

/// What is being worked when a move is made.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize)]
pub enum Phase {
    /// Row, in working order, from 0.
    Row(usize),
    /// The thread guard or the loop.
    Hanging,
    /// Beginning a thread: index into [`Work::anchors`].
    Beginning(usize),
    /// Ending a thread: index into [`Work::anchors`].
    Ending(usize),
    /// From the anchor to the foot of the first strand, and other travel without beads.
    Travel,
    /// Strand, from the left, from 0.
    Strand(usize),
    /// Getting rid of the starting tail.
    Tail,
}

/// One move of the thread.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Move {
    /// What the hand does.
    pub kind: MoveKind,
    /// What is being worked.
    pub phase: Phase,
    /// The points the thread runs through, in millimetres of the earring (see [`Geometry`]);
    /// the first is where the move before ended.
    pub points: Vec<Point>,
}

impl Move {
    /// Thread laid by the move, straight from point to point.
    #[must_use]
    pub fn length(&self) -> Mm {
        self.points.windows(2).map(|p| p[0].distance(p[1])).sum()
    }
}

/// What the hand does in one move.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub enum MoveKind {
    /// Leave a tail of this length.
    LeaveTail { length: Mm },
    /// Pick up beads, in the order strung; the thread passes through each once, in this order.
    String { beads: Vec<Spot> },
    /// Pass through a stack already strung.
    Pass { stack: StackAt, way: Way },
    /// Go under a thread bridge of `row`: bridge `b` joins stacks `b` and `b + 1` from the left, from 0.
    UnderBridge { row: usize, bridge: usize },
    /// Go through the channel of the thread guard, towards this side.
    ThroughGuard { towards: Side },
    /// Pass through all beads of the loop again, towards this side.
    ThroughLoop { towards: Side },
    /// Skip the turning bead (or picot) and go back up through the other beads of the strand.
    ReturnUp { strand: usize },
    /// Wrap once round two neighbouring stacks of one row: index into [`Work::anchors`].
    Wrap { anchor: usize },
    /// Cut off a tail of this length (allowed for, then thrown away).
    CutTail { length: Mm },
}

/// The path of one thread, whole, before it is split into lengths.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ThreadPath {
    /// Which thread.
    pub thread: ThreadUse,
    /// Its moves, unbroken: each begins where the one before ended.
    pub moves: Vec<Move>,
}

/// A pair of neighbouring stacks to anchor in.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Anchor {
    /// Which thread is anchored.
    pub thread: ThreadUse,
    /// Whether the thread begins or ends here.
    pub begins: bool,
    /// Row, in working order, from 0.
    pub row: usize,
    /// The left one of the two stacks, from the left, from 0.
    pub stack: usize,
    /// Mean CIEDE2000 difference between the thread and the beads of both stacks.
    pub difference: f64,
}

/// Equal stacks strung one after another.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct StackRun {
    /// How many stacks.
    pub count: usize,
    /// One stack's beads, in the order strung.
    pub beads: Vec<LetterId>,
}

/// One row as it is picked up.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct RowWork {
    /// Row, in working order, from 0.
    pub row: usize,
    /// The side the row starts from.
    pub from: Side,
    /// First pick-up, in the order strung (two stacks; one in a row of one stack).
    pub starts_with: Vec<LetterId>,
    /// The other stacks, in the order worked.
    pub then: Vec<StackRun>,
    /// Every bead of the row in the order strung.
    pub pick_ups: Vec<Spot>,
}

/// Equal beads one after another.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct BeadRun {
    /// How many beads.
    pub count: usize,
    /// Their letter.
    pub letter: LetterId,
}

/// One strand as it is picked up.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct StrandWork {
    /// Strand from the left, from 0.
    pub strand: usize,
    /// Number in working order, from 1.
    pub order: usize,
    /// Runs from the body down, without the turn.
    pub runs: Vec<BeadRun>,
    /// The turning bead or picot, in the order strung.
    pub turn: Vec<BeadRun>,
    /// Beads in all.
    pub beads: usize,
    /// Length from the foundation's lower edge to the strand's end.
    pub length: Mm,
}

/// Where a bead lies, seen from the front.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Lying {
    /// Which bead.
    pub spot: Spot,
    /// Its letter.
    pub letter: LetterId,
    /// Its centre.
    pub centre: Point,
    /// How far its hole is turned from upright, in degrees clockwise (beads of a loop).
    pub turned: f64,
}

/// Where everything lies: millimetres, x to the right, y downwards, the origin at the top left of the body.
/// A loop or guard lies above (negative y).
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Geometry {
    /// Every bead of one earring: body by row, then loop, then strands.
    pub beads: Vec<Lying>,
    /// Width of the body.
    pub body_width: Mm,
    /// Height of the body.
    pub body_height: Mm,
    /// Longest strand.
    pub longest_strand: Mm,
    /// Outer edges of everything beaded: left, top, right, bottom.
    pub bounds: (Point, Point),
    /// Width of one stack of the body.
    pub stack_width: Mm,
    /// Height of one stack of the body.
    pub stack_height: Mm,
}

/// One length of thread to cut.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Cut {
    /// Which thread.
    pub thread: ThreadUse,
    /// Number among the lengths of this thread, from 1.
    pub number: usize,
    /// What the first move made with it works on.
    pub joins_at: Phase,
    /// Thread along the path.
    pub path: Mm,
    /// Tails at both ends.
    pub tails: Mm,
    /// Anchors.
    pub anchors: Mm,
    /// For tension and handling.
    pub handling: Mm,
    /// What to cut: the sum, rounded up to [`practice::CUT_STEP`](super::practice::CUT_STEP).
    pub cut: Mm,
}

/// A whole earring, stitched.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Work {
    /// The side row 1 starts from.
    pub start: Side,
    /// Beads in a stack of the body.
    pub drop: usize,
    /// The beads of the loop, in the order strung; none with a guard.
    pub loop_beads: Vec<LetterId>,
    /// The path of the body thread, with the hanging.
    pub body: ThreadPath,
    /// The path of the body thread's starting tail when it is worked away, after the body: from
    /// where the path of the body begins to where the tail is cut. Its phase is [`Phase::Tail`].
    pub tail: ThreadPath,
    /// The path of the fringe thread.
    pub fringe: ThreadPath,
    /// Rows in working order.
    pub rows: Vec<RowWork>,
    /// The side the fringe starts from.
    pub fringe_from: Side,
    /// Strands from left to right.
    pub strands: Vec<StrandWork>,
    /// Places to anchor, in working order.
    pub anchors: Vec<Anchor>,
    /// The lengths of thread to cut for one earring, in working order.
    pub cuts: Vec<Cut>,
    /// Where everything lies.
    pub geometry: Geometry,
}
