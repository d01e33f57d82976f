//! Threads are anchored where they do not show.

use super::sample::{Sample, letter};
use crate::colour::Colour;
use crate::design::{Side, Stack};
use crate::stitch::{Anchor, MoveKind, Phase, ThreadUse, Way, Work};
use crate::units::Mm;
use std::collections::BTreeSet;

/// A body whose left half is of one bead and whose right half is of another.
fn halves(width: usize, top: usize) -> Sample {
    let row = |m: usize| {
        (0..m).map(|s| Stack(vec![letter(if 2 * s < m { 'A' } else { 'B' }); 2])).collect::<Vec<_>>()
    };
    let mut sample = Sample::of_stacks((top..=width).rev().map(row).collect()).with_strands(5);
    sample.beads[0].colour = Colour::new(240, 238, 230);
    sample.beads[1].colour = Colour::new(30, 32, 48);
    sample
}

fn half_of(work: &Work, anchor: &Anchor) -> Option<Side> {
    let [left, right] = anchor.stacks.map(|stack| {
        let stack = &work.fabric[stack];
        let stacks = work.fabric[stack.section].stacks.len();
        if 2 * stack.place < stacks { Side::Left } else { Side::Right }
    });
    (left == right).then_some(left)
}

#[test]
fn a_light_thread_ends_in_the_light_half_and_a_dark_one_in_the_dark() {
    for (light_body, light_fringe) in [(true, true), (false, false), (true, false)] {
        let mut sample = halves(9, 3);
        let colour = |light| if light { Colour::WHITE } else { Colour::new(20, 20, 40) };
        sample.body_thread.colour = colour(light_body);
        sample.fringe_thread.colour = colour(light_fringe);
        let work = sample.stitch();
        for anchor in &work.anchors {
            let light = match anchor.thread {
                ThreadUse::Body => light_body,
                ThreadUse::Fringe => light_fringe,
            };
            let wanted = if light { Side::Left } else { Side::Right };
            assert_eq!(half_of(&work, anchor), Some(wanted), "{anchor:?}");
            assert!(anchor.is_close(), "{anchor:?}");
        }
    }
}

#[test]
fn in_one_colour_the_nearest_place_is_taken() {
    let work = Sample::plain(2, 17, 3).with_strands(25).stitch();
    let places: Vec<_> = work.anchors.iter().map(|anchor| anchor.numbers(&work.fabric)).collect();
    // The body ends below the guard, its tail and the fringe's beginning lie at the lower left (one
    // above the other, not both in one pair), the fringe's end at the lower right.
    assert_eq!(places, [(14, [2, 3]), (2, [1, 2]), (3, [1, 2]), (2, [15, 16])]);
    for made in work.body.moves.iter().filter(|m| matches!(m.phase, Phase::Ending(_))) {
        if let MoveKind::Pass(pass) = made.kind {
            assert_eq!(pass.way, Way::Down);
        }
    }
}

#[test]
fn the_beads_that_look_least_like_the_thread_are_reported_as_such() {
    let mut sample = Sample::plain(2, 6, 2).with_strands(5);
    sample.beads[0].colour = Colour::BLACK;
    assert!(sample.stitch().anchors.iter().all(|a| !a.is_close() && a.difference > 90.0));
}

#[test]
fn tiny_bodies_have_a_place_too() {
    for (width, top) in [(1, 1), (2, 1), (2, 2), (3, 2), (40, 40)] {
        for drop in 1..=3 {
            let work = Sample::plain(drop, width, top).with_strands(3).stitch();
            assert_eq!(work.anchors.len(), 4);
            assert!(work.anchors.iter().all(|a| a.numbers(&work.fabric).0 == 1), "{width} to {top}");
        }
    }
}

#[test]
fn no_two_anchors_share_a_pair_where_another_is_as_close_in_colour() {
    let mut joined = 0;
    for start in [Side::Left, Side::Right] {
        for drop in 1..=3 {
            for (width, top) in [(6, 3), (9, 3), (17, 3), (20, 1), (40, 10), (60, 31)] {
                for span in [1800.0, 700.0] {
                    let mut sample = Sample::plain(drop, width, top).with_strands(4);
                    // Two letters, one a little less like the thread: it is as good a place.
                    for (at, stack) in sample.body.rows.iter_mut().flat_map(|row| &mut row.stacks).enumerate()
                    {
                        stack.0.fill(letter(if at % 7 == 0 { 'A' } else { 'B' }));
                    }
                    sample.beads[0].colour = Colour::new(250, 250, 250);
                    sample.beads[1].colour = Colour::new(225, 225, 225);
                    sample.start = start;
                    sample.allowances.arm_span = Mm(span);
                    let work = sample.stitch();
                    assert!(work.anchors.iter().all(Anchor::is_close));
                    let pairs: BTreeSet<_> = work.anchors.iter().map(|anchor| anchor.stacks).collect();
                    let places: Vec<_> = work.anchors.iter().map(|a| a.numbers(&work.fabric)).collect();
                    assert_eq!(
                        pairs.len(),
                        places.len(),
                        "{drop}-drop {width} to {top}, {start:?}: {places:?}"
                    );
                    joined += places.len() - 4;
                }
            }
        }
    }
    assert!(joined > 100, "{joined} joins");
}
