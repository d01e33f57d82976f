//! What stitched work is: moves, pick-ups, places to anchor, and where it all lies.

use super::{BridgeId, Fabric, Manner, SectionId, Spot, StackId};
use crate::design::{LetterId, Side};
use crate::units::{Mm, Point};
use serde::Serialize;

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
    /// A row or a strand.
    Section(SectionId),
    /// A thread guard or a loop: index into [`Work::hangings`].
    Hanging(usize),
    /// Beginning a thread: index into [`Work::anchors`].
    Beginning(usize),
    /// Ending a thread: index into [`Work::anchors`].
    Ending(usize),
    /// From the anchor to the foot of the first strand, and other travel without beads.
    Travel,
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
    /// How.
    pub manner: Manner,
    /// The beads it passes through, in the order passed.
    pub beads: Vec<Spot>,
    /// The bridges that it lays, or lays thread over again.
    pub lays: Vec<BridgeId>,
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

/// A stack that the thread runs through.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Hash)]
pub struct Pass {
    /// The stack.
    pub stack: StackId,
    /// Which way.
    pub way: Way,
}

/// What the hand does in one move.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub enum MoveKind {
    /// Leave a tail of this length.
    LeaveTail { length: Mm },
    /// Pick up the move's beads, in the order strung; the thread passes through each once, in this order. Where
    /// they lie in stacks, `through` tells them.
    String { through: Vec<Pass> },
    /// Pass through a stack already strung.
    Pass(Pass),
    /// Go under a thread bridge that an earlier move has laid.
    UnderBridge { bridge: BridgeId },
    /// Go through the channel of the thread guard, towards this side.
    ThroughGuard { towards: Side },
    /// Pass through all beads of the loop again, towards this side.
    ThroughLoop { towards: Side },
    /// Skip the turning bead (or picot) and go back up through the other beads of the strand.
    ReturnUp { strand: SectionId },
    /// Wrap once round two neighbouring stacks of one row: index into [`Work::anchors`].
    Wrap { anchor: usize },
    /// Cut off a tail of this length (allowed for, then thrown away).
    CutTail { length: Mm },
}

/// The path of one thread in all its lengths: each begins with a [`MoveKind::LeaveTail`] and ends with a
/// [`MoveKind::CutTail`].
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ThreadPath {
    /// Which thread.
    pub thread: ThreadUse,
    /// Its moves: within a length each begins where the one before ended.
    pub moves: Vec<Move>,
}

/// A pair of neighbouring stacks to anchor in.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Anchor {
    /// Which thread is anchored.
    pub thread: ThreadUse,
    /// Whether the thread begins or ends here.
    pub begins: bool,
    /// The row or strand before which lengths join, if this is at a join.
    pub join: Option<SectionId>,
    /// The left stack and the right one; a single stack without a neighbour is both.
    pub stacks: [StackId; 2],
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
    /// Which row.
    pub section: SectionId,
    /// Its number in working order, from 1.
    pub number: usize,
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
    /// Which strand.
    pub section: SectionId,
    /// Its number in working order, from 1.
    pub number: usize,
    /// Runs from the body down, without the turn.
    pub runs: Vec<BeadRun>,
    /// The turning bead or picot, in the order strung.
    pub turn: Vec<BeadRun>,
    /// Beads in all.
    pub beads: usize,
    /// Length from what it hangs on to the strand's end.
    pub length: Mm,
}

/// How large everything is: millimetres, x to the right, y downwards, the origin at the top left of the body.
/// A loop or guard lies above (negative y).
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Geometry {
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

/// A guard or a loop, and what carries the earring there.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Carrier {
    /// The stacks of the top row: that where it begins, and the other one.
    pub stacks: [StackId; 2],
    /// The loop's beads; `None` for a guard.
    pub ring: Option<SectionId>,
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
    /// The path of the body thread, with the hanging.
    pub body: ThreadPath,
    /// The path of the body thread's starting tail when it is worked away, after the body: from
    /// where the path of the body begins to where the tail is cut. Its phase is [`Phase::Tail`].
    pub tail: ThreadPath,
    /// The path of the fringe thread.
    pub fringe: ThreadPath,
    /// Rows in working order.
    pub rows: Vec<RowWork>,
    /// What the earring hangs from, in working order: mostly one guard or loop.
    pub hangings: Vec<Carrier>,
    /// The side the fringe starts from.
    pub fringe_from: Side,
    /// Strands from left to right.
    pub strands: Vec<StrandWork>,
    /// Places to anchor, in working order.
    pub anchors: Vec<Anchor>,
    /// The lengths of thread to cut for one earring, in working order.
    pub cuts: Vec<Cut>,
    /// Every bead, stack, bridge and section.
    pub fabric: Fabric,
    /// How large everything is.
    pub geometry: Geometry,
}
