//! The needle: where the thread stands, and the moves it has made.

use super::ground::Ground;
use super::{Bridge, BridgeId, Manner, Move, MoveKind, Pass, Phase, Spot, StackId, Way};
use crate::units::{Mm, Point};
use std::collections::BTreeMap;

/// Points nearer to each other than this are one point.
const SAME: Mm = Mm(1e-9);

/// The bridges laid so far, by any thread.
#[derive(Default)]
pub(super) struct Bridges {
    laid: Vec<Bridge>,
    known: BTreeMap<Bridge, BridgeId>,
}

impl Bridges {
    /// Lays a bridge; one that lies there already is the same bridge.
    fn lay(&mut self, bridge: Bridge) -> BridgeId {
        *self.known.entry(bridge).or_insert_with(|| {
            self.laid.push(bridge);
            BridgeId(self.laid.len() - 1)
        })
    }

    /// All of them, in the order laid.
    pub fn into_laid(self) -> Vec<Bridge> {
        self.laid
    }
}

/// A needle on its way: makes one unbroken path.
pub(super) struct Needle<'a> {
    /// What it moves on.
    pub ground: &'a Ground,
    /// What is being worked.
    pub phase: Phase,
    /// How.
    pub manner: Manner,
    bridges: &'a mut Bridges,
    at: Point,
    /// The stack that the thread has just come out of.
    out_of: Option<Pass>,
    moves: Vec<Move>,
}

impl<'a> Needle<'a> {
    /// A needle that stands at a point.
    pub fn at(ground: &'a Ground, bridges: &'a mut Bridges, at: Point, work: (Phase, Manner)) -> Needle<'a> {
        let (phase, manner) = work;
        Needle { ground, phase, manner, bridges, at, out_of: None, moves: Vec::new() }
    }

    /// The moves made.
    pub fn into_moves(self) -> Vec<Move> {
        self.moves
    }

    /// Goes on with other work.
    pub fn turn_to(&mut self, phase: Phase, manner: Manner) {
        self.phase = phase;
        self.manner = manner;
    }

    /// Leaves a tail where the needle stands.
    pub fn leave_tail(&mut self, length: Mm) {
        self.make(MoveKind::LeaveTail { length }, Vec::new(), []);
    }

    /// Cuts the thread where the needle stands.
    pub fn cut_tail(&mut self, length: Mm) {
        self.make(MoveKind::CutTail { length }, Vec::new(), []);
    }

    /// Strings the beads of stacks, one stack after the other, each in its direction.
    pub fn string_stacks(&mut self, stacks: &[(StackId, Way)]) {
        let through: Vec<Pass> = stacks.iter().map(|&(stack, way)| Pass { stack, way }).collect();
        let beads = through.iter().flat_map(|pass| self.ground.beads_of(*pass)).collect();
        let points: Vec<Point> =
            through.iter().flat_map(|pass| [self.entry(*pass), self.exit(*pass)]).collect();
        self.go(MoveKind::String { through: through.clone() }, beads, points, &through);
    }

    /// Strings beads that lie in no stack along points.
    pub fn string(&mut self, beads: Vec<Spot>, through: impl IntoIterator<Item = Point>) {
        self.make(MoveKind::String { through: Vec::new() }, beads, through);
    }

    /// Passes through a stack already strung.
    pub fn pass(&mut self, stack: StackId, way: Way) {
        let pass = Pass { stack, way };
        let points = [self.entry(pass), self.exit(pass)];
        self.go(MoveKind::Pass(pass), self.ground.beads_of(pass), points, &[pass]);
    }

    /// Goes under the bridge on which a stack hangs by this end. There is none where nothing has laid one: the
    /// thread then goes straight on.
    pub fn under_bridge_of(&mut self, stack: StackId, end: Way) {
        let Some(stacks) = self.ground.pair_at(stack, end) else { return };
        // The edge of the other row that faces this stack.
        let edge = end.back();
        let Some(&bridge) = self.bridges.known.get(&Bridge { stacks, edge }) else { return };
        let y = self.ground.hole_end(stacks[0], edge).y;
        let point = Point { x: self.ground.edges(stacks[0]).1, y };
        self.make(MoveKind::UnderBridge { bridge }, Vec::new(), [point]);
    }

    /// Makes a move through further points and no stack.
    pub fn make(&mut self, kind: MoveKind, beads: Vec<Spot>, through: impl IntoIterator<Item = Point>) {
        self.go(kind, beads, through, &[]);
    }

    fn go(
        &mut self,
        kind: MoveKind,
        beads: Vec<Spot>,
        through: impl IntoIterator<Item = Point>,
        passes: &[Pass],
    ) {
        let mut points = vec![self.at];
        for point in through {
            if point.distance(self.at) > SAME {
                points.push(point);
                self.at = point;
            }
        }
        let lays = self.lay(passes, &kind);
        self.moves.push(Move { kind, phase: self.phase, manner: self.manner, beads, lays, points });
    }

    /// Lays bridges from the stack that the thread comes out of to the next, and so on.
    fn lay(&mut self, passes: &[Pass], kind: &MoveKind) -> Vec<BridgeId> {
        let mut lays = Vec::new();
        for pass in passes {
            if let Some(from) = self.out_of
                && from.way != pass.way
                && let Some(stacks) = self.ground.neighbours(from.stack, pass.stack)
            {
                lays.push(self.bridges.lay(Bridge { stacks, edge: from.way }));
            }
            self.out_of = Some(*pass);
        }
        // A tail lies loose: the thread stands where it stood.
        if passes.is_empty() && !matches!(kind, MoveKind::LeaveTail { .. } | MoveKind::CutTail { .. }) {
            self.out_of = None;
        }
        lays
    }

    /// Where the needle stands.
    pub fn stands(&self) -> Point {
        self.at
    }

    fn entry(&self, pass: Pass) -> Point {
        self.ground.hole_end(pass.stack, pass.way.back())
    }

    fn exit(&self, pass: Pass) -> Point {
        self.ground.hole_end(pass.stack, pass.way)
    }
}
