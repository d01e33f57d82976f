//! The needle: where the thread stands, and the moves it has made.

use super::anchor::Worked;
use super::ground::Ground;
use super::room::Room;
use super::strung::Strung;
use super::travel::Travel;
use super::{
    Bridge, BridgeId, Manner, Move, MoveKind, Pass, Phase, SectionId, Spot, StackId, ThreadUse, Way,
};
use crate::design::Side;
use crate::units::{Mm, Point};
use rustc_hash::FxHashMap;

/// Points nearer to each other than this are one point.
const SAME: Mm = Mm(1e-9);

/// The bridges laid so far, by any thread.
#[derive(Default)]
pub(super) struct Bridges {
    laid: Vec<Bridge>,
    known: FxHashMap<Bridge, BridgeId>,
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
    thread: ThreadUse,
    bridges: &'a mut Bridges,
    /// Which holes take another pass.
    pub room: &'a mut Room,
    at: Point,
    /// The stack that the thread has just come out of.
    out_of: Option<Pass>,
    /// Stacks strung so far.
    strung: Strung,
    /// The side where the work starts.
    first: Side,
    moves: Vec<Move>,
}

impl<'a> Needle<'a> {
    /// A needle that stands at a point.
    pub fn at(
        ground: &'a Ground,
        (bridges, room): (&'a mut Bridges, &'a mut Room),
        thread: ThreadUse,
        at: Point,
        work: (Phase, Manner),
    ) -> Needle<'a> {
        let (phase, manner) = work;
        let first = ground.fabric.sections.first().map_or(Side::Left, |section| section.from);
        // A thread that begins where others have worked finds all of the body there.
        let there = !matches!(phase, Phase::Section(_));
        let strung =
            if there { ground.fabric.named_stacks().map(|(id, _)| id).collect() } else { Strung::default() };
        let (out_of, moves) = (None, Vec::new());
        Needle { ground, phase, manner, thread, bridges, room, at, out_of, strung, first, moves }
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

    /// What is strung so far, and what room its holes have.
    pub fn worked(&self) -> Worked<'_> {
        Worked { strung: &self.strung, room: self.room }
    }

    /// Begins a new length of the thread at a point.
    pub fn begin_anew(&mut self, at: Point) {
        self.at = at;
        self.out_of = None;
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
        through.iter().for_each(|pass| self.strung.insert(pass.stack));
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
        if let Some(&bridge) = self.bridges.known.get(&Bridge { stacks, edge }) {
            self.go_under(bridge);
        }
    }

    fn go_under(&mut self, bridge: BridgeId) {
        let Bridge { stacks: [left, _], edge } = self.bridges.laid[bridge.0];
        let point = Point { x: self.ground.edges(left).1, y: self.ground.hole_end(left, edge).y };
        self.make(MoveKind::UnderBridge { bridge }, Vec::new(), [point]);
    }

    /// The stack that the thread has just come out of; none where it has gone elsewhere since.
    pub fn out_of(&self) -> Option<Pass> {
        self.out_of
    }

    /// Goes the shortest way through what is strung to one of some standings. In a single row each stack can only be
    /// run through one way: there the thread first turns back under the bridge beside it. A thread that stands nowhere
    /// known stays.
    pub fn travel_to(&mut self, wanted: impl Fn(Pass) -> bool) {
        let Some(from) = self.out_of else { return };
        let way = self.way(from, &wanted).or_else(|| {
            let turned = Pass { way: from.way.back(), ..from };
            let way = self.way(turned, &wanted)?;
            self.turn_back(from);
            Some(way)
        });
        for pass in way.unwrap_or_default() {
            self.pass(pass.stack, pass.way);
        }
    }

    /// The same where stacks beside the thread have been added in ladder stitch: it turns round the bridge beside the
    /// end where it has come out, if that is nearer than a way to the other edge and back.
    pub fn travel_round(&mut self, wanted: impl Fn(Pass) -> bool) {
        if let Some(from) = self.out_of {
            let turned = Pass { way: from.way.back(), ..from };
            let passes = |at, turns| self.way(at, &wanted).map_or(usize::MAX, |way| way.len() + turns);
            if self.can_turn_back(from) && passes(turned, 1) < passes(from, 0) {
                self.turn_back(from);
            }
        }
        self.travel_to(wanted);
    }

    /// The same through the stacks of one row alone, where the thread stands in it and the holes on that way have
    /// room: of equally short ways it is the plainest.
    pub fn travel_along(&mut self, row: SectionId, wanted: impl Fn(Pass) -> bool) {
        let fabric = &self.ground.fabric;
        let standing = self.out_of.filter(|at| fabric[at.stack].section == row);
        let travel = Travel { ground: self.ground, first: self.first };
        let free = |stack: StackId| fabric[stack].section == row && self.room.takes(stack, self.thread);
        match standing.and_then(|from| travel.way(from, &wanted, free)) {
            Some(way) => way.into_iter().for_each(|pass| self.pass(pass.stack, pass.way)),
            None => self.travel_to(wanted),
        }
    }

    fn way(&self, from: Pass, wanted: impl Fn(Pass) -> bool) -> Option<Vec<Pass>> {
        let travel = Travel { ground: self.ground, first: self.first };
        let is_there = |stack: StackId| self.strung.contains(stack);
        // Round full holes where there is another way.
        let free = |stack| is_there(stack) && self.room.takes(stack, self.thread);
        travel.way(from, &wanted, free).or_else(|| travel.way(from, &wanted, is_there))
    }

    /// Whether there is a bridge to turn round beside the end where the thread has come out.
    pub fn can_turn_back(&self, from: Pass) -> bool {
        self.bridge_beside(from).is_some()
    }

    /// Under the bridge beside the end where the thread has come out, and back through the same stack.
    pub fn turn_back(&mut self, from: Pass) {
        if let Some(bridge) = self.bridge_beside(from) {
            self.go_under(bridge);
        }
        self.pass(from.stack, from.way.back());
    }

    /// The bridge beside the end where the thread has come out of a stack.
    fn bridge_beside(&self, from: Pass) -> Option<BridgeId> {
        let edge = from.way;
        let beside = self.ground.beside(from.stack);
        let pairs = beside.into_iter().filter_map(|other| self.ground.neighbours(from.stack, other));
        pairs.filter_map(|stacks| self.bridges.known.get(&Bridge { stacks, edge }).copied()).min()
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
        passes.iter().for_each(|pass| self.room.pass(pass.stack, self.thread));
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
