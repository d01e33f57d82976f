//! The guard and the loop.

use super::sample::{Sample, bead, letter};
use crate::colour::Colour;
use crate::design::{Hang, Hanging, Side};
use crate::stitch::{Fabric, Lying, Move, MoveKind, Phase, SectionKind, Work, passes, passes_while};
use crate::units::Mm;

fn looped(drop: usize, foundation: usize, top: usize, beads: usize) -> Sample {
    let mut sample = Sample::plain(drop, foundation, top);
    sample.hangings[0].by = Hang::Loop(vec![letter('B'); beads]);
    sample
}

/// The beads of the loop.
fn in_loop(fabric: &Fabric) -> impl Iterator<Item = &Lying> {
    fabric.beads_of_kind(SectionKind::Loop)
}

/// The moves of the body thread at a guard or loop, by its number in working order.
fn at_hanging(work: &Work, index: usize) -> impl Iterator<Item = &Move> {
    work.body.moves.iter().filter(move |made| made.phase == Phase::Hanging(index))
}

fn hanging(work: &Work) -> String {
    hanging_of(work, 0)
}

fn hanging_of(work: &Work, index: usize) -> String {
    at_hanging(work, index)
        .map(|made| match &made.kind {
            MoveKind::ThroughGuard { towards } => format!("guard {towards:?}"),
            MoveKind::ThroughLoop { towards } => format!("loop {towards:?}"),
            MoveKind::String { .. } => format!("string {}", made.beads.len()),
            MoveKind::Pass(pass) => {
                let (row, stack) = (work.fabric.row_number(pass.stack), work.fabric[pass.stack].place + 1);
                format!("{row}.{stack} {:?}", pass.way)
            }
            other => format!("{other:?}"),
        })
        .collect::<Vec<_>>()
        .join(", ")
}

#[test]
fn a_guard_is_passed_twice() {
    let round = "guard Left, 3.1 Down, 2.1 Down, 2.2 Up, 2.3 Down, 2.4 Up, 3.3 Up";
    assert_eq!(hanging(&Sample::plain(2, 5, 3).stitch()), format!("{round}, {round}"));
    let round = "guard Right, 2.2 Down, 1.3 Down, 1.2 Up, 2.1 Up";
    assert_eq!(hanging(&Sample::plain(2, 3, 2).stitch()), format!("{round}, {round}"));
}

#[test]
fn hanging_turns_round_with_the_starting_side() {
    let mut sample = Sample::plain(2, 3, 2);
    sample.start = Side::Right;
    let round = "guard Left, 2.1 Down, 1.1 Down, 1.2 Up, 2.2 Up";
    assert_eq!(hanging(&sample.stitch()), format!("{round}, {round}"));
}

#[test]
fn one_stack_carries_both_ends() {
    let guard = "guard Left, 3.1 Down, 2.1 Down, 2.2 Up, 3.1 Up";
    assert_eq!(hanging(&Sample::plain(2, 3, 1).stitch()), format!("{guard}, {guard}"));
    let rest = "3.1 Down, 2.1 Down, 2.2 Up, 3.1 Up";
    assert_eq!(hanging(&looped(2, 3, 1, 8).stitch()), format!("string 8, {rest}, loop Left, {rest}"));
}

#[test]
fn a_loop_is_strung_once_and_passed_once_more() {
    let work = looped(1, 5, 3, 8).stitch();
    let counts = passes(&work);
    let strung: Vec<_> = in_loop(&work.fabric).map(|lying| counts[&lying.spot]).collect();
    assert_eq!(strung, [[2, 0]; 8]);
}

#[test]
fn every_loop_is_a_closed_ring_above_the_body() {
    for top in 1..=6 {
        for beads in 3..=24 {
            let mut sample = looped(2, 8, top, beads);
            sample.beads[1].length = Mm(1.7);
            let work = sample.stitch();
            let ends = at_hanging(&work, 0)
                .find(|m| matches!(m.kind, MoveKind::String { .. }))
                .map(|m| m.points[m.points.len() - beads - 1..].to_vec())
                .expect("a loop is strung");
            let span = 1.6 * (top as f64 - 1.0);
            let total = 1.7 * beads as f64;
            for pair in ends.windows(2) {
                assert!((pair[0].distance(pair[1]).0 - 1.7).abs() < 1e-6, "hole ends meet");
            }
            for (lying, ends) in in_loop(&work.fabric).zip(ends.windows(2)) {
                // The hole of each bead runs from end to end.
                let (sin, cos) = lying.turned.to_radians().sin_cos();
                let (dx, dy) = ((ends[1].x - ends[0].x).0, (ends[1].y - ends[0].y).0);
                assert!((dx * cos + dy * sin).abs() < 1e-6, "{lying:?}");
            }
            let lowest = |l: &crate::stitch::Lying| {
                let (sin, cos) = l.turned.to_radians().sin_cos();
                l.centre.y.0 + (1.6 * sin.abs() + 1.7 * cos.abs()) / 2.0
            };
            let lowest = in_loop(&work.fabric).map(lowest).fold(f64::MIN, f64::max);
            assert!(lowest < 1.7, "{top} {beads}: reaches {lowest} below the top");
            if total > span + 0.1 {
                let outer = |side| {
                    let stack = match side {
                        Side::Left => 0,
                        Side::Right => top - 1,
                    };
                    let row = &work.fabric[work.rows[8 - top].section];
                    work.fabric[row.stacks[stack]].upper.x
                };
                let near = work.rows[8 - top].from.other();
                assert!((ends[0].x - outer(near)).abs().0 < 1e-6, "{top} {beads}: over the near stack");
                assert!((ends[beads].x - outer(near.other())).abs().0 < 1e-6, "and the far one");
                assert!((ends[0].y - ends[beads].y).abs().0 < 1e-6 && ends[0].y < Mm(0.0));
                let gone = ends.iter().skip(1).take(beads - 1).all(|end| end.y < ends[0].y + Mm(1.7));
                assert!(gone, "{top} {beads}: bulges upwards");
            }
        }
    }
}

/// A top row of seven stacks hung from two guards, or from a guard and a loop.
fn hung_twice(start: Side, right: Hang) -> Work {
    let mut sample = Sample::plain(2, 8, 7);
    sample.start = start;
    sample.hangings =
        vec![Hanging { on: Some([1, 3]), ..Hanging::guard() }, Hanging { by: right, on: Some([5, 7]) }];
    sample.stitch()
}

#[test]
fn a_wide_row_hangs_from_two_guards_one_after_the_other() {
    let work = hung_twice(Side::Left, Hang::ThreadGuard);
    // Row 2 runs from the right, and ends at the left.
    let round = "guard Right, 2.3 Down, 1.4 Down, 1.3 Up, 1.2 Down, 1.1 Up, 2.1 Up";
    assert_eq!(hanging_of(&work, 0), format!("{round}, {round}"));
    let second = "guard Right, 2.7 Down, 1.8 Down, 1.7 Up, 1.6 Down, 1.5 Up, 2.5 Up";
    let told = hanging_of(&work, 1);
    let way = told.strip_suffix(&format!("{second}, {second}")).expect("two rounds at the end");
    assert_eq!(way, "2.2 Down, 2.3 Up, 2.4 Down, 2.5 Up, ");
    let stacks = work.hangings.iter().map(|carrier| carrier.stacks.map(|stack| work.fabric[stack].place + 1));
    assert_eq!(stacks.collect::<Vec<_>>(), [[1, 3], [5, 7]]);
}

#[test]
fn hangings_are_worked_from_the_side_where_the_thread_is() {
    let work = hung_twice(Side::Right, Hang::Loop(vec![letter('B'); 7]));
    assert!(hanging_of(&work, 0).starts_with("string 7, 2.5 Down"), "{}", hanging_of(&work, 0));
    assert!(hanging_of(&work, 1).contains("guard Left, 2.1 Down"), "{}", hanging_of(&work, 1));
    // Told apart by what they are, and where the first ends the second begins.
    let moves = &work.body.moves;
    let last = moves.iter().rposition(|made| made.phase == Phase::Hanging(0)).expect("worked");
    assert_eq!(moves[last + 1].phase, Phase::Hanging(1));
    assert_eq!(moves[last].points.last(), moves[last + 1].points.first());
    assert_eq!(work.loops().count(), 1);
    assert_eq!(work.fabric.name(work.loops().next().expect("a loop")), "loop");
}

#[test]
fn hanging_leaves_other_rows_alone() {
    let work = Sample::plain(1, 12, 4).stitch();
    for (spot, [body, _]) in passes_while(&work, |p| p == Phase::Hanging(0)) {
        let section = &work.fabric[work.fabric[spot].section];
        let row = section.number;
        assert!(section.kind != SectionKind::Row || body == 0 || row >= 8, "row {row}");
    }
}

#[test]
fn a_bead_longer_than_the_rest_of_its_loop_lies_in_a_line() {
    let mut sample = looped(1, 4, 2, 2);
    sample.beads[1] = bead(Colour::BLACK);
    let work = sample.stitch();
    let in_loop: Vec<_> = in_loop(&work.fabric).collect();
    assert_eq!(in_loop.len(), 2);
    assert!(in_loop.iter().all(|l| l.turned.abs() == 90.0));
}
