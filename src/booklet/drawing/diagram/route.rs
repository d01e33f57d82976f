//! From moves to legs: one leg for each hole, bridge or finding that the thread goes through, in order.

use crate::design::Side;
use crate::stitch::{Bridge, Fabric, Move, MoveKind, Pass, SectionId, SectionKind, StackId};

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
    Stack(Pass),
    /// Under a bridge.
    Bridge(Bridge),
    /// The thread guard.
    Guard { towards: Side },
    /// All beads of the loop.
    Loop { towards: Side },
    /// A whole strand downwards, turning bead or picot included.
    Down { strand: SectionId },
    /// A strand upwards, without its turning bead or picot.
    Up { strand: SectionId },
    /// Once round two neighbouring stacks, by the index of the anchor.
    Wrap { anchor: usize },
    /// Nothing: the thread is cut off.
    End,
}

/// The hole that several legs may share.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Hole {
    Stack(StackId),
    Guard,
    Loop,
    Strand(SectionId),
}

impl Through {
    /// The line of a stack or bridge.
    pub(super) fn line(self, fabric: &Fabric) -> Option<usize> {
        match self {
            Through::Stack(pass) => Some(fabric[pass.stack].line),
            Through::Bridge(bridge) => Some(fabric[bridge.stacks[0]].line),
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
            Through::Stack(pass) => Some(Hole::Stack(pass.stack)),
            Through::Guard { .. } => Some(Hole::Guard),
            Through::Loop { .. } => Some(Hole::Loop),
            Through::Down { strand } | Through::Up { strand } => Some(Hole::Strand(strand)),
            Through::Beginning | Through::Bridge(_) | Through::Wrap { .. } | Through::End => None,
        }
    }
}

/// The side on which a loop's first bead lies.
pub(super) fn loop_first(fabric: &Fabric, ring: SectionId) -> Side {
    let mut beads = fabric.beads_of(ring);
    let first = beads.next().map_or(0.0, |l| l.centre.x.0);
    let last = beads.next_back().map_or(0.0, |l| l.centre.x.0);
    if first > last { Side::Right } else { Side::Left }
}

/// The legs of one move.
pub(super) fn legs_of(fabric: &Fabric, one: &Move) -> Vec<Through> {
    match &one.kind {
        MoveKind::LeaveTail { .. } => vec![Through::Beginning],
        MoveKind::String { through } if through.is_empty() => {
            let section = one.beads.first().map(|spot| fabric[*spot].section);
            match section.map(|section| (section, fabric[section].kind)) {
                Some((ring, SectionKind::Loop)) => {
                    vec![Through::Loop { towards: loop_first(fabric, ring).other() }]
                }
                Some((strand, SectionKind::Strand)) => vec![Through::Down { strand }],
                Some((_, SectionKind::Row)) | None => Vec::new(),
            }
        }
        MoveKind::String { through } => through.iter().map(|pass| Through::Stack(*pass)).collect(),
        MoveKind::Pass(pass) => vec![Through::Stack(*pass)],
        MoveKind::UnderBridge { bridge } => vec![Through::Bridge(fabric[*bridge])],
        MoveKind::ThroughGuard { towards } => vec![Through::Guard { towards: *towards }],
        MoveKind::ThroughLoop { towards } => vec![Through::Loop { towards: *towards }],
        MoveKind::ReturnUp { strand } => vec![Through::Up { strand: *strand }],
        MoveKind::Wrap { anchor } => vec![Through::Wrap { anchor: *anchor }],
        MoveKind::CutTail { .. } => vec![Through::End],
    }
}
