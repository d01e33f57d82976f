//! Threads go round holes that are full.

use super::sample::{Sample, letter};
use crate::stitch::ground::Ground;
use crate::stitch::room::Room;
use crate::stitch::travel::Travel;
use crate::stitch::{MoveKind, Pass, Phase, StackId, ThreadUse, Way, passes};
use crate::units::Mm;

#[test]
fn a_stack_takes_passes_until_its_hole_is_tight() {
    let sample = Sample::plain(2, 4, 2);
    let needs = sample.needs();
    let ground = Ground::of(&needs);
    let mut room = Room::of(&ground, &needs);
    let stack = ground.row(0)[1];
    // Threads of 0.15 mm in a hole of 0.8 mm that may be filled to 0.85: as many as lie in 0.68 mm. Radii of the
    // published packings: thirteen circles need more than 4.03 radii, and 0.68 / 0.15 is 4.53; nineteen need 4.86.
    let mut made = 0;
    while room.takes(stack, ThreadUse::Body) {
        room.pass(stack, ThreadUse::Body);
        made += 1;
    }
    assert!((13..19).contains(&made), "{made}");
    assert_eq!(
        room.lacking(
            &[Pass { stack, way: Way::Up }, Pass { stack: ground.row(0)[2], way: Way::Up }],
            ThreadUse::Fringe
        ),
        1
    );
}

#[test]
fn travel_goes_round_a_full_stack_where_it_can() {
    let sample = Sample::plain(1, 6, 3);
    let needs = sample.needs();
    let ground = Ground::of(&needs);
    let travel = Travel { ground: &ground, first: needs.start };
    let from = Pass { stack: ground.row(2)[1], way: Way::Down };
    let wanted = |pass: Pass| pass == Pass { stack: ground.row(0)[2], way: Way::Down };
    let through = |free: &dyn Fn(StackId) -> bool| travel.way(from, &wanted, free);
    let shortest = through(&|_| true).expect("a way");
    let full = shortest[0].stack;
    let round = through(&|stack| stack != full).expect("another way");
    assert!(round.iter().all(|pass| pass.stack != full) && round.len() >= shortest.len());
}

#[test]
fn a_thread_is_not_anchored_where_it_would_be_tight_if_there_is_another_place() {
    let tight = |hole: f64| {
        let mut sample = Sample::plain(1, 9, 3).with_strands(4);
        // The beads of the left half, nearest to where the tail and the fringe begin, have narrow holes.
        for row in &mut sample.body.rows {
            let half = row.stacks.len() / 2;
            row.stacks[..half].iter_mut().for_each(|stack| stack.0[0] = letter('B'));
        }
        sample.beads[1].hole = Mm(hole);
        let work = sample.stitch();
        let anchored = |phase: Phase| matches!(phase, Phase::Tail | Phase::Ending(_) | Phase::Beginning(_));
        let moves = work.body.moves.iter().chain(&work.tail.moves).chain(&work.fringe.moves);
        let passed = moves.filter(|made| anchored(made.phase) && matches!(made.kind, MoveKind::Pass(_)));
        let narrow = passed
            .flat_map(|made| &made.beads)
            .filter(|spot| work.fabric[**spot].letter == letter('B'))
            .count();
        (narrow, passes(&work).len())
    };
    assert!(tight(0.8).0 > 0, "wide holes are used");
    assert!(tight(0.4).0 < tight(0.8).0, "{:?} against {:?}", tight(0.4), tight(0.8));
}
