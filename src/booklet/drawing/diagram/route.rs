//! From moves to legs: one leg for each hole, bridge or finding that the thread goes through, in order.

use crate::design::Side;
use crate::stitch::{Move, MoveKind, Spot, StackAt, Way};

/// One stretch of thread through one thing.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Leg {
    /// Index of its move in the thread's path.
    pub(super) at: usize,
    /// Number of its move in the diagram; `None` for the stretch before, shown for orientation.
    pub(super) number: Option<usize>,
    /// What it goes through.
    pub(super) through: Through,
}

/// What a leg goes through.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Through {
    /// Nothing: the loose end where the thread begins.
    Beginning,
    /// A stack.
    Stack { at: StackAt, way: Way },
    /// Under a bridge of the row below.
    Bridge { row: usize, bridge: usize },
    /// The thread guard.
    Guard { towards: Side },
    /// All beads of the loop.
    Loop { towards: Side },
    /// A whole strand downwards, turning bead or picot included.
    Down { strand: usize },
    /// A strand upwards, without its turning bead or picot.
    Up { strand: usize },
    /// Once round two neighbouring stacks, by the index of the anchor.
    Wrap { anchor: usize },
    /// Nothing: the thread is cut off.
    End,
}

/// The hole that several legs may share.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Hole {
    Stack(StackAt),
    Guard,
    Loop,
    Strand(usize),
}

impl Through {
    /// The row of a stack or bridge.
    pub(super) fn row(self) -> Option<usize> {
        match self {
            Through::Stack { at, .. } => Some(at.row),
            Through::Bridge { row, .. } => Some(row),
            Through::Beginning
            | Through::Guard { .. }
            | Through::Loop { .. }
            | Through::Down { .. }
            | Through::Up { .. }
            | Through::Wrap { .. }
            | Through::End => None,
        }
    }

    pub(super) fn hole(self) -> Option<Hole> {
        match self {
            Through::Stack { at, .. } => Some(Hole::Stack(at)),
            Through::Guard { .. } => Some(Hole::Guard),
            Through::Loop { .. } => Some(Hole::Loop),
            Through::Down { strand } | Through::Up { strand } => Some(Hole::Strand(strand)),
            Through::Beginning | Through::Bridge { .. } | Through::Wrap { .. } | Through::End => None,
        }
    }
}

/// The legs of one move.
///
/// `loop_first` is the side on which the loop's first bead lies; `after` are the moves that follow,
/// which tell the way through a stack of one bead.
pub(super) fn legs_of(one: &Move, after: &[Move], loop_first: Side) -> Vec<Through> {
    match &one.kind {
        MoveKind::LeaveTail { .. } => vec![Through::Beginning],
        MoveKind::String { beads } => strung(beads, after, loop_first),
        MoveKind::Pass { stack, way } => vec![Through::Stack { at: *stack, way: *way }],
        MoveKind::UnderBridge { row, bridge } => {
            vec![Through::Bridge { row: *row, bridge: *bridge }]
        }
        MoveKind::ThroughGuard { towards } => vec![Through::Guard { towards: *towards }],
        MoveKind::ThroughLoop { towards } => vec![Through::Loop { towards: *towards }],
        MoveKind::ReturnUp { strand } => vec![Through::Up { strand: *strand }],
        MoveKind::Wrap { anchor } => vec![Through::Wrap { anchor: *anchor }],
        MoveKind::CutTail { .. } => vec![Through::End],
    }
}

/// The holes of beads strung together: stacks, the loop or a strand.
fn strung(beads: &[Spot], after: &[Move], loop_first: Side) -> Vec<Through> {
    let mut stacks: Vec<(StackAt, Vec<usize>)> = Vec::new();
    let mut others = Vec::new();
    for spot in beads {
        match *spot {
            Spot::Body { row, stack, level } => {
                let at = StackAt { row, stack };
                match stacks.last_mut().filter(|(last, _)| *last == at) {
                    Some((_, levels)) => levels.push(level),
                    None => stacks.push((at, vec![level])),
                }
            }
            Spot::Loop { .. } => others.push(Through::Loop { towards: loop_first.other() }),
            Spot::Strand { strand, .. } => others.push(Through::Down { strand }),
        }
    }
    others.dedup();
    let mut next = after.first().map(|m| &m.kind);
    let mut found = Vec::new();
    for (at, levels) in stacks.iter().rev() {
        let way = match levels.as_slice() {
            [first, second, ..] if first < second => Way::Down,
            [_, _, ..] => Way::Up,
            _ => way_before(*at, next, found.last()),
        };
        found.push(Through::Stack { at: *at, way });
        next = None;
    }
    found.reverse();
    found.extend(others);
    found
}

/// The way through a stack of one bead, from what follows: neighbours in a row are run through in
/// turns up and down, and only a thread that comes down goes under a bridge of the row below.
fn way_before(at: StackAt, next: Option<&MoveKind>, later: Option<&Through>) -> Way {
    let turned = |way| match way {
        Way::Up => Way::Down,
        Way::Down => Way::Up,
    };
    match (later, next) {
        (Some(Through::Stack { way, .. }), _) => turned(*way),
        (_, Some(MoveKind::Pass { stack, way })) if stack.row == at.row => turned(*way),
        (_, Some(MoveKind::Pass { way, .. })) => *way,
        (_, Some(MoveKind::UnderBridge { .. })) => Way::Down,
        _ => Way::Up,
    }
}
