//! The foundation row in ladder stitch.

use super::needle::Needle;
use super::{Manner, Way};
use crate::design::Side;

/// Which way stack `k` of `n` is strung, counted from 1: so that the thread leaves the last one at
/// the top, ready for row 2.
pub(super) fn way(k: usize, n: usize) -> Way {
    if (n - k).is_multiple_of(2) { Way::Up } else { Way::Down }
}

/// Works row 1: stacks 1 and 2 together and through both again; then each further stack, through
/// the one before it and through itself again, each in its own direction.
pub(super) fn work(needle: &mut Needle, from: Side) {
    let n = needle.ground.stacks(0);
    let ground = needle.ground;
    let stack = |k: usize| (ground.counted_from(0, from, k), way(k, n));
    if n == 1 {
        // Nothing to ladder to: the thread goes round the outside, to hold the stack.
        needle.string_stacks(&[stack(1)]);
        needle.pass(stack(1).0, stack(1).1);
        return;
    }
    needle.string_stacks(&[stack(1), stack(2)]);
    needle.pass(stack(1).0, stack(1).1);
    needle.pass(stack(2).0, stack(2).1);
    needle.manner = Manner::LadderOn;
    for k in 3..=n {
        needle.string_stacks(&[stack(k)]);
        needle.pass(stack(k - 1).0, stack(k - 1).1);
        needle.pass(stack(k).0, stack(k).1);
    }
}
