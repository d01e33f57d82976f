//! The whole earring: both threads from beginning to end, and what is read off their paths.

use super::anchor::{AnchorWalk, Chooser, Standing};
use super::ground::Ground;
use super::needle::Needle;
use super::needs::Needs;
use super::rows::{starts_from, stitch_named, work_rows};
use super::{Anchor, Move, Phase, ThreadPath, ThreadUse, Way, Work, geometry, hang, plan, practice, words};
use super::{StackAt, fringe};

/// Index of each anchor in [`Work::anchors`]: working order.
const BODY_ENDS: usize = 0;
const BODY_BEGINS: usize = 1;
const FRINGE_BEGINS: usize = 2;
const FRINGE_ENDS: usize = 3;

/// Stitches an earring.
pub(super) fn stitch(needs: &Needs) -> Work {
    let ground = Ground::of(needs);
    let near = starts_from(ground.rows() - 1, needs.start).other();
    let mut anchors = Vec::new();
    let (body, tail) = body_thread(&ground, needs, &mut anchors);
    let fringe = fringe_thread(&ground, needs, &mut anchors);
    Work {
        start: needs.start,
        drop: needs.body.drop,
        loop_beads: needs.loop_beads().to_vec(),
        rows: words::rows(&body.moves, needs),
        fringe_from: needs.start,
        strands: words::strands(&fringe.moves, needs),
        cuts: plan::cuts(&body, &tail, &fringe, &needs.allowances),
        geometry: geometry::lay(&ground, needs, near),
        anchors,
        body,
        tail,
        fringe,
    }
}

/// The body thread, and the path of its starting tail.
fn body_thread(ground: &Ground, needs: &Needs, anchors: &mut Vec<Anchor>) -> (ThreadPath, ThreadPath) {
    let chooser = Chooser::new(ground, needs, needs.body_thread.colour);
    let stitch = stitch_named(needs.body.stitch);
    let first = ground.counted_from(0, needs.start, 1);
    let begins_at = stitch.foundation_starts(ground.stacks(0));
    let entry = ground.hole_end(first, begins_at);

    let mut needle = Needle::at(ground, entry, Phase::Row(0));
    needle.leave_tail(needs.allowances.tail);
    work_rows(&mut needle, stitch, needs.start);
    let top = ground.rows() - 1;
    let near = starts_from(top, needs.start).other();
    hang::work(&mut needle, needs, near);
    let hung = Standing { stack: ground.counted_from(top, near, 1), way: Way::Up };
    let ending = chooser.choose(hung, anchors, practice::ANCHOR_FAR);
    anchors.push(ending.anchor(ThreadUse::Body, false));
    end_thread(&mut needle, &ending, Phase::Ending(BODY_ENDS), BODY_ENDS, needs);
    let body = needle.into_moves();

    // The tail is only as long as it was left: it can be worked away near by, or not at all.
    let standing = Standing { stack: first, way: begins_at };
    let beginning = chooser.choose(standing, anchors, practice::ANCHOR_NEAR);
    anchors.push(beginning.anchor(ThreadUse::Body, true));
    let mut needle = Needle::at(ground, entry, Phase::Tail);
    end_thread(&mut needle, &beginning, Phase::Tail, BODY_BEGINS, needs);
    (path(ThreadUse::Body, body), path(ThreadUse::Body, needle.into_moves()))
}

/// The fringe thread; empty where there is no strand.
fn fringe_thread(ground: &Ground, needs: &Needs, anchors: &mut Vec<Anchor>) -> ThreadPath {
    if needs.strands.is_empty() {
        return path(ThreadUse::Fringe, Vec::new());
    }
    let chooser = Chooser::new(ground, needs, needs.fringe_thread.colour);
    let outer = |side| Standing { stack: ground.counted_from(0, side, 1), way: Way::Up };
    let first = outer(needs.start);
    let beginning = chooser.choose(first, anchors, practice::ANCHOR_FAR);
    anchors.push(beginning.anchor(ThreadUse::Fringe, true));
    let entry = beginning.far_end(ground).unwrap_or(upper_end(ground, first.stack));
    let mut needle = Needle::at(ground, entry, Phase::Beginning(FRINGE_BEGINS));
    needle.leave_tail(needs.allowances.tail);
    beginning.begin(&mut needle, FRINGE_BEGINS, needs.start);
    needle.phase = Phase::Travel;
    beginning.come_back(&mut needle);

    fringe::work(&mut needle, needs, needs.start);
    let ending = chooser.choose(outer(needs.start.other()), anchors, practice::ANCHOR_FAR);
    anchors.push(ending.anchor(ThreadUse::Fringe, false));
    end_thread(&mut needle, &ending, Phase::Ending(FRINGE_ENDS), FRINGE_ENDS, needs);
    path(ThreadUse::Fringe, needle.into_moves())
}

/// Anchors a thread where it stands and cuts it.
fn end_thread(needle: &mut Needle, walk: &AnchorWalk, phase: Phase, anchor: usize, needs: &Needs) {
    needle.phase = phase;
    walk.end(needle, anchor, needs.start);
    needle.cut_tail(needs.allowances.tail);
}

fn upper_end(ground: &Ground, stack: StackAt) -> crate::units::Point {
    ground.hole_end(stack, Way::Up)
}

fn path(thread: ThreadUse, moves: Vec<Move>) -> ThreadPath {
    ThreadPath { thread, moves }
}
