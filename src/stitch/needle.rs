//! The needle: where the thread stands, and the moves it has made.

use super::ground::Ground;
use super::{Move, MoveKind, Phase, Spot, StackAt, Way};
use crate::units::{Mm, Point};

/// Points nearer to each other than this are one point.
const SAME: Mm = Mm(1e-9);

/// A needle on its way: makes one unbroken path.
pub(super) struct Needle<'a> {
    /// What it moves on.
    pub ground: &'a Ground,
    /// What is being worked.
    pub phase: Phase,
    at: Point,
    moves: Vec<Move>,
}

impl<'a> Needle<'a> {
    /// A needle that stands at a point.
    pub fn at(ground: &'a Ground, at: Point, phase: Phase) -> Needle<'a> {
        Needle { ground, phase, at, moves: Vec::new() }
    }

    /// The moves made.
    pub fn into_moves(self) -> Vec<Move> {
        self.moves
    }

    /// Leaves a tail where the needle stands.
    pub fn leave_tail(&mut self, length: Mm) {
        self.make(MoveKind::LeaveTail { length }, []);
    }

    /// Cuts the thread where the needle stands.
    pub fn cut_tail(&mut self, length: Mm) {
        self.make(MoveKind::CutTail { length }, []);
    }

    /// Strings the beads of stacks, one stack after the other, each in its direction.
    pub fn string_stacks(&mut self, stacks: &[(StackAt, Way)]) {
        let mut beads = Vec::new();
        let mut through = Vec::new();
        for &(at, way) in stacks {
            let levels = self.ground.levels(at.row);
            let bead = |level| Spot::Body { row: at.row, stack: at.stack, level };
            match way {
                Way::Down => beads.extend((0..levels).map(bead)),
                Way::Up => beads.extend((0..levels).rev().map(bead)),
            }
            through.extend([self.entry(at, way), self.ground.hole_end(at, way)]);
        }
        self.string(beads, through);
    }

    /// Strings beads along points.
    pub fn string(&mut self, beads: Vec<Spot>, through: impl IntoIterator<Item = Point>) {
        self.make(MoveKind::String { beads }, through);
    }

    /// Passes through a stack already strung.
    pub fn pass(&mut self, stack: StackAt, way: Way) {
        let through = [self.entry(stack, way), self.ground.hole_end(stack, way)];
        self.make(MoveKind::Pass { stack, way }, through);
    }

    /// Goes under the bridge on which a stack hangs.
    pub fn under_bridge_of(&mut self, stack: StackAt) {
        if let Some(bridge) = self.ground.bridge_below(stack) {
            let row = stack.row - 1;
            let point = self.ground.bridge_point(row, bridge);
            self.make(MoveKind::UnderBridge { row, bridge }, [point]);
        }
    }

    /// Makes a move through further points.
    pub fn make(&mut self, kind: MoveKind, through: impl IntoIterator<Item = Point>) {
        let mut points = vec![self.at];
        for point in through {
            if point.distance(self.at) > SAME {
                points.push(point);
                self.at = point;
            }
        }
        self.moves.push(Move { kind, phase: self.phase, points });
    }

    /// Where the needle stands.
    pub fn stands(&self) -> Point {
        self.at
    }

    fn entry(&self, stack: StackAt, way: Way) -> Point {
        self.ground.hole_end(stack, way.back())
    }
}
