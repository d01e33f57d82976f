//! Brick stitch: a ladder foundation, then rows that hang on the thread bridges of the row below.

use super::needle::Needle;
use super::needs::Needs;
use super::rows::Stitch;
use super::{Manner, Way, ladder};
use crate::design::Side;

/// Brick stitch.
pub(super) struct Brick;

impl Stitch for Brick {
    fn begins(&self, needs: &Needs, row: usize) -> Manner {
        match (row, needs.stacks(row).len()) {
            (0, _) => Manner::Ladder,
            (_, 1) => Manner::Alone,
            _ => Manner::Narrower,
        }
    }

    fn foundation(&self, needle: &mut Needle, from: Side) {
        ladder::work(needle, from);
    }

    fn row(&self, needle: &mut Needle, row: usize, from: Side) {
        if needle.ground.stacks(row) == 1 {
            add(needle, row, from, 1);
            return;
        }
        start(needle, row, from);
        needle.manner = Manner::Onward;
        for i in 3..=needle.ground.stacks(row) {
            add(needle, row, from, i);
        }
    }

    fn foundation_starts(&self, stacks: usize) -> Way {
        ladder::way(1, stacks).back()
    }
}

/// Starts a row with two stacks at once, so that no thread shows at the edge.
fn start(needle: &mut Needle, row: usize, from: Side) {
    let first = needle.ground.counted_from(row, from, 1);
    let second = needle.ground.counted_from(row, from, 2);
    needle.string_stacks(&[(first, Way::Up), (second, Way::Down)]);
    needle.under_bridge_of(second, Way::Down);
    needle.pass(second, Way::Up);
    needle.pass(first, Way::Down);
    needle.pass(second, Way::Up);
}

/// Adds stack `i` of a row.
fn add(needle: &mut Needle, row: usize, from: Side, i: usize) {
    let stack = needle.ground.counted_from(row, from, i);
    needle.string_stacks(&[(stack, Way::Down)]);
    needle.under_bridge_of(stack, Way::Down);
    needle.pass(stack, Way::Up);
}
