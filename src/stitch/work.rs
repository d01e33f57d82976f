//! The whole earring: both threads from beginning to end, and what is read off their paths.

use super::anchor::{AnchorWalk, Chooser, Worked};
use super::ground::Ground;
use super::join::{Joins, Seam};
use super::needle::{Bridges, Needle};
use super::needs::Needs;
use super::room::Room;
use super::rows::{stitch_named, work_rows};
use super::{
    Anchor, Bridge, Carrier, Fabric, Manner, Move, Pass, Phase, SectionId, SectionKind, ThreadPath,
    ThreadUse, Way, Work,
};
use super::{fringe, geometry, hang, join, plan, practice, words};

/// Stitches an earring.
pub(super) fn stitch(needs: &Needs) -> Work {
    let ground = Ground::of(needs);
    let mut fabric = ground.fabric.clone();
    let hangings = hang::lay(&mut fabric, &ground, needs, hung_from(&ground));
    fringe::lay(&mut fabric, needs, needs.start);

    let follow = |joins: &Joins| follow(&ground, needs, &fabric, &hangings, joins);
    let followed = join::in_lengths(&needs.allowances, follow);
    let Followed { body, tail, fringe, bridges, anchors } = followed;
    fabric.bridges = bridges;
    Work {
        start: needs.start,
        drop: needs.body.drop,
        rows: words::rows(&body.moves, &fabric),
        fringe_from: needs.start,
        strands: words::strands(&fabric, needs),
        cuts: plan::cuts(&body, &tail, &fringe, &needs.allowances),
        geometry: geometry::measure(&ground, &fabric, needs),
        fabric,
        hangings,
        anchors,
        body,
        tail,
        fringe,
    }
}

/// The side where the last row ends, and the hanging begins.
fn hung_from(ground: &Ground) -> crate::design::Side {
    ground.fabric.sections[ground.top_row()].from.other()
}

/// Both threads from beginning to end.
pub(super) struct Followed {
    /// The body thread.
    pub body: ThreadPath,
    /// Its starting tail.
    pub tail: ThreadPath,
    /// The fringe thread.
    pub fringe: ThreadPath,
    /// Every bridge, in the order laid.
    bridges: Vec<Bridge>,
    /// Places to anchor, in working order.
    anchors: Vec<Anchor>,
}

/// Follows both threads, with new lengths joined where `joins` says.
fn follow(ground: &Ground, needs: &Needs, fabric: &Fabric, hangings: &[Carrier], joins: &Joins) -> Followed {
    let mut threads = Threads {
        ground,
        needs,
        fabric,
        hangings,
        joins,
        bridges: Bridges::default(),
        room: Room::of(ground, needs),
        anchors: Vec::new(),
    };
    let (body, tail) = threads.body();
    let fringe = threads.fringe();
    let Threads { bridges, anchors, .. } = threads;
    Followed { body, tail, fringe, bridges: bridges.into_laid(), anchors }
}

/// The threads while they are followed.
struct Threads<'a> {
    ground: &'a Ground,
    needs: &'a Needs<'a>,
    fabric: &'a Fabric,
    hangings: &'a [Carrier],
    joins: &'a Joins,
    bridges: Bridges,
    room: Room,
    /// Places to anchor, in working order.
    anchors: Vec<Anchor>,
}

impl Threads<'_> {
    /// The body thread, and the path of its starting tail.
    fn body(&mut self) -> (ThreadPath, ThreadPath) {
        let (ground, needs) = (self.ground, self.needs);
        let chooser = Chooser::new(ground, needs, ThreadUse::Body);
        let stitch = stitch_named(needs.body.stitch);
        let first = ground.counted_from(0, needs.start, 1);
        let begins_at = stitch.foundation_starts(ground.stacks(0));
        let entry = ground.hole_end(first, begins_at);

        let work = (Phase::Section(SectionId(0)), Manner::Ladder);
        let made = (&mut self.bridges, &mut self.room);
        let mut needle = Needle::at(ground, made, ThreadUse::Body, entry, work);
        needle.leave_tail(needs.allowances.tail);
        let mut seam = Seam { joins: self.joins, chooser: &chooser, needs, anchors: &mut self.anchors };
        let mut join = |needle: &mut Needle, section| seam.before(needle, ThreadUse::Body, section);
        let above = needs.body.above;
        work_rows(&mut needle, stitch, 0..above, &mut join);
        let near = hung_from(ground);
        hang::work(&mut needle, needs, self.fabric, self.hangings, near);
        work_rows(&mut needle, stitch, above..ground.rows(), &mut join);
        let standing = needle.out_of().unwrap_or(Pass { stack: first, way: begins_at });
        let ending = chooser.choose(&needle.worked(), standing, &self.anchors, practice::ANCHOR_FAR);
        let anchor = self.anchors.len();
        self.anchors.push(ending.anchor(ThreadUse::Body, false, None));
        end_thread(&mut needle, &ending, (Phase::Ending(anchor), Manner::End), anchor, needs);
        let body = needle.into_moves();

        // The tail is only as long as it was left: it can be worked away near by, or not at all.
        let standing = Pass { stack: first, way: begins_at };
        let strung = ground.fabric.named_stacks().map(|(id, _)| id).collect();
        let worked = Worked { strung: &strung, room: &self.room };
        let beginning = chooser.choose(&worked, standing, &self.anchors, practice::ANCHOR_NEAR);
        let anchor = self.anchors.len();
        self.anchors.push(beginning.anchor(ThreadUse::Body, true, None));
        let work = (Phase::Tail, Manner::Tail);
        let made = (&mut self.bridges, &mut self.room);
        let mut needle = Needle::at(ground, made, ThreadUse::Body, entry, work);
        end_thread(&mut needle, &beginning, work, anchor, needs);
        (path(ThreadUse::Body, body), path(ThreadUse::Body, needle.into_moves()))
    }

    /// The fringe thread; empty where there is no strand.
    fn fringe(&mut self) -> ThreadPath {
        let (ground, needs) = (self.ground, self.needs);
        let mut strands: Vec<_> =
            self.fabric.of_kind(SectionKind::Strand).map(|(_, strand)| strand).collect();
        strands.sort_by_key(|strand| strand.number);
        let ends = [strands.first(), strands.last()].map(|strand| strand.and_then(|strand| strand.hangs_on));
        let [Some(first), Some(last)] = ends else {
            return path(ThreadUse::Fringe, Vec::new());
        };
        let chooser = Chooser::new(ground, needs, ThreadUse::Fringe);
        let first = Pass { stack: first, way: Way::Up };
        let strung = ground.fabric.named_stacks().map(|(id, _)| id).collect();
        let worked = Worked { strung: &strung, room: &self.room };
        let beginning = chooser.choose(&worked, first, &self.anchors, practice::ANCHOR_FAR);
        let anchor = self.anchors.len();
        self.anchors.push(beginning.anchor(ThreadUse::Fringe, true, None));
        let entry = beginning.far_end(ground).unwrap_or(ground.hole_end(first.stack, Way::Up));
        let work = (Phase::Beginning(anchor), Manner::Begin);
        let made = (&mut self.bridges, &mut self.room);
        let mut needle = Needle::at(ground, made, ThreadUse::Fringe, entry, work);
        needle.leave_tail(needs.allowances.tail);
        beginning.begin(&mut needle, anchor, needs.start);
        needle.turn_to(Phase::Travel, Manner::Begin);
        beginning.come_back(&mut needle);

        let mut seam = Seam { joins: self.joins, chooser: &chooser, needs, anchors: &mut self.anchors };
        fringe::work(&mut needle, needs, self.fabric, |needle, section| {
            seam.before(needle, ThreadUse::Fringe, section);
        });
        let last = Pass { stack: last, way: Way::Up };
        let ending = chooser.choose(&needle.worked(), last, &self.anchors, practice::ANCHOR_FAR);
        let anchor = self.anchors.len();
        self.anchors.push(ending.anchor(ThreadUse::Fringe, false, None));
        end_thread(&mut needle, &ending, (Phase::Ending(anchor), Manner::End), anchor, needs);
        path(ThreadUse::Fringe, needle.into_moves())
    }
}

/// Anchors a thread where it stands and cuts it.
pub(super) fn end_thread(
    needle: &mut Needle,
    walk: &AnchorWalk,
    work: (Phase, Manner),
    anchor: usize,
    needs: &Needs,
) {
    needle.turn_to(work.0, work.1);
    walk.end(needle, anchor, needs.start);
    needle.cut_tail(needs.allowances.tail);
}

fn path(thread: ThreadUse, moves: Vec<Move>) -> ThreadPath {
    ThreadPath { thread, moves }
}
